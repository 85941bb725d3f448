"""How the machine stands when it comes to the bench."""

from __future__ import annotations

from collections.abc import Iterable

from expert.engine.bench import bench_state
from expert.job.answers.reading import NotAnAnswer
from expert.job.prompts.intake_prompt import IntakePrompt, numbers_up_to, pick
from expert.job.prompts.owner import Unattended
from expert.job.sentences import intake as say
from expert.job.state.bench import state_in_words
from expert.job.state.job import Job, Turn
from expert.trace.records import Moved
from expert.trade.quantities.units import echo


class Arrives(IntakePrompt):
    name = "arrives"
    not_known = say.LOOK_HOW_IT_STANDS
    because = say.WHY_HOW_IT_STANDS

    def text(self, job: Job) -> tuple[str, tuple[str, ...]]:
        lines = [f"  {number}  {arrival.say}" for number, arrival in enumerate(job.base.bench.arrives.values(), 1)]
        return "\n".join([say.HOW_DOES_IT_STAND, *lines]), tuple(job.base.bench.arrives)

    def settle(self, turn: Turn, text: str) -> bool:
        bench = turn.job.base.bench
        chosen = pick(text, list(bench.arrives))
        if chosen is None:
            raise NotAnAnswer(say.no_line_fits(echo(text), numbers_up_to(len(bench.arrives))))
        turn.job.bench = bench_state(bench, bench.arrives[chosen].state)
        turn.job.cautions_read.clear()  # what was said at intake belongs to no step at the machine
        turn.add(Moved(f"arrives {chosen}", dict(turn.job.bench), 0.0))
        return True

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        return [at_hand.answers.arrives or next(iter(job.base.bench.arrives))]

    def offers(self, job: Job) -> Iterable[tuple[str, str]]:
        return ((choice, job.base.bench.arrives[choice].say) for choice in job.prompt.choices)

    def what_changed(self, turn: Turn) -> str:
        return state_in_words(turn.job)
