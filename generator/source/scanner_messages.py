"""What the YAML scanner could not read, in a coach's words, and the text mended where the fix is certain."""

from __future__ import annotations

import re
from typing import NamedTuple

import yaml

from generator.diagnostics import Diagnostic, Location, error

_KEY_VALUE = re.compile(r"^(\s*(?:- +)*(?:[^\s\"'\[{#][^:#]*|\"[^\"]*\"):[ ]+|\s*(?:- +)+)(\S.*?)\s*$")
DEPTH_LIMIT = 20
TOO_DEEP = (
    f"more than {DEPTH_LIMIT} levels stand inside each other in this line",
    "close brackets you opened, or write fewer levels",
)
_QUOTES = "put the whole text in double quotes"
_AGAINST_START = "a text that begins with `{0}` needs double quotes"


class Trouble(NamedTuple):
    """One problem of the scanner; `mended`: the whole text with the fix made, where it is certain."""

    line: int
    column: int
    rule: str
    message: str
    hint: str
    mended: str | None = None
    indentation: bool = False

    def diagnostic(self, path: str) -> Diagnostic:
        """As a diagnostic of the file."""
        return error(Location(path, self.line, self.column), self.rule, self.message, self.hint)


def explain(problem: yaml.MarkedYAMLError, text: str) -> Trouble:
    """The trouble that `problem` stands for."""
    lines = text.split("\n")
    mark, begun = problem.problem_mark, problem.context_mark or problem.problem_mark
    said = f"{problem.context or ''} | {problem.problem or ''}"
    for words, explainer in _EXPLAINERS:
        if any(word in said for word in words):
            return explainer(lines, mark, begun)
    return _unknown(lines, mark, begun)


def indent_of(line: str) -> int:
    """How many spaces stand before the first word of `line`."""
    return len(line) - len(line.lstrip(" "))


def _line(lines: list[str], mark) -> str:
    return lines[mark.line] if mark.line < len(lines) else ""


def _character(lines: list[str], mark) -> str:
    return _line(lines, mark)[mark.column : mark.column + 1]


def _mend(lines: list[str], number: int) -> str | None:
    """The text with the value of line `number` (from 0) in double quotes; None where it has none or is quoted."""
    found = _KEY_VALUE.match(lines[number]) if number < len(lines) else None
    if not found or re.fullmatch(r'"(?:[^"\\]|\\.)*"', found[2]):
        return None
    value = found[2].replace("\\", "\\\\").replace('"', '\\"')
    return "\n".join([*lines[:number], f'{found[1]}"{value}"', *lines[number + 1 :]])


def _colon(lines, mark, begun) -> Trouble:
    before = _line(lines, mark)[: mark.column]
    if re.match(r"^\s*(?:- +)*[^\s:][^:]*:[ ]+\S", before):
        message = "a colon followed by a space stands inside this text, and begins a key there"
        return Trouble(
            mark.line + 1, mark.column + 1, "colon", message, _QUOTES + ", or drop the colon", _mend(lines, mark.line)
        )
    message = "this line stands deeper than the line above, which already has its value"
    hint = "give it the same indentation as the line above, or remove the value above"
    return Trouble(mark.line + 1, indent_of(before) + 1, "indentation", message, hint, indentation=True)


def _begins(lines, mark, begun) -> Trouble:
    character = _character(lines, begun) or _character(lines, mark)
    if character == "\t":
        return _tab(lines, mark, begun)
    return _quote_start(lines, begun, character)


def _quote_start(lines, mark, character: str) -> Trouble:
    message = f"a text cannot begin with `{character}`" if character else "a value is missing here"
    hint = _AGAINST_START.format(character) if character else "write the value, or remove the key"
    return Trouble(mark.line + 1, mark.column + 1, "quotes", message, hint, _mend(lines, mark.line))


def _tab(lines, mark, begun) -> Trouble:
    message = "a tab stands here; only spaces may stand before a line"
    return Trouble(mark.line + 1, mark.column + 1, "tab", message, "replace each tab by two spaces", indentation=True)


def _entry(lines, mark, begun) -> Trouble:
    before = _line(lines, mark)[: mark.column]
    if re.match(r"^\s*(?:- +)*[^\s:][^:]*:[ ]+$", before):
        return _quote_start(lines, mark, _character(lines, mark))
    return _indentation(lines, mark, begun)


def _bracket(lines, mark, begun) -> Trouble:
    opened = _character(lines, begun) or "["
    closing = {"[": "]", "{": "}"}.get(opened, "]")
    message = (
        f"the bracket `{opened}` that opens here is not closed before line {mark.line + 1}, column {mark.column + 1}"
    )
    hint = f"close it with `{closing}`, or put a comma between its parts; a text that begins with `{opened}` needs double quotes"
    return Trouble(begun.line + 1, begun.column + 1, "brackets", message, hint)


