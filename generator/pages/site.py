"""What the pages package hands to whoever writes the site: pages, data files and who may see them."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum

from generator.model import nothing
from generator.pages.addresses import url_of


class Audience(Enum):
    """Players' pages are for everyone with a seat, staff pages for staff seats only."""

    PLAYERS = "players"
    STAFF = "staff"


@dataclass(frozen=True, slots=True)
class SitePage:
    """One page. `body` holds a mark for each diagram; `diagrams` the pictures by their key. `found_by` is the short text
    search knows it by (empty: search does not list it). `id` is the address; empty for home."""

    id: str
    title: str
    body: str
    audience: Audience = Audience.PLAYERS
    found_by: str = ""
    diagrams: Mapping[str, str] = field(default_factory=nothing)

    @property
    def url(self) -> str:
        """Address from the site's root."""
        return url_of(self.id)


@dataclass(frozen=True, slots=True)
class SiteFile:
    """A data file; `path` from the site's root."""

    path: str
    content: bytes
    audience: Audience = Audience.PLAYERS


def json_file(path: str, value: object) -> SiteFile:
    """A data file for players, as short as JSON can be."""
    return SiteFile(path, json.dumps(value, ensure_ascii=False, separators=(",", ":")).encode())


@dataclass(frozen=True, slots=True)
class Site:
    """All that is to be written, apart from the theme's own files."""

    name: str
    pages: tuple[SitePage, ...]
    files: tuple[SiteFile, ...] = ()
    names: frozenset[str] = frozenset()  # titles, players, team: what a stranger must not see

    def paths(self, audience: Audience) -> tuple[str, ...]:
        """The files of one audience as they will lie in the built folder, sorted."""
        pages = (f"{p.url}index.html" for p in self.pages if p.audience is audience)
        files = (f.path for f in self.files if f.audience is audience)
        return tuple(sorted((*pages, *files)))
