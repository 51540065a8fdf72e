"""Defenders: where they stand, how they move, and that every coverage can be seen (timeline.md section 5)."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from math import hypot
from pathlib import Path

import pytest
from branch_builder import BranchBuilder, mark, settled_play, spot
from timeline_plays import random_branch

from generator.model.book import Team
from generator.model.court import Point, RuleSet, court_for
from generator.model.play import WatchKind
from generator.model.settled import Departure, Instant, Mark
from generator.model.zone_shifts import stands
from generator.pipeline import load_book, time_play
from generator.timeline.coverages import KNOWN, SCREENER, SINGLE, TOLD_IN_WORDS, USER, Screening
from generator.timeline.distinctness import ENOUGH, distinctness
from generator.timeline.pieces import Curve, Line
from generator.timeline.shell import Moment, area_target, man_target
from generator.timeline.simulate import simulate_play
from generator.vocabulary.coverages import COVERAGES

COURT = court_for(RuleSet.INTERNATIONAL)
RIM = Point(0.0, COURT.rim)
TEAM = Team("Test")
ON_BALL = ("under", "over", "switch", "hedge", "drop", "trap", "ice", "at the level")
OFF_BALL = ("trail", "under", "switch", "shoot the gap", "top-lock", "jump the screen")


def test_every_coverage_of_the_language_has_a_place():
    assert {c.id for c in COVERAGES} <= KNOWN
    assert set(USER) == set(SCREENER)


def ball_screen(taken="otherwise", coverages=ON_BALL):
    """1 dribbles off 5 at the top; a read of X1 and X5; the answer taken sends 1 on to the rim."""
    b = BranchBuilder({1: "top", 2: "right corner", 3: "left corner", 4: "left wing", 5: "right elbow"})
    b.screen(5, 1, at=(1.0, 8.0), kind="ball")
    b.dribble(1, (4.2, 5.6), effort=0.8, off=5)
    b.shoot(1)
    answers = (("otherwise", ""), *((c.replace(" ", "-"), c) for c in coverages))
    fork = b.read(1, mark("a2", Instant.USE), answers, screen="a1", user="a2", watched=(1, 5), taken="otherwise", below="a2")
    trunk = b.branch()
    branches = [trunk]
    for id_, _ in answers[1:]:
        c = BranchBuilder(dict(trunk.start))
        c.actions, c.count, c.answer, c.place[1] = list(trunk.actions[:2]), 10, id_, spot((4.2, 5.6))
        c.place[5] = Point(1.0, 8.0)
        c.forks = [replace(fork, taken=id_)]
        own = (c.dribble(1, (0.6, 2.2), effort=0.8), c.shoot(1))
        branches.append(c.branch(id_, "main", Departure(0, (1,), ("a2", "a3"), own)))
    return settled_play(*branches)


def off_ball(coverages=OFF_BALL):
    b = BranchBuilder({1: "right slot", 2: "right corner", 3: "left block", 4: "left elbow", 5: "right block"})
    b.screen(4, 3, at=(-2.0, 3.9)), b.cut(3, "top", off=4), b.pass_(1, 3), b.shoot(3)
    answers = (("otherwise", ""), *((c.replace(" ", "-"), c) for c in coverages))
    fork = b.read(3, mark("a2", Instant.USE), answers, screen="a1", user="a2", watched=(3, 4), taken="otherwise", below="a2")
    trunk = b.branch()
    branches = [trunk]
    for id_, _ in answers[1:]:
        c = BranchBuilder(dict(trunk.start))
        c.actions, c.count, c.answer = list(trunk.actions[:2]), 10, id_
        c.place[3], c.place[4], c.forks = spot("top"), Point(-2.0, 3.9), [replace(fork, taken=id_)]
        own = (c.cut(3, (-0.5, 1.9), effort=0.85), c.pass_(1, 3, lead=True), c.shoot(3))
        branches.append(c.branch(id_, "main", Departure(0, (3, 1), ("a2", "a3", "a4"), own)))
    return settled_play(*branches)


@pytest.mark.parametrize("settled", [ball_screen(), off_ball()], ids=["ball screen", "off the ball"])
def test_any_two_coverages_of_a_fork_differ_by_ninety_centimetres(settled):
    play, _ = simulate_play(settled, TEAM, COURT)
    pairs = distinctness(play, play.main.branch.forks[0])
    count = len(play.timelines)
    assert len(pairs) == count * (count - 1) // 2
    assert min(pairs.values()) >= ENOUGH, sorted((v, k) for k, v in pairs.items())[:4]


def test_coverages_stand_where_the_table_says():
    """timeline.md 5.5 at the instant of use, with the changed numbers of DEVELOPERS.md: user runs along x past a
    screener at (0, 6) whose man comes from the rim."""
    n, f, i, p, s, t = Point(0, 1), Point(1, 0), Point(0, -1), Point(1, 6.8), Point(0, 6), 3.0
    ball, rim = Point(4, 7), RIM
    way = Curve([Line(Point(-4, 6.65), Point(6, 6.65))])
    c = Screening(1, 5, s, Point(0, 6.65), n, f, i, way, 4.0, t, lambda at: Point(p.x + 4 * (at - t), p.y))
    now = Moment(t, {1: p, 5: s}, ball, {1: 1.0}, rim)

    def ahead(a, metres, *weights):
        x, y = (sum(k * v[axis] for k, v in weights) for axis in (0, 1))
        return Point(a.x + metres * x / hypot(x, y), a.y + metres * y / hypot(x, y))

    def to(a, b):
        return Point((b.x - a.x) / a.distance(b), (b.y - a.y) / a.distance(b))

    home = Point(0, 5)
    trap = ahead(p, 1.0, (-0.9, f), (0.45, i)), ahead(p, 1.0, (0.9, f), (0.2, n))
    over = Point(0.8, 7.35)
    sunk = ahead(p, 2.5, (1, to(p, rim)))
    wanted = {
        "trail": (Point(-0.44, 6.8), home), "over": (over, home), "under": (Point(0.25 / 0.55, 5), Point(-1.15, 5.7)),
        "shoot the gap": (ahead(Point(2, 6.65), 0.5, (1, to(Point(2, 6.65), rim))), home),
        "switch": (ahead(s, 0.95, (0.8, to(s, rim)), (0.5, to(s, ball))), ahead(p, 1.0, (0.7, to(p, rim)), (0.7, f))),
        "hedge": (Point(0, 5.05), Point(1.5, 7.15)), "drop": (over, ahead(p, max(2.8, 0.5 * p.distance(rim)), (1, to(p, rim)))),
        "at the level": (over, Point(1.35, 5.65)), "trap": trap, "two on the ball": trap,
        "ice": (Point(-1.2, 7.35), Point(sunk.x + 1.3, sunk.y)), "top-lock": (Point(0.7, 6.65), home),
        "jump the screen": (Point(1.2, 7.75), home), "squeeze": (Point(0, 5.55), Point(-1, 6.15)),
    }
    assert set(wanted) == set(USER)
    for coverage, (user, screener) in wanted.items():
        assert user.distance(USER[coverage](c, now)) < 1e-9, coverage
        assert screener.distance(SCREENER[coverage](c, now)) < 1e-9, coverage


def test_switch_changes_men_for_good_in_its_branch_only():
    play, _ = simulate_play(ball_screen(), TEAM, COURT)
    switched, main = play.timelines["switch"], play.main
    late = switched.duration
    one, five = switched.position(1, late), switched.position(5, late)
    assert switched.defender(5, late).distance(one) < switched.defender(1, late).distance(one)
    assert switched.defender(1, late).distance(five) < 3.0
    late = main.duration
    assert main.defender(1, late).distance(main.position(1, late)) < main.defender(5, late).distance(main.position(1, late))


def test_coverages_look_like_their_names():
    play, _ = simulate_play(ball_screen(), TEAM, COURT)
    at = play.main.quiz_instant(0)
    screen, user = play.main.position(5, at), play.main.position(1, at)
    drop = play.timelines["drop"].defender(5, at)
    hedge = play.timelines["hedge"].defender(5, at)
    assert drop.distance(RIM) < hedge.distance(RIM) - 1.0
    assert play.timelines["under"].defender(1, at).distance(RIM) < screen.distance(RIM)
    assert play.timelines["over"].defender(1, at).distance(user) < 1.4
    trap = play.timelines["trap"]
    assert max(trap.defender(x, at).distance(trap.position(1, at)) for x in (1, 5)) < 1.9


@pytest.mark.parametrize("coverage", sorted(SINGLE))
def test_single_coverages_differ_from_none_of_these(coverage):
    """A read of 2's defender with this one key: the picture of the key and that of `otherwise` differ."""
    b = BranchBuilder({1: "top", 2: "right wing", 3: "left corner", 4: "left wing", 5: "right block"})
    b.stand(1, 2.5, verb="hold"), b.pass_(1, 2), b.shoot(2)
    answers = (("otherwise", ""), ("key", coverage))
    fork = b.read(2, mark("a2", Instant.RELEASE), answers, watched=(2,), taken="otherwise")
    trunk = b.branch()
    c = BranchBuilder(dict(trunk.start))
    c.actions, c.count, c.answer, c.forks = list(trunk.actions[:1]), 10, "key", [replace(fork, taken="key")]
    own = (c.cut(2, (0.5, 1.9), effort=0.85), c.pass_(1, 2, lead=True), c.shoot(2))
    play, _ = simulate_play(settled_play(trunk, c.branch("key", "main", Departure(0, (1, 2), ("a2", "a3"), own))), TEAM, COURT)
    assert min(distinctness(play, fork).values()) >= ENOUGH


