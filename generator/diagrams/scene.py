"""The display list of a picture: what is drawn and where, in picture units. Decides nothing about basketball.

Units: decimetres of floor; x runs right and y down on the page, whichever way the basket is drawn.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from generator.diagrams.path import Path, Spot
from generator.model.court import Court, Point, RuleSet, court_for

BALL_RADIUS = 5.0  # disc under the number of the man with the ball
READER_RADIUS = 6.3  # ring round the one who reads
TOKEN_RADIUS = 4.7  # free room round a number at its start
GHOST_RADIUS = 3.8  # free room round a number at its end
HEAD_LENGTH = 4.2
HEAD_WIDTH = 3.8
BAR_HALF = 4.6
MARK_RADIUS = 3.8  # order letters
HAND_OFF_RADIUS = 3.3
DEFENDER_RADIUS = 5.1
WATCHED_RADIUS = 6.2  # with the line under it
UNITS = 10.0  # picture units to the metre
NEAR_DEPTH = 10.0  # metres from the end line: a step behind the top of every arc
MIDDLE_DEPTH = 11.0
HALF_AIR = 0.6  # metres beyond the division line
AIR = 0.9  # metres between a player and the picture's edge


@dataclass(frozen=True, slots=True)
class View:
    """Which part of which floor is seen. `depth`: metres from the end line shown; `side`, `behind`: metres of run-off
    shown beside and behind the lines; `basket`: up or down; `whole`: the floor is drawn to its far end, even where a
    picture shows less of it (so that a page needs one floor a play)."""

    rule_set: RuleSet
    basket: str = "up"
    depth: float = 11.0
    side: float = 0.5
    behind: float = 0.5
    whole: bool = False

    @property
    def court(self) -> Court:
        """The floor."""
        return court_for(self.rule_set)

    @property
    def full(self) -> bool:
        """True when the floor has both baskets."""
        return self.whole or self.depth > self.court.length / 2 + 3.0

    def reaching(self, deepest: float) -> View:
        """The same view without the empty floor beyond `deepest` (metres from the end line), to the next of a few
        depths, so that the pictures of a play differ in height only where it saves much."""
        steps = (NEAR_DEPTH, MIDDLE_DEPTH, self.court.length / 2 + HALF_AIR)
        depth = next((d for d in steps if deepest + AIR <= d), self.depth)
        return replace(self, depth=min(depth, self.depth), whole=self.full)

    def place(self, point: Point) -> Spot:
        """Metres of the floor to picture units; with the basket down the picture is turned by half, never mirrored."""
        k = UNITS if self.basket == "up" else -UNITS
        return (k * point.x, k * point.y)

    def floor(self, spot: Spot) -> Point:
        """Picture units back to metres."""
        k = UNITS if self.basket == "up" else -UNITS
        return Point(spot[0] / k, spot[1] / k)

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, width, height of the view box."""
        half = (self.court.half_width + self.side) * UNITS
        height = (self.depth + self.behind) * UNITS
        top = -self.behind * UNITS if self.basket == "up" else -self.depth * UNITS
        return (-half, top, 2 * half, height)


@dataclass(frozen=True, slots=True)
class Token:
    """A number where a player starts."""

    player: int
    at: Spot
    with_ball: bool = False
    own: bool = False  # the position the picture is for
    reader: bool = False  # the one who reads


@dataclass(frozen=True, slots=True)
class EndGhost:
    """A faint number where a player ends."""

    player: int
    at: Spot
    own: bool = False


@dataclass(frozen=True, slots=True)
class Line:
    """A way without the ball; `head` draws an arrowhead at its end."""

    path: Path
    player: int
    head: bool = True
    own: bool = False


@dataclass(frozen=True, slots=True)
class Wave:
    """A dribble: a wave along `path`, `head` as for a line."""

    path: Path
    player: int
    head: bool = True
    own: bool = False


@dataclass(frozen=True, slots=True)
class PassLine:
    """The flight of the ball, dotted."""

    path: Path
    passer: int
    receiver: int
    own: bool = False


@dataclass(frozen=True, slots=True)
class Bar:
    """A screen: a bar through `at` along the unit vector `along`."""

    at: Spot
    along: Spot
    player: int
    own: bool = False


@dataclass(frozen=True, slots=True)
class HandOffMark:
    """Ball from hand to hand: a diamond."""

    at: Spot
    own: bool = False


@dataclass(frozen=True, slots=True)
class ShotMark:
    """A shot: a stem from `at` along the unit vector `toward`, with a ring at its end."""

    at: Spot
    toward: Spot
    own: bool = False


@dataclass(frozen=True, slots=True)
class DefenderMark:
    """X and the number of the man he guards (or his area). `watched`: the one to look at."""

    body: int
    at: Spot
    watched: bool = False


@dataclass(frozen=True, slots=True)
class Tail:
    """Where somebody was a moment ago: a thin trace that ends at him."""

    path: Path
    defence: bool


@dataclass(frozen=True, slots=True)
class OrderMark:
    """A small letter beside a ball line: a, b, c in the order of play."""

    letter: str
    at: Spot


@dataclass(frozen=True, slots=True)
class Label:
    """A word in the picture, set in the middle of `at`."""

    text: str
    at: Spot


Item = (
    Token | EndGhost | Line | Wave | PassLine | Bar | HandOffMark | ShotMark | DefenderMark | Tail | OrderMark | Label
)


@dataclass(frozen=True, slots=True)
class Scene:
    """A picture: its floor, what lies on it, and the same in words. `strain` counts what placement could not avoid."""

    view: View
    items: tuple[Item, ...]
    title: str
    words: str
    strain: int = 0

    def of(self, *kinds: type) -> tuple:
        """The items of the given kinds, in order."""
        return tuple(i for i in self.items if isinstance(i, kinds))
