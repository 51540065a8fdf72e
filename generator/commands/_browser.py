"""The browser that is already on the machine, for paper and pixels. Nothing is fetched; no browser is a plain message."""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from pathlib import Path

import click

_NAMES = (
    "chromium", "chromium-browser", "google-chrome-stable", "google-chrome", "chrome", "microsoft-edge", "msedge",
)
_USUAL_PLACES = (
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
    "C:/Program Files/Google/Chrome/Application/chrome.exe",
    "C:/Program Files (x86)/Microsoft/Edge/Application/msedge.exe",
)
_FLAGS = (
    "--headless", "--disable-gpu", "--hide-scrollbars", "--no-first-run", "--disable-background-networking",
    "--disable-sync", "--disable-component-update", "--disable-extensions", "--no-default-browser-check",
)
_TIMEOUT = 90  # seconds


def find_browser() -> str:
    """Path of a Chromium-like browser; a usage error that says what to do where there is none."""
    named = os.environ.get("SECONDSIDE_CHROMIUM")
    found = named or next((p for p in map(shutil.which, _NAMES) if p), None)
    found = found or next((p for p in _USUAL_PLACES if os.path.exists(p)), None)
    if not found or not (shutil.which(found) or os.path.exists(found)):
        raise click.ClickException(
            "no Chromium, Chrome or Edge found on this machine. Install one, or set SECONDSIDE_CHROMIUM to its path, "
            "or write --out FILE.svg (draw) or FILE.html (print) and print that from any browser."
        )
    return found


def screenshot(html: str, size: tuple[int, int], scale: float, out: Path) -> None:
    """A PNG of a page of `size` CSS pixels."""
    width, height = size
    _run(html, out, [f"--force-device-scale-factor={scale:g}", f"--window-size={width},{height}"], "--screenshot={}")


def print_pdf(html: str, out: Path) -> None:
    """A PDF of a page, with the paper that its own @page rule names."""
    _run(html, out, ["--no-pdf-header-footer"], "--print-to-pdf={}")


def _run(html: str, out: Path, options: list[str], target: str) -> None:
    browser = find_browser()
    with tempfile.TemporaryDirectory() as folder:
        page, made = Path(folder) / "page.html", Path(folder) / ("made" + out.suffix)
        page.write_text(html, encoding="utf-8")
        command = [
            browser, *_FLAGS, *_root_flags(), f"--user-data-dir={folder}/profile", *options, target.format(made), page.as_uri(),
        ]
        try:
            done = subprocess.run(command, capture_output=True, timeout=_TIMEOUT, check=False)
        except (OSError, subprocess.TimeoutExpired) as problem:
            raise click.ClickException(f"the browser {browser} did not finish: {problem}") from problem
        if not made.exists():
            said = done.stderr.decode(errors="replace").strip().splitlines()[-1:] or ["it said nothing"]
            raise click.ClickException(f"the browser {browser} made no file: {said[0]}")
        out.parent.mkdir(parents=True, exist_ok=True)
        shutil.move(made, out)


def _root_flags() -> list[str]:
    """Chromium refuses its sandbox to the superuser (containers)."""
    return ["--no-sandbox"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []
