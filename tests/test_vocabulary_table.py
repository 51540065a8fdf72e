"""The one table: consistent in itself, every example valid, handbook page and schema made from it."""

from __future__ import annotations

import re

import jsonschema
import pytest
import yaml

from generator.diagnostics import Location, Severity, format_diagnostic
from generator.model.sentence import Side
from generator.model.spots import SPOTS as FORMULAS
from generator.model.spots import needs_side, takes_side
from generator.parsing import parse_book, parse_line
from generator.source import BookFile
from generator.vocabulary import coverages, events, places, small_words, table, talk
from generator.vocabulary.keys import KEYS
from generator.vocabulary.language_page import language_page
from generator.vocabulary.schema import FILES, schema, schema_text
from generator.vocabulary.spot_words import match_spot
from generator.vocabulary.words import forms, match, split_words, third_form

HERE = Location("example", 1, 1)
LINE_WORDS = (
    places.SPOTS,
    places.SIDES,
    places.HALVES,
    places.DIRECTIONS,
    places.MEASURES,
    places.OTHER_PLACES,
    events.EVENTS,
    events.RELATIONS,
    events.ON_THE,
    small_words.ROLES,
    small_words.OTHER_WHO,
    small_words.ROUTES,
    small_words.LINE_SIDES,
    small_words.MANNERS,
    talk.TALK,
)
VERB_EXAMPLES = [(v.id, "", v.example) for v in table.ALL_VERBS] + [
    (v.id, k.id, k.example) for v in table.ALL_VERBS for k in v.kinds
]


@pytest.mark.parametrize(
    "verb, kind, example", VERB_EXAMPLES, ids=[f"{v}-{k}" if k else v for v, k, _ in VERB_EXAMPLES]
)
def test_the_example_of_a_verb_is_read_as_that_verb(verb, kind, example):
    line, found = parse_line(example, HERE)
    assert not found, [format_diagnostic(d) for d in found]
    assert (line.parts[0].verb, line.parts[0].kind) == (verb, kind)


@pytest.mark.parametrize("example", [row.example for rows in LINE_WORDS for row in rows])
def test_every_example_line_of_the_table_is_valid(example):
    line, found = parse_line(example, HERE)
    assert line and not found, [format_diagnostic(d) for d in found]


def test_every_wording_of_a_verb_is_read_in_both_numbers_and_all_spellings():
    for verb in table.OFFENCE:
        for kind, words in [("", verb.words), *((k.id, k.words) for k in verb.kinds)]:
            for wording in words:
                for spelling in forms(wording):
                    (found, found_kind), end = match(table.OFFENCE_TRIE, list(spelling), 0)
                    assert (found.id, found_kind, end) == (verb.id, kind, len(spelling))


def test_spots_are_those_that_have_a_formula_and_agree_about_sides():
    assert set(table.SPOT) == set(FORMULAS)
    for spot in places.SPOTS:
        assert (spot.sided == "yes") == needs_side(spot.id), spot.id
        assert (spot.sided != "no") == takes_side(spot.id), spot.id


@pytest.mark.parametrize(
    "spot", [s for s in places.SPOTS if s.sided == "yes" and "#" not in s.words[0]], ids=lambda s: s.id
)
def test_the_side_may_stand_anywhere_in_the_name(spot):
    for name in spot.words:
        words = split_words(name)
        for i in range(len(words) + 1):
            found = match_spot([*words[:i], "left", *words[i:]], 0)
            assert (found.spot.id, found.side, found.end) == (spot.id, "left", len(words) + 1)


def test_sides_are_those_of_the_model():
    assert {s.id for s in places.SIDES} == {s.value for s in Side} - {"none"}


def test_defence_verbs_are_coverages():
    assert {v.id for v in table.DEFENCE} <= set(table.COVERAGE)


