"""Proof: the tests that show that a repair holds, and that the machine may go back."""

from __future__ import annotations

from expert.job.answers.putting import put_question
from expert.job.bench.first import barring
from expert.job.bench.moves import make_ready, offer_again
from expert.job.bench.rounds import first_of_round, made_with
from expert.job.prompts.owner import Unattended
from expert.job.prompts.proving import answer_proof, back_to_search, cannot_prove, is_waiting, record_proof
from expert.job.prompts.rounds import answers_of_round, line_for_round, put_round, take_round
from expert.job.prompts.test_prompt import TestPrompt, unattended_answer
from expert.job.search.ending import ELIMINATED, FOUND, LISTED, OWN_JUDGEMENT
from expert.job.sentences import repair as say
from expert.job.state.after_opening import due_on_the_way, why_on_the_way
from expert.job.state.bench import bench_map
from expert.job.state.complaints_now import (
    not_seen_gone,
    raise_what_is_seen,
    tried_at_work,
)
from expert.job.state.hazards import refuse, tests_that_end
from expert.job.state.job import CouldNot, Given, Job, Phase, Turn
from expert.job.state.situation import picture_of, reopen
from expert.job.state.values import missing_first
from expert.job.wording.records import LEADS
from expert.job.wording.rounds import how_of_round
from expert.language.model import Question
from expert.trace.records import SearchEnded
from expert.trace.why import Why


def proof_list(job: Job) -> tuple[str, ...]:
    """The questions that must come out sound for the repairs not proved yet, those of the return to service, the
    looks that every machine gets before it goes back, and the check-out: one way through the bench states for all."""
    wanted: dict[str, None] = {}
    for fault, proved in job.repaired.items():
        if not proved:
            wanted |= dict.fromkeys(job.base.faults[fault].prove)
    if wanted:
        # What ends a danger is measured while the machine is open for it, and not when the danger bars the way out.
        wanted |= dict.fromkeys((*job.base.bench.service, *due_on_the_way(job), *tried_at_work(job)))
        wanted = dict.fromkeys(tests_that_end(job, wanted))
    return tuple(question for question in wanted if job.concerns_machine(job.base.questions[question]))


def prove_on(turn: Turn) -> None:
    """Put the next proof on the shortest way through all that are left; or close the proof when all are through."""
    job = turn.job
    while job.to_prove:
        question = first_of_round(job, job.to_prove)
        obstacle = _obstacle(job, question)
        if obstacle:
            if offer_again(turn, bench_map(job, any_move=True).route(job.bench, question.bench)):
                return
            for hazard, act in barring(job, question):
                refuse(turn, hazard, act, f"proof {question.id}")
            turn.tell(say.not_proved_because(obstacle, question.ask))
            record_proof(turn, question.id, "", None)
            continue
        first = _first_of(job, question)
        ready = make_ready(turn, first)
        if ready is None:
            turn.tell(say.not_proved_bench(question.ask))
            record_proof(turn, question.id, "", None)
            continue
        if ready:
            # What its limits rest on comes before it, such as the temperature stamped on a part.
            if first.id == question.id:
                put_round(turn, made_with(job, question))
            else:
                put_question(turn, first, "question", Why(aim=question.id))
        return
    finish_proof(turn)


def _first_of(job: Job, question: Question) -> Question:
    """The proof itself, or what has to be read before its limits can be worked out."""
    missing = [name for name in missing_first(job, question.id) if name not in job.cannot]
    return job.base.questions[missing[0]] if missing else question


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
    if not on_the_way_out and (due := (*due_on_the_way(job), *tried_at_work(job))):
        turn.tell(why_on_the_way(job) or (say.AT_WORK if job.repaired else say.AT_WORK_UNREPAIRED))
        job.to_prove = due
        return
    if is_waiting(job):
        raise_what_is_seen(turn)
        back_to_search(turn, say.ALL_IS_PUT)
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

    def take(self, turn: Turn, line: str) -> None:
        answers = answers_of_round(turn.job, line)
        if answers is None:
            super().take(turn, line)
        else:
            take_round(turn, answers)

    def meaning(self, job: Job, line: str) -> str:
        return "" if answers_of_round(job, line) is not None else super().meaning(job, line)

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        return [line_for_round(job, lambda test: unattended_answer(job, at_hand, test))]

    def how(self, job: Job) -> tuple[str, ...]:
        return how_of_round(job) if job.round_put else super().how(job)

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
