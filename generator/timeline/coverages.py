"""Every coverage as a place and a motion: where a defender stands while he shows it (timeline.md 5.5, language.md 7.2).

In: a `Screening` (who uses whose screen, where, when) or a single man, and the instant; out: targets in metres.
`user_targets` and `screener_targets` are the columns "X of the user" and "X of the screener"; `single_targets` need no
screen. Those that place alone cannot tell apart are listed in `TOLD_IN_WORDS`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import hypot

from generator.model.court import Point
from generator.timeline.pieces import Curve
from generator.timeline.shell import Moment, man_target, on_ball, rounded
from generator.timeline.taut import toward, unit

# Answered so early that they are shown early, too (timeline.md 5.5).
EARLY_SHOWN = frozenset({"ice", "top-lock", "jump the screen"})
SHOWN_BEFORE, SHOWN_LONG_BEFORE = 0.75, 1.3

APART = 1.3  # metres wished for, so that 0.9 are left after lag and pushing

# Kinds that one defender without a screen shows within 0.9 m of each other: they differ by when, how fast or where he
# looks. The sentence that stands over every picture of a read names the coverage and tells them apart.
TOLD_IN_WORDS = (
    frozenset({"at the level", "cheat high", "close out", "denied", "deny", "front", "hard close-out", "ice", "jump the screen", "over",
               "play behind", "shoot the gap", "squeeze", "stay", "top-lock"}),
    frozenset({"drop", "late", "open", "sag", "under"}),
    frozenset({"jump to the ball", "stunt"}),
    frozenset({"trap", "two on the ball"}),
)


@dataclass(frozen=True, slots=True)
class Screening:
    """A screen being used: user and screener numbers, S, A, n from S to A, f tangent at A, i from S to the rim, the
    trunk's way of the user with the arc length of use, and the second of use."""

    user: int
    screener: int
    place: Point
    point: Point
    n: Point
    f: Point
    i: Point
    curve: Curve
    s_use: float
    used: float
    user_at: Callable[[float], Point]


def _plus(p: Point, *steps: tuple[float, Point]) -> Point:
    return Point(p[0] + sum(k * d[0] for k, d in steps), p[1] + sum(k * d[1] for k, d in steps))


def _ramp(x: float, low: float, high: float) -> float:
    return min(high, max(low, x))


def _between(p: Point, q: Point) -> Point:
    return unit(q[0] - p[0], q[1] - p[1])


# -- X of the user -----------------------------------------------------------------------------------------


def _trail(c: Screening, now: Moment) -> Point:
    return c.user_at(now.t - 0.36)


def _over(c: Screening, now: Moment) -> Point:
    return _plus(c.user_at(now.t - 0.05), (0.55, c.n))


def _under(c: Screening, now: Moment) -> Point:
    return _plus(c.place, (-1.0, c.n), (_ramp((now.t - c.used + 0.25) / 0.55, -0.7, 1.0), c.f))


def _gap(c: Screening, now: Moment) -> Point:
    return toward(rounded(c.curve.at(c.s_use + 2.0)), now.rim, 0.5)


def _switch_user(c: Screening, now: Moment) -> Point:
    p = now.men[c.screener]
    to_rim, to_ball = _between(p, now.rim), _between(p, now.ball)
    u = unit(0.8 * to_rim[0] + 0.5 * to_ball[0], 0.8 * to_rim[1] + 0.5 * to_ball[1])
    return _plus(p, (0.95, u))


def _trap_user(c: Screening, now: Moment) -> Point:
    u = unit(-0.9 * c.f[0] + 0.45 * c.i[0], -0.9 * c.f[1] + 0.45 * c.i[1])
    return _plus(now.men[c.user], (1.0, u))


def _ice_user(c: Screening, now: Moment) -> Point:
    """Waits above the dribbler's way to the screen; static as top-lock is."""
    return _plus(c.point, (-1.2, c.f), (0.7, c.n))


