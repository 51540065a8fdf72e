"""A way through the script: the phases met, the answers taken, where everybody is. Values that the walker fills.

A path keeps, for every phase met, the state at its opening and the sites of its reads, so that another path can leave
it there without settling what lies before.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from generator.model.play import Answer, Phase
from generator.model.settled import Departure, Ending, Fork, Mark
from generator.settling.runs import Run
from generator.settling.sites import Site
from generator.settling.state import State

IDENTITY = {n: n for n in (1, 2, 3, 4, 5)}


@dataclass(slots=True)
class PhaseRun:
    """One phase as met: `index` in the script, `round` of a repeat, the run and the sites met in order."""

    index: int
    phase: Phase
    lead_in: str
    round: int
    entry: State
    run: Run
    sites: list[Site] = field(default_factory=list)
    taken: list[Answer] = field(default_factory=list)
    changed: bool = False  # a default answer brought lines of its own
    opening: Mark | None = None
    open_from: int = 0  # sites before this one belong to the parent and are closed
    frozen: bool = False  # a round of a repeat, or met again: nobody departs here
    skipped: bool = False  # an optional phase left out: only its fork is met
    roles: dict[int, int] = field(default_factory=dict)
    turned: bool = False


@dataclass(slots=True)
class Path:
    """A way through the script. `roles`: number in the script -> player now; `turned`: mirrored now."""

    phases: list[PhaseRun] = field(default_factory=list)
    state: State | None = None
    choices: tuple[str, ...] = ()
    names: tuple[str, ...] = ()
    parent: str | None = None
    departure: Departure | None = None
    roles: dict[int, int] = field(default_factory=lambda: dict(IDENTITY))
    turned: bool = False
    round: int = 0
    ending: Ending = Ending.PHASES_DONE

    @property
    def key(self) -> str:
        """Short and stable: the answers taken."""
        return "+".join(self.choices) or "main"

    @property
    def met(self) -> int:
        """How many phases were run so far."""
        return sum(not p.skipped for p in self.phases)

    def forks(self) -> list[Fork]:
        """Every fork met, in order."""
        return [s.fork(a) for p in self.phases for s, a in zip(p.sites, p.taken)]
