"""Names of branches for people: "main line", "X3 trails, then 2 is open". In: reads and answers; out: words."""

from __future__ import annotations

from generator.model.play import Answer, Read, Sight, WatchKind
from generator.settling.words import say_one
from generator.vocabulary.coverages import COVERAGES
from generator.vocabulary.words import third_form

_SAID = {w.id: third_form(w.words[0]) for w in COVERAGES if "+" in w.words[0]}
_IS = frozenset({"open", "denied"})


def say_answer(read: Read, answer: Answer, watched: tuple[int, ...]) -> str:
    """What was seen: "X3 trails", "2 is open", "under 3 s", the name of a choice."""
    if read.watch.kind not in (WatchKind.DEFENDERS, WatchKind.PLAYERS):
        return answer.key
    if answer.is_otherwise:
        return "none of these"
    groups = [" and ".join(_say_sight(s, read, watched) for s in group) for group in answer.sights]
    return " or ".join(groups)


def _say_sight(sight: Sight, read: Read, watched: tuple[int, ...]) -> str:
    if sight.one is not None:
        who = say_one(sight.one)
    elif read.watch.kind is WatchKind.DEFENDERS and read.watch.ones:
        who = " and ".join(say_one(one) for one in read.watch.ones)
    else:
        who = ""
    many = sight.one is None and len(read.watch.ones) > 1
    if sight.coverage in _IS:
        return f"{who} is {sight.word}".strip()
    if sight.coverage in _SAID and sight.word == sight.coverage:
        return f"{who} {sight.word if many else _SAID[sight.coverage]}".strip()
    return f"{who}: {sight.word}" if who else sight.word


def branch_name(names: tuple[str, ...]) -> str:
    """All answers of a branch in order."""
    return ", then ".join(names) or "main line"
