"""A computed book -> the site: every page with its body, every data file, who may see each."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Protocol

from generator.diagnostics import Diagnostic
from generator.model.book import Book, fold_name
from generator.model.court import Court
from generator.model.play import Play
from generator.pages.addresses import POSITIONS, fixed_page, position_page, series_page, url_of
from generator.pages.figures import Figures
from generator.pages.gather import PRINTS, Gathered
from generator.pages.kept import Kept
from generator.pages.lists import (
    base_first,
    by_series,
    call_lines,
    calls_found_by,
    found_by,
    game_view,
    home_lists,
    latest_first,
    play_line,
    series_of,
)
from generator.pages.parts import PlayParts
from generator.pages.play_page import play_view
from generator.pages.position_page import position_view
from generator.pages.quiz_files import INDEX
from generator.pages.render import render
from generator.pages.site import Site, SitePage
from generator.pages.staff import staff_pages
from generator.pages.views import (
    CallsView,
    GamePlansView,
    GameView,
    HomeView,
    Link,
    MyPageView,
    Person,
    QuizView,
    SeriesView,
)
from generator.pages.wording import person
from generator.timeline.timed import PlayTimes

QUIZ = Link("Take the quiz", url_of(fixed_page("quiz")))
GAME_PLAN = Link("Game plan", url_of(fixed_page("game plan")))
_NEAR = 6  # games that phones choose the next one from: a weekend's and some more
_UNFOLDED = 30  # plays on the first page up to which its series stand open
_POSITION_LINKS = tuple(Link(str(n), url_of(position_page(n))) for n in POSITIONS)


class ComputedBook(Protocol):
    """What the pipeline hands over."""

    book: Book
    court: Court
    plays: tuple[PlayTimes, ...]
    lead_ins: tuple[PlayTimes, ...]
    diagnostics: tuple[Diagnostic, ...]
    published: tuple[PlayTimes, ...]


def compose_site(computed: ComputedBook, gathered: Gathered, own: tuple[Link, ...] = (), kept: Kept | None = None) -> Site:
    """All pages of a book. `own` leads to the coach's own pages; `kept` spares what was set before."""
    parts = gathered.plays
    pages = (
        _home(computed, own),
        *_play_pages(computed, parts),
        *_series_pages(computed, gathered),
        *_position_pages(computed, parts, _near_games(computed)),
        *_fixed_pages(computed),
        *staff_pages(computed, gathered, kept or Kept()),
    )
    return Site(computed.book.team.name, pages, gathered.files, _names(computed.book))


def _names(book: Book) -> frozenset[str]:
    plays = (n for p in book.plays + book.lead_ins for n in (p.name, p.series, p.call))
    people = (n for e in book.team.roster for n in (e.name, *e.name.split()))
    return frozenset(filter(None, (book.team.name, *plays, *people, *(g.against for g in book.games))))


def _page(page_id: str, title: str, template: str, view: object, found_by: str = "", figures: Figures | None = None) -> SitePage:
    pictures = figures.pictures if figures else {}
    return SitePage(page_id, title, render(template, view, page_id), found_by=found_by, diagrams=pictures)


def _plays(computed: ComputedBook) -> tuple[Play, ...]:
    return tuple(t.play for t in computed.published)


def _home(computed: ComputedBook, own: tuple[Link, ...]) -> SitePage:
    book, plays = computed.book, _plays(computed)
    view = HomeView(
        team=book.team.name,
        games=_near_games(computed),
        game_page=GAME_PLAN,
        quiz=QUIZ,
        series=home_lists(plays),
        more=own,
        positions=_POSITION_LINKS,
        changes=PRINTS,
        behind=Link("For the bench", url_of(fixed_page("staff"))),
        unfolded=len(plays) <= _UNFOLDED,
    )
    return _page("", "Plays", "home", view)


def _games(computed: ComputedBook) -> tuple[GameView, ...]:
    published = {p.id: p for p in _plays(computed)}
    return tuple(game_view(g, computed.book, published) for g in latest_first(computed.book.games))


def _near_games(computed: ComputedBook) -> tuple[GameView, ...]:
    return _games(computed)[:_NEAR]


def _play_pages(computed: ComputedBook, parts: Mapping[str, PlayParts]) -> tuple[SitePage, ...]:
    made = []
    beside = _neighbours(_plays(computed))
    for times in computed.published:
        play, figures = times.play, Figures()
        view = play_view(times, parts.get(play.id, PlayParts()), beside[play.id], figures)
        made.append(_page(play.id, play.name, "play", view, found_by(play), figures))
    return tuple(made)


def _neighbours(plays: tuple[Play, ...]) -> dict[str, tuple[Play | None, Play | None]]:
    """The plays before and after each in its series, by play id."""
    families: dict[str, list[Play | None]] = {}
    for play in base_first(plays):
        families.setdefault(fold_name(series_of(play)), [None]).append(play)
    return {
        play.id: (before, after)
        for family in families.values()
        for before, play, after in zip(family, family[1:], [*family[2:], None])
    }


def _series_pages(computed: ComputedBook, gathered: Gathered) -> tuple[SitePage, ...]:
    made = []
    for series in by_series(_plays(computed)):
        name = series.link.text
        found_by = ", ".join(line.link.text for line in series.plays)
        tree = gathered.trees.get(fold_name(name))
        view = SeriesView(name, series.plays, (tree,) if tree else ())
        made.append(_page(series_page(name), f"{name} series", "series", view, found_by))
    return tuple(made)


def _position_pages(
    computed: ComputedBook, parts: Mapping[str, PlayParts], games: tuple[GameView, ...]
) -> tuple[SitePage, ...]:
    views = (position_view(n, computed.published, parts, _POSITION_LINKS, games) for n in POSITIONS)
    return tuple(_page(position_page(v.position), f"Position {v.position}", "position", v) for v in views)


def _fixed_pages(computed: ComputedBook) -> tuple[SitePage, ...]:
    book, plays = computed.book, _plays(computed)
    people = tuple(Person(e.key, person(e, book.team), e.positions) for e in book.team.roster)
    games, near = _games(computed), _near_games(computed)
    mine = MyPageView(people, _POSITION_LINKS, tuple(map(play_line, base_first(plays))), near)
    calls = CallsView(call_lines(book, plays))
    against = ", ".join(("game plan tonight", *(g.against for g in games)))
    return (
        _page(fixed_page("my page"), "My page", "my_page", mine),
        _page(fixed_page("calls"), "Calls and signals", "calls", calls, calls_found_by(calls.calls)),
        _page(fixed_page("game plan"), "Game plan", "game_plan", GamePlansView(games, QUIZ), against),
        _page(fixed_page("quiz"), "Quiz", "quiz", QuizView(INDEX, near)),
    )
