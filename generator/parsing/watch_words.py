"""`watch` and the keys of `answers`."""

from __future__ import annotations

from generator.model.play import Watch, WatchKind
from generator.model.sentence import One, Player
from generator.parsing.place_words import needed_place
from generator.parsing.who_words import DEFENDERS, needed_one, one
from generator.parsing.words_of_line import Words

_FIXED = {
    ("own", "choice"): WatchKind.OWN_CHOICE,
    ("bench",): WatchKind.BENCH,
    ("clock",): WatchKind.CLOCK,
    ("ball",): WatchKind.BALL,
}
_WATCH_HINT = "watch a defender (`X3 on 5's screen`), players (`2 then 5`), `own choice`, `bench`, `clock` or `ball`"


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
        raise words.refuse(
            "watch", "the players of a pass are watched, so no screen", "watch a defender: `X3 on 5's screen`", 0
        )
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
        raise words.refuse(
            "watch",
            "players and defenders are watched in one read",
            "make two reads, one inside an answer of the other",
            0,
        )
    if "and" in joins:
        raise words.refuse("watch", "players are watched in an order", "join them with `then`", 0)
    return WatchKind.PLAYERS