@pytest.mark.parametrize(
    "verb, kind, effort",
    [
        ("cut", "", 0.75),
        ("cut", "sprint", 1.0),
        ("cut", "break", 1.0),
        ("back-cut", "", 0.85),
        ("drive", "", 0.80),
        ("dive", "", 0.80),
        ("curl", "", 0.75),
        ("roll", "", 0.75),
        ("slip", "", 0.75),
        ("flare", "", 0.70),
        ("fade", "", 0.65),
        ("screen", "down", 0.65),
        ("hand-off", "", 0.60),
        ("fill", "", 0.55),
        ("clear", "", 0.55),
        ("pop", "", 0.55),
        ("lift", "", 0.50),
        ("dribble", "", 0.50),
        ("drift", "", 0.45),
        ("pass", "", 0.0),
    ],
)
def test_efforts_are_those_of_the_timeline_page(verb, kind, effort):
    """Shared timeline page, section 8, line "Effort"."""
    assert table.effort_of(verb, kind) == effort


@pytest.mark.parametrize(
    "base, third",
    [
        ("pass+", "passes"),
        ("carry+ on", "carries on"),
        ("go+", "goes"),
        ("box+ out", "boxes out"),
        ("fly+ high", "flies high"),
        ("play+ behind", "plays behind"),
        ("back cut+", "back cuts"),
    ],
)
def test_third_person(base, third):
    assert third_form(base) == third


# -- keys ------------------------------------------------------------------------------------------------

START = "start: {1: top with the ball, 2: right wing, 3: left corner, 4: right elbow, 5: left block}"
PHASES = "phases: [{name: Swing, do: [1 passes to 2]}]"
FRAME = {
    "play": ("harbor/p.yml", {"play": "play: Tidewall", "start": START, "phases": PHASES}),
    "lead-in": ("lead-ins/l.yml", {"lead-in": "lead-in: Ferry", "start": START, "phases": PHASES}),
    "team": ("team.yml", {"team": "team: Harbor Lights", "rule set": "rule set: college"}),
    "game": (
        "games/g.yml",
        {"against": "against: Quarry Town", "date": "date: 2026-12-04", "plays": "plays: [Tidewall]"},
    ),
}
READ = "who: 3, watch: X3, answers: {sag: @@, otherwise: go on}"
WRAPPED = {  # how an inner mapping stands in a file; @@ is its place
    "phase": (f"play: Tidewall\n{START}\nphases: [@@]", {"name": "name: Second side", "do": "do: [1 passes to 2]"}),
    "repeat": (
        f"play: Tidewall\n{START}\nphases: [{{name: Swing, do: [1 passes to 2]}}, @@]",
        {"repeat": "repeat: from Swing"},
    ),
    "read": (
        f"play: Tidewall\n{START}\nphases: [{{name: Second side, do: [1 passes to 3], reads: [@@]}}]",
        {"who": "who: 3", "watch": "watch: X3", "answers": "answers: {sag: [3 shoots], otherwise: go on}"},
    ),
    "answer": (
        f"play: Tidewall\n{START}\nphases: [{{name: Second side, do: [1 passes to 3], reads: [{{{READ}}}]}}]",
        {"do": "do: [3 shoots]"},
    ),
    "start": (f"play: Tidewall\n{PHASES}\nstart: @@", {}),
    "film": (
        f"play: Tidewall\n{START}\n{PHASES}\nfilm: [@@]",
        {"title": "title: Friday", "link": "link: 'https://example.org/friday'"},
    ),
    "roster": ("team: Harbor Lights\nrule set: college\nroster: [@@]", {"name": "name: Robin Vale"}),
    "quiz": ("against: Quarry Town\ndate: 2026-12-04\nplays: [Tidewall]\nquiz: @@", {}),
}
RULES = {
    "when": ("when", "do"),
    "do": ("when", "do"),
    "who": ("who", "watch", "answers"),
    "watch": ("who", "watch", "answers"),
    "answers": ("who", "watch", "answers"),
    "why": ("who", "watch", "answers", "why"),
    "teach": ("who", "watch", "answers", "teach"),
    "allow": ("who", "watch", "answers", "allow"),
}
HELPERS = (
    BookFile(
        "alignments.yml", "box: {1: top with the ball, 2: left elbow, 3: right elbow, 4: left block, 5: right block}\n"
    ),
    BookFile("lead-ins/ferry.yml", f"lead-in: Ferry\n{START}\n{PHASES}\n"),
    BookFile(
        "lantern/lantern-over.yml",
        f"play: Lantern Over\n{START}\nphases: [{{name: Swing, do: [1 passes to 2]}}, {{name: Second side, do: [2 shoots]}}]\n",
    ),
    BookFile("lantern/tidewall.yml", f"play: Tidewall\n{START}\n{PHASES}\n"),
    BookFile(
        "team.yml", "team: Harbor Lights\nrule set: college\nroster: [{name: Robin Vale, number: 4, positions: [1]}]\n"
    ),
)


