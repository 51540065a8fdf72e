"""Five seconds in two hands: FIBA Art. 27 (secondary source), NFHS Rules 4-10 and 9-10-1a."""

from generator.checks import held_ball

STAND = """
play: Stand
clock: 20 s
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - {name: Stand, do: [1 holds until 12 s on the clock, 1 drives, 1 finishes]}
"""


def test_manual(manual):
    manual(held_ball)


def test_eight_seconds_are_told_and_nothing_else_is(rules):
    assert rules(STAND) == {"five-seconds"}


def test_the_professional_book_has_no_such_count(rules):
    assert "five-seconds" not in rules(STAND, "team: Fernhill\nrule set: professional\nshot clock: 24\n")


def test_four_seconds_are_let_pass(rules):
    assert "five-seconds" not in rules(STAND.replace("12 s", "16 s"))
