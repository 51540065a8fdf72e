"""Settles the lines of one phase in order and keeps the state before each, so that answers can start in the middle.

In: items, the state at the opening; out: Run. A rule's lines are put in right after the line that sets them off. Parts
that go to an `open` spot are settled after all other lines have shown who stands where.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from generator.model.play import Rule
from generator.model.sentence import Line, Player
from generator.model.settled import AnyAction, HandOff, Pass
from generator.settling.lines import ENDS_WITH, is_open, settle_item
from generator.settling.rules_of_play import fired
from generator.settling.state import Item, Setting, State

_ENDS_POSSESSION = frozenset({"shoot", "pass", "hand-off"})


@dataclass(frozen=True, slots=True)
class Carry:
    """An action of the parent that a read has stopped: it stays in the branch with its key, and moves nobody."""

    action: AnyAction


@dataclass(slots=True)
class Run:
    """The lines of a phase as settled. `before[k]`: the state before item k; `final`: after all, timings bound.
    `made`: action key -> number of its item. `first`: number of the first item that belongs to the answer taken."""

    items: list[Item | Carry]
    before: list[State]
    final: State
    made: dict[str, int] = field(default_factory=dict)
    first: int = 0

    def actions_of(self, number: int) -> list[AnyAction]:
        """The actions of one item."""
        return [self.final.get(k) for k, n in self.made.items() if n == number]


def items_of(lines: tuple[Line, ...], do: str, answer: str | None = None, bound: tuple = (), from_rule: bool = False,
             read: bool = False, looked: frozenset[int] = frozenset()) -> list[Item]:
    """Lines of one `do` as items; `do` names it in the keys of its actions. `read`: a read may come between the parts of
    a line, so that what gives the ball away after a move is an item of its own. `looked`: players who are looked for,
    whose parts are items of their own."""
    group = frozenset(n for line in lines for n in named_in(line))
    pieces = [(f"{do}.{i}" + "+" * k, piece) for i, line in enumerate(lines) for k, piece in enumerate(_cut(line, read, looked))]
    return [Item(piece, slot, answer, from_rule, bound=bound, group=group, looked=looked) for slot, piece in pieces]


def _cut(line: Line, read: bool, looked: frozenset[int]) -> list[Line]:
    if len(line.parts) > 1 and len(line.who) == 1 and isinstance(line.who[0], Player) and line.who[0].number in looked:
        late = tuple(t for t in line.timings if t.relation in ENDS_WITH)
        first = tuple(t for t in line.timings if t.relation not in ENDS_WITH)
        last = len(line.parts) - 1
        return [replace(line, parts=(part,), timings=(first if i == 0 else ()) + (late if i == last else ()))
                for i, part in enumerate(line.parts)]
    return _pieces(line) if read else [line]


def _pieces(line: Line) -> list[Line]:
    """`1 drives off 5 then pulls up`: the drive, and what ends the possession."""
    at = next((i for i, part in enumerate(line.parts) if i and part.verb in _ENDS_POSSESSION), 0)
    if not at:
        return [line]
    late = tuple(t for t in line.timings if t.relation in ENDS_WITH)
    first = tuple(t for t in line.timings if t.relation not in ENDS_WITH)
    return [replace(line, parts=line.parts[:at], timings=first), replace(line, parts=line.parts[at:], timings=late)]


def named_in(line: Line) -> Iterable[int]:
    """Player numbers named in a line, as who or object."""
    for one in (*line.who, *(o for part in line.parts for o in part.objects)):
        if isinstance(one, Player):
            yield one.number


def run_items(items: list[Item | Carry], state: State, setting: Setting, rules: tuple[Rule, ...] = (),
              head: Run | None = None, cut: int = 0) -> Run:
    """Settles items from `state` on. `head`: the run whose first `cut` items lie before them (already in the state)."""
    if not setting.skip_open and _goes_to_open(items, rules):
        setting.taken = _taken_at_the_end(items, state, setting, rules, cut)
    done = list(head.items[:cut]) if head else []
    before = list(head.before[:cut]) if head else []
    made = {k: n for k, n in head.made.items() if n < cut} if head else {}
    queue = list(items)
    while queue:
        item = queue.pop(0)
        before.append(state.copy())
        start = len(state.actions)
        if isinstance(item, Carry):
            _carry(item.action, state)
        else:
            settle_item(item, state, setting, len(done))
        for action in state.actions[start:]:
            made[action.key] = len(done)
        done.append(item)
        if rules and isinstance(item, Item) and not item.from_rule:
            heeded = tuple(r for r in rules if not _of_a_pass(r)) if _for_a_shot(state, start, queue) else rules
            queue[:0] = fired(heeded, state, start, setting, item, len(done))
    before.append(state.copy())
    setting.taken = None
    return Run(done, before, state, made)


def _of_a_pass(rule: Rule) -> bool:
    return rule.when is not None and rule.when.kind in ("pass", "catch")


def _for_a_shot(state: State, start: int, queue: list[Item | Carry]) -> bool:
    """True for a pass whose receiver shoots at once: the play is over, and nobody screens or fills any more."""
    gives = any(isinstance(a, (Pass, HandOff)) for a in state.actions[start:])
    after = next((i for i in queue if isinstance(i, Item) and i.line is not None), None)
    return gives and after is not None and after.line.parts[0].verb == "shoot"


def _carry(action: AnyAction, state: State) -> None:
    if action.key not in state.index:
        state.index[action.key] = len(state.actions)
        state.actions.append(action)


def _goes_to_open(items: list[Item | Carry], rules: tuple[Rule, ...]) -> bool:
    lines = [i.line for i in items if isinstance(i, Item)] + [line for rule in rules for line in rule.lines]
    return any(is_open(place) for line in lines for part in line.parts for place in part.places)


def _taken_at_the_end(items: list[Item | Carry], state: State, setting: Setting, rules: tuple[Rule, ...], cut: int):
    """Where everybody stands when all lines are done that do not go to an `open` spot."""
    setting.skip_open = True
    setting.problems.muted += 1
    broken = set(setting.broken)
    try:
        scratch = run_items(items, state.copy(), setting, rules)
    finally:
        setting.skip_open = False
        setting.problems.muted -= 1
        setting.broken = broken
    return dict(scratch.final.place)


def only(item: Item, players: frozenset[int]) -> Item:
    """The item kept for some of its players."""
    return replace(item, only=players if item.only is None else item.only & players)
