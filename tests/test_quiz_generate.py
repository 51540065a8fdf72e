"""Questions of a small book: kinds, versions, stable ids, what is dropped and said; the bank, the index, the command."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace

import pytest
from click.testing import CliRunner

from generator.cli import main
from generator.model.settled import HandOff, Pass
from generator.pipeline import all_versions, compute, load_book
from generator.quiz import (
    Kind,
    bank_json,
    generate_questions,
    index_json,
    pictures_wanted,
    reach,
    team_bank_json,
)
from generator.quiz.bank import version_key
from generator.quiz.drafts import TWO_BALLS, dropped
from generator.quiz.scene import one_ball
from tests.quiz_page import js_page

ROOT = Path(__file__).resolve().parent.parent
PLAY = """play: Lantern Over
series: Lantern
call: Over
signal: open hand, two turns
start: {1: top with the ball, 2: right wing, 3: left corner, 4: right elbow, 5: left block}
also for: {2: 3}
both sides: yes
phases:
  - name: First reversal
    do:
      - 1 dribbles to right slot
      - 2 clears to right corner
      - 4 pops to left slot
      - 1 passes to 4 as 4 arrives
  - name: Baseline screen
    do:
      - 5 screens for 3 at left block
      - 3 cuts off 5 to right wing
    reads:
      - who: 3
        watch: X3 on 5's screen
        answers:
          trail: [3 curls to front of the rim, 4 passes to 3, 3 finishes]
          shoot the gap: [3 fades to left corner, 4 passes to 3, 3 shoots]
          otherwise: go on
  - name: Second side
    do: [4 passes to 1, 1 passes to 3 as 3 arrives, 3 shoots]
"""
LOW = PLAY.replace("Lantern Over", "Lantern Low").replace("call: Over", "call: Low").replace("two turns", "palm down").replace(
    "4 pops to left slot", "4 cuts to left slot").replace("3 cuts off 5 to right wing", "3 cuts off 5 to top")
FAR = """play: Anvil
series: Foundry
call: Anvil
signal: fist on palm
start: {1: left wing with the ball, 2: top, 3: right corner, 4: left block, 5: right elbow}
phases:
  - name: Swing
    do: [2 clears to right wing, 4 flashes to left elbow, 1 passes to 4 as 4 arrives, 4 shoots]
