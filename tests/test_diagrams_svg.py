"""What the writer writes: in bounds of its byte budget, equal for equal scenes, named for listeners, true to the scene."""

from __future__ import annotations

import gzip
import itertools
import re
import xml.etree.ElementTree as ET

import picture_plays
import pytest
from svgelements import Path as SvgPath

from generator.diagrams import court_symbol, diagram_svg, phase_diagrams, standalone_svg
from generator.diagrams.path import Bend, Path, Straight
from generator.diagrams.pen import Pen, number, numbers
from generator.diagrams.placement import compose
from generator.diagrams.scene import EndGhost, Line, PassLine, Token, View, Wave
from generator.diagrams.sketch import Flight, HandOffPlace, Leg, ShotPlace, Sketch, Stop, Trail, Way
from generator.model.court import RuleSet

MOST_BYTES = 400  # gzip -9, eight together, without the shared floor (budget `diagram`)


def _all_scenes():
    for make in picture_plays.PLAYS:
        times, view = picture_plays.times_of(make)
        for index in range(len(times.main.branch.phases)):
            yield from phase_diagrams(times, "main", index, view)


@pytest.fixture(scope="module")
def scenes():
    return tuple(_all_scenes())


def test_bytes_per_diagram(scenes):
    texts = [diagram_svg(scene, "") for scene in scenes]
    for i in range(0, len(texts) - 7, 4):
        assert len(gzip.compress("".join(texts[i : i + 8]).encode(), 9)) / 8 <= MOST_BYTES


def test_same_scene_same_bytes(scenes):
    again = tuple(_all_scenes())
    assert [diagram_svg(s, "a") for s in scenes] == [diagram_svg(s, "a") for s in again]


def test_every_picture_says_what_it_shows(scenes):
    for scene in scenes:
        root = ET.fromstring(diagram_svg(scene, ""))
        assert root.get("role") == "img"
        assert root.find("title").text == scene.title and root.find("desc").text == scene.words
        assert scene.title and "with the ball" in scene.words


def test_only_the_given_id_appears(scenes):
    text = diagram_svg(scenes[0], "here")
    assert re.findall(r'\bid="([^"]*)"', text) == ["here"]
    assert not re.findall(r'\bid="', diagram_svg(scenes[0], ""))


def test_the_floor_it_refers_to_exists(scenes):
    for scene in scenes:
        wanted = re.search(r'href="#([^"]+)"', diagram_svg(scene, "")).group(1)
        assert f'id="{wanted}"' in court_symbol(scene.view)


def test_text_of_the_coach_cannot_break_the_markup():
    nasty = Sketch(View(RuleSet.COLLEGE), {1: (0, 80)}, 1, '<script>"&', "a < b & 'c'")
    text = diagram_svg(compose(nasty), "")
    assert "<script" not in text and ET.fromstring(text).find("title").text == '<script>"&'


def test_numbers_and_marks_of_a_pin_down():
    """5 ends at a bar, 3 on the left wing by an arrow round him, nobody else moves."""
    times, view = picture_plays.times_of(picture_plays.pin_down)
    (scene,) = phase_diagrams(times, "main", 1, view)
    assert [t.player for t in scene.of(Token)] == [1, 2, 3, 4, 5]
    assert [t.player for t in scene.of(Token) if t.with_ball] == [4]
    (ghost,) = scene.of(EndGhost)
    wing = view.place(times.main.position(3, times.main.duration))
    assert ghost.player == 3 and ghost.at == pytest.approx(wing, abs=0.5)
    lines = {line.player: line for line in scene.of(Line)}
    assert set(lines) == {3, 5} and not lines[5].head and lines[3].head
    (first,) = phase_diagrams(times, "main", 0, view)
    assert [w.player for w in first.of(Wave)] == [1] and [(p.passer, p.receiver) for p in first.of(PassLine)] == [(1, 4)]


@pytest.mark.parametrize(
    ("value", "text"), [(0.04, "0"), (-0.04, "0"), (0.5, ".5"), (-0.5, "-.5"), (10, "10"), (100.0, "100"), (-3.26, "-3.3")]
)
def test_number(value, text):
    assert number(value) == text


