"""Fairness, decided by playing every option on the timeline, apart from the code that makes the questions.

Exactly the stated options are right; nothing gives the key away: not length, not place, not wording.
"""

from __future__ import annotations

import re
from collections import Counter
from itertools import combinations

import pytest
from scipy.stats import binomtest, chisquare

from generator.diagrams import moment_picture, play_view
from generator.diagrams.scene import Token
from generator.model.court import court_for
from generator.model.settled import HandOff, Pass
from generator.quiz import Kind, generate_questions, reach
from generator.timeline.other_sight import sight_key
from tests.quiz_bank import STILL, demo_bank, random_bank, sets_bank
from tests.quiz_claims import said
from tests.quiz_witness import next_holder, opening_holder, watch

APART = 1.5  # metres: the stated threshold
BESIDE = 0.9  # metres a screener stands beside the place named: a step from the freed player's defender
SEEN_APART = 1.0  # and as played: a pass on the run is caught before the move ends (timeline.md section 3: lead 1.2)


@pytest.fixture(scope="session")
def demo():
    return demo_bank()


@pytest.fixture(scope="session")
def sets():
    return sets_bank()


@pytest.fixture(scope="session")
def randoms(tmp_path_factory):
    return random_bank(tmp_path_factory.mktemp("random"), range(24))


@pytest.fixture(params=["demo", "sets", "randoms"])
def bank(request):
    return request.getfixturevalue(request.param)


def test_there_is_something_to_judge(bank):
    assert len(bank.questions) > 150
    assert len({q.id for q in bank.questions}) == len(bank.questions)


def test_only_the_stated_option_leads_there(bank):
    """Read and job questions: each wrong option, played, ends elsewhere or does other things with ball and screens."""
    judged = 0
    for q in bank.of(Kind.READ, Kind.JOB, Kind.CALL):
        if not q.position or not q.options:
            continue
        right = q.options[q.right[0]].source
        assert len(q.right) == 1 and right.player == q.position and not right.mirrored
        timeline = bank.timeline(q, right.branch)
        own = watch(timeline, q.position, right.start, right.end)
        truth = watch(timeline, q.position, right.start, timeline.duration if q.read else right.end)
        for i, option in enumerate(q.options):
            if i in q.right:
                continue
            s = option.source
            if s is None:  # a pass that nobody makes
                assert option.player and option.player not in {n for n, _ in truth.gives}, (q.prompt, option.text)
                continue
            other = watch(bank.other(q, s).timelines[s.branch], s.player, s.start, s.end, s.mirrored)
            stands = option.text.startswith(STILL) and own.acts  # the ball or a screen is his
            told_apart = stands or not other.within(truth) or other.end.distance(own.end) > SEEN_APART
            assert told_apart, (q.prompt, q.options[q.right[0]].text, option.text)
            judged += 1
    assert judged > 100


def test_the_two_wrong_ones_are_two(bank):
    """Played, they part from each other too: else there are only two options. (Coming to a place and catching there may be
    two halves of one thing.)"""
    alike, judged = [], 0
    for q in bank.of(Kind.READ, Kind.JOB, Kind.CALL):
        wrong = [o for i, o in enumerate(q.options) if i not in q.right and o.source and q.position]
        if len(wrong) == 2:
            a, b = (watch(bank.other(q, o.source).timelines[o.source.branch], o.source.player, o.source.start, o.source.end,
                          o.source.mirrored) for o in wrong)
            stands = any(o.text.startswith(STILL) for o in wrong) and (a.acts or b.acts)
            judged += 1
            if not (stands or not a.within(b) or not b.within(a) or a.end.distance(b.end) > SEEN_APART):
                alike.append((q.prompt, wrong))
    assert judged > 100 and len(alike) <= judged / 200, alike


def test_what_an_option_says_is_what_its_stretch_shows(bank):
    """The words read by themselves, the stretch played: passes, catches, screens, shots and where he ends agree, for right
    and wrong options alike. Fairness is judged by the stretches, so a text apart from its stretch would escape it."""
    court, read = court_for(bank.computed.book.team.rule_set), Counter()
    for q in bank.of(Kind.READ, Kind.JOB):
        for option in (o for o in q.options if o.source):
            s, words = option.source, said(option.text, court)
            seen = watch(bank.other(q, s).timelines[s.branch], s.player, s.start, s.end, s.mirrored)
            assert set(words.gives) <= {n for n, _ in seen.gives}, (q.prompt, option.text)
            assert set(words.gets) <= {n for n, _ in seen.gets}, (q.prompt, option.text)
            assert set(words.screens) <= {n for freed, _ in seen.screens for n in freed}, (q.prompt, option.text)
            assert seen.shoots or not words.shoots, (q.prompt, option.text)
            assert words.ends is None or words.ends.distance(seen.end) <= APART + BESIDE, (q.prompt, option.text, words.ends, seen.end)
            read.update(gives=len(words.gives), gets=len(words.gets), screens=len(words.screens), ends=words.ends is not None)
    assert min(read.values()) > 20, read


