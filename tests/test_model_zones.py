"""How zones and presses shift with the ball: what a coach teaches, checked by who stands where.

Common practice of the trade, no published source; distances are ours.
"""

from __future__ import annotations

from itertools import combinations

import pytest

from generator.model.areas import areas_of, mirrored_body
from generator.model.court import Point, RuleSet, court_for
from generator.model.spots import spot_point
from generator.model.zone_shifts import stands
from generator.vocabulary.keys import AGAINST

COURT = court_for(RuleSet.INTERNATIONAL)
RIM = Point(0.0, COURT.rim)
ZONES = [a for a in AGAINST if areas_of(a)]


def at(name: str) -> Point:
    side, _, spot = name.partition(" ")
    return spot_point(COURT, spot, side) if side in ("left", "right") else spot_point(COURT, name, "")


def picture(against: str, ball: Point) -> dict[str, tuple[Point, float]]:
    """Area -> where he is, his own way out to the ball counted, and the share of it."""
    found = {}
    for area, number in areas_of(against).items():
        stand = stands(COURT, against, ball)[number]
        found[area] = (Point(*(p + stand.out * (b - p) for p, b in zip(stand.place, ball))), stand.out)
    return found


def on_ball(against: str, ball: Point) -> list[str]:
    return [area for area, (_, out) in picture(against, ball).items() if out > 0.6]


@pytest.mark.parametrize(("against", "spot", "area"), [
    ("zone 2-3", "right wing", "top right"), ("zone 2-3", "right slot", "top right"), ("zone 2-3", "left corner", "low left"),
    ("zone 2-3", "right short corner", "low right"), ("zone 2-3", "nail", "middle"), ("zone 2-3", "right block", "middle"),
    ("zone 2-1-2", "right corner", "low right"), ("zone 2-1-2", "left elbow", "middle"),
    ("zone 3-2", "top", "top"), ("zone 3-2", "right wing", "right wing"), ("zone 3-2", "left corner", "low left"),
    ("zone 1-2-2", "top", "top"), ("zone 1-2-2", "left wing", "top left"), ("zone 1-2-2", "right corner", "low right"),
    ("zone 1-3-1", "top", "top"), ("zone 1-3-1", "right wing", "right wing"), ("zone 1-3-1", "left corner", "baseline"),
    ("zone 1-3-1", "right corner", "baseline"), ("zone 1-3-1", "nail", "middle"),
    ("box and one on 2", "right wing", "top right"), ("box and one on 2", "right corner", "low right"),
    ("diamond and one on 2", "left wing", "left wing"), ("triangle and two on 1 and 2", "right corner", "low right"),
])
def test_the_right_one_goes_out_to_the_ball(against, spot, area):
    assert on_ball(against, at(spot)) == [area]


def test_two_guards_of_an_even_front_share_a_ball_at_the_top():
    seen = picture("zone 2-3", at("top"))
    assert 0.2 < seen["top left"][1] < 0.6
    assert seen["top left"][1] == pytest.approx(seen["top right"][1])


@pytest.mark.parametrize("against", ["zone 2-3", "zone 2-1-2"])
def test_a_ball_in_the_corner_of_a_two_three(against):
    """Low man out, the middle man in front of the ball-side block, the far low man at the rim, guards to nail and return pass."""
    seen = {area: place for area, (place, _) in picture(against, at("right corner")).items()}
    assert seen["middle"].distance(at("right block")) < 1.0
    assert seen["low left"].distance(RIM) < 1.6
    assert seen["top left"].distance(at("nail")) < 1.6
    assert 2.0 < seen["top right"].distance(at("right wing")) < 3.2
    assert seen["top right"].x > COURT.half_lane


def test_a_ball_on_the_wing_of_a_two_three_brings_the_far_guard_to_the_nail():
    seen = {area: place for area, (place, _) in picture("zone 2-3", at("right wing")).items()}
    assert seen["top left"].distance(at("nail")) < 1.0
    assert abs(seen["low left"].x) < COURT.half_lane
    assert seen["low right"].distance(at("right corner")) < 3.2  # on his way to the corner


def test_the_back_of_a_one_three_one_runs_from_corner_to_corner():
    one, other = (picture("zone 1-3-1", at(spot)) for spot in ("left corner", "right corner"))
    assert one["baseline"][0].x < -4.0 and other["baseline"][0].x > 4.0
    assert other["left wing"][0].distance(RIM) < 1.8 and other["middle"][0].distance(at("right block")) < 1.0


def test_the_front_man_and_the_wing_of_that_side_trap_the_first_catch_of_a_diamond_press():
    ball = Point(5.5, COURT.length - 1.8)
    seen = {area: place for area, (place, _) in picture("zone press 1-2-1-1", ball).items()}
    by_ball = sorted(seen, key=lambda area: seen[area].distance(ball))
    assert set(by_ball[:2]) == {"front", "right wing"}
    assert abs(seen["left wing"].x) < 1.5  # takes the middle
    assert seen["middle"].x > 4.0 and seen["middle"].y < ball.y - 5  # up the sideline
    assert seen["deep"].y < COURT.length / 2


def test_a_two_two_one_traps_on_the_sideline_by_half_court():
    ball = Point(6.2, 15.2)
    seen = {area: place for area, (place, _) in picture("zone press 2-2-1", ball).items()}
    by_ball = sorted(seen, key=lambda area: seen[area].distance(ball))
    assert set(by_ball[:2]) == {"front right", "right wing"}
    assert seen["deep"].x > 2.0  # to the ball's sideline


def test_a_half_court_trap_holds_in_the_front_court():
    for ball in (Point(6.3, 10.2), at("right corner")):
        seen = {area: place for area, (place, _) in picture("zone press 1-3-1", ball).items()}
        by_ball = sorted(seen, key=lambda area: seen[area].distance(ball))
        assert set(by_ball[:2]) == ({"top", "right wing"} if ball.y > 5 else {"baseline", "right wing"})


@pytest.mark.parametrize("against", ZONES)
@pytest.mark.parametrize("rules", list(RuleSet))
def test_mirrored_balls_have_mirrored_pictures_and_nobody_jumps(against, rules):
    court = court_for(rules)
    before = None
    for step in range(0, 120):
        ball = Point(0.06 * step - 0.5, 0.24 * step)
        here, there = stands(court, against, ball), stands(court, against, ball.mirrored())
        for number, stand in here.items():
            other = there[mirrored_body(against, number)]
            assert other.place.x == pytest.approx(-stand.place.x, abs=1e-9)
            assert (other.place.y, other.out) == pytest.approx((stand.place.y, stand.out), abs=1e-9)
            assert abs(stand.place.x) < court.half_width and -0.3 < stand.place.y < court.length
            if before:
                assert stand.place.distance(before[number].place) < 1.6  # the ball went 0.25 m
        before = here


@pytest.mark.parametrize("against", ZONES)
def test_no_two_of_a_zone_stand_in_one_place(against):
    for x in range(-7, 8):
        for y in range(1, 13):
            seen = [place for place, out in picture(against, Point(x, y)).values() if out < 0.2]
            assert all(p.distance(q) > 0.9 for p, q in combinations(seen, 2)), (against, x, y)
