"""A branch as a constraint graph: every edge of timeline.md 3.3, built in written order.

In: the branch's effective actions, their courses, the pace, and what a parent branch has already lived through. Out: a
`Schedule` whose network gives every instant.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import hypot

from generator.model.court import Point
from generator.model.play import WatchKind
from generator.model.settled import (
    AnyAction, Branch, Fork, HandOff, Hold, Instant, LooseBall, Mark, Move, Pass, PassKind, Screen, Shot, Stand, Trigger,
)
from generator.timeline.chains import Chains, is_walk
from generator.timeline.courses import Courses
from generator.timeline.network import Network
from generator.timeline.openings import opening_edges
from generator.timeline.parameters import LEAD, LOB_LEAD, Pace
from generator.timeline.running_catch import catch_time

At = tuple[int, float]  # a node and seconds after it
ON_RELEASE = (Instant.START, Instant.RELEASE)


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
        _nodes(schedule, action)
    for player in branch.start:
        schedule.free[player] = []
    for action in actions:
        if action.key in schedule.past_cut:
            end = schedule.at[action.key][Instant.END]
            schedule.free[action.player] = [(*end, "")]
            continue
        _order_edges(schedule, action)
        _kind_edges(schedule, action)
        for trigger in action.triggers:
            _trigger_edges(schedule, action, trigger)
    for index, fork in enumerate(branch.forks):
        if branch.departure is None or index != branch.departure.fork:
            _default_edges(schedule, fork)
    opening_edges(schedule)
    _freeze(schedule)
    return schedule


# -- nodes -------------------------------------------------------------------------------------------------


def _nodes(s: Schedule, action: AnyAction) -> None:
    key, net = action.key, s.net
    if key in s.past_cut:
        s.at[key] = {}
        for instant, t in s.past_cut[key].items():
            node = net.node("cut", key, instant)
            net.fixed[node] = t
            s.at[key][instant] = (node, 0.0)
        s.start[key] = s.at[key][Instant.START][0]
        return
    walk = is_walk(action, action.player)
    run = s.chains.runs[key] if walk else None
    if run is not None and run.key != key:
        course = s.courses.of(key)
        offset = course.times(course.index(key))[0]
        s.start[key], s.ready[key] = s.start[run.key], (s.ready[run.key][0], offset)
    else:
        ready, start = net.node("ready", key), net.node("start", key)
        net.edge(ready, start)
        s.start[key], s.ready[key] = start, (ready, 0.0)
        offset = 0.0
    s.at[key] = {Instant.START: (s.start[key], offset)}
    if walk:
        _walk_nodes(s, action)
    else:
        _still_nodes(s, action)


def _walk_nodes(s: Schedule, action: AnyAction) -> None:
    key, start, instants = action.key, s.start[action.key], s.at[action.key]
    course = s.courses.of(key)
    i = course.index(key)
    end = course.times(i)[1]
    instants[Instant.HALFWAY] = (start, course.map.time_at(sum(course.span(i)) / 2))
    instants[Instant.ARRIVE] = (start, course.arrive(i))
    uses = course.uses[i]
    if uses:
        instants[Instant.USE] = (start, course.map.time_at(uses[0].s_use))
        instants[Instant.CLEAR] = (start, course.map.time_at(uses[-1].s_clear))
    if isinstance(action, Screen):
        _screen_nodes(s, action, (start, end))
    elif isinstance(action, HandOff):
        _hand_off_nodes(s, action, (start, end))
    elif _has_until(action):
        node = s.net.node("end", key)
        s.net.edge(start, node, end)
        instants[Instant.END] = (node, 0.0)
    else:
        instants[Instant.END] = (start, end)


def _has_until(action: AnyAction) -> bool:
    return any(t.hold is Hold.UNTIL for t in action.triggers)


def _screen_nodes(s: Schedule, action: Screen, stop: At) -> None:
    end = s.net.node("end", action.key)
    s.at[action.key][Instant.SET] = (stop[0], stop[1] + s.pace.screen_set)
    s.at[action.key][Instant.END] = (end, 0.0)
    s.net.edge(stop[0], end, stop[1] + s.pace.screen_set)


def _hand_off_nodes(s: Schedule, action: HandOff, stop: At) -> None:
    meet = s.net.node("meet", action.key)
    s.net.edge(stop[0], meet, stop[1])
    s.at[action.key] |= {
        Instant.MEET: (meet, 0.0), Instant.RELEASE: (meet, 0.0),
        Instant.CATCH: (meet, s.pace.hand_off), Instant.END: (meet, s.pace.fake if action.fake else s.pace.hand_off),
    }
    s.at[action.key].setdefault(Instant.ARRIVE, stop)


def _still_nodes(s: Schedule, action: AnyAction) -> None:
    key, start, net = action.key, s.start[action.key], s.net
    instants = s.at[key]
    if isinstance(action, Screen):
        _screen_nodes(s, action, (start, 0.0))
    elif isinstance(action, HandOff):
        _hand_off_nodes(s, action, (start, 0.0))
    elif isinstance(action, Pass):
        catch = net.node("catch", key)
        instants |= {Instant.RELEASE: (start, 0.0), Instant.CATCH: (catch, 0.0), Instant.END: (catch, 0.0)}
    elif isinstance(action, Shot):
        instants |= {Instant.RELEASE: (start, s.pace.shot), Instant.END: (start, s.pace.shot)}
    elif isinstance(action, LooseBall):
        instants |= {Instant.CATCH: (start, s.pace.rebound), Instant.END: (start, s.pace.rebound)}
    else:
        seconds = action.seconds if isinstance(action, Stand) else 0.0
        end = net.node("end", key)
        net.edge(start, end, seconds)
        instants |= {Instant.END: (end, 0.0)}


# -- edges -------------------------------------------------------------------------------------------------


def _wait_for(s: Schedule, key: str, at: At | None, wait: float = 0.0, loose: bool = False) -> None:
    """`key` starts no earlier than `at` + wait; a later member of a run passes the wish on to the run's start."""
    if at is None or key not in s.ready:
        return
    node, offset = s.ready[key]
    s.net.edge(at[0], node, at[1] + wait - offset, loose, key)


