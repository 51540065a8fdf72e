"""What one player does by one part of one line, placed on a floor: moves, screens, passes, and the instants they have.

`settling` makes these, `timeline` times them, everything downstream reads them. Places are points in metres, what an
action waits for stands in its triggers; nothing here knows seconds, except those the coach wrote.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum

from generator.diagnostics import Location
from generator.model.court import Point
from generator.model.sentence import One


class Instant(Enum):
    """The instants an action may have."""

    START = "start"  # first step (for a pass: as RELEASE)
    HALFWAY = "halfway"
    ARRIVE = "arrive"  # within 0.3 m of the end
    END = "end"
    USE = "use"  # shoulder to shoulder with the screener
    CLEAR = "clear"  # 0.6 m past him
    SET = "set"  # screener: both feet down
    RELEASE = "release"
    CATCH = "catch"
    MEET = "meet"  # hand-off begins


@dataclass(frozen=True, slots=True)
class Mark:
    """An instant of an action, plus `offset` seconds. `action` None: the opening of phase `phase`.

    `at` is a point on the way, for `2 reaches left wing`: the instant the move passes there. `screen`: key of the one
    screen of several that is used or cleared.
    """

    action: str | None
    instant: Instant = Instant.START
    offset: float = 0.0
    phase: int | None = None
    at: Point | None = None
    screen: str | None = None


class Hold(Enum):
    """How a trigger binds the action that carries it."""

    AS = "as"  # start >= mark, as soon after as possible; for a pass: caught then; > 0.5 s late: missed
    AFTER = "after"  # start >= mark + 0.2
    BEFORE = "before"  # end <= mark
    UNTIL = "until"  # lasts to mark
    WITH = "with"  # starts together with the action of the mark
    THEN = "then"  # starts when all of `marks` have happened
    AT_ONCE = "at once"  # at the phase's opening, waiting for no screen
    AT_CLOCK = "at clock"  # at `seconds` on the clock (counts down)


@dataclass(frozen=True, slots=True)
class Trigger:
    """One timing phrase, its event found. `words` says it for a job: "as 2 catches"."""

    hold: Hold
    marks: tuple[Mark, ...] = ()
    seconds: float | None = None
    words: str = ""


@dataclass(frozen=True, slots=True)
class PlaceName:
    """How people say a settled place: "left wing", "a step outside the right block". `spot` is the vocabulary id of
    the named spot it is (or lies nearest to), `side` is left, right or ""."""

    words: str
    spot: str = ""
    side: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Action:
    """What one player does by (one part of) one line.

    `key` is unique in the branch and equal for the same line in parent and child branches.
    `origin`, `end`: where the lines above leave him, where this one does (the plan, not the clock).
    `line` is equal for the parts of one line by one player; `joined` says that this move runs on from his
    previous action without a stop (timeline.md 2.7; decided from the text alone).
    """

    key: str
    phase: int
    player: int
    verb: str
    kind: str = ""
    origin: Point
    end: Point
    place: PlaceName
    triggers: tuple[Trigger, ...] = ()
    line: str = ""
    joined: bool = False
    answer: str | None = None  # id of the answer whose line it is
    from_rule: bool = False
    manners: frozenset[str] = frozenset()
    text: str = field(default="", compare=False)
    source: Location = field(compare=False)


@dataclass(frozen=True, slots=True)
class Use:
    """One screener on a mover's way. `screen`: key of the Screen action, or None where he merely stands (`off 4`
    without a screen). `words`: over, under, baseline, middle, around, behind, in-front-of, reject or ''.
    `needs_set`: the cut waits for the screen (not with `at once`)."""

    screener: int
    screen: str | None
    at: Point  # where the screener will stand
    words: str = ""
    needs_set: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Move(Action):
    """Cut, clear, dribble, drive, roll, pop, slip, ... `via`: places on the way (named by the line or by its route
    words). `waits_clear`: key of the user's move he lets clear first (roll, pop after his screen); `waits_set`: own
    screen whose set he waits for (slip). `no_stop`: he runs through `end` (sets up, a receiver's hand-off run).
    `ghost`: comes to screen and touches nobody. `curl`: wraps toward the rim."""

    effort: float
    with_ball: bool = False
    via: tuple[Point, ...] = ()
    uses: tuple[Use, ...] = ()
    waits_clear: tuple[str, ...] = ()
    waits_set: str | None = None
    no_stop: bool = False
    ghost: bool = False
    curl: bool = False
    on_the_run: bool = False  # starts at jogging speed
    ways: tuple[str, ...] = ()  # route words for people: along-baseline, through-lane, high ... (`via` holds the places)
    at: One | None = None  # whom he dribbles at


@dataclass(frozen=True, slots=True, kw_only=True)
class Screen(Action):
    """Walks to `end` and stands. `freed`: offence freed (user); `on`: defenders screened, as numbers of the men they
    guard (or zone areas). `aim`: where the freed player goes next (orients the screen), if known. `group` is a
    shared key for double, elevator and staggered screens; `closes` for elevator. `place_given`: the line named the
    place; else `end` is a first guess that the timeline refines by timeline.md 1.7. `effort` is of the walk."""

    effort: float
    freed: tuple[int, ...] = ()
    on: tuple[int, ...] = ()
    users: tuple[str, ...] = ()  # keys of the moves that use it, written above his next act
    aim: Point | None = None
    place_given: bool = True
    ball_screen: bool = False
    group: str = ""
    group_kind: str = ""  # double | elevator | stagger
    side: str = ""
    via: tuple[Point, ...] = ()


class PassKind(Enum):
    """Flight speeds and catches differ by these."""

    CHEST = "chest"
    BOUNCE = "bounce"
    SKIP = "skip"
    OVERHEAD = "overhead"
    LOB = "lob"
    POCKET = "pocket"
    DROP = "drop"
    HIGH_LOW = "high-low"
    BASEBALL = "baseball"
    OUTLET = "outlet"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pass(Action):
    """The ball leaves `player`'s hands for `receiver`. `catch_at`: the planned place. `meets`: key of the receiver's
    move it goes to (None: he stands). `lead`: caught on the run before that move ends (cut to the rim, roll, drive)."""

    receiver: int
    pass_kind: PassKind = PassKind.CHEST
    catch_at: Point
    meets: str | None = None
    lead: bool = False
    throw_in: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class HandOff(Action):
    """`player` gives the ball from hand to hand at `end`. He dribbles there when `end` is not `origin`; the receiver
    comes by his move `receiver_move` (None: stands there). `fake`: the ball is kept."""

    receiver: int
    receiver_move: str | None = None
    effort: float = 0.6
    fake: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Shot(Action):
    """Ends the branch unless a rebound or ball read follows. `on_purpose`: misses on purpose."""

    on_purpose: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand(Action):
    """Stays, spots up, posts up, seals, faces, holds, fakes: time passes, the place stays. `seconds`: at least."""

    seconds: float = 0.0
    seals: int | None = None  # offence number whose defender is sealed
    looks: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class LooseBall(Action):
    """Tips, rebounds, boxes out, crashes: acts on a ball in the air. `receiver` for a tip."""

    receiver: int | None = None


AnyAction = Move | Screen | Pass | HandOff | Shot | Stand | LooseBall
