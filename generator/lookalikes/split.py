"""The split: the first second at which two plays no longer look alike (timeline.md section 6).

In: two timelines. Out: a `Split` with the second on both clocks, what tells them apart, and the departure: the start of
the first line that differs. Clocks are joined at ball events both have, so a late pass is no difference.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from math import hypot

from generator.model.court import Point
from generator.model.settled import AnyAction, Move, Screen
from generator.timeline.timed import Timeline

STEP = 0.1  # s between instants compared; the split is then narrowed to 0.01
OVERLOOKED = 1.2  # m, timeline.md 6.2: what a defender may overlook
SLIP = 0.25  # s by which either clock may be off
SAME_BEAT = 0.6  # s by which the time between two common ball events may differ
FINE = 0.01


@dataclass(frozen=True, slots=True)
class Tell:
    """What differs first: a player, or the ball (`player` None). `action_a`, `action_b`: what he is doing then, if known;
    `holder_a`, `holder_b`: who has the ball then (None: it is in the air)."""

    player: int | None
    action_a: AnyAction | None = None
    action_b: AnyAction | None = None
    holder_a: int | None = None
    holder_b: int | None = None


@dataclass(frozen=True, slots=True)
class Split:
    """`a_s`, `b_s`: the split on each clock, None when the two never part. `a_length`, `b_length`: whole lengths.
    `departure`: start of the first line that differs, on a's clock."""

    a_s: float | None
    b_s: float | None
    a_length: float
    b_length: float
    tell: Tell | None
    departure: float | None

    @property
    def never(self) -> bool:
        """True for two that look alike to the end of the shorter one."""
        return self.a_s is None


@dataclass(frozen=True, slots=True)
class Clocks:
    """Piecewise linear map from a's seconds to b's; slope 1 beyond the last knot."""

    knots: tuple[tuple[float, float], ...]

    def to_b(self, t: float) -> float:
        """b's second for a's."""
        return _interpolate(self.knots, t)

    def to_a(self, t: float) -> float:
        """a's second for b's."""
        return _interpolate(tuple((b, a) for a, b in self.knots), t)


def _interpolate(knots: tuple[tuple[float, float], ...], t: float) -> float:
    i = bisect_right([k[0] for k in knots], t) - 1
    if i < 0:
        return t
    if i + 1 >= len(knots):
        return knots[i][1] + (t - knots[i][0])
    (a0, b0), (a1, b1) = knots[i], knots[i + 1]
    return b0 + (t - a0) * (b1 - b0) / (a1 - a0) if a1 > a0 else b0


def join_clocks(a: Timeline, b: Timeline) -> Clocks:
    """Knots at releases and catches while both ball lists agree and keep the same beat."""
    knots = [(0.0, 0.0)]
    for one, two in zip(a.ball_events, b.ball_events):
        if (one.kind, one.passer, one.receiver) != (two.kind, two.passer, two.receiver):
            break
        if abs((one.release - knots[-1][0]) - (two.release - knots[-1][1])) > SAME_BEAT:
            break
        for pair in ((one.release, two.release), (one.caught, two.caught)):
            if pair[0] > knots[-1][0] + 1e-9 and pair[1] > knots[-1][1] + 1e-9:
                knots.append(pair)
    return Clocks(tuple(knots))


def split(a: Timeline, b: Timeline, overlooked: float = OVERLOOKED) -> Split:
    """When a and b stop looking alike; never, when every difference can be overlooked until the shorter one ends."""
    clocks = join_clocks(a, b)
    if (player := opening_difference(a, b, overlooked)) is not None:
        tell = _tell(a, b, player or None, 0.0, 0.0)
        return Split(0.0, 0.0, a.duration, b.duration, tell, 0.0)
    end = min(a.duration, clocks.to_a(b.duration))
    track_a, track_b = _Track(a), _Track(b)
    found = _first_difference(track_a, track_b, clocks, end, overlooked)
    departure = _departure(a, b)
    if found is None:
        return Split(None, None, a.duration, b.duration, None, departure)
    t, player = found
    other = clocks.to_b(t)
    tell = _tell(a, b, player, t, other)
    return Split(t, other, a.duration, b.duration, tell, departure)


def _tell(a: Timeline, b: Timeline, player: int | None, t: float, other: float) -> Tell:
    return Tell(player, _doing(a, player, t), _doing(b, player, other), a.ball(t).holder, b.ball(other).holder)


def opening_difference(a: Timeline, b: Timeline, overlooked: float = OVERLOOKED) -> int | None:
    """Who stands elsewhere in the first picture (0: another has the ball); the cheap question before all others."""
    start_a, start_b = a.branch.start, b.branch.start
    for player in sorted(start_a if start_a.keys() == start_b.keys() else start_a.keys() | start_b.keys()):
        if player not in start_a or player not in start_b or start_a[player].distance(start_b[player]) > overlooked:
            return player
    return 0 if a.branch.phases[0].holder != b.branch.phases[0].holder else None


