"""Proof: the tests that show that a repair holds, and that the machine may go back."""

from __future__ import annotations

from math import inf

from expert.job.answers.putting import put_question
from expert.job.answers.taking import take_answer
from expert.job.bench.first import barring
from expert.job.bench.moves import make_ready, offer_again
from expert.job.prompts.test_prompt import TestPrompt
from expert.job.search.ending import ELIMINATED, FOUND, LISTED, OWN_JUDGEMENT
from expert.job.sentences import repair as say
from expert.job.state.bench import bench_map
from expert.job.state.complaints_now import (
    close_what_is_gone,
    not_seen_gone,
    raise_what_is_seen,
    stands_again,
    tried_at_work,
)
from expert.job.state.hazards import refuse
from expert.job.state.job import CouldNot, Given, Job, Phase, Turn
from expert.job.state.situation import picture_of, reopen
from expert.job.state.values import missing_first
from expert.job.wording.records import LEADS
from expert.language.model import Question
from expert.trace.records import Proved, SearchEnded
from expert.trace.why import Why


def proof_list(job: Job) -> tuple[str, ...]:
    """The questions that must come out sound for the repairs not proved yet, then those of the return to service."""
    wanted: dict[str, None] = {}
    for fault, proved in job.repaired.items():
        if not proved:
            wanted |= dict.fromkeys(job.base.faults[fault].prove)
    if wanted:
        wanted |= dict.fromkeys(job.base.bench.service)
    return tuple(question for question in wanted if job.concerns_machine(job.base.questions[question]))


def prove_on(turn: Turn) -> None:
    """Put the next proof, the one nearest to the present bench state; or close the proof when all are through."""
    job = turn.job
    while job.to_prove:
        question = _nearest(job)
        obstacle = _obstacle(job, question)
        if obstacle:
            if offer_again(turn, bench_map(job, any_move=True).route(job.bench, question.bench)):
                return
            for hazard, act in barring(job, question):
                refuse(turn, hazard, act, f"proof {question.id}")
            turn.tell(say.not_proved_because(obstacle, question.ask))
            _record_proof(turn, question.id, "", None)
            continue
        first = _first_of(job, question)
        ready = make_ready(turn, first)
        if ready is None:
            turn.tell(say.not_proved_bench(question.ask))
            _record_proof(turn, question.id, "", None)
            continue
        if ready:
            # What its limits rest on comes before it, such as the temperature stamped on a part.
            put_question(turn, first, "proof" if first.id == question.id else "question", Why(aim=question.id))
        return
    finish_proof(turn)


def _first_of(job: Job, question: Question) -> Question:
    """The proof itself, or what has to be read before its limits can be worked out."""
    missing = [name for name in missing_first(job, question.id) if name not in job.cannot]
    return job.base.questions[missing[0]] if missing else question


def _nearest(job: Job) -> Question:
    """Of the proofs left, the one whose bench state costs the fewest minutes to reach; of equals the first listed."""
    ways = bench_map(job)

    def minutes(question: Question) -> float:
        route = ways.route(job.bench, question.bench)
        return route.minutes if route else inf

    return min((job.base.questions[name] for name in job.to_prove), key=minutes)


def _obstacle(job: Job, question: Question) -> str:
    """Why a proof cannot be made here, or ''."""
    if not question.possible_with(job.instruments):
        return say.SHOP_LACKS_INSTRUMENT
    if job.state.truth(question.only_if) is False:
        return say.CANNOT_BE_TESTED
    if bench_map(job).route(job.bench, question.bench) is None:
        hazards = [hazard.name for hazard, _ in barring(job, question)]
        return say.there_may_be(hazards[0]) if hazards else say.BENCH_CANNOT_BE_BROUGHT
    return ""


def _record_proof(turn: Turn, question: str, answer: str, passed: bool | None) -> None:
    job = turn.job
    job.to_prove = tuple(other for other in job.to_prove if other != question)
    job.proofs = (*job.proofs, (question, answer, passed))
    turn.add(Proved(question, answer, passed))


