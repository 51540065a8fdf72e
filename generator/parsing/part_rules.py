"""What a verb takes and what it refuses, said in the coach's words."""

from __future__ import annotations

from typing import TYPE_CHECKING, NoReturn

from generator.model.sentence import Between, BetweenPlace, One, Side, SpotPlace, Way, WherePlace
from generator.parsing.talk_words import sentence_begins
from generator.parsing.who_words import DEFENDERS, PLAYERS, name
from generator.vocabulary.advice import advice
from generator.vocabulary.entries import Ball, Takes
from generator.vocabulary.nearest import closest
from generator.vocabulary.table import DEFENCE_TRIE, OFFENCE_TRIE, VERB, verb_wordings
from generator.vocabulary.words import match

if TYPE_CHECKING:
    from generator.parsing.part_words import PartReader

_SMALL = (
    "hard",
    "slowly",
    "on the run",
    "in place",
    "long",
    "short",
    "facing",
    "off",
    "between",
    "over",
    "under",
    "around",
    "behind",
    "in front of",
    "high",
    "low",
    "baseline",
    "middle",
    "then",
    "and",
    "as",
    "after",
    "before",
    "until",
    "with",
    "at once",
    "to",
    "at",
    "into",
    "toward",
    "from",
)


def settle_unclear(reader: PartReader) -> None:
    """`behind 5` and `in front of 5` are a way when a place is named, a place when nothing else can be; else both
    readings are shown."""
    if reader.unclear is None or reader.places:
        return
    verb, words = reader.verb, reader.words
    if verb.place is Takes.MUST or not verb.route:
        reader.places.append(reader.place_of_unclear())
        reader.ways.pop()
        return
    if verb.place is Takes.NO:
        return
    way = words.said(reader.unclear)
    message = f"'{way}' can be his way past {name(reader.ways[-1].one)}, or where he ends"
    hint = f"write `{reader.said_verb} {way} to PLACE` for the way, `{reader.said_verb} to {way}` for the place"
    raise words.refuse("ambiguous", message, hint, reader.unclear)


_SIDELINES = {"along-left-sideline": Side.LEFT, "along-right-sideline": Side.RIGHT, "along-sideline": Side.SAME}


def _untold_place(reader: PartReader) -> None:
    """The end that a way or a verb brings along: the corner of a break's lane, the gap between two defenders, the rim that
    is faced."""
    verb, way = reader.verb, reader.ways[-1] if reader.ways else None
    if reader.places and reader.places[-1] == SpotPlace("half court"):
        along = next((_SIDELINES[w.word] for w in reader.ways if isinstance(w, Way) and w.word in _SIDELINES), None)
        if along:  # `dribbles up the left sideline to half court`
            reader.places[-1] = SpotPlace("half court", along)
    if reader.places and getattr(reader.places[-1], "side", None) in (Side.LEFT, Side.RIGHT):  # `wide to the right corner`
        side = Way(f"along-{reader.places[-1].side.value}-sideline")
        reader.ways = [side if w == Way("along-sideline") else w for w in reader.ways]
    if reader.places or reader.objects:
        return
    if reader.lane and verb.ball is Ball.WITHOUT:
        reader.places.append(SpotPlace("corner", reader.lane))
        if verb.id == "fill":  # `fills the right lane`: he runs it
            reader.verb, reader.kind = VERB["cut"], "run"
    elif verb.place is Takes.MUST and isinstance(way, Between) and isinstance(way.first, DEFENDERS) and isinstance(way.second, DEFENDERS):
        reader.ways.pop()
        reader.places.append(BetweenPlace(WherePlace(way.first, False), WherePlace(way.second, False)))
    elif verb.id == "face":
        reader.places.append(SpotPlace("rim"))


