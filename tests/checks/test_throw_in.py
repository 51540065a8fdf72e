"""Five seconds, one place, and feet inside before a catch: FIBA Art. 17 (secondary source)."""

from generator.checks import throw_in

BASE = """
play: Line
situation: {situation}
start: {{3: {place} with the ball, 1: right slot, 2: left block, 4: left elbow, 5: right elbow}}
phases:
  - {{name: In, do: [{lines}]}}
"""


def line(lines, situation="baseline out of bounds", place="baseline out of bounds right"):
    return BASE.format(lines=lines, situation=situation, place=place)


def test_manual(manual):
    manual(throw_in)


def test_a_pass_back_to_him_outside_is_told(said):
    found = said(line("1 breaks to right corner, 3 inbounds to 1, 1 passes to 3, 3 shoots"))
    assert any("stepped in" in d.message or "out of bounds" in d.message for d in found)


def test_a_quick_throw_in_is_fine(rules):
    assert "throw-in" not in rules(line("1 breaks to right corner, 3 inbounds to 1, 1 shoots"))
