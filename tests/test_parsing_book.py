"""Whole books: what stands in the model, what keeps its identity, what a broken file does to its neighbours."""

from __future__ import annotations

from pathlib import Path

import jsonschema
import pytest
import yaml
from yardstick import yards

from generator.diagnostics import Severity
from generator.model.court import RuleSet
from generator.model.play import Phase, Repeat, WatchKind
from generator.model.sentence import DefenderBody, Event, Player, Role
from generator.parsing import parse_book
from generator.parsing.links import Known, inherited_phases
from generator.source import BookFile, read_book_files
from generator.vocabulary.schema import schema

START = "start: {1: top with the ball, 2: right wing, 3: left corner, 4: right elbow, 5: left block}"
TIDEWALL = """\
play: Tidewall
series: Harbor
call: Tidewall
start: {1: left slot with the ball, 2: right slot, 3: left corner, 4: right wing, 5: right block}
both sides: yes
phases:
  - name: Swing
    do:
      - 1 passes to 2
      - 4 back screens for 1 at nail on the pass
      - 1 cuts off 4 to right block
      - 5 clears to left block before 1 arrives
    reads:
      - who: 1
        watch: X1 and X4 on 4's screen
        answers:
          X1 jump the screen: [1 rejects to rim, 2 lobs to 1, 1 finishes]
          switch:
            do: [4 slips to rim]
            why: "One rule: the small one is on his back."
            reads:
              - {who: 2, watch: 4 then 3, answers: {4 open: [2 lobs to 4, 4 finishes], otherwise: [3 lifts, 2 skip passes to 3, 3 shoots]}}
          otherwise: go on
  - name: Step out
    do: [4 pops to left slot, 2 looks for 1 then 4]
"""


def book_of(*texts: str, **named: str):
    files = [BookFile(f"harbor/p{i}.yml", t) for i, t in enumerate(texts)]
    files += [BookFile(path.replace("__", "/") + ".yml", t) for path, t in named.items()]
    return parse_book(sorted(files))


def play_of(text: str):
    book, found = book_of(text)
    assert not [d for d in found if d.severity is Severity.ERROR], found
    return book.plays[0]


def test_a_play_stands_whole_in_the_model():
    play = play_of(TIDEWALL)
    swing, out = play.phases
    assert (play.name, play.series, play.call, play.both_sides, play.folder) == (
        "Tidewall",
        "Harbor",
        "Tidewall",
        True,
        "harbor",
    )
    assert [p.player for p in play.start.places if p.with_ball] == [1]
    assert (len(swing.lines), len(out.lines)) == (4, 2)
    read = swing.reads[0]
    assert read.watch.ones == (DefenderBody(1), DefenderBody(4)) and read.watch.on_screen_of == Player(4)
    jump, switch, otherwise = read.answers
    assert [(s.one, s.coverage) for s in jump.sights[0]] == [(DefenderBody(1), "jump the screen")]
    assert switch.why.text.startswith("One rule:") and switch.reads[0].watch.kind is WatchKind.PLAYERS
    assert otherwise.is_otherwise and otherwise.go_on
    assert swing.source.line == 7 and read.answers[1].source.line == 18


