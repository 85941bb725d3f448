"""What an answer to a proof leads to: proved, not to be told, or back to the search with everything that is known."""

from __future__ import annotations

from expert.job.answers.taking import take_answer
from expert.job.search.unexplained import unexplained
from expert.job.sentences import repair as say
from expert.job.state.complaints_now import close_what_is_gone, raise_what_is_seen, stands_again
from expert.job.state.job import Given, Job, Turn
from expert.job.state.situation import picture_of, reopen
from expert.trace.records import Proved


def record_proof(turn: Turn, question: str, answer: str, passed: bool | None) -> None:
    job = turn.job
    job.to_prove = tuple(other for other in job.to_prove if other != question)
    job.proofs = (*job.proofs, (question, answer, passed))
    job.searched_for -= {question}
    turn.add(Proved(question, answer, passed))


def answer_proof(turn: Turn, given: Given) -> None:
    """An answer to a proof question: passed when certainly sound; failed when certainly not, and the search reopens."""
    job = turn.job
    sound = set(job.base.questions[given.question].sound)
    take_answer(turn, given)
    if set(given.outcomes) <= sound:
        record_proof(turn, given.question, given.text, True)
        close_what_is_gone(turn, given)
        if is_waiting(turn.job) and raise_what_is_seen(turn):
            back_to_search(turn, say.SAID_TOGETHER)
    elif set(given.outcomes) & sound:
        record_proof(turn, given.question, given.text, None)
        turn.tell(say.TOO_CLOSE_TO_PROVE)
    else:
        record_proof(turn, given.question, given.text, False)
        _proof_failed(turn, given)


def cannot_prove(turn: Turn, question: str) -> None:
    """The proof could not be made."""
    record_proof(turn, question, "can't tell", None)


def _proof_failed(turn: Turn, given: Given) -> None:
    """A repair whose own proof fails is in doubt; what fails beside it is another fault, and raises its complaint.

    Where it raises none and names no fault by itself, the rest of the proof comes first: what the answers say together
    is searched for.
    """
    job = turn.job
    own = [fault for fault, proved in job.repaired.items() if not proved and given.question in _own(job, fault)]
    for fault in own:
        job.repaired[fault] = False
    # Both, whatever the first says: an answer may bring a complaint back and raise another one.
    stands = [stands_again(turn, given), raise_what_is_seen(turn)]
    picture = picture_of(job)
    if own or any(stands) or picture.confirmed or given.question not in unexplained(job, picture):
        told = say.PROOF_FAILED if own else say.SOMETHING_ELSE_FAILED if job.repaired else say.NOT_AS_A_SOUND_ONE
        back_to_search(turn, told)
    else:
        turn.tell(say.REST_FIRST)


def back_to_search(turn: Turn, why: str) -> None:
    """Back to the search: what was still to be proved is put after it."""
    job = turn.job
    job.searched_for |= frozenset(unexplained(job, picture_of(job)))
    job.to_prove = ()
    job.back_to_close = False
    turn.tell(why)
    reopen(job)


def is_waiting(job: Job) -> bool:
    """Whether a test failed of which the rest of the proof is to say what it means."""
    failed = {question for question, _, passed in job.proofs if passed is False} - job.searched_for
    return bool(failed) and bool(failed & set(unexplained(job, picture_of(job))))


def _own(job: Job, fault: str) -> tuple[str, ...]:
    return job.base.faults[fault].prove
