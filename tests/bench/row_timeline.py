"""Text to timeline of one play: parse, settle, time every branch. Median over the demo book, each play alone, warm."""

from __future__ import annotations

from dataclasses import replace
from statistics import median
from time import perf_counter

from tests.bench.big_book import DEMO

KEYS = ("text-to-timeline",)
ROUNDS = 5
SHARED = ("team.yml", "alignments.yml")


def measure(wanted: set[str]) -> dict[str, float]:
    """Milliseconds: of each play the median of its rounds, of all plays the median."""
    from generator.parsing import parse_book
    from generator.source import read_book_files

    files, _ = read_book_files(DEMO)
    book, _ = parse_book(files)
    lengths = []
    for play in book.plays:
        own = tuple(f for f in files if f.path in SHARED or f.path == play.source.path)
        _once(own, play, book)
        lengths.append(median(_once(own, play, book) for _ in range(ROUNDS)))
    return {"text-to-timeline": median(lengths)}


def _once(files, play, book) -> float:
    """Milliseconds from the text of one play (and what it shares) to the timelines of all its branches."""
    from generator.parsing import parse_book
    from generator.pipeline import time_play

    begun = perf_counter()
    small, _ = parse_book(files)
    mine = next((p for p in small.plays if p.name == play.name), play)  # one that continues another is not read alone
    times, _ = time_play(mine, replace(small, lead_ins=book.lead_ins, plays=book.plays))
    assert times is not None and all(t.duration > 0 for t in times.timelines.values())
    return (perf_counter() - begun) * 1000