class _Track:
    """Positions of a timeline by hundredths of a second, kept."""

    def __init__(self, timeline: Timeline):
        self.timeline, self.kept = timeline, {}
        self.players = tuple(sorted(timeline.branch.start))

    def place(self, player: int, t: float) -> Point:
        key = (player, round(t, 4))
        if key not in self.kept:
            self.kept[key] = self.timeline.position(player, max(0.0, t))
        return self.kept[key]

    def holder(self, t: float) -> int | None:
        return self.timeline.ball(t).holder if t >= 0 else self.timeline.branch.phases[0].holder


def _first_difference(
    a: _Track, b: _Track, clocks: Clocks, end: float, overlooked: float,
) -> tuple[float, int | None] | None:
    count = int(end / STEP + 1e-9)
    for i in range(count + 1):
        t = i * STEP
        player = _differs(a, b, clocks, t, overlooked)
        if player is not None:
            for k in range(int(STEP / FINE) - 1, 0, -1):
                earlier = t - k * FINE
                if earlier >= 0 and (found := _differs(a, b, clocks, earlier, overlooked)) is not None:
                    return earlier, found or None
            return t, player or None
    return None


def _differs(a: _Track, b: _Track, clocks: Clocks, t: float, overlooked: float) -> int | None:
    """The player who differs at a's second t; 0 for the ball; None when nobody does."""
    u = clocks.to_b(t)
    for player in a.players:
        if player not in b.players:
            return player
        if _apart(a.place(player, t), b.place(player, u)) > overlooked and _strays(a, b, player, t, u, overlooked):
            return player
    return 0 if _other_holder(a, b, t, u) else None


def _apart(p: Point, q: Point) -> float:
    return hypot(p[0] - q[0], p[1] - q[1])


def _strays(a: _Track, b: _Track, player: int, t: float, u: float, overlooked: float) -> bool:
    """Too far from everywhere the other is within a quarter second, both ways."""
    here, there = a.place(player, t), b.place(player, u)
    slips = [k * SLIP / 5 for k in range(-5, 6)]
    one = all(_apart(here, b.place(player, u + s)) > overlooked for s in slips)
    return one and all(_apart(there, a.place(player, t + s)) > overlooked for s in slips)


def _other_holder(a: _Track, b: _Track, t: float, u: float) -> bool:
    """The holder is in neither of the other's holders within a quarter second; a flight counts as no holder."""
    mine, theirs = a.holder(t), b.holder(u)
    if mine == theirs:
        return False
    near_b = {b.holder(u + s) for s in (-SLIP, 0.0, SLIP)}
    near_a = {a.holder(t + s) for s in (-SLIP, 0.0, SLIP)}
    return mine not in near_b and theirs not in near_a


def _doing(timeline: Timeline, player: int | None, t: float) -> AnyAction | None:
    """What a player is doing at second t: his last walk begun, else his last act."""
    begun = [
        x.action for x in timeline.timed.values()
        if x.start <= t + 1e-6 and (x.action.player == player or player is None)
    ]
    begun.sort(key=lambda action: timeline.timed[action.key].start)
    walks = [x for x in begun if isinstance(x, (Move, Screen))]
    chosen = begun if player is None else walks or begun
    return chosen[-1] if chosen else None


def _departure(a: Timeline, b: Timeline) -> float | None:
    """Start of the first line of a that b does not have, or of b that a does not have, on a's clock."""
    clocks = join_clocks(a, b)
    starts: list[float] = []
    for player in sorted(set(a.branch.start) | set(b.branch.start)):
        mine, theirs = _acts(a, player), _acts(b, player)
        for one, two in zip(mine, theirs):
            if _same_act(one.action, two.action):
                continue
            starts.append(min(one.start, clocks.to_a(two.start)))
            break
        else:
            longer = mine[len(theirs):] or theirs[len(mine):]
            if longer:
                starts.append(longer[0].start if len(mine) > len(theirs) else clocks.to_a(longer[0].start))
    return min(starts, default=None)


def _acts(timeline: Timeline, player: int) -> list:
    return sorted((x for x in timeline.timed.values() if x.action.player == player), key=lambda x: x.start)


def _same_act(a: AnyAction, b: AnyAction) -> bool:
    receiver = getattr(a, "receiver", None) == getattr(b, "receiver", None)
    return type(a) is type(b) and a.verb == b.verb and receiver and _apart(a.end, b.end) < OVERLOOKED
