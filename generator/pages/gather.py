"""Asks the stages for what pages show: jobs, pictures, motion, look-alikes, clock, questions."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Protocol

from generator.jobs import Job, derive_jobs
from generator.model.book import Book
from generator.pages.parts import PlayParts
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
    return PlayParts(
        phase_jobs=_grouped((j.phase, j) for j in jobs if not j.answer),
        answer_jobs=_grouped((j.answer, j) for j in jobs if j.answer),
    )


def _grouped(pairs: Iterable[tuple[str, Job]]) -> Mapping[str, tuple[Job, ...]]:
    groups: dict[str, tuple[Job, ...]] = {}
    for key, job in pairs:
        groups[key] = (*groups.get(key, ()), job)
    return groups
