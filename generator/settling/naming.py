"""Names of branches for people: "main line", "X3 trails, then 2 is open". In: reads and answers; out: words."""

from __future__ import annotations

from generator.model.play import Answer, Read, Sight, WatchKind
from generator.model.sentence import DefenderOf, One
from generator.settling.words import say_one
from generator.vocabulary.coverages import COVERAGES
from generator.vocabulary.words import forms, plain_form, split_words, third_form

_SAID = {w.id: third_form(w.words[0]) for w in COVERAGES if "+" in w.words[0]}
_PLAIN = {w.id: plain_form(w.words[0]) for w in COVERAGES}
_WORDINGS = {w.id: frozenset(" ".join(form) for wording in w.words for form in forms(wording)) for w in COVERAGES}
_IS = frozenset({"open", "denied", "late", "at the level"})


def say_answer(read: Read, answer: Answer, reader: int) -> str:
    """What was seen: "X3 trails", "2 is open", "under 3 s", the name of a choice."""
    if read.watch.kind not in (WatchKind.DEFENDERS, WatchKind.PLAYERS):
        return answer.key
    if answer.is_otherwise:
        return "none of these"
    groups = [" and ".join(_say_sight(s, read, reader) for s in group) for group in answer.sights]
    return " or ".join(groups)


def _say_sight(sight: Sight, read: Read, reader: int) -> str:
    if sight.one is not None:
        who = _say_one(sight.one, reader)
    elif read.watch.kind is WatchKind.DEFENDERS and read.watch.ones:
        who = " and ".join(_say_one(one, reader) for one in read.watch.ones)
    else:
        who = ""
    own = " ".join(split_words(sight.word)) not in _WORDINGS.get(sight.coverage, ())  # a word of the team
    word = sight.word if own else _PLAIN[sight.coverage]
    if not who:
        return word
    many = sight.one is None and len(read.watch.ones) > 1
    if sight.coverage in _IS and not own:
        return f"{who} {'are' if many else 'is'} {word}"
    if own or sight.coverage not in _SAID:
        return f"{who}: {word}"
    return f"{who} {word if many else _SAID[sight.coverage]}"


def _say_one(one: One, reader: int) -> str:
    return f"{reader}'s defender" if one == DefenderOf(None) else say_one(one)


def branch_name(names: tuple[str, ...]) -> str:
    """All answers of a branch in order."""
    return ", then ".join(names) or "main line"
