"""The browser's places against the exact timeline: within 5 cm (timeline.md 7), the ball where its holder is."""

from __future__ import annotations

import json
from math import hypot

import pytest
from motion_page import timed
from quiz_page import js_page

from generator.diagrams import motion_file

pytestmark = pytest.mark.browser
WITHIN = 0.05  # metres

ASK = """async ({ data, asked }) => {
  const m = await import('/js/motion_track.js');
  const motion = m.decode(data);
  return asked.map(([key, who, t]) => {
    const track = m.trackOf(motion, key);
    if (who === 'ball') { const b = m.ballAt(track, t); return [b.x, b.y, b.holder]; }
    return who < 0 ? m.defenderAt(track, -who, t) : m.placeAt(track, who, t);
  });
}"""


def _instants(duration: float):
    return [round(duration * k / 41, 4) for k in range(42)]


@pytest.mark.parametrize("name", ["Lantern Over", "Causeway", "Handrail"])
def test_places_agree_to_five_centimetres(chromium, name):
    """Vectors written by Python at instants that fall between samples, read by the page's own code."""
    times, view = timed(name)
    data = json.loads(json.dumps(motion_file(times, view)))
    asked, exact = [], []
    for key, timeline in times.timelines.items():
        for t in _instants(timeline.duration):
            for player in range(1, 6):
                asked += [[key, player, t], [key, -player, t]]
                exact += [timeline.position(player, t), timeline.defender(player, t)]
    with js_page(chromium) as page:
        got = page.evaluate(ASK, {"data": data, "asked": asked})
    worst = max(hypot(g[0] - e[0], g[1] - e[1]) for g, e in zip(got, exact, strict=True))
    assert worst <= WITHIN


def test_ball_agrees_with_the_timeline(chromium):
    times, view = timed("Lantern Over")
    asked, exact = [], []
    for key, timeline in times.timelines.items():
        last = max((e.caught for e in timeline.ball_events if e.receiver), default=0.0)
        for t in _instants(timeline.duration):
            near = any(abs(t - edge) < 0.03 for e in timeline.ball_events for edge in (e.release, e.caught))
            if not near and t < max(last, timeline.duration - 0.05):
                asked.append([key, "ball", t])
                exact.append(timeline.ball(t))
    with js_page(chromium) as page:
        got = page.evaluate(ASK, {"data": json.loads(json.dumps(motion_file(times, view))), "asked": asked})
    assert [g[2] for g in got] == [e.holder or 0 for e in exact]
    assert any(g[2] == 0 for g in got)
    for g, e in zip(got, exact, strict=True):
        assert hypot(g[0] - e.point[0], g[1] - e.point[1]) < 0.35  # in the air: straight between two sampled places


@pytest.mark.parametrize("data", [None, {}, {"version": 2, "tracks": [1]}, {"version": 1, "tracks": []}, "x"])
def test_other_data_is_refused(chromium, data):
    with js_page(chromium) as page:
        refused = page.evaluate(
            "async (data) => { const m = await import('/js/motion_track.js'); try { m.decode(data); return false; } catch { return true; } }",
            data,
        )
    assert refused


def test_reads_lead_to_branches_that_exist():
    """Every answer of every fork leads to a branch that takes it and is alike before."""
    for name in ("Lantern Over", "Breakwater", "Causeway"):
        times, view = timed(name)
        tracks = {t["key"]: t for t in motion_file(times, view)["tracks"]}
        assert next(iter(tracks)) == times.settled.main.key
        for key, track in tracks.items():
            for index, read in enumerate(track["reads"]):
                assert read["answers"][read["taken"]][1] == key
                for k, (words, leads) in enumerate(read["answers"]):
                    assert words
                    if leads:
                        led = tracks[leads]["reads"]
                        assert led[index]["taken"] == k and led[index]["name"] == read["name"]
                        assert [r["taken"] for r in led[:index]] == [r["taken"] for r in track["reads"][:index]]
        assert any(leads not in ("", times.settled.main.key) for r in tracks["main"]["reads"] for _, leads in r["answers"])