"""
TEAM = """team: Herons
rule set: international
"""
GAME = """against: Weirgate
date: 2026-12-04
plays: [Lantern Over, Lantern Low]
coverages: {trail: 3}
quiz: {questions: 6, plays: [Lantern Over]}
"""


class Made:
    """A book in a folder, computed, with its questions."""

    def __init__(self, folder: Path, **files: str) -> None:
        for name, text in {"team": TEAM, "over": PLAY, "low": LOW, "far": FAR, **files}.items():
            path = folder / f"{name.replace('__', '/')}.yml"
            path.parent.mkdir(exist_ok=True)
            path.write_text(text)
        self.computed = compute(load_book(folder)[0])
        self.book = self.computed.book
        self.questions, self.dropped = generate_questions(all_versions(self.computed), self.book, "seed")

    def ids(self, name: str = "Lantern Over") -> set[str]:
        return {q.id for q in self.questions if q.play == self.book.play(name).id}

    def asked(self, kind: Kind, **fields):
        return [q for q in self.questions if q.kind is kind and all(getattr(q, k) == v for k, v in fields.items())]


@pytest.fixture
def made(tmp_path):
    return Made(tmp_path, games__tonight=GAME)


def test_every_kind_is_asked(made):
    assert {q.kind for q in made.questions} == set(Kind)


def test_a_read_is_asked_of_the_reader_and_of_those_it_moves(made):
    over = made.book.play("Lantern Over").id
    asked = [q for q in made.asked(Kind.READ, play=over, coverage="trail") if not q.variant.mirrored and not q.variant.run_for]
    assert {q.position for q in asked} >= {3, 4} and 2 not in {q.position for q in asked}
    mine = next(q for q in asked if q.position == 3)
    assert mine.prompt.startswith("Lantern Over, Baseline screen: you are 3. Your man X3 trails you on 5's screen. ")
    assert mine.options[mine.right[0]].text == "Curl to the front of the rim, catch 4's pass and finish."
    assert mine.picture.kind == "read" and mine.clip.end > mine.clip.start


def test_left_and_right_and_run_for_are_versions_of_one_question(made):
    over = made.book.play("Lantern Over").id
    twins: dict[str, set[str]] = {}
    for q in made.asked(Kind.READ, play=over, coverage="trail"):
        twins.setdefault(q.twin, set()).add(version_key(q.variant))
    assert {"", "m", "2-3", "m2-3"} in twins.values()
    for_two = list(made.asked(Kind.READ, play=over, coverage="trail", position=2))
    assert for_two and all(q.variant.run_for for q in for_two)
    assert all("run for 2" in q.prompt for q in for_two)


def test_ids_survive_wording_file_names_and_order(tmp_path, made):
    other = tmp_path / "other"
    other.mkdir()
    reworded = PLAY.replace("1 dribbles to right slot", "1 brings it to the right slot").replace("2 clears", "2 clears out")
    lines = reworded.splitlines()
    reworded = "\n".join([lines[0], lines[3], lines[1], lines[2], *lines[4:]])
    again = Made(other, over="play: Unused\nstart: {1: top}\nphases: []\ndraft: yes\n", renamed__file=reworded, games__x=GAME)
    assert again.ids() == made.ids()


def test_a_changed_action_changes_the_ids_of_the_questions_about_it(tmp_path, made):
    other = tmp_path / "other"
    other.mkdir()
    changed = Made(other, over=PLAY.replace("2 clears to right corner", "2 clears to right dunker spot"))
    gone = [q for q in made.questions if q.id in made.ids() - changed.ids()]
    kept = [q for q in made.questions if q.id in made.ids() & changed.ids()]
    assert gone and kept
    assert {q.kind for q in gone} & {Kind.JOB, Kind.PLACE}
    plain = [q for q in gone if not q.variant.run_for and q.kind in (Kind.JOB, Kind.PLACE, Kind.READ)]
    assert {q.position for q in plain} == {2}


def test_what_cannot_be_asked_fairly_is_said(tmp_path):
    same = """play: Twice
start: {1: top with the ball, 2: right wing, 3: left corner, 4: right elbow, 5: left block}
phases:
  - name: One
    do: [1 passes to 2]
    reads:
      - {who: 2, watch: X2, answers: {sag: [2 shoots], late: [2 shoots], otherwise: go on}}
  - {name: Two, do: [2 shoots]}
"""
    made = Made(tmp_path, over=same)
    twice = made.book.play("Twice").id
    reads = [q for q in made.questions if q.play == twice and q.read]
    said = [d for d in made.dropped if d.rule == "question-dropped"]
    reached = reach(made.questions, made.computed.published)
    assert not [q for q in reads if q.kind is Kind.READ]
    assert said or [g for g in reached.gaps if "Twice" in g.message]
    assert all(g.rule == "question-gap" and g.hint for g in reached.gaps)


def test_drafts_and_retired_plays_are_not_asked(tmp_path):
    made = Made(tmp_path, over=PLAY + "draft: yes\n", low=LOW + "retired: yes\n")
    assert {q.play for q in made.questions} == {made.book.play("Anvil").id}
    assert not [o for q in made.questions for o in q.options if "Lantern" in o.text]


def test_the_bank_is_compact_and_complete(made):
    over = made.book.play("Lantern Over")
    bank = json.loads(json.dumps(bank_json(over, made.questions)))
    assert bank["version"] == 1 and bank["play"] == over.id and bank["name"] == "Lantern Over"
    assert len(bank["questions"]) == len(made.ids())
    for q in bank["questions"]:
        assert set(q) <= {"id", "kind", "play", "pos", "prompt", "options", "right", "at", "within", "why", "twin", "themes", "coverage",
                          "picture", "answer", "clip", "then", "moment"}
        assert q["kind"] == "place" or all(0 <= i < len(q["options"]) for i in q["right"])
        assert ("at" in q) == (q["kind"] == "place")
    wanted = pictures_wanted(made.questions, over)
    assert {q.get("picture") for q in bank["questions"]} - {None} <= set(wanted)
    assert {q.get("answer") for q in bank["questions"]} - {None} <= set(wanted)


def test_the_index_names_plays_tonight_and_the_floor(made):
    index = index_json(made.book, made.questions, pages={made.book.play("Lantern Over").id: "../abc/"})
    assert [p["name"] for p in index["plays"]] == ["Anvil", "Lantern Low", "Lantern Over"]
    over = made.book.play("Lantern Over").id
    assert index["tonight"] == [{"id": made.book.games[0].id, "against": "Weirgate", "date": "2026-12-04", "plays": [over],
                                 "coverages": {"trail": 3.0}, "questions": 6}]
    assert next(p for p in index["plays"] if p["id"] == over)["page"] == "../abc/"
    assert {"name": "left wing", "at": [-4.99, 6.56]} in index["spots"]
    assert index["floor"]["arc"] == 6.75


CALLS = TEAM + """calls:
  Lights out: next dead ball, no play; run back and get set.
  Slow water: bring it up under no pressure and start with a lead-in.
