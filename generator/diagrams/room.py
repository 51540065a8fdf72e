"""Counts what is in a line's way: numbers, bars, heads, and lines it would hide. Cheap: closed forms, boxes first."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

from generator.diagrams.path import Path, Spot, shifted, unit
from generator.diagrams.scene import HEAD_LENGTH
from generator.diagrams.stations import Disc

HEAD_ROOM = 2.6  # radius of the disc that stands for an arrowhead; it reaches from the tip to both corners
BESIDE = 2.1  # lines nearer than this for long are read as one
STEP = 3.0
LONG = 3  # samples in a row
Box = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line that is placed: its path, half its visible thickness, and the disc of its head, if it has one."""

    path: Path
    half: float
    head: Disc | None
    box: Box
    spots: tuple[Spot, ...]


def stroke(path: Path, half: float, head: bool) -> Stroke:
    """Measures a path."""
    spots = path.samples(STEP)
    xs, ys = [s[0] for s in spots], [s[1] for s in spots]
    box = (min(xs) - 1, min(ys) - 1, max(xs) + 1, max(ys) + 1)
    return Stroke(path, half, head_disc(path) if head else None, box, spots)


def head_disc(path: Path) -> Disc:
    """The room of a path's arrowhead."""
    tip = path.last
    back = path.at(max(0.0, path.length - HEAD_LENGTH))
    return Disc(shifted(tip, unit(tip, back), HEAD_ROOM), HEAD_ROOM)


def hits(line: Stroke, discs: list[Disc]) -> float:
    """How many discs the line enters, each counted with its depth (1 to 2)."""
    left, top, right, bottom = line.box
    total = 0.0
    for disc in discs:
        reach = disc.radius + line.half
        x, y = disc.at
        if not (left - reach < x < right + reach and top - reach < y < bottom + reach):
            continue
        gap = line.path.gap(disc.at)
        if gap < reach:
            total += 1.0 + (reach - gap) / reach
    return total


def head_hits(line: Stroke, discs: list[Disc]) -> float:
    """How many discs the line's arrowhead touches."""
    if line.head is None:
        return 0.0
    (x, y), r = line.head.at, line.head.radius
    return sum(1.0 for d in discs if hypot(d.at[0] - x, d.at[1] - y) < d.radius + r - 0.5)


def beside(a: Stroke, b: Stroke) -> float:
    """How many spots of `a` run along `b`; 0 unless several in a row do."""
    near = BESIDE + a.half + b.half - 1.0
    if a.box[0] > b.box[2] + near or b.box[0] > a.box[2] + near or a.box[1] > b.box[3] + near or b.box[1] > a.box[3] + near:
        return 0.0
    total = row = 0
    for spot in a.spots:
        if b.path.gap(spot) < near:
            row += 1
        else:
            total += row if row >= LONG else 0
            row = 0
    return float(total + (row if row >= LONG else 0))


def outside(line: Stroke, box: tuple[float, float, float, float]) -> bool:
    """True when the line leaves the picture (`box`: left, top, width, height)."""
    left, top, width, height = box
    return any(not (left < x < left + width and top < y < top + height) for x, y in line.spots)
