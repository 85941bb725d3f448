"""The record of a job: one append-only file, one JSON object on each line.

`records` says what can happen in a job, as plain typed data; `json_values` turns such data into JSON and back, driven
by the types; `lines` is one line of the file. `writing` appends and makes sure of the disk, `reading` reads back,
`verifying` finds later changes, `schema` publishes the format, `places` names the files, `cleaning` makes text safe
to show. Nothing here knows how a job is run. Start with records.py.
"""
