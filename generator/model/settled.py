"""A play placed on a floor: who does what from where to where, branch by branch, before any clock runs.

`settling` makes these, `timeline` times them, everything downstream reads them. Nothing here knows seconds,
except those the coach wrote.

Order: `Branch.actions` stands in written order. Every implied dependency points from an earlier action to a
later one; only triggers may point the other way.

A branch that departs from another (`parent`) carries the parent's actions too, with the same keys. Those named
in `Departure.stopped` hold only as far as they had begun at the read point: the timeline cuts them there.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum

from generator.diagnostics import Location
from generator.model.court import Point
from generator.model.play import Answer, Play, Read
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

    `at` is a point on the way, for `2 reaches left wing`: the instant the move passes there.
    """

    action: str | None
    instant: Instant = Instant.START
    offset: float = 0.0
    phase: int | None = None
    at: Point | None = None


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

    ends_branch: bool = True
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


@dataclass(frozen=True, slots=True)
class Cue:
    """A defender's coverage named by the book: `defender` is the number of his X body. `on`: key of the screen it is
    about, if any. Holds from `begins` on until the next cue of the same body."""

    defender: int
    coverage: str
    begins: Mark
    on: str | None = None
    user: str | None = None  # key of the move that uses the screen
    other: int | None = None  # the player helped on, doubled, ...
    source: Location | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class Fork:
    """One read met in a branch. `point`: the read point; `below`: key of the action it stands just below in the
    written order (None: at the phase's opening). `screen`, `user`: keys of the watched screen and the move that uses
    it. `watched`: X bodies looked at (or offence numbers for a player-watch). `taken`: id of the answer this branch
    takes."""

    read: Read
    phase: int
    reader: int
    point: Mark
    below: str | None
    screen: str | None
    user: str | None
    watched: tuple[int, ...]
    taken: str
    depth: int = 0  # nesting of reads

    @property
    def answer(self) -> Answer:
        """The answer this branch takes."""
        return next(a for a in self.read.answers if a.id == self.taken)


@dataclass(frozen=True, slots=True)
class Departure:
    """Where a branch leaves its parent: `forks[index]` is the fork at which it takes another answer."""

    fork: int
    named: tuple[int, ...]  # players the answer names
    stopped: tuple[str, ...]  # parent's actions cut at the read point
    own: tuple[str, ...]  # keys of the answer's own actions, in order


class Ending(Enum):
    """How a branch ends."""

    SHOT = "shot"
    SCORER = "scorer"  # the last catcher is the scorer
    PHASES_DONE = "done"
    OTHER_PLAY = "other play"


@dataclass(frozen=True, slots=True)
class BranchPhase:
    """A phase as met in this branch. `plan`: where each player stands at its opening by the text; `end_plan`: at its
    end. `lead_in`: name of the lead-in it belongs to. `round`: 0, or the count of a repeat. `opening`: a mark where
    the coach wrote `when`, else None (timeline rule 3.8)."""

    id: str
    name: str
    plan: Mapping[int, Point]
    end_plan: Mapping[int, Point]
    plan_names: Mapping[int, PlaceName]
    holder: int | None  # who has the ball at its opening
    end_holder: int | None
    actions: tuple[str, ...]  # keys, written order
    opening: Mark | None = None
    lead_in: str = ""
    round: int = 0
    optional: bool = False


@dataclass(frozen=True, slots=True)
class Branch:
    """One way through the forks. `key` is short, stable and unique in the play: "main", or answer ids joined by `+`."""

    key: str
    name: str  # for people: "main line", "X3 trails, then ..."
    phases: tuple[BranchPhase, ...]
    actions: tuple[AnyAction, ...]
    forks: tuple[Fork, ...]
    cues: tuple[Cue, ...]
    ending: Ending
    scorer: int | None
    parent: str | None = None
    departure: Departure | None = None
    clock: float | None = None  # seconds on the clock at the start
    on_the_run: tuple[int, ...] = ()

    def action(self, key: str) -> AnyAction:
        """The action of that key."""
        return next(a for a in self.actions if a.key == key)

    @property
    def start(self) -> Mapping[int, Point]:
        """Where the five stand at the beginning."""
        return self.phases[0].plan


@dataclass(frozen=True, slots=True)
class Variant:
    """Which version of a play is settled. `run_for` pairs (player, role) come from `also for`."""

    mirrored: bool = False
    run_for: tuple[tuple[int, int], ...] = ()
    lead_ins: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SettledPlay:
    """A play with all its branches, main line first; a parent always stands before its children."""

    play: Play
    variant: Variant
    branches: tuple[Branch, ...]

    @property
    def main(self) -> Branch:
        """The main line."""
        return self.branches[0]

    def branch(self, key: str) -> Branch:
        """The branch of that key."""
        return next(b for b in self.branches if b.key == key)
