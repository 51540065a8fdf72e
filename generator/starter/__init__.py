"""The book that `secondside new` writes: one small series with comments that teach. Files in, files out; nothing is computed."""

from __future__ import annotations

import json
import os
import shutil
from collections.abc import Mapping
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from string import Template

from generator.vocabulary.schema import FILES, schema_text

_RENAMED = {"gitignore": ".gitignore"}  # a dot file would not travel inside the wheel


class NotEmpty(Exception):
    """There is something in the folder already; it was left alone."""


def starter_files(team: str, rule_set: str, pace: str) -> Mapping[str, str]:
    """Every file of the starter book by its path, the three answers filled in."""
    written = {"team": json.dumps(team, ensure_ascii=False), "rule_set": rule_set, "pace": pace}
    plain = {**written, "team": team}
    return {
        path: Template(text).substitute(written if path.endswith(".yml") else plain)
        for path, text in sorted(_texts(files("generator.starter").joinpath("book"), ""))
    }


def editor_files() -> Mapping[str, str]:
    """What an editor that knows JSON Schema reads to offer keys and mark wrong ones: one file for each kind of file of a book."""
    return {f"editor/{kind}.json": schema_text(kind) for kind in FILES}


def write_editor_files(folder: Path) -> tuple[str, ...]:
    """Writes them anew into `editor/` of `folder`, where the book lies beside; nothing else there is touched."""
    made = editor_files()
    for path, text in made.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(text, encoding="utf-8", newline="\n")
    return tuple(made)


def write_starter(folder: Path, team: str, rule_set: str, pace: str) -> tuple[str, ...]:
    """Writes the starter book beside and moves it into place as a whole; the paths written. NotEmpty when `folder` is in use."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise NotEmpty(f"{folder} is not empty")
    made = {**starter_files(team, rule_set, pace), **editor_files()}
    folder = folder.absolute()
    part = folder.with_name(f".{folder.name}.part")
    shutil.rmtree(part, ignore_errors=True)
    try:
        for path, text in made.items():
            file = part / path
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(text, encoding="utf-8", newline="\n")
        _move(part, folder)
    finally:
        shutil.rmtree(part, ignore_errors=True)
    return tuple(made)


def _move(part: Path, folder: Path) -> None:
    """An empty folder that somebody stands in cannot be replaced: then its content is moved in."""
    if not folder.exists():
        os.replace(part, folder)
        return
    for child in sorted(part.iterdir()):
        os.replace(child, folder / child.name)


def _texts(folder: Traversable, below: str):
    for item in folder.iterdir():
        if item.is_dir():
            yield from _texts(item, f"{below}{item.name}/")
        elif item.name.endswith((".yml", ".md")) or item.name in _RENAMED:
            yield below + _RENAMED.get(item.name, item.name), item.read_text(encoding="utf-8")
