"""A page of our own scripts in Chromium, served from memory: no server, no network."""

from __future__ import annotations

from contextlib import contextmanager
from pathlib import Path

ASSETS = Path(__file__).resolve().parent.parent / "site_theme" / "assets"
ORIGIN = "http://second.side"
TYPES = {".js": "text/javascript", ".css": "text/css", ".json": "application/json", ".html": "text/html; charset=utf-8"}
EMPTY = "<!doctype html><html lang=en><title>test</title><body></body></html>"


@contextmanager
def js_page(browser, files: dict[str, str] | None = None, **context):
    """A page at `/` with `/js/` and `/css/` from the theme and `files` (path to text) beside them."""
    files = {"/": EMPTY, **(files or {})}

    def answer(route):
        path = "/" + route.request.url.split("/", 3)[3].split("?")[0].split("#")[0]
        kind = TYPES.get(Path(path).suffix, TYPES[".html"])
        if path in files:
            return route.fulfill(body=files[path], content_type=kind)
        local = ASSETS / path.lstrip("/")
        return route.fulfill(path=local, content_type=kind) if local.is_file() else route.fulfill(status=404, body="")

    window = browser.new_context(**context)
    window.route("**/*", answer)
    page = window.new_page()
    page.goto(ORIGIN + "/")
    try:
        yield page
    finally:
        window.close()