def _open_quote(lines, mark, begun) -> Trouble:
    quote = _character(lines, begun) or '"'
    message = f"the quote {quote} that opens here is never closed"
    return Trouble(begun.line + 1, begun.column + 1, "quotes", message, f"close it with {quote} at the end of the text")


def _key(lines, mark, begun) -> Trouble:
    before = _line(lines, mark)[: mark.column].rstrip()
    if before.endswith(('"', "'")):
        message = f"the text goes on after the closing quote {before[-1]}"
        return Trouble(
            mark.line + 1,
            mark.column + 1,
            "quotes",
            message,
            _QUOTES + ', with \\" for a quote inside it',
            _mend(lines, mark.line),
        )
    return _indentation(lines, mark, begun)


def _indentation(lines, mark, begun) -> Trouble:
    message = "the indentation of this line fits no line above"
    hint = "lines of one list or mapping begin in the same column; what belongs to a key stands two spaces deeper"
    return Trouble(mark.line + 1, mark.column + 1, "indentation", message, hint, indentation=True)


def _no_colon(lines, mark, begun) -> Trouble:
    written = _line(lines, begun).strip()
    message = f"'{written[:60]}' is no key: a `:` with a space after it is missing"
    hint = "write `key: value`, a list item as `- text`, or indent the line if it goes on from the one above"
    return Trouble(begun.line + 1, begun.column + 1, "no-colon", message, hint)


def _no_dash(lines, mark, begun) -> Trouble:
    message = f"this line stands among the items of the list that begins in line {begun.line + 1}, but has no `-`"
    return Trouble(
        mark.line + 1,
        mark.column + 1,
        "indentation",
        message,
        "begin it with `- `, or move it out of the list",
        indentation=True,
    )


def _escape(lines, mark, begun) -> Trouble:
    message = "a backslash means something else in double quotes"
    return Trouble(mark.line + 1, mark.column + 1, "quotes", message, "write \\\\ for a backslash")


def _directive(lines, mark, begun) -> Trouble:
    message = "a line that begins with `%` is an instruction to the YAML reader; plays use none"
    return Trouble(
        begun.line + 1, 1, "quotes", message, "remove the line; a text that begins with `%` needs double quotes"
    )


def _after_end(lines, mark, begun) -> Trouble:
    if not any(line.startswith("...") for line in lines[: mark.line + 1]):
        message = "more stands here, but the list or mapping that is the whole file has ended"
        hint = "a file is keys and values: begin with `play: NAME`"
        return Trouble(mark.line + 1, mark.column + 1, "brackets", message, hint)
    message = "text stands here after the end of the document (`...`)"
    return Trouble(mark.line + 1, mark.column + 1, "two-documents", message, "remove the line `...`")


def _tag(lines, mark, begun) -> Trouble:
    message = "a tag stands here; plays use none"
    return Trouble(begun.line + 1, begun.column + 1, "tag", message, "a text that begins with `!` needs double quotes")


def _deep(lines, mark, begun) -> Trouble:
    column = indent_of(_line(lines, mark)) + 1
    return Trouble(mark.line + 1, column, "too-deep", *TOO_DEEP)


def _unknown(lines, mark, begun) -> Trouble:
    message = f"this line cannot be read from here: '{_line(lines, mark)[mark.column :].strip()[:40]}'"
    hint = "look at the indentation, the quotes and the brackets of this line and the one above"
    return Trouble(mark.line + 1, mark.column + 1, "unreadable", message, hint)


_EXPLAINERS = (
    (("nesting depth",), _deep),
    (("mapping values are not allowed",), _colon),
    (("tab character", "'\\t'"), _tab),
    (("document start",), _after_end),
    (("directive", "incompatible YAML", "duplicate %"), _directive),
    (("tag handle", "scanning a tag", "while parsing a tag"), _tag),
    (("entries are not allowed", "mapping keys are not allowed"), _entry),
    (
        (
            "cannot start any token",
            "scanning an anchor",
            "scanning an alias",
            "scanning a block scalar",
            "node content",
        ),
        _begins,
    ),
    (("',' or ']'", "',' or '}'"), _bracket),
    (("unexpected end of stream", "unexpected document separator"), _open_quote),
    (("escape character", "hexadecimal", "escape sequence", "Unicode character"), _escape),
    (("expected ':'",), _no_colon),
    (("expected '-' indicator", "block collection"), _no_dash),
    (("expected key", "<block end>"), _key),
)
