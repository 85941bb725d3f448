"""`expert bench --answers FILE --json`: the seven outcomes, the promised keys in each of them, and what is refused."""

from __future__ import annotations

import json
import math
import re
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from expert.trace.reading import read_trace
from tests.dialogue.command_line import Ran, Shop, run
from tests.dialogue.outcome_schema import SCHEMA
from tests.dialogue.small_rules import MACHINE

MANUAL = (Path(__file__).parents[2] / "rules" / "README.md").read_text(encoding="utf-8")

COIL_LIVE = (
    "how: Pull one lead off.\n    bench: {mains: isolated, covers: off}",
    "how: Pull one lead off.\n    bench: {mains: on, covers: off}",
)
NO_FILL = "complaints: [will_not_fill]\n"


@pytest.fixture
def shop(tmp_path: Path) -> Shop:
    return Shop.at(tmp_path)


def outcome(shop: Shop, text: str, machine: str = "test_machine") -> dict[str, Any]:
    """The outcome of a job that must be playable; held to the schema each time."""
    ran = shop.play(f"machine: {machine}\n{text}")
    assert (ran.code, ran.err) == (0, "")
    result: dict[str, Any] = json.loads(ran.out)
    jsonschema.validate(result, SCHEMA)
    # What is handed over stays open for whoever takes it on.
    assert read_trace(Path(result["trace"])).is_sealed is (result["ending"] != "handed_over")
    return result


def asked(result: dict[str, Any]) -> list[tuple[str, str, object]]:
    return [(row["question"], row["answer"], row["reading"]) for row in result["asked"]]


