"""What each rule file holds, one module each: circuits with parts, questions, worked-out values and rules; the bench;
the short files. Nodes in, records of `expert.language.model` out.
"""
