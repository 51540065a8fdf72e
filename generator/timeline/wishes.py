"""How an action's wishes reach the graph: a later member of a run passes them on to the run's start."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.model.settled import Instant

if TYPE_CHECKING:
    from generator.timeline.schedule import At, Schedule

ON_RELEASE = (Instant.START, Instant.RELEASE)


def wait_for(s: Schedule, key: str, at: At | None, wait: float = 0.0, loose: bool = False) -> None:
    """`key` starts no earlier than `at` + wait; a later member of a run passes the wish on to the run's start."""
    if at is None or key not in s.ready:
        return
    node, offset = s.ready[key]
    s.net.edge(at[0], node, at[1] + wait - offset, loose, key)


def leads(s: Schedule, key: str) -> bool:
    """True for an action that is not a later member of a run."""
    run = s.chains.runs.get(key)
    return run is None or run.key == key
