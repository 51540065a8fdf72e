"""Actions -> sentences a coach would say. Branches are made by hand, so that each wording is pinned on its own."""

from __future__ import annotations

import pytest

from generator.diagnostics import Location
from generator.jobs.deeds import DeedKind, deeds_of, deeds_print
from generator.jobs.phrases import at_place, defender_does, does_not, place_words, they_do, third_person
from generator.jobs.wording import idle_sentence, job_sentences, option_text
from generator.model.court import Point
from generator.model.sentence import AreaDefender, DefenderBody, DefenderOf, Player
from generator.model.settled import (
    Branch,
    BranchPhase,
    Ending,
    HandOff,
    Hold,
    Move,
    Pass,
    PassKind,
    PlaceName,
    Screen,
    Shot,
    Stand,
    Trigger,
    Use,
)
from generator.vocabulary.coverages import COVERAGES

AT = Location("wharf/gantry.yml", 3, 1)
WING, SLOT, CORNER = PlaceName("left wing", "wing", "left"), PlaceName("left slot", "slot", "left"), PlaceName("left corner", "corner", "left")
BLOCK, RIM, TOP = PlaceName("left block", "block", "left"), PlaceName("rim", "rim"), PlaceName("top", "top")
FRONT = PlaceName("front of the rim", "front of the rim")
SPOTS = {"left wing": Point(-5, 6.5), "left slot": Point(-2.4, 8.2), "left corner": Point(-6.9, 1.2), "left block": Point(-2.7, 2.8),
         "rim": Point(0, 2.2), "top": Point(0, 8.6), "front of the rim": Point(0, 3.0)}
EFFORT = {Move: {"effort": 0.7}, Screen: {"effort": 0.6}}


def act(cls, key, player, place=WING, verb="", kind="", **more):
    fields = {"key": key, "phase": 0, "player": player, "verb": verb, "kind": kind, "origin": more.pop("origin", SPOTS["top"]),
              "end": SPOTS[place.words], "place": place, "source": AT} | EFFORT.get(cls, {})
    return cls(**(fields | more))


def branch(*actions) -> Branch:
    """Receivers stand where they catch, the others at the top."""
    stands = {a.receiver: a.place for a in actions if isinstance(a, Pass) and a.meets is None}
    names = {n: stands.get(n, TOP) for n in range(1, 6)}
    plan = {n: SPOTS[p.words] for n, p in names.items()}
    phase = BranchPhase("p", "Swing", plan, plan, names, 1, 1, tuple(a.key for a in actions))
    return Branch("main", "main line", (phase,), actions, (), (), Ending.PHASES_DONE, None)


def told(player, *actions) -> str:
    made = branch(*actions)
    return " ".join(job_sentences(deeds_of(made, player, [a.key for a in actions]), made))


def passes(key="b", player=1, receiver=4, place=SLOT, **more):
    return act(Pass, key, player, place, "pass", receiver=receiver, catch_at=SPOTS[place.words], **more)


def screen(key="s", player=5, place=BLOCK, kind="", **more):
    return act(Screen, key, player, place, "screen", kind, **({"freed": (3,)} | more))


