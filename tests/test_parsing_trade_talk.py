"""Practice talk: phrasings that mean one thing are read as the plain line, the others are told what to write instead."""

from __future__ import annotations

import re

import pytest

from generator.diagnostics import Location, format_diagnostic
from generator.parsing import parse_book, parse_line
from generator.parsing.sentence import read_sentences
from generator.source import BookFile
from generator.source.nodes import TextNode
from generator.vocabulary import advice
from generator.vocabulary.keys import ALSO, KEYS
from generator.vocabulary.language_page import language_page
from generator.vocabulary.table import COVERAGE_TRIE, OFFENCE_TRIE, SPOT
from generator.vocabulary.talk import TALK
from generator.vocabulary.words import match, plain_form, split_words, third_form

HERE = Location("talk", 1, 1)


def read(text: str):
    line, found = parse_line(text, HERE)
    assert line is not None, (text, [format_diagnostic(d) for d in found])
    return line


@pytest.mark.parametrize(
    "talk, plain",
    [
        ("1 hits 4 at the left elbow", "1 passes to 4 at left elbow"),
        ("1 feeds 5 on the right block", "1 passes to 5 at right block"),
        ("1 finds 2", "1 passes to 2"),
        ("1 swings it to 2", "1 passes to 2"),
        ("1 swings the ball back to 2", "1 passes to 2"),
        ("2 gives it back to 1", "2 passes to 1"),
        ("1 throws it in to 5", "1 passes to 5"),
        ("1 enters the ball to 5 at right block", "1 passes to 5 at right block"),
        ("2 dishes to 5", "2 passes to 5"),
        ("1 kicks it to 4", "1 passes to 4"),
        ("1 skips it to 2", "1 skip passes to 2"),
        ("1 throws a bounce pass to 5", "1 bounce passes to 5"),
        ("1 passes over the top to 5", "1 overhead passes to 5"),
        ("4 goes high-low to 5", "4 high-low passes to 5"),
        ("3 throws in to 1", "3 inbounds to 1"),
        ("1 passes it to 2 and cuts to the basket", "1 passes to 2 and cuts to rim"),
        ("4 hands the ball to 1", "4 hands off to 1"),
        ("1 hands it off to 2", "1 hands off to 2"),
        ("1 dribble hand-off with 2", "1 dribble hand-offs to 2"),
        ("1 dribbles hard at 2", "1 dribbles at 2 hard"),
        ("1 dribbles toward 2", "1 dribbles at 2"),
        ("1 takes it to the right wing", "1 dribbles to right wing"),
        ("1 pushes the ball up the middle to top", "1 dribbles middle to top"),
        ("1 penetrates", "1 drives"),
        ("1 drives left", "1 drives on the left"),
        ("1 drives hard to the right", "1 drives on the right hard"),
        ("3 pump fakes", "3 fakes a shot"),
        ("2 dunks it", "2 shoots"),
        ("1 lays it up", "1 shoots"),
        ("4 catches and shoots", "4 shoots"),
        ("2 goes backdoor", "2 back cuts"),
        ("1 basket cuts off 5", "1 dives off 5"),
        ("5 relocates to the left dunker spot", "5 moves to left dunker spot"),
        ("1 empties out to the left corner", "1 clears to left corner"),
        ("4 pops back out to the right wing", "4 pops to right wing"),
        ("2 slides down to the left corner", "2 slides to left corner"),
        ("1 cuts through to the weak-side corner", "1 cuts through the lane to weak-side corner"),
        ("5 flashes into the lane", "5 flashes to middle of the lane"),
        ("4 trails the play", "4 trails"),
        ("3 comes off 1's screen to the top of the key", "3 comes off 1 to top"),
        ("1 cuts to rim off of 4's screen", "1 cuts to rim off 4"),
        ("2 cuts off 4's screen then 5's screen to top", "2 cuts off 4 then 5 to top"),
        ("1 dribbles over 5's screen to right elbow", "1 dribbles over 5 to right elbow"),
        ("2 cuts through 4 and 5 to top", "2 cuts between 4 and 5 to top"),
        ("1 screens away for 3", "1 away screens for 3"),
        ("5 goes to left elbow and screens down for 2", "5 goes to left elbow and down screens for 2"),
        ("4 picks for 1 on the right wing", "4 screens for 1 at right wing"),
        ("4 sets a pick for 1", "4 screens for 1"),
        ("5 ball screens 2's man", "5 ball screens 2's defender"),
        ("5 sets a screen on X2 for 2", "5 screens X2 for 2"),
        ("5 screens for 2 and X2", "5 screens X2 for 2"),
        ("5 seals his man", "5 seals his defender"),
        ("3 drives the lane", "3 drives to middle of the lane"),
        ("2 spots up in the left corner", "2 stays at left corner"),
        ("5 posts up on the left block", "5 posts up at left block"),
        ("4 and 2 exchange", "4 exchanges with 2"),
        ("2, 3 and 4 dive", "2 and 3 and 4 dive"),
        ("2 and 3 both dive", "2 and 3 dive"),
        ("2 and 3 go to the corners", "2 and 3 go to same-side corner"),
        ("4 and 5 come up to the elbows", "4 and 5 come to same-side elbow"),
        ("3 clears to the left side of the floor", "3 clears to left side"),
        ("2 cuts to the corner on the right", "2 cuts to right corner"),
        ("3 drifts as 1 gets the ball back", "3 drifts as 1 catches"),
        ("3 drifts as 5 screens", "3 drifts as 5 sets"),
        ("3 drifts when 2 finishes", "3 drifts when 2 shoots"),
        ("4 turns and faces the basket", "4 faces rim"),
        ("5 comes up and screens for 1", "5 screens for 1"),
        ("4 steps up to set the pick for 1", "4 screens for 1"),
        ("5 sprints into a ball screen for 1", "5 ball screens for 1 hard"),
        ("5 sprints over to set a ball screen for 1", "5 ball screens for 1 hard"),
        ("5 turns into a down screen for 2 at the nail", "5 down screens for 2 at nail"),
        ("4 and 5 set screens for 2", "4 and 5 screen for 2"),
        ("5 sets a wide pindown for 3", "5 pin-down screens for 3"),
        ("4 sets a high ball screen for 1", "4 ball screens for 1"),
        ("4 picks the picker", "4 screens for screener"),
        ("1 hits 2 with a bounce pass", "1 bounce passes to 2"),
        ("1 makes the entry pass to 5", "1 passes to 5"),
        ("1 passes to 2 at the wing", "1 passes to 2 at same-side wing"),
        ("3 drifts to the corner", "3 drifts to same-side corner"),
        ("4 lifts to the wing", "4 lifts to same-side wing"),
        ("3 shoots off the catch", "3 shoots"),
        ("2 pulls up for the jumper", "2 pulls up"),
        ("2 cuts over the top of 4 and 5 to right wing", "2 cuts over 4 over 5 to right wing"),
        ("3 comes off 4's down screen to the top", "3 comes off 4 to top"),
        ("3 comes off the screen from 4 to the top", "3 comes off 4 to top"),
        ("2 comes off 5 and attacks the rim", "2 attacks off 5 to rim"),
        ("2 follows his pass", "2 follows receiver"),
        ("5 drops to the block", "5 slides to same-side block"),
        ("1 cuts away to the left slot", "1 cuts to left slot"),
        ("5 gets a back screen from 4 at the nail", "4 back screens for 5 at nail"),
        ("2 takes a hand-off from 5 at left wing", "5 hands off to 2 at left wing"),
        ("2 gets the ball from 1 at left wing", "1 passes to 2 at left wing"),
        ("3 cuts to rim as 1 comes off the screen", "3 cuts to rim as 1 comes off"),
        ("1 makes a hard cut to rim", "1 cuts to rim"),
        ("2 uses 5's screen to the right wing", "2 uses the screen from 5 to the right wing"),
        ("2 catches and drives", "2 drives"),
        ("2 rips and drives baseline", "2 drives baseline"),
        ("5 turns and seals his man", "5 seals his man"),
        ("5 sets a ball screen on the ball", "5 ball screens for ball handler"),
        ("5 screens the ball on the right side", "5 screens for ball handler on the right side"),
        ("5 screens on the ball for 1", "5 screens for 1"),
        ("4 back picks for 1", "4 back screens for 1"),
        ("4 sets a flare for 1", "4 flare screens for 1"),
        ("4 and 5 set a stagger for 2", "4 and 5 stagger for 2"),
        ("3 lifts up", "3 lifts"),
        ("4 pops back behind the arc", "4 pops"),
        ("3 cuts along the baseline to the other corner", "3 cuts along the baseline to opposite corner"),
        ("3 spots up in the corner", "3 spots up at same-side corner"),
        ("1 throws it inside to 5", "1 passes to 5 in the post"),
        ("everybody else fills up", "everyone else fills up"),
        ("the others stay", "everyone else stays"),
        ("1 cuts to rim as soon as 2 catches", "1 cuts to rim as 2 catches"),
        ("1 cuts to rim once 2 catches", "1 cuts to rim as 2 catches"),
        ("as 2 catches, 5 dives", "5 dives as 2 catches"),
        ("on the pass, 3 and 4 dive", "3 and 4 dive on the pass"),
        ("1 passes to 2, cuts to the basket", "1 passes to 2 and cuts to basket"),
        ("3 walks his man down then cuts off 5 to left wing", "3 sets up then cuts off 5 to left wing"),
        ("2 comes off a screen set by 5 to left wing", "2 comes off 5 to left wing"),
        ("4 steps toward ball-side block", "4 steps to ball-side block"),
    ],
)
def test_talk_is_read_as_the_plain_line(talk, plain):
    assert read(talk) == read(plain)


