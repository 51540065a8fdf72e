"""`start` and alignments: who stands where, with whose ball."""

from __future__ import annotations

from functools import partial

from generator.model.play import Start, StartPlace
from generator.parsing import fields
from generator.parsing.findings import Findings
from generator.parsing.notes import read_words
from generator.parsing.place_words import needed_place
from generator.parsing.words_of_line import Words
from generator.source.nodes import MappingNode, Node, TextNode

EXAMPLE = "write `start: {1: top with the ball, 2: right wing, 3: left corner, 4: right elbow, 5: left block}` or an alignment's name"


def read_start(node: Node, findings: Findings) -> Start | None:
    """The value of `start`."""
    if isinstance(node, TextNode):
        name = fields.name(node, "start", findings)
        return Start(name, (), node.location) if name else None
    if not isinstance(node, MappingNode):
        findings.error(node.location, "shape", "`start` is no list", EXAMPLE)
        return None
    keys = fields.read_fields(node, "start", "`start`", findings)
    alignment = fields.name(keys.get("alignment"), "alignment", findings) or None
    return Start(alignment, read_places(keys, findings), node.location)


def read_places(keys: fields.Fields, findings: Findings) -> tuple[StartPlace, ...]:
    """The places under the keys 1 to 5, in that order."""
    places = []
    for number in range(1, 6):
        node = keys.get(str(number))
        if node is None:
            continue
        found = read_words(node, str(number), findings, partial(_start_place, number=number))
        if found:
            places.append(found)
    return tuple(places)


def _start_place(words: Words, number: int) -> StartPlace:
    words.take("at") or words.take("on") or words.take("in")
    place = needed_place(words, str(number))
    ball = run = False
    while not words.at_end():
        if not ball and words.take("with", "ball"):
            ball = True
        elif not run and words.take("on", "run"):
            run = True
        else:
            said, after = words.next_said(), words.said(words.i - 1, words.i)
            hint = "after the place stand only `with the ball` and `on the run`"
            raise words.refuse("word", f"'{said}' has no meaning after `{after}`", hint)
    return StartPlace(number, place, ball, run, source=words.node.location)
