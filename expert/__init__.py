"""A rule-based expert system for the espresso machine repair bench.

`trade` (units, instruments, calculations) <- `language` (rule files to a checked rule base) <- `engine`
(possible outcomes, narrowed) <- `trace` (the record of a job) <- `dialogue` (the job itself) <- `workbench`
and `shop` <- `cli`. Imports run only in that direction. Start with `expert.engine`.
"""
