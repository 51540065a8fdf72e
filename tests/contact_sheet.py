"""All pictures of a book on one page, to be looked at: `python tests/contact_sheet.py BOOK OUT.png [WIDTH] [LOOK]`.

LOOK: light, dark or print. Under each picture stands what `picture_geometry` finds wrong with it.
"""

from __future__ import annotations

import html
import sys
from collections.abc import Iterable
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from browser import CHROMIUM_FLAGS, find_chromium
from picture_geometry import inspect

from generator.diagrams import (
    answer_diagram,
    court_id,
    court_symbol,
    diagram_svg,
    moment_picture,
    phase_diagrams,
    play_view,
)
from generator.diagrams.scene import Scene
from generator.pipeline import load_and_compute


def pictures(folder: Path, reads: bool = True) -> Iterable[tuple[str, Scene]]:
    """(name, scene) of every phase, answer and read of a book's plays and lead-ins."""
    computed = load_and_compute(folder)
    for times in (*computed.plays, *computed.lead_ins):
        view = play_view(times, computed.book.team)
        for i, phase in enumerate(times.main.branch.phases):
            for scene in phase_diagrams(times, times.settled.main.key, i, view):
                yield f"{times.play.name} {i + 1} {phase.name}", scene
        for key, timeline in times.timelines.items():
            branch = timeline.branch
            if branch.departure is not None:
                yield f"{times.play.name} / {branch.name}", answer_diagram(times, key, view)
            if reads:
                for i in range(len(branch.forks)):
                    if branch.departure is None or i == branch.departure.fork:
                        yield f"{times.play.name} ? {branch.name}", moment_picture(timeline, i, view)


def sheet(named: list[tuple[str, Scene]], width: int, columns: int = 4) -> str:
    """An HTML page of pictures `width` CSS pixels wide."""
    css = "".join((ROOT / "site_theme/assets/css" / f).read_text() for f in ("tokens.css", "court.css"))
    floors = {court_id(s.view): court_symbol(s.view) for _, s in named}
    cells = "".join(
        f"<figure>{diagram_svg(s, '')}<figcaption>{html.escape(name)} {s.strain or ''}"
        f"<b>{html.escape('; '.join(inspect(s).faults))}</b></figcaption></figure>"
        for name, s in named
    )
    look = f"""{css} body{{background:var(--paper);color:var(--ink);margin:8px;font:11px var(--font);display:grid;gap:8px;
    grid-template-columns:repeat({columns},{width}px);align-items:start}} figure{{margin:0}} b{{color:var(--wrong);display:block}}"""
    return f"<!doctype html><meta charset=utf-8><style>{look}</style>{''.join(floors.values())}{cells}"


def shoot(page_html: str, out: Path, width: int, look: str, scale: float = 1.5) -> None:
    """A PNG of the page."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=find_chromium(), args=list(CHROMIUM_FLAGS))
        page = browser.new_page(
            viewport={"width": width, "height": 800}, device_scale_factor=scale, color_scheme="dark" if look == "dark" else "light"
        )
        page.emulate_media(media="print" if look == "print" else "screen")
        page.set_content(page_html)
        page.screenshot(path=str(out), full_page=True)
        browser.close()


if __name__ == "__main__":
    book, out = Path(sys.argv[1]), Path(sys.argv[2])
    width = int(sys.argv[3]) if len(sys.argv) > 3 else 288
    look = sys.argv[4] if len(sys.argv) > 4 else "light"
    found = list(pictures(book))
    faulty = sum(bool(inspect(s).faults) for _, s in found)
    print(f"{len(found)} pictures, {faulty} with faults, {sum(n.startswith('') and s.strain > 0 for n, s in found)} strained")
    per = 20
    for n in range(0, len(found), per):
        shoot(sheet(found[n : n + per], width), out.with_stem(f"{out.stem}-{n // per + 1}"), 4 * (width + 8) + 16, look)
