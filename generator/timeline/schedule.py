"""A branch as a constraint graph: every edge of timeline.md 3.3, built in written order.

In: the branch's effective actions, their courses, the pace, and what a parent branch has already lived through. Out: a
`Schedule` whose network gives every instant.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from generator.model.settled import AnyAction, Branch, Hold, Instant, Mark, Move
from generator.timeline.chains import Chains, is_walk
from generator.timeline.courses import Courses
from generator.timeline.instants import add_nodes
from generator.timeline.network import Network
from generator.timeline.openings import opening_edges
from generator.timeline.order_edges import kind_edges, order_edges
from generator.timeline.parameters import Pace
from generator.timeline.trigger_edges import default_edges, trigger_edges

At = tuple[int, float]  # a node and seconds after it


@dataclass(frozen=True, slots=True)
class Past:
    """What a parent branch has fixed: times of its nodes by name up to `read`, actions cut off (their instants), and
    `leave`: when the players an answer names set off."""

    read: float
    leave: float
    times: Mapping[tuple, float]
    cut: Mapping[str, Mapping[Instant, float]]
    own: frozenset[str]


@dataclass(slots=True)
class Schedule:
    """The network of a branch and where each action's instants hang in it."""

    branch: Branch
    actions: tuple[AnyAction, ...]
    chains: Chains
    courses: Courses
    pace: Pace
    past: Past | None = None
    net: Network = field(default_factory=Network)
    at: dict[str, dict[Instant, At]] = field(default_factory=dict)
    start: dict[str, int] = field(default_factory=dict)  # start node of an action or of its run
    ready: dict[str, tuple[int, float]] = field(default_factory=dict)  # node, seconds from it to the action's start
    opens: list[int] = field(default_factory=list)
    free: dict[int, list[tuple[int, float, str]]] = field(default_factory=dict)
    screens_left: dict[str, AnyAction] = field(default_factory=dict)  # screen key -> screener's next act

    def time(self, key: str, instant: Instant) -> float:
        """Seconds of an instant after a sweep."""
        node, wait = self.at[key][instant]
        return self.net.times[node] + wait

    def has(self, key: str | None) -> bool:
        """True for an action of this schedule."""
        return key is not None and key in self.at

    # -- marks -------------------------------------------------------------------------------------------

    def mark(self, mark: Mark, hold: Hold | None = None, screen: str | None = None) -> At | None:
        """Where a mark hangs; None when its action is not part of this branch."""
        if mark.action is None:
            return (self.opens[mark.phase or 0], mark.offset)
        instants = self.at.get(mark.action)
        if instants is None:
            return None
        found = self._place_mark(mark) if mark.at is not None else None
        screen = screen or mark.screen
        if found is None and screen is not None and mark.instant in (Instant.USE, Instant.CLEAR):
            found = self.use_of(mark.action, screen, mark.instant)
        if found is None:
            instant = mark.instant
            if instant is Instant.ARRIVE and hold is not Hold.BEFORE:
                found = self.stop(mark.action)
            found = found or instants.get(instant) or instants[Instant.END]
        return found[0], found[1] + mark.offset

    def stop(self, key: str) -> At | None:
        """Physical end of a walk, before any holding."""
        action = self.chains.actions[key]
        if key in self.past_cut or not is_walk(action, action.player):
            return None
        course = self.courses.of(key)
        return self.start[key], course.times(course.index(key))[1]

    @property
    def past_cut(self) -> Mapping[str, Mapping[Instant, float]]:
        """Actions a read cut off."""
        return self.past.cut if self.past else {}

    def _place_mark(self, mark: Mark) -> At | None:
        action = self.chains.actions.get(mark.action)
        if action is None or mark.action in self.past_cut or not is_walk(action, action.player):
            return None
        course = self.courses.of(mark.action)
        begin, end = course.span(course.index(mark.action))
        s, _ = course.curve.nearest(mark.at, frm=begin)
        return self.start[mark.action], course.map.time_at(min(max(s, begin), end))

    def use_of(self, user: str, screen: str, instant: Instant) -> At | None:
        action = self.chains.actions.get(user)
        if not isinstance(action, Move) or user in self.past_cut:
            return None
        course = self.courses.of(user)
        for use in course.uses[course.index(user)]:
            if use.screen == screen:
                s = use.s_use if instant is Instant.USE else use.s_clear
                return self.start[user], course.map.time_at(s)
        return None


def build_schedule(
    branch: Branch, actions: tuple[AnyAction, ...], chains: Chains, courses: Courses, pace: Pace, past: Past | None,
) -> Schedule:
    """All nodes, then all edges."""
    schedule = Schedule(branch, actions, chains, courses, pace, past)
    schedule.opens = [schedule.net.node("opens", i) for i in range(len(branch.phases))]
    schedule.net.base[schedule.opens[0]] = 0.0
    for action in actions:
        add_nodes(schedule, action)
    for player in branch.start:
        schedule.free[player] = []
    for action in actions:
        if action.key in schedule.past_cut:
            end = schedule.at[action.key][Instant.END]
            schedule.free[action.player] = [(*end, "")]
            continue
        order_edges(schedule, action)
        kind_edges(schedule, action)
        for trigger in action.triggers:
            trigger_edges(schedule, action, trigger)
    for index, fork in enumerate(branch.forks):
        if branch.departure is None or index != branch.departure.fork:
            default_edges(schedule, fork)
    opening_edges(schedule)
    _freeze(schedule)
    return schedule


def _freeze(s: Schedule) -> None:
    """What the parent has lived through stays; nothing else starts before the read."""
    past = s.past
    if past is None:
        return
    for node, name in enumerate(s.net.names):
        if name[0] == "cut":
            continue
        lived = past.times.get(name)
        own = name[0] != "opens" and name[1] in past.own
        if lived is not None and not own and _lived(past, name, lived):
            s.net.fixed[node] = lived
        elif name[0] in ("ready", "start", "opens"):
            s.net.base[node] = max(s.net.base[node], past.leave if own else past.read)


def _lived(past: Past, name: tuple, when: float) -> bool:
    """True for an instant before the read, and for the catch of a ball already in the air."""
    started = past.times.get(("start", name[1]), when) <= past.read + 1e-9
    return started and (when <= past.read + 1e-9 or name[0] == "catch")