def _top_lock(c: Screening, now: Moment) -> Point:
    """On the user's way, just past the shoulder of the screen: he waits there, so he is not late for it."""
    return _plus(c.point, (0.7, c.f))


def _jump_screen(c: Screening, now: Moment) -> Point:
    return _plus(c.point, (1.2, c.f), (1.1, c.n))


def _squeeze_user(c: Screening, now: Moment) -> Point:
    return _plus(c.place, (-0.45, c.n), (_ramp((now.t - c.used) / 0.4, -0.7, 2.1), c.f))


# -- X of the screener -------------------------------------------------------------------------------------


def _home(c: Screening, now: Moment) -> Point:
    return toward(c.place, now.rim, 1.0)


def _under_screener(c: Screening, now: Moment) -> Point:
    return _plus(c.place, (-0.3, c.n), (-1.15, c.f))


def _switch_screener(c: Screening, now: Moment) -> Point:
    p = now.men[c.user]
    to_rim = _between(p, now.rim)
    return _plus(p, (1.0, unit(0.7 * to_rim[0] + 0.7 * c.f[0], 0.7 * to_rim[1] + 0.7 * c.f[1])))


def _hedge_user(c: Screening, now: Moment) -> Point:
    return _plus(c.place, (0.95, c.i), (0.9 * _ramp((now.t - c.used) / 0.7, -0.5, 1.2), c.f))


def _hedge(c: Screening, now: Moment) -> Point:
    return _plus(c.point, (1.5, c.f), (0.5, c.n))


def _drop(c: Screening, now: Moment) -> Point:
    p = now.men[c.user]
    return toward(p, now.rim, max(2.8, 0.5 * hypot(p[0] - now.rim[0], p[1] - now.rim[1])))


def _trap_screener(c: Screening, now: Moment) -> Point:
    return _plus(now.men[c.user], (1.0, unit(0.9 * c.f[0] + 0.2 * c.n[0], 0.9 * c.f[1] + 0.2 * c.n[1])))


def _ice_screener(c: Screening, now: Moment) -> Point:
    p = now.men[c.user]
    return _plus(p, (2.5, _between(p, now.rim)), (1.3 * _ramp(p[0] / 0.5, -1.0, 1.0), Point(1.0, 0.0)))


def _level(c: Screening, now: Moment) -> Point:
    return _plus(c.place, (1.35, c.f), (-0.35, c.n))


def _squeeze_screener(c: Screening, now: Moment) -> Point:
    return _plus(c.place, (-1.0, c.f), (0.15, c.n))


USER = {
    "trail": _trail, "over": _over, "under": _under, "shoot the gap": _gap, "switch": _switch_user, "hedge": _hedge_user,
    "drop": _over, "at the level": _over, "trap": _trap_user, "two on the ball": _trap_user, "ice": _ice_user,
    "top-lock": _top_lock, "jump the screen": _jump_screen, "squeeze": _squeeze_user,
}
SCREENER = {
    "trail": _home, "over": _home, "under": _under_screener, "shoot the gap": _home, "switch": _switch_screener,
    "hedge": _hedge, "drop": _drop, "at the level": _level, "trap": _trap_screener, "two on the ball": _trap_screener,
    "ice": _ice_screener, "top-lock": _home, "jump the screen": _home, "squeeze": _squeeze_screener,
}


# -- one defender, no screen needed ------------------------------------------------------------------------


def _off_him(metres: float) -> Callable[[Moment, int], Point]:
    def place(now: Moment, man: int) -> Point:
        p = now.men[man]
        far = hypot(p[0] - now.rim[0], p[1] - now.rim[1])
        return toward(p, now.rim, min(metres, 0.8 * far))

    return place


def _in_the_lane(metres: float) -> Callable[[Moment, int], Point]:
    def place(now: Moment, man: int) -> Point:
        return toward(now.men[man], now.ball, metres)

    return place


def _sag(now: Moment, man: int) -> Point:
    p = now.men[man]
    return toward(p, now.rim, max(2.4, 0.55 * hypot(p[0] - now.rim[0], p[1] - now.rim[1])))


