"""idle: a position has no line in a phase.

What: the positions that neither move, screen, pass, catch, read, hold the ball nor stand on purpose in a phase.
Why: nothing is wrong with it, but his job there is to hold his spacing, and that is what his page will say. One line a
play tells it; a line `3 stays` says that you meant it.
Passes:
    play: Good
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Swing, do: [1 passes to 2, 3 stays, 4 stays, 5 clears to left block, 2 shoots]}
Fails:
    play: Bad
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Swing, do: [1 passes to 2, 5 clears to left block, 2 shoots]}
Source: ours.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.finding import Case, Finding
from generator.checks.stills import PLAYERS
from generator.diagnostics import Severity
from generator.model.play import Phase
from generator.model.settled import AnyAction, HandOff, LooseBall, Pass

RULE = "idle"


def check(case: Case) -> Iterator[Finding]:
    """One finding a play, at its name: who is idle in which phase."""
    branch = case.times.settled.main
    path = case.play.source.path  # phases taken over by `same as` are told where they stand
    own = {p.id: p for p in case.play.phases if isinstance(p, Phase) and p.source.path == path}
    parts = []
    for index, phase in enumerate(branch.phases):
        written = own.get(phase.id)
        if written is None or phase.round or not phase.actions or any(a.rule == RULE for a in written.allow):
            continue
        busy = {player for a in branch.actions if a.phase == index for player in _involved(a)}
        busy |= {phase.holder} | {f.reader for f in branch.forks if f.phase == index}
        idle = [p for p in PLAYERS if p not in busy]
        if idle:
            parts.append(f"{', '.join(map(str, idle))} in {phase.name}")
    if parts:
        yield case.at(Severity.INFO, RULE, case.play.source, f"without a line, so their job is to hold the spacing: {'; '.join(parts)}")


def _involved(action: AnyAction) -> tuple[int, ...]:
    if isinstance(action, (Pass, HandOff)) or (isinstance(action, LooseBall) and action.receiver):
        return (action.player, action.receiver)
    return (action.player,)

