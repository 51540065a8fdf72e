"""Seconds as coaches may be told them: a range in half seconds.

The schedule is the fastest clean run; people wait and look. So a computed length becomes (the half second below it,
the half second above it and a seventh more). The seventh is assumed: no coach has seen it; a stopwatch time in
team.yml scales the length itself.
"""

from __future__ import annotations

from math import ceil, floor

LOOKING = 1.15
EPSILON = 1e-6


def seconds_range(seconds: float) -> tuple[float, float]:
    """(low, high) in half seconds for a computed length."""
    return floor(seconds * 2 + EPSILON) / 2, ceil(seconds * LOOKING * 2 - EPSILON) / 2


def range_words(seconds: float) -> str:
    """`20 to 23 s`, `8 s` where both ends are equal."""
    low, high = seconds_range(seconds)
    return f"{low:g} s" if low == high else f"{low:g} to {high:g} s"