def answer_proof(turn: Turn, given: Given) -> None:
    """An answer to a proof question: passed when certainly sound; failed when certainly not, and the search reopens."""
    job = turn.job
    sound = set(job.base.questions[given.question].sound)
    take_answer(turn, given)
    if set(given.outcomes) <= sound:
        _record_proof(turn, given.question, given.text, True)
        close_what_is_gone(turn, given)
    elif set(given.outcomes) & sound:
        _record_proof(turn, given.question, given.text, None)
        turn.tell(say.TOO_CLOSE_TO_PROVE)
    else:
        _record_proof(turn, given.question, given.text, False)
        _proof_failed(turn, given)


def cannot_prove(turn: Turn, question: str) -> None:
    """The proof could not be made."""
    _record_proof(turn, question, "can't tell", None)


def _proof_failed(turn: Turn, given: Given) -> None:
    """A repair whose own proof fails is in doubt; what fails beside it is another fault, and raises its complaint."""
    job = turn.job
    own = [fault for fault, proved in job.repaired.items() if not proved and given.question in _own(job, fault)]
    for fault in own:
        job.repaired[fault] = False
    job.to_prove = ()
    job.back_to_close = False
    turn.tell(say.PROOF_FAILED if own else say.SOMETHING_ELSE_FAILED if job.repaired else say.NOT_AS_A_SOUND_ONE)
    stands_again(turn, given)
    raise_what_is_seen(turn)
    reopen(job)


def _own(job: Job, fault: str) -> tuple[str, ...]:
    return job.base.faults[fault].prove


def proof_is_withdrawn(job: Job, question: str) -> None:
    """A proof that was taken back is no proof: it is due again, and the repairs that rest on it are open again."""
    if question not in {name for name, _, _ in job.proofs}:
        return
    job.proofs = tuple(proof for proof in job.proofs if proof[0] != question)
    job.to_prove = (*job.to_prove, question)
    for fault, proved in job.repaired.items():
        if proved and question in job.base.faults[fault].prove:
            job.repaired[fault] = None


def offer_what_was_out_of_reach(job: Job) -> None:
    """A bench move can be made after all: repairs that were left and proofs that could not be made are due again."""
    job.declined.clear()
    for question, answer, passed in job.proofs:
        if passed is None and not answer:
            proof_is_withdrawn(job, question)


def finish_proof(turn: Turn) -> None:
    """Every proof is through: the repairs count as proved unless one is still open."""
    job = turn.job
    results = {question: passed for question, _, passed in job.proofs}
    for fault, proved in job.repaired.items():
        # A proof that failed at first may have failed for another fault behind this one.
        if not proved and all(results.get(question) for question in job.base.faults[fault].prove):
            job.repaired[fault] = True
    on_the_way_out, job.back_to_close = job.back_to_close, False
    if not on_the_way_out and (due := tried_at_work(job)):
        turn.tell(say.AT_WORK if job.repaired else say.AT_WORK_UNREPAIRED)
        job.to_prove = due
        return
    if not on_the_way_out and picture_of(job).complaints_open and not job.declined:
        reopen(job)
        return
    if not on_the_way_out:
        settle_outcome(turn)
    job.phase = Phase.CLOSE


def settle_outcome(turn: Turn) -> None:
    """A search that ended open, and whose machine does all its work since the repair, has found what it was."""
    job = turn.job
    if job.outcome in (FOUND, "normal") or not job.mended() or not picture_of(job).settled or not_seen_gone(job):
        return
    standings = [job.found.get(fault, FOUND) for fault in job.mended()]
    job.found = {fault: standing for fault, standing in job.found.items() if standing != LISTED}
    outcome = next((one for one in (OWN_JUDGEMENT, ELIMINATED) if one in standings), FOUND)
    if outcome != job.outcome:
        job.outcome = outcome
        turn.add(SearchEnded(outcome, ()))


class Proof(TestPrompt):
    lead = LEADS["proof"]

    def take_given(self, turn: Turn, given: Given) -> None:
        answer_proof(turn, given)

    def leave(self, turn: Turn, question: str) -> None:
        cannot_prove(turn, question)
        turn.job.choice = None

    def why(self, job: Job) -> tuple[str, ...]:
        return (say.WHY_PROOF,)

    def why_in_audit(self) -> str:
        return say.WHY_PROOF_IN_AUDIT

    def taken_back(self, job: Job, taken: Given | CouldNot) -> None:
        proof_is_withdrawn(job, taken.about)
