"""What a reader who knows the trade crossed out in ten quizzes of ten, each as a rule over every question of both books."""

from __future__ import annotations

import re

import pytest

from generator.model.play import WatchKind
from generator.model.settled import HandOff, Move, Pass, Screen
from generator.pipeline import all_versions, compute, load_book
from generator.quiz import Kind, generate_questions
from tests.quiz_bank import STILL, demo_bank, sets_bank
from tests.quiz_witness import APART, watch


@pytest.fixture(params=[demo_bank, sets_bank], ids=["demo", "sets"])
def bank(request):
    return request.param()


def asked(bank, *kinds):
    """(question, its right option's stretch as played, its wrong options that stand still with their stretches)."""
    for q in bank.of(*kinds):
        if not q.position or not q.options:
            continue
        s = q.options[q.right[0]].source
        still = [o for i, o in enumerate(q.options) if i not in q.right and o.source and o.text.startswith(STILL)]
        yield q, watch(bank.timeline(q, s.branch), s.player, s.start, s.end), still


def stands_at(bank, q, option):
    s = option.source
    place = bank.other(q, s).timelines[s.branch].position(s.player, s.end)
    return place.mirrored() if s.mirrored else place


def test_who_waits_where_the_ball_comes_is_not_wrong(bank):
    """"Catch 1's pass on the wing" and "hold your spacing on the wing" are both right for who stands there."""
    judged = 0
    for q, own, still in asked(bank, Kind.READ, Kind.JOB):
        for option in still:
            for _, where in own.gets:
                assert stands_at(bank, q, option).distance(where) > APART - 1.2, (q.prompt, option.text)  # 1.2: on the run
                judged += 1
    assert judged > 10


def test_standing_in_his_own_screen_is_not_wrong_as_it_is_read(bank):
    for q, own, still in asked(bank, Kind.READ):
        if not re.match(r"Set |Screen ", q.options[q.right[0]].text):
            continue
        for option in still:
            for _, where in own.screens:
                assert stands_at(bank, q, option).distance(where) > APART - 0.6, (q.prompt, option.text)


def test_only_the_one_who_looks_is_asked_who_is_open(bank):
    """The others stand where they stand; whether the ball comes is not theirs to decide."""
    seen = 0
    for q in bank.of(Kind.READ):
        fork = next(f for _, f in bank.forks(q) if f.read.id == q.read)
        if fork.read.watch.kind is WatchKind.PLAYERS:
            assert q.position == fork.reader, q.prompt
            seen += 1
    assert seen > 5


def test_a_job_asked_without_the_coverage_takes_no_answer_to_a_read_for_wrong_or_right(bank):
    """What he would do against some coverage of that phase is neither the key nor a wrong option."""
    for q in bank.of(Kind.JOB):
        times = bank.times[q.play, q.variant]
        gives, moves = set(), []
        for branch in times.settled.branches:
            for fork in branch.forks:
                if branch.phases[fork.phase].id != q.node:
                    continue
                for action in branch.actions:
                    if action.phase == fork.phase and action.answer is not None and action.player == q.position:
                        if isinstance(action, Pass | HandOff):
                            gives.add(action.receiver)
                        elif isinstance(action, Move):
                            moves.append(action.end)
        for option in q.options:
            told = re.fullmatch(r"(?:Pass|Skip it|Lob it|Hand off|Bounce pass) to (\d) [^,]*", option.text)
            assert not (told and int(told[1]) in gives), (q.prompt, option.text)


def test_a_place_is_not_asked_where_a_read_sends_him_elsewhere(bank):
    for q in bank.of(Kind.PLACE):
        for branch in bank.times[q.play, q.variant].settled.branches:
            for fork in branch.forks:
                if branch.phases[fork.phase].id == q.node:
                    for a in branch.actions:
                        sent = a.phase == fork.phase and a.answer is not None and a.player == q.position and isinstance(a, Move | Screen)
                        assert not sent or a.end.distance(q.at) <= q.within, (q.prompt, a.text)


def test_nobody_else_gets_it_next_under_another_answer(bank):
    for q in bank.of(Kind.NEXT):
        if q.read:
            continue
        passer = int(q.prompt.split(" has the ball")[0].split(" ")[-1])
        wrong = {o.player for i, o in enumerate(q.options) if i not in q.right}
        for branch in bank.times[q.play, q.variant].settled.branches:
            for a in branch.actions:
                if isinstance(a, Pass | HandOff) and a.player == passer and a.answer and branch.phases[a.phase].id == q.node:
                    assert a.receiver not in wrong, q.prompt


