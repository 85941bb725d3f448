"""Going on with a job where it stopped: at every prompt, after torn and forged files, with edited rules."""

from __future__ import annotations

import pytest

from expert.trace.lines import NOTHING_BEFORE, digest_in, encode
from expert.trace.packing import Memory
from expert.trace.reading import read_trace
from expert.trace.records import Said, TakenIn
from expert.trace.register import NAME
from tests.dialogue.command_line import (
    AT_THE_PUMP,
    GO_ON,
    HERE,
    INTAKE,
    MAY,
    PUMP_QUESTION,
    STANDS,
    WHO,
    Ran,
    Shop,
    said,
)
from tests.trace.power_cut import power_cut

# ---------------------------------------------------------------- where a job goes on


def test_a_job_goes_on_at_the_question_where_the_lines_ended(at_the_pump: Shop) -> None:
    assert at_the_pump.resume(HERE + "yes\n") == Ran(0, STANDS + PUMP_QUESTION + GO_ON, "")


def test_a_job_goes_on_after_a_pause(shop: Shop) -> None:
    assert shop.bench(AT_THE_PUMP + "pause\n").out.endswith(
        "Paused. Nothing is lost. Go on with:\n  expert resume --rules RULES --jobs JOBS 7\n"
    )
    assert shop.resume(HERE + "yes\n") == Ran(0, STANDS + PUMP_QUESTION + GO_ON, "")


LISTEN = "How: Listen.\n"


def test_an_open_take_back_is_not_done_by_whoever_goes_on(at_the_pump: Shop) -> None:
    at_the_pump.resume(HERE + "yes\nyes\ntake back 1\n")
    again = at_the_pump.resume(HERE + "yes\n").out
    assert again.startswith(STANDS) and "Take it back" not in again
    assert at_the_pump.resume(HERE + "yes\ntake back 1\nyes\n").out.endswith(
        f"Answer 1 is taken back.\n{PUMP_QUESTION.removeprefix(LISTEN)}{GO_ON}"  # how is known from the first time
    )


@pytest.mark.parametrize("lines", range(len(AT_THE_PUMP.splitlines())), ids=lambda n: f"after {n} lines")
def test_a_job_can_be_left_at_every_prompt(shop: Shop, lines: int) -> None:
    typed = AT_THE_PUMP.splitlines(keepends=True)
    before = shop.bench("".join(typed[:lines])).out.removesuffix(GO_ON)
    # Once the machine has arrived, who is there now comes before the prompt.
    at_the_machine = lines == len(INTAKE.splitlines())
    after = shop.resume((HERE if at_the_machine else "") + "".join(typed[lines:])).out
    shown_again = before[before.rfind("> ") :].partition("\n")[2] if lines else before
    assert after.startswith((WHO + "> Ann\n" + MAY + "> no\n" if at_the_machine else "") + shown_again)
    assert after.endswith(PUMP_QUESTION + GO_ON)


# ---------------------------------------------------------------- torn and tampered files

HERE_AGAIN = WHO + "> Ann\n" + MAY + "> no\n"
SWITCH_ON = "Switch on. (2 min)\n1. Plug in.\nIs it on? (yes / no)\n> yes\n"


@pytest.mark.parametrize("cut", [1, 30, 120], ids=lambda cut: f"{cut} bytes short")
def test_a_torn_last_line_is_cut_and_kept_beside(at_the_pump: Shop, cut: int) -> None:
    path = at_the_pump.trace()
    whole = path.read_bytes()
    power_cut(path, whole[:-cut])
    # The step that never came to its end was never told to anybody: its prompt is put again.
    assert at_the_pump.resume(HERE + "yes\n") == Ran(0, HERE_AGAIN + SWITCH_ON + PUMP_QUESTION + GO_ON, "")
    assert whole.startswith(path.with_name("7.jsonl.torn").read_bytes().rstrip(b"\n"), whole[:-cut].rfind(b"\n") + 1)
    assert said(path) == [*AT_THE_PUMP.splitlines()[:-1], "Ann", "no", "yes"]


def test_garbage_after_a_power_cut_is_cut_as_well(at_the_pump: Shop) -> None:
    with at_the_pump.trace().open("ab") as file:
        file.write(b"\0" * 4096)
    assert at_the_pump.resume(HERE + "yes\n") == Ran(0, STANDS + PUMP_QUESTION + GO_ON, "")


