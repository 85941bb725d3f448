"""Which questions can matter at all.

An answer changes the standing of a suspect, answers a complaint or shows a danger only through rules. So a question
that none of these rules rests on needs no weighing.
"""

from __future__ import annotations

from expert.engine.knowledge import Knowledge
from expert.engine.suspicion import Picture


def questions_that_bear(knowledge: Knowledge, picture: Picture) -> frozenset[str]:
    """The questions behind the open suspects, their dangers, and the normal behaviours of the open complaints.

    Any other question leaves every suspect as it is, whatever the answer.
    """
    faults = [suspect.fault for suspect in picture.suspects]
    behind_faults = [knowledge.questions_behind.get(fault, frozenset()) for fault in faults]
    rules = [rule for fault in faults for rule in knowledge.dangers_of[fault]]
    rules += [rule for complaint in picture.complaints_open for rule in knowledge.normal_rules.get(complaint, ())]
    return frozenset().union(*behind_faults, *(knowledge.rule_questions[rule] for rule in rules))
