"""What a picture has to tell, before anything is placed: who starts where, who goes which way, what the ball does.

`phase_picture` and `read_picture` make sketches from the timeline; `placement` turns a sketch into a scene.
All in picture units. A player's `Trail` is his whole way through the picture, leg after leg.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum

from generator.diagrams.path import Path, Spot
from generator.diagrams.scene import View
from generator.model import nothing


class Way(Enum):
    """How a leg is drawn."""

    CUT = "cut"
    DRIBBLE = "dribble"


class Stop(Enum):
    """What stands at the end of a leg."""

    OPEN = "open"  # the next leg, or the faint number, follows
    BAR = "bar"  # a screen
    HAND_OFF = "hand-off"  # meets a teammate; the mark stands between them


@dataclass(frozen=True, slots=True)
class Leg:
    """One stretch of a player's way. `along`: the unit vector of the bar, where `stop` is a screen; `unbent`: his true
    way there, where `path` has been bent to come square to the bar."""

    path: Path
    way: Way = Way.CUT
    stop: Stop = Stop.OPEN
    along: Spot | None = None
    unbent: Path | None = None


@dataclass(frozen=True, slots=True)
class Trail:
    """A player's legs in order; `bar_at_start` is a screen by a man who already stands: its unit vector and the side
    (unit vector) on which the freed player comes."""

    player: int
    legs: tuple[Leg, ...]
    bar_at_start: tuple[Spot, Spot] | None = None


@dataclass(frozen=True, slots=True)
class Flight:
    """A pass. `start`, `end`: where the ball leaves and is caught, by the plan."""

    passer: int
    receiver: int
    start: Spot
    end: Spot


@dataclass(frozen=True, slots=True)
class HandOffPlace:
    """Ball from hand to hand: `giver` to `receiver` at `at`."""

    giver: int
    receiver: int
    at: Spot


@dataclass(frozen=True, slots=True)
class ShotPlace:
    """A shot by `player` from `at`."""

    player: int
    at: Spot


@dataclass(frozen=True, slots=True)
class Sketch:
    """All of a picture. `order`: the ball lines (flights and hand-offs) in order of play when it needs saying."""

    view: View
    starts: Mapping[int, Spot]
    holder: int | None
    title: str
    words: str
    trails: tuple[Trail, ...] = ()
    flights: tuple[Flight, ...] = ()
    hand_offs: tuple[HandOffPlace, ...] = ()
    shots: tuple[ShotPlace, ...] = ()
    order: tuple[Flight | HandOffPlace, ...] = ()
    defenders: Mapping[int, Spot] = field(default_factory=nothing)
    watched: frozenset[int] = frozenset()
    reader: int | None = None
    own: int | None = None