def test_kinds_that_place_does_not_tell_apart_are_listed():
    """A read of a wing's defender with every single kind as a key: who come closer than 0.9 m are in one list, and
    every list has such a pair of each of its kinds."""
    b = BranchBuilder({1: "top", 2: "right wing", 3: "left corner", 4: "left wing", 5: "right block"})
    b.stand(1, 2.5, verb="hold"), b.pass_(1, 2), b.shoot(2)
    answers = (("otherwise", ""), *((c, c) for c in sorted(SINGLE)))
    fork = b.read(2, mark("a2", Instant.RELEASE), answers, watched=(2,), taken="otherwise")
    trunk = b.branch()
    branches = [trunk]
    for kind in sorted(SINGLE):
        c = BranchBuilder(dict(trunk.start))
        c.actions, c.count, c.answer, c.forks = list(trunk.actions[:1]), 10, kind, [replace(fork, taken=kind)]
        own = (c.cut(2, (0.5, 1.9), effort=0.85), c.pass_(1, 2, lead=True), c.shoot(2))
        branches.append(c.branch(kind, "main", Departure(0, (1, 2), ("a2", "a3"), own)))
    play, _ = simulate_play(settled_play(*branches), TEAM, COURT)
    near = {pair for pair, apart in distinctness(play, fork).items() if apart < ENOUGH}
    assert [pair for pair in near if not any(kinds.issuperset(pair) for kinds in TOLD_IN_WORDS)] == []
    assert {kind for pair in near for kind in pair} == frozenset().union(*TOLD_IN_WORDS)


