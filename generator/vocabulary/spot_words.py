"""Finds the longest spot in a sentence: the side may stand anywhere in the name, `#` is a number."""

from __future__ import annotations

from typing import NamedTuple

from generator.vocabulary.entries import Spot
from generator.vocabulary.places import SPOTS
from generator.vocabulary.table import SIDE_TRIE
from generator.vocabulary.words import add, match, split_words

_SIDE, _NUMBER, _END = "<side>", "#", ""


class FoundSpot(NamedTuple):
    """A spot in a sentence. `side` is a side's id or ""; `opposite` the digit after `opposite` or ""; `end` the index
    after the spot."""

    spot: Spot
    side: str
    opposite: str
    number: int | None
    end: int


def _trie() -> dict:
    trie: dict = {}
    for spot in SPOTS:
        for name in spot.words:
            words = split_words(name)
            for variant in [words, ["".join(words)]] if len(words) == 2 else [words]:
                add(trie, variant, spot)
                for i in range(len(variant) + 1) if spot.sided != "no" else ():
                    add(trie, [*variant[:i], _SIDE, *variant[i:]], spot)
    return trie


_SPOTS = _trie()
_PLURALS: dict = {}
for _spot in SPOTS:
    for _name in _spot.words if _spot.sided == "yes" and "#" not in _spot.words[0] else ():
        add(_PLURALS, split_words(_name + "s"), _spot)


def match_plural(words: list[str], i: int) -> tuple[Spot, int] | None:
    """`corners`, `short corners`: the spot and the index after it."""
    return match(_PLURALS, words, i)


def match_spot(words: list[str], i: int) -> FoundSpot | None:
    """The longest spot that stands at `words[i]`."""
    return _walk(_SPOTS, words, i, "", "", None)


def _walk(node: dict, words: list[str], i: int, side: str, opposite: str, number: int | None) -> FoundSpot | None:
    best = FoundSpot(node[_END], side, opposite, number, i) if _END in node else None
    if i >= len(words):
        return best
    word = words[i]
    tries = []
    if word in node:
        tries.append(_walk(node[word], words, i + 1, side, opposite, number))
    if _NUMBER in node and word.isascii() and word.isdigit() and len(word) < 3:
        tries.append(_walk(node[_NUMBER], words, i + 1, side, opposite, int(word)))
    if _SIDE in node and not side:
        found = match(SIDE_TRIE, words, i)
        if found:
            end = found[1]
            of = words[end] if words[end - 1] == "opposite" and end < len(words) and words[end] in tuple("12345") else ""
            tries.append(_walk(node[_SIDE], words, end + bool(of), found[0], of, number))
    for found in tries:
        if found and (best is None or found.end > best.end):
            best = found
    return best
