"""The doors of an elevator screen shut: once the user is through, the two screeners step together.

Only who has nothing else to do later steps in, so nobody starts his next walk from another place than the plan says.
"""

from __future__ import annotations

from collections.abc import Mapping

from generator.model.settled import Instant, Move, Screen
from generator.timeline.movement import Movement, Stretch
from generator.timeline.parameters import SHOULDER, STEP_EFFORT, Pace
from generator.timeline.pieces import Curve, Line
from generator.timeline.schedule import Schedule
from generator.timeline.taut import toward
from generator.timeline.time_map import Leg, run_legs


def close_gates(s: Schedule, movements: Mapping[int, Movement], pace: Pace) -> dict[int, Movement]:
    """The movements with the closing steps."""
    closed = dict(movements)
    for one, other in _gates(s):
        through = _through(s, one, other)
        if through is None or any(_busy_after(movements[x.player], through) for x in (one, other)):
            continue
        a, b = (movements[x.player].place(through) for x in (one, other))
        step = (a.distance(b) - SHOULDER) / 2
        if step > 0.05:
            for player, here, there in ((one.player, a, b), (other.player, b, a)):
                curve = Curve([Line(here, toward(here, there, step))])
                strive = pace.speed(STEP_EFFORT, False)
                time_map = run_legs([Leg(step, strive, strive)], pace.tau, pace.braking)
                shut = Stretch(through, through + time_map.total, curve, time_map, through)
                closed[player] = Movement(movements[player].start, (*movements[player].stretches, shut))
    return closed


def _gates(s: Schedule) -> list[tuple[Screen, Screen]]:
    """Every pair of screens that makes an elevator."""
    groups: dict[str, list[Screen]] = {}
    for action in s.chains.actions.values():
        if isinstance(action, Screen) and action.group_kind == "elevator" and action.group:
            groups.setdefault(action.group, []).append(action)
    return [(g[0], g[1]) for g in groups.values() if len(g) == 2]


def _through(s: Schedule, one: Screen, other: Screen) -> float | None:
    """When the last user of the two is past them."""
    users = [
        a.key for a in s.chains.actions.values()
        if isinstance(a, Move) and {u.screen for u in a.uses} & {one.key, other.key}
    ]
    times = [s.time(key, Instant.CLEAR) for key in users if s.has(key) and Instant.CLEAR in s.at[key]]
    return max(times) if times and len(times) == len(users) else None


def _busy_after(movement: Movement, t: float) -> bool:
    return any(m.t1 > t for m in movement.stretches)
