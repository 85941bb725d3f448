"""The sums themselves: each is one query over the tables `counted` and `chosen` that `filters.choose` has made."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from expert.shop.sentences import sums as say

if TYPE_CHECKING:
    from duckdb import DuckDBPyConnection

# A machine that is back so soon after its job was closed counts as a come-back (common practice, no source).
DAYS_TO_COME_BACK = 90


@dataclass(frozen=True, slots=True)
class Sum:
    """What to add up: `key` in JSON and CSV, a title and one sentence on how it is counted, the query."""

    key: str
    title: str
    how: str
    columns: tuple[str, ...]
    query: str


@dataclass(frozen=True, slots=True)
class Total:
    """A sum with its rows."""

    of: Sum
    rows: tuple[tuple[Any, ...], ...]


# What was wrong with a machine: as the review says, where there is one; else as the job found it.
FAULTS_TRUE = """
CREATE OR REPLACE TEMP TABLE true_faults AS
SELECT file, true_fault AS fault FROM counted WHERE true_fault <> ''
UNION ALL
SELECT file, fault FROM faults JOIN counted USING (file) WHERE true_fault = '' AND standing <> 'narrowed'
"""
COME_BACKS = f"""
CREATE OR REPLACE TEMP TABLE come_backs AS
SELECT first.file AS file, first.job AS job, again.job AS again, again.file AS again_file, first.machine_key AS machine,
  date_diff('day', first.last, again.opened) AS days
FROM counted first JOIN counted again ON first.machine_key = again.machine_key AND first.machine_key <> ''
  AND first.status = 'closed' AND again.opened >= first.last
  AND again.opened <= first.last + INTERVAL {DAYS_TO_COME_BACK} DAYS AND first.file <> again.file
QUALIFY row_number() OVER (PARTITION BY first.file ORDER BY again.opened) = 1
"""
_NAMED = "coalesce((SELECT any_value(name) FROM names WHERE kind = '{kind}' AND id = {column}), {column})"


def _named(kind: str, column: str) -> str:
    return _NAMED.format(kind=kind, column=column)


SUMS = (
    Sum(
        "overview",
        "At a glance",
        say.ABOUT_MINUTES,
        ("jobs", "closed", "open", "minutes", say.MINUTES_OF_MOST, "questions", say.QUESTIONS_OF_MOST),
        """SELECT count(*), count(*) FILTER (status = 'closed'), count(*) FILTER (status <> 'closed'),
  median(minutes), quantile_cont(minutes, 0.9), median(asked), quantile_cont(asked, 0.9)
FROM counted LEFT JOIN (SELECT file, sum(answered + cannot)::INTEGER AS asked FROM questions GROUP BY file) USING (file)
""",
    ),
    Sum(
        "outcomes",
        "Jobs by outcome",
        say.ABOUT_ENDINGS,
        ("outcome", "jobs"),
        "SELECT if(status = 'closed', outcome, status), count(*) AS n FROM counted GROUP BY 1 ORDER BY n DESC, 1",
    ),
    Sum(
        "months",
        "Jobs by month",
        say.ABOUT_DAYS,
        ("month", "jobs"),
        "SELECT strftime(opened, '%Y-%m') AS m, count(*) FROM counted WHERE opened IS NOT NULL GROUP BY m ORDER BY m",
    ),
    Sum(
        "first_time_fix",
        say.MENDED_FIRST_TIME,
        say.about_first_time(DAYS_TO_COME_BACK),
        ("repairs", say.COLUMN_MENDED_FIRST_TIME, "share"),
        """SELECT count(*), count(*) FILTER (fixed), count(*) FILTER (fixed) / nullif(count(*), 0) FROM (
  SELECT outcome = 'repaired' AND failed_proofs = 0 AND file NOT IN (SELECT file FROM come_backs) AS fixed
  FROM counted WHERE status = 'closed' AND attempts > 0)""",
    ),
    Sum(
        "faults",
        "Faults by frequency",
        say.ABOUT_FAULTS,
        ("fault", "name", "times", "share", "running share"),
        f"""SELECT fault, {_named("fault", "fault")}, n, n / sum(n) OVER (),
  sum(n) OVER (ORDER BY n DESC, fault) / sum(n) OVER ()
FROM (SELECT fault, count(*) AS n FROM true_faults GROUP BY fault) ORDER BY n DESC, fault""",
    ),
    Sum(
        "faulty_parts",
        "Faulty parts",
        say.ABOUT_PARTS,
        ("part", "name", "times", "share"),
        f"""SELECT part, {_named("part", "part")}, n, n / sum(n) OVER () FROM (
  SELECT split_part(fault, '.', 1) AS part, count(*) AS n FROM true_faults GROUP BY part) ORDER BY n DESC, part""",
    ),
    Sum(
        "complaints",
        say.FROM_COMPLAINT_TO_FAULT,
        say.ABOUT_COMPLAINTS,
        ("complaint", "fault", "times", say.OF_THE_COMPLAINTS_JOBS),
        f"""WITH said AS (SELECT DISTINCT file, {_named("complaint", "complaint")} AS said FROM complaints JOIN counted
  USING (file)), of_each AS (SELECT said, count(*) AS total FROM said GROUP BY said)
