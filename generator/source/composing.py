"""Text of one file -> located tree.

Reads the event stream of the YAML parser and builds the tree itself, so that depth, anchors, aliases, tags and
further documents are refused before anything is composed, and no value changes its type on the way.
"""

from __future__ import annotations

import re

import yaml

from generator.diagnostics import Diagnostic, Location, error, warning
from generator.source.files import SIZE_LIMIT, too_big
from generator.source.nodes import ListNode, MappingNode, Node, TextNode
from generator.source.scanner_messages import DEPTH_LIMIT, TOO_DEEP, Trouble, explain, indent_of
from generator.source.typography import plain_marks

LOADER = getattr(yaml, "CLoader", yaml.Loader)
VALUE_LIMIT = 20_000  # values a file; a 60-line play has about 150
REPORT_LIMIT = 20  # structural refusals a file
MEND_LIMIT = 20  # texts put into quotes for the coach, so that the rest of the file is still read
_NO_TEXT = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_TAB_INDENT = re.compile(r"^ *\t[ \t]*(?=[^\s#])", re.MULTILINE)
_HASH = re.compile(r" #\w")


def compose(text: str, path: str, loader: type = LOADER) -> tuple[Node | None, tuple[Diagnostic, ...]]:
    """The located tree of `text`; None where the file cannot be read as one tree."""
    text = text.removeprefix("\ufeff")
    refusal = _not_readable(text, path)
    if refusal:
        return None, (refusal,)
    text = plain_marks(text)
    text, diagnostics = _without_tabs(text, path)
    for _ in range(MEND_LIMIT):
        builder = _Builder(path, text)
        trouble = builder.build(loader)
        if trouble is None:
            break
        if not (diagnostics and trouble.indentation):  # tabs reported above explain broken indentation
            diagnostics.append(trouble.diagnostic(path))
        if trouble.mended is None:
            break
        text = trouble.mended
    diagnostics += builder.diagnostics
    return (None if builder.fatal or trouble else builder.root), tuple(diagnostics)


def _not_readable(text: str, path: str) -> Diagnostic | None:
    if len(text) > SIZE_LIMIT // 4 and len(text.encode("utf-8", "replace")) > SIZE_LIMIT:
        return too_big(Location(path, 1, 1))
    found = _NO_TEXT.search(text)
    if not found:
        return None
    location = _place(path, text, found.start())
    if found[0] == "\x00":
        hint = "a play file is plain text; pictures and documents do not belong among the .yml files"
        return error(location, "not-text", "this is not a text file", hint)
    message = f"an invisible control character (code {ord(found[0])}) stands here"
    return error(location, "not-text", message, "delete it and type the word again")


def _place(path: str, text: str, offset: int) -> Location:
    return Location(path, text.count("\n", 0, offset) + 1, offset - text.rfind("\n", 0, offset))


def _without_tabs(text: str, path: str) -> tuple[str, list[Diagnostic]]:
    if "\t" not in text:
        return text, []
    found = list(_TAB_INDENT.finditer(text))
    if not found:
        return text, []
    location = _place(path, text, found[0].start() + found[0][0].index("\t"))
    more = f" (and in {len(found) - 1} more lines)" if len(found) > 1 else ""
    message = f"a tab indents this line{more}; only spaces may stand before a line"
    mended = _TAB_INDENT.sub(lambda m: m[0].expandtabs(2), text)
    return mended, [error(location, "tab", message, "replace each tab by two spaces")]


