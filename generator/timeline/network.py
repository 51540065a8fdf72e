"""The constraint graph of a schedule: instants as nodes, each a max over earlier ones plus constants.

In: nodes and edges. Out: earliest times in one topological sweep, the deciding edge of each node, latest times and
slack in one backward sweep, the shortest circle when there is one (timeline.md 3.3, 3.4, 3.9).
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Mapping
from dataclasses import dataclass

NEVER = float("-inf")


@dataclass(frozen=True, slots=True)
class Edge:
    """`target` is no earlier than `source` + `wait`. `loose`: written by hand (a trigger, `off` with its screen below), so
    it may close a circle. `owner`: key of the action whose line asks for it."""

    source: int
    target: int
    wait: float
    loose: bool = False
    owner: str = ""


class Network:
    """Nodes are small integers; `base` is a node's own earliest time, `fixed` its frozen one."""

    def __init__(self):
        self.names: list[tuple] = []
        self.base: list[float] = []
        self.fixed: list[float | None] = []
        self.into: list[list[Edge]] = []
        self.out: list[list[Edge]] = []
        self.rules: dict[int, tuple[tuple[int, ...], Callable[[list[float]], float]]] = {}
        self.delay: dict[int, float] = {}
        self.times: list[float] = []
        self.decided: list[Edge | None] = []
        self._order: list[int] | None = None

    def node(self, *name, base: float = NEVER) -> int:
        """A new node."""
        self.names.append(name)
        self.base.append(base)
        self.fixed.append(None)
        self.into.append([])
        self.out.append([])
        return len(self.names) - 1

    def edge(self, source: int, target: int, wait: float = 0.0, loose: bool = False, owner: str = "") -> None:
        """target >= source + wait."""
        edge = Edge(source, target, wait, loose, owner)
        self.into[target].append(edge)
        self.out[source].append(edge)
        self._order = None

    def drop(self, edge: Edge) -> None:
        """Take an edge out."""
        self.into[edge.target] = [e for e in self.into[edge.target] if e is not edge]
        self.out[edge.source] = [e for e in self.out[edge.source] if e is not edge]
        self._order = None

    def rule(self, node: int, sources: tuple[int, ...], find: Callable[[list[float]], float]) -> None:
        """A node whose time is no sum: `find(times)` gives it once its sources are known."""
        self.rules[node] = (sources, find)
        for source in sources:
            self.edge(source, node, NEVER)

    def order(self) -> list[int] | None:
        """Nodes so that every edge points forward; None when there is a circle."""
        if self._order is None:
            waiting = [len(edges) for edges in self.into]
            ready = deque(n for n, count in enumerate(waiting) if not count)
            order = []
            while ready:
                node = ready.popleft()
                order.append(node)
                for edge in self.out[node]:
                    waiting[edge.target] -= 1
                    if not waiting[edge.target]:
                        ready.append(edge.target)
            self._order = order if len(order) == len(waiting) else None
            self._left = [n for n, count in enumerate(waiting) if count]
        return self._order

    def circle(self) -> list[Edge]:
        """The shortest circle that holds an edge written by hand, else the shortest; [] when there is none."""
        if self.order() is not None:
            return []
        left = set(self._left)
        best: list[Edge] = []
        for loose in (True, False):
            for node in self._left:
                for edge in self.out[node]:
                    if edge.target in left and edge.loose == loose:
                        found = self._back(edge, left)
                        if found and (not best or len(found) < len(best)):
                            best = found
            if best:
                break
        return best

    def _back(self, edge: Edge, left: set[int]) -> list[Edge]:
        """The shortest way from an edge's target back to its source."""
        came: dict[int, Edge] = {}
        queue = deque([edge.target])
        seen = {edge.target}
        while queue:
            node = queue.popleft()
            if node == edge.source:
                path = [edge]
                while node != edge.target:
                    path.append(came[node])
                    node = came[node].source
                return path[:1] + path[:0:-1]
            for following in self.out[node]:
                if following.target in left and following.target not in seen:
                    seen.add(following.target)
                    came[following.target] = following
                    queue.append(following.target)
        return []

    def sweep(self) -> list[float]:
        """Earliest times of all nodes (timeline.md 3.3)."""
        times = [NEVER] * len(self.names)
        decided: list[Edge | None] = [None] * len(self.names)
        for node in self.order() or ():
            if self.fixed[node] is not None:
                times[node] = self.fixed[node]
                continue
            best, why = self.base[node], None
            for edge in self.into[node]:
                t = times[edge.source] + edge.wait
                if t > best:
                    best, why = t, edge
            if node in self.rules:
                found = self.rules[node][1](times)
                if found >= best:
                    best, why = found, self.into[node][0]
            times[node] = best + self.delay.get(node, 0.0)
            decided[node] = why
        self.times, self.decided = times, decided
        return times

    def solid(self) -> list[Edge]:
        """The edges as plain sums: a rule's edge from its last source carries what it came to."""
        edges = [e for node in self.into for e in node if e.wait != NEVER and self.fixed[e.target] is None]
        for node, (sources, _) in self.rules.items():
            if self.fixed[node] is None:
                source = max(sources, key=lambda s: self.times[s])
                edges.append(Edge(source, node, self.times[node] - self.times[source]))
        return edges

    def latest(self, end: float, tails: Mapping[int, float]) -> list[float]:
        """Latest times that still let the branch end at `end`, delays kept. `tails`: seconds from a node to the last
        instant that hangs on it and must be over by then."""
        latest = [max(end - tails.get(n, 0.0), t) for n, t in enumerate(self.times)]
        backward: dict[int, list[Edge]] = {}
        for edge in self.solid():
            backward.setdefault(edge.source, []).append(edge)
        for node in reversed(self.order() or ()):
            for edge in backward.get(node, ()):
                wait = edge.wait + self.delay.get(edge.target, 0.0)
                latest[node] = min(latest[node], latest[edge.target] - wait)
        return latest

    def free_float(self, node: int) -> float:
        """By how much a node may be later without making any other later, but for how long a screen is held."""
        room = float("inf")
        for edge in self.out[node]:
            if edge.wait == NEVER:
                return 0.0
            spare = self.times[edge.target] - self.times[node] - edge.wait
            if self.names[edge.target][0] == "end":
                spare += self.free_float(edge.target)
            room = min(room, spare)
        return max(0.0, room)
