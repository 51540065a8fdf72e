"""A position's page: its jobs in every play, phase by phase, with its part of every answer."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from generator.jobs.job import Job
from generator.model.play import Read
from generator.model.settled import Fork
from generator.pages.addresses import url_of
from generator.pages.lists import by_series, play_line
from generator.pages.parts import PlayParts
from generator.pages.play_page import shown_phases
from generator.pages.views import GameView, Link, PlayJobs, PositionView
from generator.pages.wording import small
from generator.timeline.timed import PlayTimes


def position_view(
    position: int,
    plays: Iterable[PlayTimes],
    parts: Mapping[str, PlayParts],
    others: tuple[Link, ...],
    games: tuple[GameView, ...] = (),
) -> PositionView:
    """The view of one position's page; `games` are those whose plays it can show alone."""
    by_id = {t.play.id: t for t in plays}
    series = tuple(
        (
            group.link.text,
            tuple(_play(position, by_id[line.id], parts.get(line.id, PlayParts())) for line in group.plays),
        )
        for group in by_series(t.play for t in by_id.values())
    )
    return PositionView(position, series, others, games)


def _play(position: int, times: PlayTimes, parts: PlayParts) -> PlayJobs:
    phases = []
    for branch, index in shown_phases(times):
        phase = branch.phases[index]
        jobs = [j for j in parts.phase_jobs.get(phase.id, ()) if j.position == position]
        for fork in branch.forks:
            if fork.phase == index and fork.depth == 0:
                jobs.extend(_own_answers(position, fork, parts))
        if jobs:
            phases.append((phase.name, tuple(jobs)))
    play = times.play
    return PlayJobs(play.id, Link(play.name, url_of(play.id)), play_line(play).call, tuple(phases))


def _own_answers(position: int, fork: Fork, parts: PlayParts) -> Iterator[Job]:
    """His part of the answers. One in which he merely stays where he is tells him nothing, unless he is the reader;
    answers that ask the same of him are one line."""
    alike: dict[tuple[object, ...], list[Job]] = {}
    for answer in _answers(fork.read):
        for job in parts.answer_jobs.get(answer, ()):
            if job.position == position and (not job.idle or fork.reader == position):
                alike.setdefault((job.sentences, job.cue), []).append(job)
    for jobs in alike.values():
        yield _joined(jobs)


def _joined(jobs: list[Job]) -> Job:
    """`X1 goes under 5's screen, or they switch`: reasons stay where all have the same."""
    if len(jobs) == 1:
        return jobs[0]
    first, *rest = (job.sees for job in jobs)
    whys = {job.why for job in jobs}
    teach = tuple(dict.fromkeys(t for job in jobs for t in job.teach))
    sees = ", or ".join((first, *map(small, rest)))
    return replace(jobs[0], sees=sees, why=whys.pop() if len(whys) == 1 else "", teach=teach)


def _answers(read: Read) -> Iterator[str]:
    for answer in read.answers:
        yield answer.id
        for inner in answer.reads:
            yield from _answers(inner)
