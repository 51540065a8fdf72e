"""Every word of the table is settled: no example of the vocabulary is answered with `not-yet`, none breaks the tool."""

from __future__ import annotations

import random

import pytest

from generator.model.settled import Variant
from generator.parsing import parse_book
from generator.settling import settle
from generator.settling.lines import HANDLERS
from generator.source import BookFile
from generator.vocabulary import (
    coverages,
    events,
    places,
    small_words,
    verbs_ball,
    verbs_defence,
    verbs_move,
    verbs_screen,
)
from tests.settling_case import STANDING, TEAM, play_text

VERBS = (*verbs_ball.VERBS, *verbs_move.VERBS, *verbs_screen.VERBS)
LINES = sorted({
    *(v.example for v in (*VERBS, *verbs_defence.VERBS)), *(k.example for v in VERBS for k in v.kinds),
    *(e.example for e in (*events.EVENTS, *events.RELATIONS, *events.ON_THE)),
    *(p.example for p in (*places.SPOTS, *places.SIDES, *places.HALVES, *places.DIRECTIONS, *places.MEASURES, *places.OTHER_PLACES)),
    *(w.example for w in (*small_words.ROUTES, *small_words.LINE_SIDES, *small_words.MANNERS, *small_words.ROLES, *small_words.OTHER_WHO)),
} - {"1", "X1", "1's defender", "his defender", "low right defender"})
KEYS = [w.id for w in coverages.COVERAGES if w.id != "denied"]  # said of players, in texts only


def settle_text(text: str, variant: Variant | None = None):
    book, found = parse_book([BookFile("team.yml", TEAM), BookFile("a.yml", text)])
    errors = [d for d in found if d.severity.value == "error"]
    return (None, found) if errors else settle(book.plays[0], book, variant or Variant())


def test_every_verb_has_a_handler():
    assert {v.id for v in VERBS} == set(HANDLERS)


@pytest.mark.parametrize("against", ["man", "zone 2-3"])
@pytest.mark.parametrize("line", LINES)
def test_every_example_is_understood(line, against):
    text = play_text(["1 dribbles to right slot", "5 ball screens for 1", line], head=f"against: {against}\nclock: 20 s\n")
    _, said = settle_text(text)
    assert [d for d in said if d.rule == "not-yet"] == []


@pytest.mark.parametrize("key", KEYS)
def test_every_coverage_departs(key):
    watch, who = ("2 then 3", "1") if key == "open" else ("X1 and X5 on 5's screen", "1")
    answer = "2 open" if key == "open" else key
    text = play_text("  - name: A\n    do: [5 ball screens for 1, 1 dribbles off 5 to right wing]\n    reads:\n"
                     f"      - {{who: {who}, watch: {watch}, answers: {{{answer}: [1 shoots], otherwise: go on}}}}\n")
    found, said = settle_text(text)
    assert found is not None and len(found.branches) == 2, said


def random_play(rng: random.Random) -> str:
    """Lines of the table thrown together, with reads: mostly nonsense, as a coach in a hurry might leave it."""
    lines = [line for line in LINES if not line.startswith("anyone")]
    phases = ""
    for number in range(rng.randint(1, 3)):
        do = "".join(f"      - {line}\n" for line in rng.choices(lines, k=rng.randint(1, 6)))
        phases += f"  - name: P{number}\n    do:\n{do}"
        if rng.random() < 0.6:
            answer = ", ".join(rng.choices([line for line in lines if "'" not in line], k=rng.randint(1, 3)))
            who, watch = rng.choice(["1", "2", "5", "ball handler"]), rng.choice(["X1", "X2 on 5's screen", "his defender", "X5"])
            phases += f"    reads:\n      - {{who: {who}, watch: {watch}, answers: {{trail: [{answer}], otherwise: go on}}}}\n"
    if rng.random() < 0.3:
        phases += "  - repeat: mirrored from P0\n"
    against = rng.choice(["man", "zone 2-3", "box and one on 2", "zone press 2-2-1"])
    return play_text(phases, STANDING, f"against: {against}\nclock: 20 s\n")


def throw_together(seeds: range) -> int:
    settled = 0
    for seed in seeds:
        text = random_play(random.Random(seed))
        found, said = settle_text(text)
        turned, said_turned = settle_text(text, Variant(mirrored=True))
        assert (found is None) == (turned is None), text
        assert sorted((d.rule, d.location) for d in said) == sorted((d.rule, d.location) for d in said_turned), text
        settled += found is not None
    return settled


def test_whatever_is_thrown_together_gives_a_play_or_reasons():
    assert throw_together(range(150)) > 0


@pytest.mark.deep
def test_much_more_thrown_together():
    assert throw_together(range(1000, 6000)) > 0
