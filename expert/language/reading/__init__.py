"""How records are read: the keys of the language, its names, and typed fields that report what is wrong in them.

`shapes.py` has the keys of every record, `survey.py` gathers all names (`names.py`), `record.py` and `reader.py` read
one mapping, `draft.py` holds what has been read so far. What each file holds is read in `expert.language.records`.
"""
