"""A play placed on a floor: who does what from where to where, branch by branch, before any clock runs.

`settling` makes these, `timeline` times them, everything downstream reads them. The actions themselves stand in
`action.py` and are part of this contract.

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
from generator.model.action import (
    Action,
    AnyAction,
    HandOff,
    Hold,
    Instant,
    LooseBall,
    Mark,
    Move,
    Pass,
    PassKind,
    PlaceName,
    Screen,
    Shot,
    Stand,
    Trigger,
    Use,
)
from generator.model.court import Point
from generator.model.play import Answer, Play, Read

__all__ = [
    "Action",
    "AnyAction",
    "Branch",
    "BranchPhase",
    "Cue",
    "Departure",
    "Ending",
    "Fork",
    "HandOff",
    "Hold",
    "Instant",
    "LooseBall",
    "Mark",
    "Move",
    "Pass",
    "PassKind",
    "PlaceName",
    "Screen",
    "SettledPlay",
    "Shot",
    "Stand",
    "Trigger",
    "Use",
    "Variant",
]


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
    areas: frozenset[int] = frozenset()  # X bodies that hold an area of a zone and so are nobody's man

    @property
    def answer(self) -> Answer:
        """The answer this branch takes."""
        return next(a for a in self.read.answers if a.id == self.taken)


@dataclass(frozen=True, slots=True)
class Departure:
    """Where a branch leaves its parent: at `forks[fork]` it takes another answer."""

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
