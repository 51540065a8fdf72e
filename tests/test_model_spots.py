"""The spot formulas against the worked numbers, symmetry, the floor and the words."""

from __future__ import annotations

import pytest

from generator.model.areas import area_point, areas_of
from generator.model.court import Point, RuleSet, court_for
from generator.model.spots import (
    OUT_OF_BOUNDS,
    PERIMETER,
    SPOTS,
    down_the_arc,
    lane_edge,
    name_place,
    needs_side,
    perimeter_points,
    rim_point,
    side_of,
    spot_point,
    spot_words,
    straight_out,
    takes_side,
    up_the_arc,
)

COURTS = [court_for(rules) for rules in RuleSet]
NUMBERS = {"circle": range(1, 13), "lane space": range(1, 5)}


def every_spot():
    for spot in SPOTS:
        for side in ("left", "right") if takes_side(spot) else ("",):
            for number in NUMBERS.get(spot, (None,)):
                yield spot, side, number
    yield "half court", "", None


@pytest.mark.parametrize(("spot", "side", "x", "y"), [
    ("top", "", 0, 8.625), ("slot", "right", 2.411, 8.200), ("wing", "right", 4.985, 6.560),
    ("corner", "right", 6.95, 1.2), ("elbow", "right", 2.45, 5.8), ("block", "right", 2.75, 2.85),
])
def test_worked_numbers_of_the_international_floor(spot, side, x, y):
    """timeline.md 9.7, tolerance 0.002."""
    point = spot_point(court_for(RuleSet.INTERNATIONAL), spot, side)
    assert point == pytest.approx((x, y), abs=0.002)


def test_formulas_that_the_worked_numbers_do_not_reach():
    """language.md section 5, worked by hand for the international floor."""
    court = court_for(RuleSet.INTERNATIONAL)
    assert spot_point(court, "nail") == pytest.approx((0, 5.8))
    assert spot_point(court, "free-throw line") == pytest.approx((0, 5.95))
    assert spot_point(court, "middle of the lane") == pytest.approx((0, (1.575 + 5.8) / 2))
    assert spot_point(court, "mid-post", "left") == pytest.approx((-2.75, (2.85 + 5.8) / 2))
    assert spot_point(court, "low block", "left") == pytest.approx((-2.75, 1.95))
    assert spot_point(court, "dunker spot", "right") == pytest.approx((3.05, 1.575))
    assert spot_point(court, "short corner", "right") == pytest.approx((2.45 + 0.45 * 4.15, 1.0))
    assert spot_point(court, "deep top") == pytest.approx((0, 1.575 + 8.25))
    assert spot_point(court, "inside wing", "right") == pytest.approx((5.75 * 0.5**0.5, 1.575 + 5.75 * 0.5**0.5))
    assert spot_point(court, "hash", "right") == pytest.approx((6.6, 8.325))
    assert spot_point(court, "half court", "left") == pytest.approx((-4.5, 13))
    assert spot_point(court, "center circle") == pytest.approx((0, 14))
    assert spot_point(court, "circle", argument=12) == pytest.approx((0, 14 - 2.15))
    assert spot_point(court, "circle", argument=3) == pytest.approx((2.15, 14))
    assert spot_point(court, "lane space", "right", 1) == pytest.approx((2.75, (1.80 + 2.65) / 2))
    assert spot_point(court, "lane space", "right", 2) == pytest.approx((2.75, (3.05 + 3.90) / 2))
    assert spot_point(court, "baseline out of bounds", "right") == pytest.approx((3.35, -0.6))
    assert spot_point(court, "sideline out of bounds", "left") == pytest.approx((-8.1, 8.325))
    assert spot_point(court, "backcourt baseline out of bounds", "right") == pytest.approx((3.35, 28.6))
    assert spot_point(court, "wing", "left", backcourt=True) == pytest.approx((-4.985, 28 - 6.560), abs=0.002)


def test_lane_spaces_skip_the_neutral_zone_of_every_rule_set():
    assert spot_point(court_for(RuleSet.COLLEGE), "lane space", "right", 1).y == pytest.approx(9.5 * 0.3048)
    assert spot_point(court_for(RuleSet.PROFESSIONAL), "lane space", "right", 1).y == pytest.approx(
        (8 + 2 / 12 + 11 + 2 / 12) / 2 * 0.3048)


def test_spots_of_the_mover_lie_on_his_own_line():
    court = court_for(RuleSet.INTERNATIONAL)
    wing = spot_point(court, "wing", "right")
    finish = rim_point(court, wing)
    assert finish.distance(Point(0, court.rim)) == pytest.approx(0.6)
    assert finish.x == pytest.approx(finish.y - court.rim)  # at 45 degrees, as the wing
    assert rim_point(court, Point(3, 0.2)).y == pytest.approx(court.rim)  # not from behind the board
    assert rim_point(court, Point(0, court.rim)) == Point(0, court.rim + 0.6)
    assert spot_point(court, "baseline", origin=wing) == Point(wing.x, 0.6)
    assert spot_point(court, "sideline", origin=wing.mirrored()) == Point(-6.9, wing.y)
    edge = lane_edge(court, wing)
    assert edge.x == court.half_lane and edge.y - court.rim == pytest.approx(edge.x)
    assert spot_point(court, "lane edge", "left", origin=wing.mirrored()) == edge.mirrored()