def test_player_watch_shows_who_is_open():
    b = BranchBuilder({1: "top", 2: "right corner", 3: "left corner", 4: "left wing", 5: "right block"})
    b.cut(2, "right wing"), b.cut(3, "left slot")
    fork = b.read(1, mark("a1", Instant.ARRIVE), (("otherwise", ""), ("two", "open")), watched=(2,), taken="otherwise", kind=WatchKind.PLAYERS)
    trunk = b.branch()
    from generator.model.play import Sight
    from generator.model.sentence import Player

    answers = tuple(replace(a, sights=((Sight(Player(2), "open", "open"),),)) if a.sights else a for a in fork.read.answers)
    c = BranchBuilder(dict(trunk.start))
    c.actions, c.count, c.answer = list(trunk.actions), 10, "two"
    c.place = {**c.place, 2: spot("right wing"), 3: spot("left slot")}
    c.forks = [replace(fork, read=replace(fork.read, answers=answers), taken="two")]
    ball = c.pass_(1, 2)
    c.actions[-1] = replace(c.actions[-1], meets="a1")
    play, _ = simulate_play(settled_play(trunk, c.branch("two", "main", Departure(0, (1, 2), (), (ball,)))), TEAM, COURT)
    two = play.timelines["two"]
    assert two.timed[ball].instants[Instant.CATCH] == pytest.approx(two.timed["a1"].end, abs=1e-6)  # nobody waits for it
    at = two.quiz_instant(0)
    assert two.defender(2, at).distance(two.position(2, at)) > 2.0
    at = play.main.quiz_instant(0)
    assert play.main.defender(2, at).distance(play.main.position(2, at)) < 1.6