@pytest.mark.parametrize(("actions", "player", "sentence"), [
    ((act(Move, "a", 2, CORNER, "clear"),), 2, "Clear to the left corner."),
    ((act(Move, "a", 2, WING, "cut", manners=frozenset({"hard"})),), 2, "Cut hard to the left wing."),
    ((act(Move, "a", 2, WING, "cut", "sprint"),), 2, "Sprint to the left wing."),
    ((act(Move, "a", 2, RIM, "back-cut"),), 2, "Back cut to the rim."),
    ((act(Move, "a", 1, SLOT, "dribble", with_ball=True), passes(player=1)), 1, "Dribble to the left slot and pass to 4 in the left slot."),
    ((screen(), act(Move, "c", 3, WING, "cut", uses=(Use(5, "s", SPOTS["left block"]),))), 3, "Come off 5's screen to the left wing."),
    ((act(Move, "c", 3, WING, "curl", uses=(Use(5, "s", SPOTS["left block"]),)),), 3, "Curl off 5's screen to the left wing."),
    ((act(Move, "c", 3, WING, "cut", uses=(Use(5, "s", SPOTS["left block"]), Use(4, "t", SPOTS["top"]))),), 3,
     "Come off 5's screen, then 4's, to the left wing."),
    ((act(Move, "c", 3, WING, "cut", uses=(Use(5, None, SPOTS["left block"]),)),), 3, "Cut to the left wing, rubbing past 5."),
    ((screen(kind="down"),), 5, "Set a down screen for 3 on the left block."),
    ((screen(kind="exit"),), 5, "Set an exit screen for 3 on the left block."),
    ((screen(kind="ball", freed=(1,), ball_screen=True, place_given=False), act(Move, "r", 5, RIM, "roll")), 5,
     "Set a ball screen for 1, then roll to the rim."),
    ((act(Move, "m", 4, SLOT, "pop"), passes(meets="m")), 4, "Pop to the left slot and catch 1's pass."),
    ((passes(receiver=3, place=WING), act(Shot, "x", 3, WING, "shoot")), 3, "Catch 1's pass on the left wing and shoot."),
    ((act(Move, "m", 3, FRONT, "curl"), passes(receiver=3, place=FRONT, meets="m"), act(Shot, "x", 3, FRONT, "shoot")), 3,
     "Curl to the front of the rim, catch 1's pass and finish."),
    ((act(Pass, "b", 2, RIM, "pass", "lob", receiver=5, catch_at=SPOTS["rim"], pass_kind=PassKind.LOB),), 2, "Lob it to 5 at the rim."),
    ((act(Pass, "b", 3, CORNER, "inbound", receiver=2, catch_at=SPOTS["left corner"], throw_in=True),), 3, "Inbound to 2 in the left corner."),
    ((act(HandOff, "h", 4, WING, "hand-off", receiver=2, origin=SPOTS["top"]),), 4, "Dribble to the left wing and hand off to 2."),
    ((act(HandOff, "h", 4, WING, "hand-off", receiver=2, origin=SPOTS["top"]),), 2, "Take the hand-off from 4 on the left wing."),
    ((act(Move, "m", 3, SLOT, "ghost", ghost=True),), 3, "Run up as if to screen, touch nobody, and go on to the left slot."),
    ((act(Stand, "p", 5, BLOCK, "post-up"),), 5, "Post up on the left block."),
    ((act(Stand, "f", 1, TOP, "fake-pass"), passes()), 1, "Fake a pass, then pass to 4 in the left slot."),
    ((act(Move, "a", 1, WING, "dribble", with_ball=True), passes(triggers=(Trigger(Hold.AS, (), None, "as 4 arrives"),))), 1,
     "Dribble to the left wing and pass to 4 in the left slot as he arrives."),
])
def test_what_is_said(actions, player, sentence):
    assert told(player, *actions) == sentence


def test_many_deeds_become_two_sentences():
    said = told(
        3, act(Move, "a", 3, CORNER, "clear"), screen("s", 3, BLOCK, "down", freed=(2,)), act(Move, "c", 3, WING, "pop"),
        passes(receiver=3, place=WING, meets="c"), act(Shot, "x", 3, WING, "shoot"),
    )
    assert said == ("Clear to the left corner, then set a down screen for 2 on the left block. "
                    "Then pop to the left wing, catch 1's pass and shoot.")


def test_an_option_says_nothing_of_timing():
    late = passes(triggers=(Trigger(Hold.AS, (), None, "as 4 arrives"),))
    first = act(Move, "a", 1, WING, "dribble", with_ball=True)
    made = branch(first, late)
    assert option_text(deeds_of(made, 1, ["a", "b"]), made) == "Dribble to the left wing and pass to 4 in the left slot."


