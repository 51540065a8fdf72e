"""The site's looks for pictures outside the site: court.css with every variable replaced by its value."""

from __future__ import annotations

import re
from importlib.resources import files

LOOKS = {"light": 0, "dark": 2, "print": 3}  # blocks of tokens.css, in its order
_VARIABLE = re.compile(r"var\(--([\w-]+)\)")


def picture_css(look: str = "light") -> str:
    """The rules for pictures (no motion) with plain values."""
    tokens = tokens_of(look)
    rules = re.findall(r"([^{}]+)\{([^{}]*)\}", re.sub(r"/\*.*?\*/", "", _css("court.css"), flags=re.DOTALL))
    kept = [(s.strip(), body.strip()) for s, body in rules if "motion" not in s and ".floors" not in s]
    text = "".join(f"{selector}{{{body}}}" for selector, body in kept)
    return re.sub(r"\s+", " ", _VARIABLE.sub(lambda m: tokens[m.group(1)], text))


def tokens_of(look: str) -> dict[str, str]:
    """The variables of a look, light ones where it does not name them."""
    blocks = re.findall(r"\{([^{}]*)\}", re.sub(r"/\*.*?\*/", "", _css("tokens.css"), flags=re.DOTALL))
    sets = [dict(re.findall(r"--([\w-]+):\s*([^;]+);", block)) for block in blocks]
    return sets[0] | sets[LOOKS[look]]


def _css(name: str) -> str:
    return (files("site_theme") / "assets" / "css" / name).read_text(encoding="utf-8")