def complete(reader: PartReader) -> None:
    """Everything the verb needs is there, nothing it cannot take."""
    verb, words = reader.verb, reader.words
    _untold_place(reader)
    if verb.object is Takes.MUST and not reader.objects:
        raise _lacks_object(reader)
    if verb.object is Takes.OR_PLACE and not reader.objects and not reader.places:
        raise words.refuse(
            "place",
            f"`{reader.said_verb}` needs a place or a player",
            f"write `{verb.example}` or `2 {verb.words[0].replace('+', 's')} 3`",
            reader.start,
        )
    if verb.id == "face" and reader.places:
        reader.facing = reader.places.pop()
    elif verb.place is Takes.MUST and not reader.places and reader.facing is None and not goes_on(reader):
        raise _lacks_place(reader)
    if reader.places and verb.place is Takes.NO:
        hint = _PLACE_HINTS.get(verb.id, f"{verb.end[0].upper()}{verb.end[1:]}: that is where he ends")
        raise words.refuse("no-place", f"`{reader.said_verb}` takes no place", hint, reader.start)
    if reader.ways and not verb.route and not ("under way" in reader.manners and verb.id != "look-for"):
        hint = f"write it so: `{verb.example}`"
        raise words.refuse(
            "no-way", f"`{reader.said_verb}` takes no way such as `off 4` or `baseline`", hint, reader.start
        )
    if reader.side and not verb.side:
        raise words.refuse(
            "no-side",
            f"`{reader.said_verb}` takes no side such as `on the left`",
            f"write it so: `{verb.example}`",
            reader.start,
        )


_PLACE_HINTS = {
    "shoot": "a shot happens where he is: move him there before it, as in `1 dribbles to right elbow then pulls up`",
    "look-for": "he looks from where he is; name only players, as in `1 looks for 5 then 3`",
    "dribble-at": "to dribble to a spot write `dribbles to left wing`",
}


def goes_on(reader: PartReader) -> bool:
    """True at `comes off 5` of `comes off 5 and drives to the rim`: the way belongs to the verb that follows."""
    verb, words = reader.verb, reader.words
    if verb.id not in ("cut", "dribble") or not reader.ways or words.peek() not in ("then", "and"):
        return False
    found = match(OFFENCE_TRIE, words.words, words.i + 1)
    takes_it = found is not None and (found[0][0].route or found[0][0].id == "screen")
    return takes_it and not sentence_begins(words, words.i + 1)


def _lacks_object(reader: PartReader):
    verb = reader.verb
    if reader.words.at_end() and verb.id == "dribble-at" and reader.places:
        return reader.words.refuse("object", "`dribbles at` needs a player", _PLACE_HINTS["dribble-at"], reader.start)
    preposition = f" {verb.preposition}" if verb.preposition else ""
    whom = "a defender" if verb.of == "defender" else "a player"
    return reader.words.refuse(
        "object", f"`{reader.said_verb}{preposition}` needs {whom}", f"write it so: `{verb.example}`", reader.start
    )


def _lacks_place(reader: PartReader):
    verb, bare = (
        reader.verb,
        next(
            (w for w in reader.ways if isinstance(w, Way) and w.word in ("baseline", "middle") and w.one is None), None
        ),
    )
    if bare:
        spot = {"baseline": "baseline", "middle": "middle of the lane"}[bare.word]
        message = f"`{bare.word}` can be his way, or where he ends"
        hint = (
            f"write `{reader.said_verb} {bare.word} to PLACE` for the way, `{reader.said_verb} to {spot}` for the place"
        )
        return reader.words.refuse("ambiguous", message, hint, reader.start)
    return reader.words.refuse(
        "place", f"`{reader.said_verb}` needs a place", f"say where to, as in `{verb.example}`", reader.start
    )


def check_object(reader: PartReader, who: One, at: int) -> None:
    """The verb takes this one as its object."""
    verb = reader.verb
    if verb.of == "defender" and not isinstance(who, DEFENDERS):
        said = name(who)
        raise reader.words.refuse(
            "object",
            f"`{reader.said_verb}` needs a defender, not {said}",
            f"write `X{said}` or `{said}'s defender`",
            at,
        )
    if verb.of == "player" and isinstance(who, DEFENDERS):
        raise reader.words.refuse(
            "object",
            f"`{reader.said_verb}` needs a player of ours, not {name(who)}",
            f"write it so: `{verb.example}`",
            at,
        )


