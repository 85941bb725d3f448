"""Which complaints stand now: those reported and those that the bench raised itself, until each is seen to be gone.

A complaint is closed by its own re-test after the last repair, never by the word of the fault that it was credited to.
What the repaired machine still does wrong is a complaint like any other, though nobody reported it.
"""

from __future__ import annotations

from expert.job.sentences import closing as say
from expert.job.state.bench import bench_map
from expert.job.state.hazards import to_put
from expert.job.state.inference import conclude
from expert.job.state.job import Given, Job, Turn
from expert.language.model import Complaint
from expert.trace.records import ComplaintNow


def complaints_now(job: Job) -> tuple[str, ...]:
    """Reported or raised by the bench, and not seen to be gone."""
    return tuple(one for one in dict.fromkeys((*job.complaints, *job.raised)) if one not in job.gone)


def accounted_by_repairs(job: Job) -> frozenset[str]:
    """Complaints that a repair made since they stand accounts for: whether they are gone is not seen yet."""
    base = job.base
    return frozenset(
        complaint
        for fault in job.mended()
        for complaint in base.faults[fault].explains
        if job.repaired_at.get(fault, 0) >= job.raised.get(complaint, 0)
    )


def raise_what_is_seen(turn: Turn) -> bool:
    """Raise the complaints that the answers show, unless they stand already. Whether there was one.

    What a repair was to cure and the repaired machine still shows is raised anew.
    """
    job = turn.job
    settled = set(complaints_now(job)) - accounted_by_repairs(job)
    complaints = job.base.complaints.values()
    seen = [one.id for one in complaints if job.state.truth(one.raised_when) and _seen_since(job, one)]
    for complaint in (wanted := [one for one in seen if one not in settled]):
        _raise(turn, complaint)
    return bool(wanted)


def _seen_since(job: Job, complaint: Complaint) -> bool:
    """Whether any answer that raises it was given since it was last seen to be gone."""
    behind = job.knowledge.questions_of(complaint.raised_when)
    latest = max((given.number for name in behind if (given := job.answer_to(name)) is not None), default=0)
    return latest > job.gone.get(complaint.id, 0) or not behind


def stands_again(turn: Turn, given: Given) -> bool:
    """The re-test of a complaint that a repair was to cure came out unsound: it is still there, for another reason.

    Whether there is such a complaint.
    """
    job = turn.job
    cured = sorted(accounted_by_repairs(job) & set(complaints_now(job)))
    again = [complaint for complaint in cured if given.question in job.base.complaints[complaint].gone_when]
    for complaint in again:
        _raise(turn, complaint)
    return bool(again)


def _raise(turn: Turn, complaint: str) -> None:
    job = turn.job
    if complaint in job.raised or complaint in job.complaints:
        job.seen_again[complaint] = job.next_number
    job.raised[complaint] = job.next_number
    job.gone.pop(complaint, None)
    turn.add(ComplaintNow(complaint, "raised"))
    conclude(turn, job.state.narrow(f"complaint {complaint}", f"complaint.{complaint}", ("yes",)))


def close_what_is_gone(turn: Turn, given: Given) -> None:
    """After a repair, a re-test that came out as on a sound machine closes its complaint."""
    job = turn.job
    for complaint in complaints_now(job) if job.repaired else ():
        closing = job.base.complaints[complaint].gone_when.get(given.question, ())
        fits = bool(closing) and set(given.outcomes) <= set(closing) and given.number >= since_repair(job)
        if fits and not _is_normal(job, complaint):
            job.gone[complaint] = given.number
            turn.add(ComplaintNow(complaint, "gone"))
            conclude(turn, job.state.narrow(f"complaint {complaint}", f"complaint.{complaint}", ("no",)))


