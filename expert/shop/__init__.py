"""For the shop: what saved traces tell. Reads traces, never writes on them.

- `audit.py`: verify a trace and tell its reasoning; start here
- `audit_story.py`: from records to the head of the job and its events, each with its reasons
- `audit_reasons.py`: on which answers a fault rests, from the records alone
- `audit_words.py`, `audit_data.py`: the same as text and as data
- `audit_views.py`: one screen, or the tree of one conclusion
- `review/`: a senior's verdict beside the sealed trace; `sums/`: over many jobs; `report/`: pages to look at and print
- `redacting.py`: copies for sharing
"""
