"""Results, what-changed and addresses hang on ids: they outlive rewording; a changed action changes the fingerprint."""

from __future__ import annotations

import re

import pytest

from tests.test_parsing_book import TIDEWALL, book_of, play_of


def ids(play) -> list[str]:
    found = [play.id]
    for phase in play.phases:
        found.append(phase.id)
        for read in phase.reads:
            found += [read.id, *(a.id for a in read.answers), *(r.id for a in read.answers for r in a.reads)]
    return found


REWORDED = {
    "texts": TIDEWALL.replace("One rule: the small one is on his back.", "Mouse in the house.").replace(
        "call: Tidewall", "call: Wall"
    ),
    "order of keys": re.sub(r"(play: .*\n)(series: .*\n)(call: .*\n)(start: .*\n)", r"\4\3\2\1", TIDEWALL),
    "comments and spaces": TIDEWALL.replace("phases:", "# what happens\nphases:   # here"),
    "wording of lines": TIDEWALL.replace("1 passes to 2\n", "1 swings to 2\n").replace(
        "back screens for 1 at nail", "back-screen at the high post for 1"
    ),
    "quotes": TIDEWALL.replace("play: Tidewall", 'play: "Tidewall"').replace("{1: left", '{"1": left'),
    "letter case of names": TIDEWALL.replace("name: Swing", "name: swing").replace("play: Tidewall", "play: TIDEWALL"),
    "wording of a coverage": TIDEWALL.replace("switch:", "switches:"),
    "order of answers": TIDEWALL.replace("          otherwise: go on\n", "").replace(
        "        answers:\n", "        answers:\n          otherwise: go on\n"
    ),
    "a note for staff": TIDEWALL + "staff-note: Not yet.\n",
    "teaching": TIDEWALL.replace("    do: [4 pops", "    teach: {4: Wide.}\n    do: [4 pops"),
}


@pytest.mark.parametrize("text", REWORDED.values(), ids=list(REWORDED))
def test_rewording_changes_no_id_and_no_fingerprint(text):
    before, after = play_of(TIDEWALL), play_of(text)
    assert after.fingerprint == before.fingerprint and sorted(ids(after)) == sorted(ids(before))


def test_a_renamed_file_changes_nothing():
    before = play_of(TIDEWALL)
    book, _ = book_of(other__name=TIDEWALL)
    assert book.plays[0].fingerprint == before.fingerprint and ids(book.plays[0]) == ids(before)


CHANGED = {
    "another place": TIDEWALL.replace("to right block\n", "to left block\n"),
    "another verb": TIDEWALL.replace("1 passes to 2\n", "1 lobs to 2\n"),
    "another order": TIDEWALL.replace(
        "4 pops to left slot, 2 looks for 1 then 4", "2 looks for 1 then 4, 4 pops to left slot"
    ),
    "another timing": TIDEWALL.replace("before 1 arrives", "as 1 arrives"),
    "another answer": TIDEWALL.replace("[4 slips to rim]", "[4 rolls to rim]"),
    "another start": TIDEWALL.replace("3: left corner", "3: left wing"),
    "another receiver": TIDEWALL.replace("2 looks for 1 then 4", "2 looks for 4 then 1"),
    "another measure": TIDEWALL.replace("to right block\n", "to 2 ft above right block\n"),
    "another optional": TIDEWALL.replace("  - name: Step out\n", "  - name: Step out\n    optional: yes\n"),
    "hard": TIDEWALL.replace("1 cuts off 4 to right block", "1 cuts off 4 to right block hard"),
}


@pytest.mark.parametrize("text", CHANGED.values(), ids=list(CHANGED))
def test_a_changed_action_changes_the_fingerprint_and_no_id(text):
    before, after = play_of(TIDEWALL), play_of(text)
    assert after.fingerprint != before.fingerprint and ids(after) == ids(before)


def test_a_changed_alignment_or_parent_changes_the_fingerprint():
    play = "play: A\nstart: box\nphases: [{name: P, do: [1 passes to 2]}, {name: Q, do: [2 shoots]}]\n"
    child = "play: B\nsame as: A until Q\nphases: [{name: R, do: [2 passes to 1]}]\n"
    box = "box: {1: top with the ball, 2: left elbow, 3: right elbow, 4: left block, 5: right block}\n"
    one, _ = book_of(play, child, alignments=box)
    two, _ = book_of(play, child, alignments=box.replace("left block", "left corner"))
    three, _ = book_of(
        play.replace("1 passes to 2", "1 passes to 3").replace("2 shoots", "3 shoots"), child, alignments=box
    )
    prints = [[p.fingerprint for p in b.plays] for b in (one, two, three)]
    assert all(a != b for a, b in zip(prints[0], prints[1])) and all(a != b for a, b in zip(prints[0], prints[2]))


SMALL = [  # (as written, changed): what a word or a number more does
    ("do: [1 passes to 2, 2 cuts to 2 ft above right elbow]", "do: [1 passes to 2, 2 cuts to 3 ft above right elbow]"),
    ("do: [1 passes to 2], go to: B", "do: [1 passes to 2], go to: B mirrored"),
    ("do: [1 passes to 2], roles: {3: 1, 1: 3}", "do: [1 passes to 2], roles: {3: 2, 2: 3}"),
]


@pytest.mark.parametrize("before, after", SMALL)
def test_a_word_or_a_number_more_changes_the_fingerprint(before, after):
    head = "play: A\nstart: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}\nphases:\n"
    other = "play: B\nboth sides: yes\nstart: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}\nphases: [{name: Q, do: [1 shoots]}]\n"
    one, two = (book_of(f"{head}  - {{name: P, {text}}}\n", other)[0].play("A") for text in (before, after))
    assert one.fingerprint != two.fingerprint and ids(one) == ids(two)


def test_a_rule_that_is_a_read_changes_the_fingerprint_with_its_answers():
    text = (
        "play: A\nstart: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}\n"
        "rules:\n  - {who: anyone one pass away, watch: his defender, answers: {deny: [he back cuts], otherwise: go on}}\n"
        "phases: [{name: P, do: [1 passes to 2]}]\n"
    )
    assert play_of(text).fingerprint != play_of(text.replace("he back cuts", "he curls")).fingerprint
