"""waiting: somebody stands ready for the ball, or stands with it, for more than a second.

What: the time between a receiver's arrival and his catch, and between a catch and the same player's pass, where no
timing word and no `holds` in the text asks him to wait.
Why: a shooter who stands a second is a shooter who is guarded. The line to change is usually the other end's.
Passes:
    play: Good
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Swing, do: [1 passes to 2, 2 shoots]}
Fails:
    play: Bad
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Early, do: [2 clears to right corner, 1 dribbles to left slot, 1 dribbles to top, 1 skip passes to 2, 2 shoots]}
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.finding import Case, Finding, about
from generator.checks.pass_lane import caught
from generator.diagnostics import Severity
from generator.model.settled import Branch, Instant, Pass, Stand
from generator.timeline.timed import Timed, Timeline

RULE = "waiting"
LIMIT = 1.0


def check(case: Case) -> Iterator[Finding]:
    """Findings about the passes of each branch."""
    for branch, timeline in case.timelines():
        for timed in case.own(branch):
            action = timed.action
            if not caught(timed) or action.triggers or action.answer:
                continue  # in an answer the read decides when the ball goes
            release = timed.instants[Instant.RELEASE]
            for player, since, what in (
                (action.receiver, _arrived(timeline, timed), "waits for the ball"),
                (action.player, _ready(timeline, timed, case.pace.catch), "stands with the ball"),
            ):
                if since is None or _told_to(branch, action.phase, player):
                    continue
                until = release if player == action.player else timed.instants[Instant.CATCH]
                if until - since > LIMIT:
                    yield case.found(
                        Severity.INFO, RULE, branch, action, f"{player} {what} for {about(until - since)}",
                        "let him come later (`as`, `after`), or let the others be sooner", topic=f"{action.key}{player}",
                    )


def _arrived(timeline: Timeline, timed: Timed) -> float | None:
    move = timeline.timed.get(timed.action.meets) if timed.action.meets else None
    return move.end if move is not None and move.action.phase == timed.action.phase else None


def _ready(timeline: Timeline, timed: Timed, catch: float) -> float | None:
    """When the passer could have thrown: his last catch or dribble before, in the same phase."""
    ends = [
        t.end if t.action.player == timed.action.player else t.instants[Instant.CATCH] + catch
        for t in timeline.timed.values()
        if t.start < timed.start and t.action.phase == timed.action.phase and _gives_him_the_ball(t, timed.action.player)
    ]
    return max(ends, default=None)


def _gives_him_the_ball(timed: Timed, player: int) -> bool:
    action = timed.action
    if isinstance(action, Pass):
        return caught(timed) and action.receiver == player
    return action.player == player and getattr(action, "with_ball", False)


def _told_to(branch: Branch, phase: int, player: int) -> bool:
    return any(isinstance(a, Stand) and a.player == player and a.phase == phase for a in branch.actions)
