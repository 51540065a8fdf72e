"""Asks the stages for what pages show: jobs, pictures, motion, look-alikes, clock, questions."""

from __future__ import annotations

from collections.abc import Mapping

from generator.pages.parts import PlayParts
from generator.pages.site import SiteFile


def gather_parts(computed: object) -> tuple[Mapping[str, PlayParts], tuple[SiteFile, ...]]:
    """(parts by play id, data files)."""
    return {}, ()
