"""A small invented bench with dangers on it, for tests of the judge."""

from __future__ import annotations

from functools import cache

from expert.engine.knowledge import Knowledge, knowledge_of
from expert.language.load import read_rules
from tests.dialogue.small_folder import FILES

CAUTIONS = """\
cautions:
  isolate: "Mains kills. Pull the plug."
  steam: {text: Steam scalds., lasts: {boiler: [hot]}}
"""

BENCH = """\
states:
  mains: [isolated, on]
  covers: [on, off]
  boiler: [cold, hot]
  altered: [nothing, for_test]
arrives:
  cold: {say: Unplugged and cold, state: {mains: isolated, covers: on, boiler: cold, altered: nothing}}
  plugged: {say: Plugged in, state: {mains: on, covers: on, boiler: hot, altered: nothing}}
safe: {mains: isolated}
hand_back: {state: {mains: isolated, covers: on, altered: nothing}, prove: [hose_is_dry]}
qualified_only:
  - {mains: on, covers: off}
in_time:
  - while: {mains: on, boiler: cold}
    becomes: {boiler: hot}
moves:
  isolate: {say: Unplug., needs: {mains: on}, makes: {mains: isolated}, minutes: 1, steps: [Pull the plug.], cautions: [isolate], confirm: Is it out?, word: out}
  cool: {say: Let it cool., needs: {mains: isolated, boiler: hot}, makes: {boiler: cold}, minutes: 40, steps: [Wait.], cautions: [steam], confirm: Is it cold?, word: cold}
  open: {say: Take the covers off., needs: {mains: isolated, covers: on}, makes: {covers: off}, minutes: 5, steps: [Undo the screws.], cautions: [isolate], confirm: Are they off?, word: off}
  put_back: {say: Put back what was taken off., needs: {mains: isolated, altered: for_test}, makes: {altered: nothing}, minutes: 2, steps: [Put it back.], cautions: [], confirm: Is it back?, word: back}
  close: {say: Put the covers on., needs: {mains: isolated, covers: off, altered: nothing}, makes: {covers: on}, minutes: 4, steps: [Screw them on.], cautions: [], confirm: Are they on?, word: closed}
  switch_on: {say: Switch on., needs: {mains: isolated, covers: on, altered: nothing}, makes: {mains: on}, minutes: 2, steps: [Plug in.], cautions: [isolate], confirm: Is it on?, word: on}
  switch_on_open: {say: Switch on open., needs: {mains: isolated, covers: off}, makes: {mains: on}, minutes: 3, steps: [Plug in.], cautions: [isolate], confirm: Is it on?, word: live}
"""

HAZARDS = """\
acts:
  energise: {say: plug it in, states: [{mains: on}]}
  open: {say: open it hot, states: [{covers: off, boiler: hot}]}
  leave_alone: {say: leave it alone, states: [{mains: on}], left: yes}
hazards:
  wet:
    name: water inside
    while: {hose_is_dry: no}
    forbids: [energise]
    until: The hose is changed and dry.
    released_by: [{repair: [hose.split], tests: {hose_is_dry: yes}}]
  pressure:
    name: a pressure that nothing holds
    while: {boiler_pressure: high}
    suspected: [heat_relay.shorted]
    forbids: [energise, open]
    until: The relay is changed, and the coil measured.
    released_by: [{repair: [heat_relay.shorted], tests: {coil: sound}}]
  blowing:
    name: a valve that blows
    while: {complaint.blows: yes}
    forbids: [leave_alone]
    until: Water stands before the valve.
    released_by: [{tests: {water_before_valve: yes}}]
  not_measured:
    name: a coil that nobody has measured
    forbids: []
    until: The coil is measured.
    released_by: [{tests: {coil: [sound, off_value]}}]
"""


@cache
def small_bench(hazards: str = HAZARDS, bench: str = BENCH) -> Knowledge:
    """The small rule base with these hazards and this bench."""
    files = {**FILES, "bench.yaml": bench, "cautions.yaml": CAUTIONS, "hazards.yaml": hazards}
    return knowledge_of(read_rules(files))
