"""The keys of `answers`: coverages, open players, spans of the clock, what becomes of the ball."""

from __future__ import annotations

import re

from generator.model.play import Sight, Watch, WatchKind
from generator.model.sentence import DefenderBody, DefenderOf, One, Player
from generator.parsing.who_words import name, one
from generator.parsing.words_of_line import Words
from generator.vocabulary.advice import advice
from generator.vocabulary.coverages import BALL_KEYS, COVERAGES
from generator.vocabulary.nearest import closest
from generator.vocabulary.table import BALL_KEY_TRIE, COVERAGE_TRIE
from generator.vocabulary.words import match, plain_form

_NUMBER = r"(\d{1,4}(?:\.\d)?)"
_SPANS = (
    (re.compile(rf"under {_NUMBER} s\Z"), lambda m: (None, float(m[1]))),
    (re.compile(rf"{_NUMBER} to {_NUMBER} s\Z"), lambda m: (float(m[1]), float(m[2]))),
    (re.compile(rf"{_NUMBER} s or more\Z"), lambda m: (float(m[1]), None)),
)


def read_sights(words: Words, watch: Watch, coverage_trie: dict = COVERAGE_TRIE) -> tuple[tuple[Sight, ...], ...]:
    """The conditions of an answer's key: OR of ANDs."""
    match watch.kind:
        case WatchKind.OWN_CHOICE | WatchKind.BENCH:
            said = " ".join(words.node.text.split())
            return ((Sight(None, said.casefold(), said),),)
        case WatchKind.CLOCK:
            return ((_span(words),),)
        case WatchKind.BALL:
            return _alternatives(words, _ball)
        case WatchKind.PLAYERS:
            return _alternatives(words, lambda w: _open(w, watch))
        case _:
            return _covered(words, watch, coverage_trie)


def _alternatives(words: Words, single) -> tuple[tuple[Sight, ...], ...]:
    found = [(single(words),)]
    while words.take("or"):
        found.append((single(words),))
    if not words.at_end():
        raise words.refuse("answer-key", f"'{words.next_said()}' has no meaning in this key", "join keys with `or`")
    return tuple(found)


def _span(words: Words) -> Sight:
    said = " ".join(words.words)
    for pattern, span in _SPANS:
        found = pattern.match(said)
        if found:
            seconds = span(found)
            if None not in seconds and seconds[0] >= seconds[1]:
                raise words.refuse("answer-key", f"'{words.node.text}' ends before it begins", "write `3 to 7 s`", 0)
            return Sight(None, said, said, seconds)
    raise words.refuse(
        "answer-key",
        f"'{words.node.text}' is no span of the clock",
        "write `under 3 s`, `3 to 7 s` or `7 s or more`",
        0,
    )


def _ball(words: Words) -> Sight:
    key = words.match(BALL_KEY_TRIE)
    if not key:
        names = tuple(k.id for k in BALL_KEYS)
        raise words.refuse(
            "answer-key", f"'{words.node.text}' is nothing that becomes of the ball", "it is " + ", ".join(names)
        )
    return Sight(None, key, key)


def _open(words: Words, watch: Watch) -> Sight:
    start = words.i
    found = one(words)
    example = f"`{name(watch.ones[0])} open`"
    if found is None or not words.take("open"):
        raise words.refuse(
            "answer-key",
            f"'{words.node.text}' does not say who is open",
            f"players are watched here: write {example}",
            start,
        )
    if found not in watch.ones:
        raise words.refuse(
            "answer-key",
            f"{name(found)} is not watched in this read, which watches {' then '.join(map(name, watch.ones))}",
            "add him to `watch`",
            start,
        )
    return Sight(found, "open", "open")


