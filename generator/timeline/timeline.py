"""A timed branch: what `timed.Timeline` promises, made from a schedule and the players' movements."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping
from functools import cached_property

from generator.model.court import Court, Point
from generator.model.settled import (
    AnyAction,
    Branch,
    Ending,
    HandOff,
    Hold,
    Instant,
    LooseBall,
    Move,
    Pass,
    Screen,
    Shot,
)
from generator.timeline.chains import is_walk
from generator.timeline.forks import own_fork_times
from generator.timeline.movement import Movement
from generator.timeline.parameters import LATE
from generator.timeline.pieces import Curve
from generator.timeline.places import facing
from generator.timeline.schedule import Schedule
from generator.timeline.slices import part_of
from generator.timeline.timed import Ball, BallEvent, PhaseSpan, Timed
from generator.timeline.wishes import ON_RELEASE


class BranchTimeline:
    """Satisfies `timed.Timeline`."""

    def __init__(
        self, branch: Branch, schedule: Schedule, movements: Mapping[int, Movement], court: Court, against: str,
        parent: BranchTimeline | None,
    ):
        self.branch, self.schedule, self.movements, self.against = branch, schedule, movements, against
        self.court, self.rim = court, Point(0.0, court.rim)
        self.parent = parent if branch.departure is not None else None
        self.cut = schedule.past_cut
        self.gone = frozenset(a.key for a in branch.actions if a.key not in schedule.at)
        self.fork_times = self._fork_times()
        ends = {a.key: schedule.time(a.key, Instant.END) for a in schedule.actions}
        self.duration = self._duration(ends)
        self.timed: Mapping[str, Timed] = self._timed()
        self.phases = tuple(self._span(k, ends) for k in range(len(branch.phases)))

    # -- making ------------------------------------------------------------------------------------------

    def _fork_times(self) -> tuple[float, ...]:
        own = list(own_fork_times(self.schedule))
        if self.parent is not None:
            at = self.branch.departure.fork
            own[:at] = self.parent.fork_times[:at]
            own[at] = self.schedule.past.read
        return tuple(own)

    def _duration(self, ends: Mapping[str, float]) -> float:
        """The release of the last shot, or the last instant of all."""
        last = max((a for a in self.schedule.actions if isinstance(a, Shot)), key=lambda a: ends[a.key], default=None)
        if self.branch.ending is Ending.SHOT and last is not None:
            return ends[last.key]
        return max([*ends.values(), *(self.schedule.net.times[n] for n in self.schedule.opens)], default=0.0)

    def _span(self, k: int, ends: Mapping[str, float]) -> PhaseSpan:
        opens = self.schedule.net.times[self.schedule.opens[k]]
        return PhaseSpan(opens, max([opens, *(ends[a.key] for a in self.schedule.actions if a.phase == k)]))

    def _timed(self) -> dict[str, Timed]:
        latest = self.schedule.net.latest(self.duration, self.tails)
        return {a.key: self._time_one(a, latest) for a in self.schedule.actions}

    @property
    def tails(self) -> dict[int, float]:
        """Seconds from a node to the last instant on it that must be over when the branch ends."""
        tails: dict[int, float] = {}
        for action in self.schedule.actions:
            if self.branch.ending is Ending.SHOT and not isinstance(action, Shot):
                continue
            node, wait = self.schedule.at[action.key][Instant.END]
            tails[node] = max(tails.get(node, 0.0), wait)
        return tails

    def _time_one(self, action: AnyAction, latest: list[float]) -> Timed:
        s, key = self.schedule, action.key
        instants = {instant: s.net.times[node] + wait for instant, (node, wait) in s.at[key].items()}
        node = s.start[key]
        cut = key in self.cut
        slack = 0.0 if cut else max(0.0, latest[node] - s.net.times[node])
        late = 0.0 if cut else self._late(action, instants)
        uses: tuple = ()
        if not cut and isinstance(action, Move):
            course = s.courses.of(key)
            uses = course.uses[course.index(key)]
        return Timed(
            action, instants, self._route(action), slack, late, self._why(node), self._cut_at(key), uses,
            facing(s.courses, action) if isinstance(action, Screen) and not cut else None,
        )

    def _cut_at(self, key: str) -> float | None:
        if key not in self.cut:
            return None
        before = self.parent.timed[key].cut_at if self.parent is not None else None
        return before if before is not None else self.schedule.past.leave

    def _route(self, action: AnyAction) -> Curve | None:
        if not is_walk(action, action.player):
            return None
        if action.key in self.cut:
            if self.parent is None:
                return None
            before = self.parent.timed[action.key]
            if action.key in self.parent.cut or before.route is None:
                return before.route
            movement = self.parent.movements[action.player]
            stretch = next((m for m in movement.stretches if m.t0 <= before.start + 1e-9 < m.t1 + 1e-9 and m.key), None)
            if stretch is None:
                return before.route
            s0 = stretch.map.at(before.start - stretch.began)[0]
            s1 = stretch.map.at(min(self.schedule.past.leave, stretch.t1) - stretch.began)[0]
            return part_of(stretch.curve, s0, s1)
        course = self.schedule.courses.of(action.key)
        begin, end = course.span(course.index(action.key))
        return course.curve if end - begin >= course.curve.length - 1e-9 else part_of(course.curve, begin, end)

    def _why(self, node: int) -> str:
        """Key of the action (or "phase") that a start waited for."""
        net = self.schedule.net
        for _ in range(3):
            edge = net.decided[node]
            if edge is None:
                return ""
            name = net.names[edge.source]
            if name[0] == "opens":
                return "phase"
            if name[0] != "ready" or edge.target != node or net.names[node][1] != name[1]:
                return name[1]
            node = edge.source
        return ""

    def _late(self, action: AnyAction, instants: Mapping[Instant, float]) -> float:
        """By how much the worst of the action's deadlines is missed."""
        return max((self._late_for(action, instants, t) for t in action.triggers), default=0.0)

    def _late_for(self, action: AnyAction, instants: Mapping[Instant, float], trigger) -> float:
        s = self.schedule
        if trigger.hold is Hold.AT_CLOCK:
            if self.branch.clock is None or trigger.seconds is None:
                return 0.0
            due = self.branch.clock - trigger.seconds
            late = instants[Instant.START] - due
            return late if late > LATE else 0.0
        if trigger.hold not in (Hold.AS, Hold.BEFORE, Hold.AT_ONCE):
            return 0.0
        found = [at for at in (s.mark(m, trigger.hold) for m in trigger.marks) if at is not None]
        if not found:
            return 0.0
        due = max(s.net.times[node] + wait for node, wait in found)
        if trigger.hold is Hold.BEFORE:
            done = instants.get(Instant.ARRIVE) if is_walk(action, action.player) else instants[Instant.END]
            return max(0.0, done - due) if done - due > 0.005 else 0.0
        caught = isinstance(action, Pass) and trigger.marks[0].instant not in ON_RELEASE
        late = (instants[Instant.CATCH] if caught else instants[Instant.START]) - due
        return late if late > LATE else 0.0

    # -- reading -----------------------------------------------------------------------------------------

    @property
    def node_times(self) -> dict[tuple, float]:
        """Times of the network's nodes by name, for the branches that leave this one."""
        net = self.schedule.net
        times = {name: net.times[i] for i, name in enumerate(net.names) if name[0] != "cut"}
        if self.parent is not None:
            times = {k: v for k, v in self.parent.node_times.items() if k not in times} | times
        return times

    def position(self, player: int, t: float) -> Point:
        """Where an offensive player is at second t."""
        return self.movements[player].place(t)

    def velocity(self, player: int, t: float) -> Point:
        """m/s at second t."""
        return self.movements[player].velocity(t)

    @cached_property
    def ball_events(self) -> tuple[BallEvent, ...]:
        """Every change of hands in order of time."""
        found = [e for a in self.schedule.actions if (e := self._event(a)) is not None]
        return tuple(sorted(found, key=lambda e: (e.release, e.caught)))

    def _event(self, action: AnyAction) -> BallEvent | None:
        s, key = self.schedule, action.key
        if key in self.cut:
            release = self.cut[key].get(Instant.RELEASE)
            if release is None or not isinstance(action, (Pass, HandOff)):
                return None
            caught = s.past.times.get(("catch", key), release) if isinstance(action, Pass) else release + s.pace.hand_off
            kind = action.pass_kind.value if isinstance(action, Pass) else "hand-off"
            return BallEvent(release, caught, action.player, action.receiver, kind, key)
        if isinstance(action, Pass):
            kind = action.pass_kind.value
            return BallEvent(s.time(key, Instant.RELEASE), s.time(key, Instant.CATCH), action.player, action.receiver, kind, key)
        if isinstance(action, HandOff) and not action.fake:
            return BallEvent(s.time(key, Instant.MEET), s.time(key, Instant.END), action.player, action.receiver, "hand-off", key)
        if isinstance(action, Shot):
            end = s.time(key, Instant.END)
            return BallEvent(end, end + s.pace.shot_flight, action.player, None, "shot", key)
        if isinstance(action, LooseBall) and action.verb in ("rebound", "tip"):
            end = s.time(key, Instant.END)
            holder = action.receiver or action.player
            return BallEvent(s.time(key, Instant.START), end, None, holder, "loose", key)
        return None

    @cached_property
    def _releases(self) -> list[float]:
        return [e.release for e in self.ball_events]

    def ball(self, t: float) -> Ball:
        """In somebody's hands or in the air."""
        i = bisect_right(self._releases, t) - 1
        if i < 0:
            holder = self.branch.phases[0].holder
            return Ball(self.position(holder, t) if holder else self.rim, holder)
        event = self.ball_events[i]
        if t >= event.caught:
            if event.receiver is None:
                return Ball(self.rim, None, event.passer, None)
            return Ball(self.position(event.receiver, t), event.receiver)
        start = self.position(event.passer, event.release) if event.passer else self.rim
        end = self.position(event.receiver, event.caught) if event.receiver else self.rim
        k = (t - event.release) / (event.caught - event.release)
        point = Point(start[0] + k * (end[0] - start[0]), start[1] + k * (end[1] - start[1]))
        return Ball(point, None, event.passer, event.receiver)

    def defender(self, body: int, t: float) -> Point:
        """Where a defender stands at second t; the track of all five is computed on first use."""
        return self.defence.place(body, t)

    @cached_property
    def shown(self):
        """Coverages this branch shows."""
        from generator.timeline.showings import showings

        return showings(self)

    @cached_property
    def defence(self):
        """The five defenders' tracks."""
        from generator.timeline.defence import track_defence

        return track_defence(self)

    def quiz_instant(self, fork: int) -> float:
        """When the picture of a fork's question is frozen (timeline.md 5.6)."""
        from generator.timeline.distinctness import quiz_instant

        return quiz_instant(self, fork)
