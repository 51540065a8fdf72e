"""The timeline on whole books: the demo book and the sets of the tests. What holds for hand-made plays holds here."""

from __future__ import annotations

from math import hypot
from pathlib import Path
from statistics import median

import networkx as nx
import pytest
from yardstick import yards

from generator.model.court import court_for
from generator.model.play import WatchKind
from generator.model.settled import Instant, Pass, SettledPlay, Variant
from generator.pipeline import load_book
from generator.settling import settle
from generator.timeline.distinctness import ENOUGH, distinctness
from generator.timeline.motion import motion_data, place_at
from generator.timeline.network import NEVER
from generator.timeline.parameters import pace_of
from generator.timeline.simulate import simulate_play

ROOT = Path(__file__).resolve().parent
BOOKS = (ROOT.parent / "plays", ROOT / "books" / "sets")


def all_plays():
    for folder in BOOKS:
        book, _ = load_book(folder)
        for play in (*book.plays, *book.lead_ins):
            settled, _ = settle(play, book, Variant())
            if settled is not None:
                yield pytest.param((book, settled), id=f"{folder.name}/{play.name}")


PLAYS = list(all_plays())


@pytest.fixture(scope="module", params=PLAYS)
def made(request):
    book, settled = request.param
    times, _ = simulate_play(settled, book.team, court_for(book.team.rule_set))
    return book, times


def test_there_are_books():
    assert len(PLAYS) > 40


def test_motion_is_continuous(made):
    book, times = made
    pace = pace_of(book.team)
    bound = 0.02 * hypot(max(pace.top_speed / pace.tau, pace.braking), pace.cornering) + 0.02
    for timeline in times.timelines.values():
        for p in timeline.branch.start:
            before = timeline.velocity(p, 0.0)
            for i in range(1, int(timeline.duration * 50)):
                after = timeline.velocity(p, i / 50)
                assert hypot(after.x - before.x, after.y - before.y) <= bound, (timeline.branch.name, p, i / 50)
                before = after


def test_branches_equal_their_trunk_until_the_read(made):
    _, times = made
    for timeline in times.timelines.values():
        parent = timeline.parent
        if parent is None:
            continue
        read = timeline.fork_times[timeline.branch.departure.fork]
        for i in range(int(read * 20) + 1):
            for p in timeline.branch.start:
                assert timeline.position(p, i / 20) == parent.position(p, i / 20)
        for key, one in timeline.timed.items():
            if key in parent.timed and one.start <= read and one.cut_at is None:
                assert one.start == parent.timed[key].start


def test_one_ball_goes_from_hand_to_hand(made):
    _, times = made
    for timeline in times.timelines.values():
        holder = timeline.branch.phases[0].holder
        for event in timeline.ball_events:
            assert event.passer == holder or event.kind == "loose", (timeline.branch.name, event)
            assert event.caught >= event.release
            holder = event.receiver
        for one in timeline.timed.values():
            if isinstance(one.action, Pass) and one.cut_at is None:
                caught = one.instants[Instant.CATCH]
                assert timeline.ball(caught).point.distance(timeline.position(one.action.receiver, caught)) < 1e-6


def test_instants_are_longest_paths(made):
    _, times = made
    for timeline in times.timelines.values():
        net = timeline.schedule.net
        graph = nx.DiGraph()
        graph.add_nodes_from(range(len(net.names)))
        for edge in net.solid():
            wait = edge.wait + net.delay.get(edge.target, 0.0)
            if not graph.has_edge(edge.source, edge.target) or graph[edge.source][edge.target]["wait"] < wait:
                graph.add_edge(edge.source, edge.target, wait=wait)
        times_found: dict[int, float] = {}
        for node in nx.topological_sort(graph):
            own = net.fixed[node] if net.fixed[node] is not None else max(net.base[node], -1e9)
            times_found[node] = max([own, *(times_found[a] + graph[a][node]["wait"] for a in graph.predecessors(node))])
        for node, wanted in times_found.items():
            assert net.times[node] == pytest.approx(wanted if wanted > -1e8 else NEVER, abs=1e-9)


def test_screeners_are_passed_with_room(made):
    _, times = made
    for timeline in times.timelines.values():
        for key, one in timeline.timed.items():
            course = timeline.schedule.courses.of(key) if one.uses else None
            for use in one.uses:
                if min(use.place.distance(course.curve.start), use.place.distance(course.curve.end)) > 0.7:
                    assert course.curve.nearest(use.place)[1] >= 0.63, (timeline.branch.name, one.action.text)


def test_samples_are_close(made):
    _, times = made
    main = times.main
    data = motion_data(main)
    for p in main.branch.start:
        track = data["offence"][str(p)]
        for i in range(int(main.duration * 12)):
            assert place_at(track, i / 12).distance(main.position(p, i / 12)) <= 0.05


def test_defenders_are_not_run_through(made):
    """timeline.md 5.4: making way reduces overlap and does not forbid it. Seen five times a second, two marks lie within
    0.25 m of each other now and then at most; without looking ahead that was so in every fourth branch."""
    _, times = made
    main = times.main
    near = count = 0
    for i in range(int(main.duration * 5)):
        men = [main.position(p, i / 5) for p in main.branch.start]
        for body in main.branch.start:
            x = main.defender(body, i / 5)
            count += len(men)
            near += sum(x.distance(man) < 0.25 for man in men)
    assert near <= 1 + count / 2000


def test_the_coverages_of_every_read_can_be_told_apart(made):
    """Of defenders and of players, with a screen or without: some defender stands elsewhere at the quiz instant."""
    _, times = made
    forks = {f.read.id: f for timeline in times.timelines.values() for f in timeline.branch.forks}
    for fork in forks.values():
        if fork.read.watch.kind not in (WatchKind.DEFENDERS, WatchKind.PLAYERS):
            continue
        pairs = distinctness(times, fork)
        assert pairs, fork.read.watch.text
        for pair, apart in pairs.items():
            assert apart >= ENOUGH, (fork.read.watch.text, pair, apart)


def test_a_main_line_costs_little():
    """The median over all plays is a yard and a half; the milliseconds are a row of the budgets (`text-to-timeline`)."""
    costs = []
    for param in PLAYS:
        book, settled = param.values[0]
        main = SettledPlay(settled.play, settled.variant, settled.branches[:1])
        court = court_for(book.team.rule_set)
        costs.append(yards(lambda book=book, main=main, court=court: simulate_play(main, book.team, court), rounds=3))
    assert median(costs) < 10
