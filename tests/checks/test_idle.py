"""A position without a line is told so."""

from generator.checks import idle

def test_manual(manual):
    manual(idle)


def test_one_finding_a_phase_names_them_all(said):
    text = """
play: Two
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - {name: One, do: [1 passes to 2]}
  - {name: Other, do: [2 passes to 1, 1 shoots]}
"""
    found = [d for d in said(text) if d.rule == "idle"]
    assert [d.location.line for d in found] == [4, 5]
    assert all("3, 4 and 5 have no line" in d.message for d in found)


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
    assert any(d.rule == "idle" and d.message.startswith("5 has") for d in said(text))
