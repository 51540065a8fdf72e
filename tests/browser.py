"""Where the browser of the tests is and how it starts."""

from __future__ import annotations

import os
import shutil

CHROMIUM_FLAGS = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
)

PATIENCE = 20_000  # ms a browser test waits on a busy machine; on an idle one everything is there in one second


def find_chromium() -> str | None:
    """The system's Chromium; None lets Playwright use its own."""
    named = os.environ.get("SECONDSIDE_CHROMIUM")
    names = ("chromium", "chromium-browser", "google-chrome-stable", "google-chrome")
    return named or next((p for p in map(shutil.which, names) if p), None)
