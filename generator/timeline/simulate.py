"""Branch -> Timeline: routes first, then instants, then movements (timeline.md sections 1 to 4).

`simulate_play` runs the branches of a settled play, parents before children; a child keeps what its parent has lived
through at the read and re-times the rest.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.diagnostics import Diagnostic
from generator.model.book import Team
from generator.model.court import Court, Point
from generator.model.settled import AnyAction, Branch, Instant, SettledPlay
from generator.timeline.chains import Chains
from generator.timeline.circles import break_circles
from generator.timeline.courses import Courses, Trunk
from generator.timeline.forks import fork_time, leaving_time, own_fork_times
from generator.timeline.gates import close_gates
from generator.timeline.movement import Movement, Stretch
from generator.timeline.parameters import NEAR_SCREEN, Pace, pace_of
from generator.timeline.remarks import remarks
from generator.timeline.schedule import Past, Schedule, build_schedule
from generator.timeline.slipping import leaves_a_screen, steps_aside
from generator.timeline.splice import State
from generator.timeline.standing import standing_in_the_way
from generator.timeline.timed import PlayTimes
from generator.timeline.timeline import BranchTimeline
from generator.timeline.waiting import hold_back

ROUNDS = 3  # of routing round players who stand
_Made = tuple[Schedule, dict[int, Movement], tuple[Diagnostic, ...]]


def simulate_play(
    settled: SettledPlay, team: Team, court: Court, factor: float | None = None,
) -> tuple[PlayTimes, tuple[Diagnostic, ...]]:
    """Timelines of all branches, main line first. `factor`: measured over computed seconds; None takes the team's."""
    pace = pace_of(team, team.slowness if factor is None else factor)
    hand = -1 if settled.variant.mirrored else 1
    memo: dict = {}
    timelines: dict[str, BranchTimeline] = {}
    said: dict[Diagnostic, None] = {}
    for branch in settled.branches:
        parent = timelines.get(branch.parent) if branch.parent else None
        timeline, diagnostics = simulate(branch, pace, court, parent, memo, hand, settled.play.against)
        timelines[branch.key] = timeline
        said.update(dict.fromkeys(diagnostics))
    return PlayTimes(settled, timelines), tuple(said)


def simulate(
    branch: Branch, pace: Pace, court: Court, parent: BranchTimeline | None = None, memo: dict | None = None,
    hand: int = 1, against: str = "man",
) -> tuple[BranchTimeline, tuple[Diagnostic, ...]]:
    """One branch; `parent` is the timeline of the branch it departs from, `memo` is shared by a play's branches."""
    setting = _Setting(pace, court, {} if memo is None else memo, hand, against)
    if parent is None or branch.departure is None:
        schedule, movements, said = _run(branch, branch.actions, setting)
    else:
        schedule, movements, said = _depart(branch, setting, parent)
    timeline = BranchTimeline(branch, schedule, movements, court, against, parent)
    return timeline, (*said, *remarks(timeline))


@dataclass(frozen=True, slots=True)
class _Setting:
    """What stays the same for every branch of a play."""

    pace: Pace
    court: Court
    memo: dict
    hand: int
    against: str

    @property
    def rim(self) -> Point:
        """The middle of the ring on the floor."""
        return Point(0.0, self.court.rim)


@dataclass(frozen=True, slots=True)
class _Inheritance:
    """What an answer takes from its trunk: fixed times, movements so far, courses."""

    past: Past
    movements: dict[int, Movement]
    trunk: Trunk
    parent: BranchTimeline


