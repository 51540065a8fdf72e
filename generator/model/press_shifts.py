"""How zone presses shift with the ball, as rows for `zone_shifts.py`.

Metres of the international floor in the court's own frame: y 28 is the end line behind the ball at a throw-in. As taught
(common practice, no source): the ball's first catch is trapped in the corner or on the side by the front man and the wing
of that side, the other wing takes the middle, the next man up the sideline; the 1-3-1 waits for the ball at half court.
"""

from __future__ import annotations

from collections.abc import Mapping

# Columns as in `areas.py`; (x, y) or (x, y, share of the way out to the ball).
Row = tuple[tuple[float, ...], ...]
ON: tuple[float, float, float] = (0.0, 0.0, 1.0)  # this one takes the ball
_DEEP = 28.0

PRESS_BALLS: Mapping[str, tuple[float, float]] = {
    "out": (3.4, _DEEP + 0.6), "corner": (5.5, _DEEP - 1.8), "elbow": (2.4, _DEEP - 5.0), "middle": (0.0, _DEEP - 7.0),
    "side": (6.2, _DEEP - 9.0), "half side": (6.0, 15.2), "half middle": (0.0, 15.2),
    "hash": (6.3, 10.2), "front": (0.0, 10.6), "front corner": (6.8, 1.4), "front wing": (5.0, 6.6), "front nail": (0.0, 5.8),
}

PRESS_SHIFTS: Mapping[str, Mapping[str, Row]] = {
    "1-2-1-1": {  # front, left wing, right wing, middle, deep
        "out": (ON, (-2.6, 24.0), (3.6, 24.0), (0.6, 18.5), (0.0, 8.5)),
        "corner": ((3.9, 25.9), (0.4, 22.6), ON, (5.2, 18.6), (1.0, 11.5)),
        "elbow": ((0.9, 22.4), (-1.8, 20.4), ON, (1.8, 17.0), (0.4, 10.0)),
        "middle": (ON, (-3.2, 20.2), (3.2, 20.2), (0.0, 16.4), (0.0, 9.5)),
        "side": ((4.6, 19.6), (0.8, 17.0), ON, (5.4, 14.4), (1.0, 8.5)),
        "half side": ((4.5, 15.7), (0.6, 13.2), ON, (5.2, 10.6), (0.8, 4.6)),
        "half middle": (ON, (-3.0, 14.2), (3.0, 14.2), (0.0, 10.6), (0.0, 4.6)),
    },
    "2-2-1": {  # front left, front right, left wing, right wing, deep
        "out": ((-1.6, 24.6), (2.8, 24.6), (-3.0, 19.4), (3.4, 19.4), (0.0, 9.5)),
        "corner": ((0.8, 24.0), ON, (0.2, 19.2), (4.6, 19.8), (0.6, 11.0)),
        "elbow": ((-0.8, 22.2), ON, (-1.6, 18.4), (3.4, 18.2), (0.3, 10.0)),
        "middle": ((-1.4, 19.6, 0.4), (1.4, 19.6, 0.4), (-3.4, 16.6), (3.4, 16.6), (0.0, 9.5)),
        "side": ((1.8, 18.6), ON, (0.4, 14.8), (5.3, 15.6), (1.0, 8.5)),
        "half side": ((1.4, 14.6), (4.5, 15.9), (0.4, 10.8), ON, (3.4, 7.6)),
        "half middle": ((-1.2, 14.4, 0.4), (1.2, 14.4, 0.4), (-3.4, 11.4), (3.4, 11.4), (0.0, 5.0)),
    },
    "1-3-1": {  # top, left wing, right wing, baseline, middle
        "out": ((0.8, 18.0), (-3.6, 14.6), (3.8, 14.8), (0.0, 4.8), (0.2, 12.8)),
        "corner": ((2.2, 18.2), (-2.8, 14.4), (4.6, 15.4), (0.6, 4.8), (0.8, 13.0)),
        "elbow": ((1.3, 18.0), (-3.2, 14.6), (4.2, 15.0), (0.3, 4.8), (0.4, 12.8)),
        "middle": ((0.0, 18.0), (-3.6, 14.6), (3.6, 14.6), (0.0, 4.8), (0.0, 12.8)),
        "side": ((4.4, 17.2), (-1.0, 13.2), (5.3, 15.4), (1.4, 4.6), (1.8, 12.4)),
        "half side": ((4.5, 15.2), (-0.2, 11.0), ON, (2.8, 4.4), (2.8, 10.8)),
        "half middle": (ON, (-3.6, 12.6), (3.6, 12.6), (0.0, 4.4), (0.0, 10.6)),
        "hash": ((4.7, 10.4), (-0.4, 6.0), ON, (3.4, 2.6), (2.8, 6.6)),
        "front": (ON, (-3.6, 7.6), (3.6, 7.6), (0.0, 2.6), (0.0, 6.2)),
        "front wing": ((3.5, 7.1), (-0.8, 4.4), ON, (3.6, 1.9), (2.4, 4.4)),
        "front corner": ((2.4, 5.6), (-0.2, 2.9), (5.9, 2.9), ON, (2.9, 2.1)),
        "front nail": ((0.0, 7.2), (-2.0, 4.8), (2.0, 4.8), (0.0, 2.4), ON),
    },
}