def _order_edges(s: Schedule, action: AnyAction) -> None:
    """Phase opening and the player's own order; joined members have neither."""
    key = action.key
    if _leads(s, key):
        _wait_for(s, key, (s.opens[action.phase], 0.0))
        for node, wait, kind in s.free[action.player]:
            pivot = s.pace.pivot if kind == "pass" and isinstance(action, Pass) else 0.0
            _wait_for(s, key, (node, wait + pivot))
    above = s.chains.before(key, action.player)
    if isinstance(above, Screen):
        s.screens_left[above.key] = action


def _leads(s: Schedule, key: str) -> bool:
    run = s.chains.runs.get(key)
    return run is None or run.key == key


def _kind_edges(s: Schedule, action: AnyAction) -> None:
    key = action.key
    if isinstance(action, Move):
        _move_edges(s, action)
    elif isinstance(action, Pass):
        _pass_edges(s, action)
        return
    elif isinstance(action, HandOff):
        _hand_off_edges(s, action)
        return
    elif isinstance(action, LooseBall):
        _loose_ball_edges(s, action)
    s.free[action.player] = [(*s.at[key][Instant.END], "")]


def _move_edges(s: Schedule, action: Move) -> None:
    """Screens used and screens the mover himself has set (timeline.md 3.3: screen use, screen hold)."""
    at_once = any(t.hold is Hold.AT_ONCE for t in action.triggers)
    course = s.courses.of(action.key)
    i = course.index(action.key)
    by_screen = {u.screen: u for u in course.uses[i] if u.screen}
    for use in action.uses:
        if use.screen not in s.at or not use.needs_set or at_once or use.screen not in by_screen:
            continue
        t_use = 0.0 if s.pace.wait_until_set else course.map.time_at(by_screen[use.screen].s_use)
        loose = s.chains.order[use.screen] > s.chains.order[action.key]
        run_start = s.ready[action.key][0]
        node, wait = s.at[use.screen][Instant.SET]
        s.net.edge(node, run_start, wait - t_use, loose, action.key)
    for key in action.waits_clear:
        if s.has(key):
            cleared = s.at[key].get(Instant.CLEAR) or s.at[key][Instant.END]
            _wait_for(s, action.key, cleared, loose=s.chains.order[key] > s.chains.order[action.key])
    if action.waits_set is not None and s.has(action.waits_set):
        _wait_for(s, action.key, s.at[action.waits_set].get(Instant.SET))


