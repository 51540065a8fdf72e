"""Actions -> deeds: what one player does in a stretch of a branch, catches included, one value each.

In: a branch, a player, the keys of the stretch's actions. Out: `Deed` values in written order, each with what can be
judged on the floor: a kind, with whom, where. Jobs put them into words; questions compare them.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

from generator.model.court import Point
from generator.model.identity import fingerprint
from generator.model.settled import (
    AnyAction,
    Branch,
    HandOff,
    LooseBall,
    Move,
    Pass,
    PlaceName,
    Screen,
    Shot,
    Stand,
)


class DeedKind(Enum):
    """Kinds that a watcher can tell apart."""

    MOVE = "move"
    DRIBBLE = "dribble"
    SCREEN = "screen"
    PASS = "pass"
    HAND_OFF = "hand-off"
    TAKE = "take"  # the ball from hand to hand
    CATCH = "catch"
    SHOOT = "shoot"
    STAND = "stand"
    BOARD = "board"


@dataclass(frozen=True, slots=True)
class Deed:
    """`partner`: whom he screens for, passes to, gets the ball from. `point`: where it ends (metres)."""

    kind: DeedKind
    action: AnyAction
    partner: tuple[int, ...]
    place: PlaceName
    point: Point

    @property
    def print(self) -> str:
        """A digest of what is done: equal for equal deeds whatever the wording, the phase or the lines around it."""
        a = self.action
        return fingerprint(
            self.kind, a.verb, a.kind, self.partner, self.place.spot, self.place.side,
            f"{self.point.x:.1f}", f"{self.point.y:.1f}", tuple(sorted(a.manners)),
            tuple(t.hold for t in a.triggers), tuple((u.screener, u.words) for u in getattr(a, "uses", ())),
            getattr(a, "ways", ()),
        )


def deeds_of(branch: Branch, player: int, keys: Iterable[str]) -> tuple[Deed, ...]:
    """The player's deeds among the actions of those keys, written order."""
    wanted = set(keys)
    found = []
    for action in branch.actions:
        if action.key in wanted:
            deed = _own(action, branch) if action.player == player else _received(action, player, branch)
            if deed is not None:
                found.append(deed)
    return tuple(found)


def _own(action: AnyAction, branch: Branch) -> Deed | None:
    match action:
        case Move():
            kind = DeedKind.DRIBBLE if action.with_ball else DeedKind.MOVE
            return Deed(kind, action, tuple(u.screener for u in action.uses), action.place, action.end)
        case Screen():
            return Deed(DeedKind.SCREEN, action, action.freed, action.place, action.end)
        case Pass():
            return Deed(DeedKind.PASS, action, (action.receiver,), catch_place(action, branch), action.catch_at)
        case HandOff(fake=True):
            return Deed(DeedKind.STAND, action, (action.receiver,), action.place, action.end)
        case HandOff():
            return Deed(DeedKind.HAND_OFF, action, (action.receiver,), action.place, action.end)
        case Shot():
            return Deed(DeedKind.SHOOT, action, (), action.place, action.end)
        case Stand():
            return Deed(DeedKind.STAND, action, action.looks, action.place, action.end)
        case LooseBall():
            return Deed(DeedKind.BOARD, action, (action.receiver,) if action.receiver else (), action.place, action.end)
    return None


def _received(action: AnyAction, player: int, branch: Branch) -> Deed | None:
    match action:
        case Pass(receiver=receiver) if receiver == player:
            return Deed(DeedKind.CATCH, action, (action.player,), catch_place(action, branch), action.catch_at)
        case HandOff(receiver=receiver, fake=False) if receiver == player:
            return Deed(DeedKind.TAKE, action, (action.player,), action.place, action.end)
        case LooseBall(receiver=receiver) if receiver == player:
            return Deed(DeedKind.CATCH, action, (action.player,), action.place, action.end)
    return None


def catch_place(action: Pass, branch: Branch) -> PlaceName:
    """The name of the place where a pass is caught: that of the receiver's move it meets, else of his last move or
    start that ends there, else of anybody's."""
    if action.meets is not None:
        return branch.action(action.meets).place
    first = branch.phases[0]
    above = [a for a in branch.actions[: branch.actions.index(action)] if isinstance(a, Move | Screen | Stand)]
    named = [(a.end, a.place) for a in reversed(above) if a.player == action.receiver]
    named.append((first.plan[action.receiver], first.plan_names[action.receiver]))
    named += [(a.end, a.place) for a in branch.actions if isinstance(a, Move | Screen | Stand)]
    return next((place for end, place in named if end.distance(action.catch_at) < 0.3), named[0][1])


def deeds_print(deeds: Iterable[Deed]) -> str:
    """A digest of several deeds in order."""
    return fingerprint(*(d.print for d in deeds))