class _Builder:
    """Builds one tree from events; `fatal` when what was read is not the whole of what was written."""

    def __init__(self, path: str, text: str):
        self.path = path
        self.text = text
        self.root: Node | None = None
        self.fatal = False
        self.diagnostics: list[Diagnostic] = []
        self._hashes = bool(_HASH.search(text))
        self._lines: list[str] | None = None

    def build(self, loader: type) -> Trouble | None:
        """Reads all events; trouble of the scanner is returned, everything else is in `diagnostics`."""
        try:
            self._read(yaml.parse(self.text, Loader=loader))
        except yaml.reader.ReaderError as problem:
            return Trouble(1, 1, "not-text", f"this is not text: {problem.reason}", "save it as UTF-8")
        except yaml.MarkedYAMLError as problem:
            return explain(problem, self.text)
        if self.root is None and not self.diagnostics:
            message = "there is nothing in this file"
            self._refuse(Location(self.path, 1, 1), "empty-file", message, "write a play or delete the file")
        return None

    def _refuse(self, location: Location, rule: str, message: str, hint: str, fatal: bool = True) -> None:
        self.fatal = self.fatal or fatal
        if len(self.diagnostics) < REPORT_LIMIT:
            self.diagnostics.append(error(location, rule, message, hint))

    def _read(self, events) -> None:
        stack: list[tuple] = []  # (is mapping, children, location, flow)
        documents = values = 0
        for event in events:
            kind = type(event)
            if kind is yaml.MappingStartEvent or kind is yaml.SequenceStartEvent:
                stack.append((kind is yaml.MappingStartEvent, [], self._opened(event), bool(event.flow_style)))
            elif kind is yaml.DocumentStartEvent:
                documents += 1
            node = self._finished(event, kind, stack)
            values += node is not None
            if len(stack) > DEPTH_LIMIT or documents > 1 or values > VALUE_LIMIT:
                self._too_much(node.location if node is not None else self._at(event), len(stack), documents)
                return
            if node is not None and stack:
                stack[-1][1].append(node)
            elif node is not None:
                self.root = node

    def _finished(self, event, kind: type, stack: list[tuple]) -> Node | None:
        """The node that ends with this event."""
        if kind is yaml.ScalarEvent:
            return self._text(event)
        if kind is yaml.AliasEvent:
            return self._alias(event)
        if kind is not yaml.MappingEndEvent and kind is not yaml.SequenceEndEvent:
            return None
        is_mapping, children, location, flow = stack.pop()
        return self._mapping(children, location, flow) if is_mapping else ListNode(tuple(children), location, flow)

    def _too_much(self, place: Location, depth: int, documents: int) -> None:
        """Refuses what no play needs and what would cost too much to read on."""
        if depth > DEPTH_LIMIT:
            indent = indent_of(self.text.split("\n")[place.line - 1])
            self._refuse(place._replace(column=indent + 1), "too-deep", *TOO_DEEP)
        elif documents > 1:
            message = "a second document begins here, after `---`"
            self._refuse(place, "two-documents", message, "write each play in a file of its own")
        else:
            self._refuse(place, "too-big", f"more than {VALUE_LIMIT} values stand in this file", "one play a file")

    def _at(self, event) -> Location:
        mark = event.start_mark
        return Location(self.path, mark.line + 1, mark.column + 1)

    def _opened(self, event) -> Location:
        location = self._at(event)
        if event.anchor is not None or event.tag is not None:
            self._marks(event, location)
        return location

    def _marks(self, event, location: Location) -> None:
        if event.anchor is not None:
            hint = "write the lines out, or take over phases with `same as: PLAY until PHASE`"
            self._refuse(
                location, "anchor", f"an anchor `&{event.anchor}` stands here; plays use none", hint, fatal=False
            )
        if event.tag is not None:
            hint = "a text that begins with `!` needs double quotes; `same as` takes over parts of another play"
            self._refuse(
                location, "tag", f"a tag `{_short_tag(event.tag)}` stands here; plays use none", hint, fatal=False
            )

    def _alias(self, event) -> TextNode:
        location = self._at(event)
        hint = "write the lines out, or take over phases with `same as: PLAY until PHASE`; a text that begins with `*` needs quotes"
        self._refuse(location, "alias", f"an alias `*{event.anchor}` stands here; plays use none", hint)
        return TextNode("", location, -1)

    def _text(self, event) -> TextNode:
        start, end, text = event.start_mark, event.end_mark, event.value
        location = Location(self.path, start.line + 1, start.column + 1)
        if event.anchor is not None or event.tag is not None:
            self._marks(event, location)
            return TextNode(text, location, -1)
        plain = not event.style
        lead = 0 if plain else 1
        if start.line != end.line or end.column - start.column != len(text) + 2 * lead:
            lead = -1
        if plain and self._hashes:
            self._hash_cut(text, end)
        return TextNode(text, location, lead, plain)

    def _hash_cut(self, text: str, end) -> None:
        if self._lines is None:
            self._lines = self.text.split("\n")
        rest = self._lines[end.line][end.column :] if end.line < len(self._lines) else ""
        if text and _HASH.match(rest):
            place = Location(self.path, end.line + 1, end.column + 2)
            message = f"'{rest.strip()[:40]}' is not read: ` #` begins a comment"
            self.diagnostics.append(
                warning(place, "hash", message, "put the whole text in double quotes if it belongs to it")
            )

    def _mapping(self, children: list[Node], location: Location, flow: bool) -> MappingNode:
        entries: list[tuple[TextNode, Node]] = []
        first: dict[str, Location] = {}
        for key, value in zip(children[::2], children[1::2]):
            if not isinstance(key, TextNode):
                what = "list" if isinstance(key, ListNode) else "mapping"
                self._refuse(
                    key.location,
                    "key",
                    f"a {what} stands here as a key",
                    "a key is a word or a number, then `:`",
                    fatal=False,
                )
                continue
            if key.text == "<<":
                self._refuse(
                    key.location,
                    "merge",
                    "a merge key `<<` stands here; plays use none",
                    "write the keys out, or take over phases with `same as: PLAY until PHASE`",
                    fatal=False,
                )
                continue
            name = fold_key(key.text)
            if name in first:
                self._twice(key, first[name])
                continue
            first[name] = key.location
            entries.append((key, value))
        return MappingNode(tuple(entries), location, flow)

    def _twice(self, key: TextNode, first: Location) -> None:
        hint = "keep one of them, or join the two"
        here, there = key.location, first
        self._refuse(
            there, "duplicate-key", f"the key '{key.text}' stands here and again in line {here.line}", hint, fatal=False
        )
        self._refuse(
            here,
            "duplicate-key",
            f"the key '{key.text}' stands here again; first in line {there.line}",
            hint,
            fatal=False,
        )


def fold_key(text: str) -> str:
    """How keys compare: spaces and hyphens alike."""
    return text.replace("-", " ") if "-" in text else text


def _short_tag(tag: str) -> str:
    return tag.replace("tag:yaml.org,2002:", "!!")
