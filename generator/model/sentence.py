"""A coach's line as a tree: who does what, where, by which way, when. Words only, no numbers of metres.

`parsing` makes these from text, `settling` turns them into actions on the floor. Every word is the
canonical id of the vocabulary table (`generator/vocabulary`), so two wordings of one meaning give equal
trees apart from `text` and `source`, which take no part in comparison.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum

from generator.diagnostics import Location
from generator.model.court import Point


def _unseen():
    return field(compare=False, repr=False, kw_only=True)


# -- who -------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Player:
    """Offence by position, 1 to 5."""

    number: int


@dataclass(frozen=True, slots=True)
class DefenderBody:
    """`X3`: the defender who began on 3 (in a zone: that area)."""

    number: int


@dataclass(frozen=True, slots=True)
class DefenderOf:
    """`3's defender`, `his defender`: whoever guards that player now. `of` None means `his`."""

    of: One | None


@dataclass(frozen=True, slots=True)
class AreaDefender:
    """`the low right defender`, `the nearest defender`: area is the words before `defender`, canonical."""

    area: str


@dataclass(frozen=True, slots=True)
class Role:
    """`ball handler`, `passer`, `receiver`, `cutter`, `screener`, `inbounder`, `he`, `anyone`, `anyone one pass away`;
    `his screener`: whoever screens for the one who does the line (`off the pick`)."""

    name: str


@dataclass(frozen=True, slots=True)
class NearestTo:
    """`nearest to <place>`."""

    place: Place


@dataclass(frozen=True, slots=True)
class PlayerAt:
    """`player at <place>`."""

    place: Place


@dataclass(frozen=True, slots=True)
class Everyone:
    """`everyone`, or `everyone else` when `others` is set."""

    others: bool = False


One = Player | DefenderBody | DefenderOf | AreaDefender | Role | NearestTo | PlayerAt | Everyone


# -- where -----------------------------------------------------------------------------------------------


class Side(Enum):
    """How a sided spot chooses its half."""

    LEFT = "left"
    RIGHT = "right"
    BALL = "ball-side"
    WEAK = "weak-side"
    SAME = "same-side"
    OPPOSITE = "opposite"  # with `of`: opposite 3
    SHORT = "short-side"
    LONG = "long-side"
    OPEN = "open"
    NONE = "none"  # an unsided spot, or a sided spot whose side the line leaves out


@dataclass(frozen=True, slots=True)
class SpotPlace:
    """A named spot (`spot` is the vocabulary id, e.g. `wing`, `lane space`), its side; `argument` is N of
    `circle at N o'clock` or `lane space N`; `backcourt` as written."""

    spot: str
    side: Side = Side.NONE
    opposite_of: One | None = None
    argument: int | None = None
    backcourt: bool = False


@dataclass(frozen=True, slots=True)
class HalfPlace:
    """`left side`, `right side`, `weak side`, `ball side` as a place."""

    side: Side


@dataclass(frozen=True, slots=True)
class WherePlace:
    """`where 3 was` (`was` True) or `where 3 is`."""

    one: One
    was: bool


@dataclass(frozen=True, slots=True)
class RelativePlace:
    """`[measure] dir base`: `metres` None means the default 0.9 m. `base` is a place or somebody."""

    direction: str  # above below inside outside behind in-front-of beside left-of right-of
    base: Place | One
    metres: float | None = None


@dataclass(frozen=True, slots=True)
class BetweenPlace:
    """The middle of two places."""

    first: Place
    second: Place


@dataclass(frozen=True, slots=True)
class BallPlace:
    """`the ball`, or `behind the ball` (3 m toward our own end line)."""

    behind: bool = False


@dataclass(frozen=True, slots=True)
class MeasuredPlace:
    """Coordinates as a last resort, already in our frame."""

    point: Point


Place = SpotPlace | HalfPlace | WherePlace | RelativePlace | BetweenPlace | BallPlace | MeasuredPlace


# -- by which way ----------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Off:
    """`off 5`: uses 5's screen or rubs past him; order of `Route.ways` is order of use."""

    one: One


@dataclass(frozen=True, slots=True)
class Between:
    """`between 4 and 5`."""

    first: One
    second: One


@dataclass(frozen=True, slots=True)
class Way:
    """Any other route word: over, under, around, behind, in-front-of (with `one` or None), high, low, baseline,
    middle, along-baseline, along-sideline (of his half), along-left-sideline, along-right-sideline, through-lane, down-left-lane-line,
    down-right-lane-line, away-from."""

    word: str
    one: One | None = None


RouteWay = Off | Between | Way


# -- when ------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Event:
    """`one verb`: `4 arrives`, `2 reaches left wing`, `ball is tipped` (`one` None means the ball),
    `5 s on the clock` (`kind` 'clock', `seconds`). `kind` is the vocabulary id of the event word."""

    kind: str
    one: One | None = None
    place: Place | None = None
    other: One | None = None  # `clears 3`
    seconds: float | None = None


class Relation(Enum):
    """The timing words."""

    AS = "as"
    AFTER = "after"
    BEFORE = "before"
    UNTIL = "until"
    WITH = "with"
    THEN = "then"  # waits for all lines above in this `do`
    AT_ONCE = "at once"
    AT_CLOCK = "at"  # at N s
    ON = "on the"  # on the pass / catch / ...: event.kind is the word, event.one None


@dataclass(frozen=True, slots=True)
class Timing:
    """One timing phrase of a line."""

    relation: Relation
    event: Event | None = None
    one: One | None = None  # with 3
    seconds: float | None = None  # at 6 s


# -- the line --------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Part:
    """One verb with what belongs to it. `verb` is the vocabulary id (`pass`, `cut`, `screen`, ...); `kind` narrows it
    (`lob`, `skip`; `down`, `flare`; `sprint`); objects follow the verb's own preposition."""

    verb: str
    kind: str = ""
    objects: tuple[One, ...] = ()
    places: tuple[Place, ...] = ()  # `to left wing then top`: two
    start_place: Place | None = None  # `from left wing`
    ways: tuple[RouteWay, ...] = ()
    side: str = ""  # left right middle sideline high low
    manners: frozenset[str] = frozenset()  # of a pass or look also `under way` and `inside`: what it says of the receiver
    facing: Place | None = None
    text: str = _unseen()
    source: Location = _unseen()


@dataclass(frozen=True, slots=True)
class Line:
    """One sentence: everyone in `who` does all `parts` in order, under all `timings`."""

    who: tuple[One, ...]
    parts: tuple[Part, ...]
    timings: tuple[Timing, ...] = ()
    text: str = _unseen()
    source: Location = _unseen()
