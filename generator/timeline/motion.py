"""Samples of a timed branch for the browser: whole numbers, five a second, as differences (timeline.md section 7).

`motion_data(timeline)` gives JSON-ready values:
    rate (samples a second), unit (metres a step), duration (seconds), holder (who has the ball first, 0 nobody)
    offence, defence: by player or X number a pair [xs, ys]; a list begins with the first value, differences follow
    ball: [release, caught, from, to, kind]; `to` 0 for a shot, `from` 0 where nobody gave it; seconds exact to 0.01
    phases: openings in seconds; forks: read points in seconds
Between samples: cubic Hermite, tangents central differences (one-sided at both ends). `place_at` is that rule in Python;
it stays within 5 cm of the exact curve, which fitting makes sure of.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from math import ceil, hypot
from typing import TYPE_CHECKING

from generator.model.court import Point

if TYPE_CHECKING:
    from generator.timeline.timeline import BranchTimeline

RATE, UNIT, WITHIN = 5, 0.05, 0.05
FINE = 4  # instants looked at between two samples
ROUNDS = 40  # of fitting

Axes = tuple[list[int], list[int]]


def motion_data(timeline: BranchTimeline, with_defence: bool = True) -> dict:
    """One branch as compact JSON values."""
    count = sample_count(timeline.duration)
    players = sorted(timeline.branch.start)
    data = {
        "rate": RATE,
        "unit": UNIT,
        "duration": round(timeline.duration, 2),
        "holder": timeline.branch.phases[0].holder or 0,
        "offence": {str(p): _track(lambda t, p=p: timeline.position(p, t), count) for p in players},
        "ball": [
            [round(e.release, 2), round(e.caught, 2), e.passer or 0, e.receiver or 0, e.kind] for e in timeline.ball_events
        ],
        "phases": [round(p.opens, 2) for p in timeline.phases],
        "forks": [round(t, 2) for t in timeline.fork_times],
    }
    if with_defence:
        data["defence"] = {str(b): _track(lambda t, b=b: timeline.defender(b, t), count) for b in players}
    return data


def sample_count(duration: float) -> int:
    """Samples that reach the end of a branch."""
    return max(2, ceil(duration * RATE - 1e-9) + 1)


def _track(where: Callable[[float], Point], count: int) -> list[list[int]]:
    return [_differences(axis) for axis in fit(where, count)]


def _differences(values: list[int]) -> list[int]:
    return [values[0], *(b - a for a, b in pairwise(values))]


def fit(where: Callable[[float], Point], count: int) -> Axes:
    """Rounded samples; where the curve between them would stray more than 5 cm, one of them moves a step."""
    exact = [where(i / RATE) for i in range(count)]
    axes = ([round(p[0] / UNIT) for p in exact], [round(p[1] / UNIT) for p in exact])
    still = [exact[i] == exact[i + 1] for i in range(count - 1)]
    wanted = [
        (i / FINE, where(i / FINE / RATE)) for i in range((count - 1) * FINE + 1)
        if not (i // FINE < count - 1 and still[i // FINE] and still[max(0, i // FINE - 1)])
    ]
    strays = [_stray(axes, u, p) for u, p in wanted]
    for _ in range(ROUNDS):
        worst, place = max(((s, u) for s, (u, _) in zip(strays, wanted)), default=(0.0, 0.0))
        if worst <= WITHIN - 0.004 or not _nudge(axes, wanted, strays, place, worst):
            break
    return axes


def _stray(axes: Axes, u: float, exact: Point) -> float:
    x, y = UNIT * hermite(axes[0], u), UNIT * hermite(axes[1], u)
    return hypot(x - exact[0], y - exact[1])


def _nudge(axes: Axes, wanted: list[tuple[float, Point]], strays: list[float], u: float, worst: float) -> bool:
    """Move the neighbouring sample whose step helps most; False when none helps. Only what a sample reaches is measured
    again."""
    near = [n for n, (v, _) in enumerate(wanted) if abs(v - u) < 3.01]
    last = len(axes[0]) - 1
    best: tuple[float, list[int], int, int] | None = None
    for i in range(max(0, int(u) - 1), min(last + 1, int(u) + 3)):
        reached = [n for n in near if _reaches(i, wanted[n][0], last)]
        others = max((strays[n] for n in near if not _reaches(i, wanted[n][0], last)), default=0.0)
        for axis in axes:
            for step in (-1, 1):
                axis[i] += step
                stray = max(others, *(_stray(axes, *wanted[n]) for n in reached))
                axis[i] -= step
                if stray < worst - 1e-6 and (best is None or stray < best[0]):
                    best = (stray, axis, i, step)
    if best is None:
        return False
    best[1][best[2]] += best[3]
    for n, (v, exact) in enumerate(wanted):
        if _reaches(best[2], v, last):
            strays[n] = _stray(axes, v, exact)
    return True


def _reaches(i: int, u: float, last: int) -> bool:
    """Whether sample i has a part in the value at u: the four round it have."""
    cell = min(int(u), last - 1)
    return i - 2 <= cell <= i + 1


def hermite(values: list[int], u: float) -> float:
    """The value at u samples from the start."""
    last = len(values) - 1
    i = min(max(int(u), 0), last - 1)
    k = min(max(u - i, 0.0), 1.0)
    a, b = values[i], values[i + 1]
    ta = (values[i + 1] - values[i - 1]) / 2 if i > 0 else b - a
    tb = (values[i + 2] - values[i]) / 2 if i + 2 <= last else b - a
    k2, k3 = k * k, k * k * k
    return (2 * k3 - 3 * k2 + 1) * a + (k3 - 2 * k2 + k) * ta + (3 * k2 - 2 * k3) * b + (k3 - k2) * tb


def place_at(track: list[list[int]], t: float) -> Point:
    """Where a track of `motion_data` is at second t: what the browser computes."""
    axes = []
    for differences in track:
        values, total = [], 0
        for step in differences:
            total += step
            values.append(total)
        axes.append(UNIT * hermite(values, t * RATE))
    return Point(*axes)
