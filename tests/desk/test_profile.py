"""The shop's profile: read with positions, said in a dialogue, used by jobs, kept by their traces."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from expert.desk.playing import play_answers
from expert.desk.profile.reading import Profile, read_profile
from expert.desk.profile.setting_up import set_up
from expert.desk.profile.using import calibrations_due, shop_from
from expert.desk.replay import rerun
from expert.desk.session import Session
from expert.job.beginning import begin
from expert.job.state.shop import Shop
from expert.job.steps import step
from expert.job.wording.home_words import in_words_of
from expert.job.wording.prose_units import in_us_units
from expert.job.wording.records import lines_of
from expert.language.problems import RulesRefused
from expert.language.shipped import shipped
from expert.trace.reading import read_trace
from expert.trace.records import Opened, PromptPut, Record
from expert.trade.limits.countries import COUNTRIES, PRACTICE
from expert.trade.limits.electrical import NATIONAL, earth_limit, insulation_limit, leakage_limit
from tests.dialogue.shipped_desk import shipped_knowledge

BASE = shipped_knowledge().base
PROFILE = """\
country: us
name: Corner Workshop (invented)
phone: "555 0100"
technicians:
  - {name: Ann, live_work: yes, by_word_of: Carla}
  - {name: Bob}
instruments:
  - {use: multimeter_ohms, calibrated: 2026-01-31}
  - {use: earth_tester, plus_minus: 0.05 ohm}
