"""No pass through a body."""

from generator.checks import pass_lane

THROUGH = """
play: Through
start: {1: top with the ball, 2: right wing, 3: left wing, 4: nail, 5: front of the rim}
phases:
  - {name: In, do: [1 passes to 5, 5 finishes]}
"""


def test_manual(manual):
    manual(pass_lane)


def test_it_is_told_and_names_the_man(said, rules):
    assert rules(THROUGH) == {"pass-lane"}
    (found,) = [d for d in said(THROUGH) if d.rule == "pass-lane"]
    assert "through 4" in found.message


def test_a_lob_goes_above_him(rules):
    assert "pass-lane" not in rules(THROUGH.replace("1 passes to 5", "1 lobs to 5"))


def test_a_man_beside_the_way_is_not_hit(rules):
    assert "pass-lane" not in rules(THROUGH.replace("4: nail", "4: right elbow"))


def test_who_stands_at_the_receivers_side_is_not_in_the_way(rules):
    assert "pass-lane" not in rules(THROUGH.replace("4: nail", "4: 2 ft above front of the rim"))
    assert "pass-lane" in rules(THROUGH.replace("4: nail", "4: 4 ft above front of the rim"))
