"""Five seconds, one place, and feet inside before a catch: FIBA Art. 17 (secondary source). The
seconds of each book stand in test_counts.py."""

import pytest

from generator.checks import throw_in

BASE = """
play: Line
situation: {situation}
start: {{3: {place} with the ball, 1: right slot, 2: left block, 4: left elbow, 5: left slot}}
phases:
  - {{name: In, do: [{lines}]}}
"""


def line(lines, situation="baseline out of bounds", place="baseline out of bounds right"):
    return BASE.format(lines=lines, situation=situation, place=place)


def test_manual(manual):
    manual(throw_in)


def test_a_pass_back_to_him_outside_is_told_and_nothing_else_is(said, rules):
    bad = line("1 breaks to right corner, 3 inbounds to 1, 1 passes to 3")
    assert rules(bad) == {"throw-in"}
    (found,) = [d for d in said(bad) if d.rule == "throw-in"]
    assert "before he has stepped in" in found.message and "steps in" in found.hint


def test_a_quick_throw_in_is_fine(rules):
    assert rules(line("1 breaks to right corner, 3 inbounds to 1, 1 shoots")) == set()


def test_stepping_in_first_is_fine(rules):
    text = line("1 breaks to right corner, 3 inbounds to 1, 3 steps in to right block, 1 passes to 3, 3 finishes")
    assert "throw-in" not in rules(text)


@pytest.mark.parametrize("lines, told", [
    ("3 runs to baseline out of bounds left, 3 inbounds to 1", "moves-with-ball"), ("3 dribbles to right corner", "out-of-bounds-dribble"),
    ("3 shoots", "out-of-bounds-dribble"), ("3 steps in to right corner", "steps-in-with-ball"), ("4 inbounds to 1", "no-ball"),
])
def test_what_a_thrower_may_never_do_is_refused_and_nothing_else_is_told(rules, lines, told):
    assert rules(line(lines)) == {told}


def test_a_tenth_over_five_seconds_is_told(said):
    """He throws at 5.1 s."""
    text = """
play: Wait
situation: sideline out of bounds
start: {3: sideline out of bounds right with the ball, 1: right slot, 2: left block, 4: left elbow, 5: right elbow}
phases:
  - {name: Wait, do: [2 cuts to right corner, 2 cuts to left block, 2 breaks to left block, 3 inbounds to 2, 2 shoots]}
"""
    assert [d.message for d in said(text) if d.rule == "throw-in"] == [
        "3 holds the ball out of bounds for 5 s or more; 5 are allowed (FIBA Art. 17, 2020)"]
