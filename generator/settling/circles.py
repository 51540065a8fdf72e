"""Finds lines that wait for each other. In: the actions of a phase with their triggers; out: the shortest circle.

Nodes are three moments of an action (begun, under way, over); an edge says that one moment cannot be before another.
Implied edges follow the written order; only triggers can close a circle (timeline.md 3.4).
"""

from __future__ import annotations

from collections import deque

from generator.model.settled import AnyAction, HandOff, Hold, Instant, Move, Pass
from generator.settling.state import Setting, State

_BEGUN, _UNDER_WAY, _OVER = 0, 1, 2
_MOMENT = {
    Instant.START: _BEGUN, Instant.RELEASE: _BEGUN, Instant.HALFWAY: _UNDER_WAY, Instant.USE: _UNDER_WAY,
    Instant.CLEAR: _UNDER_WAY, Instant.SET: _OVER, Instant.ARRIVE: _OVER, Instant.END: _OVER, Instant.CATCH: _OVER,
    Instant.MEET: _OVER,
}
Node = tuple[str, int]


def report_circle(state: State, setting: Setting) -> None:
    """Notes one error for the shortest circle of the running phase."""
    actions = state.of_phase()
    if not any(t.marks for a in actions for t in a.triggers):
        return
    edges, back = _edges(actions, state)
    circles = [path for a, b in back for path in (_way(edges, b, a),) if path]
    if not circles:
        return
    keys = dict.fromkeys(key for key, _ in min(circles, key=len))
    lines = {}
    for action in sorted((state.get(k) for k in keys), key=lambda a: a.source):
        lines.setdefault(action.source, action)
    if not lines:
        return
    named = " and ".join(f"`{a.text}` (line {a.source.line})" for a in lines.values())
    setting.problems.error(next(iter(lines)), "timing-circle", f"these lines wait for each other: {named}",
                           "take the timing off one of them")


def _edges(actions: list[AnyAction], state: State) -> tuple[dict[Node, list[Node]], list[tuple[Node, Node]]]:
    edges: dict[Node, list[Node]] = {}
    back: list[tuple[Node, Node]] = []

    def before(first: Node, second: Node) -> None:
        edges.setdefault(first, []).append(second)
        if state.index[first[0]] > state.index[second[0]]:
            back.append((first, second))

    last: dict[int, Node] = {}
    for action in actions:
        key = action.key
        before((key, _BEGUN), (key, _UNDER_WAY))
        before((key, _UNDER_WAY), (key, _OVER))
        _implied(action, last, before, state)
        for trigger in action.triggers:
            _of_trigger(action, trigger, before, state)
    return edges, back


def _implied(action: AnyAction, last: dict[int, Node], before, state: State) -> None:
    key, player = action.key, action.player
    if player in last:
        before(last[player], (key, _BEGUN))
    last[player] = (key, _BEGUN if isinstance(action, Pass) else _OVER)
    if isinstance(action, (Pass, HandOff)):
        if action.receiver in last:
            before(last[action.receiver], (key, _OVER))
        last[action.receiver] = (key, _OVER)
    if isinstance(action, Move):
        for use in action.uses:
            if use.screen in state.index and state.index[use.screen] >= state.phase_start:
                before((use.screen, _OVER), (key, _UNDER_WAY))
        for user in action.waits_clear:
            if user in state.index and state.index[user] >= state.phase_start:
                before((user, _UNDER_WAY), (key, _BEGUN))


def _of_trigger(action: AnyAction, trigger, before, state: State) -> None:
    own = _OVER if isinstance(action, Pass) and trigger.hold is Hold.AS else _BEGUN
    for mark in trigger.marks:
        if mark.action is None or state.index.get(mark.action, -1) < state.phase_start:
            continue
        event = (mark.action, _MOMENT[mark.instant])
        if trigger.hold is Hold.BEFORE:
            before((action.key, _OVER), event)
        elif trigger.hold is Hold.UNTIL:
            before(event, (action.key, _OVER))
        else:
            before(event, (action.key, own))


def _way(edges: dict[Node, list[Node]], start: Node, goal: Node) -> list[Node] | None:
    """The shortest way from start to goal."""
    came: dict[Node, Node | None] = {start: None}
    queue = deque([start])
    while queue:
        node = queue.popleft()
        if node == goal:
            path = []
            while node is not None:
                path.append(node)
                node = came[node]
            return path
        for following in edges.get(node, ()):
            if following not in came:
                came[following] = node
                queue.append(following)
    return None