def test_places_that_options_name_are_apart(bank):
    """Options that differ by their place alone name two places more than 1.5 m apart."""
    court = court_for(bank.computed.book.team.rule_set)
    for q in bank.of(Kind.READ, Kind.JOB):
        by_words = {}
        for option in q.options:
            words = said(option.text, court)
            place = words.ends
            if place is not None and not words.gives:
                by_words.setdefault(re.sub(r" (to|at|in|on) the [a-z -]+\.$", "", option.text), []).append(place)
        for places in by_words.values():
            assert all(a.distance(b) > APART for a, b in combinations(places, 2)), (q.prompt, [o.text for o in q.options])


def test_what_is_shown_belongs_to_the_answer_that_is_right(bank):
    """Picture, motion, the answer's picture, what happens then and the link: all of the branch and the fork asked about."""
    for q in (q for q in bank.questions if q.read and q.options):
        times = bank.times[q.play, q.variant]
        for picture in (q.picture, q.answer_picture):
            fork = times.settled.branch(picture.branch).forks[picture.index]
            assert (fork.read.id, fork.taken) == (q.read, q.node), q.prompt
        index, branch = q.picture.index, q.picture.branch
        assert q.then.branch == branch
        assert q.picture.kind == "read" and q.answer_picture.kind == "answer" and q.moment == f"a-{q.node}"
        sights = {s.coverage for group in fork.answer.sights for s in group}
        assert q.coverage in sights or (not sights and not q.coverage), (q.prompt, q.coverage)
        timeline = times.timelines[branch]
        read = timeline.fork_times[index]
        assert q.clip or read < 0.5, q.prompt
        if q.clip:
            assert q.clip.branch == sight_key(times.settled.branch(branch), index, q.picture.way)
            assert 0.3 < q.clip.end - q.clip.start and q.clip.end <= timeline.quiz_instant(index) + 1e-6, (q.prompt, q.clip)
        assert q.then.start >= read - 0.5 and q.then.end == timeline.duration


def test_nothing_is_answered_before_it_is_asked(bank):
    """Motion stops before a pass that answers the read, and the picture leaves the ball with the passer; a job is asked
    without a picture, a place without routes."""
    held = 0
    for q in (q for q in bank.questions if q.clip or q.picture):
        times = bank.times[q.play, q.variant]
        if q.kind is Kind.JOB and not q.read:
            raise AssertionError(q.prompt)
        if q.kind is Kind.PLACE:
            assert q.picture.kind == "phase" and q.clip is None
        if q.read and q.picture:
            timeline, index = times.timelines[q.picture.branch], q.picture.index
            read = timeline.fork_times[index]
            left = [t.start for t in timeline.timed.values() if isinstance(t.action, Pass | HandOff) and t.start >= read - 0.05]
            assert q.clip is None or all(q.clip.end < t for t in left), (q.prompt, q.clip, left)
            before, now = timeline.ball(max(0.0, read - 0.05)), timeline.ball(timeline.quiz_instant(index))
            if before.holder and now.holder is None and now.receiver:
                scene = moment_picture(timeline, index, play_view(times, bank.computed.book.team))
                assert [t.player for t in scene.of(Token) if t.with_ball] == [before.holder], q.prompt
                held += 1
        if q.kind is Kind.TELL:
            shown = q.options[q.right[0]].source
            assert shown is None or q.clip.end <= shown.start + 0.05, q.prompt
    assert held > 1 or bank.is_random


def test_right_is_what_the_coach_wrote(bank):
    for q in bank.of(Kind.READ):
        source = q.options[q.right[0]].source
        branch = bank.times[q.play, q.variant].settled.branch(source.branch)
        assert q.node in {f.taken for f in branch.forks}
        assert q.read in {f.read.id for f in branch.forks}


def test_the_words_over_the_picture_tell_the_coverages_apart(bank):
    """What a player sees in a read is said too: two answers of one read are never asked in the same words."""
    asked = {}
    for q in bank.of(Kind.READ):
        said = q.prompt.rsplit(". ", 1)[0]
        asked.setdefault((q.play, q.variant, q.read, q.position, said), set()).add(q.node.split("/")[0])
    assert [words for words, nodes in asked.items() if len(nodes) > 1] == []


