"""One sentence -> one tree: what is alike gives equal trees, what could be taken for another is told apart."""

from __future__ import annotations

import pytest

from generator.diagnostics import Location
from generator.model.court import FOOT, Point
from generator.model.sentence import (
    AreaDefender,
    BallPlace,
    Between,
    BetweenPlace,
    DefenderBody,
    DefenderOf,
    Event,
    Everyone,
    HalfPlace,
    Line,
    MeasuredPlace,
    NearestTo,
    Off,
    Player,
    PlayerAt,
    Relation,
    RelativePlace,
    Role,
    Side,
    SpotPlace,
    Timing,
    Way,
    WherePlace,
)
from generator.parsing import parse_line

HERE = Location("harbor/tidewall.yml", 7, 9)
LEFT_WING = SpotPlace("wing", Side.LEFT)
TOP = SpotPlace("top")
RIM = SpotPlace("rim")
P = {n: Player(n) for n in range(1, 6)}


def read(text: str) -> Line:
    line, found = parse_line(text, HERE)
    assert line is not None, found
    return line


def part(text: str):
    return read(text).parts[0]


def refused(text: str) -> str:
    line, found = parse_line(text, HERE)
    assert line is None and len(found) == 1
    return found[0].rule


@pytest.mark.parametrize(
    "one, other",
    [
        ("2 and 4 screen for 1", "2 and 4 screens for 1"),
        ("3 back cuts to rim", "3 BACK-CUTS to the rim"),
        ("3 back cuts to rim", "3 backcuts to rim"),
        ("4 pin-down screens for 3", "4 pins down for 3"),
        ("4 hands off to 1", "4 hand-offs to 1"),
        ("4 hands off to 1", "4 handoffs to 1"),
        ("1 passes to 2, then cuts to rim", "1 passes to 2 and cuts to rim"),
        ("2 cuts to left wing", "2 cuts left wing"),
        ("2 cuts to left wing", "2 cuts up to wing left"),
        ("1 passes to 2", "1 swings to 2"),
        ("1 passes to 2", "1 kicks out to 2"),
        ("5 sets a back screen for 1", "5 back screens for 1"),
        ("5 seals 5's defender", "5 seals 5\u2019s defender"),
        ("2 cuts to circle at 10 o'clock", "2 cuts to 10 o'clock"),
        ("3 cuts to rim as 2 catches", "3 cuts to rim when 2 catches"),
        ("5 screens X3 for 3", "5 screens for 3 X3"),
        ("2 cuts to point", "2 cuts to the top of the key"),
        ("2 cuts to right low post", "2 cuts to right block"),
        ("3 cuts to rim hard off 5", "3 cuts off 5 to rim hard"),
        ("2 cuts to strong-side corner", "2 cuts to ball side corner"),
        ("1 passes to 2.", "1 passes to 2"),
        ("2 cuts to 2 steps outside right block", "2 cuts to 1.6 m outside right block"),
        ("him cuts to rim", "he cuts to rim"),
    ],
)
def test_two_wordings_of_one_meaning_are_one_tree(one, other):
    assert read(one) == read(other)


def test_a_line_knows_its_text_and_place():
    line = read("1 passes to 2 then cuts to rim")
    assert line.text == "1 passes to 2 then cuts to rim" and line.source == HERE
    assert [p.text for p in line.parts] == ["passes to 2", "cuts to rim"]
    assert line.parts[1].source == Location("harbor/tidewall.yml", 7, 28)


# -- told apart without guessing (section 3 of the language) -------------------------------------------------


def test_to_2_is_a_player_and_to_2_with_a_unit_a_measure():
    assert part("1 passes to 2").objects == (P[2],)
    assert part("1 dribbles to 2 ft above right elbow").places == (
        RelativePlace("above", SpotPlace("elbow", Side.RIGHT), 2 * FOOT),
    )


def test_between_players_is_a_way_and_between_spots_a_place():
    way = part("2 cuts between 4 and 5 to top")
    assert way.ways == (Between(P[4], P[5]),) and way.places == (TOP,)
    assert part("2 cuts between top and left wing").places == (BetweenPlace(TOP, LEFT_WING),)


