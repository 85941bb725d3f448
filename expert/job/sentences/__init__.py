"""What the job says, in sentences: reworded or translated here, and nowhere else.

A sentence without values is a name, one with values a function of them. Whoever says it names it and hands over its
values, and the type checker refuses what is not here. One module for each phase. What rules say stands in the rules;
which of them tell a record, a limit or a reason is decided in `job/wording/`.
"""