@pytest.mark.parametrize("left", [0, 1, 100], ids=lambda left: f"{left} bytes")
def test_a_first_line_that_never_came_to_its_end(at_the_pump: Shop, left: int) -> None:
    path = at_the_pump.trace()
    power_cut(path, path.read_bytes()[:left])
    message = f"{path} holds no answer yet. Open the job again with: expert bench --job 7\n"
    assert at_the_pump.resume(HERE + "yes\n") == Ran(2, "", message)
    again = at_the_pump.bench(AT_THE_PUMP)
    assert (again.code, again.err) == (0, "")
    assert at_the_pump.resume(HERE + "yes\n").out == STANDS + PUMP_QUESTION + GO_ON


def test_a_trace_changed_by_hand_is_not_gone_on_with(at_the_pump: Shop) -> None:
    path = at_the_pump.trace()
    lines = path.read_bytes().splitlines(keepends=True)
    number = next(n for n, line in enumerate(lines) if b'"Ann"' in line)
    lines[number] = lines[number].replace(b'"Ann"', b'"Bob"')
    path.write_bytes(b"".join(lines))
    changed = f"{path}:{number + 1}:1: the line was changed after it was written, or line {number} was replaced"
    assert at_the_pump.resume(HERE + "yes\n") == Ran(2, "", f"{changed} [damaged-trace]\n")
    assert path.read_bytes() == b"".join(lines), "the evidence stays as it is"


def test_a_trace_forged_with_sound_digests_is_found_by_running_it_again(at_the_pump: Shop) -> None:
    path = at_the_pump.trace()
    trace = read_trace(path)
    forged = b""
    before, memory = NOTHING_BEFORE, Memory()
    for line in trace.lines:
        records = [Said("no fill, leaks") if record == Said("no fill") else record for record in line.records]
        raw, memory = encode(line.seq, line.at, records, before, memory)
        before = digest_in(raw)
        forged += raw + b"\n"
    path.write_bytes(forged)
    (path.parent / NAME).unlink()  # it would tell before anything is run again
    number = next(recorded.line for recorded in trace.recorded if isinstance(recorded.record, TakenIn))
    assert at_the_pump.resume(HERE + "yes\n") == Ran(
        2,
        "",
        f"{path}:{number}:1: the same rules do not give what was recorded: line {number}: taken in: complaints was "
        "'Boiler does not fill', now it is 'Boiler does not fill', 'Water under the machine'; complaint keys was "
        "'will_not_fill', now it is 'will_not_fill', 'leaks'. Another version of the program wrote it, or it was "
        "changed afterwards. Nothing was written to it. To go on with what this program makes of the answers: "
        "expert resume --today 7 [job-differs]\n",
    )


# ---------------------------------------------------------------- edited rules

EDIT = ("A silent pump is dead in this little world.", "Silence is death.")
EDITED = (
    "The rules were edited since this job was opened. Files changed: circuits/fill.yaml.\n"
    "The job goes on with the rules of that time.\n"
    "To go on with today's instead: expert resume --today --rules RULES --jobs JOBS 7\n"
)


def test_edited_rules_do_not_touch_a_job_on_the_bench(at_the_pump: Shop) -> None:
    at_the_pump.edit_rules(*EDIT)
    again = at_the_pump.resume(HERE + "yes\nno\n")
    assert (again.code, again.err) == (0, "")
    assert again.out.startswith(EDITED + STANDS + PUMP_QUESTION + "> no\nFOUND: ")
    assert "\n  because: A silent pump is dead in this little world.\n" in again.out


def test_an_edit_that_is_not_even_yaml_does_not_touch_it_either(at_the_pump: Shop) -> None:
    (at_the_pump.rules / "circuits" / "fill.yaml").write_text("circuit: [", "utf-8")
    assert at_the_pump.resume(HERE + "yes\n") == Ran(0, EDITED + STANDS + PUMP_QUESTION + GO_ON, "")


def test_files_that_came_and_went_are_named(at_the_pump: Shop) -> None:
    (at_the_pump.rules / "machines" / "test_machine.yaml").rename(at_the_pump.rules / "machines" / "renamed.yaml")
    assert at_the_pump.resume(HERE + "yes\n").out.startswith(
        "The rules were edited since this job was opened. Files changed: machines/renamed.yaml,"
        " machines/test_machine.yaml.\nThe job goes on with the rules of that time.\n"
    )


def test_kept_rules_that_were_changed_are_not_used(at_the_pump: Shop) -> None:
    kept = next((at_the_pump.jobs / ".rules").iterdir())
    file = kept / "circuits" / "fill.yaml"
    file.write_text(file.read_text("utf-8").replace(*EDIT), "utf-8")
    again = at_the_pump.resume(HERE + "yes\n")
    assert again.code == 2
    assert again.err.startswith("the job was opened with other rules (")
