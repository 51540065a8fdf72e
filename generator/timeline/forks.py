"""Read points (timeline.md 4.1, 5.7; language.md 7.4, 7.5): when a branch leaves its trunk, and when its men set off."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from generator.model.court import Point
from generator.model.play import WatchKind
from generator.model.settled import Branch, Fork, HandOff, Instant, Move, Pass, Shot, Stand
from generator.timeline.parameters import Pace

if TYPE_CHECKING:
    from generator.timeline.schedule import Schedule
    from generator.timeline.timeline import BranchTimeline

EARLY = frozenset({"ice", "top-lock"})


def is_early(fork: Fork) -> bool:
    """True when the answer taken is to a coverage shown so early that it is answered before the screen is used."""
    return any(sight.coverage in EARLY for sights in fork.answer.sights for sight in sights)


def _mark_time(schedule: Schedule, fork: Fork) -> float:
    at = schedule.mark(fork.point, screen=fork.screen)
    return schedule.net.times[at[0]] + at[1] if at else schedule.net.times[schedule.opens[fork.phase]]


def read_time(schedule: Schedule, fork: Fork, pace: Pace) -> float:
    """Second of the fork's point in a branch that has met it; 0.4 s sooner for ice and top-lock on a screen."""
    when = _mark_time(schedule, fork)
    if is_early(fork) and fork.point.instant is Instant.USE and fork.point.offset == 0.0:
        when -= pace.early_read
    return max(0.0, _while_he_has_it(schedule, fork, when))


def _while_he_has_it(schedule: Schedule, fork: Fork, when: float) -> float:
    """Not after the reader's own ball line below the read has begun: a pass in the air cannot be thought over."""
    order = schedule.chains.order
    if fork.below not in order:
        return when
    for action in schedule.actions:
        his = action.player == fork.reader and isinstance(action, (Pass, HandOff, Shot))
        if his and action.phase == fork.phase and order[action.key] > order[fork.below]:
            return min(when, schedule.time(action.key, Instant.START)) if action.key not in schedule.past_cut else when
    return when


def fork_time(branch: Branch, parent: BranchTimeline, pace: Pace) -> float:
    """When this branch leaves its parent."""
    fork = branch.forks[branch.departure.fork]
    when = read_time(parent.schedule, fork, pace)
    if fork.read.watch.kind is WatchKind.PLAYERS:
        when = _look_time(branch, fork, parent, pace, when)
    thrown = [
        parent.timed[key].start for key in branch.departure.stopped
        if key in parent.timed and isinstance(parent.timed[key].action, (Pass, HandOff, Shot)) and key not in parent.cut
    ]
    when = min([when, *thrown])  # the answer takes these back, so they have not happened yet
    earlier = [t for i, t in enumerate(parent.fork_times) if i < branch.departure.fork and t <= when]
    return max([0.0, *earlier, when])


def _look_time(branch: Branch, fork: Fork, parent: BranchTimeline, pace: Pace, when: float) -> float:
    """One flight and one reaction before the player looked at arrives, so that nobody stands and waits for the ball."""
    own = set(branch.departure.own)
    action = next((a for a in branch.actions if a.key in own and isinstance(a, Pass)), None)
    if action is None:
        return when
    arrival = parent.timed[action.meets].end if action.meets in parent.timed else when
    passer = parent.position(action.player, arrival)
    goal: Point = action.catch_at
    flight = hypot(goal[0] - passer[0], goal[1] - passer[1]) / pace.flight_speed(action.pass_kind)
    opens = parent.phases[fork.phase].opens
    return max(opens, _after_his_move(fork, branch, parent, pace, arrival), min(when, arrival) - flight - pace.react)


def _after_his_move(fork: Fork, branch: Branch, parent: BranchTimeline, pace: Pace, arrival: float) -> float:
    """The reader's own drive or dribble above the look comes first: he passes out of it to one who arrives meanwhile,
    but not before he is past his screen; to one who is there already, at its end."""
    order = {a.key: i for i, a in enumerate(branch.actions)}
    looks = [order[a.key] for a in branch.actions if isinstance(a, Stand) and a.verb == "look-for" and a.player == fork.reader
             and a.phase == fork.phase]
    below = max(looks, default=order.get(fork.below, -1) + 1)
    moves = [parent.timed[a.key] for a in branch.actions[:below] if isinstance(a, Move) and a.with_ball and a.key in parent.timed
             and a.player == fork.reader and a.phase == fork.phase]
    if not moves:
        return 0.0
    last = moves[-1]
    past = last.instants.get(Instant.CLEAR, last.start)
    return past if arrival > past else last.end - pace.react


def leaving_time(branch: Branch, read: float, pace: Pace) -> float:
    """When the players an answer names set off: a reaction after the read; at once where the coverage was shown early."""
    return read if is_early(branch.forks[branch.departure.fork]) else read + pace.react


def own_fork_times(schedule: Schedule) -> tuple[float, ...]:
    """Read points met in this schedule, by its own instants."""
    return tuple(read_time(schedule, fork, schedule.pace) for fork in schedule.branch.forks)
