"""Ties timing phrases to the actions they speak of. In: the pending phrases of a phase; out: triggers in its actions.

An event means the nearest such line above, in the same `do` or earlier in the branch, else the only one below
(language.md 8.4).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from itertools import pairwise

from generator.diagnostics import Location
from generator.model.court import Point
from generator.model.sentence import Event, Player, Relation
from generator.model.settled import (
    AnyAction,
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
from generator.model.spots import side_of
from generator.settling.places import find_place
from generator.settling.problems import Mistake, mistake
from generator.settling.routes import passes_near
from generator.settling.screen_marks import at_one_screen
from generator.settling.state import Item, Pending, Setting, State
from generator.settling.words import say_event, say_timing
from generator.vocabulary.events import FIRST_STEPS

_HOLDS = {
    Relation.AS: Hold.AS, Relation.ON: Hold.AS, Relation.AFTER: Hold.AFTER, Relation.BEFORE: Hold.BEFORE,
    Relation.UNTIL: Hold.UNTIL, Relation.WITH: Hold.WITH, Relation.THEN: Hold.THEN, Relation.AT_ONCE: Hold.AT_ONCE,
    Relation.AT_CLOCK: Hold.AT_CLOCK,
}
AT_HIM = 1.2  # metres between a player and the end of the dribble that comes at him
PAST_GIVER = 0.3  # seconds from the first step to 0.6 m past the giver of a hand-off
_BY_VERB = {  # event -> verbs whose first step it is
    "dribble": ("dribble", "dribble-at", "retreat", "snake"), "drive": ("drive",), "roll": ("roll", "short-roll"),
    "pop": ("pop", "step-out"), "slip": ("slip",),
}
_ON = {  # `on the pass`: the event of the last such ball line above
    "pass": "pass", "catch": "catch", "drive": "drive", "hand-off": "hand-off", "shot": "shoot", "rebound": "rebound",
    "tip": "tipped", "reversal": "changes-sides",
}


def instant_of(action: AnyAction, kind: str, player: int | None, other: int | None = None) -> Instant | None:
    """The instant of `action` at which the event happens; None: it is no such action. `player` None: anybody."""
    his = player is None or action.player == player
    to_him = player is None or getattr(action, "receiver", None) == player
    if isinstance(action, Pass):
        return {"catch": Instant.CATCH if to_him else None, "pass": Instant.RELEASE if his else None}.get(kind)
    if isinstance(action, HandOff):
        return _of_hand_off(action, kind, his, to_him)
    if isinstance(action, LooseBall):
        return _of_loose(action, kind, his, to_him)
    if not his:
        return None
    if isinstance(action, Move):
        return _of_move(action, kind, other)
    if isinstance(action, Screen):
        return {"set": Instant.SET, "arrive": Instant.ARRIVE, "leave": Instant.START}.get(kind)
    if isinstance(action, Shot):
        return {"shoot": Instant.RELEASE, "rim": Instant.END}.get(kind)
    return Instant.START if isinstance(action, Stand) and kind in ("seal", "post-up") and action.verb == kind else None


def _of_hand_off(action: HandOff, kind: str, his: bool, to_him: bool) -> Instant | None:
    if action.fake:
        return Instant.MEET if kind == "hand-off" and his else None
    return {"catch": Instant.CATCH if to_him else None, "hand-off": Instant.MEET if his else None,
            "arrive": Instant.ARRIVE if his and action.end != action.origin else None}.get(kind)


def _of_loose(action: LooseBall, kind: str, his: bool, to_him: bool) -> Instant | None:
    if action.verb == "tip" and (kind == "tipped" or kind == "tip" and his):
        return Instant.RELEASE
    if kind in ("rebound", "catch") and action.verb == "rebound" and his:
        return Instant.CATCH
    return Instant.CATCH if kind == "catch" and action.verb == "tip" and to_him else None


def _of_move(action: Move, kind: str, other: int | None) -> Instant | None:
    if kind in ("clear", "turn-corner", "use"):
        used = [u for u in action.uses if other is None or u.screener == other]
        if kind == "use":
            return Instant.USE if used else None
        if used and (kind == "clear" or action.with_ball):
            return Instant.CLEAR
        return Instant.START if kind == "clear" and action.verb == "clear" and other is None else None
    if kind == "cut":
        return None if action.with_ball else Instant.START
    if kind == "dribbled-at":
        return None
    if kind in _BY_VERB:
        return Instant.START if action.verb in _BY_VERB[kind] else None
    if kind in FIRST_STEPS:
        return Instant.START if kind in (action.verb, action.kind) else None
    if kind == "pick-up":
        return Instant.END if action.with_ball else None
    return {"arrive": Instant.ARRIVE, "leave": Instant.START, "halfway": Instant.HALFWAY, "seal": None}.get(kind)


# -- finding ---------------------------------------------------------------------------------------------


def find_event(event: Event, state: State, setting: Setting, item: Item, where: Location, at: int,
               player: int | None, leave_out: frozenset[str] = frozenset()) -> Mark:
    """The instant meant. `at`: index in `state.actions` from which above and below count; `leave_out`: actions that
    a read has stopped."""
    found = list(_candidates(event, state, setting, item, where, player, leave_out))
    if not found and event.kind in FIRST_STEPS:  # another word for a run of his
        found = list(_candidates(replace(event, kind="cut"), state, setting, item, where, player, leave_out))
    above = [f for f in found if f[0] < at]
    below = [f for f in found if f[0] > at]
    if above:
        return above[-1][1]
    words = say_event(event, player)
    if not below:
        raise mistake(where, "unknown-event", f"`{words}` never happens here", _never_hint(event, player))
    lines = list(dict.fromkeys(state.actions[f[0]].line.rsplit(".", 1)[0] for f in below))
    if len(lines) > 1:
        first, second = (next(state.actions[f[0]] for f in below if state.actions[f[0]].line.startswith(x + ".")) for x in lines[:2])
        raise mistake(where, "two-events", f"`{words}` happens twice below: `{first.text}` (line {first.source.line}) and "
                      f"`{second.text}` (line {second.source.line})", "put this line below the one you mean")
    return below[0][1]


def _never_hint(event: Event, player: int | None) -> str:
    if event.kind == "catch" and player is not None:
        return f"add a pass to {player}, or name another event"
    return "name something that a line of this play does"


def _candidates(event: Event, state: State, setting: Setting, item: Item, where: Location, player: int | None,
                leave_out: frozenset[str]) -> Iterable[tuple[int, Mark]]:
    if event.kind == "tossed":
        yield -1, Mark(None, phase=0)
        return
    if event.kind in ("denied", "trapped"):
        yield from _by_cue(event.kind, state, player)
        return
    other = None
    if event.other is not None:
        from generator.settling.who import find_player

        other = find_player(event.other, state, setting, item, where)
    for i, action in enumerate(state.actions):
        if action.key in leave_out:
            continue
        if event.kind == "reach":
            mark = reaches(action, event, state, setting, item, where, player)
        elif event.kind == "changes-sides":
            mark = changes_sides(action)
        elif event.kind == "dribbled-at":
            mark = _dribbled_at(action, player, state)
        else:
            instant = instant_of(action, event.kind, player, other)
            mark = Mark(action.key, instant) if instant else _past_the_giver(action, event.kind, player, other, state, i)
        if mark is not None:
            yield i, mark


def _past_the_giver(action: AnyAction, kind: str, player: int | None, other: int | None, state: State, at: int) -> Mark | None:
    """`2 turns the corner` or `2 clears 5` after a hand-off: he is past the giver."""
    if kind not in ("clear", "turn-corner") or not isinstance(action, Move) or not action.with_ball or action.player != player:
        return None
    caught = next((a for a in reversed(state.actions[:at]) if isinstance(a, HandOff) and a.receiver == player), None)
    if caught is None or caught.phase != action.phase or other not in (None, caught.player):
        return None
    return Mark(action.key, Instant.START, PAST_GIVER)


def _by_cue(kind: str, state: State, player: int | None) -> Iterable[tuple[int, Mark]]:
    word = {"denied": "deny", "trapped": "trap"}[kind]
    for cue in state.cues:
        if cue.coverage == word and player in (cue.other, state.guards.get(cue.defender)):
            yield -1, cue.begins


def reaches(action: AnyAction, event: Event, state: State, setting: Setting, item: Item, where: Location,
             player: int | None) -> Mark | None:
    """The instant at which his way comes to the place of the event."""
    if action.player != player or not isinstance(action, (Move, HandOff)):
        return None
    point = find_place(event.place, player, state, setting, item, where)[0]
    if action.end.distance(point) < 1.0:
        return Mark(action.key, Instant.ARRIVE)
    legs = (action.origin, *getattr(action, "via", ()), action.end)
    if any(passes_near(a, b, point, 1.5) for a, b in pairwise(legs)):
        return Mark(action.key, Instant.ARRIVE, at=point)
    return None


def changes_sides(action: AnyAction) -> Mark | None:
    """The instant at which the ball comes to the other half by this action."""
    if isinstance(action, Pass):
        start, end, instant = action.origin, action.catch_at, Instant.CATCH
    elif isinstance(action, Move) and action.with_ball:
        start, end, instant = action.origin, action.end, Instant.ARRIVE
    else:
        return None
    sides = {side_of(start), side_of(end)}
    return Mark(action.key, instant) if len(sides) == 2 and side_of(end) else None


def _dribbled_at(action: AnyAction, player: int | None, state: State) -> Mark | None:
    if not isinstance(action, Move) or action.verb != "dribble-at" or player is None:
        return None
    near = min(action.end.distance(state.place[player]), action.end.distance(state.opening.get(player, Point(0, -9)))) < AT_HIM
    return Mark(action.key, Instant.START) if near else None


# -- binding ---------------------------------------------------------------------------------------------


def bind_timings(state: State, setting: Setting, strict: bool, stopped: frozenset[str] = frozenset()) -> None:
    """Turns the pending phrases into triggers. Not `strict` (after a departure): a phrase whose event is gone falls."""
    for pending in state.pending:
        try:
            trigger = _trigger(pending, state, setting, stopped)
        except Mistake as found:
            if strict or pending.item.answer is not None:
                setting.problems.add(found.diagnostic)
            continue
        if pending.key.startswith("cue:"):
            _begin_cue(pending.key, trigger, state)
        elif pending.key in state.index:
            state.change(pending.key, triggers=(*state.get(pending.key).triggers, trigger))
    for key, mark, words in state.cued:
        if key in state.index and (mark.action is None or mark.action in state.index):
            state.change(key, triggers=(Trigger(Hold.AS, (mark,), words=words), *state.get(key).triggers))
    state.pending.clear()
    state.cued.clear()


def _begin_cue(key: str, trigger: Trigger, state: State) -> None:
    number = int(key.split(":")[1])
    if trigger.marks:
        state.cues[number] = replace(state.cues[number], begins=trigger.marks[0])


def _trigger(pending: Pending, state: State, setting: Setting, stopped: frozenset[str]) -> Trigger:
    timing, where = pending.timing, pending.item.line.source
    hold, words = _HOLDS[timing.relation], say_timing(timing, pending.player)
    at = state.index.get(pending.key, len(state.actions))
    if timing.relation is Relation.AT_ONCE:
        return Trigger(hold, (Mark(None, phase=state.phase),), words=words)
    if timing.relation is Relation.THEN:
        return Trigger(hold, _all_above(pending, state, at), words=words)
    if timing.relation is Relation.AT_CLOCK or (timing.event and timing.event.kind == "clock"):
        return _by_clock(hold, timing.seconds if timing.event is None else timing.event.seconds, setting, where, words)
    if timing.relation is Relation.WITH:
        return Trigger(hold, (_with(pending.player, state, at, where),), words=words)
    event = timing.event
    if timing.relation is Relation.ON:
        event = Event(_ON.get(event.kind, event.kind))
        return Trigger(hold, (_last_ball_line(event, state, setting, pending.item, where, at, stopped),), words=words)
    mark = find_event(event, state, setting, pending.item, where, at, pending.player, stopped)
    other = event.other.number if isinstance(event.other, Player) else None
    return Trigger(hold, (at_one_screen(mark, state, other, getattr(state.get(pending.key), "player", None)),), words=words)


def _by_clock(hold: Hold, seconds: float | None, setting: Setting, where: Location, words: str) -> Trigger:
    if setting.play.clock is None:
        raise mistake(where, "no-clock", f"`{words}` needs a clock", "write `clock: 12 s` in the play")
    return Trigger(Hold.AT_CLOCK if hold is Hold.AS else hold, (), seconds, words)


def _all_above(pending: Pending, state: State, at: int) -> tuple[Mark, ...]:
    """The ends of all lines above in the same `do`; a screen that is used from here on has only to be set."""
    own = state.get(pending.key)
    above = (a for a in state.actions[state.phase_start:at] if a.answer == own.answer and a.line != own.line)
    later = {a.key for a in state.actions[at:]}
    return tuple(Mark(a.key, Instant.SET if isinstance(a, Screen) and later & {*a.users} else Instant.END) for a in above)


def _with(player: int | None, state: State, at: int, where: Location) -> Mark:
    near = [(i, a) for i, a in enumerate(state.actions) if a.player == player and i >= state.phase_start]
    above = [a for i, a in near if i < at]
    below = [a for i, a in near if i > at]
    if not above and not below:
        raise mistake(where, "unknown-event", f"{player} does nothing in this phase to start together with",
                      "name a player who has a line in this phase")
    return Mark((above[-1] if above else below[0]).key, Instant.START)


def _last_ball_line(event: Event, state: State, setting: Setting, item: Item, where: Location, at: int,
                    stopped: frozenset[str]) -> Mark:
    above = [m for i, m in _candidates(event, state, setting, item, where, None, stopped) if i < at]
    if not above:
        raise mistake(where, "unknown-event", f"there is no {event.kind} above this line", "put the line below that ball line")
    return above[-1]
