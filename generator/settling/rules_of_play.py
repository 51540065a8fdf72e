"""A play's `rules`: what happens each time an event happens. In: the actions just made; out: the rule's lines as items.

`anyone` in the event binds `he`. The lines start as the event happens. A rule does not set itself off, nor do lines
that a rule has made.
"""

from __future__ import annotations

from generator.model.play import Rule
from generator.model.sentence import Event, Everyone, Role
from generator.model.settled import AnyAction, Mark
from generator.settling.events import instant_of
from generator.settling.problems import Mistake
from generator.settling.state import Item, Setting, State
from generator.settling.who import find_player
from generator.settling.words import say_event


def fired(rules: tuple[Rule, ...], state: State, start: int, setting: Setting, item: Item, count: int) -> list[Item]:
    """Items of all rules that the actions from index `start` on set off."""
    from generator.settling.runs import items_of

    made: list[Item] = []
    for number, rule in enumerate(rules):
        if rule.read is not None or rule.when is None:
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
    other = None
    instant = instant_of(action, event.kind, player, other)
    if instant is None:
        return None
    he = getattr(action, "receiver", None) if event.kind == "catch" else action.player
    return Mark(action.key, instant), he
