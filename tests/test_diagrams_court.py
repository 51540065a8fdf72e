"""Every line of the drawn floors, measured in the SVG against published dimensions.

Sources: official rule books of the four rule sets and their court definitions.
Lines are drawn in the middle of the painted line: outer edges lie half a line further out.
"""

from __future__ import annotations

import re

import pytest
from svgelements import Arc
from svgelements import Path as SvgPath

from generator.diagrams.court_scene import court_shapes
from generator.diagrams.path import Bend, Straight
from generator.diagrams.scene import View
from generator.diagrams.svg_writer import court_id, court_symbol
from generator.model.court import Point, RuleSet

FT, INCH = 0.3048, 0.0254
# rule set: length, width, lane, free-throw far edge, rim, arc outer, corner outer, restricted inner or None, line, join
PUBLISHED = {
    RuleSet.INTERNATIONAL: (28.0, 15.0, 4.90, 5.80, 1.575, 6.75, 6.60, 1.25, 0.05, 2.9901),
    RuleSet.PROFESSIONAL: (94 * FT, 50 * FT, 16 * FT, 19 * FT, 5.25 * FT, 23.75 * FT, 22 * FT, 4 * FT, 2 * INCH, 4.3275),
    RuleSet.COLLEGE: (94 * FT, 50 * FT, 12 * FT, 19 * FT, 5.25 * FT, 6.7501, 6.6008, 4 * FT, 2 * INCH, 3.0117),
    RuleSet.HIGH_SCHOOL: (84 * FT, 50 * FT, 12 * FT, 19 * FT, 5.25 * FT, 19.75 * FT, 19.75 * FT, None, 2 * INCH, 1.6002),
}
NEAR = 0.02  # metres: half a tenth of a picture unit for each of several rounded steps


def _subpaths(view: View) -> list[SvgPath]:
    data = re.findall(r'class="line" d="([^"]+)"', court_symbol(view))[0]
    return [SvgPath(sub) for sub in SvgPath(data).as_subpaths()]


def _boxes(view: View):
    return [tuple(v / 10 for v in sub.bbox()) for sub in _subpaths(view)]


@pytest.mark.parametrize("rule_set", RuleSet)
def test_half_floor_has_the_published_measures(rule_set):
    length, width, lane, line, rim, arc, corner, restricted, w, _ = PUBLISHED[rule_set]
    boxes = _boxes(View(rule_set))

    def has(x0, y0, x1, y1):
        return any(all(abs(a - b) < NEAR for a, b in zip(box, (x0, y0, x1, y1), strict=True)) for box in boxes)

    h = w / 2
    assert has(-width / 2 - h, -h, width / 2 + h, length / 2)  # inner edge of the boundary is the floor's
    assert has(-lane / 2 + h, 0, lane / 2 - h, line - h)
    assert has(-0.9 if rule_set is RuleSet.INTERNATIONAL else -3 * FT, 1.2 if rule_set is RuleSet.INTERNATIONAL else 4 * FT,
               0.9 if rule_set is RuleSet.INTERNATIONAL else 3 * FT, 1.2 if rule_set is RuleSet.INTERNATIONAL else 4 * FT)
    assert has(-corner + h, 0, corner - h, rim + arc - h)
    r = 0.225 if rule_set is RuleSet.INTERNATIONAL else 0.75 * FT
    assert has(-r, rim - r, r, rim + r)
    if restricted:
        assert any(abs(b[2] - restricted - h) < NEAR and abs(b[3] - rim - restricted - h) < NEAR for b in boxes)


@pytest.mark.parametrize("rule_set", RuleSet)
def test_arc_meets_the_corner_line_where_geometry_says(rule_set):
    """Outer edges join at rim + sqrt(R^2 - c^2) (geometry); the middle of the line half a width
    inside. The arc is a true circle round the rim."""
    *_, rim, arc, corner, _restricted, w, join = PUBLISHED[rule_set]
    path = next(p for p in court_shapes(View(rule_set)).lines if len(p.pieces) == 3 and isinstance(p.pieces[1], Bend)
                and abs(p.pieces[1].radius - (arc - w / 2) * 10) < 0.01)
    right, bend, left = path.pieces
    assert isinstance(right, Straight) and bend.centre == pytest.approx((0.0, rim * 10), abs=0.01)
    assert right.b == pytest.approx(bend.at(0.0), abs=1e-6) and left.a == pytest.approx(bend.at(bend.length), abs=1e-6)
    assert right.b[0] / 10 == pytest.approx(corner - w / 2, abs=0.001)
    outer = rim + (max(0.0, arc**2 - corner**2)) ** 0.5
    assert outer == pytest.approx(join, abs=0.002)
    assert right.b[1] / 10 == pytest.approx(join, abs=0.06)  # (R - h)^2 - (c - h)^2 under the root moves it by cm


@pytest.mark.parametrize("rule_set", RuleSet)
def test_full_floor_is_half_a_floor_twice(rule_set):
    """Turned by half round its middle the full floor is itself."""
    view = View(rule_set, depth=30.0)
    length = PUBLISHED[rule_set][0]
    boxes = _boxes(view)
    turned = [(-x1, length - y1, -x0, length - y0) for x0, y0, x1, y1 in boxes]
    for box in turned:
        assert any(all(abs(a - b) < NEAR for a, b in zip(box, other, strict=True)) for other in boxes), box
    assert len(boxes) > 12


def test_lane_marks_are_the_published_ones():
    """International: block 2.65-3.05 m from the end line, 0.10 m wide, outside the lane (official court diagram, in part from memory)."""
    marks = court_shapes(View(RuleSet.INTERNATIONAL)).marks
    assert any(m == pytest.approx((24.5, 26.5, 1.0, 4.0), abs=0.01) for m in marks)
    assert len(marks) == 8


def test_basket_down_is_a_turn_and_no_mirror():
    """The offence's right hand lies to the left on a page whose basket is at the bottom."""
    up, down = View(RuleSet.COLLEGE), View(RuleSet.COLLEGE, "down")
    assert up.place(Point(3, 2)) == (30, 20) and down.place(Point(3, 2)) == (-30, -20)
    assert down.floor(down.place(Point(3, 2))) == pytest.approx(Point(3, 2))
    assert 'transform="rotate(180)"' in court_symbol(down) and court_id(up) != court_id(down)
    left, top, width, height = down.box
    assert top == pytest.approx(-110) and top + height == pytest.approx(5) and left == pytest.approx(-width / 2)


def test_view_box_shows_all_of_the_floor_asked_for():
    for rule_set in RuleSet:
        _left, top, width, height = View(rule_set, depth=14.5).box
        _, wide, *_ = PUBLISHED[rule_set]
        assert width > wide * 10 and top <= 0 and top + height >= 145


def test_arcs_in_the_symbol_are_circles():
    """No arc is stretched by rounding: both radii are equal."""
    for sub in _subpaths(View(RuleSet.INTERNATIONAL, depth=30.0)):
        assert all(abs(s.rx - s.ry) < 0.06 for s in sub if isinstance(s, Arc))