"""


def test_calls_of_the_team_are_asked_of_everybody(tmp_path):
    made = Made(tmp_path, team=CALLS, games__tonight=GAME)
    asked = [q for q in made.questions if q.play == "team"]
    assert [q.prompt for q in asked] == [f"The bench calls \"{c}\". What do we do?" for c in ("Lights out", "Slow water")]
    for q in asked:
        assert q.kind is Kind.CALL and q.position == 0 and q.why and len({o.text for o in q.options}) == 3
        assert q.options[q.right[0]].text.startswith("Next dead ball" if "Lights" in q.prompt else "Bring it up")
        assert sum(bool(o.play) for o in q.options) == 1  # one other call, one play of the book
    bank = team_bank_json(made.questions)
    assert bank["play"] == "team" and [q["id"] for q in bank["questions"]] == [q.id for q in asked]
    index = index_json(made.book, made.questions, pages={"team": "../calls/"})
    assert index["plays"][-1] == {"id": "team", "name": "Our calls", "bank": "team.json", "page": "../calls/", "counts": [2, 0, 0, 0, 0, 0]}
    assert index["tonight"][0]["plays"][-1] == "team"
    rows = json.loads(CliRunner().invoke(main, ["questions", str(tmp_path), "--format", "json"]).output)["questions"]
    assert [r["play"] for r in rows if "bench calls \"Lights" in r["prompt"]] == [""]


FIVE = "{1: top with the ball, 2: right wing, 3: left corner, 4: right elbow, 5: left block}"
OTHER = "{1: right slot, 2: right wing, 3: left corner, 4: left slot with the ball, 5: left block}"
TURNED = "{1: top with the ball, 2: left wing, 3: right corner, 4: left elbow, 5: right block}"


def opening(made, name):
    """The question about the play's opening picture: names of the right and of the wrong plays."""
    by_id = {p.id: p.name for p in made.book.plays}
    q = next(q for q in made.asked(Kind.CALL, play=made.book.play(name).id) if "opening picture" in q.prompt)
    options = [(by_id[o.play], i in q.right) for i, o in enumerate(q.options)]
    return {n for n, right in options if right}, {n for n, right in options if not right}


def test_a_play_may_begin_with_the_picture_of_its_lead_in(tmp_path):
    """Seen from there it can still be the play the lead-in leads to, so that one is never a wrong option."""
    made = Made(
        tmp_path,
        over=f"play: Rook\nstart: {FIVE}\nphases: [{{name: A, do: [1 passes to 2, 2 shoots]}}]\n",
        low=f"play: Heron\nlead-in: [Ford]\nstart: {OTHER}\nphases: [{{name: A, do: [4 passes to 1, 1 shoots]}}]\n",
        more=FAR.replace("Anvil", "Bellows"),
        **{"lead-ins__ford": f"lead-in: Ford\nstart: {FIVE}\nphases: [{{name: A, do: [1 dribbles to right slot, 4 pops to left slot, 1 passes to 4 as 4 arrives]}}]\n"},
    )
    right, wrong = opening(made, "Rook")
    assert right == {"Rook", "Heron"} and wrong <= {"Anvil", "Bellows"} and wrong


