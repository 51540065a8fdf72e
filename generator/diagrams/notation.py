"""How each mark is shaped: waves, arrowheads, bars, diamonds, rings. Picture units in, outlines out."""

from __future__ import annotations

from generator.diagrams.path import Path, Spot, Straight, apart, shifted
from generator.diagrams.scene import BAR_HALF, HAND_OFF_RADIUS, HEAD_LENGTH, HEAD_WIDTH

WAVE_HALF = 3.4  # length of half a wave
WAVE_HEIGHT = 1.7
WAVE_LEAD = 1.2  # straight bit between the last wave and the arrowhead
SHOT_STEM = 3.6
SHOT_RING = 1.7

Outline = tuple[Spot, ...]


def arrowhead(path: Path) -> Outline:
    """The triangle at the end of a path: tip, and the two corners behind it. It looks back along the last head's length."""
    tip = path.last
    back = path.at(max(0.0, path.length - HEAD_LENGTH))
    gone = apart(back, tip)
    way = path.heading(path.length) if gone < 1e-6 else ((tip[0] - back[0]) / gone, (tip[1] - back[1]) / gone)
    base = shifted(tip, way, -HEAD_LENGTH)
    across = (-way[1], way[0])
    return (tip, shifted(base, across, HEAD_WIDTH / 2), shifted(base, across, -HEAD_WIDTH / 2))


def shaft(path: Path, head: bool) -> Path:
    """What is stroked of a path: with a head it stops inside it, so that the tip stays sharp."""
    return path.part(0.0, path.length - 0.7 * HEAD_LENGTH) if head else path


def wave(path: Path, head: bool) -> tuple[tuple[Spot, ...], Spot, Spot]:
    """A dribble along `path`: its crests to either side in turn, where it ends, and the end of the straight lead into
    the arrowhead. The curve crosses the way halfway between two crests.

    The number of half waves is even and divides the length, so the wave meets the head in the middle of its line.
    """
    end = path.length - (HEAD_LENGTH * 0.7 + WAVE_LEAD if head else 0.0)
    stop = path.at(path.length - 0.7 * HEAD_LENGTH) if head else path.last
    count = max(2, 2 * round(end / WAVE_HALF / 2))
    step = end / count
    crests = (_beside(path, (i + 0.5) * step, WAVE_HEIGHT if i % 2 == 0 else -WAVE_HEIGHT) for i in range(count))
    return tuple(crests), path.at(end), stop


def _beside(path: Path, s: float, by: float) -> Spot:
    way = path.heading(s)
    return shifted(path.at(s), (-way[1], way[0]), by)


def bar_ends(at: Spot, along: Spot) -> tuple[Spot, Spot]:
    """The two ends of a screen's bar."""
    return shifted(at, along, -BAR_HALF), shifted(at, along, BAR_HALF)


def diamond(at: Spot) -> Outline:
    """The hand-off mark."""
    r = HAND_OFF_RADIUS
    return ((at[0], at[1] - r), (at[0] + r, at[1]), (at[0], at[1] + r), (at[0] - r, at[1]))


def shot_stem(at: Spot, toward: Spot) -> tuple[Straight, Spot]:
    """The stem of a shot and the middle of the ring at its end."""
    tip = shifted(at, toward, SHOT_STEM)
    return Straight(at, tip), shifted(tip, toward, SHOT_RING)
