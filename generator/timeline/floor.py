"""Ways stay on the floor: how far a curve leads over the end line or a sideline."""

from __future__ import annotations

from generator.model.court import Point
from generator.timeline.pieces import Arc, Curve

STEPS = 8  # points looked at on every bend


def off_the_floor(curve: Curve, sideline: float) -> float:
    """How far over the end line or a sideline the way leads, in metres; whoever comes from out there may."""
    if max(_over(curve.start, sideline), _over(curve.end, sideline)) > 0.0:
        return 0.0
    bends = ((p, n) for p, n in zip(curve.pieces, curve.lengths, strict=True) if isinstance(p, Arc))
    return max((_over(p.at(n * k / STEPS), sideline) for p, n in bends for k in range(STEPS + 1)), default=0.0)


def _over(point: Point, sideline: float) -> float:
    return max(0.0, abs(point[0]) - sideline, -point[1])
