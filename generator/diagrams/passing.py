"""Other ways to draw a pass: straight beside the plain line, to another side of a number, to the runner himself, bent.

A straight pass beats a bent one: the ball flies straight. Each yields (path, price, room it is cut off at); prices as
in `bending`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import cos, radians, sin

from generator.diagrams.bending import bows
from generator.diagrams.path import Path, Spot, Straight, apart, shifted, unit
from generator.diagrams.stations import Disc

Way = tuple[Path, float, Disc | None]

_BESIDE = (2.2, -2.2, 4.0, -4.0)  # picture units the two ends are moved across, to the same side
_ROUND = (45, -45, 75, -75, 100, -100)  # degrees round the number it reaches
_ROUND_PRICE = 0.06  # for each of them
_EARLIER = (6.0, 10.0, 14.0, 18.0)  # picture units before the end of a run
_ON_THE_RUN = 2.6  # room between a pass and the way it meets
_EDGE = 0.85
_STANDS = 4.0
_BENT = 1.5


def straight_passes(whole: Path, reaches: Disc, way: Path | None, stands: Disc | None) -> Iterator[Way]:
    """From middle to middle, then beside it, round the number reached, to the receiver's `way`, if he runs, and to his
    only number `stands`, if he but steps aside."""
    a, b = whole.first, whole.last
    yield _line(a, b), 0.0, reaches
    along = unit(a, b)
    across = (-along[1], along[0])
    for by in _BESIDE:
        yield _line(shifted(a, across, by), shifted(b, across, by)), abs(by), reaches
        yield _line(a, shifted(b, across, by)), abs(by), reaches
    for turn in _ROUND:
        c, s = cos(radians(turn)), sin(radians(turn))
        side = (-c * along[0] + s * along[1], -s * along[0] - c * along[1])
        yield _line(a, shifted(b, side, reaches.radius + _EDGE)), _ROUND_PRICE * abs(turn), reaches
    if way is not None:
        for back in _EARLIER:
            if back < 0.5 * way.length:
                spot = way.at(way.length - back)
                yield _line(a, spot), 0.7 * back, Disc(spot, _ON_THE_RUN)
    if stands is not None:
        yield _line(a, stands.at), _STANDS, stands


def bent_passes(straight: Iterable[Way], reaches: Disc) -> Iterator[Way]:
    """The straight ways to the number itself, bent."""
    for path, price, room in straight:
        for bent, bow in bows(path) if room is reaches else ():
            yield bent, price + bow + _BENT, room


def _line(a: Spot, b: Spot) -> Path:
    return Path((Straight(a, b),)) if apart(a, b) > 1e-6 else Path((Straight(a, shifted(b, (0.0, -1.0), 0.1)),))
