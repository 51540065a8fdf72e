"""Jobs of whole plays: every position, phase and answer; mirrored and run for others; ids outlive lines, prints do not."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from generator.jobs import derive_jobs
from generator.model.settled import Variant
from generator.pipeline import load_book, time_play, versions

ROOT = Path(__file__).resolve().parent.parent
LANTERN = """play: Lantern Over
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
    teach:
      3: Walk him into the screen on the left.
      everyone: Talk.
    reads:
      - who: 3
        watch: X3 on 5's screen
        answers:
          trail:
            do: [3 curls to front of the rim, 4 passes to 3, 3 finishes]
            why: He is behind you; the lane is open.
          otherwise: go on
  - name: Second side
    do: [4 passes to 1, 1 passes to 3 as 3 arrives, 3 shoots]
"""


AS_WRITTEN = Variant()


def jobs_of(folder: Path, text: str, variant: Variant = AS_WRITTEN):
    (folder / "team.yml").write_text("team: Herons\nrule set: international\n")
    (folder / "play.yml").write_text(text)
    book, said = load_book(folder)
    assert not [d for d in said if d.severity.value == "error"], said
    times, said = time_play(book.plays[0], book, variant)
    assert times is not None, said
    return derive_jobs(times, book)


def job(jobs, position, phase, answer=False):
    return next(j for j in jobs if j.position == position and j.phase_name == phase and bool(j.answer) == answer)


@pytest.fixture
def lantern(tmp_path):
    return jobs_of(tmp_path, LANTERN)


def test_every_position_has_a_job_in_every_phase_and_answer(lantern):
    assert len(lantern) == 5 * 3 + 5 * 2
    assert len({j.id for j in lantern}) == len(lantern)
    assert all(j.sentences and len(j.sentences) <= 2 for j in lantern)


def test_a_job_says_what_when_why_and_what_to_watch(lantern):
    cut = job(lantern, 3, "Baseline screen")
    assert cut.text == "Come off 5's screen to the right wing."
    assert cut.cue == "Go when 5 is set."
    assert cut.watch == "Watch your man X3 on 5's screen."
    assert cut.teach == ("Walk him into the screen on the left.",)
    assert job(lantern, 4, "Baseline screen").watch == "3 reads X3 on 5's screen; go with him."
    assert job(lantern, 1, "First reversal").text == "Dribble to the right slot and pass to 4 in the left slot as he arrives."
    assert job(lantern, 4, "First reversal").text == "Pop to the left slot and catch 1's pass."


def test_an_idle_player_holds_his_spacing(lantern):
    idle = job(lantern, 3, "First reversal")
    assert idle.idle and "left corner" in idle.text
    assert not job(lantern, 2, "First reversal").idle


def test_an_answer_says_the_situation_to_each_position(lantern):
    trail = [j for j in lantern if j.answer and "trails" in j.sees]
    assert [j.sees for j in trail if j.position == 3] == ["Your man X3 trails you on 5's screen"]
    assert [j.text for j in trail if j.position == 3] == ["Curl to the front of the rim, catch 4's pass and finish."]
    assert [j.why for j in trail if j.position in (3, 4)] == [
        "He is behind you; the lane is open.", "3 is told: He is behind you; the lane is open."]
    other = [j.sees for j in lantern if j.answer and "does not" in j.sees and j.position == 3]
    assert other == ["Your man X3 does not trail you"]


def test_the_other_side_says_the_other_side(tmp_path, lantern):
    turned = jobs_of(tmp_path, LANTERN, Variant(mirrored=True))
    swap = {"left": "right", "right": "left"}
    for mine, theirs in zip(lantern, turned, strict=True):
        assert re.sub(r"\b(left|right)\b", lambda m: swap[m[0]], mine.text) == theirs.text
        assert mine.id == theirs.id and mine.cue == theirs.cue
    assert job(turned, 3, "Baseline screen").teach == ("Walk him into the screen on the left. (Left and right as first drawn.)",)


def test_run_for_another_gives_him_the_other_job(tmp_path, lantern):
    for_two = jobs_of(tmp_path, LANTERN, Variant(run_for=((2, 3),)))
    assert job(for_two, 2, "Baseline screen").text == job(lantern, 3, "Baseline screen").text
    assert job(for_two, 2, "Baseline screen").teach == ("Walk him into the screen on the left.",)
    assert job(for_two, 3, "First reversal").text == job(lantern, 2, "First reversal").text


def test_interchangeable_positions_read_one_text(tmp_path):
    jobs = jobs_of(tmp_path, LANTERN.replace("both sides: yes", "both sides: yes\ninterchangeable: [2 and 3]"))
    two, three = (job(jobs, n, "First reversal") for n in (2, 3))
    assert two.sentences == three.sentences and two.alike == (2, 3)
    assert two.sentences[0] == "One of you (2 or 3): clear to the right corner."
    assert two.sentences[1].startswith("The other: ")


def test_wording_and_place_in_the_file_change_nothing(tmp_path, lantern):
    reworded = LANTERN.replace("1 dribbles to right slot", "1 brings it to the right slot").replace("2 clears to", "2 clears out to the")
    same = jobs_of(tmp_path, "\n\n" + reworded.replace("both sides: yes\n", "").replace("also for: {2: 3}", "both sides: yes\nalso for: {2: 3}"))
    assert [(j.id, j.fingerprint, j.text) for j in same] == [(j.id, j.fingerprint, j.text) for j in lantern]


def test_a_changed_line_changes_the_print_of_those_it_moves(tmp_path, lantern):
    changed = jobs_of(tmp_path, LANTERN.replace("2 clears to right corner", "2 clears to right dunker spot"))
    assert [j.id for j in changed] == [j.id for j in lantern]
    moved = [(j.position, j.phase_name) for j, was in zip(changed, lantern, strict=True) if not j.answer and j.fingerprint != was.fingerprint]
    assert (2, "First reversal") in moved and all(position == 2 for position, _ in moved)


def _books():
    return [ROOT / "plays", ROOT / "tests" / "books" / "sets"]


@pytest.mark.parametrize("folder", _books(), ids=lambda p: p.name)
def test_whole_books_speak_plain_english(folder):
    """No template left open, no doubled word, no article before a bare place, nobody told of himself."""
    book, _ = load_book(folder)
    seen = 0
    for play in book.plays:
        for variant in versions(play)[:2]:
            times, _ = time_play(play, book, variant)
            if times is None:
                continue
            for j in derive_jobs(times, book):
                text = " | ".join(filter(None, (j.text, j.cue, j.watch, j.sees)))
                assert not re.search(r"[{}]|None|  |\bthe the\b|\bto the a\b|\ba a\b|\bthen then\b|\.\.", text), text
                assert not re.search(r"\b(\w+) \1\b", text), text
                assert not re.search(rf"(for|pass to|from) {j.position}\b", j.text), (j.position, j.text)
                assert j.text[0].isupper() and j.text.endswith(".")
                assert len(j.text) < 230, j.text
                seen += 1
    assert seen > 400


def test_equal_input_gives_equal_jobs(tmp_path, lantern):
    assert jobs_of(tmp_path, LANTERN) == lantern
    assert replace(lantern[0]) == lantern[0]
