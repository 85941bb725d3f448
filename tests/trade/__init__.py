"""Tests of units, instruments and figures."""