def test_the_rest_of_the_keys():
    text = f"""\
play: Quarry
{START.replace("right wing", "right wing on the run")}
against: box and one on 2
situation: live
clock: 12 s
also for: {{3: 2, 2: 3}}
interchangeable: [2 and 3]
lead-in: [{{Ferry: {{1: 2, 2: 1}}}}, Slide]
retired: yes
staff-note: Quiet.
film: [{{title: Friday, link: 'https://example.org/f'}}]
teach: {{3: Wide., 2 and 4: Talk., everyone: Run.}}
allow: {{spacing: it is the point}}
rules:
  - {{when: anyone passes, do: [passer cuts to rim]}}
  - {{who: anyone one pass away, watch: his defender, answers: {{deny: [he back cuts], otherwise: go on}}}}
phases:
  - {{name: A, when: after 2 catches, do: 1 passes to 2, optional: yes, roles: by place, go to: B mirrored}}
  - {{name: B, do: [2 passes to 1], roles: {{3: 1}}, go to: end}}
  - {{repeat: mirrored from A, times: 3, until: it is on, roles: {{4: 3}}}}
"""
    frame = f"{START}\nphases: [{{name: A, do: [1 passes to 2]}}]\n"
    book, found = book_of(
        text, **{"lead-ins__f": "lead-in: Ferry\n" + frame, "lead-ins__s": "lead-in: Slide\n" + frame}
    )
    assert not found
    play = book.plays[0]
    first, second, repeat = play.phases
    assert (play.against, play.clock, dict(play.also_for), play.interchangeable) == (
        "box and one on 2",
        12.0,
        {3: 2, 2: 3},
        ((2, 3),),
    )
    assert [(r.name, dict(r.roles)) for r in play.lead_ins] == [("Ferry", {1: 2, 2: 1}), ("Slide", {})]
    assert [t.players for t in play.teach] == [(3,), (2, 4), ()] and play.allow[0].rule == "spacing"
    assert play.rules[0].when == Event("pass", Role("anyone")) and play.rules[1].read.who == Role(
        "anyone one pass away"
    )
    assert (first.when, first.when_relation, first.optional, first.roles_by_place) == (
        Event("catch", Player(2)),
        "after",
        True,
        True,
    )
    assert (first.go_to.target, first.go_to.mirrored, second.go_to.target, dict(second.roles)) == (
        "B",
        True,
        "end",
        {3: 1},
    )
    assert isinstance(repeat, Repeat) and (repeat.phase, repeat.mirrored, repeat.times, dict(repeat.roles)) == (
        "A",
        True,
        3,
        {4: 3},
    )
    assert (
        play.start.places[1].on_the_run
        and play.retired
        and play.staff_note == "Quiet."
        and play.film[0].title == "Friday"
    )


@pytest.mark.parametrize(
    "rule_set, stated, seconds",
    [
        # Reference sheet section 2: FIBA Art. 29.1.1 24 s; NBA Rule 7-I 24 s; NCAA 30 s since 2015-16; NFHS none nationally.
        ("international", "", 24.0),
        ("professional", "", 24.0),
        ("college", "", 30.0),
        ("high school", "", None),
        ("high school", "shot clock: 35 s\n", 35.0),
        ("college", "shot clock: none\n", None),
    ],
)
def test_the_shot_clock_follows_the_rule_set_unless_stated(rule_set, stated, seconds):
    book, found = book_of(team=f"team: Harbor Lights\nrule set: {rule_set}\n{stated}")
    assert not found and book.team.rule_set is RuleSet(rule_set) and book.team.shot_clock == seconds


def test_a_team_and_a_game_plan():
    team = "team: Harbor Lights\nrule set: college\nwomen: yes\npace: college\nscreens: wait until set\nbasket: down\ncoverages: {spy: trail}\nstopwatch: {tidewall: 13}\n"
    team += "calls: {fist: press}\nroster:\n  - {name: Robin Vale, number: 00, positions: [1, 2]}\nsend results to: coach@example.org\n"
    game = "against: Quarry Town\ndate: 2026-12-04\nplays: [tidewall]\ncoverages: {show: 3, spy: 0.5}\nquiz: {questions: 12, plays: [Tidewall]}\nabsent: [robin vale]\nnote: Bus.\n"
    book, found = book_of(TIDEWALL.replace("switch:", "spy or switch:"), team=team, games__one=game)
    assert not found
    assert (book.team.women, book.team.pace, book.team.screens, book.team.basket) == (
        True,
        "college",
        "wait until set",
        "down",
    )
    assert (
        dict(book.team.coverages) == {"spy": "trail"}
        and book.team.roster[0].number == "00"
        and book.team.roster[0].positions == (1, 2)
    )
    plan = book.games[0]
    assert (plan.date, plan.plays, dict(plan.coverages), plan.quiz_questions) == (
        "2026-12-04",
        ("tidewall",),
        {"hedge": 3.0, "trail": 0.5},
        12,
    )
    assert book.plays[0].phases[0].reads[0].answers[1].sights[0][0].coverage == "trail"
    assert book.plays[0].phases[0].reads[0].answers[1].sights[0][0].word == "spy"


def test_a_broken_play_never_hides_the_others():
    book, found = book_of(
        TIDEWALL,
        "play: Broken\nstart: [",
        f"play: Lantern\n{START}\nphases: [{{name: A, do: [6 passes to 2]}}]\n",
        "\x00",
    )
    assert [p.name for p in book.plays] == ["Tidewall"] and {d.location.path for d in found} == {
        "harbor/p1.yml",
        "harbor/p2.yml",
        "harbor/p3.yml",
    }


