"""What the stages say about one play, gathered so that pages need not know where it came from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from generator.jobs.job import Job
from generator.model import nothing


@dataclass(frozen=True, slots=True)
class PlayParts:
    """Jobs and pictures (finished SVG) by the id of the phase or answer they belong to, the floor that the pictures
    refer to, lines about look-alikes and clock, and the address of the motion data (empty: none)."""

    phase_jobs: Mapping[str, tuple[Job, ...]] = field(default_factory=nothing)
    answer_jobs: Mapping[str, tuple[Job, ...]] = field(default_factory=nothing)
    floor: str = ""
    phase_pictures: Mapping[str, tuple[str, ...]] = field(default_factory=nothing)
    answer_pictures: Mapping[str, str] = field(default_factory=nothing)
    look_alikes: tuple[str, ...] = ()
    clock: tuple[str, ...] = ()
    motion: str = ""
