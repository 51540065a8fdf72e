"""Twelve feet outside (common practice, no source)."""

from generator.checks import spacing

CROWD = """
play: Crowd
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - {name: In, do: [2 cuts to right slot, 3 cuts to left slot, 4 cuts to 3 ft below left slot, 5 cuts to 3 ft below right slot, 1 holds]}
  - {name: Alone, do: [1 shoots]}
"""


def test_manual(manual):
    manual(spacing)


def test_five_inside_ten_feet_are_told_once_and_nothing_else_is(said, rules):
    assert rules(CROWD) == {"spacing"}
    (found,) = [d for d in said(CROWD) if d.rule == "spacing"]
    assert found.message.startswith("1, 2, 3, 4 and 5") and found.severity.value == "info"


def test_screener_and_user_may_stand_close(rules):
    text = CROWD.replace(
        "2 cuts to right slot, 3 cuts to left slot, 4 cuts to 3 ft below left slot, 5 cuts to 3 ft below right slot, 1 holds",
        "5 ball screens for 1 at right slot, 1 dribbles off 5 to right slot, 1 holds",
    )
    assert "spacing" not in rules(text)


def test_wing_and_slot_of_one_side_are_neighbours_top_and_slot_are_not(rules):
    text = """
play: Near
start: {1: left wing with the ball, 2: right wing, 3: left corner, 4: PLACE, 5: left block}
phases:
  - {name: Up, do: [5 clears to right block, 3 stays, 1 holds]}
  - {name: Shot, do: [1 shoots]}
"""
    assert rules(text.replace("PLACE", "right slot")) == set()
    assert rules(text.replace("PLACE", "1 m above right wing")) == {"spacing"}


def test_nobody_is_asked_for_spacing_once_the_shot_is_up(rules):
    assert rules(CROWD.replace("1 holds", "1 shoots").replace("  - {name: Alone, do: [1 shoots]}\n", "")) == set()


def test_who_leaves_in_the_next_phase_may_stand_close_until_then(rules):
    text = """
play: Near
start: {1: left wing with the ball, 2: right wing, 3: left corner, 4: 1 m above right wing, 5: left block}
phases:
  - {name: Up, do: [5 clears to right block, 3 stays, 1 holds]}
  - {name: Off, do: [4 clears to left slot, 1 holds]}
  - {name: Shot, do: [1 shoots]}
"""
    assert rules(text) == set()
    assert rules(text.replace("4 clears to left slot", "5 clears to left block")) == {"spacing"}