def test_a_place_is_where_the_timeline_leaves_him(bank):
    for q in bank.of(Kind.PLACE):
        times = bank.times[q.play, q.variant]
        timeline = times.timelines[q.then.branch]
        index = next(i for i, p in enumerate(timeline.branch.phases) if p.id == q.node and not p.round)
        mine = [timeline.timed[k] for k in timeline.branch.phases[index].actions
                if k in timeline.timed and timeline.timed[k].action.player == q.position and timeline.timed[k].cut_at is None]
        after = max((t.end for t in mine), default=0.0)
        assert timeline.position(q.position, after).distance(q.at) < 0.3, q.prompt


def test_a_place_counts_as_far_as_it_is_said_to(bank):
    """1.5 m, and never the place where he stands already."""
    for q in bank.of(Kind.PLACE):
        times = bank.times[q.play, q.variant]
        phase = next(p for p in times.settled.branch(q.then.branch).phases if p.id == q.node and not p.round)
        assert q.within == APART and phase.plan[q.position].distance(q.at) > APART / 2, q.prompt


def test_who_is_said_to_have_the_ball_has_it(bank):
    """After a read: at the read itself, in his hands or just leaving them."""
    for q in (q for q in bank.of(Kind.NEXT) if q.read):
        timeline = bank.timeline(q, q.picture.branch)
        passer = int(re.search(r"(\d) has the ball", q.prompt)[1])
        ball = timeline.ball(timeline.fork_times[q.picture.index])
        now = passer in (ball.holder, ball.receiver, ball.passer)
        assert now != ("Then " in q.prompt), q.prompt
        later = next_holder(timeline, passer, timeline.fork_times[q.picture.index])
        assert later == q.options[q.right[0]].player, q.prompt


def test_the_next_holder_is_the_one_the_timeline_shows(bank):
    for q in bank.of(Kind.NEXT):
        timeline = bank.timeline(q, q.then.branch)
        passer = int(q.prompt.split(" has the ball")[0].split(" ")[-1])
        expected = q.options[q.right[0]].player
        if "second" in q.prompt or "third" in q.prompt or "once more" in q.prompt:
            continue
        assert next_holder(timeline, passer, q.then.start) == expected, q.prompt
        assert [o.player for o in q.options].count(expected) == 1


def test_an_opening_picture_fits_the_right_plays_and_no_others(bank):
    plain = {t.play.id: t for t in bank.computed.published}
    for q in bank.of(Kind.CALL):
        if "opening picture" not in q.prompt:
            continue
        mine = plain[q.play].main
        for i, option in enumerate(q.options):
            fits = [_far(mine, *opening) for opening in _openings(bank, option.play)]
            assert (min(fits) < 1.0) == (i in q.right), (q.prompt, option.text, min(fits))


def _openings(bank, play):
    """(timeline, whose place each takes) of every picture a play may begin with: its versions and its lead-ins."""
    same = {n: n for n in range(1, 6)}
    for times in bank.versions:
        if times.play.id == play:
            yield times.main, same
    lead_ins = {t.play.name.casefold(): t for t in bank.versions if t.play.is_lead_in}
    for ref in next(t.play for t in bank.versions if t.play.id == play).lead_ins:
        if ref.name.casefold() in lead_ins:
            yield lead_ins[ref.name.casefold()].main, same | dict(ref.roles)


def _far(mine, other, roles):
    """How far the worst of the five stands from the picture; another man's ball is another picture."""
    holds = next((n for n, role in roles.items() if role == opening_holder(other)), None)
    far = max(mine.position(n, 0.0).distance(other.position(roles[n], 0.0)) for n in mine.branch.start)
    return far if holds == opening_holder(mine) else 99.0


def test_a_tell_is_seen_in_one_play_and_not_in_the_other(bank):
    plain = {t.play.id: t for t in bank.computed.published}
    for q in bank.of(Kind.TELL):
        mine = plain[q.play].main
        for i, option in enumerate(q.options):
            s = option.source
            if s is None or s.play or i in q.right:
                continue
            if s.branch == mine.branch.key and option.player != q.options[q.right[0]].player:
                assert s.end <= q.then.end  # what both show has been seen before they part


def test_a_tell_says_what_the_play_shows(bank):
    """The right option, read by its words, is what this play's timeline shows; the foil is what the other one does."""
    court = court_for(bank.computed.book.team.rule_set)
    plain = {t.play.id: t for t in bank.computed.published}
    for q in bank.of(Kind.TELL):
        for option in (o for i, o in enumerate(q.options) if o.source):
            s, words = option.source, said(option.text, court)
            main = plain[s.play or q.play].main
            seen = watch(main, s.player, s.start, s.end)
            assert s.branch == main.branch.key and option.text.startswith(str(s.player)), (q.prompt, option.text)
            assert set(words.gives) <= {n for n, _ in seen.gives}, (q.prompt, option.text)
            assert words.gives or words.ends is None or words.ends.distance(seen.end) <= APART, (q.prompt, option.text)
            assert s.play == "" or q.options.index(option) not in q.right


