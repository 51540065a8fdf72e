"""What something costs, measured against a fixed piece of work beside it, so that a slow or busy machine slows both."""

from __future__ import annotations

import time
from collections.abc import Callable

ROUNDS = 10


def yards(work: Callable[[], object], rounds: int = ROUNDS) -> float:
    """How many times the yardstick `work` costs: the best of `rounds`, each taken right after the yardstick's own."""
    best, yard = float("inf"), float("inf")
    for _ in range(rounds):
        yard = min(yard, _seconds(_yardstick))
        best = min(best, _seconds(work))
    return best / yard


def _yardstick() -> dict[str, int]:
    """Words counted: names, texts and small dictionaries, as most of what the stages do. About a millisecond."""
    counts: dict[str, int] = {}
    for i in range(2000):
        word = f"word {i % 97}".upper().lower()
        counts[word] = counts.get(word, 0) + len(word.split())
    return counts


def _seconds(work: Callable[[], object]) -> float:
    begun = time.process_time()
    work()
    return time.process_time() - begun
