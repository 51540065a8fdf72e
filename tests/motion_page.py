"""A page with one play in motion, in Chromium, served from memory."""

from __future__ import annotations

import json
from contextlib import contextmanager
from functools import cache
from pathlib import Path

from quiz_page import js_page

from generator.diagrams import court_symbol, motion_file, play_view
from generator.pipeline import load_book, time_play

BOOK = Path(__file__).resolve().parent.parent / "plays"
PLAY = "Lantern Over"


@cache
def timed(name: str = PLAY):
    """(timelines, view) of a play of the demo book."""
    book, _ = load_book(BOOK)
    times, _ = time_play(book.play(name), book)
    return times, play_view(times, book.team)


def page_html(view) -> str:
    """A page like a play's: floor, motion, styles."""
    return f"""<!doctype html><html lang=en><head><meta charset=utf-8><meta name=viewport content="width=device-width">
    <title>A play</title><link rel=stylesheet href=/css/tokens.css><link rel=stylesheet href=/css/court.css>
    <style>body{{margin:0;padding:16px;background:var(--paper);font-family:var(--font)}}</style></head><body>
    {court_symbol(view)}<main><h1>A play</h1><div class=motion data-src="play.json"></div></main></body></html>"""


@contextmanager
def motion_page(browser, name: str = PLAY, data: str | None = None, **context):
    """The page after its motion has mounted (or has said that it cannot); `window.island` holds it."""
    times, view = timed(name)
    text = json.dumps(motion_file(times, view)) if data is None else data
    with js_page(browser, {"/": page_html(view), "/play.json": text}, **context) as page:
        page.evaluate(
            "import('/js/motion_mount.js').then(async m => { window.island = await m.mount(document.querySelector('.motion')); "
            "window.mounted = true; })"
        )
        page.wait_for_function("window.mounted")
        yield page


FRAMES = """async () => {
  const { island } = window;
  island.change((s) => ({ ...s, running: false, follow: 3, defence: true, t: 0 }));
  const spent = [];
  const steps = 240;
  for (let i = 0; i < steps; i += 1) {
    const begin = performance.now();
    island.state = { ...island.state, t: (island.state.to * i) / steps };
    island.view.draw(island.state);
    island.controls.tick(island.state);
    spent.push(performance.now() - begin);
    if (i % 8 === 0) await new Promise(requestAnimationFrame);
  }
  return spent.sort((a, b) => a - b)[Math.floor(steps * 0.95)];
}"""


def frame_ms(page) -> float:
    """Milliseconds of scripted work a frame, 95th percentile, with defence, tail and controls. Used by the bench too."""
    return page.evaluate(FRAMES)
