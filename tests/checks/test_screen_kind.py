"""The kind named is the kind seen (common practice, no source)."""

from generator.checks import screen_kind
from generator.checks.screen_shapes import Shape, fits, looks_like
from generator.model.court import Point, RuleSet, court_for

COURT = court_for(RuleSet.INTERNATIONAL)
DOWN_THE_LANE = """
play: Wrong
start: {1: right wing with the ball, 2: right corner, 3: left corner, 4: right block, 5: top}
phases:
  - {name: Lane, do: [4 cross screens for 5 at nail, 5 cuts off 4 to rim, 1 lobs to 5, 5 finishes]}
"""


def test_manual(manual):
    manual(screen_kind)


def test_a_cross_screen_down_the_lane_is_told_and_nothing_else_is(said, rules):
    assert rules(DOWN_THE_LANE) == {"screen-kind"}
    (found,) = [d for d in said(DOWN_THE_LANE) if d.rule == "screen-kind"]
    assert "back screen" in found.hint and found.severity.value == "info"


def shape(start, goal, came, stands, ball=(5.0, 6.5), **more):
    return Shape(COURT, *(Point(*p) for p in (start, goal, came, stands, ball)), **more)


SEEN = {
    "down": shape((-6.9, 1.2), (-5.0, 6.5), (-2.7, 2.8), (-5.9, 2.1)),
    "back": shape((-2.4, 8.2), (2.7, 2.8), (5.0, 6.5), (0.0, 5.8)),
    "cross": shape((-2.7, 2.8), (2.7, 2.8), (2.7, 2.8), (-1.8, 2.5)),
    "flare": shape((-2.4, 8.2), (-6.5, 4.5), (-2.4, 5.8), (-3.0, 7.0)),
    "ball": shape((0.0, 8.6), (5.0, 6.5), (2.4, 5.8), (0.7, 8.0), user_has_ball=True),
    "step-up": shape((5.0, 6.5), (2.5, 1.6), (2.7, 2.8), (4.6, 5.6), user_has_ball=True),
    "ram": shape((2.7, 4.3), (2.4, 8.2), (2.7, 2.8), (2.4, 5.8), frees_a_ball_screener=True),
}


def test_each_kind_is_recognised_from_its_picture():
    """One picture a kind, drawn by hand from the words of the trade."""
    for kind, seen in SEEN.items():
        assert looks_like(seen) == kind
        assert fits(seen, kind)


def test_the_mirrored_picture_is_the_same_kind():
    for kind, seen in SEEN.items():
        turned = {n: getattr(seen, n).mirrored() for n in ("start", "goal", "came", "stands", "ball")}
        mirrored = Shape(COURT, **turned, user_has_ball=seen.user_has_ball, frees_a_ball_screener=seen.frees_a_ball_screener)
        assert looks_like(mirrored) == kind


def test_kinds_that_exclude_each_other_do():
    assert not fits(SEEN["down"], "back") and not fits(SEEN["back"], "down")
    assert not fits(SEEN["cross"], "down") and not fits(SEEN["flare"], "cross")
    assert not fits(SEEN["down"], "ball") and not fits(SEEN["ball"], "step-up")
