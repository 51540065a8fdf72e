"""Pairs of named places that lie as the trade wants them, whatever a limit in feet says of the floor.

In: the two ends of a distance; out: whether they are two given spots of one side. Wing and slot are 10 ft apart and slot
and corner 27 ft on the international floor: both ordinary neighbours.
"""

from __future__ import annotations

from generator.model.court import Court, Point
from generator.model.spots import spot_point

ON_THE_SPOT = 0.5  # metres, of both together


def are_on(court: Court, a: Point, b: Point, first: str, second: str) -> bool:
    """One stands on the spot `first`, the other on `second` of the same side."""
    for side in ("left", "right"):
        p, q = spot_point(court, first, side), spot_point(court, second, side)
        if min(a.distance(p) + b.distance(q), a.distance(q) + b.distance(p)) < ON_THE_SPOT:
            return True
    return False
