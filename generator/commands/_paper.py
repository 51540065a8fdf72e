"""What goes on paper, as values for the print templates: plays, a position's part of them, the bench card."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from generator.clock import clock_report
from generator.clock.text import chain_lines
from generator.diagrams import answer_diagram, court_id, court_symbol, diagram_svg, phase_diagrams, play_view
from generator.diagrams.scene import View
from generator.jobs import Job, derive_jobs
from generator.model.book import Book, GamePlan
from generator.pages.figures import Figures
from generator.pages.lists import game_view
from generator.pages.parts import PlayParts
from generator.pages.play_page import forks_by_read, shown_phases
from generator.pages.play_page import play_view as page_view
from generator.pages.sights import clause, head
from generator.pages.views import Figure, GameView, PlayView
from generator.timeline.timed import PlayTimes


@dataclass
class Sheet:
    """A print document in the making: its pictures by key, and each floor they need once."""

    figures: Figures = field(default_factory=Figures)
    floors: dict[str, str] = field(default_factory=dict)

    def floor(self, view: View) -> None:
        """Makes sure the floor of a view is there."""
        self.floors.setdefault(court_id(view), court_symbol(view))


@dataclass(frozen=True, slots=True)
class BenchPlay:
    """A play on the bench card: one picture, what it is for, what its reads answer, and how long it takes."""

    name: str
    call: str
    signal: str
    purpose: str
    picture: Figure | None
    reads: tuple[tuple[str, tuple[str, ...]], ...]
    clock: str


@dataclass(frozen=True, slots=True)
class BenchCard:
    """Tonight on one sheet."""

    game: GameView
    absent: tuple[str, ...]
    plays: tuple[BenchPlay, ...]


def paper_play(times: PlayTimes, book: Book, sheet: Sheet, own: int | None = None) -> PlayView:
    """A play as its page has it, with the way of position `own` standing out and only his jobs, if one is given."""
    view = play_view(times, book.team)
    sheet.floor(view)
    jobs = tuple(j for j in derive_jobs(times, book) if j.round == 0 and own in (None, j.position))
    clocks = clock_report((times,), book)
    parts = PlayParts(
        phase_jobs=_grouped((j.phase, j) for j in jobs if not j.answer),
        answer_jobs=_grouped((j.answer, j) for j in jobs if j.answer),
        phase_pictures={
            b.phases[i].id: tuple(diagram_svg(s, "") for s in phase_diagrams(times, b.key, i, view, own))
            for b, i in shown_phases(times)
        },
        answer_pictures=_answers(times, view, own),
        clock=chain_lines(clocks[0]) if clocks else (),
    )
    return page_view(times, parts, (None, None), sheet.figures)


def _answers(times: PlayTimes, view: View, own: int | None) -> dict[str, str]:
    pictures: dict[str, str] = {}
    for branch in times.settled.branches:
        if branch.departure is not None:
            answer = branch.forks[branch.departure.fork].taken
            if answer not in pictures:
                pictures[answer] = diagram_svg(answer_diagram(times, branch.key, view, own), "")
    return pictures


def _grouped(pairs: Iterable[tuple[str, Job]]) -> Mapping[str, tuple[Job, ...]]:
    groups: dict[str, tuple[Job, ...]] = {}
    for key, job in pairs:
        groups[key] = (*groups.get(key, ()), job)
    return groups


def bench_card(game: GamePlan, book: Book, plays: tuple[PlayTimes, ...], sheet: Sheet) -> BenchCard:
    """The card of a game plan, its plays in the bench's order."""
    by_id = {t.play.id: t for t in plays}
    named = (book.play(name) for name in game.plays)
    chosen = [by_id[p.id] for p in named if p is not None and p.id in by_id]
    view = game_view(game, book, {i: t.play for i, t in by_id.items()})
    return BenchCard(view, game.absent, tuple(_bench_play(t, book, sheet) for t in chosen))


def _bench_play(times: PlayTimes, book: Book, sheet: Sheet) -> BenchPlay:
    view = play_view(times, book.team)
    sheet.floor(view)
    index = _telling_phase(times)
    scene = phase_diagrams(times, times.settled.main.key, index, view)[0]
    clocks = clock_report((times,), book)
    lines = chain_lines(clocks[0]) if clocks else ()
    play = times.play
    reads = tuple(
        (head(fork), tuple(f"{clause(a, fork, branch)}: {'; '.join(line.text for line in a.lines)}"
                           for a in fork.read.answers if a.lines and not a.is_otherwise))
        for fork, branch in forks_by_read(times).values() if fork.depth == 0
    )
    return BenchPlay(
        play.name, play.call, play.signal, play.purpose, sheet.figures.add(diagram_svg(scene, "")), reads, lines[0] if lines else ""
    )


def _telling_phase(times: PlayTimes) -> int:
    """The phase with the first read: what the bench looks for; without a read the first with a screen or the opening."""
    forks = times.main.branch.forks
    return min((f.phase for f in forks), default=0)
