"""Names of jobs and where they live."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from expert.trace.errors import NotAJobNumber
from expert.trace.places import job_path, jobs_folder, jobs_in, next_job_number

WOULD_DO = "letters a to z, digits, '-', '.' and '_' will do, 1 to 40 of them, the first a letter or a digit"
DEVICE = "some systems keep that name for a device; add a digit"


@pytest.mark.parametrize("number", ["7", "0007", "2026-01.b_3", "a" * 40, "console", "com10", "a..b"])
def test_numbers_that_will_do(number: str) -> None:
    assert job_path(Path("jobs"), number) == Path("jobs") / f"{number}.jsonl"


@pytest.mark.parametrize(
    ("number", "message"),
    [
        pytest.param("", f"'' is not a job number: {WOULD_DO}", id="empty"),
        pytest.param("a" * 41, f"'{'a' * 40}...' is not a job number: {WOULD_DO}", id="too-long"),
        pytest.param("..", f"'..' is not a job number: {WOULD_DO}", id="folder-above"),
        pytest.param("../7", f"'../7' is not a job number: {WOULD_DO}", id="out-of-the-folder"),
        pytest.param("a\\b", f"'a\\\\b' is not a job number: {WOULD_DO}", id="backslash"),
        pytest.param("/etc/x", f"'/etc/x' is not a job number: {WOULD_DO}", id="absolute"),
        pytest.param(".7", f"'.7' is not a job number: {WOULD_DO}", id="hidden"),
        pytest.param("-7", f"'-7' is not a job number: {WOULD_DO}", id="looks-like-an-option"),
        pytest.param("7\n", f"'7\\n' is not a job number: {WOULD_DO}", id="line-end"),
        pytest.param("\u0667", f"'\\u0667' is not a job number: {WOULD_DO}", id="digit-of-another-script"),
        pytest.param("c:7", f"'c:7' is not a job number: {WOULD_DO}", id="drive"),
        pytest.param("CON", f"'CON' is not a job number: {DEVICE}", id="device"),
        pytest.param("lpt1.7", f"'lpt1.7' is not a job number: {DEVICE}", id="device-before-a-dot"),
    ],
)
def test_numbers_that_will_not_do(number: str, message: str) -> None:
    with pytest.raises(NotAJobNumber) as caught:
        job_path(Path("jobs"), number)
    assert str(caught.value) == message


@given(st.text())
def test_no_number_leaves_the_folder(number: str) -> None:
    try:
        path = job_path(Path("/jobs"), number)
    except NotAJobNumber:
        return
    assert path.resolve().parent == Path("/jobs").resolve()


@pytest.mark.parametrize(
    ("names", "expected"),
    [
        pytest.param([], "0001", id="first"),
        pytest.param(["0001.jsonl", "0009.jsonl", "0009.jsonl.lock"], "0010", id="one-more"),
        pytest.param(["2026-7.jsonl", "b.jsonl", "0003.jsonl.torn"], "0001", id="other-names-do-not-count"),
        pytest.param(["9999.jsonl"], "10000", id="five-digits"),
        pytest.param(["9" * 40 + ".jsonl", "5.jsonl"], "0006", id="a-number-too-long-to-count-on"),
    ],
)
def test_the_next_number(tmp_path: Path, names: list[str], expected: str) -> None:
    for name in names:
        (tmp_path / name).touch()
    assert next_job_number(tmp_path) == expected
    assert next_job_number(tmp_path / "not there") == "0001"


def test_jobs_are_listed_without_hidden_files_locks_and_folders(tmp_path: Path) -> None:
    for name in ["2.jsonl", "1.jsonl", ".x.jsonl", "1.jsonl.lock", "1.jsonl.torn"]:
        (tmp_path / name).touch()
    (tmp_path / "3.jsonl").mkdir()
    assert jobs_in(tmp_path) == (tmp_path / "1.jsonl", tmp_path / "2.jsonl")
    assert jobs_in(tmp_path / "not there") == ()


def test_jobs_live_in_the_users_own_folder(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    assert jobs_folder() == tmp_path / "bench-expert" / "jobs"
