"""A book that somebody else has written: whatever stands in its names is shown as text, in pages and in what search finds."""

from __future__ import annotations

import functools
import http.server
import re
import threading

import pytest

from generator.mkdocs_plugin import build_site
from generator.starter import write_starter

pytestmark = pytest.mark.browser
TRAP = "\"'></title></textarea></script><img src=x onerror=window.caught=1><script>window.caught=1</script>{{7*7}}"


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *args):
        pass


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    """(address, root) of a starter book with the trap in the team's name, in every name, call, signal, purpose and note."""
    home = tmp_path_factory.mktemp("hostile")
    write_starter(home / "book", f"Oak {TRAP}", "high school", "high school")
    spelt = TRAP.replace('"', '\\"')
    for file in (home / "book" / "plays" / "games").iterdir():
        file.unlink()
    for file in (home / "book" / "plays").rglob("*.yml"):
        keys = "play|call|signal|purpose|note|staff-note|watch|why"
        text = re.sub(rf"^({keys}): *(.+)$", lambda m: f'{m[1]}: "{m[2].strip(chr(34))} {spelt}"', file.read_text(), flags=re.MULTILINE)
        file.write_text(text)
    (home / "book" / "plays" / "own.md").write_text(f"title: Own {TRAP}\n\nWords of the coach.\n")
    root = build_site(home / "book" / "plays", home / "site").root
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(_Quiet, directory=root))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/", root
    server.shutdown()


def test_no_page_runs_what_stands_in_a_name(site, phone):
    address, root = site
    page = phone.new_page()
    pages = sorted(p.parent.relative_to(root).as_posix() for p in root.rglob("index.html"))
    assert len(pages) > 15
    for where in pages:
        page.goto(address + where)
        page.wait_for_load_state("networkidle")
        assert page.evaluate("[window.caught || 0, document.querySelectorAll('img[src=x]').length]") == [0, 0], where
        assert page.title().endswith(f"Oak {TRAP}"), where


def test_search_shows_a_name_as_text(site, phone):
    address, _ = site
    page = phone.new_page()
    page.goto(address)
    page.wait_for_load_state("networkidle")
    page.click("[data-find]")
    page.keyboard.type("cedar", delay=20)
    page.wait_for_selector(".md-search-result__item a")
    assert "<img src=x" in page.inner_text(".md-search-result__list")
    assert page.evaluate("[window.caught || 0, document.querySelectorAll('img[src=x]').length]") == [0, 0]
