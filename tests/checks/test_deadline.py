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


def test_a_rules_line_has_none(rules):
    """5 comes four seconds after 2 has caught: he begins as soon as he is free."""
    text = """
play: Rule
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
rules:
  - {when: 2 catches, do: [5 cuts to right elbow]}
phases:
  - {name: A, do: [5 cuts to left corner, 5 cuts to right corner, 4 clears to left block, 1 passes to 2, 2 holds, 2 shoots]}
"""
    assert "deadline" not in rules(text)
    assert "deadline" in rules(text.replace('rules:\n  - {when: 2 catches, do: [5 cuts to right elbow]}\n', "").replace("2 holds,", "5 cuts to right elbow as 2 catches, 2 holds,"))