def test_a_found_fault_in_full(shop: Shop) -> None:
    answers = "answers: {pump_runs: yes, water_arrives: no, coil: OL}\nafter_repair: {water_arrives: yes}\n"
    found = outcome(shop, NO_FILL + answers)
    *told, nothing = (entry["why"].pop("bits") for entry in found["asked"])
    # A question tells no more than the logarithm of its outcomes: yes or no; open, shorted or sound. A proof is put for
    # another reason.
    assert 0 < told[0] <= math.log2(2) and 0 < told[1] <= math.log2(3) and nothing is None
    assert found == {
        "job": "0001",
        "outcome": "found",
        "findings": [
            {
                "fault": "valve.coil_open",
                "part": "valve",
                "name": "fill valve: coil open",
                "standing": "found",
                "because": ["A coil without continuity cannot lift its plunger."],
            }
        ],
        "short_list": [],
        "suspects": [],
        "normal": [],
        "complaints_open": [],
        "not_accounted_for": [],
        "asked": [
            {
                "question": "pump_runs",
                "answer": "yes",
                "reading": "yes",
                "minutes": 1.0,
                "why": {
                    "aim": "pump_runs",
                    "ahead_by": None,
                    "before_move": None,
                    "settles": ["pump.dead"],
                },
            },
            {
                "question": "coil",
                "answer": "OL",
                "reading": "open",
                "minutes": 3.0,
                "why": {
                    "aim": "coil",
                    "ahead_by": None,
                    "before_move": None,
                    "settles": ["valve.coil_open"],
                },
            },
            {
                "question": "water_arrives",
                "answer": "yes",
                "reading": "yes",
                "minutes": 2.0,
                "why": {"aim": "water_arrives", "ahead_by": None, "before_move": None, "settles": []},
            },
        ],
        "cautions": ["isolate"],
        "stops": [],
        "moves": ["arrives cold", "switch_on", "isolate", "open", "close", "switch_on", "isolate"],
        "proofs": [{"question": "water_arrives", "answer": "yes", "passed": True}],
        "ending": "repaired",
        "minutes": 41.0,
        "trace": str(shop.jobs / "0001.jsonl"),
    }


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        pytest.param(
            NO_FILL + "answers: {pump_runs: no}\n",
            {"outcome": "found", "ending": "unrepaired", "proofs": [], "suspects": []},
            id="found, not repaired",
        ),
        pytest.param(
            NO_FILL + "answers: {pump_runs: yes, water_arrives: no, coil: 950}\n",
            {
                "outcome": "left_by_elimination",
                "findings": [
                    {
                        "fault": "valve.stuck",
                        "part": "valve",
                        "name": "fill valve: stuck shut",
                        "standing": "left_by_elimination",
                        "because": ["All other faults that explain the complaint are cleared."],
                    }
                ],
                "suspects": [{"fault": "valve.stuck", "weight": 8}],
                "complaints_open": ["will_not_fill"],
                "not_accounted_for": ["water_arrives"],
                "ending": "unrepaired",
            },
            id="left by elimination",
        ),
        pytest.param(
            NO_FILL + "answers: {pump_runs: yes, coil: 950}\n",
            {"outcome": "narrowed", "findings": [], "short_list": ["valve.stuck"], "ending": "unrepaired"},
            id="not left by elimination while the bench has not shown the complaint",
        ),
        pytest.param(
            NO_FILL + "answers: {pump_runs: yes, water_arrives: no}\n",
            {
                "outcome": "narrowed",
                "findings": [],
                "short_list": ["valve.coil_open", "valve.stuck"],
                "suspects": [{"fault": "valve.coil_open", "weight": 10}, {"fault": "valve.stuck", "weight": 5}],
                "ending": "unrepaired",
            },
            id="narrowed",
        ),
        pytest.param(
            "complaints: [hisses]\nanswers: {hiss_ends: click}\n",
            {
                "outcome": "normal",
                "findings": [],
                "normal": ["hisses"],
                "ending": "normal",
                "cautions": ["steam", "isolate"],
            },
            id="normal",
        ),
        pytest.param(
            "complaints: [blows]\nanswers: {boiler_pressure: 2 bar}\nafter_repair: {boiler_pressure: 1 bar}\n",
            {
                "outcome": "stopped",
                "findings": [],
                "stops": [
                    {
                        "rule": "too_much_pressure",
                        "text": "The boiler pressure is out of control. Pull the plug.",
                    }
                ],
                "suspects": [{"fault": "heat_relay.shorted", "weight": 5}],
                "moves": ["arrives cold", "switch_on", "isolate"],
                "proofs": [],
                "ending": "handed_over",
            },
            id="stopped, and not repaired whatever the file says",
        ),
        pytest.param(
            "complaints: [leaks]\nanswers: {hose_is_dry: yes}\n",
            {"outcome": "unresolved", "findings": [], "suspects": [], "complaints_open": ["leaks"]},
            id="unresolved",
        ),
        pytest.param(
            "complaints: [leaks, hisses]\nanswers: {hose_is_dry: no, hiss_ends: click}\n"
            "after_repair: {hose_is_dry: yes}\n",
            {"outcome": "found", "normal": ["hisses"], "complaints_open": [], "ending": "repaired"},
            id="a fault and a normal behaviour",
        ),
    ],
)
def test_each_outcome(shop: Shop, text: str, expected: dict[str, object]) -> None:
    result = outcome(shop, text)
    assert {key: result[key] for key in expected} == expected


def test_live_work_is_handed_over_to_those_who_may_do_it(shop: Shop) -> None:
    shop.edit_rules(*COIL_LIVE)
    text = NO_FILL + "answers: {pump_runs: yes, water_arrives: no, coil: OL}\n"
    result = outcome(shop, text)
    assert (result["outcome"], result["ending"]) == ("handed_over", "handed_over")
    assert result["short_list"] == ["valve.coil_open", "valve.stuck"]
    assert "coil" not in [question for question, _, _ in asked(result)]
    assert outcome(shop, text + "qualified_for_live_work: yes\n")["outcome"] == "found"


def test_what_is_not_answered_counts_as_can_t_tell(shop: Shop) -> None:
    result = outcome(shop, NO_FILL + "answers: {}\n")
    assert asked(result) == [
        ("pump_runs", "can't tell", None),
        ("coil", "can't tell", None),
        ("water_before_valve", "can't tell", None),
    ]
    assert result["outcome"] == "narrowed"
    assert result["short_list"] == ["valve.coil_open", "pump.dead", "valve.stuck"]


def test_a_reading_that_the_instrument_cannot_decide_has_two_names(shop: Shop) -> None:
    result = outcome(shop, NO_FILL + "answers: {pump_runs: yes, water_arrives: no, coil: 1190}\n")
    assert ("coil", "1190", ["sound", "off_value"]) in asked(result)


