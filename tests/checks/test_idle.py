"""A position without a line is told so."""

from generator.checks import idle


def test_manual(manual):
    manual(idle)


def test_one_finding_a_play_names_them_all(said):
    text = """
play: Two
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - {name: One, do: [1 passes to 2]}
  - {name: Other, do: [2 passes to 1, 1 shoots]}
"""
    (found,) = [d for d in said(text) if d.rule == "idle"]
    assert found.location.line == 1 and "no line for 3, 4 and 5 in One; 3, 4 and 5 in Other" in found.message


def test_a_phase_may_allow_it(said):
    text = """
play: Two
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - {name: One, allow: {idle: they hold}, do: [1 passes to 2]}
  - {name: Other, do: [2 passes to 1, 1 shoots]}
"""
    (found,) = [d for d in said(text) if d.rule == "idle"]
    assert "One" not in found.message and "Other" in found.message


def test_a_position_named_only_in_a_read_is_idle_in_the_main_line(said):
    text = """
play: Read
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - name: One
    do: [1 passes to 2, 3 stays, 4 stays, 2 shoots]
    reads:
      - {who: 2, watch: X5, answers: {help: [2 passes to 5, 5 finishes], otherwise: go on}}
"""
    assert any(d.rule == "idle" and "no line for 5 in One" in d.message for d in said(text))
