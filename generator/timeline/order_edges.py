"""Edges of a player's own order, of his phase, and of the screens he uses or has set (timeline.md 3.2, 3.3)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.model.settled import AnyAction, HandOff, Hold, Instant, LooseBall, Move, Pass, Screen
from generator.timeline.ball_edges import hand_off_edges, loose_ball_edges, pass_edges
from generator.timeline.wishes import leads, wait_for

if TYPE_CHECKING:
    from generator.timeline.schedule import Schedule


def order_edges(s: Schedule, action: AnyAction) -> None:
    """Phase opening and the player's own order; joined members have neither."""
    key = action.key
    if leads(s, key):
        wait_for(s, key, (s.opens[action.phase], 0.0))
        for node, wait, kind in s.free[action.player]:
            pivot = s.pace.pivot if kind == "pass" and isinstance(action, Pass) else 0.0
            wait_for(s, key, (node, wait + pivot))
    above = s.chains.before(key, action.player)
    if isinstance(above, Screen):
        s.screens_left[above.key] = action


def kind_edges(s: Schedule, action: AnyAction) -> None:
    """Edges by kind of action; leaves in `free` what the player's next action waits for."""
    key = action.key
    if isinstance(action, Move):
        _move_edges(s, action)
    elif isinstance(action, Pass):
        pass_edges(s, action)
        return
    elif isinstance(action, HandOff):
        hand_off_edges(s, action)
        return
    elif isinstance(action, LooseBall):
        loose_ball_edges(s, action)
    s.free[action.player] = [(*s.at[key][Instant.END], "")]


def _move_edges(s: Schedule, action: Move) -> None:
    """Screens used and screens the mover himself has set (timeline.md 3.3: screen use, screen hold)."""
    at_once = any(t.hold is Hold.AT_ONCE for t in action.triggers)
    course = s.courses.of(action.key)
    i = course.index(action.key)
    by_screen = {u.screen: u for u in course.uses[i] if u.screen}
    for use in action.uses:
        if use.screen not in s.at or not use.needs_set or at_once or use.screen not in by_screen:
            continue
        t_use = 0.0 if s.pace.wait_until_set else course.map.time_at(by_screen[use.screen].s_use)
        loose = s.chains.order[use.screen] > s.chains.order[action.key]
        run_start = s.ready[action.key][0]
        node, wait = s.at[use.screen][Instant.SET]
        s.net.edge(node, run_start, wait - t_use, loose, action.key)
    for key in action.waits_clear:
        if s.has(key):
            own = next((u.screen for u in s.chains.actions[key].uses if u.screener == action.player), None)
            cleared = own and s.use_of(key, own, Instant.CLEAR) or s.at[key].get(Instant.CLEAR) or s.at[key][Instant.END]
            wait_for(s, action.key, cleared, loose=s.chains.order[key] > s.chains.order[action.key])
    if action.waits_set is not None and s.has(action.waits_set):
        wait_for(s, action.key, s.at[action.waits_set].get(Instant.SET))