def test_the_picture_shows_the_ball_where_the_prompt_says_it_is(bank):
    later = 0
    for q in bank.of(Kind.NEXT):
        passer = int(q.prompt.split(" has the ball")[0].split(" ")[-1])
        if q.picture is not None and q.picture.kind == "phase":
            branch = bank.times[q.play, q.variant].settled.branch(q.picture.branch)
            assert branch.phases[q.picture.index].holder == passer, q.prompt
        elif q.picture is None:  # then the motion up to there, which does not yet show to whom it goes
            timeline = bank.timeline(q, q.clip.branch)
            assert passer in (timeline.ball(q.clip.end).holder, timeline.ball(q.clip.end).receiver), q.prompt
            later += 1
    assert later > 0


def test_every_answer_comes_with_a_reason(bank):
    """The coach's own, or what the right answer leads to; a book without purposes may leave the last to the picture."""
    silent = [q.prompt for q in bank.questions if not q.why]
    if bank is demo_bank():
        assert silent == []
    assert len(silent) < len(bank.questions) / 4


def test_a_tell_says_what_is_done_where_something_is_done(bank):
    """"3 stays where he is" is said only of one who does nothing later that would tell the plays apart."""
    plain = {t.play.id: t for t in bank.computed.published}
    for q in bank.of(Kind.TELL):
        right = q.options[q.right[0]]
        if right.text.endswith("stays where he is."):
            player = int(right.text[0])
            main = plain[q.play].main
            later = [t for t in main.timed.values() if t.action.player == player and isinstance(t.action, Move) and t.start > q.then.end]
            assert not later, q.prompt


def test_spacing_is_held_outside_only(bank):
    for q in bank.questions:
        for o in q.options:
            if o.text.startswith("Hold your spacing"):
                assert not re.search(r"\b(rim|block|elbow|post|dunker|lane|short corner|nail|out of bounds|backcourt)\b", o.text) or re.search(
                    r"\bsteps? (above|below|inside|outside)\b", o.text), o.text


def test_a_mirrored_way_is_mirrored_with_its_end(bank):
    for q in bank.questions:
        for o in q.options:
            along = re.search(r"along the (left|right) sideline to the (left|right)", o.text)
            assert not along or along[1] == along[2], o.text


def test_who_has_the_ball_is_not_told_to_keep_his_spacing(bank):
    """A wrong option that forgets the ball in his hands is crossed out by anybody."""
    bad = total = 0
    for q, _, still in asked(bank, Kind.JOB):
        s = q.options[q.right[0]].source
        if bank.timeline(q, s.branch).ball(s.start).holder == q.position:
            total += 1
            bad += any(not o.text.startswith("Keep the ball") for o in still)
    assert total > 5 and bad <= total / 4, (bad, total)


# -- books of one play -----------------------------------------------------------------------------------

OR = """play: Gable
start: {1: top with the ball, 2: right wing, 3: left corner, 4: right elbow, 5: left block}
also for: {2: 3}
phases:
  - name: Down
    do: [5 down screens for 3, 3 cuts off 5 to left wing]
    reads:
      - who: 3
        watch: X3 on 5's screen
        answers:
          trail or over: {do: [3 curls to front of the rim, 1 passes to 3, 3 finishes], why: 3 is alone at the rim for 2 seconds.}
          otherwise: go on
  - {name: Shot, do: [1 passes to 3, 3 shoots]}
"""


@pytest.fixture(scope="module")
def gable(tmp_path_factory):
    folder = tmp_path_factory.mktemp("gable")
    (folder / "team.yml").write_text("team: Herons\nrule set: international\n")
    (folder / "gable.yml").write_text(OR)
    computed = compute(load_book(folder)[0])
    return generate_questions(all_versions(computed), computed.book, "1")[0]


def test_each_coverage_of_a_key_is_asked(gable):
    """The first in picture and motion, the other in words: the picture shows the first."""
    mine = [q for q in gable if q.kind is Kind.READ and q.position == 3 and not q.variant.run_for and q.coverage]
    assert [q.coverage for q in mine] == ["trail", "over"]
    trail, over = mine
    assert "trails you" in trail.prompt and trail.picture and trail.clip
    assert "goes over" in over.prompt and over.picture is None and over.clip is None and over.answer_picture
    assert trail.options[trail.right[0]].text == over.options[over.right[0]].text and trail.id != over.id and trail.twin != over.twin


def test_numbers_of_the_coach_are_marked_where_others_run_it(gable):
    marked = {bool(q.variant.run_for): q.why for q in gable if q.coverage == "trail" and q.kind is Kind.READ}
    assert marked[False].endswith("3 is alone at the rim for 2 seconds.")
    assert marked[True].endswith("3 is alone at the rim for 2 seconds. (Numbers as first drawn.)")
