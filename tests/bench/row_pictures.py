"""Pictures and motion: faults in every book's pictures, second pictures, contrast, a frame's work, motion data."""

from __future__ import annotations

import gzip
import json
import sys
from collections.abc import Iterator
from pathlib import Path

TESTS = Path(__file__).resolve().parents[1]
BOOKS = (TESTS.parent / "plays", TESTS / "books" / "sets")
TEXT_CONTRAST = 4.5  # WCAG 2.2, 1.4.3
SLOWED = 4  # times

KEYS = ("picture-faults", "second-pictures", "text-contrast", "frame", "frame-slow", "motion")


def measure(wanted: set[str]) -> dict[str, float]:
    """Faults are counted by `picture_geometry`, frames by `motion_page` in Chromium."""
    if str(TESTS) not in sys.path:
        sys.path.insert(0, str(TESTS))
    asked = wanted & set(KEYS) or set(KEYS)
    found: dict[str, float] = {}
    if "picture-faults" in asked:
        found["picture-faults"] = sum(len(_faults(book)) for book in BOOKS)
    if asked & {"second-pictures", "motion"}:
        found |= _phases_and_motion()
    if "text-contrast" in asked:
        found["text-contrast"] = _contrast()
    if asked & {"frame", "frame-slow"}:
        found |= _frames()
    return found


def _faults(book: Path) -> list[str]:
    from contact_sheet import pictures
    from picture_geometry import inspect

    return [fault for _, scene in pictures(book) for fault in inspect(scene).faults]


def _timed() -> Iterator[tuple]:
    from generator.diagrams import play_view
    from generator.pipeline import load_and_compute

    for book in BOOKS:
        computed = load_and_compute(book)
        yield from ((times, play_view(times, computed.book.team)) for times in (*computed.plays, *computed.lead_ins))


def _phases_and_motion() -> dict[str, float]:
    from generator.diagrams import motion_file, phase_diagrams

    counts, sizes = [], []
    for times, view in _timed():
        main = times.settled.main.key
        counts += [len(phase_diagrams(times, main, i, view)) for i in range(len(times.main.branch.phases))]
        text = json.dumps(motion_file(times, view), separators=(",", ":"))
        sizes.append(len(gzip.compress(text.encode(), 9)))
    return {"second-pictures": 100 * sum(n > 1 for n in counts) / len(counts), "motion": max(sizes) / 1000}


def _contrast() -> float:
    """The limit over the poorest pair of text and ground, all looks."""
    from test_diagrams_tokens import TEXT_PAIRS, _blocks, contrast

    return max(TEXT_CONTRAST / contrast(look[a], look[b]) for look in _blocks().values() if "ink" in look for a, b in TEXT_PAIRS)


def _frames() -> dict[str, float]:
    """95th percentile of the scripted work of a frame on a phone's page, then with the processor slowed."""
    from browser import CHROMIUM_FLAGS, find_chromium
    from motion_page import frame_ms, motion_page
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=find_chromium(), args=list(CHROMIUM_FLAGS))
        with motion_page(browser, viewport={"width": 320, "height": 640}) as page:
            plain = frame_ms(page)
            page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
            slowed = frame_ms(page)
        browser.close()
    return {"frame": plain, "frame-slow": slowed}
