"""When a read question freezes its picture, and whether its coverages can be told apart there (timeline.md 5.6, 5.7)."""

from __future__ import annotations

from itertools import combinations
from math import hypot
from typing import TYPE_CHECKING

from generator.model.play import WatchKind
from generator.model.settled import Fork
from generator.timeline.forks import is_early
from generator.timeline.showings import screening_of
from generator.timeline.timed import PlayTimes

if TYPE_CHECKING:
    from generator.timeline.timeline import BranchTimeline

ENOUGH = 0.9  # metres that two coverages of one fork differ for one defender
LOOK_ON = 0.3  # seconds after the use of the screen


def quiz_instant(timeline: BranchTimeline, index: int) -> float:
    """0.3 s after the screen is used; for ice and top-lock 0.3 s after the answer leaves; without a screen the read point."""
    fork = timeline.branch.forks[index]
    read = timeline.fork_times[index]
    if fork.read.watch.kind is not WatchKind.DEFENDERS:
        return min(read, timeline.duration)
    screening = screening_of(timeline, index)
    if screening is None:
        return min(read, timeline.duration)
    when = min(screening.used, read + LOOK_ON) if is_early(fork) else screening.used + LOOK_ON
    return min(when, timeline.duration)


def distinctness(times: PlayTimes, fork: Fork) -> dict[tuple[str, str], float]:
    """For every two answers of a fork (ids) the distance in metres by which their pictures differ most for one defender.

    Empty for reads that watch no defender. Each answer's picture is taken at its own quiz instant, in the branch that takes it with the fewest forks.
    """
    if fork.read.watch.kind not in (WatchKind.DEFENDERS, WatchKind.PLAYERS):
        return {}
    shown: dict[str, tuple[int, BranchTimeline, int]] = {}
    for timeline in times.timelines.values():
        for index, other in enumerate(timeline.branch.forks):
            if other.read.id == fork.read.id and other.phase == fork.phase:
                made = (len(timeline.branch.forks), timeline, index)
                if other.taken not in shown or made[0] < shown[other.taken][0]:
                    shown[other.taken] = made
    pairs = {}
    for (a, (_, ta, ia)), (b, (_, tb, ib)) in combinations(sorted(shown.items(), key=lambda s: s[0]), 2):
        at_a, at_b = quiz_instant(ta, ia), quiz_instant(tb, ib)
        bodies = sorted(ta.branch.start)
        pairs[a, b] = max(_apart(ta.defender(x, at_a), tb.defender(x, at_b)) for x in bodies)
    return pairs


def _apart(p, q) -> float:
    return hypot(p[0] - q[0], p[1] - q[1])
