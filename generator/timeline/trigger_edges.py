"""Edges of the timing words, and of default answers that begin at their read (language.md 8.3, timeline.md 3.3)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.model.play import WatchKind
from generator.model.settled import AnyAction, Fork, Hold, Instant, Mark, Move, Pass, Trigger
from generator.timeline.ball_edges import flight_to
from generator.timeline.wishes import ON_RELEASE, leads, wait_for

if TYPE_CHECKING:
    from generator.timeline.schedule import Schedule


def trigger_edges(s: Schedule, action: AnyAction, trigger: Trigger) -> None:
    """Edges of one timing phrase; `before` and `at once` bind nothing, they are looked at afterwards."""
    key, hold = action.key, trigger.hold
    if hold is Hold.AT_CLOCK or (hold is Hold.UNTIL and trigger.seconds is not None):
        if s.branch.clock is not None and trigger.seconds is not None:
            node, offset = s.ready[key] if hold is Hold.AT_CLOCK else s.at[key][Instant.END]
            s.net.base[node] = max(s.net.base[node], s.branch.clock - trigger.seconds - offset)
        return
    for mark in trigger.marks:
        at = s.mark(mark, hold)
        if at is None or hold in (Hold.BEFORE, Hold.AT_ONCE):
            continue
        if hold is Hold.UNTIL:
            s.net.edge(at[0], s.at[key][Instant.END][0], at[1], True, key)
        elif hold is Hold.WITH:
            _together(s, key, mark)
        elif hold is Hold.AS and isinstance(action, Pass) and mark.instant not in ON_RELEASE:
            flight = flight_to(s, action, s.courses.place_before(key, action.receiver))
            wait_for(s, key, at, -flight, True)
        else:
            wait_for(s, key, at, s.pace.after if hold is Hold.AFTER else 0.0, hold is not Hold.THEN)


def default_edges(s: Schedule, fork: Fork) -> None:
    """The lines of a default answer begin at the read and not before; a pass that is the last of several looks begins
    when the others have been looked at."""
    mine = [a for a in s.actions if a.answer == fork.taken and a.phase == fork.phase and a.key not in s.past_cut]
    if not mine:
        return
    first = s.chains.order[mine[0].key]
    if fork.read.watch.kind is WatchKind.PLAYERS:
        _look_edges(s, fork, mine[0], first)
    elif fork.point.action is not None and s.chains.order.get(fork.point.action, first) < first:
        for action in mine:
            if leads(s, action.key):
                wait_for(s, action.key, s.mark(fork.point, screen=fork.screen), loose=True)


def _look_edges(s: Schedule, fork: Fork, default: AnyAction, first: int) -> None:
    """Everybody looked at before has arrived, less the flight of the pass he would have got."""
    receiver = default.receiver if isinstance(default, Pass) else None
    for action in s.actions:
        looked = isinstance(action, Move) and action.phase == fork.phase and action.player in fork.watched
        if looked and action.player != receiver and s.chains.order[action.key] < first:
            flight = 0.0 if receiver is None else flight_to(s, default, action.end)
            wait_for(s, default.key, s.at[action.key].get(Instant.END), -flight, loose=True)


def _together(s: Schedule, key: str, mark: Mark) -> None:
    """Each of the two starts no earlier than the other is ready."""
    other = mark.action
    if other not in s.ready:
        wait_for(s, key, s.mark(mark), loose=True)
        return
    (mine, my_offset), (theirs, their_offset) = s.ready[key], s.ready[other]
    s.net.edge(theirs, s.start[key], their_offset - my_offset, True, key)
    s.net.edge(mine, s.start[other], my_offset - their_offset, True, key)
