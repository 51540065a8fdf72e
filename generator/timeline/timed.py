"""What the timeline hands on: every action with its instants, every player's place at every second.

The interface that checks, diagrams, jobs, quiz and pages read. Seconds count from the start of the branch.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Protocol

from generator.model.court import Point
from generator.model.play import Play
from generator.model.settled import AnyAction, Branch, Instant, SettledPlay


class Route(Protocol):
    """A way over the floor by arc length: lines and circular arcs that share tangents."""

    @property
    def pieces(self) -> tuple: ...  # Line(p, q) | Arc(centre, r, a0, sweep)

    @property
    def length(self) -> float: ...

    def at(self, s: float) -> Point: ...

    def heading(self, s: float) -> Point: ...  # unit tangent


@dataclass(frozen=True, slots=True)
class UsePoint:
    """One screener on a mover's way, as it is run: the screener's place, the runner's sense round him (g +1: the screener
    is on the runner's left in the plane drawn with y up, so on his right hand on the floor), metres along the run at use
    and clear, the point of use and the unit tangent there."""

    screener: int
    screen: str | None
    place: Point
    g: int
    s_use: float
    s_clear: float
    point: Point
    tangent: Point


@dataclass(frozen=True, slots=True)
class Timed:
    """An action with its instants in seconds. `slack` 0 means critical. `late` is by how much a deadline is missed
    (0: kept). `why`: the key of the action (or "phase") that this one's start waited for."""

    action: AnyAction
    instants: Mapping[Instant, float]
    route: Route | None  # of a move, screen walk or hand-off dribble
    slack: float
    late: float = 0.0
    why: str = ""
    cut_at: float | None = None  # stopped by a read at this second
    uses: tuple[UsePoint, ...] = ()  # screeners passed, in order
    facing: Point | None = None  # of a screen: unit vector to the man it is set on; its bar is square to it

    @property
    def start(self) -> float:
        """First step, or release."""
        return self.instants[Instant.START]

    @property
    def end(self) -> float:
        """Last instant."""
        return self.instants[Instant.END]


@dataclass(frozen=True, slots=True)
class Ball:
    """The ball at an instant: in `holder`'s hands, or flying from `passer` to `receiver` (holder None)."""

    point: Point
    holder: int | None
    passer: int | None = None
    receiver: int | None = None


@dataclass(frozen=True, slots=True)
class BallEvent:
    """The ball changes hands over [release, caught]; `receiver` None: a shot; `passer` None: a loose ball. `kind`: a pass
    kind, `hand-off`, `shot` or `loose`. `key`: of the action."""

    release: float
    caught: float
    passer: int | None
    receiver: int | None
    kind: str
    key: str


@dataclass(frozen=True, slots=True)
class PhaseSpan:
    """When a phase opens and when its last instant is over."""

    opens: float
    closes: float


class Timeline(Protocol):
    """A timed branch. `generator.timeline.simulate.simulate` returns one that has all of this."""

    branch: Branch
    timed: Mapping[str, Timed]  # by action key, written order
    phases: tuple[PhaseSpan, ...]
    duration: float
    fork_times: tuple[float, ...]  # the read point of each of branch.forks
    ball_events: tuple[BallEvent, ...]  # in order of time

    def position(self, player: int, t: float) -> Point: ...

    def velocity(self, player: int, t: float) -> Point: ...

    def ball(self, t: float) -> Ball: ...

    def defender(self, body: int, t: float) -> Point: ...  # X1..X5; computed on first use

    def quiz_instant(self, fork: int) -> float: ...  # timeline.md 5.6, 5.7


@dataclass(frozen=True, slots=True)
class PlayTimes:
    """A settled play with the timeline of each branch: what checks, jobs, quiz, diagrams and pages take."""

    settled: SettledPlay
    timelines: Mapping[str, Timeline]  # by branch key, main line first

    @property
    def play(self) -> Play:
        """The play as written."""
        return self.settled.play

    @property
    def main(self) -> Timeline:
        """The main line's timeline."""
        return self.timelines[self.settled.main.key]
