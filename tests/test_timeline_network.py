"""The constraint graph against networkx: earliest starts, critical path, slack, circles; on random graphs and on branches."""

from __future__ import annotations

import random

import networkx as nx
import pytest
from branch_builder import settled_play
from timeline_plays import random_branch, read_play

from generator.model.book import Team
from generator.model.court import RuleSet, court_for
from generator.timeline.network import NEVER, Network
from generator.timeline.simulate import simulate_play

COURT = court_for(RuleSet.INTERNATIONAL)


def longest(edges, base, count):
    """Longest path lengths from a source that reaches every node at its own earliest time."""
    graph = nx.DiGraph()
    graph.add_nodes_from(range(count))
    for a, b, wait in edges:
        if not graph.has_edge(a, b) or graph[a][b]["wait"] < wait:
            graph.add_edge(a, b, wait=wait)
    times = {}
    for node in nx.lexicographical_topological_sort(graph):
        times[node] = max([base[node], *(times[a] + graph[a][node]["wait"] for a in graph.predecessors(node))])
    return graph, times


@pytest.mark.parametrize("seed", range(12))
def test_random_graphs(seed):
    r = random.Random(seed)
    n = r.randint(5, 40)
    net, edges = Network(), []
    base = [r.uniform(0, 2) if r.random() < 0.3 else 0.0 for _ in range(n)]
    for i in range(n):
        net.node("n", i, base=base[i])
    for _ in range(3 * n):
        a, b = sorted(r.sample(range(n), 2))
        wait = r.uniform(-0.5, 3.0)
        net.edge(a, b, wait)
        edges.append((a, b, wait))
    times = net.sweep()
    graph, wanted = longest(edges, base, n)
    assert times == pytest.approx([wanted[i] for i in range(n)])
    end = max(times)
    latest = net.latest(end, {})
    for node in reversed(list(nx.topological_sort(graph))):
        limit = min([end, *(latest[b] - graph[node][b]["wait"] for b in graph.successors(node))])
        assert latest[node] == pytest.approx(limit)


@pytest.mark.parametrize("seed", range(12))
def test_dag_longest_path_without_own_times(seed):
    """With all own times 0 and waits >= 0 the last instant is networkx's longest path."""
    r = random.Random(100 + seed)
    n = r.randint(5, 30)
    net, graph = Network(), nx.DiGraph()
    graph.add_nodes_from(range(n))
    for i in range(n):
        net.node("n", i, base=0.0)
    for _ in range(2 * n):
        a, b = sorted(r.sample(range(n), 2))
        if not graph.has_edge(a, b):
            wait = r.uniform(0.1, 3.0)
            net.edge(a, b, wait)
            graph.add_edge(a, b, weight=wait)
    path = nx.dag_longest_path(graph)
    assert max(net.sweep()) == pytest.approx(nx.dag_longest_path_length(graph))
    critical = [i for i, (t, late) in enumerate(zip(net.times, net.latest(max(net.times), {}))) if late - t < 1e-9]
    assert set(path) <= set(critical)


def branches():
    for seed in range(8):
        yield settled_play(random_branch(seed))
    yield read_play()


@pytest.mark.parametrize("settled", list(branches()))
def test_branches(settled):
    """Every branch's instants are the longest paths of its own edges; slack is what networkx finds backward."""
    play, _ = simulate_play(settled, Team("Test"), COURT)
    for timeline in play.timelines.values():
        net = timeline.schedule.net
        edges = [(e.source, e.target, e.wait) for e in net.solid()]
        base = [net.fixed[i] if net.fixed[i] is not None else net.base[i] for i in range(len(net.names))]
        held = [(a, b, w + net.delay.get(b, 0.0)) for a, b, w in edges]
        base = [t if t != NEVER else -1e9 for t in base]
        graph, wanted = longest(held, base, len(base))
        assert net.times == pytest.approx([wanted[i] for i in range(len(base))], abs=1e-9)
        for key, timed in timeline.timed.items():
            if key in timeline.cut:
                continue
            node = timeline.schedule.start[key]
            assert timed.slack == pytest.approx(_slack(graph, net, timeline, node), abs=1e-9)


def _slack(graph, net, timeline, node):
    """By how much a node may slip until the branch ends later: one number by paths to the sink."""
    tails = timeline.tails
    room = float("inf")
    for target in [node, *nx.descendants(graph, node)]:
        reach = 0.0 if target == node else _longest_between(graph, node, target)
        limit = max(timeline.duration - tails.get(target, 0.0), net.times[target])
        room = min(room, limit - (net.times[node] + reach))
    return max(0.0, room)


def _longest_between(graph, a, b):
    best = {a: 0.0}
    for node in nx.topological_sort(graph):
        if node in best:
            for following in graph.successors(node):
                best[following] = max(best.get(following, float("-inf")), best[node] + graph[node][following]["wait"])
    return best[b]


def test_shortest_circle():
    net = Network()
    for i in range(6):
        net.node("n", i, base=0.0)
    for a, b in ((0, 1), (1, 2), (2, 3), (3, 1), (3, 4), (4, 5)):
        net.edge(a, b, 1.0, loose=(a, b) == (3, 1), owner=f"{a}")
    net.edge(5, 0, 1.0, loose=True)
    assert net.order() is None
    assert [(e.source, e.target) for e in net.circle()] == [(3, 1), (1, 2), (2, 3)]
    graph = nx.DiGraph((e.source, e.target) for edges in net.into for e in edges)
    assert len(min(nx.simple_cycles(graph), key=len)) == 3
