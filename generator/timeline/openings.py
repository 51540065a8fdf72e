"""When a phase opens (language.md 8.2) and how long a screen is held (timeline.md 3.3)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.model.play import WatchKind
from generator.model.settled import AnyAction, HandOff, Instant, Move, Pass, Screen, Shot, Stand

if TYPE_CHECKING:
    from generator.timeline.schedule import Schedule


HOLDING = frozenset({"hold", "fake-pass", "fake-shot"})  # stands of whoever has the ball


def opening_edges(s: Schedule) -> None:
    """Edges into every phase's opening, and from every use to what its screener does next."""
    for screen in s.actions:
        if isinstance(screen, Screen) and screen.key not in s.past_cut:
            _hold_edges(s, screen)
    for k in range(1, len(s.branch.phases)):
        s.net.edge(s.opens[k - 1], s.opens[k])
        mark = s.branch.phases[k].opening
        at = s.mark(mark) if mark is not None else None
        if at is not None:
            s.net.edge(at[0], s.opens[k], at[1], True)
            continue
        for node, wait in _done(s, k - 1):
            s.net.edge(node, s.opens[k], wait)
        _looked(s, k)


def _looked(s: Schedule, k: int) -> None:
    """A look at teammates is a ball line too: it is done when the last of them has been looked at. Only where the ball
    handler of phase k has looked and kept the ball: an answer's pass is a ball line of its own."""
    for fork in s.branch.forks:
        if fork.phase != k - 1 or fork.read.watch.kind is not WatchKind.PLAYERS or fork.answer.lines:
            continue
        if s.branch.phases[k].holder == fork.reader:
            at = s.mark(fork.point)
            if at is not None:
                s.net.edge(at[0], s.opens[k], at[1], True)


def _hold_edges(s: Schedule, screen: Screen) -> None:
    """The screener's next act waits for the users written above it."""
    following = s.screens_left.get(screen.key)
    order = s.chains.order
    for user in screen.users:
        if user not in s.at:
            continue
        if following is not None and order[user] > order[following.key]:
            continue
        used = s.use_of(user, screen.key, Instant.USE) or s.at[user].get(Instant.USE) or s.at[user][Instant.END]
        s.net.edge(used[0], s.at[screen.key][Instant.END][0], used[1] + s.pace.screen_hold)


def is_ball_line(action: AnyAction) -> bool:
    """Pass, dribble, hand-off, shot; also a wait by whoever holds the ball for a stated time."""
    if isinstance(action, (Pass, HandOff, Shot)):
        return True
    if isinstance(action, Stand):
        return action.verb in HOLDING
    return isinstance(action, Move) and action.with_ball


def _done(s: Schedule, phase: int) -> list[tuple[int, float]]:
    """Ball lines done and screens used (set, if their user comes later); else the moves' ends."""
    actions = [a for a in s.actions if a.phase == phase]
    done = [s.at[a.key][Instant.END] for a in actions if is_ball_line(a)]
    for screen in actions:
        if not isinstance(screen, Screen) or screen.key in s.past_cut:
            continue
        users = [u for u in screen.users if u in s.at and s.chains.actions[u].phase == phase]
        for user in users:
            done.append(s.use_of(user, screen.key, Instant.USE) or s.at[user][Instant.END])
        if not users:
            done.append(s.at[screen.key][Instant.SET])
    return done or [s.at[a.key][Instant.END] for a in actions]
