"""What a screen looks like from above: which kinds of screen its geometry fits.

In: a Screen with where its screener came from, where he stands, where the freed player starts and where he goes; out:
the kinds that fit, best first. Trade words as tests on points, common practice, no source:

down, pin-down   the freed player goes up from the baseline, the screener stands above him or came down
back, up         the freed player goes to the rim and the screener stands between him and it
cross            the freed player goes across the lane more than up or down it, near the basket
flex             as cross, from the corner along the baseline
flare            the freed player goes away from the ball and stays outside
ball             the freed player has the ball; side: he or the screen is beside the lane; flat: near the middle, high
step-up          a ball screen beside the lane whose screener came up to it and whose user goes down past it
ram              the freed player sets a ball screen next
hammer           the freed player goes to the corner away from the ball
exit             the freed player goes from near the lane to the corner
away             the screener left the ball's side
drag             a ball screen on the way up the floor, set before the others are in place
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from generator.model.court import Court, Point

CLEARLY = 0.8  # metres: one step; less than that is no direction


@dataclass(frozen=True, slots=True)
class Shape:
    """A screen and its use. `start`, `goal`: where the freed player is when the screen is called for and where he
    goes; `came`, `stands`: the screener; `ball`: the ball at the use."""

    court: Court
    start: Point
    goal: Point
    came: Point
    stands: Point
    ball: Point
    user_has_ball: bool = False
    frees_a_ball_screener: bool = False

    @property
    def rim(self) -> Point:
        """The rim's centre."""
        return Point(0.0, self.court.rim)

    @property
    def up(self) -> float:
        """How far from the end line the freed player's way leads, metres."""
        return self.goal.y - self.start.y

    @property
    def across(self) -> float:
        """How far to the side, metres."""
        return abs(self.goal.x - self.start.x)

    @property
    def nearer(self) -> float:
        """How much nearer to the rim he ends, metres."""
        return self.start.distance(self.rim) - self.goal.distance(self.rim)


def _down(s: Shape) -> bool:
    from_above = s.stands.y < s.came.y + CLEARLY or s.stands.y > s.start.y + CLEARLY
    return not s.user_has_ball and s.up > CLEARLY and from_above


def _back(s: Shape) -> bool:
    return not s.user_has_ball and s.nearer > CLEARLY and s.stands.distance(s.rim) < s.start.distance(s.rim) + 0.5


def _cross(s: Shape) -> bool:
    return s.across > max(2.0, abs(s.up)) and s.start.y < s.court.free_throw_line + 1.0 and not s.user_has_ball


def _flex(s: Shape) -> bool:
    return _cross(s) and abs(s.start.x) > s.court.half_lane


def _flare(s: Shape) -> bool:
    outside = s.goal.distance(s.rim) > s.court.half_lane + 2.0
    return not s.user_has_ball and outside and s.goal.distance(s.ball) > s.start.distance(s.ball) + CLEARLY


def _ball(s: Shape) -> bool:
    return s.user_has_ball


def _side(s: Shape) -> bool:
    return s.user_has_ball and max(abs(s.stands.x), abs(s.start.x)) > s.court.half_lane - 0.5


def _flat(s: Shape) -> bool:
    return s.user_has_ball and abs(s.stands.x) < s.court.half_lane + 0.5


def _step_up(s: Shape) -> bool:
    beside = abs(s.start.x) > s.court.half_lane
    return s.user_has_ball and beside and s.stands.y > s.came.y + CLEARLY and s.goal.y < s.start.y


def _ram(s: Shape) -> bool:
    return s.frees_a_ball_screener


def _hammer(s: Shape) -> bool:
    return s.goal.y < s.court.arc_join and abs(s.goal.x) > s.court.half_lane + 1.5 and s.goal.x * s.ball.x < 0


def _exit(s: Shape) -> bool:
    return abs(s.goal.x) > abs(s.start.x) + CLEARLY and s.goal.y < s.court.free_throw_line


def _away(s: Shape) -> bool:
    return abs(s.stands.x - s.ball.x) > abs(s.came.x - s.ball.x) - 0.3


def _drag(s: Shape) -> bool:
    return s.user_has_ball and s.start.y > s.goal.y - CLEARLY


FITS: dict[str, Callable[[Shape], bool]] = {
    "ball": _ball, "step-up": _step_up, "side": _side, "flat": _flat, "drag": _drag, "ram": _ram,
    "hammer": _hammer, "flare": _flare, "flex": _flex, "cross": _cross, "back": _back, "up": _back, "down": _down,
    "pin-down": _down, "exit": _exit, "away": _away,
}
# What we call a screen that fits several, most telling first.
TELLING = ("step-up", "ball", "ram", "cross", "back", "flare", "down", "exit")


def fits(shape: Shape, kind: str) -> bool:
    """True where the kind says what the geometry shows, or says nothing about it."""
    test = FITS.get(kind)
    return test is None or test(shape)


def looks_like(shape: Shape) -> str:
    """The most telling kind that fits; "" for none."""
    return next((kind for kind in TELLING if FITS[kind](shape)), "")
