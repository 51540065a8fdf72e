"""The colours of tokens.css: contrast of every pair we use, told apart with colour-blind sight, alike in both dark blocks.

Contrast formula and limits: WCAG 2.2, 1.4.3 (text 4.5:1) and 1.4.11 (graphical objects 3:1).
Colour-blind sight: linear-RGB matrices of Machado, Oliveira and Fernandes 2009 at severity 1.0 (from memory).
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

CSS = Path(__file__).resolve().parent.parent / "site_theme" / "assets" / "css" / "tokens.css"

TEXT_PAIRS = [
    *(("ink", on) for on in ("paper", "card", "tint", "accent-tint", "right-tint", "wrong-tint", "warn-tint", "floor")),
    *(("ink-soft", on) for on in ("paper", "card", "tint", "floor")),
    *(("accent", on) for on in ("paper", "card", "tint", "accent-tint")),
    ("accent-strong", "paper"), ("accent-strong", "accent-tint"), ("on-accent", "accent"), ("on-accent", "accent-strong"),
    ("right", "right-tint"), ("right", "card"), ("right", "paper"), ("wrong", "wrong-tint"), ("wrong", "card"),
    ("wrong", "paper"), ("warn", "warn-tint"), ("warn", "card"), ("warn", "paper"),
    ("offence", "floor"), ("defence", "floor"),
    ("on-ball", "ball"), ("on-mark", "mark"), ("mark", "floor"),
]
SHAPE_PAIRS = [
    ("edge", "paper"), ("edge", "card"), ("edge", "tint"), ("focus", "paper"), ("focus", "card"), ("focus", "tint"),
    ("floor-line", "floor"), *((c, f) for c in ("route", "pass", "ball", "screen", "ghost", "own") for f in ("floor",)),
]
# What must not be mixed up by colour, though shape tells it too.
APART = [("ball", "defence"), ("offence", "defence"), ("right", "wrong"), ("accent", "wrong"), ("pass", "defence")]
SIGHT = {
    "normal": ((1, 0, 0), (0, 1, 0), (0, 0, 1)),
    "protan": ((0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998)),
    "deutan": ((0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.011820, 0.042940, 0.968881)),
    "tritan": ((1.255528, -0.076749, -0.178779), (-0.078411, 0.930809, 0.147602), (0.004733, 0.691367, 0.303900)),
}


def _blocks() -> dict[str, dict[str, str]]:
    """Tokens by look: light, dark (by setting), dark (asked for), print."""
    bodies = re.findall(r"\{([^{}]*)\}", CSS.read_text(encoding="utf-8"))
    sets = [dict(re.findall(r"--([\w-]+):\s*([^;]+);", body)) for body in bodies]
    assert len(sets) == 4
    return dict(zip(("light", "dark by setting", "dark", "print"), sets, strict=True))


def _linear(hexed: str) -> tuple[float, float, float]:
    values = (int(hexed[i : i + 2], 16) / 255 for i in (1, 3, 5))
    return tuple(c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in values)


def _luminance(hexed: str) -> float:
    r, g, b = _linear(hexed)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(a: str, b: str) -> float:
    """WCAG contrast ratio of two #rrggbb colours."""
    high, low = sorted((_luminance(a), _luminance(b)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def _lab(linear) -> tuple[float, float, float]:
    """CIE L*a*b* (D65) of linear sRGB."""
    r, g, b = (min(1.0, max(0.0, c)) for c in linear)
    xyz = (0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505, 0.2126 * r + 0.7152 * g + 0.0722 * b, (
        0.0193 * r + 0.1192 * g + 0.9505 * b
    ) / 1.089
    x, y, z = (c ** (1 / 3) if c > 216 / 24389 else (24389 / 27 * c + 16) / 116 for c in xyz)
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def _seen(hexed: str, sight: str):
    linear = _linear(hexed)
    return _lab(tuple(sum(m * c for m, c in zip(row, linear, strict=True)) for row in SIGHT[sight]))


def test_contrast_formula_agrees_with_published_check_points():
    """#767676 on white 4.54 passes, #777777 4.48 fails; black on white 21 (computed by the WCAG formula)."""
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.01)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)
    assert contrast("#000000", "#ffffff") == pytest.approx(21, abs=0.01)


@pytest.mark.parametrize("look", ["light", "dark", "print"])
def test_text_is_readable(look):
    tokens = _blocks()[look]
    poor = {(a, b): round(contrast(tokens[a], tokens[b]), 2) for a, b in TEXT_PAIRS if contrast(tokens[a], tokens[b]) < 4.5}
    assert not poor


@pytest.mark.parametrize("look", ["light", "dark", "print"])
def test_shapes_are_visible(look):
    tokens = _blocks()[look]
    poor = {(a, b): round(contrast(tokens[a], tokens[b]), 2) for a, b in SHAPE_PAIRS if contrast(tokens[a], tokens[b]) < 3}
    assert not poor


GLAZED = [("offence", 4.5), ("defence", 4.5), ("own", 4.5), ("ball", 3), ("route", 3), ("pass", 3), ("screen", 3), ("ghost", 3)]


def _under_glaze(hexed: str, glaze: str) -> str:
    """A colour with the lane's glaze (#rrggbbaa) over it, as a browser mixes them (source-over in sRGB)."""
    share = int(glaze[7:9], 16) / 255
    mixed = (round(int(hexed[i : i + 2], 16) * (1 - share) + int(glaze[i : i + 2], 16) * share) for i in (1, 3, 5))
    return "#" + "".join(f"{v:02x}" for v in mixed)


@pytest.mark.parametrize("look", ["light", "dark", "print"])
def test_the_lane_can_be_told_and_hides_nothing(look):
    """The glaze lies over numbers and lines: both sides of each pair are taken under it."""
    tokens = _blocks()[look]
    lane = _under_glaze(tokens["floor"], tokens["glaze"])
    assert contrast(lane, tokens["floor"]) > 1.05
    poor = {c: round(contrast(_under_glaze(tokens[c], tokens["glaze"]), lane), 2) for c, least in GLAZED
            if contrast(_under_glaze(tokens[c], tokens["glaze"]), lane) < least}
    assert not poor
    assert contrast(_under_glaze(tokens["on-ball"], tokens["glaze"]), _under_glaze(tokens["ball"], tokens["glaze"])) >= 4.5


def test_both_dark_blocks_are_equal_and_every_colour_has_every_look():
    blocks = _blocks()
    assert blocks["dark"] == blocks["dark by setting"]
    colours = {name for name, value in blocks["light"].items() if value.startswith("#")}
    assert set(blocks["dark"]) == colours == set(blocks["print"])


def test_paper_uses_greys_only():
    greys = [v for v in _blocks()["print"].values() if v.startswith("#")]
    assert greys and all(v[1:3] == v[3:5] == v[5:7] for v in greys)


@pytest.mark.parametrize("look", ["light", "dark"])
@pytest.mark.parametrize("sight", SIGHT)
def test_colours_stay_apart_for_every_sight(look, sight):
    """A distance of 20 in L*a*b* is far beyond a just noticeable difference (about 2.3)."""
    tokens = _blocks()[look]
    for a, b in APART:
        distance = sum((p - q) ** 2 for p, q in zip(_seen(tokens[a], sight), _seen(tokens[b], sight), strict=True)) ** 0.5
        assert distance >= 20, (a, b, round(distance, 1))
