"""Other ways a line may take to the same place: bent more or less, led past a number, past a corner that lies in one.

`out`: how much farther out than the number asks, to come past two at once. Each yields (path, price); the price is how far it strays from the plain way, in picture units or about so.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import acos, atan2, pi, tan

from generator.diagrams.path import Bend, Path, Spot, Straight, apart, bowed, crown, shifted, unit
from generator.diagrams.stations import Disc

BOWS = (3.0, -3.0, 5.0, -5.0, 8.0, -8.0, 12.0, -12.0, 17.0, -17.0, 23.0, -23.0)
_MOST_BOW = 0.42  # of the chord
_AIR = 1.2  # between a number's room and a line led past it
_SOFT = 7.0  # picture units: radius of a rounded corner
_STRAIGHT_ON, _SHARP_TURN = 0.97, -0.8  # cosines of the turns between which a corner is rounded
_FAR_OUT = 5.0  # price of each unit farther out


def bows(path: Path) -> Iterator[tuple[Path, float]]:
    """The path with one of its pieces bent more or less than it is, and by how much."""
    for i, piece in enumerate(path.pieces):
        a, b = piece.at(0.0), piece.at(piece.length)
        chord = apart(a, b)
        if chord < 6.0 or (isinstance(piece, Bend) and abs(piece.sweep) > pi):
            continue
        bulge = crown(piece)
        for change in BOWS if isinstance(piece, Straight) else BOWS[:8]:
            height = bulge + change
            if abs(height) < _MOST_BOW * chord or abs(height) < abs(bulge):
                yield Path((*path.pieces[:i], bowed(a, b, height), *path.pieces[i + 1 :])), abs(change)


def detours(path: Path, disc: Disc, half: float, out: float) -> Iterator[tuple[Path, float]]:
    """The path with the straight piece that meets a disc led past it on either side by one rounded corner."""
    for i, piece in enumerate(path.pieces):
        if not isinstance(piece, Straight) or piece.length < 6.0 or piece.gap(disc.at) >= disc.radius + half:
            continue
        way = piece.heading(0.0)
        across = (-way[1], way[0])
        for side in (1.0, -1.0):
            corner = shifted(disc.at, across, side * (disc.radius + half + _AIR + out))
            led = _rounded(piece.a, corner, piece.b, 8.0)
            yield Path((*path.pieces[:i], *led, *path.pieces[i + 1 :])), 6.0 + _FAR_OUT * out


def bypasses(path: Path, disc: Disc, half: float, out: float) -> Iterator[tuple[Path, float]]:
    """The path, whatever its pieces, left shortly before a disc and joined again behind it, on either side."""
    room = disc.radius + half
    nearest = path.nearest(disc.at)
    for run_up in (5.0, 10.0):
        begin = nearest
        while begin > 0 and apart(path.at(begin), disc.at) < room + run_up:
            begin -= 1.0
        end = nearest
        while end < path.length and apart(path.at(end), disc.at) < room + run_up:
            end += 1.0
        p, q = path.at(max(0.0, begin)), path.at(min(path.length, end))
        way = unit(p, q)
        before, after = path.part(0.0, begin).pieces, path.part(end, path.length).pieces
        for side in (1.0, -1.0):
            corner = shifted(disc.at, (-way[1] * side, way[0] * side), room + _AIR + out)
            led = _rounded(p, corner, q, 8.0)
            whole = (*(before if begin > 0.1 else ()), *led, *(after if end < path.length else ()))
            yield Path(whole), 9.0 + _FAR_OUT * out


def corners(path: Path, disc: Disc, half: float, out: float) -> Iterator[tuple[Path, float]]:
    """The path with a corner that lies in a disc moved out of it."""
    for i, (before, after) in enumerate(zip(path.pieces, path.pieces[1:], strict=False)):
        if not (isinstance(before, Straight) and isinstance(after, Straight)):
            continue
        if apart(before.b, disc.at) >= disc.radius + half:
            continue
        open_side = unit(before.b, shifted(before.a, unit(before.a, after.b), apart(before.a, after.b) / 2))
        for way in (unit(disc.at, before.b), (-open_side[0], -open_side[1]), open_side):
            corner = shifted(disc.at, way, disc.radius + half + _AIR + out)
            moved = (Straight(before.a, corner), Straight(corner, after.b))
            yield Path((*path.pieces[:i], *moved, *path.pieces[i + 2 :])), 6.0 + _FAR_OUT * out


def softened(path: Path) -> Path:
    """The path with the corners between its straight pieces rounded a little; sharp turns back stay sharp."""
    pieces = list(path.pieces)
    i = 0
    while i + 1 < len(pieces):
        before, after = pieces[i], pieces[i + 1]
        if isinstance(before, Straight) and isinstance(after, Straight) and _is_corner(before, after):
            pieces[i : i + 2] = _rounded(before.a, before.b, after.b, _SOFT, 0.45)
            i += 2
        else:
            i += 1
    return Path(tuple(pieces))


def _is_corner(before: Straight, after: Straight) -> bool:
    if min(before.length, after.length) < 1.0:
        return False
    a, b = before.heading(0.0), after.heading(0.0)
    return _SHARP_TURN < a[0] * b[0] + a[1] * b[1] < _STRAIGHT_ON


def _rounded(a: Spot, corner: Spot, b: Spot, radius: float, most: float = 0.9) -> tuple[Straight | Bend, ...]:
    """a - corner - b with the corner rounded as far as `most` of each leg allows."""
    before, after = unit(a, corner), unit(corner, b)
    turn = acos(max(-1.0, min(1.0, before[0] * after[0] + before[1] * after[1])))
    if turn < 0.02 or turn > pi - 0.1:
        return (Straight(a, corner), Straight(corner, b))
    reach = min(radius * tan(turn / 2), most * apart(a, corner), most * apart(corner, b))
    radius = reach / tan(turn / 2)
    enter, leave = shifted(corner, before, -reach), shifted(corner, after, reach)
    side = 1.0 if before[0] * after[1] - before[1] * after[0] > 0 else -1.0
    centre = shifted(enter, (-before[1], before[0]), side * radius)
    a0 = atan2(enter[1] - centre[1], enter[0] - centre[0])
    return (Straight(a, enter), Bend(centre, radius, a0, side * turn), Straight(leave, b))
