"""The located tree: texts, lists and mappings, each with the place where it begins."""

from __future__ import annotations

from typing import NamedTuple

from generator.diagnostics import Location


class TextNode(NamedTuple):
    """A value as written. `lead`: characters before the text proper (1 in quotes), or -1 where the text as read
    differs from the text in the file (escapes, several lines). `plain`: written without quotes."""

    text: str
    location: Location
    lead: int = 0
    plain: bool = True

    def where(self, offset: int) -> Location:
        """The place of the character at `offset`; the beginning where offsets cannot be told."""
        if self.lead < 0:
            return self.location
        path, line, column = self.location
        return Location(path, line, column + self.lead + offset)


class ListNode(NamedTuple):
    """A list. `flow`: written in square brackets, where commas part the items."""

    items: tuple[Node, ...]
    location: Location
    flow: bool = False


class MappingNode(NamedTuple):
    """A mapping in written order; keys are texts and no two are equal."""

    entries: tuple[tuple[TextNode, Node], ...]
    location: Location
    flow: bool = False


Node = TextNode | ListNode | MappingNode
