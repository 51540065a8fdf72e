"""`do`: a line or a list of lines, with what commas and colons make of them in YAML."""

from __future__ import annotations

from generator.model.sentence import Line
from generator.parsing.findings import Findings
from generator.parsing.sentence import begins_with_who, read_line, read_sentences
from generator.source.nodes import ListNode, MappingNode, Node, TextNode

_EXAMPLE = "write `do: [1 passes to 2, 2 shoots]`"


def read_lines(node: Node, key: str, findings: Findings) -> tuple[Line, ...]:
    """The lines of a `do` or an answer."""
    if isinstance(node, TextNode):
        return _single(node, key, findings)
    if isinstance(node, MappingNode):
        colon(node, findings)
        return ()
    if not node.items:
        findings.error(node.location, "empty", f"`{key}` is an empty list", _EXAMPLE)
    return _several(node, findings)


def _single(node: TextNode, key: str, findings: Findings) -> tuple[Line, ...]:
    if not node.text.strip():
        findings.error(node.location, "empty", f"`{key}` has no lines", _EXAMPLE)
        return ()
    lines, problems = read_sentences(node)
    findings.add(*problems)
    return lines


def _several(node: ListNode, findings: Findings) -> tuple[Line, ...]:
    lines: list[Line] = []
    before: TextNode | None = None
    problems_before: tuple = ()
    for item in node.items:
        if findings.full:
            break
        if isinstance(item, TextNode):
            found, problems = read_sentences(item)
            cut = _cut(before, item) if not found and node.flow and before is not None else ""
            if cut:
                if problems_before and findings.items[-1:] == list(problems_before):
                    findings.items.pop()
                hint = f"{cut} the comma before '{item.text[:40]}', or give the sentence its own `-` line"
                findings.error(item.location, "comma", "a comma cut this sentence in two", hint)
                problems = ()
            findings.add(*problems)
            lines += found
            before, problems_before = item, problems if not found else ()
            continue
        before, problems_before = None, ()
        if isinstance(item, MappingNode):
            colon(item, findings)
        else:
            findings.error(
                item.location,
                "shape",
                "a list stands among the lines",
                "each line is one text; drop the inner brackets",
            )
    return tuple(lines)


def _cut(before: TextNode, item: TextNode) -> str:
    """What to do with the comma that made two items of one sentence; "" where none did.

    The second item begins with nobody, or only both together can be read.
    """
    if not item.text.strip():
        return ""
    for joint, fix in ((" ", "drop"), (" and ", "write `and` for")):
        if read_line(TextNode(f"{before.text}{joint}{item.text}", before.location, -1))[0] is not None:
            return fix
    return "" if begins_with_who(item.text) else "drop"


def colon(node: MappingNode, findings: Findings) -> None:
    """A line that YAML made a mapping of, because a colon stands in it."""
    key = node.entries[0][0] if node.entries else None
    place = key.location if key else node.location
    said = f" after '{key.text[:40]}'" if key else ""
    findings.error(place, "colon", f"a colon followed by a space starts a key here{said}", "drop it, or quote the line")
