"""What a reader who knows the trade crossed out in ten quizzes of ten, each as a rule over every question of both books."""

from __future__ import annotations

import re

import pytest

from generator.diagrams import diagram_svg, moment_picture, motion_file, play_view
from generator.model.play import WatchKind
from generator.model.settled import HandOff, Move, Pass, Screen
from generator.quiz import Kind, pictures_wanted
from generator.quiz.bank import picture_key
from generator.timeline.other_sight import other_sight
from tests.quiz_bank import STILL, Bank, demo_bank, sets_bank
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
        if right.text.endswith(" where he is."):
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


def test_of_two_options_that_differ_by_their_side_neither_need_be_right(bank):
    """Where two of three are each other's mirror images, the right one is among them about two times in three, as it is
    among any two. Always would halve the choice for who knows nothing."""
    for kind in (Kind.READ, Kind.JOB):
        among = []
        for q in (q for q in bank.of(kind) if len(q.options) == 3):
            texts = [re.sub(r"\b(left|right)\b", "side", o.text) for o in q.options]
            if len(set(texts)) == 2:
                among.append(texts.count(texts[q.right[0]]) == 2)
        assert len(among) > 60 and 0.55 < sum(among) / len(among) < 0.78, (kind, sum(among), len(among))


def test_nobody_who_is_said_not_to_be_open_stands_among_the_options(bank):
    """"1 is not open. What now?" with "pass to 1" is a question of two."""
    seen = 0
    for q in bank.of(Kind.READ):
        said = re.search(r"you are \d\. ([\d, and]+) (?:is|are) not open|(?:Neither|None of) ([\d, norad]+) is open", q.prompt)
        if said:
            shut = re.findall(r"\d", said[1] or said[2])
            texts = [o.text for i, o in enumerate(q.options) if i not in q.right]
            assert not any(re.match(rf"(Pass|Skip it|Lob it|Inbound|Hand off) to ({'|'.join(shut)}) ", t) for t in texts), (q.prompt, texts)
            seen += 1
    assert seen > 2


def test_who_throws_in_inbounds_in_every_option(bank):
    for q in bank.of(Kind.READ, Kind.JOB):
        if q.options and q.options[q.right[0]].text.startswith("Inbound"):
            assert not [o.text for o in q.options if o.text.startswith("Pass")], q.prompt


def test_a_reason_speaks_to_the_player_and_tells_what_comes_after_his_part(bank):
    """Never "4 passes to 1" to 1, and no catch or shot as the consequence of itself."""
    derived = [q for q in bank.questions if q.position and re.search("What comes of it|Meanwhile", q.why)]
    assert len(derived) > 100
    for q in derived:
        said = re.split("What comes of it: |Meanwhile ", q.why)[-1]
        assert not re.search(rf"(?<!X)\b{q.position}\b", said), (q.prompt, q.why)
        for option in (q.options[i].text for i in q.right):
            assert not [n for n in re.findall(r"[Cc]atch (\d)'s", option) if f"{n} passes to you" in said], (option, q.why)
            assert not (re.search(r"\b(shoot|finish)\b", option) and "you shoot" in said), (option, q.why)


def test_the_reason_of_a_signal_tells_what_the_others_would_be():
    """The play's purpose says nothing about a hand in the air."""
    for q in demo_bank().of(Kind.CALL):
        if "signal" in q.prompt or "bench shows" in q.prompt:
            names = {p.id: p for p in demo_bank().computed.book.plays}
            others = [names[o.play] for i, o in enumerate(q.options) if i not in q.right]
            assert all(not p.signal or (p.name in q.why and f'"{p.signal}"' in q.why) for p in others), (q.prompt, q.why)


def test_who_is_named_in_the_question_is_named_among_the_wrong_ones_too(bank):
    """"X3 trails 3 on 5's screen: who gets it next?": 5 is asked beside 3."""
    for q in bank.of(Kind.NEXT):
        if q.read:
            passer = re.search(r"(\d) has the ball", q.prompt)[1]
            named = set(re.findall(r"\d", q.prompt.split(": ", 1)[1].rsplit(". ", 1)[0])) - {passer}
            right = q.options[q.right[0]].text
            wrong = {o.text for i, o in enumerate(q.options) if i not in q.right}
            assert not named - {right} or wrong & named, q.prompt


