"""Nobody but the thrower stands outside the lines."""

from generator.checks import in_bounds


def test_manual(manual):
    manual(in_bounds)


def test_the_thrower_may_be_outside_until_he_steps_in(rules):
    text = """
play: In
situation: sideline out of bounds
start: {3: sideline out of bounds right with the ball, 1: right slot, 2: left block, 4: left elbow, 5: right elbow}
phases:
  - {name: In, do: [1 breaks to right wing, 3 inbounds to 1, 3 steps in to right corner, 1 passes to 3, 3 shoots]}
"""
    assert "in-bounds" not in rules(text)
