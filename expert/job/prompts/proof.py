"""Proof: the tests that show that a repair holds, and that the machine may go back."""

from __future__ import annotations

import re

from expert.job.answers.putting import put_question, show_cautions
from expert.job.answers.reading import NotAnAnswer, read_answer
from expert.job.answers.taking import take_answer
from expert.job.bench.first import barring
from expert.job.bench.moves import make_ready, offer_again
from expert.job.bench.rounds import first_of_round, looks_with
from expert.job.prompts.test_prompt import TestPrompt
from expert.job.search.ending import ELIMINATED, FOUND, LISTED, OWN_JUDGEMENT
from expert.job.search.unexplained import unexplained
from expert.job.sentences import repair as say
from expert.job.state.after_opening import due_on_the_way, why_on_the_way
from expert.job.state.bench import bench_map
from expert.job.state.complaints_now import (
    close_what_is_gone,
    not_seen_gone,
    raise_what_is_seen,
    stands_again,
    tried_at_work,
)
from expert.job.state.hazards import refuse, tests_that_end
from expert.job.state.job import CouldNot, Given, Job, Phase, Turn
from expert.job.state.situation import picture_of, reopen
from expert.job.state.values import missing_first
from expert.job.wording.records import LEADS
from expert.job.wording.rounds import how_of_round, looks_listed
from expert.language.model import Question
from expert.trace.records import Proved, SearchEnded
from expert.trace.why import Why

ROUND = re.compile(r"(?i)(?:all\s+)?(?P<all>\d{1,3})\s+sound|not\s+(?P<first_not>\d{1,3})")


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
            if first.id == question.id:
                put_round(turn, looks_with(job, question))
            else:
                put_question(turn, first, "question", Why(aim=question.id))
        return
    finish_proof(turn)


def put_round(turn: Turn, looks: tuple[Question, ...]) -> None:
    """Put a proof; where other looks are made with it, all of them are listed and may be confirmed by one word."""
    first, *others = looks
    if others:
        for look in looks:
            show_cautions(turn, look.cautions)
        turn.tell(say.looks_in_one_round(len(looks)))
        turn.tell(*looks_listed(looks))
        turn.tell(say.how_to_answer_a_round(len(looks)))
    put_question(turn, first, "proof", Why(aim=first.id))
    turn.job.round_put = tuple(look.id for look in looks) if others else ()


def seen_in_round(job: Job, line: str) -> int | None:
    """How many looks of the round the line confirms, from the first on; None where it is an answer of another sort.

    Raises NotAnAnswer where it names another number of looks than are listed.
    """
    looks = len(job.round_put)
    said = ROUND.fullmatch(line.strip()) if looks and job.round_put[0] == job.prompt.subject else None
    if said is None:
        return None
    number = int(said["all"] or said["first_not"])
    if (said["all"] and number != looks) or (said["first_not"] and not 1 <= number <= looks):
        raise NotAnAnswer(say.not_that_many(looks))
    return number if said["all"] else number - 1


def take_round(turn: Turn, sound: int) -> None:
    """So many looks of the round came out as written; the next one, if there is one, is put by itself."""
    job = turn.job
    looks = [job.base.questions[name] for name in job.round_put]
    for look in looks[:sound]:
        answer_proof(turn, read_answer(job, look, look.sound[0]))
    for look in looks[sound : sound + 1]:
        put_question(turn, look, "proof", Why(aim=look.id))


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


def _record_proof(turn: Turn, question: str, answer: str, passed: bool | None) -> None:
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
        _record_proof(turn, given.question, given.text, True)
        close_what_is_gone(turn, given)
        if _is_waiting(turn.job) and raise_what_is_seen(turn):
            _search_on(turn, say.SAID_TOGETHER)
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
        _search_on(turn, told)
    else:
        turn.tell(say.REST_FIRST)


def _search_on(turn: Turn, why: str) -> None:
    """Back to the search: what was still to be proved is put after it."""
    job = turn.job
    job.searched_for |= frozenset(unexplained(job, picture_of(job)))
    job.to_prove = ()
    job.back_to_close = False
    turn.tell(why)
    reopen(job)


def _is_waiting(job: Job) -> bool:
    """Whether a test failed of which the rest of the proof is to say what it means."""
    failed = {question for question, _, passed in job.proofs if passed is False} - job.searched_for
    return bool(failed) and bool(failed & set(unexplained(job, picture_of(job))))


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
    if not on_the_way_out and (due := (*due_on_the_way(job), *tried_at_work(job))):
        turn.tell(why_on_the_way(job) or (say.AT_WORK if job.repaired else say.AT_WORK_UNREPAIRED))
        job.to_prove = due
        return
    if _is_waiting(job):
        raise_what_is_seen(turn)
        _search_on(turn, say.ALL_IS_PUT)
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
        sound = seen_in_round(turn.job, line)
        if sound is None:
            super().take(turn, line)
        else:
            take_round(turn, sound)

    def meaning(self, job: Job, line: str) -> str:
        return "" if seen_in_round(job, line) is not None else super().meaning(job, line)

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