@pytest.mark.parametrize("talk, plain", [
    ("5 rolls and 4 pops to top, 3 drifts", ["5 rolls", "4 pops to top", "3 drifts"]),
    ("5 screens for 3, then 3 cuts off 5 to left wing", ["5 screens for 3", "then 3 cuts off 5 to left wing"]),
    ("2 comes to top and takes the handoff from 5", ["2 comes to top", "5 hands off to 2"]),
    ("1 passes to 2, who shoots", ["1 passes to 2", "2 shoots"]),
    ("1 passes to 2 for the layup", ["1 passes to 2", "2 finishes"]),
    ("1 dribbles at 2 who cuts backdoor", ["1 dribbles at 2", "2 cuts backdoor"]),
    ("2 takes the handoff from 5 and drives", ["5 hands off to 2", "2 drives"]),
    ("2 gets a ball screen from 5 and drives off the pick", ["5 ball screens for 2", "2 drives off the screen"]),
])
def test_talk_that_is_read_as_several_lines(talk, plain):
    found, problems = read_sentences(TextNode(talk, HERE))
    assert not problems and list(found) == [read(line) for line in plain]


TALK_WITH_A_STRANGE_WORD = [" ".join([*words[:i], "zorp", *words[i:]]) for row in TALK for words in [row.example.split()] for i in range(1, len(words) + 1)]


