"""Asks the stages for what pages show: jobs, pictures, motion, look-alikes, clock, questions."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
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
from generator.model import nothing
from generator.model.book import Book
from generator.model.identity import canonical, fingerprint
from generator.model.play import Play
from generator.pages.addresses import POSITIONS
from generator.pages.alike import alike
from generator.pages.kept import Kept
from generator.pages.keys import digest
from generator.pages.parts import PlayParts
from generator.pages.play_page import shown_phases
from generator.pages.quiz_files import quiz_files
from generator.pages.site import SiteFile, json_file
from generator.pages.views import TrunkNode
from generator.quiz import Question, generate_questions
from generator.quiz.generate import Own, Yield, own_questions
from generator.timeline.timed import PlayTimes

PRINTS = "data/prints.json"


class Timed(Protocol):
    """What the stages need."""

    book: Book
    published: tuple[PlayTimes, ...]
    lead_ins: tuple[PlayTimes, ...]
    chains: tuple[PlayTimes, ...]


@dataclass(frozen=True, slots=True)
class Gathered:
    """`plays` by play id; `files` for the site, `trees` by folded name of the series."""

    plays: Mapping[str, PlayParts]
    files: tuple[SiteFile, ...] = ()
    clocks: tuple[PlayClock, ...] = ()
    questions: tuple[Question, ...] = ()
    trees: Mapping[str, TrunkNode] = field(default_factory=nothing)


@dataclass(frozen=True, slots=True)
class _OnePlay:
    """What a play yields by itself."""

    jobs: tuple[Job, ...]
    parts: PlayParts
    motion: SiteFile


def gather_parts(
    computed: Timed, versions: Sequence[PlayTimes], keys: Mapping[str, str] | None = None, kept: Kept | None = None
) -> Gathered:
    """`versions`: the published plays in every version, and the lead-ins. `keys` by play id and `kept` spare what was
    computed before."""
    book = computed.book
    kept, keys = kept or Kept(), keys or {}
    views = {t.play.id: play_view(t, book.team) for t in computed.published}
    clocks = {c.play.id: c for c in _clocks(computed, keys, kept)}

    def one(times: PlayTimes) -> _OnePlay:
        key = keys.get(times.play.id)
        made = lambda: _one_play(times, views[times.play.id], book)
        return kept.get(f"play-{key}", made) if key else made()

    plays = {t.play.id: one(t) for t in computed.published}
    same = alike(computed.published, versions, keys, kept)
    questions, _ = generate_questions(versions, book, book.team.name, _own(book.team.name, keys, kept))
    return Gathered(
        {
            i: replace(p.parts, clock=chain_lines(clocks[i]) if i in clocks else (), look_alikes=same.lines.get(i, ()))
            for i, p in plays.items()
        },
        (
            _prints({i: p.jobs for i, p in plays.items()}),
            *(p.motion for p in plays.values()),
            *quiz_files(book, versions, questions, views, keys, kept),
        ),
        tuple(clocks.values()),
        questions,
        same.trees,
    )


def _clocks(computed: Timed, keys: Mapping[str, str], kept: Kept) -> Iterator[PlayClock]:
    """The clock of each play, remembered while neither it nor a lead-in changes."""
    chains: dict[str, list[PlayTimes]] = {}
    for chain in computed.chains:
        chains.setdefault(chain.play.id, []).append(chain)
    for times in computed.published:
        own = (times, *computed.lead_ins, *chains.get(times.play.id, ()))
        made = lambda own=own: clock_report(own, computed.book)
        key = keys.get(times.play.id)
        yield from kept.get(f"clock-{key}", made) if key else made()


def _own(seed: str, keys: Mapping[str, str], kept: Kept) -> Own:
    """The quiz's own questions of a version, remembered while neither its play, its series nor its rivals change."""

    def own(times: PlayTimes, series: tuple[PlayTimes, ...], rivals: tuple[PlayTimes, ...]) -> Yield:
        names = [keys.get(t.play.id, "") for t in (times, *series, *rivals)]
        if not all(names):
            return own_questions(times, series, rivals, seed)
        key = f"asked-{digest(canonical(times.settled.variant), *names)}"
        return kept.get(key, lambda: own_questions(times, series, rivals, seed))

    return own


def _one_play(times: PlayTimes, view: View, book: Book) -> _OnePlay:
    jobs = derive_jobs(times, book)
    motion = json_file(motion_path(times.play), motion_file(times, view))
    return _OnePlay(jobs, _parts(times, jobs, view), motion)


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


def _parts(times: PlayTimes, jobs: tuple[Job, ...], view: View) -> PlayParts:
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
