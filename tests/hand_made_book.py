"""A book of two plays made by hand from model values, for tests of pages that need no parser and no clock."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType

from generator.diagnostics import Diagnostic, Location
from generator.model.book import Book, GamePlan, RosterEntry, Team
from generator.model.court import Court, Point, RuleSet, court_for
from generator.model.identity import stable_id
from generator.model.play import Answer, Film, Phase, Play, Read, Sight, Teach, Text, Watch, WatchKind
from generator.model.sentence import DefenderBody, Line, Player
from generator.model.settled import Branch, BranchPhase, Ending, Fork, Mark, SettledPlay, Variant
from generator.timeline.timed import PlayTimes

AT = Location("wharf/gantry.yml", 1, 1)


@dataclass(frozen=True)
class HandMade:
    """Has what the pages ask of a computed book."""

    book: Book
    court: Court
    plays: tuple[PlayTimes, ...]
    lead_ins: tuple[PlayTimes, ...] = ()
    diagnostics: tuple[Diagnostic, ...] = ()

    @property
    def published(self) -> tuple[PlayTimes, ...]:
        return tuple(t for t in self.plays if not (t.play.draft or t.play.retired))


def _line(text: str) -> Line:
    return Line(who=(Player(int(text[0])),), parts=(), text=text, source=AT)


def _read(phase_id: str) -> Read:
    trail = Answer(
        stable_id(phase_id, "trail"), ((Sight(None, "trail", "trail"),),), "trail",
        lines=(_line("3 curls to front of the rim"), _line("4 passes to 3")),
        why=Text("He is behind you <now>; the lane is open.", AT), source=AT,
    )
    keep = Answer(stable_id(phase_id, "otherwise"), (), "otherwise", go_on=True, source=AT)
    watch = Watch(WatchKind.DEFENDERS, (DefenderBody(3),), text="X3 on 5's screen", source=AT)
    return Read(stable_id(phase_id, "3", "X3"), Player(3), watch, (trail, keep), source=AT)


def play(name: str, **more: object) -> Play:
    """A play of two phases, the second with a read by 3."""
    phases = tuple(
        Phase(
            stable_id(name, phase), phase, lines=(_line("1 passes to 4"),),
            reads=(_read(stable_id(name, phase)),) if phase == "Screen" else (),
            teach=(Teach((), "Talk early.", AT),) if phase == "Screen" else (), source=AT,
        )
        for phase in ("Swing", "Screen")
    )
    return Play(stable_id("play", name), name, None, phases, source=AT, **more)


def times(made: Play) -> PlayTimes:
    """That play settled by hand: a main line with its fork, no timelines."""
    places = {n: Point(float(n), 5.0) for n in range(1, 6)}
    phases = tuple(
        BranchPhase(p.id, p.name, places, places, MappingProxyType({}), 1, 4, ()) for p in made.phases
    )
    forks = tuple(
        Fork(r, i, 3, Mark(None, phase=i), None, None, None, (3,), r.answers[-1].id)
        for i, p in enumerate(made.phases) for r in p.reads
    )
    main = Branch("main", "main line", phases, (), forks, (), Ending.PHASES_DONE, None)
    return PlayTimes(SettledPlay(made, Variant(), (main,)), MappingProxyType({}))


def hand_made(**changes: object) -> HandMade:
    """The book; `changes` replace fields of `Book`."""
    plays = (
        play("Gantry", series="Wharf", call="Gantry", signal="flat hand", purpose="A three for 3.",
             both_sides=True, film=(Film("Practice", "https://film.example/1"),), staff_note="Hide the second look."),
        play("Gantry Low", series="Wharf", call="Low", against="zone 2-3"),
        play("Bollard", series="Quay", draft=True),
    )
    team = Team(
        "Wharfside Herons", RuleSet.HIGH_SCHOOL,
        roster=(RosterEntry("k1", "Ondrel Vask", "4", (1, 2), AT), RosterEntry("k2", "Tamsel Orr", "9", (3,), AT)),
        calls=MappingProxyType({"Tide": "everybody back"}),
    )
    game = GamePlan(
        "g1", "Cooper Hill", "2026-12-04", ("Gantry", "Gantry Low", "Bollard"),
        coverages=MappingProxyType({"switch": 1.0, "trail": 3.0}), note="They chase.", staff_note="Ask about the horn.",
    )
    fields = {"team": team, "plays": plays, "games": (game,)} | changes
    book = Book(**fields)
    return HandMade(book, court_for(RuleSet.HIGH_SCHOOL), tuple(map(times, book.plays)))