def test_what_is_one_thing_has_one_theme(bank):
    """A job and the place it ends at; who passes, who catches and who gets it next."""
    by_part = {}
    for q in bank.of(Kind.JOB, Kind.PLACE):
        if not q.read:
            by_part.setdefault((q.play, q.variant, q.node, q.position), []).append(q)
    pairs = [p for p in by_part.values() if len(p) == 2]
    assert len(pairs) > 50 and all(set(a.themes) & set(b.themes) for a, b in pairs)
    next_ones = {(q.play, q.node): q for q in bank.of(Kind.NEXT) if q.read}
    shared = 0
    for q in bank.of(Kind.READ):
        after = next_ones.get((q.play, q.node))
        if after and not q.variant.mirrored and not q.variant.run_for and not (q.picture and q.picture.way):
            giver, taker = int(re.search(r"(\d) has the ball", after.prompt)[1]), after.options[after.right[0]].player
            in_hand = re.search(rf"(to {taker} |atch {giver}'s)", q.options[q.right[0]].text) and q.position in (giver, taker)
            assert not in_hand or set(q.themes) & set(after.themes), (q.prompt, after.prompt)
            shared += bool(in_hand)
    assert shared > 5


def test_a_phase_that_two_plays_share_has_the_themes_of_one():
    """`same as: Tidewall until Step out`: its jobs are Tidewall's, whatever the play is called."""
    plays = {p.id: p.name for p in demo_bank().computed.book.plays}
    themes = {}
    for q in demo_bank().of(Kind.JOB, Kind.PLACE, Kind.NEXT):
        if ", Swing" in q.prompt and plays[q.play] in ("Tidewall", "Spindrift", "Breakwater"):
            themes.setdefault((q.kind, q.position, q.variant), {}).setdefault(plays[q.play], set()).update(q.themes)
    assert themes and all(len(by) == 3 and len({frozenset(t) for t in by.values()}) == 1 for by in themes.values())


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
    return Bank(folder)


def test_the_second_coverage_of_a_key_is_another_thing_to_see_and_the_same_to_do(gable):
    """Only the defence differs: at the quiz instant X3 stands where he stands against `over`, on the screen's other side."""
    over = next(q for q in gable.questions if q.coverage == "over" and q.position == 3 and q.kind is Kind.READ and q.picture.way)
    first = gable.timeline(over, over.picture.branch)
    second = other_sight(first, over.picture.index, over.picture.way)
    now = first.quiz_instant(over.picture.index)
    assert [s.coverage for s in second.shown] == ["over"] and [s.coverage for s in first.shown] == ["trail"]
    assert first.defender(3, now).distance(second.defender(3, now)) > 0.25
    assert all(first.position(n, now) == second.position(n, now) for n in range(1, 6))
    times = gable.times[over.play, over.variant]
    view = play_view(times, gable.computed.book.team)
    drawn = [diagram_svg(moment_picture(t, over.picture.index, view), "") for t in (first, second)]
    assert drawn[0] != drawn[1]


def test_the_motion_file_has_the_run_against_it(gable):
    over = next(q for q in gable.questions if q.coverage == "over" and q.position == 3 and q.kind is Kind.READ and q.picture.way)
    times = gable.times[over.play, over.variant]
    tracks = {t["key"]: t for t in motion_file(times, play_view(times, gable.computed.book.team))["tracks"]}
    own, like = tracks[over.clip.branch], tracks[over.picture.branch]
    assert own["offence"] == like["offence"] and own["ball"] == like["ball"] and own["defence"] != like["defence"]
    assert over.clip.branch not in {key for t in tracks.values() for r in t["reads"] for _, key in r["answers"]}
    assert set(pictures_wanted(gable.questions, times.play)) >= {picture_key(over.picture, over.variant)}


def test_each_coverage_of_a_key_is_asked_with_its_own_picture_and_motion(gable):
    mine = [q for q in gable.questions if q.kind is Kind.READ and q.position == 3 and not q.variant.run_for and q.coverage]
    assert [q.coverage for q in mine] == ["trail", "over"]
    trail, over = mine
    assert "trails you" in trail.prompt and trail.picture and trail.clip
    assert "goes over" in over.prompt and over.picture and over.clip and over.answer_picture
    assert over.picture != trail.picture and over.clip.branch != trail.clip.branch
    assert trail.options[trail.right[0]].text == over.options[over.right[0]].text and trail.id != over.id and trail.twin != over.twin


def test_numbers_of_the_coach_are_marked_where_others_run_it(gable):
    marked = {bool(q.variant.run_for): q.why for q in gable.questions if q.coverage == "trail" and q.kind is Kind.READ}
    assert marked[False].endswith("3 is alone at the rim for 2 seconds.")
    assert marked[True].endswith("3 is alone at the rim for 2 seconds. (Numbers as first drawn.)")
