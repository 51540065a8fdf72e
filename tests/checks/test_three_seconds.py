"""Three seconds in the lane: FIBA Art. 26 (secondary source), NFHS Rule 9-7."""

from generator.checks import three_seconds

HELD = """
play: Camp
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - {name: In, do: [5 cuts to middle of the lane, 1 passes to 2, 2 passes to 1, 1 passes to 3]}
  - {name: Stay, do: [3 passes to 1, 1 passes to 2, 2 shoots]}
"""


def test_manual(manual):
    manual(three_seconds)


def test_four_seconds_in_the_lane_are_told_and_nothing_else_is(said, rules):
    assert rules(HELD) == {"three-seconds"}
    (found,) = [d for d in said(HELD) if d.rule == "three-seconds"]
    assert found.severity.value == "warning" and found.location.line == 4 and found.message.startswith("5 ")


def test_leaving_in_time_is_fine(rules):
    text = HELD.replace("1 passes to 3]", "5 clears to left block after 1 catches, 1 passes to 3]")
    assert "three-seconds" not in rules(text)


def test_allow_silences_it_in_its_phase_only(rules):
    quiet = HELD.replace("{name: In,", '{name: In, allow: {three-seconds: he moves on his own},')
    assert "three-seconds" not in rules(quiet)
    elsewhere = HELD.replace("{name: Stay,", '{name: Stay, allow: {three-seconds: he moves on his own},')
    assert "three-seconds" in rules(elsewhere)


def test_the_count_waits_until_the_ball_is_in_the_front_court(rules):
    """He stands in the lane for the four seconds of the way up, and leaves as the ball comes over."""
    text = """
play: Up
start: {1: backcourt top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: middle of the lane}
phases:
  - {name: Up, do: [1 dribbles to half court, 5 clears to left block after 1 arrives, 1 dribbles to top, 1 passes to 2, 2 shoots]}
"""
    assert "three-seconds" not in rules(text)
    assert "three-seconds" in rules(text.replace("1: backcourt top", "1: right slot").replace("to half court", "to half court slowly"))