def test_numbers_need_no_needless_space():
    assert numbers((1, -0.5, 0.5, 0.5, 10)) == "1-.5.5.5 10"


def test_pen_does_not_drift():
    """A hundred steps of a third end within half a decimal of where they should."""
    spots = [(i / 3, i / 7) for i in range(101)]
    path = Path(tuple(Straight(a, b) for a, b in itertools.pairwise(spots)))
    end = SvgPath(Pen().chain(path).data()).current_point
    assert (end.x, end.y) == pytest.approx(spots[-1], abs=0.051)


def test_pen_draws_arcs_on_their_circle():
    bend = Bend((10.0, 20.0), 30.0, 0.3, -2.0)
    drawn = SvgPath(Pen(places=2).chain(Path((bend,))).data())
    for i in range(11):
        point = drawn.point(i / 10)
        assert ((point.x - 10) ** 2 + (point.y - 20) ** 2) ** 0.5 == pytest.approx(30.0, abs=0.05)


def test_wave_keeps_to_its_way_and_meets_the_head():
    """Crests stay at equal height to both sides all along, and the last stroke ends on the way itself."""
    from generator.diagrams.notation import WAVE_HEIGHT, wave

    path = Path((Straight((0.0, 0.0), (37.0, 13.0)), Bend((30.3, 32.1), 20.23, -1.23, 0.9)))
    crests, end, stop = wave(path, True)
    assert len(crests) % 2 == 0 and path.gap(end) < 1e-6 and path.gap(stop) < 1e-6
    data = Pen().move(path.first).wave(crests, end).data()
    for seg in list(SvgPath(data))[1:]:
        assert path.gap((seg.control.x, seg.control.y)) == pytest.approx(WAVE_HEIGHT, abs=0.25)


def test_a_file_of_its_own_needs_nothing_else(scenes):
    text = standalone_svg(scenes[0], ".diagram path{stroke:#000}")
    root = ET.fromstring(text)
    assert root.tag == "{http://www.w3.org/2000/svg}svg" and "href" not in text and "<style" in text


def _golden_sketches():
    starts = {1: (0, 86), 2: (50, 66), 3: (-69.5, 12), 4: (24.5, 58), 5: (-27.5, 28)}
    slot, meet = (-24, 82), (38.0, 76.0)
    reversal = Sketch(View(RuleSet.INTERNATIONAL), starts, 1, "Reversal", "1 top with the ball.", (
        Trail(1, (Leg(_way((0, 86), (24, 82)), Way.DRIBBLE),)), Trail(4, (Leg(_way((24.5, 58), slot)),)),
        Trail(2, (Leg(_way((50, 66), (69.5, 12))),)),
    ), (Flight(1, 4, (24, 82), slot),))
    screen = Sketch(View(RuleSet.COLLEGE, "down"), {p: (-x, -y) for p, (x, y) in starts.items()}, 1, "Screen", "w", (
        Trail(5, (Leg(_way((27.5, -28), (60, -24)), Way.CUT, Stop.BAR, (0.6, 0.8)),)), Trail(3, (Leg(_way((69.5, -12), (50, -66))),)),
    ), shots=(ShotPlace(3, (50, -66)),), own=3)
    hand_off = Sketch(View(RuleSet.HIGH_SCHOOL), starts, 1, "Hand-off", "w", (
        Trail(1, (Leg(_way((0, 86), meet), Way.DRIBBLE, Stop.HAND_OFF),)),
        Trail(2, (Leg(_way((50, 66), meet), Way.CUT, Stop.HAND_OFF), Leg(_way(meet, slot), Way.DRIBBLE))),
    ), hand_offs=(HandOffPlace(1, 2, meet),), defenders={3: (-60, 16)}, reader=4)
    return {"reversal": reversal, "screen": screen, "hand-off": hand_off}


def _way(*spots):
    return Path(tuple(Straight(a, b) for a, b in itertools.pairwise(spots)))


@pytest.mark.parametrize("name", ["reversal", "screen", "hand-off"])
def test_golden(golden, name):
    """Three pictures that show every mark; look at them before they are renewed."""
    text = diagram_svg(compose(_golden_sketches()[name]), "picture")
    golden(f"svg/{name}.svg", text.replace("><", ">\n<") + "\n")
