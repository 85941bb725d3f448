"""How records are read: names and typed fields, each reporting what is wrong in them.

`survey.py` gathers all names (`names.py`), `record.py` and `reader.py` read one mapping by its shape (from
`expert.language.keys`), `values.py` its fields by their kinds, `draft.py` holds what has been read so far. What each
file holds is read in `expert.language.records`.
"""
