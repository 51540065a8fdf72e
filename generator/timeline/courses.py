"""Ways over the floor with their time maps: one `Course` a run (timeline.md sections 1 and 2).

In: a branch's chains, the pace, the rim, states of players a read sends off. Out: curves, maps, points of use.
Nothing here knows when anything starts, so every duration is independent of the schedule.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import inf

from generator.model.court import Point
from generator.model.settled import AnyAction, Branch, Move, Screen, Use
from generator.timeline.chains import Chains, Run, Walk, is_walk, participants
from generator.timeline.parameters import ARRIVE_BY, JOG_EFFORT, Pace
from generator.timeline.pieces import Curve
from generator.timeline.places import hand_off_place, screen_place
from generator.timeline.shaping import shape
from generator.timeline.splice import State
from generator.timeline.time_map import TimeMap
from generator.timeline.timed import UsePoint
from generator.timeline.waypoints import Waypoints


@dataclass(frozen=True, slots=True)
class Course:
    """A run's way. `ends[i]`: metres at which member i ends; `uses[i]`: screeners on member i's part."""

    run: Run
    curve: Curve
    map: TimeMap
    ends: tuple[float, ...]
    uses: tuple[tuple[UsePoint, ...], ...]
    standing: tuple[Point, ...] = field(compare=False, default=())

    def index(self, key: str) -> int:
        """Which member an action is."""
        return next(i for i, m in enumerate(self.run.members) if m.key == key)

    def span(self, i: int) -> tuple[float, float]:
        """Metres at which member i begins and ends."""
        return (self.ends[i - 1] if i else 0.0), self.ends[i]

    def times(self, i: int) -> tuple[float, float]:
        """Seconds from the run's start at which member i begins and ends."""
        begin, end = self.span(i)
        return (self.map.time_at(begin) if i else 0.0), self.map.time_at(end)

    def arrive(self, i: int) -> float:
        """Seconds from the run's start until member i is within 0.3 m of its end."""
        begin, end = self.span(i)
        return self.map.time_at(max(begin, end - ARRIVE_BY))


@dataclass(frozen=True, slots=True)
class Trunk:
    """What a parent branch hands to an answer: keys begun by the read, where it leaves each player who has acted, the
    courses and places it has worked out, and for each player stopped at a screen that screener's place and his sense."""

    begun: frozenset[str]
    halts: Mapping[int, Point]
    courses: Mapping[str, Course]
    places: Mapping[str, Point]
    wrapped: Mapping[int, tuple[Point, int]]


