"""Puts pictures into finished pages: the template leaves a mark, the picture replaces it at the very end.

Markdown and search never see a picture (they cost more than all else together), and a picture that finds no
mark, or a mark without a picture, stops the build: losing diagrams in silence is the known trap of this way.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

# A mark is `<i data-diagram="key"></i>`; quotes may have been dropped or changed by a tool that tidies HTML.
_MARK = re.compile(r"""<i\s+data-diagram=(?:"([^"]+)"|'([^']+)'|([^\s"'>]+))\s*>\s*</i>""")


class LostDiagram(Exception):
    """A page would be written without one of its pictures: a defect of ours."""


def inject_diagrams(html: str, diagrams: Mapping[str, str], page: str) -> str:
    """`html` with every mark replaced by its picture; each picture is used exactly once."""
    found: list[str] = []

    def picture(match: re.Match[str]) -> str:
        key = next(g for g in match.groups() if g is not None)
        found.append(key)
        # The theme's instant navigation assigns to `href` of whatever carries one, which throws on an SVG `use`.
        return diagrams.get(key, "").replace("<use href=", "<use xlink:href=")

    done = _MARK.sub(picture, html)
    if sorted(found) != sorted(diagrams):
        missing, unknown = sorted(set(diagrams) - set(found)), sorted(set(found) - set(diagrams))
        raise LostDiagram(
            f"page {page or 'home'}: {len(found)} marks for {len(diagrams)} pictures"
            f" (no mark for {missing[:3]}, no picture for {unknown[:3]})"
        )
    return done