def test_answers_are_taken_as_typed_at_the_prompt(shop: Shop) -> None:
    result = outcome(
        shop, NO_FILL + "answers: {pump_runs: Y, water_arrives: 'no', coil: 0.95 kohm, water_before_valve: ja}\n"
    )
    assert asked(result) == [
        ("pump_runs", "Y", "yes"),
        ("coil", "0.95 kohm", "sound"),
        ("water_arrives", "no", "no"),
        ("water_before_valve", "ja", "yes"),
    ]
    assert [finding["fault"] for finding in result["findings"]] == ["valve.stuck"]


def test_a_proof_that_fails_reopens_the_search_and_no_repair_is_tried_twice(shop: Shop) -> None:
    after = "after_repair: {pump_runs: yes, water_arrives: no, coil: 950, water_before_valve: yes}\n"
    result = outcome(shop, NO_FILL + "answers: {pump_runs: no}\n" + after)
    assert [finding["fault"] for finding in result["findings"]] == ["pump.dead", "valve.stuck"]
    assert ("water_arrives", "no", False) in [(p["question"], p["answer"], p["passed"]) for p in result["proofs"]]


def test_the_plate_of_the_file_replaces_that_of_the_type(shop: Shop) -> None:
    answers = "answers: {pump_runs: yes, water_arrives: no, coil: 95}\n"
    assert ("coil", "95", "shorted") in asked(outcome(shop, NO_FILL + answers))
    assert ("coil", "95", "sound") in asked(outcome(shop, NO_FILL + "plate: {fill_coil: 95 ohm}\n" + answers))


def test_a_machine_from_a_file_of_its_own(shop: Shop) -> None:
    file = shop.rules.parent / "mine.yaml"
    file.write_text(MACHINE.replace("test_machine", "mine").replace("950 ohm", "95 ohm"), "utf-8")
    text = NO_FILL + "answers: {pump_runs: yes, water_arrives: no, coil: 95}\n"
    assert ("coil", "95", "sound") in asked(outcome(shop, text, "mine.yaml"))


def test_how_it_arrives_decides_the_moves(shop: Shop) -> None:
    assert outcome(shop, NO_FILL + "arrives: plugged\nanswers: {pump_runs: no}\n")["moves"][:2] == [
        "arrives plugged",
        "isolate",
    ]


def test_rest_sound_answers_everything_else_as_on_a_sound_machine(shop: Shop) -> None:
    result = outcome(shop, NO_FILL + "answers: {water_arrives: no, water_before_valve: yes}\nrest: sound\n")
    assert [finding["fault"] for finding in result["findings"]] == ["valve.stuck"]
    assert [answer for question, answer, _ in asked(result) if question == "pump_runs"] == ["yes"]


def test_the_manual_names_every_key_and_no_other(shop: Shop) -> None:
    table = MANUAL[MANUAL.index("`--json` prints one JSON object") : MANUAL.index("## All keys")]
    result = outcome(shop, NO_FILL + "answers: {}\n")
    assert re.findall(r"^\| `(\w+)` \|", table, re.MULTILINE) == list(result)


def test_without_json_the_outcome_is_told_in_words(shop: Shop) -> None:
    file = shop.rules.parent / "answers.yaml"
    file.write_text(f"machine: test_machine\n{NO_FILL}answers: {{pump_runs: no}}\n", "utf-8")
    assert run("bench", "--rules", shop.rules, "--jobs", shop.jobs, "--answers", file) == Ran(
        0, f"Job 0001: Found.\n  found: pump: dead\n1 question, 9 min. Trace: {shop.jobs}/0001.jsonl\n", ""
    )


def test_a_complaint_that_nothing_explains_leaves_a_found_fault_found(shop: Shop) -> None:
    both = NO_FILL.replace("[will_not_fill]", "[will_not_fill, leaks]")
    told = "answers: {pump_runs: yes, water_arrives: no, coil: OL, hose_is_dry: yes}\n"
    result = outcome(shop, both + told)
    assert (result["outcome"], result["complaints_open"]) == ("found", ["leaks"])
    assert [finding["standing"] for finding in result["findings"]] == ["found"]
