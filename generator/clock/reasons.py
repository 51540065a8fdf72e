"""Why a phase takes as long as it does, in words: its longest line that nothing can be shorter without.

In: a timeline and the number of a phase; out: `3 comes from the left corner`, "" where nothing is critical.
"""

from __future__ import annotations

from generator.model.settled import AnyAction, Branch, HandOff, Move, Pass, Screen, Shot, Stand
from generator.timeline.timed import Timed, Timeline

CRITICAL = 0.05  # seconds of slack, timeline.md 3.9
_NAMED = frozenset((
    "left", "right", "top", "nail", "middle", "front", "deep", "backcourt", "center", "baseline", "sideline", "free-throw",
))


def critical_of(timeline: Timeline, phase: int) -> tuple[Timed, ...]:
    """The lines of a phase without slack, in written order."""
    return tuple(t for t in timeline.timed.values() if t.action.phase == phase and t.slack < CRITICAL and t.action.text)


def reason_of(timeline: Timeline, phase: int) -> str:
    """What takes longest between this phase's opening and the next one's (the last: the end)."""
    opens = timeline.phases[phase].opens
    last = phase + 1 >= len(timeline.phases)
    until = timeline.duration if last else timeline.phases[phase + 1].opens

    def share(timed: Timed) -> float:
        return min(timed.end, until) - max(timed.start, opens)

    critical = [t for t in timeline.timed.values() if t.slack < CRITICAL and t.action.text]  # late movers carry over
    longest = max(critical, key=share, default=None)
    return "" if longest is None or share(longest) <= 0 else _words(timeline.branch, longest.action)


def _words(branch: Branch, action: AnyAction) -> str:
    match action:
        case Move(with_ball=True) | HandOff() if action.origin != action.end:
            return f"{action.player} dribbles from {_from(branch, action)}"
        case Move():
            return f"{action.player} comes from {_from(branch, action)}"
        case HandOff():
            return f"{action.player} hands the ball to {action.receiver}"
        case Screen():
            return f"{action.player} comes from {_from(branch, action)} to screen"
        case Pass():
            return f"the ball flies from {action.player} to {action.receiver}"
        case Stand():
            return f"{action.player} waits"
        case Shot():
            return f"{action.player} shoots"
    return f"of `{action.text}`"


def _from(branch: Branch, action: AnyAction) -> str:
    """Where the player's last line left him, else where he starts."""
    keys = [a.key for a in branch.actions]
    before = [a for a in branch.actions[:keys.index(action.key)] if a.player == action.player and a.end == action.origin]
    words = (before[-1].place if before else branch.phases[0].plan_names[action.player]).words
    return f"the {words}" if words.split()[0] in _NAMED else words
