"""A ghost screen touches nobody."""

from generator.checks import ghost_contact


def test_manual(manual):
    manual(ghost_contact)


def test_a_slip_is_measured_against_the_player_he_was_to_screen_for(rules):
    text = """
play: Slip
start: {1: right wing with the ball, 2: left wing, 3: right corner, 4: top, 5: left block}
phases:
  - {name: Slip, do: [4 down screens for 2 at left elbow, 4 slips to rim, 1 lobs to 4, 4 finishes]}
"""
    assert "ghost-contact" not in rules(text)