@pytest.mark.parametrize(("words", "spot", "place", "at"), [
    ("left wing", "wing", "the left wing", "on the left wing"), ("top", "top", "the top", "at the top"),
    ("right corner", "corner", "the right corner", "in the right corner"), ("half court", "half court", "half court", "at half court"),
    ("a step above the left block", "block", "a step above the left block", "a step above the left block"),
    ("baseline out of bounds right", "baseline out of bounds", "out of bounds on the baseline", "out of bounds on the baseline"),
    ("circle at 4 o'clock", "circle", "the center circle at 4 o'clock", "on the center circle at 4 o'clock"),
    ("behind 5", "wing", "the spot behind 5", "at the spot behind 5"), ("front of the rim", "front of the rim", "the front of the rim", "at the front of the rim"),
    ("right inside slot", "inside slot", "the right inside slot", "in the right inside slot"),
    ("a step inside the right inside wing", "inside wing", "a step inside the right inside wing", "a step inside the right inside wing"),
    ("left lane space 2", "lane space", "lane space 2 on the left", "in lane space 2 on the left"),
    ("2 steps left of the nail", "nail", "two steps left of the nail", "two steps left of the nail"),
    ("right dunker spot", "dunker spot", "the right dunker spot", "in the right dunker spot"),
])
def test_places_have_their_article_and_preposition(words, spot, place, at):
    side = next((s for s in ("left", "right") if words.startswith(s)), "")
    assert (place_words(PlaceName(words, spot, side)), at_place(PlaceName(words, spot, side))) == (place, at)


@pytest.mark.parametrize(("clause", "said"), [
    ("come off 5's screen to the left wing", "comes off 5's screen to the left wing"),
    ("dribble to the top and hand off to 2", "dribbles to the top and hands off to 2"),
    ("back cut to the rim", "back cuts to the rim"), ("go to the rim", "goes to the rim"), ("skip it to 3", "skips it to 3"),
    ("run up as if to screen, touch nobody, and go on to the top", "runs up as if to screen, touches nobody, and goes on to the top"),
    ("seal X5 on your back at the rim", "seals X5 on his back at the rim"),
    ("come off 5's screen, then 4's, to the top", "comes off 5's screen, then 4's, to the top"),
])
def test_third_person(clause, said):
    assert third_person(clause) == said


@pytest.mark.parametrize("coverage", [c.id for c in COVERAGES])
def test_every_coverage_of_the_vocabulary_has_its_phrase(coverage):
    one, they = defender_does(coverage, "you"), they_do(coverage, "you")
    assert not one.startswith(f"plays {coverage}") or coverage == "play behind"
    assert one.split()[0].endswith("s") and they.startswith(("They ", "They are ")) and "{" not in one + they
    assert does_not("X3", False, [(coverage, "you")]).startswith(("X3 does not ", "X3 is not "))


def test_idle_sentences_are_varied_and_keep_the_ball():
    assert len({idle_sentence(CORNER, False, n) for n in range(9)}) == 3
    assert idle_sentence(TOP, True) == "Keep the ball at the top."


def test_prints_change_with_the_deed_and_not_with_words_or_keys():
    def print_of(**more):
        action = act(Move, more.pop("key", "a"), 2, more.pop("place", WING), more.pop("verb", "cut"), **more)
        return deeds_print(deeds_of(branch(action), 2, [action.key]))

    assert print_of() == print_of(key="z", text="2 cuts to the left wing")
    assert len({print_of(), print_of(place=CORNER), print_of(verb="curl"), print_of(manners=frozenset({"hard"})),
                print_of(uses=(Use(5, "s", SPOTS["left block"]),))}) == 5


def test_a_receiver_catches_and_a_faked_hand_off_gives_nothing():
    made = branch(passes(), act(HandOff, "h", 4, WING, "keep", receiver=2, fake=True))
    assert [d.kind for d in deeds_of(made, 4, ["b", "h"])] == [DeedKind.CATCH, DeedKind.STAND]
    assert deeds_of(made, 2, ["b", "h"]) == ()


@pytest.mark.parametrize(("at", "said"), [
    (Player(2), "Dribble at 2, up to the left wing."), (DefenderBody(3), "Dribble at X3, up to the left wing."),
    (DefenderOf(Player(3)), "Dribble at X3, up to the left wing."),
    (AreaDefender("top right"), "Dribble at the top right defender, up to the left wing."),
])
def test_who_is_dribbled_at_is_named(at, said):
    assert told(1, act(Move, "a", 1, verb="dribble-at", with_ball=True, at=at)) == said


def test_inside_nobody_holds_his_spacing():
    for place in (BLOCK, RIM, PlaceName("nail", "nail"), PlaceName("right short corner", "short corner", "right")):
        assert not any("spacing" in idle_sentence(place, False, n) for n in range(6)), place
    assert "spacing" in idle_sentence(CORNER, False, 0)
