"""Every mistake a coach can make in words and keys, with the exact words we answer.

One file of tests/golden/diagnostics is one mistake: `files` (path: text, or how to make it), `expect` (exact output).
"""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from generator.diagnostics import format_diagnostic
from generator.parsing import parse_book
from generator.source import read_book_files

FOLDER = Path(__file__).parent / "golden" / "diagnostics"
CASES = sorted(FOLDER.glob("*.yml"))
DISTINCT = 80


def _bytes(content) -> bytes:
    """Text as it stands; `{hex: ...}` for bytes, `{text: ..., times: N}` for what is too long to write out."""
    if isinstance(content, str):
        return content.encode()
    if "hex" in content:
        return bytes.fromhex(content["hex"])
    return (content.get("before", "") + content["text"] * content["times"] + content.get("after", "")).encode()


def _said(case: dict, folder: Path) -> str:
    for name, content in case["files"].items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(_bytes(content))
    files, unreadable = read_book_files(folder)
    _, found = parse_book(files)
    return "".join(format_diagnostic(d) + "\n" for d in sorted((*unreadable, *found), key=lambda d: d.sort_key()))


@pytest.mark.parametrize("path", CASES, ids=[p.stem for p in CASES])
def test_mistake_is_answered_in_these_words(path, tmp_path, request):
    text = path.read_text(encoding="utf-8")
    case = yaml.safe_load(text)
    said = _said(case, tmp_path)
    if request.config.getoption("--update-golden"):
        kept = text.split("\nexpect:")[0].rstrip("\n")
        body = "".join(f"  {line}\n" for line in said.splitlines())
        path.write_text(f"{kept}\nexpect: |\n{body}" if body else f'{kept}\nexpect: ""\n', encoding="utf-8")
        case = yaml.safe_load(path.read_text(encoding="utf-8"))
    assert said == case["expect"]


def test_at_least_eighty_distinct_mistakes():
    expected = {yaml.safe_load(p.read_text(encoding="utf-8"))["expect"] for p in CASES}
    assert len(expected) >= DISTINCT


@pytest.mark.parametrize("path", CASES, ids=[p.stem for p in CASES])
def test_every_answer_speaks_to_a_coach(path):
    """No words of the scanner or of Python, and every error names a fix."""
    said = yaml.safe_load(path.read_text(encoding="utf-8"))["expect"]
    for word in (
        "Traceback",
        "NoneType",
        "Error(",
        "scalar",
        "token",
        "node",
        "mapping values",
        "block end",
        "flow sequence",
    ):
        assert word not in said
    lines = said.splitlines()
    for line, following in zip(lines, [*lines[1:], ""]):
        if not line.startswith("    "):
            assert following.startswith("    "), f"no hint: {line}"