def test_a_play_may_begin_with_its_picture_on_the_other_side(tmp_path):
    made = Made(
        tmp_path,
        over=f"play: Rook\nstart: {FIVE}\nphases: [{{name: A, do: [1 passes to 2, 2 shoots]}}]\n",
        low=f"play: Heron\nboth sides: yes\nstart: {TURNED}\nphases: [{{name: A, do: [1 passes to 2, 2 shoots]}}]\n",
        more=FAR.replace("Anvil", "Bellows"),
    )
    right, wrong = opening(made, "Rook")
    assert right == {"Rook", "Heron"} and wrong <= {"Anvil", "Bellows"} and wrong


def test_a_signal_or_call_that_two_plays_share_is_not_asked(tmp_path):
    """Both would be right."""
    again = LOW.replace("open hand, palm down", "open hand, two turns").replace("call: Low", "call: Over")
    made = Made(tmp_path, low=again)
    asked = [q.prompt for q in made.asked(Kind.CALL) if q.position == 0 and "opening" not in q.prompt]
    assert again != LOW and not [p for p in asked if "two turns" in p or '"Over"' in p or "Lantern" in p]


def test_a_signal_of_the_same_words_is_no_wrong_answer(tmp_path):
    more = FAR.replace("Anvil", "Bellows")
    made = Made(tmp_path, more=more, third=FAR.replace("Anvil", "Tongs").replace("fist on palm", "flat palm"))
    for q in made.asked(Kind.CALL):
        if q.prompt.startswith("What is the signal for"):
            assert len({o.text.casefold() for o in q.options}) == 3, q.options


def test_two_calls_that_mean_the_same_are_not_set_against_each_other(tmp_path):
    twice = TEAM + "calls:\n  Lights out: run back and get set.\n  Curfew: Run back and get set\n  Slow water: bring it up.\n"
    made = Made(tmp_path, team=twice)
    for q in (q for q in made.questions if q.play == "team"):
        assert sum("un back and get set" in o.text for o in q.options) <= 1, q.options


def test_only_those_who_change_places_are_asked_in_a_version_run_for_others(made):
    asked = [q for q in made.questions if q.variant.run_for and q.position]
    assert asked and {q.position for q in asked} == {2, 3}


def test_interchangeable_players_are_never_set_against_each_other(tmp_path):
    """`interchangeable: [2 and 3]` is one quiz key for both: what the one does is not wrong for the other, nor is he a wrong
    receiver beside him."""
    alone, both = (tmp_path / name for name in ("alone", "both"))
    alone.mkdir()
    both.mkdir()
    plain = Made(alone, over=MATES, low=MATES.replace("Hearth", "Ingle"))
    mates = Made(both, over=MATES.replace("phases:", "interchangeable: [2 and 3]\nphases:"), low=MATES.replace("Hearth", "Ingle"))

    def crossed(made):
        hearth = made.book.play("Hearth").id
        for q in made.questions:
            if q.play == hearth and q.kind in (Kind.JOB, Kind.READ) and q.position in (2, 3):
                yield from (o for i, o in enumerate(q.options) if i not in q.right and o.source and o.source.player == 5 - q.position and not o.source.play)
            elif q.play == hearth and q.kind is Kind.NEXT and q.options[q.right[0]].player in (2, 3):
                yield from (o for i, o in enumerate(q.options) if i not in q.right and o.player == 5 - q.options[q.right[0]].player)

    assert list(crossed(plain)) and not list(crossed(mates))


MATES = """play: Hearth
start: {1: top with the ball, 2: right wing, 3: left wing, 4: right elbow, 5: left block}
phases:
  - name: Cuts
    do: [2 cuts to right corner, 3 cuts to rim, 1 passes to 4]
  - name: Kick
    do: [4 passes to 2]
    reads:
      - who: 2
        watch: X2
        answers: {close out hard: [2 drives to rim, 2 passes to 3, 3 finishes], otherwise: go on}
  - {name: Shot, do: [2 shoots]}
"""


