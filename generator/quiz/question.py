"""Questions as values: what is asked, of whom, which options, which are right, and where it comes from."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from generator.diagnostics import Location
from generator.model.court import Point
from generator.model.settled import Variant

AS_WRITTEN = Variant()
TEAM = "team"  # in place of a play's id, where a question is about none


class Kind(Enum):
    """What a question asks about."""

    READ = "read"  # this coverage: what do you do?
    JOB = "job"  # your job in this phase
    PLACE = "place"  # tap where you end up
    NEXT = "next"  # who gets the ball next
    CALL = "call"  # this signal, this opening picture: which play?
    TELL = "tell"  # what shows first that it is this play?


@dataclass(frozen=True, slots=True)
class Clip:
    """A stretch of a branch in motion; seconds from the start of the branch. `branch`: its key, or that of a branch with
    another coverage (`timeline.other_sight`)."""

    branch: str
    start: float
    end: float


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture to be drawn by whoever owns the pictures. `kind` is `read` (the picture at the quiz instant of fork
    `index`, with coverage `way` of the answer's key), `answer` (what the five do then), `phase` (the opening of phase `index`, numbers only) or `job` (the same
    with routes)."""

    kind: str
    branch: str
    index: int
    way: int = 0


@dataclass(frozen=True, slots=True)
class Source:
    """What an option can be simulated by: `player` of a branch from `start` to `end` (seconds), left and right
    exchanged if `mirrored`. `play`: another play's id (its version with the same sides)."""

    branch: str
    player: int
    start: float
    end: float
    mirrored: bool = False
    play: str = ""


@dataclass(frozen=True, slots=True)
class Option:
    """One option: its text, and what makes it right or wrong: a stretch of play (`source`), a player who gets the ball
    from the one asked or shows the tell (`player`), a play (`play`, id)."""

    text: str
    source: Source | None = None
    player: int = 0
    play: str = ""


@dataclass(frozen=True, slots=True)
class Question:
    """`position` 0: for everybody. `right`: indexes into `options`; `place` has none but `at` (metres) and `within`.

    `id` changes when the actions it is about do, never with wording. `twin` is equal for all versions (left, right,
    run for another) of one question. `themes`: what it asks about; two questions with one in common (a job and the place
    it ends at, who passes and who gets the ball, a phase that two plays share) do not stand in one quiz. `node` is the
    phase, answer or play it covers.
    """

    id: str
    kind: Kind
    play: str
    position: int
    prompt: str
    options: tuple[Option, ...]
    right: tuple[int, ...]
    why: str
    twin: str
    node: str
    source: Location
    variant: Variant = AS_WRITTEN
    read: str = ""
    coverage: str = ""
    at: Point | None = None
    within: float = 0.0
    picture: Picture | None = None
    answer_picture: Picture | None = None
    clip: Clip | None = None
    then: Clip | None = None
    moment: str = ""
    themes: tuple[str, ...] = ()