def test_then_first_waits_then_verb_goes_on_then_player_is_the_next_screener_then_spot_the_next_place():
    assert read("then 1 passes to 2").timings == (Timing(Relation.THEN),)
    assert [p.verb for p in read("1 passes to 2 then cuts to rim").parts] == ["pass", "cut"]
    assert part("2 cuts off 4 then 5 to rim").ways == (Off(P[4]), Off(P[5]))
    assert part("2 cuts to left wing then top").places == (LEFT_WING, TOP)
    assert part("1 looks for 5 then 3 then 2").objects == (P[5], P[3], P[2])


def test_at_a_number_of_seconds_is_the_clock_and_at_a_spot_a_place():
    assert read("5 screens for 1 at right slot at 6 s").timings == (Timing(Relation.AT_CLOCK, seconds=6.0),)
    assert part("5 screens for 1 at right slot at 6 s").places == (SpotPlace("slot", Side.RIGHT),)


def test_the_longest_word_fits():
    assert part("5 cuts to low block right").places == (SpotPlace("low block", Side.RIGHT),)
    assert part("5 cuts low to right block").ways == (Way("low"),)
    assert part("4 cuts to short-side corner").places == (SpotPlace("corner", Side.SHORT),)
    assert part("4 cuts to right short corner").places == (SpotPlace("short corner", Side.RIGHT),)
    assert part("5 rolls short").manners == frozenset({"short"})
    assert part("4 steps up to right elbow").kind == "step-up"
    assert part("4 cuts behind the ball").places == (BallPlace(behind=True),)
    assert part("2 cuts under the basket").places == (SpotPlace("under the basket"),)
    assert part("1 drives baseline").ways == (Way("baseline"),)
    assert part("1 dribbles to baseline").places == (SpotPlace("baseline"),)
    assert part("3 cuts along the baseline to right corner").ways == (Way("along-baseline"),)
    assert part("2 clears to ball side").places == (HalfPlace(Side.BALL),)


def test_behind_a_player_is_a_way_beside_a_place_and_a_place_where_one_is_needed():
    assert part("2 cuts behind 5 to left wing").ways == (Way("behind", P[5]),)
    assert part("2 cuts behind 5").places == (RelativePlace("behind", P[5]),)
    assert part("2 cuts to behind 5").places == (RelativePlace("behind", P[5]),)
    assert part("4 screens for 1 behind 5").places == (RelativePlace("behind", P[5]),)
    assert refused("1 drives behind 5") == "ambiguous"


@pytest.mark.parametrize(
    "text, rule",
    [
        ("as 2 catches 3 cuts to rim", "timing-first"),
        ("on the pass 3 cuts to rim", "timing-first"),
        ("at once 3 cuts to rim", "timing-first"),
        ("1 passes to 2 or 3", "or"),
        ("1 passes to 2 and 3", "two-receivers"),
        ("1 passes to 2 then 3 cuts to rim as 2 catches", "two-sentences"),
        ("3 cuts baseline", "ambiguous"),
        ("1 holds until 2 arrives then passes to 2", "timing-last"),
        ("1 shoots 2", "object"),
        ("5 screens for 3 for 2", "twice"),
        ("1", "verb"),
        ("", "empty"),
        (" , ", "empty"),
    ],
)
def test_refused(text, rule):
    assert refused(text) == rule


# -- who, where, when ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text, who",
    [
        ("1", P[1]),
        ("X3", DefenderBody(3)),
        ("x3", DefenderBody(3)),
        ("3's defender", DefenderOf(P[3])),
        ("3 defender", DefenderOf(P[3])),
        ("his defender", DefenderOf(None)),
        ("the low right defender", AreaDefender("low right")),
        ("right low defender", AreaDefender("low right")),
        ("the nearest defender", AreaDefender("nearest")),
    ],
)
def test_defenders_and_players_as_objects(text, who):
    assert part(f"1 dribbles at {text}").objects == (who,)