def refuse_second(reader: PartReader, who: One, word: str, at: int) -> NoReturn:
    """A second object where the verb takes one."""
    verb, words = reader.verb, reader.words
    if verb.ball.value == "G":
        both = f"{name(reader.objects[0])} {word or 'and'} {name(who)}" if reader.objects else name(who)
        hint = f"choose one, or write `looks for {name(reader.objects[0]) if reader.objects else 3} then {name(who)}`, or make it a read"
        raise words.refuse("two-receivers", f"one ball cannot go to {both}", hint, at)
    if verb.objects == 0:
        raise words.refuse(
            "twice", f"`{reader.said_verb}` needs `then` between the players", f"write it so: `{verb.example}`", at
        )
    raise words.refuse(
        "twice",
        f"'{words.said(at)}' is one player too many for `{reader.said_verb}`",
        f"write it so: `{verb.example}`, and a line for each other",
        at,
    )


def refuse_player_place(reader: PartReader, word: str, at: int) -> NoReturn:
    """`cuts to 3`: a player is no place."""
    words, verb = reader.words, reader.verb
    player = words.peek()
    said = reader.said_verb
    if verb.ball.value == "G" and reader.objects:
        refuse_second(reader, PLAYERS[player], "and", at)
    hint = f"write `{said} to where {player} is`, `{said} to beside {player}`, or a spot"
    if verb.id == "dribble":
        hint = f"write `{said} at {player}` to go toward him, or a spot"
    if verb.preposition and verb.preposition != word:
        hint = f"`{said}` goes with `{verb.preposition}`: `{verb.example}`"
    raise words.refuse("spot", f"'{word} {player}' is no place: {player} is a player", hint, at)


def refuse_cleared(reader: PartReader, at: int) -> NoReturn:
    """`clears the right corner`: he leaves it, or goes there."""
    said, spot = reader.said_verb, reader.words.said(at)
    message = f"'{said} {spot}' can be where he goes, or what he leaves"
    raise reader.words.refuse("ambiguous", message, f"write `{said} to {spot}`, or where he goes: `{said} from {spot} to PLACE`", at)


def refuse_bare_object(reader: PartReader, who: One, at: int) -> NoReturn:
    """A player where none is expected."""
    words, verb = reader.words, reader.verb
    said = reader.said_verb
    if match(OFFENCE_TRIE, words.words, words.i) or match(DEFENCE_TRIE, words.words, words.i):
        raise words.refuse(
            "two-sentences", f"a second sentence begins with '{words.said(at)}'", "give it a line of its own", at
        )
    if verb.preposition and verb.object is not Takes.NO:
        raise words.refuse(
            "preposition",
            f"`{said}` needs `{verb.preposition}` before {name(who)}",
            f"write `{said} {verb.preposition} {name(who)}`",
            at,
        )
    raise words.refuse(
        "object", f"`{said}` takes no player, but {name(who)} stands here", f"write it so: `{verb.example}`", at
    )


def refuse_leftover(reader: PartReader) -> NoReturn:
    """A word that nothing in the sentence explains."""
    words, verb = reader.words, reader.verb
    word, at = words.peek(), words.i
    if word in ("for", "with", "of", "by") and not advice("word", words.words, at):
        preposition = f"; `{reader.said_verb}` goes with `{verb.preposition}`" if verb.preposition else ""
        raise words.refuse(
            "word", f"`{word}` does not go with `{reader.said_verb}`{preposition}", f"write it so: `{verb.example}`", at
        )
    raise unknown_word(words, reader.said_verb)


def unknown_word(words, after: str):
    """The refusal of a word that is not in the language, with the nearest that is."""
    from generator.parsing.place_words import SPOT_NAMES, SPOT_WORDS, unknown_place

    said, at = words.next_said(), words.i
    two = words.next_said(2)
    better = advice("word", words.words, at)
    if better:
        return words.refuse("word", f"'{said}' has no meaning after `{after}`", better, at)
    if words.peek() == "in" and words.peek(1):
        words.i += 1
        return unknown_place(words, "in")
    best = closest((words.peek(), two), _SMALL + SPOT_WORDS + SPOT_NAMES) or closest((words.peek(),), verb_wordings())
    hint = f"did you mean `{best[0]}`?" if best else "the handbook's language page has all words"
    return words.refuse("word", f"'{said}' has no meaning after `{after}`", hint, at)
