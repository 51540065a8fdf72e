"""`watch` and the keys of `answers`."""

from __future__ import annotations

import re

from generator.model.play import Sight, Watch, WatchKind
from generator.model.sentence import DefenderBody, DefenderOf, One, Player
from generator.parsing.place_words import needed_place
from generator.parsing.who_words import DEFENDERS, name, needed_one, one
from generator.parsing.words_of_line import Words
from generator.source.nodes import TextNode
from generator.vocabulary.coverages import BALL_KEYS, COVERAGES
from generator.vocabulary.nearest import closest
from generator.vocabulary.table import BALL_KEY_TRIE, COVERAGE_TRIE
from generator.vocabulary.words import match, plain_form

_FIXED = {
    ("own", "choice"): WatchKind.OWN_CHOICE, ("bench",): WatchKind.BENCH, ("clock",): WatchKind.CLOCK, ("ball",): WatchKind.BALL,
}
_WATCH_HINT = "watch a defender (`X3 on 5's screen`), players (`2 then 5`), `own choice`, `bench`, `clock` or `ball`"
_NUMBER = r"(\d{1,4}(?:\.\d)?)"
_SPANS = (
    (re.compile(rf"under {_NUMBER} s\Z"), lambda m: (None, float(m[1]))),
    (re.compile(rf"{_NUMBER} to {_NUMBER} s\Z"), lambda m: (float(m[1]), float(m[2]))),
    (re.compile(rf"{_NUMBER} s or more\Z"), lambda m: (float(m[1]), None)),
)


def read_watch(words: Words) -> Watch:
    """What is watched."""
    node = words.node
    fixed = _FIXED.get(tuple(words.words))
    if fixed:
        return Watch(fixed, text=node.text, source=node.location)
    ones, joins = _ones(words)
    screener = _screen(words)
    spot = needed_place(words, "at") if words.take("at") else None
    if not words.at_end():
        raise words.refuse("watch", f"'{words.next_said()}' has no meaning in `watch`", _WATCH_HINT)
    kind = _kind(words, ones, joins)
    if kind is WatchKind.PLAYERS and screener:
        raise words.refuse("watch", "the players of a pass are watched, so no screen", "watch a defender: `X3 on 5's screen`", 0)
    return Watch(kind, tuple(ones), screener, spot, node.text, source=node.location)


def _ones(words: Words) -> tuple[list[One], set[str]]:
    found = one(words)
    if found is None:
        raise words.refuse("watch", f"'{words.node.text.strip()[:40]}' is nothing to watch", _WATCH_HINT)
    ones, joins = [found], set()
    while words.peek() in ("and", "then"):
        joins.add(words.peek())
        words.i += 1
        ones.append(needed_one(words, words.words[words.i - 1]))
    return ones, joins


def _screen(words: Words) -> One | None:
    if words.peek() != "on":
        return None
    words.i += 1
    owner = words.peek()
    if owner[:1] in "12345" and owner[1:] in ("'s", "") and words.peek(1) == "screen":
        words.i += 2
        return Player(int(owner[0]))
    raise words.refuse("watch", f"'{words.next_said(2)}' is no screen", "write `on 5's screen`")


def _kind(words: Words, ones: list[One], joins: set[str]) -> WatchKind:
    defenders = sum(isinstance(o, DEFENDERS) for o in ones)
    if len(set(ones)) < len(ones):
        raise words.refuse("watch", "somebody is watched twice", "name each once", 0)
    if defenders == len(ones):
        if "then" in joins:
            raise words.refuse("watch", "defenders are watched together", "join them with `and`", 0)
        return WatchKind.DEFENDERS
    if defenders:
        raise words.refuse("watch", "players and defenders are watched in one read", "make two reads, one inside an answer of the other", 0)
    if "and" in joins:
        raise words.refuse("watch", "players are watched in an order", "join them with `then`", 0)
    return WatchKind.PLAYERS


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
    raise words.refuse("answer-key", f"'{words.node.text}' is no span of the clock", "write `under 3 s`, `3 to 7 s` or `7 s or more`", 0)


def _ball(words: Words) -> Sight:
    key = words.match(BALL_KEY_TRIE)
    if not key:
        names = tuple(k.id for k in BALL_KEYS)
        raise words.refuse("answer-key", f"'{words.node.text}' is nothing that becomes of the ball", "it is " + ", ".join(names))
    return Sight(None, key, key)


def _open(words: Words, watch: Watch) -> Sight:
    start = words.i
    found = one(words)
    example = f"`{name(watch.ones[0])} open`"
    if found is None or not words.take("open"):
        raise words.refuse("answer-key", f"'{words.node.text}' does not say who is open", f"players are watched here: write {example}", start)
    if found not in watch.ones:
        raise words.refuse("answer-key", f"{name(found)} is not watched in this read, which watches {' then '.join(map(name, watch.ones))}", "add him to `watch`", start)
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
        raise words.refuse("answer-key", "a name stands before one coverage of this key but not before the other", f"name both, as in `{said} hedge or {said} drop`", 0)
    return tuple(alternatives)


def _together(words: Words, watch: Watch, trie: dict) -> tuple[Sight, ...]:
    sights = [_sight(words, watch, trie)]
    while words.take("and"):
        sights.append(_sight(words, watch, trie))
    if len(sights) > 1 and len({s.one for s in sights}) < len(sights):
        raise words.refuse("answer-key", "one defender does two things at once in this key", "join them with `or`, or name two defenders", 0)
    return tuple(sights)


def _sight(words: Words, watch: Watch, trie: dict) -> Sight:
    start = words.i
    found = match(trie, words.words, start)
    who = None if found else one(words)
    if isinstance(who, Player):
        raise words.refuse("answer-key", f"{name(who)} is one of ours; a coverage belongs to a defender", f"write `X{name(who)} ...`", start)
    if who is not None and not _watched(who, watch):
        raise words.refuse("answer-key", f"{name(who)} is not watched in this read, which watches {' and '.join(map(name, watch.ones))}", "add him to `watch`", start)
    at = words.i
    coverage = words.match(trie)
    if coverage is None:
        raise _no_coverage(words, trie)
    return Sight(who, coverage, " ".join(words.words[at : words.i]))


def _watched(who: One, watch: Watch) -> bool:
    if who in watch.ones:
        return True
    screener = watch.on_screen_of
    return screener is not None and who in (DefenderBody(screener.number), DefenderOf(screener))


def _no_coverage(words: Words, trie: dict):
    said = words.next_said()
    if not said:
        return words.refuse("coverage", "a coverage is missing here", "write `X5 hedge`, `trail or switch`")
    names = tuple(plain_form(w) for c in COVERAGES for w in c.words) + _team_words(trie)
    written = tuple(words.next_said(n) for n in (1, 2, 3) if words.i + n <= len(words.words))
    best = closest(written, names)
    hint = f"did you mean `{best[0]}`?" if best else "coverages are on the handbook's language page; team.yml adds your own"
    return words.refuse("coverage", f"'{written[best[1]] if best else said}' is no coverage", hint)


def _team_words(trie: dict) -> tuple[str, ...]:
    return tuple(w for w in trie if w and w not in COVERAGE_TRIE)


def watch_of(node: TextNode) -> Words:
    """The words of a watch or key."""
    return Words(node)
