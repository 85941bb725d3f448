"""A machine that does not come to what a move leads to shows by that what is wrong with it: that is looked at."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

from expert.engine.knowledge import Knowledge, knowledge_of
from expert.job.state.job import Phase
from expert.language.load import read_rules
from expert.trace.records import ComplaintNow, Found
from tests.dialogue.conftest import Desk
from tests.dialogue.small_folder import FILES

HEAT = """\
  heat_up:
    {say: Let it heat up., needs: {mains: on}, makes: {boiler: hot}, minutes: 15, steps: [Wait.], confirm: Is it hot?,
     look_instead: [warms_up]}
"""
ELEMENT = """\
  element:
    name: element
    faults:
      open:
        name: open
        seen: occasional
        explains: [stays_cold]
        shows: {warms_up: no}
        repair: {minutes: 20, steps: [Fit a new element.], bench: {mains: isolated, covers: off}}
        prove: [boiler_pressure]
questions:
  warms_up: {ask: Does it warm up?, answer: yes_no, sound: yes, how: Feel it., bench: {mains: on}, minutes: 5}
"""
RULES = """\
rules:
  element_is_open: {if: {warms_up: no}, then: {confirm: element.open}, because: Nothing else heats.}
  element_is_whole: {if: {warms_up: yes}, then: {clear: element.open}, because: It heats.}
"""


def changed(name: str, *pairs: tuple[str, str]) -> str:
    text = FILES[name]
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new)
    return text


@cache
def knowledge(look: bool = True) -> Knowledge:
    """The small rules with a boiler that heats up by a move, and an element that may be open."""
    bench = changed(
        "bench.yaml",
        ("  covers: [on, off]\n", "  covers: [on, off]\n  boiler: [cold, hot]\n"),
        ("covers: on}}\n", "covers: on, boiler: cold}}\n"),
    )
    complaints = changed("complaints.yaml") + (
        "  stays_cold: {name: Cold, seen: {warms_up: no}, raised_when: {warms_up: no}, gone_when: {warms_up: yes}}\n"
    )
    circuit = changed(
        "circuits/fill.yaml",
        ("questions:\n", ELEMENT),
        ("rules:\n", RULES),
        ("how: Heat up from cold and wait.\n    bench: {mains: on, covers: on}",
         "how: Wait.\n    bench: {mains: on, covers: on, boiler: hot}"),
        ("how: Read it.\n    bench: {mains: on, covers: on}",
         "how: Read it.\n    bench: {mains: on, covers: on, boiler: hot}"),
    )  # fmt: skip
    move = HEAT if look else HEAT.replace("look_instead: [warms_up]", "")
    files = {"bench.yaml": bench + move, "complaints.yaml": complaints, "circuits/fill.yaml": circuit}
    return knowledge_of(read_rules({**FILES, **files}))


def go_on(desk: Desk, ended: Callable[[], bool], **answers: str) -> Desk:
    """Answer yes, or as told here by the question's name, until it is so."""
    for _ in range(30):
        if ended():
            return desk
        desk.type(answers.get(desk.job.prompt.subject, "yes"))
    raise AssertionError(desk.job.prompt)


def hissing(look: bool = True) -> Desk:
    """A job on a machine said to hiss on heat-up, which waits for the machine to get hot."""
    desk = Desk(knowledge(look))
    desk.type("Ann", "1", "ok", "hiss", "1", "ok", "no", "1")
    return go_on(desk, lambda: desk.job.prompt.subject == "heat_up")


def test_what_shows_why_is_put_next_and_the_cause_is_found() -> None:
    desk = hissing()
    said = desk.type("no")
    assert said[:2] == [
        "Noted: that cannot be done now. Looking for another way.",
        "A machine that does not come to it shows by that what is wrong with it. That is looked at first.",
    ]
    assert desk.job.prompt.subject == "warms_up"
    go_on(desk, lambda: desk.job.phase is not Phase.FIND, warms_up="no", heat_up="no")
    assert [record.fault for record in desk.records if isinstance(record, Found)] == ["element.open"]


def test_it_is_put_once_and_not_where_the_answer_is_known() -> None:
    desk = hissing()
    desk.type("no", "yes", "no")
    assert [given.question for given in desk.job.given.values()] == ["warms_up"]
    assert desk.job.phase is Phase.CLOSE


def test_a_repaired_machine_may_come_to_it_now() -> None:
    desk = hissing()
    desk.type("no")
    go_on(desk, lambda: desk.job.prompt.kind == "repair", warms_up="no", heat_up="no")
    assert desk.job.impossible == {"heat_up"}
    desk.type("done")
    assert desk.job.impossible == frozenset()


def test_in_the_proof_it_is_a_proof_and_what_fails_is_looked_for() -> None:
    desk = hissing()
    desk.type("no")
    go_on(desk, lambda: desk.job.prompt.kind == "repair", warms_up="no", heat_up="no")
    desk.type("done")
    go_on(desk, lambda: desk.job.prompt.subject == "heat_up")
    desk.type("no")
    assert (desk.job.phase, desk.job.prompt.kind, desk.job.prompt.subject) == (Phase.PROVE, "proof", "warms_up")
    desk.type("no")
    assert desk.job.phase is Phase.FIND
    assert [record.complaint for record in desk.records if isinstance(record, ComplaintNow)][-1] == "stays_cold"


def test_without_it_the_search_ends_with_nothing() -> None:
    desk = hissing(look=False)
    desk.type("no", "no")
    assert desk.job.phase is Phase.CLOSE and not desk.job.given
