"""ghost-contact: a screener who is to slip or to ghost touches the man he runs past.

What: the smallest distance, while he runs, between him and the player he came for (for a slip: the one he was to
screen for); nearer than half a metre between centres is contact. Where that player's defender is then is a guess of the
tool, so he is not counted.
Why: a ghost screen works because nobody is touched; with contact it is a moving screen.
Passes:
    play: Good
    start: {1: top with the ball, 2: left corner, 3: right wing, 4: right corner, 5: left dunker spot}
    phases:
      - {name: Ghost, do: [3 ghosts for 1 to left slot, 1 drives, 1 finishes]}
Fails:
    play: Bad
    start: {1: top with the ball, 2: left corner, 3: right wing, 4: right corner, 5: left dunker spot}
    phases:
      - {name: Ghost, do: [3 ghosts for 1 to 1 ft left of top, 1 drives as 3 arrives, 1 finishes]}
Source: no rule of its own; a moving screen by the articles named under moving-screen. The distance is ours.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.finding import Case, Finding
from generator.diagnostics import Severity
from generator.model.settled import Branch, Move, Screen
from generator.timeline.timed import Timed, Timeline

RULE = "ghost-contact"
CONTACT = 0.5  # metres between centres
TICK = 0.05


def check(case: Case) -> Iterator[Finding]:
    """One finding a ghost or slip."""
    for branch, timeline in case.timelines():
        for timed in case.own(branch):
            action = timed.action
            if isinstance(action, Move) and (action.ghost or action.verb == "slip"):
                other = _came_for(branch, action)
                if other is not None and _nearest(timeline, timed, other) < CONTACT:
                    yield case.found(
                        Severity.WARNING, RULE, branch, action, f"{action.player} touches {other} on his way",
                        "send him past with room: name a place beyond, or the other side", topic=str(other),
                    )


def _came_for(branch: Branch, action: Move) -> int | None:
    """The player of his own screen, if he set one; else the ball handler."""
    screens = [a for a in branch.actions if isinstance(a, Screen) and a.key == action.waits_set]
    if screens and screens[0].freed:
        return screens[0].freed[0]
    holder = branch.phases[action.phase].holder
    return holder if holder != action.player else None


def _nearest(timeline: Timeline, timed: Timed, other: int) -> float:
    steps = max(1, int((timed.end - timed.start) / TICK))
    instants = (timed.start + i * TICK for i in range(steps + 1))
    return min(timeline.position(timed.action.player, t).distance(timeline.position(other, t)) for t in instants)
