"""The judge knows a good trace, and finds whatever is wrong in a bad one. No dialogue is asked here."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

import pytest

from expert.trace.records import (
    Answered,
    CautionShown,
    Cleared,
    Closed,
    CustomerTold,
    Fired,
    HandedOver,
    HazardOpened,
    HazardReleased,
    Moved,
    NoLongerHolds,
    Opened,
    Paused,
    PromptPut,
    Record,
    Refused,
    Repaired,
    Resumed,
    Said,
    Stopped,
    TakenBack,
    TakenIn,
    Worker,
)
from tests.safety.judge import judged
from tests.safety.small_bench import small_bench

BASE = small_bench().base
START = {"mains": "isolated", "covers": "on", "boiler": "cold", "altered": "nothing"}


def moved(move: str, **state: str) -> Moved:
    return Moved(move, {**START, **state}, 1.0)


def answered(number: int, question: str, *outcomes: str) -> Answered:
    return Answered(number, question, outcomes[0], outcomes, BASE.questions[question].outcomes)


def opened(hazard: str, number: int = 0) -> HazardOpened:
    return HazardOpened(hazard, "", "", BASE.hazards[hazard].forbids, (), number)


def put(prompt: str, question: str) -> PromptPut:
    return PromptPut(prompt, question, "")  # type: ignore[arg-type]


def shown(caution: str) -> CautionShown:
    return CautionShown(caution, "")


INTAKE = (
    Opened("", "", "7"),
    put("intake", "technician"),
    Said("Ann"),
    TakenIn("Ann", "", "test_machine", (), (), ("leaks",), qualified=False),
)
# A leak is found: the plug comes out and stays out, the hose is changed and dry, the coil is measured, all is closed.
GOOD: tuple[Record, ...] = (
    *INTAKE,
    moved("arrives plugged", mains="on", boiler="hot"),
    opened("not_measured"),
    shown("isolate"),
    put("move", "isolate"),
    Said("out"),
    moved("isolate", boiler="hot"),
    shown("isolate"),
    put("move", "open"),
    Said("off"),
    moved("open", boiler="hot", covers="off"),
    put("question", "hose_is_dry"),
    Said("no"),
    answered(1, "hose_is_dry", "no"),
    opened("wet", 1),
    Refused("wet", "energise", "move switch_on"),
    put("repair", "hose.split"),
    Said("done"),
    Repaired("hose.split", 10.0, "done"),
    NoLongerHolds(1, "hose_is_dry", "hose.split"),
    put("proof", "hose_is_dry"),
    Said("yes"),
    answered(2, "hose_is_dry", "yes"),
    HazardReleased("wet", "repair", ("repair hose.split", "answer 2")),
    shown("isolate"),
    put("question", "coil"),
    Said("950"),
    answered(3, "coil", "sound"),
    HazardReleased("not_measured", "tests", ("answer 3",)),
    put("move", "close"),
    Said("closed"),
    moved("close", boiler="hot"),
    shown("isolate"),
    put("move", "switch_on"),
    Said("on"),
    moved("switch_on", boiler="hot", mains="on"),
    put("question", "pump_runs"),
    Said("yes"),
    answered(4, "pump_runs", "yes"),
    shown("isolate"),
    put("move", "isolate"),
    Said("out"),
    moved("isolate", boiler="hot"),
    put("close", "ending"),
    Said("1"),
    Closed("repaired", 30.0, (), ""),
)

HANDED_OVER = (HandedOver(""), CustomerTold(("DO NOT USE IT.",)), Closed("handed_over", 30.0, (), ""))

Change = Callable[[list[Record]], list[Record]]


def at(records: list[Record], record: Record, occurrence: int = 0) -> int:
    return [place for place, other in enumerate(records) if other == record][occurrence]


def without(record: Record, occurrence: int = 0) -> Change:
    def change(records: list[Record]) -> list[Record]:
        del records[at(records, record, occurrence)]
        return records

    return change


def instead(record: Record, *others: Record) -> Change:
    def change(records: list[Record]) -> list[Record]:
        place = at(records, record)
        return [*records[:place], *others, *records[place + 1 :]]

    return change


def before(record: Record, *others: Record, occurrence: int = 0) -> Change:
    def change(records: list[Record]) -> list[Record]:
        place = at(records, record, occurrence)
        return [*records[:place], *others, *records[place:]]

    return change


WET = answered(1, "hose_is_dry", "no")
END = put("close", "ending")
LIVE = moved("switch_on_open", boiler="hot", covers="off", mains="on")
REPAIR = put("repair", "hose.split")
CHANGES: Mapping[str, tuple[Change, set[str]]] = {
    "nothing": (lambda records: records, set()),
    "a caution left out": (without(shown("isolate"), 0), {"cautions"}),
    "a caution before a test left out": (without(shown("isolate"), 2), {"cautions"}),
    "a caution shown again in the same state": (before(put("question", "coil"), shown("isolate")), {"repeated"}),
    "confirmed by a yes": (instead(Said("out"), Said("y")), {"word"}),
    "another state than the move makes": (
        instead(moved("open", boiler="hot", covers="off"), moved("open", boiler="cold", covers="off")),
        {"account"},
    ),
    "a test in the wrong state": (before(put("move", "open"), put("question", "hose_is_dry")), {"bench"}),
    "a move that does not start here": (before(put("move", "open"), put("move", "close")), {"bench"}),
    "live work for the unqualified": (
        before(REPAIR, shown("isolate"), put("move", "switch_on_open")),
        {"live", "forbidden", "repeated"},
    ),
    "qualified by whoever came later": (
        before(REPAIR, Worker("Bo", qualified=True), shown("isolate"), put("move", "switch_on_open")),
        {"forbidden", "repeated"},
    ),
    "no longer qualified": (
        before(
            put("question", "hose_is_dry"),
            Worker("Bo", qualified=True),
            Worker("Cy", qualified=False),
            shown("isolate"),
            put("move", "switch_on_open"),
        ),
        {"live", "repeated"},
    ),
    "energised though wet": (
        lambda records: [*records[: at(records, REPAIR)], Said("live"), LIVE, put("question", "pump_runs")],
        {"bench", "live", "forbidden"},
    ),
    "a repair with the mains on": (
        lambda records: [*records[: at(records, REPAIR)], Said("live"), LIVE, REPAIR],
        {"bench", "live", "forbidden", "repair-energised"},
    ),
    "a caution forgotten after a pause": (
        before(put("question", "pump_runs"), Resumed("", ""), put("question", "hiss_ends")),
        {"cautions"},
    ),
    "a caution that lasts while it is hot": (
        before(
            put("question", "pump_runs"),
            shown("steam"),
            moved("stands as recorded", boiler="hot", mains="on"),
            put("question", "hiss_ends"),
        ),
        set(),
    ),
    "open and not recorded": (without(opened("wet", 1)), {"not-recorded"}),
    "open from the start and not recorded": (without(opened("not_measured")), {"not-recorded"}),
    "released without the repair": (without(Repaired("hose.split", 10.0, "done")), {"release", "fine", "forbidden"}),
    "released by a test before the repair": (
        lambda records: instead(REPAIR, answered(2, "hose_is_dry", "yes"), REPAIR)(
            without(answered(2, "hose_is_dry", "yes"))(records)
        ),
        {"release", "fine", "forbidden"},
    ),
    "released by an unsure reading": (
        instead(answered(3, "coil", "sound"), answered(3, "coil", "sound", "shorted")),
        {"release", "fine"},
    ),
    "never released, and fine": (without(HazardReleased("not_measured", "tests", ("answer 3",))), {"fine"}),
    "never released, and handed over": (
        lambda records: instead(Closed("repaired", 30.0, (), ""), *HANDED_OVER)(
            without(HazardReleased("not_measured", "tests", ("answer 3",)))(records)
        ),
        set(),
    ),
    "handed over, and the slip does not say so": (
        instead(Closed("repaired", 30.0, (), ""), HandedOver(""), Closed("handed_over", 30.0, (), "")),
        {"slip"},
    ),
    "an unsure reading opens": (instead(WET, answered(1, "hose_is_dry", "no", "yes")), set()),
    "a suspicion opens, unseen": (
        before(END, Fired("too_much_pressure", (), "")),
        {"not-recorded", "fine"},
    ),
    "a complaint opens, unseen": (
        instead(INTAKE[-1], replace(INTAKE[-1], complaint_keys=("leaks", "blows"))),  # type: ignore[type-var]
        {"not-recorded", "fine"},
    ),
    "taken back and not answered anew": (
        before(REPAIR, Said("yes"), TakenBack(1, "hose_is_dry"), HazardReleased("wet", "taken back", ())),
        {"release"},
    ),
    "taken back and answered anew": (
        lambda records: [
            *records[: at(records, REPAIR)],
            TakenBack(1, "hose_is_dry"),
            put("question", "hose_is_dry"),
            answered(2, "hose_is_dry", "yes"),
            HazardReleased("wet", "taken back", ("answer 2",)),
            put("move", "close"),
        ],
        set(),
    ),
    "taken back though nothing was": (
        before(REPAIR, HazardReleased("wet", "taken back", ())),
        {"release"},
    ),
    "a stop that nothing keeps": (
        before(put("question", "coil"), Stopped("too_much_pressure", "")),
        {"stop-without-hazard"},
    ),
    "a stop that a hazard keeps": (before(REPAIR, Stopped("too_much_pressure", "")), set()),
    "lifted by whoever works": (before(REPAIR, Cleared("ann")), {"own-word"}),
    "closed with something altered": (
        before(
            put("move", "close"),
            moved("test coil", boiler="hot", covers="off", altered="for_test"),
        ),
        {"bench", "account", "altered"},
    ),
    "another test with something altered": (
        before(put("repair", "hose.split"), Moved("test water_before_valve", {**START, "altered": "for_test"}, 0.0)),
        {"account", "altered", "bench"},
    ),
    "left while it blows": (
        lambda records: instead(INTAKE[-1], replace(INTAKE[-1], complaint_keys=("blows",)))(  # type: ignore[type-var]
            before(put("move", "isolate"), opened("blowing"), Paused())(records)
        )[:10],
        {"left"},
    ),
    "handed over with the plug in": (before(put("move", "isolate"), HandedOver("")), {"left"}),
    "fine with the covers off": (before(put("move", "close"), Closed("repaired", 1.0, (), "")), {"fine"}),
    "fine without a last look": (
        lambda records: without(answered(2, "hose_is_dry", "yes"))(records),
        {"fine", "release", "forbidden"},
    ),
}


@pytest.mark.parametrize("name", CHANGES)
def test_it_finds_what_is_wrong(name: str) -> None:
    change, codes = CHANGES[name]
    found = judged(BASE, change(list(GOOD)))
    assert {violation.code for violation in found} == codes, "\n".join(map(str, found))
