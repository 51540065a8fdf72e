"""A plain pass of more than 25 ft (common practice, no source)."""

from generator.checks import long_pass

LONG = """
play: Long
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - {name: Swing, do: [1 passes to 2, 2 passes to 4, 4 shoots]}
"""


def test_manual(manual):
    manual(long_pass)


def test_it_is_told_with_its_length(said):
    (found,) = [d for d in said(LONG) if d.rule == "long-pass"]
    assert " ft (" in found.message and found.severity.value == "warning"


def test_a_skip_pass_is_made_for_it(rules):
    assert "long-pass" not in rules(LONG.replace("2 passes to 4", "2 skip passes to 4"))


def test_slot_to_its_corner_is_an_ordinary_pass_and_to_the_other_corner_is_not(rules):
    text = """
play: Slot
start: {1: right slot with the ball, 2: right corner, 3: left wing, 4: left corner, 5: left block}
phases:
  - {name: Swing, do: [1 passes to PLAYER, PLAYER shoots]}
"""
    for team in ("international", "professional", "college", "high school"):
        assert rules(text.replace("PLAYER", "2"), f"team: Fernhill\nrule set: {team}\n") == set()
        assert rules(text.replace("PLAYER", "4"), f"team: Fernhill\nrule set: {team}\n") == {"long-pass"}


def test_a_bounce_pass_is_a_plain_pass(rules):
    text = """
play: Bounce
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - {name: Swing, do: [1 passes to 2, 2 bounce passes to 4, 4 shoots]}
"""
    assert "long-pass" in rules(text) and "long-pass" not in rules(text.replace("bounce passes", "skip passes"))
