"""What a template may see: plain frozen values, all words ready to print, nothing to compute.

`href`s are relative to the site's root; the template puts `root` before them.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.jobs.job import Job


@dataclass(frozen=True, slots=True)
class Link:
    """Where to go and what it is called; `note` is a short line beside it."""

    text: str
    href: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Figure:
    """The mark of a picture. The picture carries its own text equivalent."""

    key: str
    caption: str


@dataclass(frozen=True, slots=True)
class AnswerView:
    """One row of a read: `sees` is a clause, "If X3 trails 3" or "Otherwise"; `does` are the coach's own lines."""

    id: str
    sees: str
    does: tuple[str, ...]
    why: str = ""
    leads_to: str = ""
    figure: Figure | None = None
    reads: tuple[ReadView, ...] = ()


@dataclass(frozen=True, slots=True)
class ReadView:
    """A fork; `head` says who reads what."""

    id: str
    head: str
    answers: tuple[AnswerView, ...]
    positions: tuple[int, ...] = ()
    why: str = ""


@dataclass(frozen=True, slots=True)
class PhaseView:
    """A phase. `readers` are the positions that read in it: only they are told again what to watch."""

    id: str
    number: int
    name: str
    note: str
    figures: tuple[Figure, ...]
    jobs: tuple[Job, ...]
    reads: tuple[ReadView, ...]
    readers: frozenset[int] = frozenset()
    teach: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Fact:
    """A line `name: value` about a play."""

    name: str
    value: str


@dataclass(frozen=True, slots=True)
class FilmLink:
    """A link to film on another host; opened only by a tap, without a referrer."""

    title: str
    link: str


@dataclass(frozen=True, slots=True)
class PlayView:
    """A play page."""

    id: str
    name: str
    series: Link | None
    purpose: str
    call: str
    signal: str
    facts: tuple[Fact, ...]
    motion: str
    floor: Figure | None
    phases: tuple[PhaseView, ...]
    look_alikes: tuple[str, ...] = ()
    clock: tuple[str, ...] = ()
    teach: tuple[str, ...] = ()
    films: tuple[FilmLink, ...] = ()
    before: Link | None = None
    after: Link | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class PlayLine:
    """A play in a list; `positions` may be empty."""

    id: str
    link: Link
    call: str
    signal: str
    purpose: str


@dataclass(frozen=True, slots=True)
class SeriesList:
    """A series with its plays in the book's order."""

    link: Link
    plays: tuple[PlayLine, ...]


@dataclass(frozen=True, slots=True)
class GameView:
    """A game plan as players see it."""

    id: str
    against: str
    date: str
    day: str
    plays: tuple[PlayLine, ...]
    coverages: tuple[str, ...]
    questions: int
    note: str
    absent: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class HomeView:
    """The first page. `changes`: where the prints lie that tell what changed; `behind`: the way to the staff's pages."""

    team: str
    games: tuple[GameView, ...]  # the latest first; the phone shows the one that comes next
    game_page: Link
    quiz: Link
    series: tuple[SeriesList, ...]
    more: tuple[Link, ...]
    positions: tuple[Link, ...]
    changes: str
    behind: Link
    unfolded: bool = True  # whether the series stand open


@dataclass(frozen=True, slots=True)
class TrunkNode:
    """A knot of a series' tree: these plays look alike until `until`, then part."""

    label: str
    tell: str
    plays: tuple[Link, ...]
    branches: tuple[TrunkNode, ...] = ()


@dataclass(frozen=True, slots=True)
class SeriesView:
    """A series page."""

    name: str
    plays: tuple[PlayLine, ...]
    trunk: tuple[TrunkNode, ...] = ()


@dataclass(frozen=True, slots=True)
class PlayJobs:
    """A position's jobs in one play: (phase name, its jobs) in order."""

    id: str
    link: Link
    call: str
    phases: tuple[tuple[str, tuple[Job, ...]], ...]


@dataclass(frozen=True, slots=True)
class PositionView:
    """A position's page: jobs by series and play. `games`: whose plays can be picked out."""

    position: int
    series: tuple[tuple[str, tuple[PlayJobs, ...]], ...]
    others: tuple[Link, ...]
    games: tuple[GameView, ...] = ()


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody of the roster as the site may name him."""

    key: str
    label: str
    positions: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class MyPageView:
    """My page: who am I, my positions, my list."""

    people: tuple[Person, ...]
    positions: tuple[Link, ...]
    plays: tuple[PlayLine, ...]
    games: tuple[GameView, ...] = ()


@dataclass(frozen=True, slots=True)
class CallLine:
    """A call and its signal. `href` leads to the play it calls; `meaning` is said where the call alone does not tell."""

    call: str
    signal: str
    meaning: str
    href: str = ""


@dataclass(frozen=True, slots=True)
class CallsView:
    """Calls and signals."""

    calls: tuple[CallLine, ...]


@dataclass(frozen=True, slots=True)
class GamePlansView:
    """All game plans, the latest first."""

    games: tuple[GameView, ...]
    quiz: Link


@dataclass(frozen=True, slots=True)
class QuizView:
    """The quiz page: where its data lies, and the games it may be for, the latest first."""

    index: str
    games: tuple[GameView, ...]


@dataclass(frozen=True, slots=True)
class Section:
    """A block of a staff page: `id` is its anchor, `points` are (word, text), `code` (name, text), `rows` a table whose
    first row is the head. Words between backticks are set as code."""

    id: str
    title: str
    paragraphs: tuple[str, ...] = ()
    points: tuple[tuple[str, str], ...] = ()
    code: tuple[tuple[str, str], ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    items: tuple[str, ...] = ()
    folded: bool = False  # only its title shows until it is opened


@dataclass(frozen=True, slots=True)
class StaffView:
    """A staff page made of sections; the front page has `links` to the others, the others the way `up`."""

    title: str
    lead: str
    sections: tuple[Section, ...]
    links: tuple[Link, ...] = ()
    up: Link | None = None