def _loose_ball_edges(s: Schedule, action: LooseBall) -> None:
    shots = [a for a in s.actions if isinstance(a, Shot) and s.chains.order[a.key] < s.chains.order[action.key]]
    if shots:
        _wait_for(s, action.key, s.at[shots[-1].key][Instant.END], s.pace.shot_flight)


def flight_to(s: Schedule, action: Pass, place: Point) -> float:
    """Seconds a pass flies from where its passer stands to `place`."""
    passer = s.courses.place_before(action.key, action.player)
    return hypot(place[0] - passer[0], place[1] - passer[1]) / s.pace.flight_speed(action.pass_kind)


def _pass_edges(s: Schedule, action: Pass) -> None:
    """Ball and receiver arrive together; on the run where the move goes on (timeline.md 3.3)."""
    key = action.key
    release, catch = s.start[key], s.at[key][Instant.CATCH][0]
    meets = s.chains.actions.get(action.meets) if action.meets else None
    running = isinstance(meets, Move) and meets.key in s.at and meets.key not in s.past_cut
    starts_on_it = running and _starts_on(meets, key)
    if running and (action.lead or starts_on_it):
        _running_catch(s, action, meets, starts_on_it)
        held = s.free.get(action.receiver, [])
    else:
        place = s.courses.place_before(key, action.receiver)
        flight = flight_to(s, action, place)
        for node, wait, _ in s.free.get(action.receiver, []):
            s.net.edge(node, s.ready[key][0], wait - flight)
        s.net.edge(release, catch, flight)
        held = []
    s.free[action.player] = [(release, s.pace.passer_leaves, "")]
    s.free[action.receiver] = [*held, (catch, s.pace.catch, "pass")]


def _starts_on(move: Move, pass_key: str) -> bool:
    """True for `2 cuts to rim as 1 passes` when the pass goes to 2."""
    return any(
        m.action == pass_key and m.instant in ON_RELEASE
        for t in move.triggers if t.hold in (Hold.AS, Hold.AFTER, Hold.WITH) for m in t.marks
    )


def _running_catch(s: Schedule, action: Pass, meets: Move, starts_on_it: bool) -> None:
    course = s.courses.of(meets.key)
    i = course.index(meets.key)
    lead = LOB_LEAD if action.pass_kind is PassKind.LOB else LEAD
    begin, end = course.span(i)
    aim = max(begin, end - lead)
    t_aim = course.map.time_at(aim)
    flight = flight_to(s, action, course.curve.at(aim))
    release, runner, catch = s.start[action.key], s.start[meets.key], s.at[action.key][Instant.CATCH][0]
    if not starts_on_it:
        s.net.edge(runner, s.ready[action.key][0], t_aim - flight)
    passer = s.courses.place_before(action.key, action.player)
    speed = s.pace.flight_speed(action.pass_kind)

    def find(times: list[float]) -> float:
        if abs(times[runner] + t_aim - flight - times[release]) < 1e-9:
            return times[release] + flight
        return catch_time(course, i, times[runner], passer, times[release], speed)

    s.net.rule(catch, (release, runner), find)


