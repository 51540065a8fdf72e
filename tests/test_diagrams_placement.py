"""No line through a number, nothing on top of anything: counted with shapely, apart from the code that places.

Hand-made plays here; the demo book and the test books in test_diagrams_books.py.
"""

from __future__ import annotations

import itertools
import random

import picture_plays
import pytest
from picture_geometry import inspect

from generator.diagrams import phase_diagrams
from generator.diagrams.bending import softened
from generator.diagrams.notation import arrowhead
from generator.diagrams.path import Path, Straight, apart, bowed
from generator.diagrams.placement import compose
from generator.diagrams.scene import (
    Bar,
    EndGhost,
    HandOffMark,
    Line,
    OrderMark,
    PassLine,
    Scene,
    Token,
    View,
    Wave,
)
from generator.diagrams.sketch import Flight, HandOffPlace, Leg, Sketch, Stop, Trail, Way
from generator.diagrams.trails import squared
from generator.model.court import RuleSet

VIEW = View(RuleSet.INTERNATIONAL)
TOP, RIGHT_SLOT, LEFT_SLOT, RIGHT_WING, LEFT_WING = (0, 86), (24, 82), (-24, 82), (50, 66), (-50, 66)
LEFT_CORNER, RIGHT_CORNER, LEFT_BLOCK, RIGHT_BLOCK = (-69.5, 12), (69.5, 12), (-27.5, 28), (27.5, 28)


def _straight(*spots) -> Path:
    return Path(tuple(Straight(a, b) for a, b in itertools.pairwise(spots)))


def _cut(player, *spots) -> Trail:
    return Trail(player, (Leg(_straight(*spots)),))


def _sketch(starts, holder=1, **more) -> Sketch:
    return Sketch(VIEW, starts, holder, "t", "w", **more)


@pytest.mark.parametrize("make", picture_plays.PLAYS, ids=lambda m: m.__name__)
def test_hand_made_plays_have_no_fault(make):
    times, view = picture_plays.times_of(make)
    for index in range(len(times.main.branch.phases)):
        for scene in phase_diagrams(times, "main", index, view):
            assert inspect(scene).faults == ()


def test_a_pass_bows_round_the_man_between():
    starts = {1: LEFT_SLOT, 2: RIGHT_SLOT, 3: (0, 82)}
    scene = compose(_sketch(starts, flights=(Flight(1, 2, LEFT_SLOT, RIGHT_SLOT),)))
    (flight,) = scene.of(PassLine)
    assert flight.path.gap((0, 82)) > 4.7 and inspect(scene).faults == ()


def test_two_who_change_places_have_two_lines_and_four_numbers():
    starts = {1: TOP, 2: RIGHT_WING, 3: LEFT_WING, 4: LEFT_BLOCK, 5: RIGHT_BLOCK}
    scene = compose(_sketch(starts, trails=(_cut(4, LEFT_BLOCK, RIGHT_BLOCK), _cut(5, RIGHT_BLOCK, LEFT_BLOCK))))
    assert inspect(scene).faults == () and len(scene.of(EndGhost)) == 2
    a, b = scene.of(Line)
    apart_somewhere = max(b.path.gap(spot) for spot in a.path.samples(2.0))
    assert apart_somewhere > 2.5


def test_the_taker_of_a_left_place_stops_short_of_its_number():
    scene = compose(_sketch({1: TOP, 2: RIGHT_WING, 3: RIGHT_CORNER}, trails=(_cut(3, RIGHT_CORNER, RIGHT_WING), _cut(2, RIGHT_WING, (10, 20)))))
    ghost = next(g for g in scene.of(EndGhost) if g.player == 3)
    assert 8.0 < apart(ghost.at, RIGHT_WING) < 12.0 and inspect(scene).faults == ()


def test_numbers_on_one_spot_are_pushed_apart():
    scene = compose(_sketch({1: TOP, 2: (2, 84), 3: (1, 88)}))
    assert inspect(scene).faults == ()
    assert all(apart(t.at, TOP) < 14 for t in scene.of(Token))


def test_a_bar_is_square_to_the_way_and_clear_of_the_man():
    legs = (Leg(_straight(LEFT_BLOCK, (-60, 16)), Way.CUT, Stop.BAR, (0.6, 0.8)),)
    scene = compose(_sketch({3: LEFT_CORNER, 5: LEFT_BLOCK}, holder=None, trails=(Trail(5, legs),)))
    (bar,) = scene.of(Bar)
    assert bar.along == (0.6, 0.8) and inspect(scene).faults == ()


