"""What a senior says of a finished job: appended beside its sealed trace, chained, and signed where the shop has a key.

- `places.py`: the file beside the trace
- `records.py`: one review; `book.py`: reading and appending
"""
