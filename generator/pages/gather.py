"""Asks the stages for what pages show: jobs, pictures, motion, look-alikes, clock, questions."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Protocol

from generator.diagrams import answer_diagram, court_symbol, diagram_svg, phase_diagrams, play_view
from generator.diagrams.scene import View
from generator.jobs import Job, derive_jobs
from generator.model.book import Book
from generator.pages.parts import PlayParts
from generator.pages.play_page import shown_phases
from generator.pages.site import SiteFile
from generator.timeline.timed import PlayTimes


class Timed(Protocol):
    """What the stages need."""

    book: Book
    published: tuple[PlayTimes, ...]


def gather_parts(computed: Timed) -> tuple[Mapping[str, PlayParts], tuple[SiteFile, ...]]:
    """(parts by play id, data files)."""
    return {t.play.id: _parts(t, computed.book) for t in computed.published}, ()


def _parts(times: PlayTimes, book: Book) -> PlayParts:
    jobs = tuple(j for j in derive_jobs(times, book) if j.round == 0)
    view = play_view(times, book.team)
    return PlayParts(
        phase_jobs=_grouped((j.phase, j) for j in jobs if not j.answer),
        answer_jobs=_grouped((j.answer, j) for j in jobs if j.answer),
        floor=court_symbol(view),
        phase_pictures={
            branch.phases[index].id: tuple(diagram_svg(s, "") for s in phase_diagrams(times, branch.key, index, view))
            for branch, index in shown_phases(times)
        },
        answer_pictures=_answer_pictures(times, view),
    )


def _answer_pictures(times: PlayTimes, view: View) -> dict[str, str]:
    """By answer id, from the first branch that leaves its parent by that answer."""
    pictures: dict[str, str] = {}
    for branch in times.settled.branches:
        if branch.departure is None:
            continue
        answer = branch.forks[branch.departure.fork].taken
        if answer not in pictures:
            pictures[answer] = diagram_svg(answer_diagram(times, branch.key, view), "")
    return pictures


def _grouped(pairs: Iterable[tuple[str, Job]]) -> Mapping[str, tuple[Job, ...]]:
    groups: dict[str, tuple[Job, ...]] = {}
    for key, job in pairs:
        groups[key] = (*groups.get(key, ()), job)
    return groups
