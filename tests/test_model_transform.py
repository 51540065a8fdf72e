"""Laws of mirroring and renaming, on the plays of the demo book and of the proof sets."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.diagnostics import Location
from generator.model.areas import areas_of, mirrored_body
from generator.model.court import Point
from generator.model.identity import canonical
from generator.model.play import GoTo, LeadInRef
from generator.model.sentence import RelativePlace, Side, SpotPlace, Way
from generator.model.settled import Variant
from generator.model.transform import inverse, mirror, mirror_settled, rename, swap_words, swaps
from generator.parsing import parse_book
from generator.settling import settle
from generator.source import read_book_files

ROOT = Path(__file__).resolve().parent
HERE = Location("a.yml", 1, 1)


@lru_cache(maxsize=2)
def book(which: str):
    files, _ = read_book_files(ROOT / "books" / "sets" if which == "sets" else ROOT.parent / "plays")
    return parse_book(files)[0]


PLAYS = [(w, p.name) for w in ("sets", "demo") for p in book(w).plays]
IDS = [name for _, name in PLAYS]
plays = st.sampled_from(PLAYS).map(lambda pair: (book(pair[0]), book(pair[0]).play(pair[1])))
orders = st.permutations([1, 2, 3, 4, 5]).map(lambda order: dict(zip((1, 2, 3, 4, 5), order)))
FEW = settings(max_examples=25, deadline=None, derandomize=True)


@pytest.mark.parametrize(("which", "name"), PLAYS, ids=IDS)
def test_mirroring_twice_is_the_play_itself(which, name):
    play = book(which).play(name)
    assert canonical(mirror(mirror(play))) == canonical(play)
    assert canonical(mirror(play)) != canonical(play) or not any(s in canonical(play) for s in ("left", "right"))


@FEW
@given(plays, orders)
def test_renaming_has_its_inverse(pair, roles):
    _, play = pair
    assert canonical(rename(rename(play, roles), inverse(roles))) == canonical(play)


@FEW
@given(plays, orders)
def test_mirroring_and_renaming_commute(pair, roles):
    _, play = pair
    assert canonical(mirror(rename(play, roles))) == canonical(rename(mirror(play), roles))


@pytest.mark.parametrize(("which", "name"), PLAYS, ids=IDS)
def test_settling_the_mirrored_play_gives_the_mirrored_settled_play(which, name):
    """settle(mirror(p)) = mirror(settle(p)): every place, side, use, trigger and fork."""
    team, play = book(which), book(which).play(name)
    straight, said = settle(play, team)
    turned, said_turned = settle(play, team, Variant(mirrored=True))
    assert (straight is None) == (turned is None)
    assert [d.rule for d in said] == [d.rule for d in said_turned]
    if straight is None:
        return
    expected = mirror_settled(straight)
    for ours, theirs in zip(turned.branches, expected.branches, strict=True):
        assert _plain(ours.actions) == _plain(theirs.actions)
        assert _plain(ours.phases) == _plain(theirs.phases)
        assert _plain(ours.forks) == _plain(theirs.forks) and ours.cues == theirs.cues
        assert (ours.key, ours.ending, ours.scorer, ours.departure) == (theirs.key, theirs.ending, theirs.scorer, theirs.departure)


def _plain(value: object) -> str:
    return canonical(value).replace("-0.0000", "0.0000")


@pytest.mark.parametrize("roles", [{1: 2, 2: 1}, {2: 3, 3: 2}, {4: 5, 5: 4}], ids=["1 for 2", "2 for 3", "4 for 5"])
@pytest.mark.parametrize(("which", "name"), PLAYS, ids=IDS)
def test_run_for_settles_to_the_same_places_with_the_numbers_exchanged(which, name, roles):
    team, play = book(which), book(which).play(name)
    straight, _ = settle(play, team)
    other, _ = settle(play, team, Variant(run_for=tuple(roles.items())))
    if straight is None or other is None or "nearest to" in canonical(play) or "NearestTo" in canonical(play):
        return
    to = lambda n: roles.get(n, n)
    for before, after in zip(straight.branches, other.branches, strict=True):
        for one, two in zip(before.actions, after.actions, strict=True):
            assert (to(one.player), one.verb, one.kind) == (two.player, two.verb, two.kind)
            assert one.origin.distance(two.origin) < 1e-9 and one.end.distance(two.end) < 1e-9


def test_what_a_mirror_swaps_and_what_it_leaves():
    assert mirror(SpotPlace("wing", Side.LEFT)) == SpotPlace("wing", Side.RIGHT)
    assert mirror(SpotPlace("wing", Side.WEAK)) == SpotPlace("wing", Side.WEAK)
    assert mirror(SpotPlace("circle", argument=4)).argument == 8
    assert mirror(SpotPlace("circle", argument=12)).argument == 12
    assert mirror(Way("along-left-sideline")) == Way("along-right-sideline")
    assert mirror(Point(2, 3)) == Point(-2, 3)
    assert mirror(GoTo("Other play", source=HERE)).mirrored
    assert swap_words("a step outside the left block") == "a step outside the right block"


def test_areas_of_a_zone_change_their_number_in_the_mirror():
    """language.md 6.6: in a 2-3 X3 is low left, X4 low right."""
    assert [mirrored_body("zone 2-3", n) for n in (1, 2, 3, 4, 5)] == [2, 1, 4, 3, 5]
    assert [mirrored_body("man", n) for n in (1, 2, 3, 4, 5)] == [1, 2, 3, 4, 5]
    assert areas_of("box and one on 2") == {"top left": 1, "top right": 3, "low left": 4, "low right": 5}


def test_run_for_pairs_go_both_ways():
    """language.md section 2: `also for: {3: 2}`: 3 does 2's jobs and 2 does 3's."""
    assert swaps({3: 2}) == {1: 1, 2: 3, 3: 2, 4: 4, 5: 5} == swaps({3: 2, 2: 3})


def test_a_lead_in_keeps_its_roles_when_the_play_is_run_for_another():
    """Left is the player of the play, right the role in the lead-in: 3 takes the role that 2 had."""
    ref = LeadInRef("Weave", {2: 1, 1: 2}, source=HERE)
    assert rename(ref, swaps({3: 2})).roles == {3: 1, 1: 2, 2: 3}


def test_texts_of_the_coach_stay_as_written():
    play = book("demo").play("Lantern Over")
    turned = mirror(play)
    assert turned.purpose == play.purpose and turned.id == play.id
    assert replace(turned, start=play.start, phases=play.phases, lead_ins=play.lead_ins) == play


def test_left_of_and_right_of_change_places_and_above_stays():
    beside = RelativePlace("left-of", SpotPlace("top"), 1.0)
    assert mirror(beside) == RelativePlace("right-of", SpotPlace("top"), 1.0)
    assert mirror(RelativePlace("above", SpotPlace("elbow", Side.LEFT))) == RelativePlace("above", SpotPlace("elbow", Side.RIGHT))
