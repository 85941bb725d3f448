"""A question of the search, or one that must be known before a bench move."""

from __future__ import annotations

from expert.job.answers.taking import cannot_tell, counts, take_answer
from expert.job.bench.moves import moves_waiting_for
from expert.job.prompts.danger import mistaken
from expert.job.prompts.test_prompt import TestPrompt
from expert.job.search.second_reading import was_a_mistake
from expert.job.sentences import search as say
from expert.job.state.job import Given, Job, Turn
from expert.job.state.situation import picture_of
from expert.job.wording.why import why_in_numbers, why_in_words


class SearchQuestion(TestPrompt):
    def take_given(self, turn: Turn, given: Given) -> None:
        if not counts(turn.job, given):
            cannot_tell(turn, given.question, say.tells_nothing_by_itself(given.text))
            turn.tell(say.tells_nothing_by_itself(given.text))
        else:
            take_answer(turn, given)
        if was_a_mistake(turn.job, given.question):
            mistaken(turn.job)
        turn.job.choice = None

    def leave(self, turn: Turn, question: str) -> None:
        turn.job.choice = None

    def why(self, job: Job) -> tuple[str, ...]:
        if moves := moves_waiting_for(job):
            return (say.known_before(" Or: ".join(move.say for move in moves)),)
        if job.choice is None:
            return (say.KNOWN_BEFORE_GOING_ON,)
        return why_in_words(job, picture_of(job), job.choice)

    def why_more(self, job: Job) -> tuple[str, ...]:
        if moves_waiting_for(job) or job.choice is None:
            return self.why(job)
        return why_in_numbers(job, job.choice)
