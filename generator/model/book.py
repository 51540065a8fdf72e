"""Everything a team publishes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from generator.diagnostics import Location
from generator.model import nothing
from generator.model.court import RuleSet
from generator.model.play import Play, Start


@dataclass(frozen=True, slots=True)
class RosterEntry:
    """One person of the team; `key` is a stable id made from the name."""

    key: str
    name: str
    number: str
    positions: tuple[int, ...]
    source: Location = field(compare=False)


@dataclass(frozen=True, slots=True)
class Team:
    """The team as team.yml describes it."""

    name: str
    rule_set: RuleSet = RuleSet.INTERNATIONAL
    women: bool = False
    pace: str = "high school"  # youth | high school | college | professional
    shot_clock: float | None = None  # seconds; None: no shot clock (resolved from rule set and the file)
    stopwatch: Mapping[str, float] = field(default_factory=nothing)  # play name -> seconds measured
    screens: str = "on time"  # or `wait until set`
    basket: str = "up"  # where the basket is drawn
    roster: tuple[RosterEntry, ...] = ()
    calls: Mapping[str, str] = field(default_factory=nothing)  # call -> what it means, beyond the plays' own
    coverages: Mapping[str, str] = field(default_factory=nothing)  # team word -> coverage id
    send_results_to: str = ""
    full_names: bool = False  # an explicit switch: otherwise first name or number only
    source: Location | None = field(default=None, compare=False)
    stopwatch_at: Mapping[str, Location] = field(default_factory=nothing, compare=False)  # where each of its plays is named
    slowness: float = 1.0  # measured over computed seconds, from `stopwatch`; the pipeline works it out


@dataclass(frozen=True, slots=True)
class GamePlan:
    """games/<date>-<opponent>.yml. `plays` are names in the bench's order; `coverages` are weights by coverage id."""

    id: str
    against: str
    date: str  # ISO
    plays: tuple[str, ...]
    coverages: Mapping[str, float] = field(default_factory=nothing)
    quiz_questions: int = 10
    quiz_plays: tuple[str, ...] = ()
    absent: tuple[str, ...] = ()
    note: str = ""
    staff_note: str = ""
    source: Location | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class Book:
    """Plays in file order (path, then place); names are unique among plays and among lead-ins."""

    team: Team
    alignments: Mapping[str, Start] = field(default_factory=nothing)
    lead_ins: tuple[Play, ...] = ()
    plays: tuple[Play, ...] = ()
    games: tuple[GamePlan, ...] = ()

    def play(self, name: str) -> Play | None:
        """The play of that name, letter case and spacing free."""
        return _named(self.plays, name)

    def lead_in(self, name: str) -> Play | None:
        """The lead-in of that name."""
        return _named(self.lead_ins, name)


def _named(plays: tuple[Play, ...], name: str) -> Play | None:
    wanted = fold_name(name)
    return next((p for p in plays if fold_name(p.name) == wanted), None)


def fold_name(name: str) -> str:
    """How names compare: letter case and runs of white space do not count."""
    return " ".join(name.casefold().split())
