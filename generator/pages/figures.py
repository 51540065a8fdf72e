"""Collects the pictures of one page: hands out marks, keeps each picture under its key."""

from __future__ import annotations

from generator.pages.views import Figure


class Figures:
    """The pictures of one page, in order of first use. Keys are short and count up, so equal books give equal bytes."""

    def __init__(self) -> None:
        self.pictures: dict[str, str] = {}

    def add(self, picture: str, caption: str = "") -> Figure:
        """The mark for `picture` (finished SVG text)."""
        key = f"d{len(self.pictures) + 1}"
        self.pictures[key] = picture
        return Figure(key, caption)
