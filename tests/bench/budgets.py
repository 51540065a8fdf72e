"""The budgets themselves: key, what is measured, limit, unit. All are upper limits; ratios come from one run."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Budget:
    """`key` names it for rows and on the command line."""

    key: str
    what: str
    limit: float
    unit: str


BUDGETS = (
    Budget("build-ratio", "publishing, all computed before / MkDocs alone, same pages", 1.10, "x"),
    Budget("cold-play", "cold build with all computing, a play of a 60-play book", 250.0, "ms"),
    Budget("change-60", "one-play change / cold build, 60 plays", 0.30, "x"),
    Budget("change-500", "one-play change / cold build, 500 plays", 0.12, "x"),
    Budget("change-preview", "one-play change in preview / cold build", 0.15, "x"),
    Budget("text-to-timeline", "text to timeline of one play, median", 15.0, "ms"),
    Budget("diagram", "one diagram, gzip", 400.0, "B"),
    Budget("picture-faults", "pictures of the demo book and the test sets: faults", 0.0, ""),
    Budget("second-pictures", "phases that take two pictures", 5.0, "%"),
    Budget("text-contrast", "4.5 / contrast of the poorest text, all looks", 1.0, "x"),
    Budget("frame", "motion: our work a frame, 95th percentile", 4.0, "ms"),
    Budget("frame-slow", "the same, processor slowed four times", 16.0, "ms"),
    Budget("motion", "motion data of a play, all answers, gzip, largest", 12.0, "KB"),
    Budget("play-page", "play page without its motion data, gzip, largest", 14.0, "KB"),
    Budget("search", "search index at 500 plays, gzip", 40.0, "KB"),
    Budget("sealed-load", "sealed page load / plain page load", 1.25, "x"),
    Budget("unlock", "code given to first page on screen, median", 3000.0, "ms"),
    Budget("lock", "locking, scanning and writing a 60-play book", 10.0, "s"),
    Budget("upload", "one-play change of a 60-play book, uploaded", 60.0, "KB"),
    Budget("memory", "2,000 plays: peak memory / (0.3 MB x pages + 50 MB)", 1.0, "x"),
)