def _covered(words: Words, watch: Watch, trie: dict) -> tuple[tuple[Sight, ...], ...]:
    alternatives = [_together(words, watch, trie)]
    while words.take("or"):
        alternatives.append(_together(words, watch, trie))
    if not words.at_end():
        raise _no_coverage(words, trie)
    named = [s.one is not None for a in alternatives for s in a]
    if any(named) and not all(named):
        said = name(next(s.one for a in alternatives for s in a if s.one))
        raise words.refuse(
            "answer-key",
            "a name stands before one coverage of this key but not before the other",
            f"name both, as in `{said} hedge or {said} drop`",
            0,
        )
    return tuple(alternatives)


def _together(words: Words, watch: Watch, trie: dict) -> tuple[Sight, ...]:
    sights = _shared(words, watch, trie)
    while words.take("and"):
        sights += _shared(words, watch, trie)
    if len(sights) > 1 and len({s.one for s in sights}) < len(sights):
        raise words.refuse(
            "answer-key",
            "one defender does two things at once in this key",
            "join them with `or`, or name two defenders",
            0,
        )
    return tuple(sights)


def _shared(words: Words, watch: Watch, trie: dict) -> list[Sight]:
    """One defender's coverage, or that of several: `X1 and X5 switch` (all who are watched: the pair's)."""
    start, names = words.i, []
    while True:
        at = words.i
        who = None if match(trie, words.words, at) else one(words)
        if who is None or words.peek() != "and":
            break
        names.append((who, at))
        words.i += 1
    words.i = at if names and who is not None else start
    sight = _sight(words, watch, trie)
    if sight.one is None or words.i <= at or at == start:
        return [sight]
    for name_before, place in names:
        _must_be_watched(words, name_before, watch, place)
    if {sight.one, *(n for n, _ in names)} == set(watch.ones):
        return [Sight(None, sight.coverage, sight.word)]
    return [*(Sight(n, sight.coverage, sight.word) for n, _ in names), sight]


def _sight(words: Words, watch: Watch, trie: dict) -> Sight:
    start = words.i
    found = match(trie, words.words, start)
    who = None if found else one(words)
    if who is not None:
        _must_be_watched(words, who, watch, start)
    at = words.i
    coverage = words.match(trie)
    if coverage is None:
        raise _no_coverage(words, trie)
    return Sight(who, coverage, " ".join(words.words[at : words.i]))


def _must_be_watched(words: Words, who: One, watch: Watch, start: int) -> None:
    if isinstance(who, Player):
        raise words.refuse(
            "answer-key",
            f"{name(who)} is one of ours; a coverage belongs to a defender",
            f"write `X{name(who)} ...`",
            start,
        )
    if not _watched(who, watch):
        raise words.refuse(
            "answer-key",
            f"{name(who)} is not watched in this read, which watches {' and '.join(map(name, watch.ones))}",
            "add him to `watch`",
            start,
        )


def _watched(who: One, watch: Watch) -> bool:
    if who in watch.ones:
        return True
    screener = watch.on_screen_of
    return screener is not None and who in (DefenderBody(screener.number), DefenderOf(screener))


def _no_coverage(words: Words, trie: dict):
    said = words.next_said()
    if not said:
        return words.refuse("coverage", "a coverage is missing here", "write `X5 hedge`, `trail or switch`")
    better = advice("coverage", words.words, words.i)
    if better:
        return words.refuse("coverage", f"'{said}' is no coverage", better)
    names = tuple(plain_form(w) for c in COVERAGES for w in c.words) + _team_words(trie)
    written = tuple(words.next_said(n) for n in (1, 2, 3) if words.i + n <= len(words.words))
    best = closest(written, names)
    hint = (
        f"did you mean `{best[0]}`?"
        if best
        else "coverages are on the handbook's language page; team.yml adds your own"
    )
    return words.refuse("coverage", f"'{written[best[1]] if best else said}' is no coverage", hint)


def _team_words(trie: dict) -> tuple[str, ...]:
    return tuple(w for w in trie if w and w not in COVERAGE_TRIE)