def _run(
    branch: Branch, actions: tuple[AnyAction, ...], setting: _Setting, inherited: _Inheritance | None = None,
    states: dict[str, State] | None = None,
) -> _Made:
    """Schedule the actions; route again round players found standing in the way."""
    past = inherited.past if inherited else None
    split: frozenset[str] = frozenset()
    extra: dict[str, tuple[Point, ...]] = {}
    still: frozenset[int] = frozenset()
    aside: dict[str, Point] = {}
    slips = any(map(leaves_a_screen, actions))
    for _ in range(ROUNDS):
        chains = Chains(branch, actions, past.own if past else frozenset(), split)
        courses = Courses(
            branch, chains, setting.pace, setting.rim, setting.memo, states, setting.hand,
            inherited.trunk if inherited else None,
        )
        courses.extra, courses.still, courses.aside = extra, still, aside
        courses.sideline = setting.court.half_width
        schedule = build_schedule(branch, actions, chains, courses, setting.pace, past)
        said, standing_for = break_circles(schedule)
        schedule.net.sweep()
        movements = _movements(schedule, inherited)
        blocked = standing_in_the_way(schedule, movements)
        waiting = _waiting_starts(schedule) - still
        stepping = _stepping(branch, schedule, movements, setting, inherited, aside) if slips else {}
        if not blocked and not standing_for and not waiting and not stepping:
            break
        aside = aside | stepping
        split |= standing_for
        still |= waiting
        for run_key, places in blocked.items():
            extra[run_key] = (*extra.get(run_key, ()), *places)
    hold_back(schedule, own_fork_times(schedule))
    return schedule, close_gates(schedule, _movements(schedule, inherited), setting.pace), said


def _stepping(
    branch: Branch, schedule: Schedule, movements: dict[int, Movement], setting: _Setting, inherited: _Inheritance | None,
    known: dict[str, Point],
) -> dict[str, Point]:
    """Slips that meet a defender and have not been sent round him yet."""
    parent = inherited.parent if inherited else None
    found = steps_aside(BranchTimeline(branch, schedule, movements, setting.court, setting.against, parent))
    return {key: place for key, place in found.items() if key not in known}


def _waiting_starts(s: Schedule) -> frozenset[int]:
    """Players who were to start on the run but have to wait: they start from standing."""
    firsts = {p: next((s.chains.runs[a.key] for a in s.chains.of[p] if a.key in s.chains.runs), None) for p in s.branch.on_the_run}
    return frozenset(p for p, run in firsts.items() if run is not None and s.net.times[s.start[run.key]] > 1e-6)


def _movements(s: Schedule, inherited: _Inheritance | None) -> dict[int, Movement]:
    """Each player's stretches: what the trunk leaves him, then his own runs."""
    trunk = inherited.movements if inherited else {}
    stretches: dict[int, list[Stretch]] = {p: list(trunk[p].stretches) if p in trunk else [] for p in s.branch.start}
    known = {(p, m.key) for p, found in stretches.items() for m in found if m.key}
    for run in dict.fromkeys(s.chains.runs.values()):
        if run.key in s.past_cut or (run.player, run.key) in known:
            continue
        course = s.courses.of(run.key)
        start = s.net.times[s.start[run.key]]
        mine = stretches[run.player]
        if mine and mine[-1].t1 > start and not mine[-1].key:
            mine[-1] = mine[-1]._replace(t1=max(mine[-1].t0, start))
        mine.append(Stretch(start, start + course.map.total, course.curve, course.map, start, run.key))
    return {p: Movement(s.branch.start[p], found) for p, found in stretches.items()}


def _depart(branch: Branch, setting: _Setting, parent: BranchTimeline) -> _Made:
    """An answer: the trunk up to the read, then what the answer says."""
    pace = setting.pace
    read = fork_time(branch, parent, pace)
    leave = leaving_time(branch, read, pace)
    own = frozenset(branch.departure.own)
    cut, gone = _cut(branch, parent, read, leave)
    actions = tuple(a for a in branch.actions if a.key not in gone)
    halted = {a.player for a in actions if a.key in cut and a.key not in parent.cut} | _cut_short(parent, gone, leave)
    halted |= {p for p, m in parent.movements.items() if _on_a_walk_of_others(m, {a.key for a in branch.actions}, read)}
    keys = {a.key for a in actions}
    movements = {
        player: _lived(_shared(parent.movements[player], keys, read), player in halted, read, leave, pace)
        for player in branch.start
    }
    begun = frozenset(
        a.key for a in actions
        if a.key in cut or (a.key in parent.timed and parent.timed[a.key].start <= read + 1e-9 and a.key not in own)
    )
    halts = {p: m.place(float("inf")) for p, m in movements.items()}
    kept = parent.schedule.courses
    trunk = Trunk(begun, halts, kept.built, kept.places, _wrapped(parent, {*cut, *gone}, read))
    return _answer(branch, actions, setting, _Inheritance(Past(read, leave, parent.node_times, cut, own), movements, trunk, parent))