@pytest.mark.parametrize("text", TALK_WITH_A_STRANGE_WORD)
def test_no_strange_word_hides_in_talk(text):
    assert not read_sentences(TextNode(text, HERE))[0]


@pytest.mark.parametrize("text, side", [("5 screens for 2 on the sideline side", "sideline"), ("5 ball screens for 1 on the left", "left")])
def test_a_side_of_the_screen_is_no_place(text, side):
    part = read(text).parts[0]
    assert (part.side, part.places) == (side, ())


@pytest.mark.parametrize(
    "talk, message, hint",
    [
        ("1 dribbles to the right", "'right' is no spot", "right what? Write `to right wing`"),
        ("1 cuts to left wnig", "'wnig' is no spot", "did you mean `wing`?"),
        ("2 l-cuts to the wing", "`l-cuts` is not taken", "sets up then cuts"),
        ("2 waits for the screen", "`waits for the screen` is not taken", "`2 cuts off 5 to right wing`"),
        ("1 runs a pick and roll with 5", "`runs a pick and roll` is not taken", "`5 ball screens for 1`"),
        ("if X5 hedges 5 slips", "not under which condition", "that is a read"),
        ("1 passes to 2 while 3 cuts to rim", "'while' has no meaning", "at the same time"),
        ("meanwhile 3 cuts to rim", "'meanwhile' is nobody", "leave it out"),
        ("next 3 cuts to rim", "'next' is nobody", "`then 3 cuts to rim`"),
        ("2 uses 5's screen", "`uses` needs a place", "say where to"),
        ("2 cuts off 4 to left wing for the shot", "'for' has no meaning after `cuts`", "`2 shoots`"),
        ("1 picks up his dribble", "`picks up his dribble` is not taken", "`holds`"),
        ("1 isolates on the right wing", "`isolates` is not taken", "everyone else clears"),
        ("2 gets it back", "`gets it back` is not taken", "follows from the pass"),
        ("2 cuts off 4 for a hand-off", "'for' has no meaning", "`4 hands off to 2`"),
        ("1 dribbles to top with a bounce pass", "does not tie", "`1 bounce passes to 2`"),
        ("1 dribbles to 2", "'to 2' is no place", "`dribbles at 2`"),
        ("4 lifts to fill for 3", "'fill' is no spot", "a line of its own"),
        ("5 rolls and 4 pops to top as 1 drives", "the timing could belong to either", "a line of its own"),
        ("X3 goes under", "`goes under` is what a defender shows", "under `answers`"),
        ("2 empties the right corner", "can be where he goes, or what he leaves", "from right corner to PLACE"),
        ("2 goes to the corners", "which one?", "`left corner`"),
        ("2 stays in the post", "'post' is no spot", "`left block`"),
    ],
)
def test_talk_that_is_not_taken_is_told_what_to_write(talk, message, hint):
    line, found = parse_line(talk, HERE)
    assert line is None and len(found) == 1
    said = f"{found[0].message} / {found[0].hint}"
    assert message in said and hint.removesuffix("PLACE") in said.replace("the right corner", "right corner"), said


