"""Two who run do not run into each other."""

from generator.checks import collision

CLASH = """
play: Clash
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left block, 5: right block}
phases:
  - {name: Trade, do: [4 cuts to right block, 5 cuts to left block, 1 passes to 2, 2 shoots]}
"""


def test_manual(manual):
    manual(collision)


def test_it_is_told_once_and_nothing_else_is(said, rules):
    assert rules(CLASH) == {"collision"}
    assert len([d for d in said(CLASH) if d.rule == "collision"]) == 1


def test_a_screen_and_its_user_meet_on_purpose(rules):
    text = CLASH.replace("4 cuts to right block, 5 cuts to left block", "4 screens for 5, 5 cuts off 4 to left block")
    assert "collision" not in rules(text)
