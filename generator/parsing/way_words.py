"""By which way: `off 5`, `between 4 and 5`, `behind 5`, `along the baseline`, and whose screen is meant."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.model.sentence import Between, Off, One, Way
from generator.parsing.place_words import place
from generator.parsing.who_words import PLAYERS, needed_one, one
from generator.parsing.words_of_line import Words
from generator.vocabulary.small_words import MAY_ONE
from generator.vocabulary.spot_words import match_spot
from generator.vocabulary.table import ROUTE_TRIE
from generator.vocabulary.words import match

if TYPE_CHECKING:
    from generator.parsing.part_words import PartReader


def read_way(reader: PartReader) -> bool:
    """Adds the way that stands here to the part; False when none does."""
    words = reader.words
    if words.peek() == "through" and words.peek(1) in PLAYERS and words.peek(2) == "and":
        words.i += 1
        return _between(reader, words.i - 1)
    found = match(ROUTE_TRIE, words.words, words.i)
    if not found:
        return False
    spot = match_spot(words.words, words.i)
    if spot and spot.end > found[1]:
        return False
    name, start = found[0], words.i
    if name == "behind" and words.peek(1) == "ball":
        return False
    words.i = found[1]
    if name == "between":
        return _between(reader, start)
    if name == "off":
        reader.ways.append(Off(_whose_screen(words)))
    elif name == "away-from":
        reader.ways.append(Way(name, needed_one(words, "away from")))
    elif name in MAY_ONE:
        return _past_one(reader, name, start)
    else:
        reader.ways.append(Way(name))
    return True


def _past_one(reader: PartReader, name: str, start: int) -> bool:
    words = reader.words
    who = one(words)
    if who is None and name in ("behind", "in-front-of") and place(words) is not None:
        words.i = start
        return False
    if who is not None and name in ("behind", "in-front-of"):
        reader.unclear = start
    skip_screen(words)
    reader.ways.append(Way(name, who))
    return True


def _between(reader: PartReader, start: int) -> bool:
    words = reader.words
    first = one(words)
    if first is None:
        words.i = start
        return False
    if not words.take("and"):
        raise words.refuse("way", "`between` needs two players", "write `between 4 and 5`")
    reader.ways.append(Between(first, needed_one(words, "and")))
    return True


def _whose_screen(words: Words) -> One:
    """After `off`: `5`, `of 5`, `5's screen`."""
    words.take("of")
    who = needed_one(words, "off")
    skip_screen(words)
    return who


def skip_screen(words: Words) -> None:
    """`screen` of `5's screen`."""
    if words.words[words.i - 1].endswith("'s"):
        words.take("screen")
