"""Deadlines that nobody can make."""

from generator.checks import deadline

LATE = """
play: Late
start: {1: top with the ball, 2: right wing, 3: left corner, 4: left wing, 5: right block}
phases:
  - {name: Only, do: [3 cuts to right corner before 2 catches, 1 passes to 2, 2 shoots]}
"""


def test_manual(manual):
    manual(deadline)


def test_it_is_told_with_the_seconds_lacking_and_nothing_else_is(said, rules):
    assert rules(LATE) == {"deadline"}
    (found,) = [d for d in said(LATE) if d.rule == "deadline"]
    assert "before 2 catches" in found.message and " s late" in found.message and found.severity.value == "warning"


def test_at_a_second_of_the_clock_that_has_passed(rules):
    text = """
play: Clock
clock: 8 s
start: {1: top with the ball, 2: right wing, 3: left corner, 4: left wing, 5: right block}
phases:
  - {name: Only, do: [1 passes to 2, 2 passes to 1, 1 passes to 2, 2 drives at 7 s, 2 finishes]}
"""
    assert "deadline" in rules(text)
    assert "deadline" not in rules(text.replace("at 7 s", "at 4 s"))