@pytest.mark.parametrize(
    "text, who",
    [
        ("ball handler", Role("ball handler")),
        ("he", Role("he")),
        ("anyone one pass away", Role("anyone one pass away")),
        ("everyone", Everyone()),
        ("everyone else", Everyone(others=True)),
        ("nearest to left wing", NearestTo(LEFT_WING)),
        ("player at the top", PlayerAt(TOP)),
    ],
)
def test_who(text, who):
    assert read(f"{text} stays").who == (who,)


@pytest.mark.parametrize(
    "text, place",
    [
        ("wing opposite 3", SpotPlace("wing", Side.OPPOSITE, P[3])),
        ("opposite wing", SpotPlace("wing", Side.OPPOSITE)),
        ("inside right slot", SpotPlace("inside slot", Side.RIGHT)),
        ("circle at 10 o'clock", SpotPlace("circle", argument=10)),
        ("left lane space 2", SpotPlace("lane space", Side.LEFT, argument=2)),
        ("backcourt left wing", SpotPlace("wing", Side.LEFT, backcourt=True)),
        ("left backcourt wing", SpotPlace("wing", Side.LEFT, backcourt=True)),
        ("backcourt baseline out of bounds right", SpotPlace("backcourt baseline out of bounds", Side.RIGHT)),
        ("half court", SpotPlace("half court")),
        ("left half court", SpotPlace("half court", Side.LEFT)),
        ("where 3 was", WherePlace(P[3], True)),
        ("where the ball handler is", WherePlace(Role("ball handler"), False)),
        ("the ball", BallPlace()),
        ("beside 5", RelativePlace("beside", P[5])),
        ("a step outside right block", RelativePlace("outside", SpotPlace("block", Side.RIGHT), 0.8)),
        ("a step inside right slot", RelativePlace("inside", SpotPlace("slot", Side.RIGHT), 0.8)),
        ("2 ft left of 5", RelativePlace("left-of", P[5], 2 * FOOT)),
        ("3 m left 4 m up", MeasuredPlace(Point(-3.0, 4.0))),
        ("10ft right 12ft up", MeasuredPlace(Point(10 * FOOT, 12 * FOOT))),
        ("left side", HalfPlace(Side.LEFT)),
        ("weak side", HalfPlace(Side.WEAK)),
        ("between top and left wing", BetweenPlace(TOP, LEFT_WING)),
    ],
)
def test_places(text, place):
    assert part(f"1 dribbles to {text}").places == (place,)


@pytest.mark.parametrize(
    "text, timing",
    [
        ("as 2 catches", Timing(Relation.AS, Event("catch", P[2]))),
        ("after 5 sets", Timing(Relation.AFTER, Event("set", P[5]))),
        ("before 1 arrives", Timing(Relation.BEFORE, Event("arrive", P[1]))),
        ("until 2 clears 4", Timing(Relation.UNTIL, Event("clear", P[2], other=P[4]))),
        ("as 2 reaches left wing", Timing(Relation.AS, Event("reach", P[2], LEFT_WING))),
        ("as the ball hits the rim", Timing(Relation.AS, Event("rim"))),
        ("after 5 s on the clock", Timing(Relation.AFTER, Event("clock", seconds=5.0))),
        ("with 4", Timing(Relation.WITH, one=P[4])),
        ("at once", Timing(Relation.AT_ONCE)),
        ("on the hand-off", Timing(Relation.ON, Event("hand-off"))),
        ("as ball handler turns the corner", Timing(Relation.AS, Event("turn-corner", Role("ball handler")))),
    ],
)
def test_timings(text, timing):
    assert read(f"3 cuts to rim {text}").timings == (timing,)


def test_several_timings_and_manners():
    line = read("3 cuts off 5 to rim hard on the high side as 2 catches before 1 arrives")
    assert line.parts[0].side == "high" and line.parts[0].manners == {"hard"} and len(line.timings) == 2


def test_face_carries_what_is_faced():
    assert part("4 faces the rim").facing == RIM and part("4 faces the rim").places == ()
    assert part("4 screens for 2 at left elbow facing rim").facing == RIM
