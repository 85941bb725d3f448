"""Traces of earlier programs and rules, kept for good: every later version resumes and audits them."""