"""


def profile(text: str = PROFILE) -> Profile:
    return read_profile("shop.yaml", text, BASE)


def shop(text: str = PROFILE) -> Shop:
    return shop_from(shipped_knowledge(), profile(text))[1]


def test_what_stands_in_a_profile() -> None:
    read = profile()
    assert (read.country, read.units, read.name, read.phone) == ("us", "us", "Corner Workshop (invented)", "555 0100")
    assert [(p.name, p.qualified, p.by_word_of) for p in read.technicians] == [
        ("Ann", True, "Carla"),
        ("Bob", False, ""),
    ]
    assert read.calibrated == {"multimeter_ohms": date(2026, 1, 31)}
    knowledge, used = shop_from(shipped_knowledge(), read)
    assert used.instruments == {"multimeter_ohms", "earth_tester"}
    own = knowledge.base.instruments["earth_tester"].plus_minus
    assert own is not None and own.value == 0.05


REFUSED = [
    (
        "country: atlantis\n",
        f"shop.yaml:1:10: 'country' is 'atlantis'; it may be {', '.join(COUNTRIES)} [unknown-word]",
    ),
    ("units: us\n", "shop.yaml:1:1: the shop's profile must have 'country' [missing-key]"),
    (
        "country: uk\ntechnicians: [{name: Ann, live_work: yes}]\n",
        "shop.yaml:2:27: who says that this person may do live work? Add 'by_word_of' [missing-key]",
    ),
    (
        "country: uk\ninstruments: [{use: crystal_ball}]\n",
        "shop.yaml:2:21: there is no instrument 'crystal_ball' [unknown-name]",
    ),
    (
        "country: uk\nprices: [{part: coil, price: 35}]\n",
        "shop.yaml:2:1: 'prices' in which currency? Add 'currency' [missing-key]",
    ),
    (
        "country: uk\ncurrency: GBP\nprices: [{part: coil, price: cheap}]\n",
        "shop.yaml:3:30: 'price' is 'cheap'; a plain number is wanted, as in 2 or 2.5 [not-a-number]",
    ),
    (
        "country: uk\ninstruments: [{use: earth_tester, calibrated: last week}]\n",
        "shop.yaml:2:47: a day is written as in 2026-01-31 [not-a-number]",
    ),
]


@pytest.mark.parametrize("text, message", REFUSED, ids=[text.split(":")[0] for text, _ in REFUSED])
def test_what_is_refused(text: str, message: str) -> None:
    with pytest.raises(RulesRefused) as refused:
        profile(text)
    assert [str(problem) for problem in refused.value.problems] == [message]


def test_said_in_the_dialogue_and_read_back() -> None:
    lines = iter(
        ["Atlantis", "New Zealand", "", "Corner Workshop", "", "Ann", "maybe", "yes", "", "Carla", "", "1 99", "1 8",
         "yes", "soon", "2026-01-31", "", "NZD", "much", "80", "coil", "fill coil 35,50", "seal 0", "", "yes"]
    )  # fmt: skip
    told: list[str] = []
    text = set_up(lambda question: next(lines), told.append, BASE, None)
    assert next(lines, None) is None
    read = profile(text)
    assert (read.country, read.units, read.name, read.currency, read.hourly_rate) == (
        "new_zealand",
        "metric",
        "Corner Workshop",
        "NZD",
        80.0,
    )
    assert (read.prices, read.costs_on_slip) == ((("fill coil", 35.5),), True)
    assert [(p.name, p.qualified, p.by_word_of) for p in read.technicians] == [("Ann", True, "Carla")]
    assert set(read.instruments or {}) == {"multimeter_ohms", "earth_tester"}
    assert any(line.endswith("No other country's limits are taken instead.") for line in told)
    # Said again with nothing typed but yes where a yes is wanted, it stays as it is.
    again = set_up(lambda question: "yes" if "(yes / no)" in question else "", told.append, BASE, read)
    assert profile(again) == read_profile("shop.yaml", again, BASE) and again == text


def test_calibrations_that_are_due() -> None:
    name = BASE.instruments["multimeter_ohms"].name
    assert list(calibrations_due(profile(), BASE, date(2027, 1, 31))) == []
    assert list(calibrations_due(profile(), BASE, date(2027, 2, 2))) == [
        f"Calibration is due: {name}, last on 2026-01-31."
    ]


# ---------------------------------------------------------------- jobs


def prompts_before_the_first_question(*lines: str) -> list[str]:
    job, records = begin(shipped_knowledge(), shop(), "1")
    put = [record.question for record in records if isinstance(record, PromptPut)]
    for line in lines:
        job, records = step(job, line)
        for record in records:
            if isinstance(record, PromptPut):
                if record.prompt != "intake":
                    return put
                put.append(record.question)
    raise AssertionError(f"no question was put; the job waits at {job.prompt}")


def test_at_most_three_prompts_before_the_first_diagnostic_one() -> None:
    assert prompts_before_the_first_question("1", "boiler_will_not_fill, pump_silent", "1") == [
        "technician",
        "complaints",
        "arrives",
    ]


def test_what_the_plate_says_instead_is_told_behind_the_name() -> None:
    job, _ = begin(shipped_knowledge(), shop(), "1")
    job, _ = step(job, "ann, element_power 1200 W, cord_section 14 AWG")
    assert job.machine is not None and job.prompt.subject == "plate"
    assert job.machine.plate["element_power"].value == 1200
    assert round(job.machine.plate["cord_section"].value, 2) == 2.08  # ASTM B258, 14 AWG
    assert (job.technician, job.qualified) == ("Ann", True)


@pytest.mark.parametrize("typed, name, qualified", [("1", "Ann", True), ("b", "Bob", False), ("ANN", "Ann", True)])
def test_who_may_do_live_work_is_known_from_the_profile(typed: str, name: str, qualified: bool) -> None:
    job, _ = begin(shipped_knowledge(), shop(), "1")
    job, _ = step(job, typed)
    assert (job.technician, job.qualified, "qualified" in job.intake_settled) == (name, qualified, True)


def test_somebody_who_is_not_in_the_profile_is_asked() -> None:
    assert prompts_before_the_first_question("Zoe", "boiler_will_not_fill", "no", "1") == [
        "technician",
        "complaints",
        "qualified",
        "arrives",
    ]


def test_a_job_with_a_profile_is_run_again_from_its_trace_alone(tmp_path: Path) -> None:
    read = profile()
    knowledge, used = shop_from(shipped_knowledge(), read)
    path = tmp_path / "1.jsonl"
    session, _ = Session.open(knowledge, used, path, "1", lambda: datetime.now(UTC), shop_file=read.text)
    for line in ("2", "boiler_will_not_fill", "1", "sound", "pause"):
        session.say(line)
    session.close()
    again = rerun(shipped_knowledge(), read_trace(path))
    assert again.differences == () and again.job.shop == used


# ---------------------------------------------------------------- countries


def test_every_country_names_its_limits_with_their_source() -> None:
    for home in COUNTRIES.values():
        assert home.limits in NATIONAL
        assert earth_limit(home.limits, 1.5, 1.5) > 0 and home.earth.source
        assert insulation_limit(home.limits, "class_1", "heating", 1400.0) > 0 and home.insulation.source
        assert leakage_limit(home.limits, "class_1", 1400.0) > 0 and home.leakage.source
        assert home.band[0] < home.voltage < home.band[1]
    assert COUNTRIES["us"].insulation.mark == PRACTICE


def test_nobody_is_held_to_less_than_the_strictest_before_a_country_is_named() -> None:
    for nation in NATIONAL:
        assert earth_limit("strictest", 1.5, 1.5) <= earth_limit(nation, 1.5, 1.5)
        for kind in ("class_1", "class_2"):
            assert insulation_limit("strictest", kind, "heating", 1400.0) >= insulation_limit(
                nation, kind, "heating", 1400.0
            )
            assert leakage_limit("strictest", kind, 1400.0) <= leakage_limit(nation, kind, 1400.0)


def shown_anywhere() -> Iterator[str]:
    """Every sentence of the rules that a technician is asked, told or shown."""
    for question in BASE.questions.values():
        yield from (question.ask, question.how, question.expect, question.slip, *question.labels.values())
        yield from question.prepare.steps if question.prepare else ()
    for move in BASE.bench.moves:
        yield from (move.say, move.confirm, *move.steps)
    yield from (caution.text for caution in BASE.cautions.values())
    yield from (complaint.name for complaint in BASE.complaints.values())


FOREIGN = re.compile(
    r"\bRCDs?\b|\bearth(ed|ing)?\b|\bunearthed\b|\b2[0-4][0-9] V\b|\bmm2\b|\ban g(round|fci)", re.IGNORECASE
)


def test_a_us_shop_reads_nothing_of_another_country() -> None:
    texts = [in_us_units(in_words_of("us", text)) for text in shown_anywhere()]
    assert len(texts) > 500
    assert [text for text in texts if FOREIGN.search(text)] == []


def test_the_plate_of_a_us_shop() -> None:
    job, records = begin(shipped_knowledge(), shop(), "1")
    put: Record = records[-1]
    text = "\n".join(line for _, line in lines_of(job, put))
    for line in (
        "rated_voltage           120 V",
        "fill_coil               260 ohm",
        "16 AWG",
        "60.9 fl oz",
        "253.4 °F",
    ):
        assert line in text  # a coil for 120 V: 950 ohm x (120/230)^2 = 259 ohm, as P = U^2 / R is the same
    assert "limits                  us (or " in text


ANSWERS = """\
machine: heat_exchanger_lever_tank
complaints: [boiler_will_not_fill, pump_silent]
plate: {fill_coil: 260 ohm, element_power: "1,3 kW"}
answers: {fill_coil_resistance: OL}
rest: sound
"""


def test_the_profile_holds_for_a_job_from_an_answers_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    place, file = tmp_path / "shop.yaml", tmp_path / "answers.yaml"
    place.write_text(PROFILE + "machines: [heat_exchanger_lever_tank]\n")
    file.write_text(ANSWERS)
    monkeypatch.setenv("EXPERT_SHOP", str(place))
    result = play_answers(shipped_knowledge(), shipped("rules"), file, tmp_path, "7", lambda: datetime.now(UTC))
    trace = read_trace(Path(result["trace"]))
    opened = trace.records[0]
    assert isinstance(opened, Opened) and opened.shop_file == place.read_text() and opened.system == "us"
    again = rerun(shipped_knowledge(), trace)
    assert again.differences == () and again.job.machine is not None
    assert (again.job.machine.features["limits"], again.job.machine.plate["element_power"].value) == ("us", 1300)
    assert len(again.job.complaints) == 2
