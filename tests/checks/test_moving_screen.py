"""Both feet down before contact: FIBA Art. 33.7, NFHS 4-40."""

from generator.checks import moving_screen

MOVING = """
play: Early
start: {1: top with the ball, 2: right corner, 3: left corner, 4: right wing, 5: right block}
phases:
  - {name: Screen, do: [5 screens for 3 at left short corner, 3 cuts off 5 to left wing at once, 1 passes to 3, 3 shoots]}
"""


def test_manual(manual):
    manual(moving_screen)


def test_a_screener_on_the_move_is_told_and_nothing_else_is(said, rules):
    assert rules(MOVING) == {"moving-screen"}
    (found,) = [d for d in said(MOVING) if d.rule == "moving-screen"]
    assert found.severity.value == "warning" and "5 is still moving" in found.message


def test_waiting_for_the_screen_is_fine(rules):
    assert "moving-screen" not in rules(MOVING.replace(" at once", ""))


def test_the_play_may_allow_it(rules):
    allowed = MOVING.replace("phases:", "allow: {moving-screen: brush only}\nphases:")
    assert "moving-screen" not in rules(allowed)


def test_a_fifth_of_a_second_is_told(rules):
    text = """
play: Soon
start: {1: top with the ball, 2: right corner, 3: left corner, 4: right wing, 5: nail}
phases:
  - {name: Screen, do: [5 screens for 3 at left mid-post, 3 cuts off 5 to left wing at once, 1 passes to 3, 3 shoots]}
"""
    assert "moving-screen" in rules(text)
    assert "moving-screen" not in rules(text.replace(" at once", ""))
