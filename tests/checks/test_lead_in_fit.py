"""A lead-in ends where the play starts."""

from generator.checks import lead_in_fit

PLAY = """
lead-in: Round
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - {name: Over, do: [LINES]}
---
play: After
lead-in: [REF]
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - {name: Swing, do: [1 passes to 2, 2 shoots]}
"""


def text(lines, ref="Round"):
    return PLAY.replace("LINES", lines).replace("REF", ref)


def test_manual(manual):
    manual(lead_in_fit)


def test_a_man_elsewhere_is_an_error_at_the_name_and_nothing_else_is_told(said, rules):
    bad = text("1 passes to 2, 2 passes to 1, 4 cuts to left block")
    assert rules(bad) == {"lead-in-fit"}
    (found,) = [d for d in said(bad) if d.rule == "lead-in-fit"]
    assert found.severity.value == "error" and found.location[1:] == (2, 11)
    assert "4 ends Round at left block" in found.message and "left corner" in found.message


def test_the_ball_elsewhere_is_an_error(said):
    found = [d for d in said(text("1 passes to 2")) if d.rule == "lead-in-fit"]
    assert len(found) == 1 and "ball" in found[0].message


def test_roles_turn_the_picture(rules):
    swapped = "1 passes to 2, 2 passes to 1, 2 cuts along the baseline to left wing, 3 cuts to right wing"
    assert "lead-in-fit" in rules(text(swapped))
    assert "lead-in-fit" not in rules(text(swapped, "{Round: {2: 3, 3: 2}}"))


def test_the_ball_is_sought_by_the_roles_too(rules):
    """Who was 1 in the play has been 2 in the lead-in, and 2 has the ball at its end."""
    swapped = text("1 passes to 2", "{Round: {1: 2, 2: 1}}").replace(
        "lead-in: [{Round: {1: 2, 2: 1}}]\nstart: {1: top with the ball, 2: right wing",
        "lead-in: [{Round: {1: 2, 2: 1}}]\nstart: {1: right wing with the ball, 2: top")
    assert "lead-in-fit" not in rules(swapped)
    assert "lead-in-fit" in rules(swapped.replace("[{Round: {1: 2, 2: 1}}]", "[Round]"))


def test_of_two_in_a_chain_the_second_is_met_in_its_roles(rules):
    second = PLAY.split("---", 1)[0].replace("Round", "Second").replace("1: top with the ball, 2: right wing", "2: top with the ball, 1: right wing")
    chain = second.replace("LINES", "2 passes to 1, 1 passes to 2") + "---" + text("1 passes to 2, 2 passes to 1", "Round, {Second: {1: 2, 2: 1}}")
    assert "lead-in-fit" not in rules(chain)
    assert "lead-in-fit" in rules(chain.replace("{Second: {1: 2, 2: 1}}", "Second"))
