"""SVG path data in few bytes: relative steps, fixed decimals, no number that rounding lets drift."""

from __future__ import annotations

from math import pi

from generator.diagrams.path import Bend, Path, Spot
from generator.model.numbers import number

_FULL = 2 * pi - 1e-6


def numbers(values: tuple[float, ...], places: int = 1) -> str:
    """Numbers in a row, a space only where one is needed."""
    out, last = "", ""
    for value in values:
        text = number(value, places)
        glued = not out or text[0] == "-" or (text[0] == "." and "." in last)
        out += text if glued else " " + text
        last = text
    return out


class Pen:
    """Gathers path data. It remembers where rounding has left it, so an outline ends within half a last decimal."""

    def __init__(self, places: int = 1) -> None:
        self._places = places
        self._parts: list[str] = []
        self._at: Spot = (0.0, 0.0)
        self._command = ""

    def data(self) -> str:
        """The `d` attribute."""
        return "".join(self._parts)

    def _emit(self, command: str, values: tuple[float, ...]) -> None:
        text = numbers(values, self._places)
        if command == self._command and command != "m":
            text = text if text[0] == "-" else " " + text
        else:
            self._parts.append(command)
        self._parts.append(text)
        self._command = command

    def _step(self, to: Spot) -> tuple[float, float]:
        n = self._places
        step = (round(to[0] - self._at[0], n), round(to[1] - self._at[1], n))
        self._at = (self._at[0] + step[0], self._at[1] + step[1])
        return step

    def move(self, to: Spot) -> Pen:
        """Lifts the pen to a spot."""
        self._at = (round(to[0], self._places), round(to[1], self._places))
        self._parts.append("M" + numbers(self._at, self._places))
        self._command = "M"
        return self

    def line(self, to: Spot) -> Pen:
        """A straight stroke."""
        step = self._step(to)
        if step[1] == 0:
            self._emit("h", step[:1])
        elif step[0] == 0:
            self._emit("v", step[1:])
        else:
            self._emit("l", step)
        return self

    def arc(self, piece: Bend) -> Pen:
        """An arc; a whole circle in two halves."""
        if abs(piece.sweep) > _FULL:
            half = piece.length / 2
            return self.arc(piece.part(0, half)).arc(piece.part(half, 2 * half))
        step = self._step(piece.at(piece.length))
        large, sweep = int(abs(piece.sweep) > pi), int(piece.sweep > 0)
        self._emit("a", (piece.radius, piece.radius, 0, large, sweep, *step))
        return self

    def chain(self, path: Path) -> Pen:
        """A path from its beginning."""
        self.move(path.first)
        for piece in path.pieces:
            if isinstance(piece, Bend):
                self.arc(piece)
            else:
                self.line(piece.b)
        return self

    def wave(self, crests: tuple[Spot, ...], end: Spot) -> Pen:
        """A smooth wave by quadratic strokes whose control spots are the crests; each stroke after the first is SVG's
        mirrored continuation, so every crossing is set from the control as drawn and rounding never adds up."""
        n = self._places
        control = tuple(self._at[k] + round(crests[0][k] - self._at[k], n) for k in (0, 1))
        first = (control[0] - self._at[0], control[1] - self._at[1])
        for i in range(len(crests)):
            following = crests[i + 1] if i + 1 < len(crests) else None
            to = tuple((control[k] + following[k]) / 2 for k in (0, 1)) if following else end
            step = self._step(to)
            self._emit("t" if i else "q", step if i else (*first, *step))
            control = tuple(2 * self._at[k] - control[k] for k in (0, 1))
        return self

    def outline(self, spots: tuple[Spot, ...]) -> Pen:
        """A closed outline."""
        self.move(spots[0])
        for spot in spots[1:]:
            self.line(spot)
        self._parts.append("z")
        self._command = "z"
        return self

    def ring(self, centre: Spot, radius: float) -> Pen:
        """A circle."""
        circle = Bend(centre, radius, 0.0, 2 * pi)
        self.move(circle.at(0.0))
        return self.arc(circle)
