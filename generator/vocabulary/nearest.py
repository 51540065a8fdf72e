"""Did you mean: the valid words nearest to a mistyped one."""

from __future__ import annotations

from collections.abc import Sequence
from difflib import SequenceMatcher, get_close_matches
from functools import lru_cache

ALIKE = 0.66  # share of equal characters from which two words look alike
LONGEST = 40  # characters compared; a longer "word" is no typo


@lru_cache(maxsize=4096)
def nearest(written: str, wordings: Sequence[str], count: int = 1) -> tuple[str, ...]:
    """Up to `count` of `wordings` (a tuple) that look like `written`, best first."""
    return tuple(get_close_matches(written.lower()[:LONGEST], wordings, count, ALIKE))


def did_you_mean(written: str, wordings: Sequence[str], otherwise: str = "") -> str:
    """A hint that names the nearest word, or `otherwise`."""
    found = nearest(written, wordings)
    return f"did you mean `{found[0]}`?" if found else otherwise


def closest(written: Sequence[str], wordings: Sequence[str]) -> tuple[str, int] | None:
    """The wording that looks most like one of `written`, and which one; a wording that `written` begins counts first."""
    best, score = None, 0.0
    for i, text in enumerate(written):
        begun = next((w for w in wordings if w.startswith(text.lower() + " ")), None) if len(text) > 2 else None
        if begun:
            return begun, i
        for wording in nearest(text, wordings):
            ratio = SequenceMatcher(None, text.lower()[:LONGEST], wording).ratio()
            if ratio > score:
                best, score = (wording, i), ratio
    return best
