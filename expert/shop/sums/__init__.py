"""Sums over many jobs, from an index that is rebuilt from the traces at any time and is never the truth itself.

- `facts.py`: what one trace says that can be added up; `gather.py` gathers it
- `index.py`: the index, brought up to date with a folder of traces; `tables.py`: its tables
- `filters.py`: which jobs count; `totals.py`: the sums; `words.py`: as text, JSON and CSV
- `frequencies.py`: how often each fault is seen, as an edit of the rules

Why DuckDB and not SQLite: over the same 100,000 jobs (2 million answers, 1.5 million fired rules) six sums took 0.10 s
against 2.2 s, the index 9 MB against 85 MB, filling it 1.0 s against 2.6 s
(`python -m tests.benchmarks.shop_stores`).

100,000 traces of today are read the first time in 130 s of processor by two processes side by side, less than half of
what DuckDB takes to read as many of the same files plainly; afterwards the sums take 1 s of processor, and no process
more than 275 MB (`python -m tests.benchmarks.shop`).
"""