def test_cues_of_the_book_hold_until_the_next():
    b = BranchBuilder({1: "top", 2: "right wing", 3: "left corner", 4: "left wing", 5: "right block"})
    b.stand(1, 3.0, verb="hold")
    b.phase("Two")
    b.stand(1, 3.0, verb="hold")
    b.cue(2, "deny", Mark(None, phase=0)), b.cue(2, "sag", Mark(None, phase=1))
    play, _ = simulate_play(settled_play(b.branch()), TEAM, COURT)
    main = play.main
    man, ball = main.position(2, 2.5), main.ball(2.5).point
    denied, sagged = main.defender(2, 2.5), main.defender(2, 5.8)
    assert denied.distance(man) < 1.2 and denied.distance(ball) < man.distance(ball)
    assert sagged.distance(man) > 2.0 and sagged.distance(RIM) < man.distance(RIM)


def test_defenders_rarely_stand_on_the_offence():
    worst = []
    for seed in range(6):
        play, _ = simulate_play(settled_play(random_branch(seed)), TEAM, COURT)
        main = play.main
        for i in range(int(main.duration * 10)):
            for x in range(1, 6):
                worst.append(min(main.defender(x, i / 10).distance(main.position(p, i / 10)) for p in range(1, 6)))
    worst.sort()
    assert worst[len(worst) // 100] > 0.3  # one percent of all instants


def test_shell_targets():
    men = {1: spot("top"), 2: spot("right wing"), 3: spot("left corner"), 4: spot("left wing"), 5: spot("right block")}
    now = Moment(0.0, men, men[1], {1: 1.0, 2: 0.0, 3: 0.0, 4: 0.0, 5: 0.0}, RIM)
    assert man_target(now, 1).distance(men[1]) == pytest.approx(1.0)
    for far, near in ((3, 2),):
        help_, tight = man_target(now, far), man_target(now, near)
        assert help_.distance(men[far]) > tight.distance(men[near]) + 0.5
    turned = Moment(0.0, {p: q.mirrored() for p, q in men.items()}, men[1].mirrored(), now.share, RIM)
    for man in men:
        a, b = man_target(now, man), man_target(turned, man)
        assert hypot(a.x + b.x, a.y - b.y) < 1e-12


@pytest.mark.parametrize("against", ["zone 2-3", "zone 1-3-1", "zone 3-2", "zone 1-2-2", "zone 2-1-2", "box and one on 2", "diamond and one on 4",
                                     "triangle and two on 1 and 2", "zone press 1-2-1-1", "zone press 1-3-1", "man press", "nobody"])
def test_zones_shift_with_the_ball_and_stay_areas(against):
    b = BranchBuilder({1: "top", 2: "right wing", 3: "right corner", 4: "nail", 5: "left block"})
    b.pass_(1, 2), b.stand(2, 1.5, verb="hold"), b.pass_(2, 3), b.stand(3, 1.5, verb="hold")
    play, _ = simulate_play(settled_play(b.branch(), against=against), TEAM, COURT)
    main = play.main
    places = [[main.defender(x, t) for x in range(1, 6)] for t in (0.0, main.duration)]
    for when in places:
        assert min(p.distance(q) for p, q in combinations(when, 2)) > 0.5
        assert all(-0.3 < p.y < 15 for p in when)
    shift = sum(b.x - a.x for a, b in zip(*places))
    assert shift > 0.5 or against == "zone press 1-2-1-1"  # the ball goes right
    nearest = min(main.defender(x, main.duration).distance(main.ball(main.duration).point) for x in range(1, 6))
    assert nearest < 3.2


def _area(against: str, number: int, now: Moment) -> Point:
    return area_target(now, lambda ball: stands(COURT, against, ball)[number])


def test_an_area_goes_out_to_the_ball_that_is_its_own_and_the_others_stay():
    ball = spot("right wing")
    now = Moment(0.0, {1: ball}, ball, {1: 1.0}, RIM)
    assert _area("zone 2-3", 2, now).distance(ball) == pytest.approx(1.0, abs=0.05)
    assert min(_area("zone 2-3", n, now).distance(ball) for n in (1, 3, 4, 5)) > 3.5


def test_a_skip_over_the_zone_pulls_nobody_to_its_middle():
    """Half-way of a skip the ball is over the nail, but nobody has caught it there."""
    men = {1: spot("left wing"), 2: spot("right wing")}
    now = Moment(0.0, men, Point(0.0, 6.5), {1: 0.5, 2: 0.5}, RIM)
    assert _area("zone 2-3", 5, now).distance(spot("nail")) > 2.2


def test_the_middle_man_fronts_a_low_post_on_the_balls_side():
    """Three-quarter front, common practice of the trade, no source."""
    men = {1: spot("right wing"), 5: spot("right block")}
    now = Moment(0.0, men, men[1], {1: 1.0, 5: 0.0}, RIM)
    alone = Moment(0.0, {1: men[1]}, men[1], {1: 1.0}, RIM)
    there, without = _area("zone 2-3", 5, now), _area("zone 2-3", 5, alone)
    assert there.distance(men[5]) < without.distance(men[5]) - 0.2
    assert there.distance(men[5]) < 1.3


def test_a_zone_leaves_the_ball_to_the_chaser_of_the_man_who_has_it():
    ball = spot("right wing")
    now = Moment(0.0, {2: ball}, ball, {2: 1.0}, RIM)
    left = area_target(now, lambda b: stands(COURT, "box and one on 2", b)[3], frozenset({2}))
    own = area_target(now, lambda b: stands(COURT, "box and one on 1", b)[3])
    assert own.distance(ball) < 1.2 < 2.5 < left.distance(ball)


def test_quiz_instant_never_lies_beyond_the_branch_and_tracks_are_lazy():
    play, _ = simulate_play(ball_screen(), TEAM, COURT)
    for timeline in play.timelines.values():
        assert "defence" not in timeline.__dict__
        assert 0 <= timeline.quiz_instant(0) <= timeline.duration
        assert "defence" not in timeline.__dict__
        timeline.defender(1, 0.0)
        assert "defence" in timeline.__dict__


def test_in_a_zone_a_hard_close_out_comes_to_the_ball_not_to_the_defenders_own_number():
    """Quarry Low: X4 holds the low right area; 3 has the ball in the corner, 4 stands at the nail."""
    book, _ = load_book(Path(__file__).resolve().parent.parent / "plays")
    times, _ = time_play(book.play("Quarry Low"), book)
    far = {}
    for timeline in times.timelines.values():
        seen = timeline.quiz_instant(0)
        far[timeline.branch.departure is not None] = timeline.defender(4, seen).distance(timeline.position(3, seen))
    assert far[True] < 1.2 and far[False] > 2.0  # the corner is his, so he comes, but late


def test_help_far_from_the_ball_stands_where_the_formula_says():
    """timeline.md 5.3 `two`: (0.30 p_x + 0.10 b_x, B + 0.42 (p_y - B) + 0.12 (b_y - B)), alone from 8.2 m on."""
    man, ball = Point(-6.9, 6.575), Point(5.0, 7.575)
    now = Moment(0.0, {1: ball, 2: man}, ball, {1: 1.0, 2: 0.0}, RIM)
    x, y = man_target(now, 2)
    assert (x, y) == pytest.approx((0.30 * -6.9 + 0.10 * 5.0, 1.575 + 0.42 * 5.0 + 0.12 * 6.0))
