"""JSON Schemas for editors, made from the table of keys: what may stand in a play, a lead-in, team.yml and so on.

A YAML editor reads `yes` as text or as true, `4` as text or number: both are valid here, as they are for the parser.
"""

from __future__ import annotations

import json

from generator.vocabulary.entries import Key
from generator.vocabulary.keys import KEYS, spellings

DIALECT = "https://json-schema.org/draft/2020-12/schema"
FILES = ("play", "lead-in", "team", "alignments", "game")
_SCALAR = {"type": ["string", "number", "boolean"]}
_WORDS = {"type": ["string", "number"]}
_PLAYER = {"enum": [1, 2, 3, 4, 5, "1", "2", "3", "4", "5"]}


def schema(file: str) -> dict:
    """The schema of one kind of file of `FILES`."""
    if file == "alignments":
        places = {"type": "object", "patternProperties": {"^[1-5]$": _TYPES["place"]}, "additionalProperties": False}
        top = {"type": "object", "additionalProperties": places}
    else:
        top = {"$ref": f"#/$defs/{_slug(file)}"}
    return {"$schema": DIALECT, "title": f"Second Side: {file}", **top, "$defs": {_slug(m): _mapping(m) for m in KEYS}}


def schema_text(file: str) -> str:
    """The schema as a file."""
    return json.dumps(schema(file), indent=2, ensure_ascii=False, sort_keys=True) + "\n"


def _slug(mapping: str) -> str:
    return mapping.replace(" ", "-")


def _ref(mapping: str) -> dict:
    return {"$ref": f"#/$defs/{_slug(mapping)}"}


def _spellings(name: str) -> tuple[str, ...]:
    """`lead-in` and `lead in`."""
    return tuple(dict.fromkeys((name, name.replace("-", " "), name.replace(" ", "-"))))


def _mapping(mapping: str) -> dict:
    properties, needed = {}, []
    for key in KEYS[mapping]:
        for spelling in _spellings(key.name):
            properties[spelling] = _value(key)
        if _always_needed(mapping, key):
            needed.append({"anyOf": [{"required": [s]} for s in _spellings(key.name)]})
    schema = {"type": "object", "properties": properties, "additionalProperties": False}
    return {**schema, "allOf": needed} if needed else schema


def _always_needed(mapping: str, key: Key) -> bool:
    """`start` and `phases` of a play may come from `same as` or be replaced by `rules`."""
    return key.needed and not (mapping == "play" and key.name in ("start", "phases"))


def _value(key: Key) -> dict:
    shape = {"enum": list(spellings(key))} if key.type == "choice" else _TYPES[key.type]
    return {**shape, "description": f"{key.meaning}. Example: {key.example}"}


def _list_of(item: dict) -> dict:
    return {"anyOf": [item, {"type": "array", "items": item, "minItems": 1}]}


# What may stand under a key, by the `type` of its row in the table.
_PAIRS = {
    "type": "object",
    "patternProperties": {"^[1-5]$": _PLAYER},
    "additionalProperties": False,
    "minProperties": 1,
}
_ANSWER = {"anyOf": [_list_of(_WORDS), _ref("answer")]}
_PHASE = {"anyOf": [_ref("phase"), _ref("repeat")]}
_WEIGHTS = {"type": "object", "additionalProperties": _WORDS}
_TYPES: dict[str, dict] = {
    "text": _SCALAR,
    "name": _WORDS,
    "who": _WORDS,
    "watch": _WORDS,
    "when": _WORDS,
    "event": _WORDS,
    "place": {"type": "string"},
    "alignment": _WORDS,
    "repeat": {"type": "string"},
    "go-to": _WORDS,
    "same-as": {"type": "string"},
    "link": {"type": "string"},
    "date": {"type": "string"},
    "seconds": _WORDS,
    "count": _WORDS,
    "shot-clock": _WORDS,
    "yes-no": {"enum": ["yes", "no", True, False]},
    "lines": _list_of(_WORDS),
    "answer-lines": _list_of(_WORDS),
    "names": _list_of(_WORDS),
    "groups": _list_of(_WORDS),
    "pairs": _PAIRS,
    "role-pairs": _PAIRS,
    "roles": {"anyOf": [_PAIRS, {"const": "by place"}]},
    "start": {"anyOf": [{"type": "string"}, _ref("start")]},
    "phases": _list_of(_PHASE),
    "reads": _list_of(_ref("read")),
    "rules": _list_of(_ref("rule")),
    "answers": {"type": "object", "additionalProperties": _ANSWER, "minProperties": 1},
    "teach": {"type": "object", "additionalProperties": _SCALAR},
    "allow": {"type": "object", "additionalProperties": _SCALAR},
    "lead-ins": _list_of({"anyOf": [_WORDS, {"type": "object", "additionalProperties": _PAIRS}]}),
    "film": _list_of(_ref("film")),
    "roster": _list_of(_ref("roster")),
    "positions": _list_of(_PLAYER),
    "quiz": _ref("quiz"),
    "stopwatch": _WEIGHTS,
    "weights": _WEIGHTS,
    "calls": {"type": "object", "additionalProperties": _SCALAR},
    "team-coverages": {"type": "object", "additionalProperties": {"type": "string"}},
}
