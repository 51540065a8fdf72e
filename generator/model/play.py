"""Plays and lead-ins as the coach wrote them, checked for form but not yet placed on a floor."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum

from generator.diagnostics import Location
from generator.model import nothing
from generator.model.sentence import Event, Line, One, Place


@dataclass(frozen=True, slots=True)
class Text:
    """Prose of the coach and where it stands."""

    text: str
    source: Location = field(compare=False)


@dataclass(frozen=True, slots=True)
class Teach:
    """`teach: {2 and 4: text}`; empty `players` means everyone."""

    players: tuple[int, ...]
    text: str
    source: Location = field(compare=False)


@dataclass(frozen=True, slots=True)
class Allow:
    """`allow: {rule-id: reason}`: silences that check inside the node that carries it."""

    rule: str
    reason: str
    source: Location = field(compare=False)


@dataclass(frozen=True, slots=True)
class StartPlace:
    """Where one player stands at the start."""

    player: int
    place: Place
    with_ball: bool = False
    on_the_run: bool = False
    source: Location = field(compare=False, kw_only=True)


@dataclass(frozen=True, slots=True)
class Start:
    """A play's opening: an alignment by name (or None) and places that override it."""

    alignment: str | None
    places: tuple[StartPlace, ...]
    source: Location = field(compare=False)


class WatchKind(Enum):
    """What a reader looks at decides the kind of read."""

    DEFENDERS = "defenders"
    PLAYERS = "players"  # 2 then 5 then 4: who is open
    OWN_CHOICE = "own choice"
    BENCH = "bench"
    CLOCK = "clock"
    BALL = "ball"


@dataclass(frozen=True, slots=True)
class Watch:
    """What is watched; `on_screen_of` and `at` are the details `on 5's screen`, `at right block`."""

    kind: WatchKind
    ones: tuple[One, ...] = ()
    on_screen_of: One | None = None
    at: Place | None = None
    text: str = field(default="", compare=False)
    source: Location = field(compare=False, kw_only=True)


@dataclass(frozen=True, slots=True)
class Sight:
    """One condition of an answer's key: `X5 hedge` (`one` None: the pair's), `2 open`, a choice's name, a clock span.

    `coverage` is the vocabulary id or the team's word resolved to one; `word` is as the coach says it.
    `seconds` is (from, to) for clock spans, either end None when open.
    """

    one: One | None
    coverage: str
    word: str
    seconds: tuple[float | None, float | None] | None = None


@dataclass(frozen=True, slots=True)
class GoTo:
    """`go to: PHASE | next phase | end | PLAY [mirrored]`. `target` is the words as written, without `mirrored`."""

    target: str
    mirrored: bool = False
    source: Location = field(compare=False, kw_only=True)


@dataclass(frozen=True, slots=True)
class Answer:
    """What the five do against a coverage. `sights` is OR of ANDs: ((X1 trail, X5 help), (X1 sag,)); empty: `otherwise`."""

    id: str
    sights: tuple[tuple[Sight, ...], ...]
    key: str  # the key as written, for people
    lines: tuple[Line, ...] = ()
    go_on: bool = False
    why: Text | None = None
    teach: tuple[Teach, ...] = ()
    reads: tuple[Read, ...] = ()
    go_to: GoTo | None = None
    source: Location = field(compare=False, kw_only=True)

    @property
    def is_otherwise(self) -> bool:
        """True for the answer that keeps the main line."""
        return not self.sights


@dataclass(frozen=True, slots=True)
class Read:
    """A fork: one player looks at a defender (or a teammate, the clock, the bench, the ball)."""

    id: str
    who: One
    watch: Watch
    answers: tuple[Answer, ...]
    when: Event | None = None
    when_relation: str = ""  # as | after | before
    why: Text | None = None
    teach: tuple[Teach, ...] = ()
    allow: tuple[Allow, ...] = ()
    source: Location = field(compare=False, kw_only=True)
    who_source: Location | None = field(default=None, compare=False, kw_only=True)  # where `who` is written


@dataclass(frozen=True, slots=True)
class Rule:
    """Holds in every phase: `when` + `do`, or the keys of a read (`read`, then `when` and `lines` are empty)."""

    when: Event | None
    lines: tuple[Line, ...]
    read: Read | None
    source: Location = field(compare=False, kw_only=True)


@dataclass(frozen=True, slots=True)
class Phase:
    """A stretch of actions between two stable pictures."""

    id: str
    name: str
    lines: tuple[Line, ...] = ()
    reads: tuple[Read, ...] = ()
    when: Event | None = None
    when_relation: str = ""
    go_to: GoTo | None = None
    roles: Mapping[int, int] = field(default_factory=nothing)  # 3 does 1's lines from the next phase on
    roles_by_place: bool = False
    optional: bool = False
    teach: tuple[Teach, ...] = ()
    allow: tuple[Allow, ...] = ()
    source: Location = field(compare=False, kw_only=True)


@dataclass(frozen=True, slots=True)
class Repeat:
    """`repeat: [mirrored] from PHASE`."""

    phase: str
    mirrored: bool
    times: int = 1
    until: str = ""
    roles: Mapping[int, int] = field(default_factory=nothing)
    source: Location = field(compare=False, kw_only=True)


@dataclass(frozen=True, slots=True)
class LeadInRef:
    """A lead-in by name; `roles` maps a player of this play to the role he takes in the lead-in."""

    name: str
    roles: Mapping[int, int] = field(default_factory=nothing)
    source: Location = field(compare=False, kw_only=True)


@dataclass(frozen=True, slots=True)
class SameAs:
    """`same as: PLAY until PHASE`."""

    play: str
    until: str
    source: Location = field(compare=False, kw_only=True)


@dataclass(frozen=True, slots=True)
class Film:
    """A link shown as a plain link that sends no referrer."""

    title: str
    link: str


@dataclass(frozen=True, slots=True)
class Play:
    """A play or, with `is_lead_in`, a lead-in. `fingerprint` changes with the actions, `id` with the name only."""

    id: str
    name: str
    start: Start | None
    phases: tuple[Phase | Repeat, ...]
    fingerprint: str = ""
    is_lead_in: bool = False
    series: str = ""
    call: str = ""
    signal: str = ""
    purpose: str = ""
    situation: str = "live"
    against: str = "man"  # `man`, `nobody`, `zone 2-3`, `box and one on 2`, `man press`, `zone press 1-2-1-1`, ...
    clock: float | None = None
    lead_ins: tuple[LeadInRef, ...] = ()
    same_as: SameAs | None = None
    also_for: Mapping[int, int] = field(default_factory=nothing)
    interchangeable: tuple[tuple[int, ...], ...] = ()
    both_sides: bool = False
    rules: tuple[Rule, ...] = ()
    teach: tuple[Teach, ...] = ()
    allow: tuple[Allow, ...] = ()
    draft: bool = False
    retired: bool = False
    film: tuple[Film, ...] = ()
    staff_note: str = ""
    folder: str = ""  # the folder of the book it stands in, e.g. `harbor` or `out-of-bounds`
    source: Location = field(compare=False, kw_only=True)
