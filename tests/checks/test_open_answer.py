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
