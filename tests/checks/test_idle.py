"""A position without a line is told so."""

from generator.checks import idle
from generator.diagnostics import format_diagnostic


def test_manual(manual):
    manual(idle)


def test_one_finding_of_one_line_a_play_names_them_all(said):
    text = """
play: Two
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - {name: One, do: [1 passes to 2]}
  - {name: Other, do: [2 passes to 1, 1 shoots]}
"""
    (found,) = [d for d in said(text) if d.rule == "idle"]
    assert found.location.line == 1 and found.message.endswith(": 3, 4, 5 in One; 3, 4, 5 in Other") and "\n" not in format_diagnostic(found)


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
    assert any(d.rule == "idle" and d.message.endswith(": 5 in One") for d in said(text))


def test_who_holds_the_ball_or_reads_is_not_idle(said):
    text = """
play: Hold
start: {1: top with the ball, 2: right wing, 3: left corner, 4: left wing, 5: left block}
phases:
  - name: One
    do: [5 screens for 3, 3 cuts off 5 to right corner]
    reads:
      - {who: 4, watch: X3, when: 3 arrives, answers: {help: [1 passes to 4, 4 shoots], otherwise: go on}}
  - {name: Two, do: [1 passes to 4, 4 shoots]}
"""
    (found,) = [d for d in said(text) if d.rule == "idle"]
    assert ": 2 in One; 2, 3, 5 in Two" in found.message


def test_rounds_of_a_repeat_are_not_told_again(said):
    text = """
play: Round
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - {name: Swing, do: [1 passes to 2, 2 passes to 1]}
  - {repeat: from Swing, times: 2}
"""
    (found,) = [d for d in said(text) if d.rule == "idle"]
    assert found.message.endswith(": 3, 4, 5 in Swing")
