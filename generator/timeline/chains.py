"""Who acts when in written order, and which of his walks are one run (timeline.md 2.7, 3.2).

A walk is an action with a way: a move, a screener's walk, a giver's dribble. A pass or hand-off stands in both
players' order.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.model.settled import AnyAction, Branch, HandOff, Move, Pass, Screen

Walk = Move | Screen | HandOff


@dataclass(frozen=True, slots=True)
class Run:
    """Walks of one player without a stop between them. `through`: for each member the hand-off taken on the run at its
    end, or None."""

    player: int
    members: tuple[Walk, ...]
    through: tuple[HandOff | None, ...]

    @property
    def key(self) -> str:
        """Key of its first member."""
        return self.members[0].key


def participants(action: AnyAction) -> tuple[int, ...]:
    """The players in whose order an action stands."""
    if isinstance(action, (Pass, HandOff)):
        return (action.player, action.receiver)
    return (action.player,)


def is_walk(action: AnyAction, player: int) -> bool:
    """True when `player` goes somewhere by this action."""
    if action.player != player:
        return False
    if isinstance(action, HandOff):
        return action.end != action.origin
    return isinstance(action, (Move, Screen))


class Chains:
    """Each player's actions in written order, his runs, and his place in the chain by action key.

    `own`: an answer's actions, which never run on from the trunk's. `split`: hand-offs that must be stood for.
    """

    def __init__(
        self, branch: Branch, actions: tuple[AnyAction, ...], own: frozenset[str] = frozenset(),
        split: frozenset[str] = frozenset(),
    ):
        self.actions = {a.key: a for a in actions}
        self.order = {a.key: i for i, a in enumerate(actions)}
        self.of: dict[int, list[AnyAction]] = {p: [] for p in branch.start}
        self.index: dict[tuple[str, int], int] = {}
        for action in actions:
            for player in participants(action):
                chain = self.of.setdefault(player, [])
                self.index[action.key, player] = len(chain)
                chain.append(action)
        self.runs: dict[str, Run] = {}  # by key of every member
        for player, chain in self.of.items():
            for run in _runs(player, chain, own, split):
                for member in run.members:
                    self.runs[member.key] = run

    def before(self, key: str, player: int) -> AnyAction | None:
        """The player's action above this one."""
        i = self.index[key, player]
        return self.of[player][i - 1] if i else None


def _runs(player: int, chain: list[AnyAction], own: frozenset[str], split: frozenset[str]) -> list[Run]:
    runs: list[Run] = []
    members: list[Walk] = []
    through: list[HandOff | None] = []

    def close() -> None:
        if members:
            runs.append(Run(player, tuple(members), (*through, None)))
        members.clear()
        through.clear()

    for i, action in enumerate(chain):
        if is_walk(action, player):
            hand_off = _taken_on_the_run(chain, i, player, members)
            if hand_off is not None and hand_off.key in split:
                hand_off = None
            same = bool(members) and (members[-1].key in own) == (action.key in own)
            if same and (hand_off or (chain[i - 1] is members[-1] and _runs_on(members[-1], action))):
                through.append(hand_off)
            else:
                close()
            members.append(action)
    close()
    return runs


def _runs_on(before: Walk, after: Walk) -> bool:
    """Joined by the text, or after a move that does not stop (`sets up, then screens`)."""
    through = isinstance(before, Move) and before.no_stop and before.phase == after.phase and not after.triggers
    return after.joined or (through and not isinstance(after, HandOff))


def _taken_on_the_run(chain: list[AnyAction], i: int, player: int, members: list[Walk]) -> HandOff | None:
    """The hand-off just above chain[i] when the receiver runs through it into chain[i]."""
    before, after = chain[i - 1] if i else None, chain[i]
    if not isinstance(before, HandOff) or before.fake or before.receiver != player or not members:
        return None
    first = members[-1]
    runs_on = isinstance(first, Move) and first.key == before.receiver_move and (first.no_stop or after.joined)
    free = after.phase == first.phase and not after.triggers and not isinstance(after, HandOff)
    return before if runs_on and free else None