def not_gone_after_all(turn: Turn, number: int) -> None:
    """An answer was taken back: what it closed stands again, and what it raised does so no longer."""
    job = turn.job
    for complaint in [one for one, closed in job.gone.items() if closed == number]:
        del job.gone[complaint]
        job.seen_again[complaint] = job.next_number
        turn.add(ComplaintNow(complaint, "raised"))
        conclude(turn, job.state.narrow(f"complaint {complaint}", f"complaint.{complaint}", ("yes",)))
    for complaint in [one for one, raised in job.raised.items() if raised == number + 1]:
        if not job.state.truth(job.base.complaints[complaint].raised_when):
            del job.raised[complaint]
            stands = "yes" if complaint in job.complaints else "no"
            if stands == "no":
                job.seen_again[complaint] = job.next_number  # when it is, it is seen anew
                turn.add(ComplaintNow(complaint, "withdrawn"))
            conclude(turn, job.state.narrow(f"complaint {complaint}", f"complaint.{complaint}", (stands,)))


def since_repair(job: Job) -> int:
    """The number of the first answer after the last repair; 0 where nothing was repaired."""
    return max(job.repaired_at.values(), default=0)


def tried_at_work(job: Job) -> tuple[str, ...]:
    """What is still to be put before the machine goes back as fine.

    Re-tests of its complaints, what the repaired faults had hidden, then the check-out.
    """
    due: dict[str, None] = {}
    if job.mended():
        for complaint in complaints_now(job):
            if not _is_normal(job, complaint):
                due |= dict.fromkeys(_retest(job, complaint))
    # What was seen to work on the way out, and was not set aside by a repair since, need not be seen again.
    seen = {question for question, _, passed in job.proofs if passed and job.answer_to(question) is not None}
    hidden = (name for fault in job.mended() for name in job.base.faults[fault].masks)
    wanted = (name for name in (*hidden, *job.base.bench.check_out) if name not in seen)
    due |= dict.fromkeys(name for name in wanted if _is_due(job, name, since_repair(job)))
    return tuple(due)


def _retest(job: Job, complaint: str) -> tuple[str, ...]:
    """The first re-test of a complaint that can be put; none where one was made since the last repair."""
    tests = tuple(job.base.complaints[complaint].gone_when)
    since = since_repair(job)
    if any((given := job.answer_to(name)) is not None and given.number >= since for name in tests):
        return ()
    return next(((name,) for name in tests if _is_due(job, name, since)), ())


def _is_due(job: Job, name: str, since: int) -> bool:
    question = job.base.questions[name]
    if _made(job, name, since) or not job.concerns_machine(question) or not question.possible_with(job.instruments):
        return False
    test = to_put(job, question)
    return (
        job.state.truth(question.only_if) is not False
        and test is not None
        and bench_map(job).route(job.bench, test.bench) is not None
    )


def _made(job: Job, name: str, since: int) -> bool:
    """Whether it was answered, or could not be told, from this number on, and that still holds."""
    given = job.answer_to(name)
    tried = {question for question, answer, _ in job.proofs if not answer}
    unable = any(one.holds and one.subject == name and one.number >= since for one in job.unable.values())
    return unable or name in tried or (given is not None and given.number >= since)


def not_seen_gone(job: Job) -> tuple[str, ...]:
    """Complaints that nothing shows to be gone: neither a repair with its re-test nor a sound machine's behaviour."""
    accounted = accounted_by_repairs(job)
    return tuple(
        complaint
        for complaint in complaints_now(job)
        if not _is_normal(job, complaint) and (job.base.complaints[complaint].gone_when or complaint not in accounted)
    )


def still_open_in_words(job: Job) -> list[str]:
    """After a repair, one line that names these complaints, each as reported or as seen at the bench; else none."""
    names = [
        f"{job.base.complaints[complaint].name}{'' if complaint in job.complaints else say.SEEN_AT_THE_BENCH}"
        for complaint in not_seen_gone(job)
    ]
    return [say.still_open("; ".join(names))] if names and job.repaired else []


def _is_normal(job: Job, complaint: str) -> bool:
    return any(rule in job.state.fired for rule in job.knowledge.normal_rules.get(complaint, ()))