def test_no_word_is_both_taken_and_advised_against():
    for where, trie in (("verb", OFFENCE_TRIE), ("coverage", COVERAGE_TRIE)):
        for words in advice.wordings(where):
            found = match(trie, words, 0)
            assert found is None or found[1] < len(words), words
    names = {tuple(split_words(w)) for s in SPOT.values() for w in s.words}
    assert not names & {tuple(w) for w in advice.wordings("word")}


@pytest.mark.parametrize("example", sorted({e for rows in (advice.VERBS, advice.WORDS) for _, hint in rows for e in re.findall(r"`([1-5] [^`]+)`", hint)}))
def test_the_lines_that_advice_names_are_valid(example):
    read(example)


@pytest.mark.parametrize("key", sorted(ALSO))
def test_other_ways_to_write_a_choice(key):
    choices = next(k for k in KEYS["play"] if k.name == key).choices
    for written, meant in ALSO[key].items():
        shape = "2-2-1" if "press" in meant else "2-3"
        value, wanted = written.replace("#", shape), meant.replace("#", shape)
        text = f"play: A\n{key}: {value}\nstart: {{1: top, 2: right wing, 3: left corner, 4: right elbow, 5: left block}}\nphases: [{{name: B, do: [1 passes to 2]}}]\n"
        book, found = parse_book([BookFile("a.yml", text), BookFile("team.yml", "team: A\nrule set: college\n")])
        assert wanted in choices and not [d for d in found if d.severity.value == "error"], (value, found)
        assert getattr(book.plays[0], key) == wanted


def test_the_page_shows_every_word_that_is_not_taken():
    page = language_page()
    for rows in (advice.VERBS, advice.WORDS, advice.COVERAGES):
        for words, hint in rows:
            assert hint in page and all(f"`{third_form(w)}`" in page or f"`{plain_form(w)}`" in page for w in words)
