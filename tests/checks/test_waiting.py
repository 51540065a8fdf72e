"""Nobody stands a second ready for the ball (common practice, no source)."""

from generator.checks import waiting


def test_manual(manual):
    manual(waiting)


READ = """
play: Read
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - name: Swing
    do: [2 clears to right corner, 1 dribbles to left slot, 1 dribbles to top]
    reads:
      - {who: 1, watch: X2, when: 1 arrives, answers: {sag: [1 skip passes to 2, 2 shoots], otherwise: [1 passes to 3, 3 shoots]}}
"""


def test_in_an_answer_the_read_decides_when_the_ball_goes(rules):
    assert rules(READ) == set()
    plain = READ[: READ.index("    reads:")].replace("dribbles to top]", "dribbles to top, 1 skip passes to 2, 2 shoots]")
    assert rules(plain) == {"waiting"}


def test_who_is_told_to_hold_does_not_wait(rules):
    text = """
play: Hold
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - {name: Over, do: [2 clears to left block, 2 clears to right corner, 1 passes to 3, 3 holds, 3 skip passes to 2, 2 shoots]}
"""
    assert "waiting" not in rules(text)
    assert "waiting" in rules(text.replace("3 holds, ", ""))
