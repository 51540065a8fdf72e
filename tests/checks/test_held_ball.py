"""Five seconds in two hands: FIBA Art. 27 (secondary source), NFHS Rules 4-10 and 9-10-1a."""

from types import SimpleNamespace

from generator.checks import held_ball
from generator.pipeline import load_and_compute

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


BACK = """
play: Back
clock: 20 s
start: {1: backcourt top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - {name: Stand, do: [1 holds until 13.5 s on the clock, 1 dribbles to top, 1 passes to 2, 2 shoots]}
"""


def test_college_men_count_in_the_front_court_only(rules):
    """NCAA men's rules, 2021-22 (secondary source); FIBA Art. 27 counts anywhere."""
    assert "five-seconds" not in rules(BACK, "team: Fernhill\nrule set: college\nshot clock: 30\n")
    assert "five-seconds" in rules(BACK)


LONG = """
play: Long
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left block, 5: right block}
phases:
  - {name: Go, do: [1 dribbles to right corner, 2 clears to right slot]}
  - {name: On, do: [1 dribbles to left slot, 1 passes to 3, 3 shoots]}
"""


def test_high_school_counts_a_dribble_and_the_others_do_not(rules):
    """NFHS Rules 4-10 and 9-10-1a, 2019-20."""
    assert "five-seconds" in rules(LONG, "team: Fernhill\nrule set: high school\n")
    assert "five-seconds" not in rules(LONG)


def test_a_dribble_that_goes_on_at_once_is_one_dribble(tmp_path):
    (tmp_path / "team.yml").write_text("team: Fernhill\nrule set: high school\n")
    (tmp_path / "long.yml").write_text(LONG.strip() + "\n")
    (play,) = load_and_compute(tmp_path).plays
    first, second = [t for t in play.main.timed.values() if t.action.verb == "dribble"]

    def dribbles(pause: float) -> int:
        moved = SimpleNamespace(action=second.action, start=first.end + pause, end=second.end + pause)
        return len(list(held_ball._dribbles(SimpleNamespace(timed={"a": first, "b": moved}))))

    assert dribbles(0.2) == 1 and dribbles(0.6) == 2
