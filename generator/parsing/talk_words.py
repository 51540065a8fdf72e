"""Practice talk that stands for plain words: whose screen `off the pick` is, the walk to a screen, what somebody is given."""

from __future__ import annotations

from generator.model.sentence import Everyone, One, Role
from generator.parsing.who_words import DEFENDERS, needed_one, one
from generator.parsing.words_of_line import Refused, Words
from generator.vocabulary.entries import Ball, Verb
from generator.vocabulary.table import DEFENCE_TRIE, OFFENCE_TRIE, VERB
from generator.vocabulary.talk import (
    GETS_TRIE,
    GIVEN_TRIE,
    HIS_SCREENER,
    LEAD_TRIE,
    NOUN_TRIE,
    WALK_JOINTS,
    WALK_TRIE,
    WALK_WORDS,
)
from generator.vocabulary.words import match

_SCREENS = frozenset({"screen", "double-screen", "elevator-screen", "stagger", "ghost", "re-screen", "flip"})
_ENDS_OFF = frozenset({"to", "at", "into", "toward", "towards", "then", "and", "on", "in"})


def skip_noun(words: Words) -> None:
    """`down screen` of `5's down screen`."""
    if words.words[words.i - 1].endswith("'s"):
        words.match(NOUN_TRIE)


def whose_screen(words: Words, after: str = "off") -> One:
    """After `off`: `5`, `of 5`, `5's screen`, `the pick`, `the pick from 5`, or nothing: the screen set for him."""
    words.take("of")
    if words.match(NOUN_TRIE) is None:
        if after == "off" and (words.at_end() or words.peek() in _ENDS_OFF):
            return Role(HIS_SCREENER)
        who = needed_one(words, after)
        skip_noun(words)
        return who
    if words.peek() in ("from", "of", "by") or words.peek() == "set" and words.peek(1) == "by":
        start = words.i
        words.take("set")
        words.i += 1
        who = one(words)
        if who is not None:
            return who
        words.i = start
    return Role(HIS_SCREENER)


def walk_to_screen(words: Words) -> str | None:
    """Steps over `comes up to` of `comes up to set a ball screen`: the manner of the walk ("" or hard), else None."""
    start = words.i
    manner = words.match(WALK_TRIE)
    if manner is None:
        return None
    while words.peek() in WALK_WORDS or words.peek() in ("hard", "quickly", "fast"):
        manner = manner if words.peek() in WALK_WORDS else "hard"
        words.i += 1
    if words.peek() in WALK_JOINTS:
        words.i += 1
        found = match(OFFENCE_TRIE, words.words, words.i)
        if found is not None and found[0][0].id in _SCREENS:
            return manner
    words.i = start
    return None


def skip_lead(words: Words) -> None:
    """`catches and` of `catches and drives`: the verb with the ball alone is read."""
    start = words.i
    if words.match(LEAD_TRIE) is not None and words.take("and"):
        found = match(OFFENCE_TRIE, words.words, words.i)
        if found is not None and (found[0][0].ball in (Ball.NEEDS, Ball.GIVES) or found[0][0].id == "seal"):
            return
    words.i = start


def given(words: Words) -> tuple[One, Verb, str, int] | None:
    """Steps over `gets a ball screen from 5`: the giver, his verb and kind, and where the sentence's verb began."""
    start = words.i
    if words.match(GETS_TRIE) is None:
        return None
    found = _screen_given(words) or _ball_given(words)
    if found is not None and words.take("from"):
        giver = one(words)
        if giver is not None and not isinstance(giver, (*DEFENDERS, Everyone)):
            return giver, *found, start
    words.i = start
    return None


def _screen_given(words: Words) -> tuple[Verb, str] | None:
    noun = match(NOUN_TRIE, words.words, words.i)
    if noun is None:
        return None
    verb = match(OFFENCE_TRIE, words.words, words.i)
    verb, words.i = (verb[0] if verb and verb[1] == noun[1] else (VERB["screen"], "")), noun[1]
    return verb if verb[0].id == "screen" else None


def _ball_given(words: Words) -> tuple[Verb, str] | None:
    given_as = words.match(GIVEN_TRIE)
    return (VERB[given_as], "") if given_as else None


def sentence_begins(words: Words, at: int) -> bool:
    """True where somebody and his verb stand: a second sentence."""
    start, measures = words.i, words.may_measure
    words.i, words.may_measure = at, False
    try:
        who = one(words)
        while who is not None and words.take("and"):
            who = one(words)
        if who is None or words.words[words.i - 1].endswith("'s"):
            return False
        return match(DEFENCE_TRIE if isinstance(who, DEFENDERS) else OFFENCE_TRIE, words.words, words.i) is not None
    except Refused:
        return False
    finally:
        words.i, words.may_measure = start, measures
