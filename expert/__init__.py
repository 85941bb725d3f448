"""A rule-based expert system for the espresso machine repair bench.

`trade` (units, instruments, calculations) <- `language` (rule files to a checked rule base) <- `engine`
(possible outcomes, narrowed) <- `trace` (the record of a job) <- `job` (the job itself, pure) <- `desk` (the job with
its files) <- `terminal` <- `workbench` and `shop` <- `cli`. Imports run only in that direction. Start with
`expert.engine`.
"""

__version__ = "0.1.0"
