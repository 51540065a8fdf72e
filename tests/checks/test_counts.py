"""Every count under every rule set, with book and edition in the message.

Planted plays are just above the count or just below it; each is told by its own rule and by no other.
"""

import pytest

from generator.checks.counts import count_of
from generator.model.book import Team
from generator.model.court import RuleSet

BOOKS = {  # team lines -> (front court, lane, throw-in, closely guarded): (seconds, cited)
    "rule set: international": ((8, "FIBA Art. 28.1, 2020"), (3, "FIBA Art. 26"), (5, "FIBA Art. 17"), (5, "FIBA Art. 27")),
    "rule set: professional": ((8, "NBA Rule 10, 2018-19"), (3, "NBA Rule 10"), (5, "NBA video rulebook"), None),
    "rule set: college": (
        (10, "NCAA men's rules, 2021-22"), (3, "men's rules, from memory"), (5, "men's rules, from memory"), (5, "NCAA men's rules, 2021-22")),
    "rule set: college\nwomen: yes": ((10, "NCAA women's rules, from memory"),) + ((3, "women's rules, from memory"),)
    + ((5, "women's rules, from memory"),) * 2,
    "rule set: high school": ((10, "NFHS Rule 9-8, 2019-20"), (3, "NFHS Rule 9-7, 2019-20"), (5, "from memory"), (5, "NFHS Rules 4-10 and 9-10-1a, 2019-20")),
}
EVERY = pytest.mark.parametrize("lines", BOOKS, ids=lambda t: t.replace("rule set: ", "").replace("\n", " "))
UP = """
play: Up
clock: 24 s
start: {1: backcourt top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - {name: Up, do: [1 holds until HELD s on the clock, 1 dribbles to deep top, 1 passes to 2, 2 shoots]}
"""
CAMP = """
play: Camp
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - {name: In, do: [5 cuts to middle of the lane, 1 passes to 2, 2 passes to 1, 1 passes to 3]}
  - {name: Stay, do: [3 passes to 1, 1 passes to 2, 2 shoots]}
"""
THROW = """
play: Throw
situation: baseline out of bounds
clock: 24 s
start: {3: baseline out of bounds right with the ball, 1: right slot, 2: left block, 4: left elbow, 5: left slot}
phases:
  - {name: In, do: [1 breaks to right corner at HELD s, 3 inbounds to 1 as 1 arrives, 1 shoots]}
"""
STAND = """
play: Stand
clock: 24 s
start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
phases:
  - {name: Stand, do: [1 holds until HELD s on the clock, 1 drives, 1 finishes]}
"""


def team(lines: str) -> str:
    return f"team: Fernhill\n{lines}\n"


@EVERY
def test_to_the_front_court(said, rules, lines):
    """8 s: FIBA Art. 28.1, NBA Rule 10. 10 s: NCAA (women from memory), NFHS Rule 9-8. A dribble of 1.5 to 4 s follows."""
    seconds, book = BOOKS[lines][0]
    held = 24 - seconds
    late = [d for d in said(UP.replace("HELD", str(held)), team(lines)) if d.rule == "front-court"]
    assert len(late) == 1 and book in late[0].message and f"{seconds} are allowed" in late[0].message
    assert rules(UP.replace("HELD", str(held)), team(lines)) <= {"front-court", "five-seconds"}  # he also holds it so long
    assert "front-court" not in rules(UP.replace("HELD", str(held + 5)), team(lines))


@EVERY
def test_in_the_lane(said, rules, lines):
    """3 s: FIBA Art. 26, NBA (secondary source), NFHS Rule 9-7, NCAA from memory."""
    seconds, book = BOOKS[lines][1]
    assert rules(CAMP, team(lines)) == {"three-seconds"}
    (found,) = [d for d in said(CAMP, team(lines)) if d.rule == "three-seconds"]
    assert book in found.message and f"{seconds} are allowed" in found.message


@EVERY
def test_to_throw_in(said, rules, lines):
    """5 s: FIBA Art. 17, NBA video rulebook, NCAA and NFHS from memory."""
    seconds, book = BOOKS[lines][2]
    late = THROW.replace("HELD", "18.5")
    assert rules(late, team(lines)) == {"throw-in"}
    (found,) = [d for d in said(late, team(lines)) if d.rule == "throw-in"]
    assert book in found.message and f"{seconds} are allowed" in found.message
    assert rules(THROW.replace("HELD", "22"), team(lines)) == set()


@EVERY
def test_closely_guarded(said, rules, lines):
    """5 s holding: FIBA Art. 27, NCAA, NFHS 4-10 and 9-10-1a; none in the professional book."""
    late, quick = STAND.replace("HELD", "18"), STAND.replace("HELD", "19.5")
    if BOOKS[lines][3] is None:
        assert rules(late, team(lines)) == set()
        return
    seconds, book = BOOKS[lines][3]
    assert rules(late, team(lines)) == {"five-seconds"}
    (found,) = [d for d in said(late, team(lines)) if d.rule == "five-seconds"]
    assert book in found.message and f"{seconds} are allowed" in found.message
    assert rules(quick, team(lines)) == set()


@EVERY
def test_holding_in_the_back_court_counts_where_the_book_says_so(rules, lines):
    """NCAA men and NFHS count in the front court only; the professional book does not count."""
    held = UP.replace("HELD", "18")
    counted = lines in ("rule set: international", "rule set: college\nwomen: yes")
    assert ("five-seconds" in rules(held, team(lines))) == counted


@EVERY
def test_a_dribble_has_a_count_of_its_own_in_high_school_only(rules, lines):
    """NFHS Rule 9-10-1a: 5 s dribbling."""
    text = """
play: Dribble
start: {1: left wing with the ball, 2: right corner, 3: left corner, 4: left block, 5: right block}
phases:
  - {name: Round, do: [1 dribbles slowly to right wing, 1 dribbles slowly to left wing, 1 passes to 3, 3 shoots]}
"""
    assert rules(text, team(lines)) == ({"five-seconds"} if lines == "rule set: high school" else set())


@EVERY
def test_women_of_the_other_books_keep_the_same_counts(lines):
    """Only the college game has a book of its own for women."""
    rule_set = RuleSet(lines.split(": ")[1].split("\n")[0])
    for kind in ("front court", "lane", "throw-in", "closely guarded"):
        men, women = (count_of(kind, Team("F", rule_set, women=w)) for w in (False, True))
        assert (men == women) == (rule_set is not RuleSet.COLLEGE)


@pytest.mark.parametrize("lines, cited", [
    ("rule set: international", "24 (FIBA Art. 29.1.1, 2020)"), ("rule set: professional", "24 (NBA Rule 7-I, 2018-19)"),
    ("rule set: college", "30 (NCAA rules, since 2015-16)"), ("rule set: college\nwomen: yes", "30 (NCAA rules, since 2015-16)"),
    ("rule set: high school\nshot clock: 35", "35 (NFHS Rule 2-14, 2022-23, by state adoption)"),
    ("rule set: high school", ""),
])
def test_the_shot_clock_of_each_book(said, lines, cited):
    swings = ", ".join(["1 passes to 2, 2 passes to 1"] * 22)
    long = (
        "play: Long\nstart: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}\n"
        f"phases:\n  - {{name: Swing, do: [{swings}, 1 shoots]}}\n"
    )
    found = [d.message for d in said(long, team(lines)) if d.rule == "shot-clock"]
    assert len(found) == bool(cited) and all(m.endswith(f"the clock gives {cited}") for m in found)
