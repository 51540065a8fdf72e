"""One element of a part, wherever it stands: place, object, way, side, manner, and what a pass is for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.model.sentence import Role
from generator.parsing import part_rules
from generator.parsing.place_words import base, needed_place, place
from generator.parsing.way_words import read_way
from generator.parsing.who_words import DEFENDERS, PLAYERS, needed_one, one
from generator.parsing.words_of_line import UNITS, Words
from generator.vocabulary.entries import Takes
from generator.vocabulary.spot_words import match_spot
from generator.vocabulary.table import HALF_TRIE, LINE_SIDE_TRIE, MANNER_TRIE, VERB
from generator.vocabulary.talk import FOR_SHOT_TRIE, SHOT_HOW_TRIE, UNDER_WAY_TRIE
from generator.vocabulary.words import match

if TYPE_CHECKING:
    from generator.parsing.part_words import PartReader

PLACE_PREPOSITIONS = frozenset({"to", "at", "into", "toward", "towards"})
STANDS = frozenset({"in", "on"})  # a place follows, if one does: `on the left block`, but also `on the run`


def _place_follows(words: Words) -> bool:
    return bool(match_spot(words.words, words.i) or match(HALF_TRIE, words.words, words.i))


def read_element(reader: PartReader, word: str) -> None:
    """Adds what stands here to the part; refused where nothing of it fits."""
    words = reader.words
    if _talk(reader):
        pass
    elif word in PLACE_PREPOSITIONS:
        _after_preposition(reader, word)
    elif word in STANDS and _stands(reader):
        pass
    elif word == "from":
        words.i += 1
        reader.once("from", reader.start_place)
        reader.start_place = needed_place(words, "from")
    elif word == "for" and reader.verb.preposition == "for":
        words.i += 1
        reader.add_object(needed_one(words, "for"))
    elif word == "facing":
        words.i += 1
        reader.once("facing", reader.facing)
        reader.facing = base(words)
    elif not (_bare_object(reader) or read_way(reader) or _bare_place(reader) or _side(reader) or _manner(reader)):
        part_rules.refuse_leftover(reader)


def _talk(reader: PartReader) -> bool:
    """How a receiver is under way, how one shoots, and what a pass is for."""
    words, start, verb = reader.words, reader.words.i, reader.verb
    if verb.id == "shoot":
        return bool(words.match(SHOT_HOW_TRIE) or words.match(FOR_SHOT_TRIE))
    if verb.id in ("pass", "inbound") and not reader.objects and words.peek() == "inside" and words.peek(1) == "to":
        words.i += 1
        reader.manners.add("inside")
        return True
    if verb.id == "screen" and words.peek() == "ball" or words.peek() == "on" and words.peek(1) == "ball" and verb.of == "both":
        words.i += 1 + (words.peek() == "on")
        reader.on_ball = True
        return True
    if not reader.objects or verb.id not in ("pass", "inbound", "look-for", "hand-off"):
        return False
    if verb.id == "look-for" and words.take("first"):
        return True
    how = None if match_spot(words.words, words.i) else words.match(UNDER_WAY_TRIE)
    if how:
        reader.manners.add("inside" if how == "inside" else "under way")
        return True
    shot = verb.id != "look-for" and words.match(FOR_SHOT_TRIE)
    if shot:
        words.extra.append((reader.objects[0], shot, start))
    return bool(shot)


def _stands(reader: PartReader) -> bool:
    """`in the left corner`, `on the right block`: a place, when one follows; `on` before a defender: whom he screens."""
    words, start = reader.words, reader.words.i
    words.i += 1
    if words.words[start] == "on" and reader.verb.of == "both" and not reader.objects:
        who = one(words)
        if isinstance(who, DEFENDERS):
            reader.add_object(who)
            return True
        words.i = start + 1
    spot, side = match_spot(words.words, words.i), match(LINE_SIDE_TRIE, words.words, start)
    if spot and not (side and side[1] >= spot.end):
        found = place(words)
        if found is not None:
            reader.add_place(found, start)
            return True
    words.i = start
    return False


def _after_preposition(reader: PartReader, word: str) -> None:
    words, start = reader.words, reader.words.i
    words.i += 1
    if reader.verb.id == "dribble" and word in ("at", "toward", "towards") and not reader.objects:
        who = None if words.peek(1) in UNITS else one(words)
        if who is not None:  # `dribbles hard at 2`
            reader.verb = VERB["dribble-at"]
            reader.add_object(who)
            return
    if word == reader.verb.preposition and reader.verb.object is not Takes.NO and not reader.objects:
        who = one(words)
        if who is not None:
            reader.add_object(who)
            return
    if word in ("to", "at") and words.peek() in PLAYERS and words.peek(1) not in UNITS:
        part_rules.refuse_player_place(reader, word, start)
    if word == "to" and reader.verb.id == "drive" and words.peek() in ("left", "right") and not _place_follows(words):
        _side(reader)
        return
    reader.add_place(needed_place(words, word), start)


def _bare_object(reader: PartReader) -> bool:
    words, start = reader.words, reader.words.i
    verb = reader.verb
    bare = verb.object is not Takes.NO and (verb.preposition == "" or verb.of == "both")
    who = one(words)
    if who is None:
        return False
    plain = isinstance(who, DEFENDERS) or who == Role("screener")  # `4 picks the picker`
    if reader.bare and not reader.objects or bare and (verb.preposition == "" or plain):
        reader.add_object(who)
        return True
    part_rules.refuse_bare_object(reader, who, start)
    return False


def _bare_place(reader: PartReader) -> bool:
    start = reader.words.i
    found = place(reader.words)
    if found is None:
        return False
    if reader.verb.id == "clear":
        part_rules.refuse_cleared(reader, start)
    reader.add_place(found, start)
    return True


def _side(reader: PartReader) -> bool:
    side = reader.words.match(LINE_SIDE_TRIE) or _hand(reader)
    if not side:
        return False
    reader.once("on the ... side", reader.side or None)
    reader.side = side
    return True


def _hand(reader: PartReader) -> str:
    """`drives left`, `drives to the right`: no spot follows."""
    words = reader.words
    if reader.verb.id not in ("drive", "dribble") or words.peek() not in ("left", "right"):
        return ""
    if reader.verb.id == "dribble" and words.i + 1 >= len(words.words):
        return ""
    words.i += 1
    return words.words[words.i - 1]


def _manner(reader: PartReader) -> bool:
    start = reader.words.i
    manner = reader.words.match(MANNER_TRIE)
    if not manner:
        return False
    if manner in reader.manners:
        raise reader.words.refuse("twice", f"'{reader.words.said(start)}' stands here twice", "keep one of them", start)
    reader.manners.add(manner)
    return True
