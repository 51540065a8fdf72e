"""Where pages live: short opaque ids that outlive rewording, renaming of files and every publish."""

from __future__ import annotations

from generator.model.book import fold_name
from generator.model.identity import stable_id

POSITIONS = (1, 2, 3, 4, 5)


def fixed_page(name: str) -> str:
    """The id of a page that every book has: `my page`, `quiz`, `calls`, ..."""
    return stable_id("page", name)


def position_page(position: int) -> str:
    """The id of a position's page, 1 to 5."""
    return fixed_page(f"position {position}")


def series_page(series: str) -> str:
    """The id of a series' page; letter case and spacing of its name do not count."""
    return stable_id("series", fold_name(series))


def own_page(path: str) -> str:
    """The id of a file the coach put beside his plays, by its path in the book."""
    return stable_id("own page", path)


def url_of(page_id: str) -> str:
    """The address from the site's root: `` for home, `abc/` else."""
    return f"{page_id}/" if page_id else ""


def root_from(page_id: str) -> str:
    """What leads from a page back to the site's root."""
    return "../" if page_id else "./"
