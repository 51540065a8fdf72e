"""Seeded draws that a phone repeats exactly: the arithmetic of `site_theme/assets/js/quiz_random.js`.

32-bit state advanced by a Weyl step of 0x9E3779B9 and mixed by two multiply-xorshift rounds. Seeds are texts.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

T = TypeVar("T")
_MASK = 0xFFFFFFFF


def digest(text: str) -> int:
    """A 32-bit digest of `text` (FNV-1a over its UTF-8 bytes)."""
    value = 0x811C9DC5
    for byte in text.encode():
        value = ((value ^ byte) * 0x01000193) & _MASK
    return value


class Draws:
    """A stream of 32-bit numbers for one seed."""

    __slots__ = ("_state",)

    def __init__(self, seed: str) -> None:
        self._state = digest(seed)

    def next(self) -> int:
        """A whole number from 0 to 2^32 - 1."""
        self._state = (self._state + 0x9E3779B9) & _MASK
        z = ((self._state ^ (self._state >> 16)) * 0x21F0AAAD) & _MASK
        z = ((z ^ (z >> 15)) * 0x735A2D97) & _MASK
        return z ^ (z >> 15)

    def below(self, n: int) -> int:
        """A whole number from 0 to n - 1."""
        return (self.next() * n) >> 32

    def shuffled(self, items: Sequence[T]) -> list[T]:
        """The items in a drawn order."""
        out = list(items)
        for i in range(len(out) - 1, 0, -1):
            j = self.below(i + 1)
            out[i], out[j] = out[j], out[i]
        return out
