"""An independent measure of a picture, with shapely: what covers what. Used by the placement tests and the contact sheet.

It reads only the display list and the shapes that `notation` gives; it knows nothing of how placement works.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations, pairwise

from shapely.geometry import LineString, Point, Polygon, box
from shapely.ops import unary_union

from generator.diagrams import notation
from generator.diagrams.scene import (
    BALL_RADIUS,
    Bar,
    DefenderMark,
    EndGhost,
    HandOffMark,
    Line,
    OrderMark,
    PassLine,
    Scene,
    ShotMark,
    Tail,
    Token,
    Wave,
)

# Half width and half height of a figure's ink, in units: font size x about (0.28, 0.36); sizes as in court.css.
FIGURE = {"player": (2.6, 3.4), "end": (2.2, 2.8), "defender": (4.2, 2.9), "order": (2.2, 2.8)}
UNDERLINE = 4.4
STROKE = {"line": 0.5, "wave": 0.45, "pass": 0.62, "bar": 1.0, "tail": 0.4}
STRIDE = 6.0  # units over which two lines run together before they are read as one
TOGETHER = 1.0


@dataclass(frozen=True)
class Report:
    """Pairs that disturb each other, in words."""

    faults: tuple[str, ...]


def inspect(scene: Scene) -> Report:
    """All faults of a scene."""
    figures, heads, lines = _figures(scene), _heads(scene), _lines(scene)
    faults = [f"{a} on {b}" for (a, p), (b, q) in combinations(figures + heads, 2) if p.intersection(q).area > 0.05]
    marks = [("hand-off", Polygon(notation.diamond(m.at))) for m in scene.of(HandOffMark)]
    faults += [f"{a} on {b}" for a, p in marks for b, q in figures if p.intersection(q).area > 0.05]
    for name, ink, _core in lines:
        faults += [f"{name} through {other}" for other, shape in figures if ink.intersects(shape)]
        owner = name
        faults += [
            f"{name} through {other}" for other, shape in heads if other != f"head of {owner}" and ink.intersects(shape)
        ]
    for (a, _, p), (b, _, q) in combinations(lines, 2):
        shared = p.buffer(TOGETHER).intersection(q).length
        if shared > STRIDE and shared > 0.0 and _parallel(p, q):
            faults.append(f"{a} along {b}")
    frame = box(*_bounds(scene))
    faults += [f"{name} outside" for name, shape in figures + heads if not frame.contains(shape)]
    return Report(tuple(faults))


def _parallel(p: LineString, q: LineString) -> bool:
    """They stay within a line's width for longer than a crossing can."""
    return p.buffer(TOGETHER).intersection(q).length > STRIDE


def _bounds(scene: Scene):
    left, top, width, height = scene.view.box
    return left, top, left + width, top + height


def _figures(scene: Scene):
    out = []
    for t in scene.of(Token):
        shape = Point(t.at).buffer(BALL_RADIUS) if t.with_ball else _ink(t.at, "player")
        out.append((f"number {t.player}", shape))
    out += [(f"end {g.player}", _ink(g.at, "end")) for g in scene.of(EndGhost)]
    out += [(f"X{d.body}", _defender(d)) for d in scene.of(DefenderMark)]
    out += [(f"letter {m.letter}", _ink(m.at, "order")) for m in scene.of(OrderMark)]
    for mark in scene.of(ShotMark):
        stem, ring = notation.shot_stem(mark.at, mark.toward)
        shape = unary_union([LineString([stem.a, stem.b]).buffer(0.5), Point(ring).buffer(notation.SHOT_RING + 0.5)])
        out.append(("shot", shape))
    return out


def _defender(mark: DefenderMark):
    """A watched one has a line under it."""
    w, h = FIGURE["defender"]
    x, y = mark.at
    return box(x - w, y - h, x + w, y + (UNDERLINE if mark.watched else h))


def _ink(at, kind: str):
    w, h = FIGURE[kind]
    return box(at[0] - w, at[1] - h, at[0] + w, at[1] + h)


def _heads(scene: Scene):
    named = [(_name(i), i.path) for i in scene.of(Line, Wave, PassLine) if getattr(i, "head", True)]
    return [(f"head of {name}", Polygon(notation.arrowhead(path))) for name, path in named]


def _name(item) -> str:
    if isinstance(item, PassLine):
        return f"pass {item.passer}-{item.receiver}"
    return f"{'dribble' if isinstance(item, Wave) else 'way'} {item.player} to {item.path.last[0]:.0f},{item.path.last[1]:.0f}"


def _lines(scene: Scene):
    out = []
    for item in scene.of(Line, Wave, PassLine):
        head = getattr(item, "head", True)
        core = LineString(notation.shaft(item.path, head).samples(0.7)) if item.path.length > 0.2 else None
        if core is None:
            continue
        kind = "wave" if isinstance(item, Wave) else "pass" if isinstance(item, PassLine) else "line"
        ink = (_wave_line(item, head) if kind == "wave" else core).buffer(STROKE[kind])
        out.append((_name(item), ink, core))
    for i, tail in enumerate(scene.of(Tail)):
        core = LineString(tail.path.samples(0.7))
        out.append((f"trace {i}", core.buffer(STROKE["tail"]), core))
    for bar in scene.of(Bar):
        core = LineString(notation.bar_ends(bar.at, bar.along))
        out.append((f"bar of {bar.player}", core.buffer(STROKE["bar"], cap_style="flat"), core))
    return out


def _wave_line(item: Wave, head: bool) -> LineString:
    """The drawn wave, each quadratic stroke sampled."""
    crests, last, stop = notation.wave(item.path, head)
    ends = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in pairwise(crests)] + [last]
    spots, at = [item.path.first], item.path.first
    for control, end in zip(crests, ends, strict=True):
        for i in range(1, 5):
            u = i / 4
            spots.append(tuple((1 - u) ** 2 * at[k] + 2 * u * (1 - u) * control[k] + u * u * end[k] for k in (0, 1)))
        at = end
    return LineString([*spots, stop])