def test_a_hand_off_mark_stays_between_the_two():
    meet = (40.0, 72.0)
    give = Trail(1, (Leg(_straight(TOP, meet), Way.DRIBBLE, Stop.HAND_OFF),))
    take = Trail(2, (Leg(_straight(RIGHT_CORNER, meet), Way.CUT, Stop.HAND_OFF), Leg(_straight(meet, LEFT_SLOT), Way.DRIBBLE)))
    scene = compose(_sketch({1: TOP, 2: RIGHT_CORNER}, trails=(give, take), hand_offs=(HandOffPlace(1, 2, meet),)))
    (mark,) = scene.of(HandOffMark)
    assert apart(mark.at, meet) < 6 and inspect(scene).faults == ()
    taker_head = arrowhead(next(line for line in scene.of(Line) if line.player == 2).path)[0]
    assert 2.4 < apart(taker_head, mark.at) < 6


def test_the_mark_of_a_standing_giver_is_seen():
    take = Trail(2, (Leg(_straight(LEFT_WING, (-28, 79)), Way.CUT, Stop.HAND_OFF),))
    go = Trail(1, (Leg(_straight(LEFT_SLOT, LEFT_CORNER)),))
    scene = compose(_sketch({1: LEFT_SLOT, 2: LEFT_WING}, trails=(go, take), hand_offs=(HandOffPlace(1, 2, LEFT_SLOT),)))
    (mark,) = scene.of(HandOffMark)
    assert inspect(scene).faults == () and 8.0 < apart(mark.at, LEFT_SLOT) < 12.0


def test_two_who_stop_at_a_hand_off_stand_on_either_side_of_its_mark():
    meet = (-24.0, 82.0)
    give = Trail(4, (Leg(_straight((-24, 58), (-24, 76)), Way.DRIBBLE, Stop.HAND_OFF),))
    take = Trail(2, (Leg(_straight(LEFT_WING, (-30, 79)), Way.CUT, Stop.HAND_OFF),))
    scene = compose(_sketch({4: (-24, 58), 2: LEFT_WING}, holder=4, trails=(give, take), hand_offs=(HandOffPlace(4, 2, meet),)))
    (mark,), ends = scene.of(HandOffMark), scene.of(EndGhost)
    ways = [(e.at[0] - mark.at[0], e.at[1] - mark.at[1]) for e in ends]
    assert inspect(scene).faults == () and len(ends) == 2
    assert ways[0][0] * ways[1][0] + ways[0][1] * ways[1][1] < 0


def test_a_way_along_a_bar_is_bent_to_come_onto_it():
    along = (1.0, 0.0)
    flat, steep = _straight((60, 20), (20, 24)), _straight((20, 60), (20, 24))
    bent = squared(flat, along)
    assert bent.last == pytest.approx(flat.last) and abs(bent.heading(bent.length)[1]) > 0.7 > abs(flat.heading(1.0)[1])
    assert squared(steep, along) is steep


def test_a_stop_and_a_new_start_are_drawn_as_where_they_lead():
    """He runs on for two metres, stops and comes back: no loop in the picture; round somebody's back it stays."""
    turn = bowed((42, 66), (43, 75), -4.4)
    stop = Path((Straight((24, 66), (42, 66)), turn, Straight((43, 75), (0, 86))))
    (line,) = compose(_sketch({1: LEFT_SLOT, 2: (24, 66)}, trails=(Trail(2, (Leg(stop),)),))).of(Line)
    assert max(x for x, _ in line.path.samples(1.0)) < 25
    curl = Path((Straight((24, 66), (0, 92)), bowed((0, 92), (-20, 80), 8.0), Straight((-20, 80), (0, 20))))
    (line,) = compose(_sketch({1: RIGHT_SLOT, 2: (24, 66)}, trails=(Trail(2, (Leg(curl),)),))).of(Line)
    assert line.path.gap((0, 92)) < 4


def test_corners_are_rounded_and_turns_back_are_not():
    corner, back, arc = _straight((0, 80), (0, 50), (30, 40)), _straight((0, 80), (0, 50), (1, 78)), Path((bowed((0, 80), (0, 40), 9.0),))
    soft = softened(corner)
    headings = [soft.heading(s / 2) for s in range(int(2 * soft.length))]
    assert min(a[0] * b[0] + a[1] * b[1] for a, b in itertools.pairwise(headings)) > 0.9
    assert (soft.first, soft.last) == (corner.first, corner.last) and soft.gap((0, 50)) < 3.0
    assert softened(back) == back and softened(arc) == arc


def test_a_pass_to_a_runner_meets_his_way_as_it_is_drawn():
    """A number in his way bends it; the ball must not end where he would have run."""
    run = _cut(1, TOP, (0, 20))
    flight = Flight(2, 1, RIGHT_WING, (0, 45))
    scene = compose(_sketch({1: TOP, 2: RIGHT_WING, 3: (0, 48), 4: (3, 60)}, holder=2, trails=(run,), flights=(flight,)))
    (way,), (ball,) = scene.of(Line), scene.of(PassLine)
    assert inspect(scene).faults == () and way.path.gap((0, 48)) > 4 and way.path.gap(ball.path.last) < 4


