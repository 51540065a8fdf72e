"""The handbook's language page, printed from the table: every key and every word, with meaning and example."""

from __future__ import annotations

from collections.abc import Iterable

from generator.vocabulary import (
    advice,
    coverages,
    events,
    places,
    small_words,
    talk,
    verbs_ball,
    verbs_defence,
    verbs_move,
    verbs_screen,
)
from generator.vocabulary.entries import Ball, Takes, Verb, Word
from generator.vocabulary.keys import ALSO, KEYS
from generator.vocabulary.words import third_form

_BALL = {
    Ball.NEEDS: "has it",
    Ball.GIVES: "gives it",
    Ball.TAKES: "in the air",
    Ball.WITHOUT: "without it",
    Ball.EITHER: "either",
}
_MAPPINGS = {
    "play": "A play",
    "lead-in": "A lead-in's file",
    "phase": "A phase",
    "repeat": "A repeat, as an item of `phases`",
    "read": "A read",
    "answer": "An answer written with keys",
    "rule": "A rule",
    "start": "`start` and alignments",
    "film": "A film",
    "team": "team.yml",
    "roster": "A roster entry",
    "game": "A game plan, games/*.yml",
    "quiz": "`quiz` of a game plan",
}
_INTRODUCTION = """# The play language

A play file is YAML for the structure; each line under `do` is one sentence. This page is printed from the same table
that the checker reads, so it holds every word there is.

## How a file is written

- Keys are lower case; spaces and hyphens are alike (`lead in`, `lead-in`). Values need no quotes, except texts that contain
  `: ` or ` #` or begin with one of ``- ? [ ] { } * & ! | > % @ ` ' "``: put those in double quotes.
- Letter case is free in sentences, and so is the number of the verb (`2 and 4 screen`, `2 and 4 screens`). Hyphen, space or
  nothing inside a verb or kind are alike (`back-cuts`, `back cuts`, `backcuts`). `the`, `a`, `an`, `his` are skipped.
- Commas in a sentence count as spaces, but in `[ ... ]` a comma begins the next line: leave it out.
- A sentence is: who, verb, then object, place, way, side and manner in any order, timing last. `then` or `and` before a
  verb gives the same player a second verb. A line that begins with `then` waits for all lines above it.
- A place is a spot with its side anywhere in the name (`left wing`, `wing left`, `wing opposite 3`), or told from others:
  `a step outside right block`, `beside 5`, `where 3 was`, `between top and left wing`, `backcourt left wing`.
- Left and right are always the offence's, facing the basket it attacks.
- Words that say nothing more are skipped: `it` and `the ball` after a verb of the ball (`swings it to 2`), `up`, `out`, `down`,
  `back`, `in` before `to` and the like (`slides down to left corner`), `of` after `off`, `screen` after `5's`. `2's man` is
  `2's defender`. `in` and `on` may stand before a spot (`on the left block`).
- Two or more players may share a line: `2, 3 and 4 dive`; a spot in the plural is the one of each player's own side
  (`2 and 3 space to the corners`).
"""


def language_page() -> str:
    """The page as Markdown."""
    return "\n".join([_INTRODUCTION, *_keys(), *_who(), *_verbs(), *_places(), *_ways(), *_timing(), *_talk(), *_reads(), *_not_taken()])


def _row(*cells: str) -> str:
    return "| " + " | ".join(cells) + " |"


def _table(head: tuple[str, ...], rows: Iterable[tuple[str, ...]]) -> list[str]:
    return [_row(*head), _row(*("---" for _ in head)), *(_row(*row) for row in rows), ""]


def _code(text: str) -> str:
    return f"`{text}`"


def _also(words: tuple[str, ...]) -> str:
    return ", ".join(_code(third_form(w)) for w in words)


def _words(rows: tuple[Word, ...], shown=lambda row: _also(row.words)) -> list[str]:
    return _table(("word", "meaning", "example"), ((shown(r), r.meaning, _code(r.example)) for r in rows))


def _keys() -> list[str]:
    page = ["## Keys", ""]
    for mapping, title in _MAPPINGS.items():
        rows = (
            (_code(k.name) + (" **needed**" if k.needed else ""), _meaning(k), _code(k.example)) for k in KEYS[mapping]
        )
        page += [f"### {title}", "", *_table(("key", "meaning", "example"), rows)]
    return page


def _meaning(key) -> str:
    if not key.choices:
        return key.meaning
    also = ", ".join(_code(w.replace("#", "2-3" if "zone" in w or w == "#" else "2-2-1")) for w in ALSO.get(key.name, ()))
    return f"{key.meaning}: " + ", ".join(_code(c) for c in key.choices) + (f" (also {also})" if also else "")


def _who() -> list[str]:
    areas = ", ".join(f"`the {a} defender`" for a in small_words.AREAS)
    return [
        "## Who",
        "",
        *_words(small_words.OTHER_WHO),
        "### Roles",
        "",
        *_words(small_words.ROLES),
        f"Areas of a zone: {areas}.",
        "",
    ]


def _verbs() -> list[str]:
    groups = (
        ("With the ball", verbs_ball.VERBS),
        ("Without the ball", verbs_move.VERBS),
        ("Screens", verbs_screen.VERBS),
        ("Defenders", verbs_defence.VERBS),
    )
    page = ["## Verbs", ""]
    for title, verbs in groups:
        page += [
            f"### {title}",
            "",
            *_table(("verb", "takes", "ball", "where he ends", "meaning", "example"), map(_verb, verbs)),
        ]
        for verb in verbs:
            if verb.kinds:
                page += [f"Kinds of {_code(third_form(verb.words[0]))}:", "", *_words(verb.kinds)]
    return page