def _hand_off_edges(s: Schedule, action: HandOff) -> None:
    key = action.key
    meet = s.at[key][Instant.MEET][0]
    for node, wait, _ in s.free.get(action.receiver, []):
        s.net.edge(node, meet, wait)
    move = s.chains.actions.get(action.receiver_move) if action.receiver_move else None
    run = s.chains.runs.get(move.key) if move is not None and s.has(move.key) and move.key not in s.past_cut else None
    if run is not None and action in run.through:
        course = s.courses.of(move.key)
        stop = s.stop(key) or (s.start[key], 0.0)
        s.net.edge(stop[0], s.ready[run.key][0], stop[1] - course.times(course.index(move.key))[1], owner=key)
    s.free[action.player] = [(*s.at[key][Instant.END], "")]
    s.free[action.receiver] = [(*s.at[key][Instant.END], "")]


def _trigger_edges(s: Schedule, action: AnyAction, trigger: Trigger) -> None:
    key, hold = action.key, trigger.hold
    if hold is Hold.AT_CLOCK or (hold is Hold.UNTIL and trigger.seconds is not None):
        if s.branch.clock is not None and trigger.seconds is not None:
            node, offset = s.ready[key] if hold is Hold.AT_CLOCK else s.at[key][Instant.END]
            s.net.base[node] = max(s.net.base[node], s.branch.clock - trigger.seconds - offset)
        return
    for mark in trigger.marks:
        at = s.mark(mark, hold)
        if at is None or hold in (Hold.BEFORE, Hold.AT_ONCE):
            continue
        if hold is Hold.UNTIL:
            s.net.edge(at[0], s.at[key][Instant.END][0], at[1], True, key)
        elif hold is Hold.WITH:
            _together(s, key, mark)
        elif hold is Hold.AS and isinstance(action, Pass) and mark.instant not in ON_RELEASE:
            flight = flight_to(s, action, s.courses.place_before(key, action.receiver))
            _wait_for(s, key, at, -flight, True)
        else:
            _wait_for(s, key, at, s.pace.after if hold is Hold.AFTER else 0.0, hold is not Hold.THEN)


def _default_edges(s: Schedule, fork: Fork) -> None:
    """The lines of a default answer begin at the read and not before; a pass that is the last of several looks begins
    when the others have been looked at."""
    mine = [a for a in s.actions if a.answer == fork.taken and a.phase == fork.phase and a.key not in s.past_cut]
    if not mine:
        return
    first = s.chains.order[mine[0].key]
    if fork.read.watch.kind is WatchKind.PLAYERS:
        _look_edges(s, fork, mine[0], first)
    elif fork.point.action is not None and s.chains.order.get(fork.point.action, first) < first:
        for action in mine:
            if _leads(s, action.key):
                _wait_for(s, action.key, s.mark(fork.point, screen=fork.screen), loose=True)


def _look_edges(s: Schedule, fork: Fork, default: AnyAction, first: int) -> None:
    """Everybody looked at before has arrived, less the flight of the pass he would have got."""
    receiver = default.receiver if isinstance(default, Pass) else None
    for action in s.actions:
        looked = isinstance(action, Move) and action.phase == fork.phase and action.player in fork.watched
        if looked and action.player != receiver and s.chains.order[action.key] < first:
            flight = 0.0 if receiver is None else flight_to(s, default, action.end)
            _wait_for(s, default.key, s.at[action.key].get(Instant.END), -flight, loose=True)


def _together(s: Schedule, key: str, mark: Mark) -> None:
    """Each of the two starts no earlier than the other is ready."""
    other = mark.action
    if other not in s.ready:
        _wait_for(s, key, s.mark(mark), loose=True)
        return
    (mine, my_offset), (theirs, their_offset) = s.ready[key], s.ready[other]
    s.net.edge(theirs, s.start[key], their_offset - my_offset, True, key)
    s.net.edge(mine, s.start[other], my_offset - their_offset, True, key)


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