def test_a_read_whose_pass_another_man_would_have_to_throw_is_dropped_and_said(made):
    """When the answer begins the ball has gone to somebody else: such a branch has two balls and no right answer."""
    times = next(t for t in made.computed.published if t.play.name == "Lantern Over")
    real = times.main
    gives = [t for t in real.timed.values() if isinstance(t.action, Pass | HandOff) and t.cut_at is None]
    assert one_ball(real) and len(gives) > 1
    first = min(gives, key=lambda t: t.start)
    stray = replace(first.action, key="stray", player=first.action.receiver % 5 + 1, receiver=first.action.player)
    assert not one_ball(SimpleNamespace(timed={**real.timed, "stray": SimpleNamespace(
        action=stray, start=first.end + 0.01, end=first.end + 0.02, cut_at=None)}))
    told = dropped(times.play.source, "a read", TWO_BALLS).problem
    assert told.rule == "question-dropped" and "ball" in told.message and told.hint


@pytest.mark.browser
def test_the_phone_reads_the_bank_and_finds_every_right_answer_right(made, chromium):
    """The same JSON through our own scripts: banks load, tonight's quiz is drawn, right choices judge as right."""
    files = {"/data/quiz.json": json.dumps(index_json(made.book, made.questions))}
    files |= {f"/data/{p.id}.json": json.dumps(bank_json(p, made.questions)) for p in made.book.plays}
    with js_page(chromium, files) as page:
        out = page.evaluate("""async () => {
          const [{openBanks}, s, {drawTonight, forPositions}] = await Promise.all(
            [import('/js/quiz_banks.js'), import('/js/quiz_session.js'), import('/js/quiz_draw.js')]);
          const banks = openBanks('/data/quiz.json'), index = await banks.index();
          const all = await banks.questions(index.plays.map((p) => p.id));
          const right = all.filter((q) => s.isRight(q, q.kind === 'place' ? q.at : q.right)).length;
          const wrong = all.filter((q) => q.kind !== 'place' && q.options.some((_, i) => !q.right.includes(i) && s.isRight(q, [i]))).length;
          const drawn = drawTonight(forPositions(all, [3]), index.tonight[0], 'ana');
          return {all: all.length, right, wrong, drawn: drawn.map((q) => [q.play, q.pos])};
        }""")
    assert out["all"] == out["right"] == len(made.questions) and out["wrong"] == 0
    over = made.book.play("Lantern Over").id
    assert len(out["drawn"]) == 6 and all(play == over and position in (0, 3) for play, position in out["drawn"])


def test_the_command_keeps_its_contract(tmp_path, monkeypatch):
    made = Made(tmp_path)
    monkeypatch.chdir(tmp_path.parent)
    done = CliRunner().invoke(main, ["questions", tmp_path.name, "--format", "json", "--kind", "read", "--play", "lantern over"])
    assert done.exit_code == 0, done.output
    value = json.loads(done.output)
    assert set(value) == {"version", "questions", "reach"} and value["version"] == 1
    assert value["questions"] and {q["play"] for q in value["questions"]} == {"Lantern Over"}
    for q in value["questions"]:
        assert set(q) == {"id", "kind", "play", "position", "prompt", "options", "right", "source"}
        assert q["kind"] == "read" and q["source"]["path"] == f"{tmp_path.name}/over.yml" and q["source"]["line"] > 0
    assert value["reach"]["forks_asked"] == value["reach"]["forks"] == 2
    assert {q["id"] for q in value["questions"]} <= made.ids()


def test_the_command_filters_and_says_what_it_does_not_know(tmp_path):
    Made(tmp_path)
    run = CliRunner().invoke
    text = run(main, ["questions", str(tmp_path), "--position", "3", "--kind", "place"]).output
    assert re.findall(r"you are (\d)", text) and set(re.findall(r"you are (\d)", text)) == {"3"}
    assert "Reach: 2 of 2 reads" in text
    lost = run(main, ["questions", str(tmp_path), "--play", "Nothing"])
    assert lost.exit_code == 2 and "no play named 'Nothing'" in lost.output and "Lantern Over" in lost.output