def _cut(
    branch: Branch, parent: BranchTimeline, read: float, leave: float,
) -> tuple[dict[str, dict[Instant, float]], set[str]]:
    """Actions the read stops, with the instants they still had, and those it never lets begin."""
    cut: dict[str, dict[Instant, float]] = {}
    gone: set[str] = set()
    own, stopped = set(branch.departure.own), set(branch.departure.stopped)
    for key in (a.key for a in branch.actions if a.key not in own):
        if key in parent.cut:
            cut[key] = dict(parent.cut[key])
        elif key in parent.gone:
            gone.add(key)
        elif key in stopped and key in parent.timed:
            instants = parent.timed[key].instants
            if instants[Instant.START] > read - 1e-9:
                gone.add(key)  # what would begin at the very read does not begin
            elif instants[Instant.END] > leave:
                cut[key] = {i: t for i, t in instants.items() if t <= leave}
                cut[key][Instant.END] = leave
    return cut, gone


def _wrapped(parent: BranchTimeline, stopped: set[str], read: float) -> dict[int, tuple[Point, int]]:
    """For each player stopped near a screen he uses, or before he has begun to: where the screener stands and on which
    side he passes him."""
    found = {}
    for key in sorted(stopped):
        timed = parent.timed.get(key)
        for use in timed.uses if timed is not None else ():
            if parent.position(timed.action.player, read).distance(use.place) < NEAR_SCREEN:
                found[timed.action.player] = (use.place, use.g)
    return found


def _cut_short(parent: BranchTimeline, gone: set[str], leave: float) -> set[int]:
    """Players in a run whose later part the read takes away."""
    runs = (parent.schedule.chains.runs.get(key) for key in gone)
    return {r.player for r in runs if r is not None and r.key not in gone and parent.timed[r.key].start <= leave}


def _on_a_walk_of_others(movement: Movement, keys: set[str], read: float) -> bool:
    """At the read he is under way by a line of the default answer, which the branch does not have."""
    return any(m.key and m.key not in keys and m.began < read - 1e-9 and m.t1 > read for m in movement.stretches)


def _shared(movement: Movement, keys: set[str], read: float) -> Movement:
    """Without the walks of the default answer that begin with the read: the branch never has them."""
    return Movement(movement.start, [m for m in movement.stretches if not m.key or m.key in keys or m.began < read - 1e-9])


def _lived(movement: Movement, halted: bool, read: float, leave: float, pace: Pace) -> Movement:
    """What a player has done by the read: if his walk is stopped he brakes at `leave`, else he finishes what he began."""
    if halted:
        return movement.until(leave, pace.braking)
    return Movement(movement.start, [m for m in movement.stretches if m.began <= read + 1e-9])


def _answer(
    branch: Branch, actions: tuple[AnyAction, ...], setting: _Setting, inherited: _Inheritance,
) -> _Made:
    """Own first walks start from the state their player has then; two or three rounds settle it."""
    past, movements = inherited.past, inherited.movements
    firsts = _first_walks(Chains(branch, actions, past.own), past, movements)
    starts = dict.fromkeys(firsts.values(), past.leave)
    for _ in range(ROUNDS):
        states = {key: movements[player].state(starts[key]) for player, key in firsts.items()}
        made = _run(branch, actions, setting, inherited, states)
        begun = {key: made[0].time(key, Instant.START) for key in starts}
        if all(_same_state(movements[p], starts[k], begun[k]) for p, k in firsts.items()):
            break
        starts = begun
    return made


def _same_state(movement: Movement, a: float, b: float) -> bool:
    return abs(a - b) < 1e-6 or movement.state(a).speed == 0.0 == movement.state(b).speed


def _first_walks(chains: Chains, past: Past, movements: dict[int, Movement]) -> dict[int, str]:
    """For each player who is on the move or braking at `leave`: the first walk of his that is still to come."""
    firsts = {}
    for player, movement in movements.items():
        last = movement.stretches[-1] if movement.stretches else None
        if last is None or last.t1 <= past.leave or last.key:
            continue
        begun = {m.key for m in movement.stretches}
        runs = (chains.runs.get(a.key) for a in chains.of[player])
        run = next((r for r in runs if r and r.player == player and r.key not in begun and r.key not in past.cut), None)
        if run is not None:
            firsts[player] = run.key
    return firsts
