"""ghost-contact: a screener who is to slip or to ghost touches the man he runs past.

What: the smallest distance, while he runs, between him and the player he came for (for a slip: the one he was to
screen for), and between him and that player's defender: of a ghost all along, with the defender a metre from his man
toward the rim (as the tool moves him he would make way); of a slip while he leaves the screen (a metre and a half),
since whoever chases him later runs into him himself. Nearer than 0.5 m between centres is contact, 0.6 m to the
defender a ghost runs past.
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
from generator.model.court import Point
from generator.model.settled import Branch, Move, Screen
from generator.timeline.parameters import DEFENDER_GAP
from generator.timeline.taut import toward
from generator.timeline.timed import Timed, Timeline

RULE = "ghost-contact"
CONTACT = 0.5  # metres between centres
CONTACT_GUARD = 0.6  # to the defender a ghost runs past, whose place is less certain
TICK = 0.05
LEAVES = 1.5  # metres from where the screen was to stand


def check(case: Case) -> Iterator[Finding]:
    """One finding a ghost or slip."""
    for branch, timeline in case.timelines():
        for timed in case.own(branch):
            action = timed.action
            if isinstance(action, Move) and (action.ghost or action.verb == "slip"):
                other = _came_for(branch, action)
                touched = "" if other is None else _touched(case, timeline, timed, other)
                if touched:
                    yield case.found(
                        Severity.WARNING, RULE, branch, action, f"{action.player} touches {touched} on his way",
                        "send him past with room: name a place beyond, or the other side", topic=str(other),
                    )


def _came_for(branch: Branch, action: Move) -> int | None:
    """The player of his own screen, if he set one; else the ball handler."""
    screens = [a for a in branch.actions if isinstance(a, Screen) and a.key == action.waits_set]
    if screens and screens[0].freed:
        return screens[0].freed[0]
    holder = branch.phases[action.phase].holder
    return holder if holder != action.player else None


def _touched(case: Case, timeline: Timeline, timed: Timed, other: int) -> str:
    """Whom he touches: the player he came for, that player's defender, or "" for nobody."""
    steps = max(1, int((timed.end - timed.start) / TICK))
    instants = [timed.start + i * TICK for i in range(steps + 1)]
    way = [timeline.position(timed.action.player, t) for t in instants]
    if any(p.distance(timeline.position(other, t)) < CONTACT for p, t in zip(way, instants)):
        return str(other)
    if isinstance(timed.action, Move) and timed.action.ghost:
        rim = Point(0.0, case.court.rim)
        close = (p.distance(toward(timeline.position(other, t), rim, DEFENDER_GAP)) < CONTACT_GUARD for p, t in zip(way, instants))
    else:
        close = (p.distance(timeline.defender(other, t)) < CONTACT for p, t in zip(way, instants) if p.distance(way[0]) < LEAVES)
    return f"{other}'s defender" if any(close) else ""
