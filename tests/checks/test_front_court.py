"""Eight seconds and over and back: FIBA Art. 28.1; ten: NFHS Rule 9-8."""

from generator.checks import front_court

SLOW = """
play: Slow
start: {1: backcourt under the basket with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - name: Up
    do: [1 holds, 1 dribbles slowly to backcourt left corner, 1 dribbles slowly to backcourt right corner, 1 dribbles to top, 1 passes to 2, 2 shoots]
"""
SCHOOL = "team: Fernhill\nrule set: high school\n"


def test_manual(manual):
    manual(front_court)


def test_the_count_is_that_of_the_rule_set(said):
    found = [d for d in said(SLOW) if d.rule == "front-court"]
    assert found and "8 are allowed" in found[0].message
    slow = [d for d in said(SLOW, SCHOOL) if d.rule == "front-court"]
    assert all("10 are allowed" in d.message for d in slow)
