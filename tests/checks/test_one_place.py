"""One player a place when the play begins."""

from generator.checks import one_place

BOTH = """
play: Both
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: left wing}
phases:
  - {name: Swing, do: [1 passes to 2, 2 shoots]}
"""


def test_manual(manual):
    manual(one_place)


def test_it_is_an_error_at_the_start_and_nothing_else_is_told(said, rules):
    assert rules(BOTH) == {"one-place"}
    (found,) = [d for d in said(BOTH) if d.rule == "one-place"]
    assert found.severity.value == "error" and found.location.line == 2 and "3 and 5 both start at left wing" in found.message


def test_shoulder_to_shoulder_is_not_one_place(rules):
    assert "one-place" not in rules(BOTH.replace("5: left wing", "5: beside 3"))