class Courses:
    """Builds and keeps the courses of a branch; `memo` is shared by the branches of a play."""

    def __init__(
        self, branch: Branch, chains: Chains, pace: Pace, rim: Point, memo: dict,
        states: Mapping[str, State] | None = None, hand: int = 1, trunk: Trunk | None = None,
    ):
        self.branch, self.chains, self.pace, self.rim, self.memo = branch, chains, pace, rim, memo
        self.states, self.hand = states or {}, hand  # hand: -1 in a mirrored play, for ties
        self.still: frozenset[int] = frozenset()  # start on the run, but have to wait
        self.extra: dict[str, tuple[Point, ...]] = {}  # standing players met after scheduling, by run key
        self.sideline = inf  # metres from the middle of the floor
        self.aside: dict[str, Point] = {}  # where a slip steps aside first, by run key
        self.built: dict[str, Course] = {}
        self._busy: set[str] = set()
        self.places: dict[str, Point] = {}
        self.trunk = trunk
        if trunk is not None:
            self.places.update((k, p) for k, p in trunk.places.items() if k in trunk.begun)
            self.built.update(
                (k, c) for k, c in trunk.courses.items() if k in trunk.begun and chains.runs.get(k) == c.run
            )

    # -- places ------------------------------------------------------------------------------------------

    def place_before(self, key: str, player: int) -> Point:
        """Where the player's actions above `key` leave him."""
        run = self.chains.runs.get(key)
        if run is not None and run.player == player and run.key == key and key in self.states:
            return self.states[key].point
        above = self.chains.before(key, player)
        return self.place_after(above, player) if above else self.branch.start[player]

    def place_after(self, action: AnyAction, player: int) -> Point:
        """Where `action` leaves the player; for what the trunk has begun, where the trunk leaves him."""
        if self.trunk is not None and action.key in self.trunk.begun and player in self.trunk.halts:
            return self.trunk.halts[player]
        if is_walk(action, player):
            return self.end_of(action)
        return self.place_before(action.key, player)

    def end_of(self, action: Walk) -> Point:
        """Where a walk ends on the floor: the plan's place, refined for screens and hand-offs."""
        key = action.key
        if key in self.places:
            return self.places[key]
        if key in self._busy:
            return action.end
        self._busy.add(key)
        if isinstance(action, Screen):
            place = screen_place(self, action)
        else:
            place = hand_off_place(self, action) if isinstance(action, Move) else action.end
        self._busy.discard(key)
        self.places[key] = place
        return place

    def screen_at(self, use: Use) -> Point:
        """Where the screener of a use stands."""
        screen = self.chains.actions.get(use.screen) if use.screen else None
        return self.end_of(screen) if isinstance(screen, Screen) else use.at

    # -- courses -----------------------------------------------------------------------------------------

    def of(self, key: str) -> Course:
        """The course of the run that holds this walk."""
        run = self.chains.runs[key]
        if run.key not in self.built:
            self.built[run.key] = self._build(run)
        return self.built[run.key]

    def rebuild(self, run_key: str, standing: tuple[Point, ...]) -> None:
        """Build again, keeping clear of these standing players too."""
        self.extra[run_key] = (*self.extra.get(run_key, ()), *standing)
        self.built.pop(run_key, None)

    def _build(self, run: Run) -> Course:
        start = self.place_before(run.key, run.player)
        state = self.states.get(run.key)
        if state is None and run.player in self.branch.on_the_run and run.player not in self.still and self.chains.before(run.key, run.player) is None:
            state = State(start, None, JOG_EFFORT * self.pace.top_speed)
        way = Waypoints(self, run, start)
        standing = (*self._idle(run), *self._rejected(run), *self.extra.get(run.key, ()))
        memo_key = (way.signature(), state, standing, self._round(run))
        made = self.memo.get(memo_key)
        if made is None:
            made = self.memo[memo_key] = shape(way, state, standing, self.pace)
        curve, time_map, ends = made
        return Course(run, curve, time_map, ends, way.use_points(curve, ends), standing)

    def _round(self, run: Run) -> tuple[Point, int] | None:
        return self.trunk.wrapped.get(run.player) if self.trunk is not None else None

    def _rejected(self, run: Run) -> tuple[Point, ...]:
        """Screeners he was offered and does not use."""
        return tuple(self.screen_at(u) for m in run.members if isinstance(m, Move) for u in m.uses if u.words == "reject")

    def _idle(self, run: Run) -> tuple[Point, ...]:
        """Places of the players with no walk of their own in the run's phases."""
        phases = {m.phase for m in run.members}
        walkers = {p for phase in phases for p in self._walkers(phase)}
        friends = {u.screener for m in run.members if isinstance(m, Move) for u in m.uses}
        friends |= {p for h in run.through if h for p in participants(h)}
        places = []
        for player in sorted(self.branch.start):
            if player != run.player and player not in walkers and player not in friends:
                places.append(self._place_at(player, run.members[0].phase))
        return tuple(places)

    def _walkers(self, phase: int) -> frozenset[int]:
        found = self.memo.setdefault(("walkers", id(self.chains)), {})
        if phase not in found:
            found[phase] = frozenset(
                a.player for a in self.chains.actions.values() if a.phase == phase and is_walk(a, a.player)
            )
        return found[phase]

    def _place_at(self, player: int, phase: int) -> Point:
        """Where the player's actions of earlier phases leave him."""
        above = [a for a in self.chains.of[player] if a.phase < phase and is_walk(a, player)]
        return self.place_after(above[-1], player) if above else self.branch.start[player]
