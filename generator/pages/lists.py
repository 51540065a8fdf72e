"""Lists of plays: by series, of a game, of calls. Order is the book's order."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import PurePosixPath

from generator.model.book import Book, GamePlan, fold_name
from generator.model.play import Phase, Play
from generator.pages.addresses import fixed_page, series_page, url_of
from generator.pages.views import CallLine, GameView, Link, PlayLine, SeriesList
from generator.pages.wording import capital, day


def series_of(play: Play) -> str:
    """The series a play stands under: its own, else the name of its folder."""
    return play.series or capital(play.folder.replace("-", " ")) or "Plays"


def play_line(play: Play) -> PlayLine:
    """A play as a line of a list; a call equal to the name is not said twice."""
    call = "" if fold_name(play.call) == fold_name(play.name) else play.call
    return PlayLine(play.id, Link(play.name, url_of(play.id)), call, play.signal, play.purpose)


def found_by(play: Play) -> str:
    """The words search finds a play by: its series, call, signal and purpose, its phases and what they read."""
    phases = [p for p in play.phases if isinstance(p, Phase)]
    seen = (a.key for p in phases for r in p.reads for a in r.answers if not a.is_otherwise)
    line = play_line(play)
    told = dict.fromkeys((series_of(play), line.call, play.signal, play.purpose.rstrip("."), *(p.name for p in phases), *seen))
    return ". ".join(t for t in told if t and fold_name(t) != fold_name(play.name))


def calls_found_by(calls: Iterable[CallLine]) -> str:
    """The words search finds the page of calls by: those that lead to no play's own page."""
    told = (": ".join(filter(None, (c.call, c.meaning, c.signal))) for c in calls if not c.href)
    return ". ".join(("calls, signals", *told))


def base_first(plays: Iterable[Play]) -> tuple[Play, ...]:
    """`lantern.yml` before `lantern-back.yml`, which as file names stand the other way round."""
    return tuple(sorted(plays, key=lambda p: PurePosixPath(p.source.path).with_suffix("").parts))


def by_series(plays: Iterable[Play]) -> tuple[SeriesList, ...]:
    """Plays under their series, both in the book's order, a base play before its counters."""
    groups: dict[str, list[Play]] = {}
    names: dict[str, str] = {}
    for play in base_first(plays):
        name = series_of(play)
        key = fold_name(name)
        names.setdefault(key, name)
        groups.setdefault(key, []).append(play)
    return tuple(
        SeriesList(Link(names[key], url_of(series_page(names[key]))), tuple(map(play_line, group)))
        for key, group in groups.items()
    )


def home_lists(plays: Iterable[Play]) -> tuple[SeriesList, ...]:
    """The same for the first page: plays that stand alone in their series come last, in one list without a way."""
    groups = by_series(plays)
    alone = tuple(line for g in groups if len(g.plays) == 1 for line in g.plays)
    return (*(g for g in groups if len(g.plays) > 1), *((SeriesList(Link("Single plays", ""), alone),) if alone else ()))


def game_view(game: GamePlan, book: Book, published: dict[str, Play]) -> GameView:
    """A game plan as players see it: plays that are on phones, coverages by weight."""
    plays = (book.play(name) for name in game.plays)
    own_word = {coverage: word for word, coverage in book.team.coverages.items()}
    expected = sorted(game.coverages.items(), key=lambda item: -item[1])
    return GameView(
        id=game.id,
        against=game.against,
        date=game.date,
        day=day(game.date),
        plays=tuple(play_line(p) for p in plays if p is not None and p.id in published),
        coverages=tuple(own_word.get(c, c) for c, _ in expected),
        questions=game.quiz_questions,
        note=game.note,
    )


def latest_first(games: Iterable[GamePlan]) -> tuple[GamePlan, ...]:
    """The newest date stands first. Which game comes next only the reader's own calendar knows (games.js)."""
    return tuple(sorted(games, key=lambda g: (g.date, g.id), reverse=True))


def call_lines(book: Book, plays: Iterable[Play]) -> tuple[CallLine, ...]:
    """Every call and signal of plays, lead-ins and team, by the alphabet."""
    own = [
        CallLine(p.call or p.name, p.signal, "" if not p.call or fold_name(p.call) == fold_name(p.name) else p.name, url_of(p.id))
        for p in plays
        if p.call or p.signal
    ]
    lead_ins = [CallLine(p.call or p.name, p.signal, _lead_in(p)) for p in book.lead_ins if p.call or p.signal]
    team = [CallLine(call, "", meaning) for call, meaning in book.team.calls.items()]
    return tuple(sorted((*own, *lead_ins, *team), key=lambda line: fold_name(line.call)))


def _lead_in(play: Play) -> str:
    return "lead-in" if not play.call or fold_name(play.call) == fold_name(play.name) else f"lead-in {play.name}"


def ways() -> tuple[Link, ...]:
    """The main pages, as the bar at the foot of every page has them."""
    return (
        Link("Plays", ""),
        Link("My page", url_of(fixed_page("my page"))),
        Link("Calls", url_of(fixed_page("calls"))),
        Link("Game plan", url_of(fixed_page("game plan"))),
        Link("Quiz", url_of(fixed_page("quiz"))),
    )
