"""The longest branch against the clock: FIBA Art. 29.1.1."""

from generator.checks import shot_clock

LONG = """
play: Long
clock: 4 s
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - {name: One, do: [1 passes to 2, 2 passes to 1, 1 passes to 3, 3 passes to 1, 1 passes to 2]}
  - {name: Two, do: [2 passes to 1, 1 passes to 3, 3 shoots]}
"""


def test_manual(manual):
    manual(shot_clock)


def test_a_play_too_long_is_told_and_nothing_else_is(said, rules):
    assert rules(LONG) == {"shot-clock"}
    (found,) = [d for d in said(LONG) if d.rule == "shot-clock"]
    assert found.severity.value == "warning" and "the clock gives 4" in found.message


def test_without_a_clock_nothing_is_told(rules):
    text = LONG.replace("clock: 4 s\n", "")
    assert "shot-clock" not in rules(text, "team: Fernhill\nrule set: high school\nshot clock: none\n")


def test_the_longest_branch_counts_not_the_main_line(said):
    text = """
play: Branchy
clock: 3 s
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - name: One
    do: [1 passes to 2]
    reads:
      - {who: 2, watch: X2, answers: {deny: [2 passes to 1, 1 passes to 3, 3 passes to 1, 1 passes to 2, 2 shoots], otherwise: 2 shoots}}
"""
    assert [d.rule for d in said(text) if d.rule == "shot-clock"] == ["shot-clock"]
