"""Two who run do not run into each other."""

import pytest

from generator.checks import collision
from generator.checks.stills import Still
from generator.model.court import Point
from generator.model.settled import HandOff
from generator.pipeline import load_and_compute

CLASH = """
play: Clash
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left block, 5: right block}
phases:
  - {name: Trade, do: [4 cuts to right block, 5 cuts to left block, 1 passes to 2, 2 shoots]}
"""


def test_manual(manual):
    manual(collision)


def test_it_is_told_once_and_nothing_else_is(said, rules):
    assert rules(CLASH) == {"collision"}
    assert len([d for d in said(CLASH) if d.rule == "collision"]) == 1


def test_a_screen_and_its_user_meet_on_purpose(rules):
    text = CLASH.replace("4 cuts to right block, 5 cuts to left block", "4 screens for 5, 5 cuts off 4 to left block")
    assert "collision" not in rules(text)


def test_giver_and_receiver_meet_on_purpose(rules):
    text = CLASH.replace("4 cuts to right block, 5 cuts to left block, 1 passes to 2", "1 hands off to 2 at right slot")
    assert rules(text) == set()


CROSS = """
play: Cross
start: {1: left slot with the ball, 2: left wing, 3: right corner, 4: right wing, 5: right block}
phases:
  - {name: Hand, do: [1 hands off to 2 at left slot, 1 clears to left corner]}
  - {name: On, do: [2 dribbles to top, 2 passes to 4, 4 shoots]}
"""


def test_once_the_ball_is_handed_over_nearness_is_told_again(said, tmp_path):
    """Whether they cross is the timeline's; that it is told exactly when they do is the check's."""
    found = [d for d in said(CROSS) if d.rule == "collision"]
    own = tmp_path / "own"
    own.mkdir()
    (own / "team.yml").write_text("team: Fernhill\nrule set: international\n")
    (own / "cross.yml").write_text(CROSS.strip() + "\n")
    timeline = load_and_compute(own).plays[0].main
    handed = next(t for t in timeline.timed.values() if isinstance(t.action, HandOff))
    after = [handed.end + collision.AFTER_IT + 0.05 * i for i in range(20)]
    nearest = min(timeline.position(1, t).distance(timeline.position(2, t)) for t in after)
    assert bool(found) == (nearest < collision.APART)


def test_one_who_stands_is_run_through_nearer_than_two_who_run_collide():
    """0.55 m between centres: too near for two on the move (0.6 m), not for one who stands (0.5 m)."""
    def meeting(way_of_2: float) -> float | None:
        def still(t: float) -> Still:
            places = [Point(-1.0 + 5.0 * t, 5.0), Point(0.0, 5.55 + way_of_2 * t), *(Point(6.0, 2.0 + n) for n in range(3))]
            return Still(t, tuple(places), None)

        return next((t for _, t in collision._meetings(tuple(still(0.2 * i) for i in range(4)), 1, 2)), None)

    assert meeting(0.0) is None
    assert meeting(-0.9) == pytest.approx(0.2, abs=0.1)


TOO_SOON = """
play: Too soon
start: {1: left slot with the ball, 2: right corner, 3: left block, 4: right short corner, 5: left dunker spot}
phases:
  - {name: One, do: [5 sprints to nail, 3 screens for 5 at nail, 5 cuts off 3 to right elbow, 1 passes to 5, 5 shoots]}
"""


def test_screener_and_user_who_meet_before_the_screen_is_there_collide(said, rules):
    """Both run from the left block to the nail at once; at the screen itself they are near each other on purpose."""
    found = [d for d in said(TOO_SOON) if d.rule == "collision"]
    assert len(found) == 1 and "3 and 5" in found[0].message
    assert "collision" not in rules(TOO_SOON.replace("5: left dunker spot", "5: right dunker spot"))


def test_who_is_sent_to_where_another_stands_is_told_as_that_and_not_as_a_collision(rules):
    text = """
play: Over him
start: {1: top with the ball, 2: right wing, 3: 1 ft above nail, 4: left corner, 5: right corner}
phases:
  - {name: One, do: [2 cuts to nail, 1 passes to 2, 2 shoots]}
"""
    assert rules(text) == {"spot-held"}
