"""An answer leads to a shot, a scorer or another phase."""

from generator.checks import open_answer

OPEN = """
play: Open
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - name: Swing
    do: [1 passes to 2]
    reads:
      - {who: 2, watch: X2, answers: {hard close-out: [2 dribbles to right elbow], otherwise: [2 shoots]}}
"""


def test_manual(manual):
    manual(open_answer)


def test_it_stands_at_the_answer_and_nothing_else_is_told(said, rules):
    assert rules(OPEN) == {"open-answer"}
    (found,) = [d for d in said(OPEN) if d.rule == "open-answer"]
    assert "hard close-out" in found.message and found.location.line == 7


def test_a_phase_that_follows_is_enough(rules):
    assert "open-answer" not in rules(OPEN + "  - {name: Then, do: [2 shoots]}\n")


def test_a_pass_to_a_scorer_is_enough(rules):
    assert "open-answer" not in rules(OPEN.replace("2 dribbles to right elbow", "2 passes to 5"))


def test_the_read_may_allow_it(rules):
    assert "open-answer" not in rules(OPEN.replace("watch: X2,", "watch: X2, allow: {open-answer: we stop there},"))


def test_a_fork_without_otherwise_is_told_by_the_parser_and_nothing_else_is(rules):
    assert rules(OPEN.replace(", otherwise: [2 shoots]", "")) == {"otherwise"}


def test_the_same_coverage_twice_is_told_by_the_parser(rules):
    twice = OPEN.replace("otherwise: [2 shoots]", "close out hard: [2 drives, 2 finishes], otherwise: [2 shoots]")
    assert "same-coverage" in rules(twice)


def test_after_a_lost_tip_the_ball_is_theirs_and_nothing_need_follow(rules):
    text = """
play: Jump
situation: jump ball
start: {1: circle at 4 o'clock, 2: circle at 8 o'clock, 3: circle at 2 o'clock, 4: circle at 10 o'clock, 5: center circle}
phases:
  - name: Toss
    do: [5 tips to 1]
    reads:
      - {who: 1, watch: ball, answers: {tip won: [1 dribbles to top, 1 drives, 1 finishes], tip lost: [1 sprints to middle of the lane]}}
"""
    assert "open-answer" not in rules(text)


def test_a_pass_to_somebody_who_goes_on_with_it_is_no_end(rules):
    text = """
play: Bad
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - name: Swing
    do: [1 passes to 2]
    reads:
      - {who: 2, watch: X2, answers: {hard close-out: [2 passes to 5, 5 dribbles to right elbow], otherwise: [2 shoots]}}
"""
    assert rules(text) == {"open-answer"}
    assert rules(text.replace(", 5 dribbles to right elbow", "")) == set()
