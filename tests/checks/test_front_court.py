"""Eight seconds and over and back: FIBA Art. 28.1; ten: NFHS Rule 9-8."""

from generator.checks import front_court

SLOW = """
play: Slow
start: {1: backcourt under the basket with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - name: Up
    do: [1 holds, 1 dribbles slowly to backcourt left corner, 1 dribbles slowly to backcourt right corner, 1 dribbles to top, 1 passes to 2, 2 shoots]
"""
BACK = """
play: Back
start: {1: deep top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - {name: Back, do: [2 cuts to backcourt top, 1 passes to 2]}
  - {name: Again, do: [2 dribbles to top, 2 shoots]}
"""


def test_manual(manual):
    manual(front_court)


def test_a_slow_dribble_is_told_once_and_nothing_else_is(said, rules):
    assert rules(SLOW) == {"front-court"}
    (found,) = [d for d in said(SLOW) if d.rule == "front-court"]
    assert "8 are allowed" in found.message and found.severity.value == "warning"


def test_over_and_back_is_told_once_and_nothing_else_is(said, rules):
    """FIBA Art. 30, from memory."""
    bad = BACK.replace("1 passes to 2]", "1 overhead passes to 2]")
    assert rules(bad) == {"front-court"}
    (found,) = [d for d in said(bad) if d.rule == "front-court"]
    assert "after it was in the front court" in found.message
