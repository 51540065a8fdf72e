"""Asks the stages for what pages show: jobs, pictures, motion, look-alikes, clock, questions."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

from generator.clock import PlayClock, chain_lines, clock_report
from generator.diagrams import (
    answer_diagram,
    court_symbol,
    diagram_svg,
    motion_file,
    phase_diagrams,
    play_view,
)
from generator.diagrams.scene import View
from generator.jobs import Job, derive_jobs
from generator.model.book import Book
from generator.model.identity import fingerprint
from generator.model.play import Play
from generator.pages.addresses import POSITIONS
from generator.pages.parts import PlayParts
from generator.pages.play_page import shown_phases
from generator.pages.quiz_files import quiz_files
from generator.pages.site import SiteFile, json_file
from generator.quiz import Question, generate_questions
from generator.timeline.timed import PlayTimes

PRINTS = "data/prints.json"


class Timed(Protocol):
    """What the stages need."""

    book: Book
    published: tuple[PlayTimes, ...]
    lead_ins: tuple[PlayTimes, ...]


@dataclass(frozen=True, slots=True)
class Gathered:
    """`plays` by play id; `files` for the site."""

    plays: Mapping[str, PlayParts]
    files: tuple[SiteFile, ...] = ()
    clocks: tuple[PlayClock, ...] = ()
    questions: tuple[Question, ...] = ()


def gather_parts(computed: Timed, versions: Sequence[PlayTimes]) -> Gathered:
    """`versions`: the published plays in every version, and the lead-ins."""
    book = computed.book
    views = {t.play.id: play_view(t, book.team) for t in computed.published}
    jobs = {t.play.id: derive_jobs(t, book) for t in computed.published}
    clocks = {c.play.id: c for c in clock_report((*computed.published, *computed.lead_ins), book)}
    questions, _ = generate_questions(versions, book, book.team.name)
    plays = {
        t.play.id: _parts(t, jobs[t.play.id], views[t.play.id], clocks.get(t.play.id)) for t in computed.published
    }
    return Gathered(
        plays,
        (
            _prints(jobs),
            *(json_file(motion_path(t.play), motion_file(t, views[t.play.id])) for t in computed.published),
            *quiz_files(book, versions, questions, views),
        ),
        tuple(clocks.values()),
        questions,
    )


def motion_path(play: Play) -> str:
    """Where a play's motion data lies, from the site's root."""
    return f"data/{play.id}.motion.json"


def _prints(jobs: Mapping[str, tuple[Job, ...]]) -> SiteFile:
    """For every play one print a position: it changes exactly when one of its jobs there does. Phones compare it with
    what they saw before."""
    plays = {
        play: [fingerprint(*(j.fingerprint for j in of_play if j.position == n)) for n in POSITIONS]
        for play, of_play in jobs.items()
    }
    return json_file(PRINTS, {"version": 1, "plays": plays})


def _parts(times: PlayTimes, jobs: tuple[Job, ...], view: View, clock: PlayClock | None) -> PlayParts:
    jobs = tuple(j for j in jobs if j.round == 0)
    return PlayParts(
        phase_jobs=_grouped((j.phase, j) for j in jobs if not j.answer),
        answer_jobs=_grouped((j.answer, j) for j in jobs if j.answer),
        floor=court_symbol(view),
        phase_pictures={
            branch.phases[index].id: tuple(diagram_svg(s, "") for s in phase_diagrams(times, branch.key, index, view))
            for branch, index in shown_phases(times)
        },
        answer_pictures=_answer_pictures(times, view),
        clock=chain_lines(clock) if clock else (),
        motion=motion_path(times.play),
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
