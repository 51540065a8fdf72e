"""What a check finds, and what it looks at: one play with its branches, its book and its floor.

In: PlayTimes and Book; out: Finding = a Diagnostic plus the nodes of the play it stands in, so that `allow` there can
silence it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from generator.checks.stills import Still, film
from generator.diagnostics import Diagnostic, Location, Severity
from generator.model.book import Book
from generator.model.court import Court, court_for
from generator.model.settled import AnyAction, Branch
from generator.timeline.parameters import Pace, pace_of
from generator.timeline.timed import PlayTimes, Timed, Timeline


@dataclass(frozen=True, slots=True)
class Finding:
    """A diagnostic, the ids of the phase and the answer it stands in (or ""), and `topic`: two findings of one rule at
    one place about one topic are the same finding, whatever branch they were met in."""

    diagnostic: Diagnostic
    phase: str = ""
    answer: str = ""
    topic: str = ""


class Case:
    """One play as the checks see it. Main line first; each branch is looked at only from where it leaves its parent."""

    def __init__(self, times: PlayTimes, book: Book) -> None:
        self.times = times
        self.book = book
        self.court: Court = court_for(book.team.rule_set)
        self.pace: Pace = pace_of(book.team)
        self._films: dict[str, tuple[Still, ...]] = {}

    @property
    def play(self):
        """The play as written."""
        return self.times.play

    def timelines(self) -> Iterator[tuple[Branch, Timeline]]:
        """Branches with their timelines, parents before children."""
        for branch in self.times.settled.branches:
            yield branch, self.times.timelines[branch.key]

    def departs(self, branch: Branch) -> float:
        """The second from which a branch is its own: 0 for the main line."""
        if branch.departure is None:
            return 0.0
        return self.times.timelines[branch.key].fork_times[branch.departure.fork]

    def own(self, branch: Branch) -> Iterator[Timed]:
        """The timed actions that no parent has, or that a parent has only until they are cut."""
        parent = self.times.timelines[branch.parent].timed if branch.parent else {}
        for key, timed in self.times.timelines[branch.key].timed.items():
            if key not in parent:
                yield timed

    def film(self, branch: Branch) -> tuple[Still, ...]:
        """The branch five times a second from its start; a child takes its parent's stills up to the fork."""
        if branch.key not in self._films:
            before: tuple[Still, ...] = ()
            departs = self.departs(branch)
            if branch.parent is not None:
                before = tuple(s for s in self.film(self.times.settled.branch(branch.parent)) if s.t <= departs)
            self._films[branch.key] = before + film(self.times.timelines[branch.key], len(before))
        return self._films[branch.key]

    def new_stills(self, branch: Branch) -> tuple[Still, ...]:
        """Those of `film` at and after the departure."""
        departs = self.departs(branch)
        return tuple(s for s in self.film(branch) if s.t >= departs)

    def action_at(self, branch: Branch, player: int, t: float) -> AnyAction | None:
        """What the player does, or did last, at second `t`."""
        timeline = self.times.timelines[branch.key]
        begun = [x for x in timeline.timed.values() if x.action.player == player and x.start <= t + 1e-6]
        return max(begun, key=lambda x: x.start).action if begun else None

    def found(
        self, severity: Severity, rule: str, branch: Branch, action: AnyAction | None, message: str,
        hint: str = "", topic: str = "",
    ) -> Finding:
        """A finding at an action's line, or at the play when no action is to blame."""
        if action is None:
            start = self.play.start
            own = start is not None and start.source.path == self.play.source.path  # not one taken over by `same as`
            place = start.source if own else self.play.source
            return Finding(Diagnostic(place, severity, rule, message, hint), topic=topic)
        phase = branch.phases[action.phase].id
        return Finding(Diagnostic(action.source, severity, rule, message, hint), phase, action.answer or "", topic)

    def at(self, severity: Severity, rule: str, place: Location, message: str, hint: str = "") -> Finding:
        """A finding at a place of the file that belongs to the whole play."""
        return Finding(Diagnostic(place, severity, rule, message, hint))


def about(seconds: float) -> str:
    """Seconds for people: to the nearest half, `about 3.5 s`."""
    return f"about {round(seconds * 2) / 2:g} s"


def over(seconds: float) -> str:
    """A length beyond a limit, for people: the half second below it, so that a count of 3.2 is not told as 3."""
    return f"{int(seconds * 2) / 2:g} s or more"
