"""THE one table of words, under one face.

Contract for the stages behind the parser: the ids below are what `model/sentence.py` carries.

Verbs (`Part.verb`), kinds in brackets (`Part.kind`, '' for the plain verb):
  ball     pass (lob bounce skip overhead pocket drop high-low baseball outlet) look-for fake-pass fake-shot hold dribble
           dribble-at drive retreat snake reject hand-off keep shoot miss inbound tip rebound box-out crash
  move     cut (shuffle run break sprint go come cross move space slide loop rub flex zipper use step-up) curl fade flare back-cut shallow-cut dive flash
           lift drift fill fill-up circle clear set-up exchange follow trail stay post-up seal face step-in
  screen   screen (down pin-down back up cross flex flare hammer exit away ram ball step-up side flat drag) double-screen
           elevator-screen stagger close flip re-screen slip ghost roll short-roll pop step-out
  defence  deny trap switch hedge drop front help stay tag stunt (the verb's id is the coverage's id)
`face` carries what is faced in `Part.facing`. `misses on purpose` is verb `miss`. Objects of `screen`: the freed player
first if named, then defenders.
Spots: ids of `model/spots.py`. Sides: enum `Side`. Ways, manners, roles, events, `on the` words, coverages: ids of the
modules named here. A timing event of a line that begins with `then` is Relation.THEN.
"""

from __future__ import annotations

from functools import cache

from generator.vocabulary import (
    coverages,
    events,
    keys,
    places,
    small_words,
    verbs_ball,
    verbs_defence,
    verbs_move,
    verbs_screen,
)
from generator.vocabulary.entries import EFFORTS, Ball, EventWord, Key, Kind, Spot, Takes, Verb, Word
from generator.vocabulary.words import build, plain_form, third_form

__all__ = [
    "ALL_VERBS",
    "COVERAGE",
    "DEFENCE",
    "EFFORTS",
    "OFFENCE",
    "SPOT",
    "VERB",
    "Ball",
    "EventWord",
    "Key",
    "Kind",
    "Spot",
    "Takes",
    "Verb",
    "Word",
    "coverage_name",
    "effort_of",
    "key_names",
    "kind_of",
    "spot_name",
    "verb_wordings",
]

OFFENCE: tuple[Verb, ...] = (*verbs_ball.VERBS, *verbs_move.VERBS, *verbs_screen.VERBS)
DEFENCE: tuple[Verb, ...] = verbs_defence.VERBS
ALL_VERBS = (*OFFENCE, *DEFENCE)
VERB: dict[str, Verb] = {v.id: v for v in OFFENCE}
SPOT: dict[str, Spot] = {s.id: s for s in places.SPOTS}
COVERAGE: dict[str, Word] = {c.id: c for c in coverages.COVERAGES}


def kind_of(verb: Verb, kind: str) -> Kind | None:
    """The kind of that id."""
    return next((k for k in verb.kinds if k.id == kind), None)


def effort_of(verb: str, kind: str = "") -> float:
    """Share of top speed with which a verb's move is made; 0 for a verb without one."""
    entry = VERB[verb]
    found = kind_of(entry, kind)
    name = (found.effort if found else "") or entry.effort
    return EFFORTS[name] if name else 0.0


def coverage_name(id_: str) -> str:
    """How a coverage is said: the first wording of the table."""
    return plain_form(COVERAGE[id_].words[0])


def spot_name(id_: str) -> str:
    """How a spot is said."""
    return SPOT[id_].words[0]


def key_names(mapping: str) -> tuple[str, ...]:
    """The keys of a mapping."""
    return tuple(k.name for k in keys.KEYS[mapping])


@cache
def verb_wordings(defence: bool = False) -> tuple[str, ...]:
    """Every wording of every verb and kind, as said of one player."""
    wordings = []
    for verb in DEFENCE if defence else OFFENCE:
        wordings += verb.words
        for kind in verb.kinds:
            wordings += kind.words
    return tuple(third_form(w) for w in wordings)


def _verb_pairs(verbs: tuple[Verb, ...]):
    for verb in verbs:
        for wording in verb.words:
            yield wording, (verb, "")
        for kind in verb.kinds:
            for wording in kind.words:
                yield wording, (verb, kind.id)


def _pairs(rows):
    return ((wording, row.id) for row in rows for wording in row.words)


OFFENCE_TRIE = build(_verb_pairs(OFFENCE))
DEFENCE_TRIE = build(_verb_pairs(DEFENCE))
SIDE_TRIE = build(_pairs(places.SIDES))
HALF_TRIE = build(_pairs(places.HALVES))
DIRECTION_TRIE = build(_pairs(places.DIRECTIONS))
ROLE_TRIE = build(_pairs(small_words.ROLES))
ROUTE_TRIE = build(_pairs(small_words.ROUTES))
LINE_SIDE_TRIE = build(_pairs(small_words.LINE_SIDES))
MANNER_TRIE = build(_pairs(small_words.MANNERS))
COVERAGE_TRIE = build(_pairs(coverages.COVERAGES))
BALL_KEY_TRIE = build(_pairs(coverages.BALL_KEYS))
ON_THE_TRIE = build((f"on the {wording}", row.id) for row in events.ON_THE for wording in row.words)
EVENT_TRIE = build((w, e) for e in events.EVENTS if e.of == "one" for w in e.words)
BALL_EVENT_TRIE = build((w, e) for e in events.EVENTS if e.of == "ball" for w in e.words)
AREA_TRIE = build(
    (f"{words} defender", area) for area in small_words.AREAS for words in {area, " ".join(reversed(area.split()))}
)