@pytest.mark.parametrize("court", COURTS, ids=lambda c: c.rule_set.value)
def test_every_spot_is_symmetric(court):
    for spot, side, number in every_spot():
        if side != "right":
            continue
        origin = Point(4.0, 7.0)
        right = spot_point(court, spot, "right", number, origin=origin)
        left = spot_point(court, spot, "left", number, origin=origin.mirrored())
        assert left == right.mirrored(), spot


@pytest.mark.parametrize("court", COURTS, ids=lambda c: c.rule_set.value)
def test_every_spot_is_inside_the_floor_unless_its_name_says_not(court):
    for spot, side, number in every_spot():
        for backcourt in (False, True) if spot not in OUT_OF_BOUNDS else (False,):
            point = spot_point(court, spot, side, number, backcourt, Point(1.0, 6.0))
            inside = abs(point.x) <= court.half_width and 0 <= point.y <= court.length
            assert inside is (spot not in OUT_OF_BOUNDS), (spot, side, number, point)


@pytest.mark.parametrize("court", COURTS, ids=lambda c: c.rule_set.value)
def test_corner_and_wing_stand_behind_that_rule_sets_arc(court):
    rim = Point(0, court.rim)
    for spot, side in PERIMETER:
        point = spot_point(court, spot, side)
        beyond = abs(point.x) > court.corner_line if point.y < court.arc_join else (
            point.distance(rim) > court.arc_radius)
        assert beyond, spot
        assert abs(point.x) < court.half_width


def test_perimeter_runs_from_corner_to_corner():
    court = court_for(RuleSet.COLLEGE)
    at = dict(zip(PERIMETER, perimeter_points(court)))
    assert up_the_arc(court, at["corner", "left"]) == ("wing", "left")
    assert up_the_arc(court, at["wing", "right"]) == ("slot", "right")
    assert up_the_arc(court, at["top", ""]) == ("top", "")
    assert down_the_arc(court, at["slot", "left"]) == ("wing", "left")
    assert down_the_arc(court, at["corner", "right"]) == ("corner", "right")
    assert down_the_arc(court, at["top", ""], "left") == ("slot", "left")
    assert straight_out(court, spot_point(court, "elbow", "left")) == ("slot", "left")
    assert straight_out(court, spot_point(court, "block", "right")) in (("corner", "right"), ("wing", "right"))
    assert straight_out(court, spot_point(court, "nail")) == ("top", "")


@pytest.mark.parametrize("court", COURTS, ids=lambda c: c.rule_set.value)
def test_a_spot_is_called_by_its_name(court):
    taken = []
    for spot, side, number in every_spot():
        if number is not None or spot in ("rim", "lane edge", "baseline", "sideline", "free-throw line"):
            continue
        name = name_place(court, spot_point(court, spot, side))
        taken.append((spot, name.spot))
        assert name.side == side, (spot, name)
        assert name.words == spot_words(name.spot, name.side)
    assert [pair for pair in taken if pair[0] != pair[1]] == []


def test_places_off_the_spots_are_called_by_steps():
    court = court_for(RuleSet.INTERNATIONAL)
    block = spot_point(court, "block", "right")
    assert name_place(court, Point(block.x + 0.8, block.y)).words == "a step outside the right block"
    assert name_place(court, Point(-block.x + 0.8, block.y)).words == "a step inside the left block"
    assert name_place(court, Point(0.1, court.rim + 0.5)).words == "rim"
    assert name_place(court, spot_point(court, "wing", "left", backcourt=True)).words == "backcourt left wing"


def test_sides():
    assert [side_of(Point(x, 3)) for x in (-0.61, -0.6, 0, 0.6, 0.61)] == ["left", "", "", "", "right"]
    assert needs_side("wing") and not needs_side("half court") and takes_side("half court") and not takes_side("top")


def test_who_stands_off_the_arc_goes_to_its_nearest_spot_first():
    """Ours, judged by eye: off the arc is more than 1.5 m from the nearest perimeter spot."""
    court = court_for(RuleSet.INTERNATIONAL)
    wing, elbow = spot_point(court, "wing", "right"), spot_point(court, "elbow", "right")
    assert up_the_arc(court, wing) == ("slot", "right")
    assert up_the_arc(court, Point(wing.x - 1.0, wing.y - 1.0)) == ("slot", "right")
    assert up_the_arc(court, elbow) == ("slot", "right") and spot_point(court, "slot", "right").distance(elbow) > 1.5
    assert up_the_arc(court, Point(0.0, court.free_throw_line)) == ("top", "")


def test_a_press_has_its_deep_man_at_the_basket_and_the_others_beyond_half_court():
    """Ours, no source: the press meets the ball in our back court, one man guards the rim we attack."""
    court = court_for(RuleSet.INTERNATIONAL)
    for press in ("1-2-1-1", "2-2-1"):
        against = f"zone press {press}"
        at = {area: area_point(court, against, area) for area in areas_of(against)}
        assert court.rim < at["deep"].y < court.rim + 4
        assert all(point.y > court.length / 2 for area, point in at.items() if area != "deep")
        front = [point.y for area, point in at.items() if area.startswith("front")]
        assert min(front) > max(point.y for area, point in at.items() if not area.startswith("front"))
