"""An answer taken up in the middle of a phase. In: the run, the site of the read, the answer; out: a new run.

From the read point the answer replaces what its players were doing; the others finish their lines. Ball lines further
down by players the answer does not name stay just above its first ball line; one whose player does not have the ball
then is dropped (language.md 7.4). A player whose first part in the answer is a catch finishes his move before it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from generator.model.play import Answer, Rule, WatchKind
from generator.model.sentence import Everyone, Player, Role
from generator.model.settled import (
    AnyAction,
    Departure,
    HandOff,
    Hold,
    Instant,
    LooseBall,
    Mark,
    Move,
    Pass,
    Screen,
    Shot,
    Stand,
    Trigger,
)
from generator.model.spots import name_place
from generator.settling.bearings import toward
from generator.settling.defence import switch
from generator.settling.doing import VERBS
from generator.settling.moments import goes_on_from
from generator.settling.problems import Mistake
from generator.settling.runs import Carry, Run, items_of, only, run_items
from generator.settling.sites import Site
from generator.settling.state import PLAYERS, Item, Setting, State
from generator.settling.who import find_player, guard_of, is_defender
from generator.vocabulary.entries import Ball

_BALL_VERBS = frozenset(v.id for v in VERBS.values() if v.ball in (Ball.NEEDS, Ball.GIVES))
BESIDE_SCREEN = 0.65  # shoulder to shoulder, timeline.md 1.3
_HOLDS_FULLY = (Pass, HandOff, Shot, LooseBall)


def take_default(site: Site, setting: Setting, rules: tuple[Rule, ...]) -> Run:
    """The main line's run with the lines of `otherwise` in it. Nobody leaves anything at the read point: what his
    players had begun by then is finished. Their lines below that could only begin after it give way, and whatever
    gives the ball away."""
    answer, (mark, cut) = site.default, site.place_of(site.default)
    state = site.run.before[cut].copy()
    acting, catching = named_by(answer, state, setting, site)
    _change_men(site, answer, state, setting)
    event = state.get(mark.action) or site.run.final.get(mark.action)
    after = frozenset({event.player, getattr(event, "receiver", None)}) if event is not None else frozenset(acting)
    found = _found_at_the_rim(site, mark)
    kept, ball_lines, _ = _rest(site.run, cut, frozenset(acting - catching) & after | found, frozenset(acting | catching), after)
    kept = [item for item in kept if isinstance(item, Item)]
    new = _with_answer(site, answer, state, kept, ball_lines, setting, rules, cut)
    if event is not None and site.read.watch.kind is not WatchKind.PLAYERS:  # a pass to the open man flies before he arrives
        _wait_for_the_read(new.final, answer, mark)
    return new


def _wait_for_the_read(state: State, answer: Answer, mark: Mark) -> None:
    """Nobody begins the lines of `otherwise` before the read point."""
    at, begun = state.index.get(mark.action), set()
    for index, action in enumerate(state.actions):
        if action.answer != answer.id or action.player in begun:
            continue
        begun.add(action.player)
        if at is not None and at < index:
            state.change(action.key, triggers=(*action.triggers, Trigger(Hold.THEN, (mark,))))


def take_answer(site: Site, answer: Answer, setting: Setting, rules: tuple[Rule, ...], fork: int,
                known: Mapping[str, int]) -> tuple[Run, Departure]:
    """The phase's run with the answer in it, not yet bound to its timings, and what departs. `known`: keys of the
    parent's actions; no others can be stopped."""
    run = site.run
    mark, cut = site.place_of(answer)
    state = run.before[cut].copy()
    acting, catching = named_by(answer, state, setting, site)
    replaced = frozenset(acting - catching)
    stopped = [a.key for a in state.of_phase() if a.player in replaced and not isinstance(a, _HOLDS_FULLY)]
    stopped = _still_running(state, replaced) + stopped
    state.halted |= {k: True for k in stopped if isinstance(state.get(k), Screen)}
    _stand_at_the_screen(site, state, replaced, answer, setting)
    _change_men(site, answer, state, setting)
    kept, ball_lines, carried = _rest(run, cut, replaced | _found_at_the_rim(site, mark), frozenset(acting | catching))
    kept = [item for item in kept if isinstance(item, Item) or item.action.key in known]
    carried = [key for key in carried if key in known]
    new = _with_answer(site, answer, state, kept, ball_lines, setting, rules, cut)
    mine = tuple(a.key for a in new.final.of_phase() if a.answer == answer.id)
    return new, Departure(fork, tuple(sorted(acting)), tuple(dict.fromkeys(stopped + carried)), mine)


def _found_at_the_rim(site: Site, mark: Mark) -> frozenset[int]:
    """Who is passed to as he comes to the rim, and so does not go on from there."""
    if site.read.watch.kind is not WatchKind.PLAYERS or mark.instant is not Instant.ARRIVE:
        return frozenset()
    return goes_on_from(site.run, mark.action)