SELECT said, coalesce({_named("fault", "fault")}, 'none found'), count(*) AS n, n / any_value(total)
FROM said JOIN of_each USING (said) LEFT JOIN true_faults USING (file)
GROUP BY said, fault ORDER BY any_value(total) DESC, said, n DESC, 2""",
    ),
    Sum(
        "questions",
        "Questions",
        say.ABOUT_QUESTIONS,
        ("question", "wording", "answered", "can't tell", "taken back", "contradicted", "trouble"),
        f"""SELECT question, {_named("question", "question")}, a, c, t, k, (c + t + k) / nullif(a + c, 0) AS trouble
FROM (SELECT question, sum(answered)::INTEGER AS a, sum(cannot)::INTEGER AS c, sum(taken_back)::INTEGER AS t,
    sum(contradicted)::INTEGER AS k FROM questions JOIN counted USING (file) GROUP BY question)
ORDER BY t + k DESC, trouble DESC, a DESC, question""",
    ),
    Sum(
        "rules",
        "Rules by verdict",
        say.ABOUT_RULES,
        ("rule", "right", "right by luck", "wrong", "unsafe"),
        """SELECT rule, count(*) FILTER (verdict = 'right') AS r, count(*) FILTER (verdict = 'lucky'),
  count(*) FILTER (verdict = 'wrong') AS w, count(*) FILTER (verdict = 'unsafe') AS u
FROM rules JOIN counted USING (file) WHERE verdict <> '' GROUP BY rule ORDER BY u DESC, w DESC, r DESC, rule""",
    ),
    Sum(
        "verdicts",
        "Verdicts",
        say.ABOUT_VERDICTS,
        ("verdict", "jobs"),
        "SELECT verdict, count(*) AS n FROM counted WHERE verdict <> '' GROUP BY 1 ORDER BY n DESC, 1",
    ),
    Sum(
        "stops",
        "Stops for danger",
        say.ABOUT_STOPS,
        ("rule", "jobs"),
        "SELECT rule, count(*) AS n FROM stops JOIN counted USING (file) GROUP BY rule ORDER BY n DESC, rule",
    ),
    Sum(
        "live_work",
        "Live work",
        say.ABOUT_LIVE_TESTS,
        ("technician", "tests", "jobs"),
        """SELECT l.technician, sum(answers)::INTEGER AS n, count(DISTINCT file) FROM live l JOIN counted USING (file)
GROUP BY 1 ORDER BY n DESC, 1""",
    ),
    Sum(
        "technicians",
        "Technicians",
        say.ABOUT_TECHNICIANS,
        ("technician", "jobs", "minutes"),
        "SELECT technician, count(*) AS n, median(minutes) FROM counted GROUP BY 1 ORDER BY n DESC, 1",
    ),
    Sum(
        "parts_used",
        "Parts used",
        say.ABOUT_PARTS_USED,
        ("part", "jobs"),
        "SELECT part, count(*) AS n FROM parts JOIN counted USING (file) GROUP BY part ORDER BY n DESC, part",
    ),
    Sum(
        "costs",
        "Costs",
        say.ABOUT_COSTS,
        ("currency", "jobs", "work", "parts", "together", "the middle job"),
        """SELECT currency, count(*), sum(work_cost), sum(parts_cost), sum(work_cost + parts_cost),
  median(work_cost + parts_cost) FROM counted WHERE status = 'closed' AND currency <> ''
GROUP BY 1 ORDER BY 2 DESC, 1""",
    ),
    Sum(
        "come_backs",
        say.CAME_BACK,
        say.about_coming_back(DAYS_TO_COME_BACK),
        ("job", "came back as", "days"),
        "SELECT job, again, days FROM come_backs ORDER BY job",
    ),
    Sum(
        "apart",
        "Standing apart",
        say.ABOUT_LEFT_OUT,
        ("purpose", "jobs"),
        """SELECT purpose, count(*) FROM chosen WHERE purpose <> 'damaged' AND file NOT IN (SELECT file FROM counted)
GROUP BY 1 UNION ALL SELECT 'damaged', count(*) FROM jobs WHERE purpose = 'damaged' HAVING count(*) > 0 ORDER BY 1""",
    ),
)


def totals(index: DuckDBPyConnection) -> tuple[Total, ...]:
    """All sums over the jobs that were chosen."""
    index.execute(FAULTS_TRUE)
    index.execute(COME_BACKS)
    return tuple(Total(each, tuple(index.execute(each.query).fetchall())) for each in SUMS)
