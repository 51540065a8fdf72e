"""A part of a curve by arc length."""

from __future__ import annotations

from generator.timeline.pieces import Arc, Curve, Line, Piece


def part_of(curve: Curve, begin: float, end: float) -> Curve:
    """The curve from `begin` to `end` metres."""
    pieces: list[Piece] = []
    for piece, start, length in zip(curve.pieces, curve.starts, curve.lengths):
        a, b = max(begin - start, 0.0), min(end - start, length)
        if b - a > 1e-9:
            pieces.append(_part(piece, a, b))
    if not pieces:
        here = curve.at(begin)
        pieces = [Line(here, here)]
    return Curve(pieces)


def _part(piece: Piece, a: float, b: float) -> Piece:
    if isinstance(piece, Line):
        return Line(piece.at(a), piece.at(b))
    g = 1.0 if piece.sweep >= 0 else -1.0
    return Arc(piece.centre, piece.r, piece.a0 + g * a / piece.r, g * (b - a) / piece.r)