def _cheat(way: float) -> Callable[[Moment, int], Point]:
    def place(now: Moment, man: int) -> Point:
        base = on_ball(now.men[man], now.rim)
        return Point(base[0], base[1] + way)

    return place


def _to_the_ball(now: Moment, man: int) -> Point:
    base = man_target(now, man)
    return toward(base, now.ball, 1.4)


def _ball_watch(now: Moment, man: int) -> Point:
    return toward(_to_the_ball(now, man), now.rim, 1.3)


def _help(now: Moment, man: int) -> Point:
    return toward(now.ball, now.rim, 1.5)


def _low_help(now: Moment, man: int) -> Point:
    return Point(now.rim[0] + 0.9 * _ramp(now.ball[0], -1.0, 1.0), now.rim[1] + 0.8)


def _high_help(now: Moment, man: int) -> Point:
    return Point(0.2 * now.ball[0], now.rim[1] + 3.9)


def _tag(now: Moment, man: int) -> Point:
    lane = min((p for m, p in now.men.items() if m != man), key=lambda p: (p[0] - now.rim[0]) ** 2 + (p[1] - now.rim[1]) ** 2)
    return toward(lane, now.rim, 0.7)


def _two_on_ball(now: Moment, man: int) -> Point:
    """The ball's own defender in front of it, the other from his man's side."""
    p = now.men[man]
    if hypot(p[0] - now.ball[0], p[1] - now.ball[1]) < 1.0:
        return on_ball(p, now.rim)
    return toward(now.ball, p, 1.0)


def _step_out(now: Moment, man: int) -> Point:
    """At the man with the ball, from his own man's side."""
    return toward(now.ball, man_target(now, man), 1.1)


def _force_side(now: Moment, man: int) -> Point:
    p = now.men[man]
    to = unit(now.rim[0] - p[0] - 2.5 * _ramp(p[0], -1.0, 1.0), now.rim[1] + 4.0 - p[1])
    return _plus(p, (1.0, to))


SINGLE: dict[str, Callable[[Moment, int], Point]] = {
    "deny": _in_the_lane(0.9), "denied": _in_the_lane(0.9), "front": _in_the_lane(0.7), "play behind": _off_him(0.8),
    "sag": _sag, "cheat high": _cheat(1.3), "cheat low": _cheat(-1.3), "jump to the ball": _to_the_ball,
    "help": _help, "low help": _low_help, "high help": _high_help, "tag": _tag, "stay": _off_him(0.75),
    "ball watch": _ball_watch, "late": _off_him(2.9), "close out": _off_him(1.6), "hard close-out": _off_him(0.45),
    "two on the ball": _two_on_ball, "trap": _two_on_ball, "open": _off_him(3.6), "stunt": _to_the_ball,
    "ice": _force_side, "over": _off_him(0.9), "under": _sag, "trail": _off_him(-0.8), "top-lock": _in_the_lane(0.95),
    "shoot the gap": _in_the_lane(1.6), "jump the screen": _in_the_lane(1.6), "drop": _off_him(3.0),
    "hedge": _step_out, "at the level": _off_him(1.4), "squeeze": _off_him(0.5),
}


def none_of(now: Moment, man: int, keys: tuple[str, ...], base: Point) -> Point:
    """Where the defender stands who shows none of a fork's keys: his own place, moved off any key's that is near it."""
    x, y = base
    for key in keys:
        if key not in SINGLE:
            continue
        q = SINGLE[key](now, man)
        d = hypot(x - q[0], y - q[1])
        if d < APART:
            away = unit(x - q[0], y - q[1]) if d > 0.05 else unit(now.rim[0] - q[0], now.rim[1] - q[1])
            x, y = x + (APART - d) * away[0], y + (APART - d) * away[1]
    return Point(x, y)


KNOWN = frozenset(USER) | frozenset(SINGLE) | {"switch"}