def _example_file(mapping: str, key) -> BookFile:
    if mapping == "rule":
        examples = {k.name: k.example for k in KEYS["rule"]}
        inner = ", ".join(examples[k] for k in RULES[key.name])
        return BookFile("harbor/p.yml", f"play: Tidewater\n{START}\n{PHASES}\nrules: [{{{inner}}}]\n")
    if mapping in FRAME:
        path, frame = FRAME[mapping]
        lines = {**frame, key.name: key.example}
        if key.name == "same as":
            lines.pop("start")
            lines["phases"] = PHASES.replace("Swing", "Third side")
        return BookFile(path, "\n".join(lines.values()) + "\n")
    text, frame = WRAPPED[mapping]
    inner = {**frame, key.name: key.example}
    if mapping == "start":
        inner = {"alignment": "alignment: box", key.name: key.example}
    path = {"roster": "team.yml", "quiz": "games/g.yml"}.get(mapping, "harbor/p.yml")
    return BookFile(path, text.replace("@@", "{" + ", ".join(inner.values()) + "}") + "\n")


ALL_KEYS = [(m, k) for m, keys in KEYS.items() for k in keys]


@pytest.mark.parametrize("mapping, key", ALL_KEYS, ids=[f"{m}-{k.name}" for m, k in ALL_KEYS])
def test_the_example_of_every_key_is_valid(mapping, key):
    file = _example_file(mapping, key)
    helpers = [f for f in HELPERS if f.path != file.path and (mapping != "lead-in" or f.path != "lead-ins/ferry.yml")]
    if "play: Tidewall\n" in file.text or mapping == "play" and key.name == "play":
        helpers = [f for f in helpers if f.path != "lantern/tidewall.yml"]
    if "play: Lantern Over\n" in file.text:
        helpers = [f for f in helpers if f.path != "lantern/lantern-over.yml"]
    _, found = parse_book([*helpers, file])
    wrong = [format_diagnostic(d) for d in found if d.severity is Severity.ERROR]
    assert not wrong, file.text
    kind = {
        "phase": "play",
        "repeat": "play",
        "read": "play",
        "answer": "play",
        "rule": "play",
        "start": "play",
        "film": "play",
        "roster": "team",
        "quiz": "game",
    }
    jsonschema.validate(yaml.load(file.text, yaml.BaseLoader), schema(kind.get(mapping, mapping)))


# -- handbook page -----------------------------------------------------------------------------------------


def test_the_page_shows_every_word_and_key():
    page = language_page()
    for verb in table.ALL_VERBS:
        for wording in (*verb.words, *(w for k in verb.kinds for w in k.words)):
            assert f"`{third_form(wording)}`" in page
    for keys in KEYS.values():
        for key in keys:
            assert f"`{key.name}`" in page
    for rows in (places.SPOTS, places.SIDES, coverages.COVERAGES, events.EVENTS, small_words.ROUTES):
        for row in rows:
            assert row.meaning in page and f"`{row.example}`" in page


def test_tables_of_the_page_are_whole():
    for block in re.findall(r"(?:^\|.*\n)+", language_page(), re.MULTILINE):
        widths = {line.count("|") for line in block.splitlines()}
        assert len(widths) == 1, block.splitlines()[0]


# -- schema ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("file", FILES)
def test_the_schema_is_a_schema(file):
    jsonschema.Draft202012Validator.check_schema(schema(file))
    assert schema_text(file) == schema_text(file)


@pytest.mark.parametrize(
    "text",
    [
        "play: A\nsereis: B\nphases: [{name: C}]\n",
        "play: A\nboth sides: maybe\n",
        "series: B\n",
        "play: A\nphases: [{nam: B}]\n",
        "play: A\nstart: {6: top}\n",
    ],
)
def test_the_schema_refuses_what_the_parser_refuses(text):
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(yaml.load(text, yaml.BaseLoader), schema("play"))
    _, found = parse_book([BookFile("harbor/p.yml", text)])
    assert any(d.severity is Severity.ERROR for d in found)
