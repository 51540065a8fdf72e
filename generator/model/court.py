"""The floor of the four rule sets, in metres.

Frame: origin in the middle of the end line's inner edge; x to the right of the offence
facing the basket, y toward half court. Letters in docstrings are those of the spot formulas.
Published dimensions: see tests/test_model_court.py, which names rulebook and edition for each.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from math import hypot, sqrt
from typing import NamedTuple

FOOT = 0.3048


class Point(NamedTuple):
    """A place on the floor in metres."""

    x: float
    y: float

    def distance(self, other: Point) -> float:
        """Straight distance in metres."""
        return hypot(self.x - other.x, self.y - other.y)

    def mirrored(self) -> Point:
        """The same place with left and right exchanged."""
        return Point(-self.x if self.x else 0.0, self.y)


class RuleSet(Enum):
    """Whose lines and clocks the team plays under."""

    INTERNATIONAL = "international"
    PROFESSIONAL = "professional"
    COLLEGE = "college"
    HIGH_SCHOOL = "high school"


@dataclass(frozen=True, slots=True)
class Court:
    """One rule set's floor. All lengths in metres; `block_marks` and `lane_marks` are (near, far) from the end line."""

    rule_set: RuleSet
    length: float  # L
    width: float  # 2 W
    line_width: float
    lane_width: float  # 2 K, outer edges
    free_throw_line: float  # F, far edge from the end line
    free_throw_line_length: float
    backboard: float
    backboard_width: float
    rim: float  # B, centre from the end line
    rim_diameter: float
    arc_radius: float  # R, outer edge
    corner_line: float  # C, from the axis
    restricted_radius: float | None
    center_circle_radius: float  # Q
    free_throw_circle_radius: float
    throw_in_line: float  # H
    lane_marks: tuple[tuple[float, float], ...]
    block_mark: int  # index into lane_marks

    @property
    def half_width(self) -> float:
        """Half the floor's width in metres (W)."""
        return self.width / 2

    @property
    def half_lane(self) -> float:
        """Half the lane's width to the outer edge, metres (K)."""
        return self.lane_width / 2

    @property
    def block_middle(self) -> float:
        """Metres from the end line to the middle of the block mark (M)."""
        near, far = self.lane_marks[self.block_mark]
        return (near + far) / 2

    @property
    def arc_join(self) -> float:
        """Distance from the end line at which the arc meets the corner line: B + sqrt(R^2 - C^2)."""
        return self.rim + sqrt(max(0.0, self.arc_radius**2 - self.corner_line**2))

    @property
    def behind_arc(self) -> float:
        """Metres from the rim at which perimeter players stand: P = R + 0.3."""
        return self.arc_radius + 0.3


def _feet(*values: float) -> tuple[float, ...]:
    return tuple(v * FOOT for v in values)


def _marks(*pairs: tuple[float, float]) -> tuple[tuple[float, float], ...]:
    return tuple((near * FOOT, far * FOOT) for near, far in pairs)


_INCH = FOOT / 12
_COLLEGE_MARKS = _marks((7, 8), (11, 11 + 2 / 12), (14 + 2 / 12, 14 + 4 / 12), (17 + 4 / 12, 17.5))

_COURTS = {
    RuleSet.INTERNATIONAL: Court(
        RuleSet.INTERNATIONAL, 28.0, 15.0, 0.05, 4.90, 5.80, 3.60, 1.20, 1.80, 1.575, 0.45, 6.75, 6.60, 1.25,
        1.80, 1.80, 8.325, ((1.75, 1.80), (2.65, 3.05), (3.90, 3.95), (4.80, 4.85)), 1,
    ),
    RuleSet.PROFESSIONAL: Court(
        RuleSet.PROFESSIONAL, *_feet(94, 50, 2 / 12, 16, 19, 12, 4, 6, 5.25, 1.5, 23.75, 22, 4, 6, 6, 28),
        _marks((7, 7 + 2 / 12), (8, 8 + 2 / 12), (11 + 2 / 12, 11 + 4 / 12), (14 + 4 / 12, 14.5)), 0,
    ),
    RuleSet.COLLEGE: Court(
        RuleSet.COLLEGE, *_feet(94, 50, 2 / 12, 12, 19, 12, 4, 6, 5.25, 1.5), (22 * 12 + 1.75) * _INCH,
        (21 * 12 + 7.875) * _INCH, *_feet(4, 6, 6, 28), _COLLEGE_MARKS, 0,
    ),
    RuleSet.HIGH_SCHOOL: Court(
        RuleSet.HIGH_SCHOOL, *_feet(84, 50, 2 / 12, 12, 19, 12, 4, 6, 5.25, 1.5, 19.75, 19.75), None,
        *_feet(6, 6, 28), _COLLEGE_MARKS, 0,
    ),
}


def court_for(rule_set: RuleSet) -> Court:
    """The floor of a rule set."""
    return _COURTS[rule_set]