def _with_answer(site: Site, answer: Answer, state: State, kept: list, ball_lines: list[Item], setting: Setting,
                 rules: tuple[Rule, ...], cut: int) -> Run:
    """Settles what is kept, the answer, and between them the ball lines that stay: above its first ball line."""
    if site.read.watch.kind is WatchKind.BALL:
        state.ended = None  # the read decides what comes of the shot
        if any(s.coverage == "tip lost" for group in answer.sights for s in group):
            state.give(None, None)
    own = answer_items(answer, site, state.phase)
    first_ball = next((i for i, item in enumerate(own) if _is_ball(item)), len(own))
    later = [item for item in kept if isinstance(item, Item) and steps_in(item)]  # once the ball has left him
    kept = [item for item in kept if item not in later]
    sequence = kept + own[:first_ball] + ball_lines + own[first_ball:] + later
    slots = {item.slot for item in own}
    new = run_items(sequence, state, setting, rules, site.run, cut)
    new.first = min((n for n, i in enumerate(new.items) if isinstance(i, Item) and i.slot in slots), default=len(new.items))
    return new


def answer_items(answer: Answer, site: Site, phase: int) -> list[Item]:
    """The answer's lines; `he` is the reader."""
    bound = tuple(site.item.bound) if site.item else (("he", site.reader),)
    return items_of(answer.lines, f"{phase}a{answer.id}", answer.id, bound)


def named_by(answer: Answer, state: State, setting: Setting, site: Site) -> tuple[set[int], set[int]]:
    """Who acts in the answer, and who of them (or besides) first of all catches."""
    acting: set[int] = set()
    catching: set[int] = set()
    item = Item(answer.lines[0] if answer.lines else None, "", bound=site.item.bound if site.item else ())
    for line in answer.lines:
        for player in _who(line.who, state, setting, item):
            if player not in acting and player not in catching or player in catching:
                acting.add(player)
        for part in line.parts:
            if part.verb in ("pass", "inbound", "tip"):
                catching |= set(_who(part.objects, state, setting, item)) - acting
    return acting, catching


def _who(ones: tuple, state: State, setting: Setting, item: Item) -> list[int]:
    found = []
    for one in ones:
        if isinstance(one, Everyone):
            found += [p for p in PLAYERS if p in state.place]
        elif isinstance(one, Player):
            found.append(one.number)
        elif isinstance(one, Role) or not is_defender(one):
            try:
                found.append(find_player(one, state, setting, item, item.line.source))
            except Mistake:
                continue  # said where the line itself is settled
    return found


def _still_running(state: State, replaced: frozenset[int]) -> list[str]:
    """Last moves of the phase before that may not be over yet."""
    late = []
    for player in sorted(replaced):
        last = state.get(state.last.get(player))
        if isinstance(last, (Move, Screen)) and last.phase == state.phase - 1:
            late.append(last.key)
    return late


def _stand_at_the_screen(site: Site, state: State, replaced: frozenset[int], answer: Answer,
                         setting: Setting) -> None:
    """Read as he reaches the screen: his answer begins there, by the text too."""
    mark, _ = site.place_of(answer)
    if mark.instant is not Instant.USE or site.user is None:
        return
    move = state.get(site.user)
    if move is None or move.player not in replaced:
        return
    use = next((u for u in move.uses if u.screen == site.screen), None)
    if use is not None:
        here = toward(use.at, move.origin, BESIDE_SCREEN)
        state.move(move.player, here, name_place(setting.court, here))


def _change_men(site: Site, answer: Answer, state: State, setting: Setting) -> None:
    """A switch that the answer sees changes whom the two bodies guard from here on."""
    if not any(s.coverage == "switch" for group in answer.sights for s in group):
        return
    screen = state.get(site.screen)
    if screen is None:
        return
    user = state.get(site.user)
    man = user.player if user is not None else (screen.freed[0] if screen.freed else None)
    pair = [guard_of(p, state, setting) for p in (man, screen.player) if p]
    if setting.bodies_follow_men and len(pair) == 2 and None not in pair and pair[0] != pair[1]:
        switch(state, *pair)


def _rest(run: Run, cut: int, replaced: frozenset[int], named: frozenset[int],
          after: frozenset[int] | None = None) -> tuple[list, list[Item], list[str]]:
    """What remains of the lines below: kept in place, ball lines to be moved down, keys of actions stopped. `after`:
    of the main line, the players whose next dribble can only begin after the read."""
    kept: list[Item | Carry] = []
    ball_lines: list[Item] = []
    carried: list[str] = []
    for number in range(cut, len(run.items)):
        item = run.items[number]
        if isinstance(item, Carry):
            kept.append(item)
            carried.append(item.action.key)
            continue
        actions = run.actions_of(number)
        if not actions and steps_in(item):
            kept.append(item)
            continue
        players = {a.player for a in actions}
        begun = after is not None and all(isinstance(a, Move) for a in actions) and not players & after
        gone = players & (named if _is_ball_action(actions) and not begun else replaced)
        stays = frozenset(players - gone)
        for action in actions:
            if action.player in gone:
                kept.append(Carry(action))
                carried.append(action.key)
        if item.from_rule or not stays:
            continue
        if _is_ball_action(actions) and not begun:
            ball_lines.append(replace(only(item, stays), if_ball=True))
        else:
            kept.append(only(item, stays) if gone else item)
    return kept, ball_lines, carried


def _is_ball_action(actions: list[AnyAction]) -> bool:
    return any(isinstance(a, _HOLDS_FULLY) or getattr(a, "with_ball", False) or (isinstance(a, Stand) and a.verb in _BALL_VERBS)
               for a in actions)


def steps_in(item: Item) -> bool:
    """`3 steps in`, the inbounder after his throw."""
    return any(part.verb == "step-in" for part in item.line.parts)


def _is_ball(item: Item) -> bool:
    return any(part.verb in _BALL_VERBS or part.verb in ("tip", "rebound") for part in item.line.parts)