def test_a_picture_leaves_out_the_floor_nobody_uses():
    view = View(RuleSet.INTERNATIONAL, depth=28.5)
    near = compose(Sketch(view, {1: TOP, 2: RIGHT_WING}, 1, "t", "w")).view
    deep = compose(Sketch(view, {1: TOP, 2: (0, 200)}, 1, "t", "w")).view
    half = compose(Sketch(view, {1: TOP, 2: (0, 120)}, 1, "t", "w")).view
    assert near.depth < 11 < half.depth < 15 and deep == View(RuleSet.INTERNATIONAL, depth=28.5, whole=True)
    assert near.full and half.full  # one floor a play, whichever part of it is seen
    down = compose(Sketch(View(RuleSet.INTERNATIONAL, "down", 28.5), {1: (0, -86)}, 1, "t", "w")).view
    assert down.depth == near.depth


def test_order_letters_stand_beside_their_passes():
    first, second = Flight(1, 2, TOP, RIGHT_WING), Flight(2, 1, RIGHT_WING, TOP)
    scene = compose(_sketch({1: TOP, 2: RIGHT_WING, 3: LEFT_WING}, flights=(first, second), order=(first, second)))
    letters = scene.of(OrderMark)
    assert [m.letter for m in letters] == ["a", "b"] and inspect(scene).faults == ()
    for mark, line in zip(letters, scene.of(PassLine), strict=True):
        assert line.path.gap(mark.at) < 8


def test_what_cannot_be_avoided_is_counted():
    """A line that must cross two numbers set side by side across the whole floor."""
    wall = {i: (x, 50) for i, x in enumerate(range(-76, 80, 8), 10)}
    scene = compose(_sketch({1: TOP, **wall}, trails=(_cut(1, TOP, (0, 16)),)))
    assert scene.strain > 0 and inspect(scene).faults != ()


def test_the_measure_itself_sees_every_kind_of_fault():
    """A measure that never finds anything proves nothing: each kind is planted."""
    way = Line(_straight((-40, 50), (40, 50)), 1)
    planted = {
        "number 2 on number 3": (Token(2, (0, 50)), Token(3, (2, 51))),
        "through number 2": (way, Token(2, (0, 50))),
        "through end 4": (way, EndGhost(4, (10, 51))),
        "along": (way, Line(_straight((-40, 50.8), (38, 50.8)), 5)),
        "through head": (way, PassLine(_straight((20, 80), (20, 49)), 3, 4)),
        "on head": (Token(2, (40, 51)), way),
        "through letter": (way, OrderMark("a", (0, 51))),
        "outside": (Token(1, (0, -8)),),
        "bar": (Bar((0, 50), (1, 0), 5), Token(2, (2, 50))),
        "dribble": (Wave(_straight((-40, 60), (40, 60)), 1), Token(2, (0, 61))),
    }
    for words, items in planted.items():
        faults = inspect(Scene(VIEW, items, "t", "w")).faults
        assert any(words in fault for fault in faults), (words, faults)
    assert inspect(Scene(VIEW, (way, Token(2, (0, 60))), "t", "w")).faults == ()


def test_random_pictures_are_mostly_clean():
    """Five random ways over thirteen spots, far busier than a phase: under one fault in four pictures."""
    rng = random.Random(11)
    spots = [TOP, LEFT_SLOT, RIGHT_SLOT, LEFT_WING, RIGHT_WING, LEFT_CORNER, RIGHT_CORNER, LEFT_BLOCK, RIGHT_BLOCK,
             (24.5, 58), (-24.5, 58), (45, 20), (-45, 20)]
    faults = 0
    for _ in range(40):
        chosen = rng.sample(spots, 9)
        starts = dict(zip(range(1, 6), chosen, strict=False))
        trails = tuple(_cut(p, starts[p], end) for p, end in zip((2, 3, 4, 5), chosen[5:], strict=True))
        faults += len(inspect(compose(_sketch(starts, trails=trails, flights=(Flight(1, 2, chosen[0], chosen[5]),)))).faults)
    assert faults < 10


@pytest.mark.parametrize("height", [3.0, -3.0, 12.0, -12.0, 60.0])
def test_bowed_lines_pass_through_their_ends_and_crown(height):
    arc = bowed((0, 0), (100, 0), height)
    assert arc.at(0) == pytest.approx((0, 0), abs=1e-9) and arc.at(arc.length) == pytest.approx((100, 0), abs=1e-9)
    assert arc.at(arc.length / 2) == pytest.approx((50, height), abs=1e-9)
