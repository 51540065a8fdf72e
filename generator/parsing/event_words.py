"""When: events and timing phrases."""

from __future__ import annotations

import re

from generator.model.sentence import Event, Relation, Timing
from generator.parsing.place_words import _number, base
from generator.parsing.talk_words import skip_noun
from generator.parsing.who_words import needed_one, one
from generator.parsing.words_of_line import Words
from generator.vocabulary.entries import EventWord
from generator.vocabulary.events import EVENTS
from generator.vocabulary.nearest import did_you_mean
from generator.vocabulary.table import BALL_EVENT_TRIE, EVENT_TRIE, ON_THE_TRIE
from generator.vocabulary.talk import NOUN_TRIE
from generator.vocabulary.words import match, third_form

RELATIONS = {
    "as": Relation.AS,
    "when": Relation.AS,
    "once": Relation.AS,
    "after": Relation.AFTER,
    "before": Relation.BEFORE,
    "until": Relation.UNTIL,
}
EVENT_NAMES = tuple(third_form(w) for e in EVENTS if e.of == "one" for w in e.words)
BALL_EVENT_NAMES = tuple(w for e in EVENTS if e.of == "ball" for w in e.words)


def begins_timing(words: Words) -> bool:
    """True where a timing phrase stands here."""
    word = words.peek()
    if word in RELATIONS or word == "with":
        return True
    if word == "on":
        return match(ON_THE_TRIE, words.words, words.i) is not None
    return word == "at" and (words.peek(1) == "once" or (_number(words.peek(1)) is not None and words.peek(2) == "s"))


def timings(words: Words) -> list[Timing]:
    """All timing phrases from here on."""
    found = []
    while begins_timing(words):
        found.append(_timing(words))
    return found


def _timing(words: Words) -> Timing:
    word = words.peek()
    if word == "on":
        return Timing(Relation.ON, Event(words.match(ON_THE_TRIE)))
    words.i += 1
    if word == "as":
        words.take("soon", "as")
    if word in RELATIONS:
        return Timing(RELATIONS[word], event(words, word))
    if word == "with":
        return Timing(Relation.WITH, one=_with(words))
    if words.take("once"):
        return Timing(Relation.AT_ONCE)
    seconds = _number(words.peek())
    words.i += 2
    return Timing(Relation.AT_CLOCK, seconds=seconds)


def _with(words: Words):
    if words.take("ball"):
        hint = "who has the ball follows from the passes; `with the ball` stands in `start` only"
        raise words.refuse("ball-words", "`with the ball` says nothing in a line", hint, words.i - 2)
    start = words.i
    kind = re.match(r"(bounce|skip|overhead|pocket|drop|baseball|outlet|lob)\b", words.peek())
    if kind:
        hint = f"write `1 {kind[1]} passes to 2`, or `1 lobs to 2`" if kind[1] != "lob" else "write `1 lobs to 2`"
        raise words.refuse("word", f"`with {words.next_said(2)}` does not tie a line to anything", hint, start - 1)
    return needed_one(words, "with")


def event(words: Words, after: str = "as") -> Event:
    """The event that stands here."""
    seconds = _number(words.peek())
    if seconds is not None and words.peek(1) == "s":
        words.i += 2
        words.take("on", "clock")
        return Event("clock", seconds=seconds)
    if words.peek() == "ball" and words.peek(1) != "handler":
        return _ball_event(words)
    words.may_measure = False  # `as 2 steps up`
    who = needed_one(words, after)
    words.may_measure = True
    if words.peek() == "and":
        hint = "write one of them, or two: `as 2 arrives as 4 arrives`"
        raise words.refuse("event", "an event belongs to one player", hint)
    word: EventWord | None = words.match(EVENT_TRIE)
    if word is None:
        raise _unknown_event(words, who)
    if word.takes == "place":
        return Event(word.id, who, place=base(words))
    other = one(words) if word.takes == "one" and not words.after_comma() else None
    if other is not None:
        skip_noun(words)
    elif word.id in ("use", "clear"):
        words.match(NOUN_TRIE)  # `as 1 comes off the screen`
    return Event(word.id, who, other=other)


def _ball_event(words: Words) -> Event:
    words.i += 1
    word = words.match(BALL_EVENT_TRIE)
    if word is None:
        written = words.next_said(2)
        hint = did_you_mean(written, BALL_EVENT_NAMES, "a ball is tossed, is tipped, hits the rim or changes sides")
        raise words.refuse("event", f"'{written}' is nothing a ball does here", hint)
    return Event(word.id)


def _unknown_event(words: Words, who):
    written = words.next_said()
    if not written:
        return words.refuse("event", "an event needs a verb after the player", "write `as 2 catches`")
    hint = did_you_mean(words.next_said(2), EVENT_NAMES) or did_you_mean(
        written, EVENT_NAMES, "write `as 2 catches`, `after 5 sets`, `before 1 arrives`"
    )
    return words.refuse("event", f"'{written}' is no event", hint)
