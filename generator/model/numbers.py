"""The one way in which a drawing's numbers become text, so that equal drawings are equal bytes."""

from __future__ import annotations


def number(value: float, places: int = 1) -> str:
    """Fixed decimals (one or more), no needless zero: 0.50 -> .5, -3.0 -> -3."""
    text = f"{value:.{places}f}".rstrip("0").rstrip(".")
    if text in ("-0", "", "-"):
        return "0"
    return text.replace("0.", ".", 1) if text.startswith(("0.", "-0.")) else text
