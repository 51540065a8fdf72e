"""Shared fixtures: the deep switch, golden files, one Chromium for the whole run."""

from __future__ import annotations

from pathlib import Path

import pytest
from browser import CHROMIUM_FLAGS, PATIENCE, find_chromium

ROOT = Path(__file__).resolve().parent.parent


def pytest_addoption(parser):
    parser.addoption("--deep", action="store_true", help="run the tests marked deep")
    parser.addoption("--update-golden", action="store_true", help="rewrite the golden files")


def pytest_collection_modifyitems(config, items):
    if config.getoption("--deep"):
        return
    for item in items:
        if "deep" in item.keywords:
            item.add_marker(pytest.mark.skip(reason="deep: make deep"))


@pytest.fixture
def golden(request):
    """Compare text with `tests/golden/<name>`; `--update-golden` writes it."""

    def compare(name: str, text: str) -> None:
        path = ROOT / "tests" / "golden" / name
        if request.config.getoption("--update-golden"):
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        assert path.exists(), f"no golden file {name}; run with --update-golden and look at it"
        assert text == path.read_text(encoding="utf-8")

    return compare


@pytest.fixture(scope="session")
def chromium():
    """One headless browser for all browser tests of a worker."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=find_chromium(), args=list(CHROMIUM_FLAGS))
        yield browser
        browser.close()


@pytest.fixture
def phone(chromium):
    """A small phone of its own for one test, patient on a busy machine."""
    context = chromium.new_context(viewport={"width": 360, "height": 740})
    context.set_default_timeout(PATIENCE)
    yield context
    context.close()
