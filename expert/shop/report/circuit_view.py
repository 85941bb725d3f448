"""The circuits of a machine as pictures: what feeds what as lines, each part with what the job showed of it.

A circuit is drawn from top to bottom, one row for each part, so that it can be read on a telephone and on paper. Lines
beside the rows lead from what feeds to what is fed. Rules that do not say what feeds what give rows without lines.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import pairwise

from expert.job.state.applying import applies
from expert.job.state.job import Job
from expert.language.model import Part, RuleBase
from expert.shop.report.evidence import Evidence
from expert.shop.report.pages import folded
from expert.shop.sentences import reports as say

WIDTH, LANE, LINE, GAP = 340, 14, 16, 14
LETTERS = 40  # that fit beside the lanes
FOUND, LISTED, CLEARED, LOOKED_AT, NOT_MET = "found", "listed", "cleared", "looked at", "not met"


@dataclass(frozen=True, slots=True)
class Row:
    """One part: its state in this job, its text lines (the name first), and the middle and height on the paper."""

    part: str
    state: str
    name: tuple[str, ...]
    lines: tuple[str, ...]
    y: int
    lane: int
    indent: int

    @property
    def told(self) -> str:
        """The row in words, for whoever does not see the picture."""
        return f"{' '.join(self.name)}: {'; '.join(self.lines)}"


@dataclass(frozen=True, slots=True)
class Link:
    """A line from the row of what feeds to the row of what is fed, on a lane of its own."""

    y: int
    to: int
    lane: int
    from_lane: int
    to_lane: int


@dataclass(frozen=True, slots=True)
class CircuitPicture:
    """A circuit as drawn. `weight`: how much the job had to do with it."""

    title: str
    rows: tuple[Row, ...]
    links: tuple[Link, ...]
    height: int
    weight: int
    width: int = WIDTH


def circuits_of(job: Job, evidence: Evidence) -> tuple[CircuitPicture, ...]:
    """The circuits that this job had to do with, those with a found or suspected part first."""
    pictures = [_picture(job, circuit, evidence) for circuit in job.base.circuits]
    return tuple(sorted((p for p in pictures if p.weight), key=lambda picture: -picture.weight))


def _picture(job: Job, circuit: str, evidence: Evidence) -> CircuitPicture:
    parts = [part for part in job.base.parts.values() if part.circuit == circuit and _is_there(job, part)]
    edges = edges_of(job.base, {part.id for part in parts})
    order = _in_order([part.id for part in parts], edges)
    lanes = _Lanes(order, edges)
    rows: list[Row] = []
    y = GAP
    weight = 0
    for part_id in order:
        state, lines = state_of(job, job.base.parts[part_id], evidence)
        weight += {FOUND: 100, LISTED: 10, CLEARED: 1, LOOKED_AT: 1, NOT_MET: 0}[state]
        indent = LANE * (lanes.most + 1)
        letters = LETTERS - 2 * lanes.most
        name = tuple(folded(job.base.parts[part_id].name, letters - 4, 2))
        told = tuple(line for text in lines for line in folded(text, letters + 2, 2))
        rows.append(Row(part_id, state, name, told, y + LINE // 2, lanes.of[part_id], indent))
        y += LINE * (len(name) + len(told)) + GAP
    at = {row.part: row for row in rows}
    links = tuple(
        Link(at[a].y, at[b].y, lanes.of_edge[a, b], at[a].lane, at[b].lane) for a, b in edges if a in at and b in at
    )
    return CircuitPicture(job.base.circuits[circuit].title, tuple(rows), links, y, weight)


def _is_there(job: Job, part: Part) -> bool:
    features = job.machine.features if job.machine else {}
    return applies(job.base, features, (job.base.circuits[part.circuit].applies, part.applies))


def edges_of(base: RuleBase, parts: set[str]) -> tuple[tuple[str, str], ...]:
    """From part to part, within these: along the ways of the feeds, and from a feed's last part to whoever needs it."""
    edges: dict[tuple[str, str], None] = {}
    for feed in base.feeds.values():
        way = [step for step in feed.through if step in parts]
        edges |= dict.fromkeys(pairwise(way))
    for part in parts:
        for need in base.parts[part].needs:
            through = [step for step in base.feeds[need].through if step in parts and step != part]
            if through:
                edges[through[-1], part] = None
    return tuple(edges)


def _in_order(parts: list[str], edges: Iterable[tuple[str, str]]) -> list[str]:
    """What feeds before what is fed; otherwise as the rules have them."""
    edges = list(edges)
    order: list[str] = []
    left = list(parts)
    while left:
        free = [part for part in left if not any(b == part and a in left for a, b in edges)]
        # A ring cannot come from rules that were checked; should it, the rules' order stands.
        order.append((free or left)[0])
        left.remove(order[-1])
    return order


class _Lanes:
    """A lane for each line that would cross rows between its ends; neighbours are joined straight on lane 0."""

    def __init__(self, order: list[str], edges: Iterable[tuple[str, str]]) -> None:
        self.of = dict.fromkeys(order, 0)
        self.of_edge: dict[tuple[str, str], int] = {}
        self.most = 0
        taken: list[int] = []  # by lane: the row that its last line ends at
        place = {part: row for row, part in enumerate(order)}
        for a, b in sorted(edges, key=lambda edge: (place[edge[0]], place[edge[1]])):
            if place[b] == place[a] + 1:
                self.of_edge[a, b] = 0
                continue
            lane = next((n for n, until in enumerate(taken, 1) if until <= place[a]), len(taken) + 1)
            taken[lane - 1 :] = [place[b]] if lane > len(taken) else [place[b], *taken[lane:]]
            self.of_edge[a, b] = lane
            self.most = max(self.most, lane)


def state_of(job: Job, part: Part, evidence: Evidence) -> tuple[str, list[str]]:
    """The state of a part in this job, and in words what showed it."""
    names = {fault.id: fault.name for fault in part.faults}
    found = [fault for fault in names if fault in evidence.standings and evidence.standings[fault] != "narrowed"]
    listed = [fault for fault in names if evidence.standings.get(fault) == "narrowed"]
    cleared = [fault for fault in names if fault in evidence.cleared]
    if found:
        lines = [f"{_STANDING[evidence.standings[fault]]}: {names[fault]}" for fault in found]
        return FOUND, lines + [line for fault in found for line in evidence.of(fault)]
    if listed:
        return LISTED, [f"may be: {', '.join(names[fault] for fault in listed)}"]
    if cleared and len(cleared) == len(names):
        return CLEARED, [f"cleared{_by(evidence, cleared)}"]
    if cleared:
        return LOOKED_AT, [say.faults_cleared(len(cleared), len(names), _by(evidence, cleared))]
    return NOT_MET, ["not tested"]


_STANDING: Mapping[str, str] = {
    "found": "FOUND",
    "left_by_elimination": "LEFT BY ELIMINATION",
    "own_judgement": say.OWN_JUDGEMENT,
}


def _by(evidence: Evidence, faults: Iterable[str]) -> str:
    numbers = sorted({number for fault in faults for number in evidence.numbers.get(fault, ())})
    return f" by answer {', '.join(map(str, numbers))}" if numbers else ""