def test_no_option_twice_and_nobody_is_his_own_partner(bank):
    for q in bank.questions:
        texts = [o.text.casefold() for o in q.options]
        assert len(set(texts)) == len(texts), q.prompt
        assert q.kind is Kind.PLACE or len(texts) >= 3
        if q.position and q.kind in (Kind.READ, Kind.JOB):
            assert not any(f"for {q.position} " in t or f"pass to {q.position} " in t for t in texts), (q.prompt, texts)


def test_length_does_not_give_the_key_away(bank):
    """By itself "take the longest" or "take the shortest" must do no better than guessing one of three."""
    asked = [q for q in bank.of(Kind.READ, Kind.JOB) if len({len(o.text) for o in q.options}) == 3]
    longest = sum(max(range(3), key=lambda i: len(q.options[i].text)) == q.right[0] for q in asked)
    shortest = sum(min(range(3), key=lambda i: len(q.options[i].text)) == q.right[0] for q in asked)
    for hits in (longest, shortest):
        assert 0.2 < hits / len(asked) < 0.47, (longest, shortest, len(asked))


def test_place_in_the_bank_is_even(bank):
    places = Counter(q.right[0] for q in bank.questions if len(q.options) == 3 and len(q.right) == 1)
    assert chisquare([places[i] for i in range(3)]).pvalue > 0.001


def test_wording_does_not_give_the_key_away(bank):
    """No word stands in right options so much more often than in wrong ones that it could be learned as a sign."""
    asked = [q for q in bank.of(Kind.READ) if len(q.options) == 3]
    right, wrong = Counter(), Counter()
    for q in asked:
        for i, option in enumerate(q.options):
            (right if i in q.right else wrong).update(set(option.text.lower().rstrip(".").split()))
    for word, hits in right.items():
        total = hits + wrong[word]
        if total >= 40 and not word.isdigit():
            assert binomtest(hits, total, 1 / 3).pvalue > 1e-6 or abs(hits / total - 1 / 3) < 0.25, (word, hits, total)


def test_standing_still_is_no_safe_guess(bank):
    """Of questions that offer it, "hold your spacing" is right about as often as any one of three."""
    for kind in (Kind.READ, Kind.JOB):
        offered = [(i in q.right) for q in bank.of(kind) for i, o in enumerate(q.options) if o.text.startswith(STILL[:2])]
        most = 0.6 if bank.is_random else 0.5  # in plays drawn by lot a read often leaves all but one where they are
        assert len(offered) > 30 and 0.24 < sum(offered) / len(offered) < most, (kind, sum(offered), len(offered))


@pytest.mark.deep
def test_many_random_books_are_fair(tmp_path):
    """The same judge over 400 random plays."""
    for part in range(16):
        folder = tmp_path / f"book{part}"
        folder.mkdir()
        made = random_bank(folder, range(1000 + 25 * part, 1025 + 25 * part))
        test_only_the_stated_option_leads_there(made)
        test_the_next_holder_is_the_one_the_timeline_shows(made)
        test_a_place_is_where_the_timeline_leaves_him(made)


def test_every_fork_and_job_is_asked_or_said(bank):
    reached = reach(bank.questions, bank.computed.published)
    assert reached.forks_asked + reached.jobs_asked + len(reached.gaps) == reached.forks + reached.jobs
    assert reached.jobs_asked >= 0.95 * reached.jobs
    assert reached.answers_asked >= 0.75 * reached.answers
    if reached.gaps:  # and then it is said why
        assert {g.location.path for g in reached.gaps} <= {d.location.path for d in bank.dropped}


def test_the_demo_book_is_asked_in_full(demo):
    reached = reach(demo.questions, demo.computed.published)
    assert (reached.forks_asked, reached.jobs_asked) == (reached.forks, reached.jobs)
    assert reached.answers_asked == reached.answers


def test_the_same_book_and_seed_give_the_same_questions(demo):
    again, _ = generate_questions(demo.versions, demo.computed.book, "fair")
    assert again == demo.questions
    other, _ = generate_questions(demo.versions, demo.computed.book, "other")
    assert [q.id for q in other] == [q.id for q in demo.questions]
    assert sum(a.right != b.right for a, b in zip(other, demo.questions, strict=True)) > len(other) / 3
