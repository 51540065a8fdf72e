"""What the stages say about one play, gathered so that pages need not know where it came from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from generator.jobs.job import Job
from generator.model import nothing


@dataclass(frozen=True, slots=True)
class Picture:
    """A finished SVG and its text equivalent."""

    svg: str
    words: str = ""


@dataclass(frozen=True, slots=True)
class PlayParts:
    """Jobs and pictures by the id of the phase or answer they belong to, lines about look-alikes and clock, and the
    address of the motion data (empty: none)."""

    phase_jobs: Mapping[str, tuple[Job, ...]] = field(default_factory=nothing)
    answer_jobs: Mapping[str, tuple[Job, ...]] = field(default_factory=nothing)
    phase_pictures: Mapping[str, Picture] = field(default_factory=nothing)
    answer_pictures: Mapping[str, Picture] = field(default_factory=nothing)
    look_alikes: tuple[str, ...] = ()
    clock: tuple[str, ...] = ()
    motion: str = ""
