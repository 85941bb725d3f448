"""`expert impact`: saved jobs against edited rules; what matters most first; on a cluster just the same."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path

import pytest
from click.testing import CliRunner

from expert.cli import main
from expert.desk.pinning import pin_rules
from expert.trace.reading import read_trace
from expert.workbench.impact.answers import SavedJob, saved_job
from expert.workbench.impact.ends import Difference, End, differences
from expert.workbench.impact.rules_of import Library, texts_in
from expert.workbench.impact.running import Outcome, Task, outcomes, outcomes_on, tasks_for
from expert.workbench.impact.telling import in_words
from expert.workbench.saved import Told

ROOT = Path(__file__).parents[2]
DEMOS = sorted((ROOT / "transcripts_demo").glob("*.jsonl"))[:2]
STRAIGHT = ROOT / "transcripts_demo" / "demo-1-straight.jsonl"


@pytest.fixture(scope="module")
def edited(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The shipped rules; an open coil is no longer confirmed, and one more minute for a question of another circuit."""
    folder = tmp_path_factory.mktemp("edited") / "rules"
    shutil.copytree(ROOT / "rules", folder)
    file = folder / "circuits" / "boiler_fill.yaml"
    text = file.read_text(encoding="utf-8")
    confirms = "confirm: fill_solenoid.coil_open"
    assert confirms in text
    file.write_text(text.replace(confirms, "suspect: fill_solenoid.coil_open"), encoding="utf-8")
    return folder


def run(*words: str | Path) -> tuple[int, str, str]:
    result = CliRunner().invoke(main, ["impact", *map(str, words)])
    return result.exit_code, result.stdout, result.stderr


def test_an_edit_that_takes_a_conclusion_away_is_seen(edited: Path) -> None:
    code, out, err = run(*DEMOS, "--rules", edited, "--against", ROOT / "rules", "--json", "--cores", "1")
    data = json.loads(out)
    assert (code, err, data["jobs"], data["not_compared"]) == (1, "", len(DEMOS), [])
    first = data["changed"][0]
    assert first["trace"] == str(STRAIGHT)
    ends = next(found for found in first["differences"] if found["what"] == "outcome")
    assert ends["before"] == "found" and ends["after"] != "found"
    weights = [job["weight"] for job in data["changed"]]
    assert weights == sorted(weights, reverse=True)


def test_without_an_edit_nothing_is_played() -> None:
    code, out, _ = run(*DEMOS, "--against", ROOT / "rules")
    number = len(DEMOS)
    assert code == 0 and out == (
        f"{number} jobs: 0 come out otherwise, {number} the same ({number} of them looked at nothing that was edited), "
        "0 not compared\n"
    )


def test_by_default_a_job_is_compared_with_the_rules_pinned_beside_it(edited: Path, tmp_path: Path) -> None:
    shutil.copy(STRAIGHT, tmp_path)
    code, out, _ = run(tmp_path, "--rules", edited)
    assert code == 0 and "the rules it was opened with are not kept beside it; compare with --against" in out
    pin_rules(ROOT / "rules", tmp_path, saved_job(read_trace(STRAIGHT)).rules_digest)
    code, out, _ = run(tmp_path, "--rules", edited)
    assert code == 1 and out.startswith(f"{tmp_path / STRAIGHT.name} (job ") and "  outcome: found -> " in out


def test_the_rules_of_before_may_be_a_revision(edited: Path, tmp_path: Path) -> None:
    repository = tmp_path / "repository"
    shutil.copytree(ROOT / "rules", repository / "rules")
    git = ["git", "-C", str(repository), "-c", "user.name=a", "-c", "user.email=a@b.example"]
    for words in (["init", "-q"], ["add", "."], ["commit", "-q", "-m", "before"]):
        subprocess.run([*git, *words], check=True, capture_output=True)
    shutil.copytree(edited, repository / "rules", dirs_exist_ok=True)
    code, out, _ = run(STRAIGHT, "--rules", repository / "rules", "--against", "HEAD")
    assert code == 1 and "1 job: 1 come out otherwise" in out
    code, _, err = run(STRAIGHT, "--rules", repository / "rules", "--against", "no_such")
    assert code == 2 and err.startswith("'no_such' is neither a folder nor a revision of git: ")


def prepared(edited: Path) -> tuple[list[Task], Library]:
    library = Library()
    after, before = library.add(texts_in(edited)), library.add(texts_in(ROOT / "rules"))
    tasks = [task for task in tasks_for(DEMOS, library, after, before) if isinstance(task, Task)]
    return tasks, library


def test_on_a_cluster_it_comes_out_the_same(edited: Path) -> None:
    import distributed

    tasks, library = prepared(edited)
    here = {outcome.job.path: outcome for outcome in outcomes(tasks, library.texts, 1)}
    with distributed.LocalCluster(
        n_workers=1, threads_per_worker=1, processes=False, dashboard_address=None, protocol="inproc://"
    ) as cluster:
        there = {o.job.path: o for o in outcomes_on(cluster.scheduler_address, tasks, library.texts)}
    assert there == here and any(isinstance(o, Outcome) and o.differences for o in there.values())


def test_a_cluster_that_is_not_there_is_said() -> None:
    code, _, err = run(STRAIGHT, "--dask", "nowhere")
    assert code == 2 and err.startswith("no cluster answers at nowhere: ")


CALM = End("found", ("a.b",), ("a.b",), ("q",), ("isolate",), ("danger",), 10.0, ())


def test_what_protects_people_comes_first() -> None:
    after = End("narrowed", ("a.c",), ("a.c",), ("q", "r"), (), (), 12.0, ("r",))
    found = differences(CALM, after)
    assert [difference.what for difference in found] == [
        *("stops", "cautions", "faults", "outcome", "suspects", "questions", "minutes")
    ]
    assert differences(CALM, CALM) == ()


def test_of_long_lists_that_begin_alike_is_told_where_they_part() -> None:
    long = ", ".join(f"question_{number}" for number in range(12))
    job = SavedJob("7", "7.jsonl", "", "", Told())
    changed = Outcome(job, (Difference("questions", f"{long}, one, last", f"{long}, other, last", 7),))
    assert list(in_words([changed], 1))[1] == "  questions: (12 alike) one, last -> (12 alike) other, last"
