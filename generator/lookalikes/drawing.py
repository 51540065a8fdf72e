"""The trees of all series as one SVG drawing: time runs to the right, plays part where they stop looking alike.

In: a Report; out: SVG text by the template `lookalike_trees.html`. Colours come from the page (`currentColor`).
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.lookalikes.report import Report, Trunk
from generator.lookalikes.words import half_seconds, tell_words
from generator.model.numbers import number
from generator.templates import our_templates

SECOND = 22.0
ROW = 26.0
LEFT, HEAD = 8.0, 30.0
NAME_ROOM = 150.0


@dataclass(frozen=True, slots=True)
class Stretch:
    """A level line from x0 to x1 at y; `drop`: the y from which it comes down or up at x0."""

    x0: float
    x1: float
    y: float
    drop: float


@dataclass(frozen=True, slots=True)
class Mark:
    """Words at a place; `tell`: in small letters at a knot."""

    x: float
    y: float
    words: str
    tell: bool = False


@dataclass(frozen=True, slots=True)
class Tree:
    """One series drawn."""

    title: str
    y: float
    height: float
    stretches: tuple[Stretch, ...]
    marks: tuple[Mark, ...]


def as_svg(report: Report) -> str:
    """One SVG with a tree for each series, one below the other."""
    trees, y = [], 0.0
    for name, trunk in report.trees.items():
        tree = draw_tree(name, trunk, y)
        trees.append(tree)
        y += tree.height
    width = max((s.x1 for t in trees for s in t.stretches), default=0.0) + NAME_ROOM
    return our_templates().get_template("lookalike_trees.html").render(trees=trees, width=round(width), height=round(y), number=number)


def draw_tree(title: str, trunk: Trunk, y: float) -> Tree:
    """Leaves get a row each; a knot stands in the middle of its branches."""
    stretches: list[Stretch] = []
    marks: list[Mark] = []
    rows = [0]
    end = _longest(trunk) * SECOND

    def place(node: Trunk, begin: float) -> float:
        at = begin if node.until is None else node.until * SECOND
        if node.until is None:
            row = y + HEAD + ROW * rows[0] + ROW / 2
            rows[0] += 1
            stretches.append(Stretch(LEFT + begin, LEFT + end, row, row))
            marks.append(Mark(LEFT + end + 6, row + 4, ", ".join(p.name for p in node.plays)))
            return row
        first = len(stretches)
        middles = [place(branch, at) for branch in node.branches]
        middle = sum(middles) / len(middles)
        starts = dict.fromkeys(middles)
        for i in range(first, len(stretches)):
            s = stretches[i]
            if s.y in starts and abs(s.x0 - LEFT - at) < 1e-6:
                stretches[i] = Stretch(s.x0, s.x1, s.y, middle)
        stretches.append(Stretch(LEFT + begin, LEFT + max(at, begin), middle, middle))
        words = f"{half_seconds(node.until)}: {tell_words(node.pair.split)}" if node.pair else half_seconds(node.until)
        marks.append(Mark(LEFT + at + 4, middle - 4, words, True))
        return middle

    place(trunk, 0.0)
    rounded = tuple(Stretch(*(round(v, 1) for v in (s.x0, s.x1, s.y, s.drop))) for s in stretches)
    return Tree(title, y, HEAD + ROW * rows[0] + 10, rounded, tuple(marks))


def _longest(trunk: Trunk) -> float:
    knots = [trunk.until or 0.0, *(_longest(b) for b in trunk.branches)]
    lengths = [max(trunk.pair.split.a_length, trunk.pair.split.b_length)] if trunk.pair else []
    return max([*knots, *lengths, 1.0])
