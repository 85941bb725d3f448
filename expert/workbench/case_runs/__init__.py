"""Running many worked cases: on all cores, and only those that an edit touches.

`cores.py` plays them side by side; `footprint.py` says what a case looked at, `content.py` what stands there now, and
`remembered.py` keeps both between runs.
"""