def test_a_drafts_mistakes_are_warnings():
    book, found = book_of(TIDEWALL.replace("both sides", "draft: yes\nboth sides").replace("lobs to 1", "lubs to 1"))
    assert not book.plays and [d.severity for d in found] == [Severity.WARNING]


def test_same_as_takes_over_through_a_chain():
    second = "play: Tidewall Over\nsame as: Tidewall until Step out\nphases: [{name: Back, do: [2 passes to 1]}, {name: Shot, do: [1 shoots]}]\n"
    third = "play: Tidewall Under\nsame as: tidewall over until shot\nphases: [{name: Drive, do: [1 drives]}]\n"
    book, found = book_of(TIDEWALL, second, third)
    assert not found
    known = Known({p.name.casefold(): p for p in book.plays})
    assert [p.name for p in inherited_phases(book.plays[2], known)] == ["Swing", "Back"]


# -- real books, and the time it takes -------------------------------------------------------------------------


def _kind(path: str) -> str:
    parts = Path(path).parts
    if path in ("team.yml", "alignments.yml"):
        return Path(path).stem
    return {"lead-ins": "lead-in", "games": "game"}.get(parts[0], "play") if len(parts) > 1 else "play"


BOOKS = [Path(__file__).parent.parent / "plays", *sorted((Path(__file__).parent / "books").iterdir())]


@pytest.mark.parametrize("folder", BOOKS, ids=lambda p: p.name)
def test_files_that_the_parser_takes_are_valid_for_the_editor_schema(folder):
    files, _ = read_book_files(folder)
    _, found = parse_book(files)
    broken = {d.location.path for d in found if d.severity is Severity.ERROR}
    for file in files:
        if file.path not in broken:
            for value in (yaml.load(file.text, yaml.BaseLoader), _stringly(yaml.safe_load(file.text))):
                jsonschema.validate(value, schema(_kind(file.path)))


def _stringly(value):
    """Keys as texts, as editors have them."""
    if isinstance(value, dict):
        return {str(k): _stringly(v) for k, v in value.items()}
    return (
        [_stringly(v) for v in value]
        if isinstance(value, list)
        else str(value)
        if type(value).__name__ == "date"
        else value
    )


def test_a_play_of_sixty_lines_costs_little():
    """It costs six yards here; the milliseconds from text to timeline are a row of the budgets (`text-to-timeline`)."""
    phases = "".join(
        f"  - name: Phase {i}\n    do:\n      - 1 passes to 2\n      - 4 back screens for 1 at nail on the pass\n      - 1 cuts off 4 to right block\n"
        "      - 5 clears to left block before 1 arrives\n      - 2 passes to 1 as 1 arrives\n"
        for i in range(6)
    )
    text = (
        f"play: Long\n{START}\nphases:\n{phases}"
        + TIDEWALL[TIDEWALL.index("    reads:") : TIDEWALL.index("  - name: Step")]
    )
    assert text.count("\n") >= 55
    assert isinstance(book_of(text)[0].plays[0].phases[0], Phase)
    assert yards(lambda: book_of(text)) < 15


@pytest.mark.parametrize("second, said", [("4 to 8 s", ["same-coverage"]), ("5 to 8 s", [])])
def test_spans_of_the_clock_may_touch_and_not_overlap(second, said):
    answers = f"{{under 5 s: [2 shoots], {second}: [2 passes to 1, 1 shoots], otherwise: go on}}"
    text = TIDEWALL[: TIDEWALL.index("    reads:")] + f"    reads:\n      - {{who: 2, watch: clock, answers: {answers}}}\n"
    assert [d.rule for d in book_of(text)[1]] == said


@pytest.mark.parametrize("written", ["0", "0 s", "0.0 s"])
def test_no_seconds_are_no_number_of_seconds(written):
    _, found = book_of(TIDEWALL.replace("both sides: yes", f"clock: {written}"))
    assert [d.rule for d in found] == ["number"]


def test_a_name_with_marks_in_it_gets_its_suggestion():
    """A fuzz case: the marks of a hint stood in the name itself."""
    files = [
        BookFile("team.yml", "team: A\nrule set: college\n"),
        BookFile("alignments.yml", '"`foun` r": {1: top, 2: left wing, 3: right wing, 4: left corner, 5: right corner}\n'),
        BookFile("harbor/p.yml", 'play: P\nstart: "`foun` s"\nphases:\n  - {name: One, do: [1 passes to 2, 2 shoots]}\n'),
    ]
    assert any(d.hint == "did you mean ``foun` r`?" for d in parse_book(files)[1])
