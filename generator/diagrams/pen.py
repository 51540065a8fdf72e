"""SVG path data in few bytes: relative steps, one decimal, no number that rounding lets drift."""

from __future__ import annotations

from math import pi

from generator.diagrams.path import Bend, Path, Spot

_FULL = 2 * pi - 1e-6


def number(value: float) -> str:
    """One decimal, no needless zero: 0.50 -> .5, -3.0 -> -3."""
    tenths = round(value * 10)
    if tenths % 10 == 0:
        return str(tenths // 10)
    text = f"{tenths / 10:.1f}"
    return text.replace("0.", ".", 1) if abs(tenths) < 10 else text


def numbers(values: tuple[float, ...]) -> str:
    """Numbers in a row, a space only where one is needed."""
    out = ""
    for text in map(number, values):
        glued = not out or text[0] == "-" or (text[0] == "." and "." in out.rsplit(" ", 1)[-1].rsplit("-", 1)[-1])
        out += text if glued else " " + text
    return out


class Pen:
    """Gathers path data. It remembers where rounding has left it, so an outline ends within 0.05 of where it should."""

    def __init__(self) -> None:
        self._parts: list[str] = []
        self._at: Spot = (0.0, 0.0)
        self._command = ""

    def data(self) -> str:
        """The `d` attribute."""
        return "".join(self._parts)

    def _emit(self, command: str, values: tuple[float, ...]) -> None:
        text = numbers(values)
        if command == self._command and command != "m":
            text = text if text[0] == "-" else " " + text
        else:
            self._parts.append(command)
        self._parts.append(text)
        self._command = command

    def _step(self, to: Spot) -> tuple[float, float]:
        step = (round(to[0] - self._at[0], 1), round(to[1] - self._at[1], 1))
        self._at = (self._at[0] + step[0], self._at[1] + step[1])
        return step

    def move(self, to: Spot) -> "Pen":
        """Lifts the pen to a spot."""
        self._at = (round(to[0], 1), round(to[1], 1))
        self._parts.append("M" + numbers(self._at))
        self._command = "M"
        return self

    def line(self, to: Spot) -> "Pen":
        """A straight stroke."""
        step = self._step(to)
        if step[1] == 0:
            self._emit("h", step[:1])
        elif step[0] == 0:
            self._emit("v", step[1:])
        else:
            self._emit("l", step)
        return self

    def arc(self, piece: Bend) -> "Pen":
        """An arc; a whole circle in two halves."""
        if abs(piece.sweep) > _FULL:
            half = piece.length / 2
            return self.arc(piece.part(0, half)).arc(piece.part(half, 2 * half))
        step = self._step(piece.at(piece.length))
        large, sweep = int(abs(piece.sweep) > pi), int(piece.sweep > 0)
        self._emit("a", (piece.radius, piece.radius, 0, large, sweep, *step))
        return self

    def chain(self, path: Path) -> "Pen":
        """A path from its beginning."""
        self.move(path.first)
        for piece in path.pieces:
            if isinstance(piece, Bend):
                self.arc(piece)
            else:
                self.line(piece.b)
        return self

    def wave(self, control: Spot, crossings: tuple[Spot, ...]) -> "Pen":
        """A smooth wave: a quadratic stroke, then its mirrored continuations through `crossings`."""
        first = (round(control[0] - self._at[0], 1), round(control[1] - self._at[1], 1))
        self._emit("q", (*first, *self._step(crossings[0])))
        for spot in crossings[1:]:
            self._emit("t", self._step(spot))
        return self

    def outline(self, spots: tuple[Spot, ...]) -> "Pen":
        """A closed outline."""
        self.move(spots[0])
        for spot in spots[1:]:
            self.line(spot)
        self._parts.append("z")
        self._command = "z"
        return self

    def ring(self, centre: Spot, radius: float) -> "Pen":
        """A circle."""
        circle = Bend(centre, radius, 0.0, 2 * pi)
        self.move(circle.at(0.0))
        return self.arc(circle)
