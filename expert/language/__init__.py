"""Rule files in YAML to a checked, immutable rule base; problems with file, line and column.

`model/` holds the records and `keys/` every key of the language: start there. `load.py` is the way in: text to nodes
(`yaml/`), a survey of all names, then nodes to records (`reading/` reads one record, `records/` knows what each file
holds, `formulas/` what stands in a formula), then the checks on the whole (`checks/`). `worked/` reads worked cases and
answers files. No YAML leaves this package, and nothing in it is ever executed.
"""
