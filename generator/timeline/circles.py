"""Lines that wait for each other in a circle: named, then one wish is dropped so that the rest still computes."""

from __future__ import annotations

from generator.diagnostics import Diagnostic, error
from generator.model.settled import HandOff
from generator.timeline.network import Edge
from generator.timeline.schedule import Schedule


def break_circles(s: Schedule) -> tuple[tuple[Diagnostic, ...], frozenset[str]]:
    """(errors, hand-offs that cannot be taken on the run) and a network without circles."""
    said: list[Diagnostic] = []
    standing: set[str] = set()
    while True:
        circle = s.net.circle()
        if not circle:
            return tuple(dict.fromkeys(said)), frozenset(standing)
        soft = [e for e in circle if isinstance(s.chains.actions.get(e.owner), HandOff) and not e.loose]
        if soft:
            standing.update(e.owner for e in soft)
            for edge in soft:
                s.net.drop(edge)
            continue
        said.append(_error(s, circle))
        loose = [e for e in circle if e.loose] or circle
        s.net.drop(max(loose, key=lambda e: s.chains.order.get(e.owner, -1)))


def _error(s: Schedule, circle: list[Edge]) -> Diagnostic:
    keys = {e.owner for e in circle if e.loose and e.owner} or {e.owner for e in circle if e.owner in s.chains.actions}
    actions = sorted((s.chains.actions[k] for k in keys), key=lambda a: s.chains.order[a.key])
    lines = " and ".join(f'"{a.text}" (line {a.source.line})' for a in actions)
    first = actions[0]
    if len(actions) == 1:
        message = f"{lines} waits for something that waits for this line"
    else:
        message = f"{lines} wait for each other"
    return error(first.source, "timing-circle", message, "take one of the timing words out, or tie it to an earlier line")
