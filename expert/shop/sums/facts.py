"""What one trace says that can be added up over many jobs."""

from __future__ import annotations

from dataclasses import dataclass, field

# `real` work counts in the sums; the others stand apart.
REAL, PRACTICE, INVENTED, DAMAGED = "real", "practice", "invented", "damaged"


@dataclass(slots=True)
class QuestionFacts:
    """How often one question was answered, could not be, was taken back or stood in a contradiction, in one job."""

    answered: int = 0
    cannot: int = 0
    taken_back: int = 0
    contradicted: int = 0


@dataclass(slots=True)
class JobFacts:
    """One job. Times are text as written (UTC); '' and None where the trace does not say.

    `status`: open, paused, handed_over or closed. `faults`: by id, with their standing. `live`: answers given with
    covers off and mains on, by technician. `machine_key`: the serial number as keyed digest. `attempts`: repairs made.
    """

    job: str = ""
    purpose: str = REAL
    opened: str = ""
    last: str = ""
    status: str = "open"
    outcome: str = ""
    technician: str = ""
    machine: str = ""
    machine_key: str = ""
    minutes: float | None = None
    attempts: int = 0
    failed_proofs: int = 0
    currency: str = ""
    work_cost: float | None = None
    parts_cost: float | None = None
    verdict: str = ""
    true_fault: str = ""
    complaints: list[str] = field(default_factory=list)
    faults: dict[str, str] = field(default_factory=dict)
    repaired: list[str] = field(default_factory=list)
    questions: dict[str, QuestionFacts] = field(default_factory=dict)
    rules: list[str] = field(default_factory=list)
    stops: list[str] = field(default_factory=list)
    live: dict[str, int] = field(default_factory=dict)
    parts: list[str] = field(default_factory=list)
