"""Every dimension of the four floors against published numbers.

Confidence as noted when the sources were read: `seen` in a stored copy of the source, `derived` from seen values,
`memory` = from memory. Feet are exact: 1 ft = 0.3048 m.
"""

from __future__ import annotations

from dataclasses import fields
from math import hypot, sqrt

import pytest

from generator.model.court import FOOT, Court, Point, RuleSet, court_for

BOOKS = {
    RuleSet.INTERNATIONAL: "FIBA Official Basketball Rules, Art. 2 (June 2020 numbering 2.4)",
    RuleSet.PROFESSIONAL: "NBA rule 1 court diagram (surface data set; from memory for the edition)",
    RuleSet.COLLEGE: "NCAA Men's and Women's Basketball Court diagram, 17 June 2019",
    RuleSet.HIGH_SCHOOL: "NFHS Basketball Rules Book 2019-20, Rule 1 sections 1-5",
}

# field: (international m, professional ft, college ft, high school ft, confidence)
PUBLISHED = {
    "length": (28.0, 94, 94, 84, "seen"),
    "width": (15.0, 50, 50, 50, "seen"),
    "line_width": (0.05, 2 / 12, 2 / 12, 2 / 12, "seen"),
    "lane_width": (4.9, 16, 12, 12, "seen; outer edges"),
    "free_throw_line": (5.8, 19, 19, 19, "seen; far edge"),
    "free_throw_line_length": (3.6, 12, 12, 12, "seen for FIBA; the others from memory"),
    "backboard": (1.2, 4, 4, 4, "seen"),
    "backboard_width": (1.8, 6, 6, 6, "seen"),
    "rim": (1.575, 5.25, 5.25, 5.25, "seen (63 in)"),
    "rim_diameter": (0.45, 1.5, 1.5, 1.5, "seen (18 in)"),
    "arc_radius": (6.75, 23.75, 22.145833, 19.75, "seen; outer edge; college women since 2021-22"),
    "corner_line": (6.6, 22, 21.65625, 19.75, "seen"),
    "restricted_radius": (1.25, 4, 4, None, "seen; inner edge; none drawn for high school"),
    "center_circle_radius": (1.8, 6, 6, 6, "seen"),
    "free_throw_circle_radius": (1.8, 6, 6, 6, "seen"),
    "throw_in_line": (8.325, 28, 28, 28, "memory for FIBA (far edge); 28 ft seen for the college women's line"),
}
ORDER = (RuleSet.INTERNATIONAL, RuleSet.PROFESSIONAL, RuleSet.COLLEGE, RuleSet.HIGH_SCHOOL)
_COLLEGE_MARKS = ((7, 8), (11, 11.1667), (14.1667, 14.3333), (17.3333, 17.5))
LANE_MARKS = {  # derived: lengths and separations of the marks added up from the backboard
    RuleSet.INTERNATIONAL: ((1.75, 1.80), (2.65, 3.05), (3.90, 3.95), (4.80, 4.85)),
    RuleSet.PROFESSIONAL: ((7, 7.1667), (8, 8.1667), (11.1667, 11.3333), (14.3333, 14.5)),
    RuleSet.COLLEGE: _COLLEGE_MARKS,
    RuleSet.HIGH_SCHOOL: _COLLEGE_MARKS,  # the 7-8 ft block is in the rulebook's figure (memory)
}


@pytest.mark.parametrize("rules", ORDER, ids=lambda r: r.value)
@pytest.mark.parametrize("dimension", PUBLISHED)
def test_dimension_as_published(rules, dimension):
    published = PUBLISHED[dimension][ORDER.index(rules)]
    ours = getattr(court_for(rules), dimension)
    if published is None:
        assert ours is None
        return
    metres = published if rules is RuleSet.INTERNATIONAL else published * FOOT
    assert ours == pytest.approx(metres, abs=0.0005), f"{BOOKS[rules]}: {dimension}"


def test_every_length_of_a_court_is_checked():
    free = {"rule_set", "lane_marks", "block_mark"}
    assert {f.name for f in fields(Court)} - free == set(PUBLISHED)


@pytest.mark.parametrize("rules", ORDER, ids=lambda r: r.value)
def test_lane_marks_as_published(rules):
    unit = 1.0 if rules is RuleSet.INTERNATIONAL else FOOT
    ours = court_for(rules).lane_marks
    assert len(ours) == len(LANE_MARKS[rules])
    for mark, published in zip(ours, LANE_MARKS[rules]):
        assert mark == pytest.approx(tuple(v * unit for v in published), abs=0.001)


@pytest.mark.parametrize(("rules", "feet", "published"), [
    (RuleSet.INTERNATIONAL, 2.9901 / FOOT, "1.575 + sqrt(6.75^2 - 6.60^2); the FIBA figure prints 2.99 m"),
    (RuleSet.PROFESSIONAL, 14.197765, "5.25 + sqrt(23.75^2 - 22^2); 14 ft is the nominal length"),
    (RuleSet.COLLEGE, 9.88085, "5.25 + sqrt(22.1458^2 - 21.65625^2); the 2019 diagram prints 9 ft 10 3/8 in"),
    (RuleSet.HIGH_SCHOOL, 5.25, "level with the rim's centre, NFHS 2019-20 (63 in)"),
])
def test_the_arc_meets_the_corner_line_where_computed(rules, feet, published):
    court = court_for(rules)
    assert court.arc_join == pytest.approx(feet * FOOT, abs=0.0002), published
    join = Point(court.corner_line, court.arc_join)
    assert join.distance(Point(0, court.rim)) == pytest.approx(court.arc_radius, abs=1e-9)
    assert court.arc_join == pytest.approx(court.rim + sqrt(court.arc_radius**2 - court.corner_line**2))


def test_derived_letters():
    court = court_for(RuleSet.INTERNATIONAL)
    assert (court.half_width, court.half_lane, court.behind_arc) == pytest.approx((7.5, 2.45, 7.05))
    assert court.block_middle == pytest.approx(2.85)  # middle of the 2.65-3.05 neutral zone mark
    assert court.half_width - court.corner_line == pytest.approx(0.9)  # FIBA Art. 2: 0.90 m, seen
    assert court.free_throw_line - court.backboard == pytest.approx(4.6)  # FIBA: 4.60 m, seen


def test_points():
    assert Point(3, 4).distance(Point(0, 0)) == 5 == hypot(3, 4)
    assert Point(2, 3).mirrored() == Point(-2, 3) and str(Point(0, 3).mirrored().x) == "0.0"
