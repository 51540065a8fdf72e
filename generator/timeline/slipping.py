"""A slip leaves his man's screen without contact: where the defender he was to screen stands in his way, he steps aside
first. In: a schedule with its movements and the defence they lead to; out: a point on the way by run key.
"""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from generator.model.court import Point
from generator.model.settled import Instant, Move, Screen
from generator.timeline.parameters import SLIP_LEAVES as LEAVES
from generator.timeline.parameters import SLIP_ROOM as ROOM
from generator.timeline.parameters import SLIP_TOUCHES as TOUCHES
from generator.timeline.taut import cross, unit

if TYPE_CHECKING:
    from generator.timeline.timeline import BranchTimeline

TICK = 0.05  # seconds


def leaves_a_screen(move: object) -> bool:
    """True for a slip out of a screen of his own."""
    return isinstance(move, Move) and move.verb == "slip" and move.waits_set is not None


def steps_aside(timeline: BranchTimeline) -> dict[str, Point]:
    """For each run that begins with a slip not begun by the trunk and meets the defender: a place to run by first."""
    schedule, found = timeline.schedule, {}
    for run in dict.fromkeys(schedule.chains.runs.values()):
        slip = run.members[0]
        if not leaves_a_screen(slip) or run.key in schedule.past_cut or schedule.net.fixed[schedule.start[run.key]] is not None:
            continue
        screen = schedule.chains.actions.get(slip.waits_set)
        body = screen.on[0] if isinstance(screen, Screen) and screen.on else None
        place = _aside(timeline, slip, body) if body in timeline.branch.start else None
        if place is not None:
            found[run.key] = place
    return found


def _aside(timeline: BranchTimeline, slip: Move, body: int) -> Point | None:
    """Beside the defender where he is met, on the side on which the slipper passes him."""
    start = timeline.schedule.time(slip.key, Instant.START)
    end = timeline.schedule.time(slip.key, Instant.END)
    here = timeline.position(slip.player, start)
    instants = [start + i * TICK for i in range(int((end - start) / TICK) + 1)]
    near = [t for t in instants if timeline.position(slip.player, t).distance(here) < LEAVES]
    met = min(near, key=lambda t: timeline.position(slip.player, t).distance(timeline.defender(body, t)))
    guard = timeline.defender(body, met)
    if timeline.position(slip.player, met).distance(guard) >= TOUCHES or here.distance(slip.end) < LEAVES:
        return None
    way = unit(slip.end[0] - here[0], slip.end[1] - here[1])
    beside = cross(way, Point(guard[0] - here[0], guard[1] - here[1]))
    far = (ROOM if beside > 0 else -ROOM) / (hypot(*way) or 1.0)
    return Point(guard[0] + far * way[1], guard[1] - far * way[0])