def _verb(verb: Verb) -> tuple[str, ...]:
    return (_also(verb.words), _takes(verb), _BALL[verb.ball], verb.end, verb.meaning, _code(verb.example))


def _takes(verb: Verb) -> str:
    parts = []
    whom = {"defender": "a defender", "both": "a player, a defender, or both", "one": "anybody"}.get(
        verb.of, "a player"
    )
    before = f"`{verb.preposition}` " if verb.preposition else ""
    if verb.object is not Takes.NO:
        parts.append(f"{before}{whom}{_needed(verb.object)}")
    if verb.place is not Takes.NO:
        parts.append(f"place{_needed(verb.place)}")
    parts += ["way"] * verb.route + ["side"] * verb.side
    return ", ".join(parts) or "-"


def _needed(takes: Takes) -> str:
    return {Takes.MUST: " **needed**", Takes.OR_PLACE: " or a place **needed**"}.get(takes, "")


def _places() -> list[str]:
    rows = (
        (
            ", ".join(_code(w.replace("#", "N")) for w in s.words),
            _sided(s.sided),
            s.meaning,
            _code(s.formula),
            _code(s.example),
        )
        for s in places.SPOTS
    )
    return [
        "## Places",
        "",
        (
            "Formulas give the right side in metres: x from the middle, y from the end line. The letters are the rule set's: "
            "B rim, R arc, P = R + 0.3, C corner line, W half width, L length, K half lane, F free-throw line, M block mark, H hash line, Q centre circle; "
            "ray(a, d) is the point d from the rim at the angle a."
        ),
        "",
        *_table(("spot", "side", "where", "formula", "example"), rows),
        "### Sides",
        "",
        *_words(places.SIDES),
        "### A half as a place",
        "",
        *_words(places.HALVES),
        "### Places told from others",
        "",
        *_words(places.OTHER_PLACES),
        *_words(places.DIRECTIONS),
        *_words(places.MEASURES),
    ]


def _sided(sided: str) -> str:
    return {"yes": "needed", "may": "may stand", "no": "none"}[sided]


def _ways() -> list[str]:
    return [
        "## Ways, sides and manners",
        "",
        "### Ways",
        "",
        *_words(small_words.ROUTES),
        "### On which side",
        "",
        *_words(small_words.LINE_SIDES),
        "### Manners",
        "",
        *_words(small_words.MANNERS),
    ]


def _timing() -> list[str]:
    return [
        "## Timing",
        "",
        *_words(events.RELATIONS),
        "### Events",
        "",
        *_words(events.EVENTS),
        "### After `on the`",
        "",
        *_words(events.ON_THE, lambda row: _code(f"on the {row.words[0]}")),
    ]


def _talk() -> list[str]:
    nouns = ", ".join(_code(w) for w in talk.SCREEN_NOUNS)
    own = ", ".join(_code(third_form(row.words[0])) for v in (*verbs_ball.VERBS, *verbs_move.VERBS) for row in (v, *v.kinds) if row.own_side)
    return [
        "## Said another way",
        "",
        "Talk that stands for plain lines. A comma, `and` or `then` with another player and his verb begins a second line",
        "(`5 rolls and 4 pops to top`), and so does `who` (`1 passes to 2 who shoots`); a timing then needs lines of their own,",
        "since it could belong to either. A timing may open a line when a comma follows it (`as 2 catches, 5 dives`).",
        "",
        *_words(talk.OFF),
        f"A screen as a thing may be called {nouns}.",
        "",
        *_words(talk.WALKS),
        *_words(talk.LEADS),
        *_words(talk.UNDER_WAY),
        *_words((*talk.SHOT_HOW, *talk.FOR_SHOT)),
        "`gets`, `takes`, `receives`, `catches`, with `from` and the giver:",
        "",
        *_words(talk.GIVEN),
        *_words((*talk.GAPS, *talk.CIRCLE_SIDES)),
        "`with` and a kind of pass may follow the receiver (`1 hits 5 with a pocket pass`); `follows his pass` follows whoever caught it.",
        f"A spot without its side is the one of his own half (of the receiver's half after a pass) with {own}.",
        "",
    ]


def _not_taken() -> list[str]:
    rows = [row for rows in (advice.OPENINGS, advice.VERBS, advice.WORDS, advice.COVERAGES) for row in rows]
    return [
        "## Words that are not taken",
        "",
        "They could mean two things, or say no movement.",
        "",
        *_table(("word", "what to write"), ((_also(words), hint) for words, hint in rows)),
    ]


def _reads() -> list[str]:
    return [
        "## Reads",
        "",
        "### What is watched",
        "",
        *_words(coverages.WATCHES, lambda row: _code(row.words[0])),
        "### Coverages, as keys of `answers`",
        "",
        "Keys join with `or`; `X5 hedge` and `X1 trail and X5 help` name defenders; `otherwise` holds the main line.",
        "",
        *_words(coverages.COVERAGES),
        "### Keys with `watch: ball`",
        "",
        *_words(coverages.BALL_KEYS),
        "### Keys with `watch: clock`",
        "",
        *_words(coverages.CLOCK_KEYS, lambda row: _code(row.words[0])),
    ]
