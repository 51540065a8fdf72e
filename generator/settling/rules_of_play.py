"""A play's `rules`: what happens each time an event happens. In: the actions just made; out: the rule's lines as items.

`anyone` in the event binds `he`. The lines start as the event happens. A rule does not set itself off, nor do lines
that a rule has made.
"""

from __future__ import annotations

from generator.diagnostics import Diagnostic, error
from generator.model.court import Point
from generator.model.play import Rule
from generator.model.sentence import Event, Everyone, Role
from generator.model.settled import AnyAction, Instant, Mark, Move, Pass
from generator.model.spots import other_side, side_of
from generator.settling.events import AT_HIM, changes_sides, instant_of, reaches
from generator.settling.problems import Mistake
from generator.settling.state import Item, Setting, State
from generator.settling.who import find_player
from generator.settling.words import say_event

_OF_DEFENDERS = frozenset({"denied", "trapped"})  # what only a defender makes happen


def fired(rules: tuple[Rule, ...], state: State, start: int, setting: Setting, item: Item, count: int) -> list[Item]:
    """Items of all rules that the actions from index `start` on set off."""
    from generator.settling.runs import items_of

    made: list[Item] = []
    for number, rule in enumerate(rules):
        if rule.read is not None or rule.when is None:
            continue
        if rule.when.kind in _OF_DEFENDERS:
            setting.problems.add(_by_a_read(rule))
            continue
        for action in state.actions[start:]:
            happened = _happens(rule.when, action, state, setting, item)
            if happened is None:
                continue
            mark, he = happened
            do = f"{state.phase}r{number}-{count}-{len(made)}"
            bound = (("he", he), ("anyone", he)) if he else ()
            words = f"as {say_event(rule.when, he)}"
            lines = items_of(rule.lines, do, item.answer, bound, from_rule=True)
            made.extend(_cued(line, mark, words) for line in lines)
    return made


def _by_a_read(rule: Rule) -> Diagnostic:
    return error(rule.source, "not-yet", f"a rule cannot begin as somebody {say_event(rule.when, None).split(' ', 1)[-1]}",
                 "make it a read: `who: anyone one pass away`, `watch: his defender`, `answers: {deny: ..., otherwise: go on}`")


def _cued(item: Item, mark: Mark, words: str) -> Item:
    from dataclasses import replace

    return replace(item, cue=(mark, words))


def _happens(event: Event, action: AnyAction, state: State, setting: Setting, item: Item) -> tuple[Mark, int | None] | None:
    anyone = isinstance(event.one, Everyone) or (isinstance(event.one, Role) and event.one.name.startswith("anyone"))
    player = None
    if event.one is not None and not anyone:
        try:
            player = find_player(event.one, state, setting, item, action.source)
        except Mistake:
            return None
    if event.kind == "dribbled-at":
        return _dribbled_at(action, player, state)
    if event.kind == "changes-sides":
        mark = changes_sides(action)
        return (mark, None) if mark and _side_before(action, state) == other_side(side_of(_ball_end(action))) else None
    if event.kind == "reach":
        mark = reaches(action, event, state, setting, item, action.source, action.player if anyone else player)
        return (mark, action.player) if mark else None
    instant = instant_of(action, event.kind, player, None)
    if instant is None:
        return None
    he = getattr(action, "receiver", None) if event.kind == "catch" else action.player
    return Mark(action.key, instant), he


def _ball_end(action: AnyAction) -> Point:
    return action.catch_at if isinstance(action, Pass) else action.end


def _side_before(action: AnyAction, state: State) -> str:
    """The half the ball last had before this action."""
    if side_of(action.origin):
        return side_of(action.origin)
    above = state.actions[: state.index[action.key]]
    ball = (a for a in reversed(above) if isinstance(a, Pass) or isinstance(a, Move) and a.with_ball)
    return next((s for a in ball for s in (side_of(_ball_end(a)), side_of(a.origin)) if s), "")


def _dribbled_at(action: AnyAction, player: int | None, state: State) -> tuple[Mark, int] | None:
    """The one whom the dribbler comes to within two steps."""
    if not isinstance(action, Move) or action.verb != "dribble-at":
        return None
    near = [p for p, at in state.place.items() if p != action.player and at.distance(action.end) < AT_HIM]
    he = min(near, key=lambda p: state.place[p].distance(action.end), default=None)
    return (Mark(action.key, Instant.START), he) if he is not None and player in (None, he) else None
