"""By which way: `off 5`, `between 4 and 5`, `behind 5`, `along the baseline`, and whose screen is meant."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.model.sentence import Between, Off, Side, Way
from generator.parsing.place_words import place
from generator.parsing.talk_words import skip_noun, whose_screen
from generator.parsing.who_words import PLAYERS, needed_one, one
from generator.vocabulary.small_words import MAY_ONE
from generator.vocabulary.spot_words import match_spot
from generator.vocabulary.table import ROUTE_TRIE
from generator.vocabulary.talk import NOUN_TRIE
from generator.vocabulary.words import match

if TYPE_CHECKING:
    from generator.parsing.part_words import PartReader

LANES = {"left-lane": "along-left-sideline", "right-lane": "along-right-sideline"}


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
        reader.ways.append(Off(whose_screen(words)))
    elif name == "away-from":
        reader.ways.append(Way(name, needed_one(words, "away from")))
    elif name in MAY_ONE:
        return _past_one(reader, name, start)
    elif name in LANES:
        reader.ways.append(Way(LANES[name]))
        reader.lane = Side(name.split("-")[0])
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
    if who is None and match(NOUN_TRIE, words.words, words.i):
        who = whose_screen(words, name)
    elif who is not None:
        skip_noun(words)
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
