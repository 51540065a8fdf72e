"""Runs the stages in order and gathers what they say. The only module that knows the order.

`load_book` reads and parses a folder; `compute` settles, times and checks every play of it. A play that cannot be
settled is left out of `Computed.plays` and its diagnostics say why; it never hides the others.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from pathlib import Path
from statistics import median

from generator.checks import CHECKS, Once, heed_allow, run_checks, unknown_allows
from generator.clock import permitted_chains
from generator.diagnostics import Diagnostic, Severity
from generator.model.book import Book
from generator.model.court import Court, court_for
from generator.model.play import Play
from generator.model.settled import Variant
from generator.pages.manual_more import MORE
from generator.parsing import parse_book
from generator.parsing.rules import RULES as FORM
from generator.settling import settle
from generator.settling.rules import RULES as SENSE
from generator.source import read_book_files, unfit_files
from generator.timeline.parameters import stopwatch_factor
from generator.timeline.simulate import simulate_play
from generator.timeline.timed import PlayTimes


@dataclass(frozen=True, slots=True)
class Computed:
    """A book with the timelines of its plays (main version, file order) and of its lead-ins. `chains`: each play timed
    as one run behind every chain of lead-ins it permits (its variant names them)."""

    book: Book
    court: Court
    plays: tuple[PlayTimes, ...]
    lead_ins: tuple[PlayTimes, ...]
    diagnostics: tuple[Diagnostic, ...]
    chains: tuple[PlayTimes, ...] = ()

    @property
    def published(self) -> tuple[PlayTimes, ...]:
        """The plays that go to phones: neither draft nor retired."""
        return tuple(t for t in self.plays if not (t.play.draft or t.play.retired))


def load_book(folder: Path) -> tuple[Book, tuple[Diagnostic, ...]]:
    """The book in `folder` as written, with all mistakes of form. Locations are relative to `folder`."""
    files, unreadable = read_book_files(folder)
    book, mistakes = parse_book(files)
    return _at_team_speed(book), unreadable + unfit_files(folder) + mistakes


def compute(book: Book, timer: Timer | None = None, once: Once | None = None) -> Computed:
    """Settles, times and checks every play and lead-in of the book. `timer` is used in place of `time_play`, `once`
    round the checks of one play, so that a caller can keep their results."""
    court, timer = court_for(book.team.rule_set), timer or time_play
    plays, said = _time_all(book.plays, book, timer)
    lead_ins, said_lead_ins = _time_all(book.lead_ins, book, timer)
    chains = _time_chains(plays, book, timer)
    written = book.plays + book.lead_ins
    found = (
        *unknown_allows(written, _rules()),
        *heed_allow(said + said_lead_ins, written),
        *run_checks(plays + lead_ins + chains, book, once),
    )
    return Computed(book, court, plays, lead_ins, _ordered(_soften_drafts(found, book)), chains)


def _rules() -> frozenset[str]:
    """The names of all rules that any stage can say."""
    return frozenset(("fewer-than-five", *(c.rule for c in CHECKS), *MORE, *SENSE, *FORM))


def time_play(play: Play, book: Book, variant: Variant = Variant()) -> tuple[PlayTimes | None, tuple[Diagnostic, ...]]:
    """One version of one play: settled and timed; None when it cannot be settled."""
    settled, said = settle(play, book, variant)
    if settled is None:
        return None, said
    times, late = simulate_play(settled, book.team, court_for(book.team.rule_set))
    return times, said + late


Timer = Callable[[Play, Book, Variant], tuple[PlayTimes | None, tuple[Diagnostic, ...]]]


def versions(play: Play) -> tuple[Variant, ...]:
    """Every version a player may be asked for: as written, mirrored, run for others, and both."""
    swaps = ((), tuple(sorted(play.also_for.items()))) if play.also_for else ((),)
    sides = (False, True) if play.both_sides else (False,)
    return tuple(Variant(mirrored=m, run_for=s) for s in swaps for m in sides)


def all_versions(computed: Computed, timer: Timer = time_play) -> tuple[PlayTimes, ...]:
    """What questions are made from: published plays in all their versions, then the lead-ins. A version that cannot be
    settled is left out: the play as written has said why."""
    timed = (timer(t.play, computed.book, v)[0] for t in computed.published for v in versions(t.play)[1:])
    return (*computed.published, *(t for t in timed if t is not None), *computed.lead_ins)


def load_and_compute(folder: Path, helpers: Callable[[Book], tuple[Timer, Once]] | None = None) -> Computed:
    """Both steps; `diagnostics` holds those of both, each once, in file order. `helpers`: what `compute` is handed."""
    book, mistakes = load_book(folder)
    computed = compute(book, *helpers(book)) if helpers else compute(book)
    return replace(computed, diagnostics=_ordered(mistakes + computed.diagnostics))


def _at_team_speed(book: Book) -> Book:
    """The book with its stopwatch heeded: the median of what its measured plays say, for all plays alike."""
    measured = ((book.play(name), seconds) for name, seconds in book.team.stopwatch.items())
    timed = ((time_play(play, book)[0], seconds) for play, seconds in measured if play)
    factors = [stopwatch_factor(times.main.duration, seconds) for times, seconds in timed if times]
    return replace(book, team=replace(book.team, slowness=median(factors))) if factors else book


def _time_all(
    plays: Iterable[Play], book: Book, timer: Timer
) -> tuple[tuple[PlayTimes, ...], tuple[Diagnostic, ...]]:
    timed, said = [], []
    for play in plays:
        times, problems = timer(play, book, Variant())
        said.extend(problems)
        if times is not None:
            timed.append(times)
    return tuple(timed), tuple(said)


def _time_chains(plays: Iterable[PlayTimes], book: Book, timer: Timer) -> tuple[PlayTimes, ...]:
    """A chain that cannot be settled is left out: the check of lead-ins says why."""
    wanted = [(t.play, chain) for t in plays for chain in permitted_chains(t.play) if chain]
    timed = (timer(play, book, Variant(lead_ins=chain))[0] for play, chain in wanted)
    return tuple(t for t in timed if t is not None)


def _soften_drafts(found: Iterable[Diagnostic], book: Book) -> tuple[Diagnostic, ...]:
    drafts = {p.source.path for p in book.plays + book.lead_ins if p.draft}
    return tuple(
        replace(d, severity=Severity.WARNING) if d.severity is Severity.ERROR and d.location.path in drafts else d
        for d in found
    )


def _ordered(found: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    return tuple(sorted(dict.fromkeys(found), key=Diagnostic.sort_key))
