"""Settles one line: who does it, may he, which handler makes the actions. In: Item, State; out: actions in the state.

Every part of a line is done by everyone in its `who`, part after part. A mistake in a line is noted and the line is
left out, but the ball still goes where the line sent it, so that one slip is reported once.
"""

from __future__ import annotations

from collections.abc import Callable

from generator.model.sentence import Line, Part, Player, Relation, Side, SpotPlace, Timing
from generator.model.settled import Stand
from generator.settling import ball, moves, screens, shots
from generator.settling.cues import do_defence
from generator.settling.doing import VERBS, Doing
from generator.settling.meant import meant, said_already
from generator.settling.perimeter import fill_order
from generator.settling.problems import Mistake, mistake, not_yet
from generator.settling.state import Item, Pending, Setting, State
from generator.settling.who import find_player, find_players, holder_words, is_defender
from generator.vocabulary.entries import Ball

HANDLERS: dict[str, Callable[[Doing], None]] = {
    **dict.fromkeys(
        ("cut", "curl", "fade", "flare", "back-cut", "shallow-cut", "dive", "flash", "lift", "drift", "fill", "clear",
         "follow", "trail", "dribble", "dribble-at", "drive", "retreat", "snake", "reject", "slip", "ghost", "roll",
         "short-roll", "pop", "step-out", "close"), moves.do_move),
    "set-up": moves.do_set_up, "fill-up": moves.do_fill_up, "circle": moves.do_fill_up, "exchange": moves.do_exchange,
    "stay": moves.do_stay, "post-up": moves.do_post_up, "seal": moves.do_seal, "face": moves.do_face,
    "step-in": moves.do_step_in,
    "screen": screens.do_screen, "double-screen": screens.do_screen, "elevator-screen": screens.do_screen,
    "stagger": screens.do_screen, "flip": screens.do_again, "re-screen": screens.do_again,
    "pass": ball.do_pass, "inbound": ball.do_inbound, "hand-off": ball.do_hand_off, "keep": ball.do_keep,
    "look-for": ball.do_look, "fake-pass": ball.do_fake, "fake-shot": ball.do_fake, "hold": ball.do_hold,
    "shoot": shots.do_shoot, "miss": shots.do_shoot, "tip": ball.do_loose, "rebound": ball.do_loose,
    "box-out": ball.do_loose, "crash": ball.do_loose,
}
ENDS_WITH = (Relation.BEFORE, Relation.UNTIL)


def settle_item(item: Item, state: State, setting: Setting, number: int) -> None:
    """Settles all parts of a line; its mistakes go to `setting.problems`."""
    try:
        _settle(item, state, setting, number)
    except Mistake as found:
        if not item.if_ball:
            setting.problems.add(found.diagnostic)
            setting.broken.add(item.slot)


def _settle(item: Item, state: State, setting: Setting, number: int) -> None:
    line = item.line
    if line.who and is_defender(line.who[0]):
        do_defence(item, state, setting)
        return
    who = find_players(line.who, state, setting, item, line.source)
    if item.only is not None:
        who = tuple(p for p in who if p in item.only)
    who = _allowed(item, line, who, state, setting)
    for index, part in enumerate(line.parts):
        for player in _in_order(part, who, setting, state):
            key = f"{item.slot}.{player}" + (f".{index}" if len(line.parts) > 1 else "")
            done = meant(part, player, state)
            if index and said_already(done, player, state):
                continue
            doing = Doing(player, done, item, state, setting, key, number, who, index == 0)
            _do(doing, index == len(line.parts) - 1)


def _allowed(item: Item, line: Line, who: tuple[int, ...], state: State, setting: Setting) -> tuple[int, ...]:
    """`everyone` leaves out whoever may not do it: the ball handler when he would have to leave the ball."""
    missing = [p for p in who if p not in state.place]
    if missing:
        raise mistake(line.source, "player-not-there", f"{missing[0]} is not in this play", "place him at the start")
    everyone = any(type(one).__name__ == "Everyone" for one in line.who)
    if everyone and line.parts and VERBS[line.parts[0].verb].ball is Ball.WITHOUT:
        return tuple(p for p in who if p != state.holder and p not in state.out)
    return who


def _in_order(part: Part, who: tuple[int, ...], setting: Setting, state: State) -> tuple[int, ...]:
    if part.verb not in ("fill-up", "lift", "drift") or len(who) < 2:
        return who
    order = fill_order(who, setting.court, state.place)
    return order[::-1] if part.verb == "drift" else order


def _do(doing: Doing, last_part: bool) -> None:
    """Runs the handler of one part for one player and notes its timings."""
    state, part, setting = doing.state, doing.part, doing.setting
    handler = HANDLERS.get(part.verb)
    if handler is None:
        raise not_yet(doing.where, part.text or part.verb)
    if setting_skips_open(doing):
        return
    if part.verb == "step-in" and state.holder == doing.player and _has_looked(doing):
        return  # he steps in once the ball has left him: the answers of his look settle this line (depart.py)
    _may(doing)
    before = len(state.actions)
    if state.ended and part.verb not in ("rebound", "crash", "box-out", "tip") and state.in_air == "shot":
        state.after_shot = True
    handler(doing)
    _note_out(doing)
    if setting.taken is not None and any(is_open(p) for p in part.places):
        setting.taken[doing.player] = state.place[doing.player]
    made = [a.key for a in state.actions[before:]]
    own = [k for k in made if state.get(k).player == doing.player]
    if own:
        _note_timings(doing, own[0], own[-1], last_part)


def _has_looked(doing: Doing) -> bool:
    return any(isinstance(a, Stand) and a.looks and a.player == doing.player for a in doing.state.of_phase())


def setting_skips_open(doing: Doing) -> bool:
    """In the first pass, which finds out who stands where at the end, parts that go to an `open` spot wait."""
    return doing.setting.skip_open and any(is_open(p) for p in doing.part.places)


def is_open(place: object) -> bool:
    """True for `open corner` and the like."""
    return isinstance(place, SpotPlace) and place.side is Side.OPEN


def _note_timings(doing: Doing, first: str, last: str, last_part: bool) -> None:
    for timing in doing.item.line.timings:
        ends = timing.relation in ENDS_WITH
        if (ends and last_part) or (not ends and doing.first):
            named = _named(timing, doing)
            doing.state.pending.append(Pending(last if ends else first, timing, doing.number, doing.item, named))
    if doing.item.cue and doing.first and not _in_same_do(doing, first):
        doing.state.cued.append((first, *doing.item.cue))


def _in_same_do(doing: Doing, first: str) -> bool:
    """True when an earlier line of the same rule is his already: this one follows it."""
    do = doing.item.slot.rsplit(".", 1)[0] + "."
    return any(a.player == doing.player and a.key != first and a.line.startswith(do) and a.line.rsplit(".", 1)[0] != doing.item.slot
               for a in doing.state.of_phase())


def _named(timing: Timing, doing: Doing) -> int | None:
    """The player a timing phrase names, by the roles as they are now."""
    one = timing.one or (timing.event.one if timing.event else None)
    if one is None or is_defender(one):
        return None
    return find_player(one, doing.state, doing.setting, doing.item, doing.line_where)


def _note_out(doing: Doing) -> None:
    """An inbounder without the ball who is sent onto the floor has stepped in."""
    state = doing.state
    if doing.player in state.out and not moves.out_of_bounds(state.name[doing.player]):
        state.out.pop(doing.player)


# -- may he? ---------------------------------------------------------------------------------------------


def _may(doing: Doing) -> None:
    state, part, player = doing.state, doing.part, doing.player
    row = VERBS[part.verb]
    if row.ball in (Ball.NEEDS, Ball.GIVES) and state.holder != player:
        if doing.item.if_ball:
            raise mistake(doing.line_where, "no-ball", "dropped")
        said, hint = f"{player} {_verb_words(doing)}, but {holder_words(state)}", _no_ball_hint(doing)
        _recover(doing)
        raise mistake(doing.line_where, "no-ball", said, hint)
    if row.ball is Ball.WITHOUT and state.holder == player and part.verb != "step-in":
        raise mistake(doing.where, "moves-with-ball", f"{player} has the ball and cannot {row.id.replace('-', ' ')} with it",
                      "use `dribbles` or `drives`, or pass first")
    if part.verb == "step-in" and state.holder == player:
        raise mistake(doing.where, "steps-in-with-ball", f"{player} cannot step in with the ball", "pass it in first")
    if player in state.out and row.ball is Ball.NEEDS and part.verb in ("dribble", "drive", "dribble-at", "shoot"):
        raise mistake(doing.where, "out-of-bounds-dribble", f"{player} is out of bounds and may only pass", "write `passes to`")


def _verb_words(doing: Doing) -> str:
    row = VERBS[doing.part.verb]
    return {"pass": "passes", "hand-off": "hands off", "inbound": "inbounds", "look-for": "looks for teammates"}.get(row.id, f"{row.id}s")


def _no_ball_hint(doing: Doing) -> str:
    holder = doing.state.holder
    if VERBS[doing.part.verb].id in ("dribble", "drive"):
        return f"use `cuts`, or get the ball to {doing.player} first"
    return f"add `{holder} passes to {doing.player}` above, or change the player" if holder else (
        f"add the line that gives {doing.player} the ball")


def _recover(doing: Doing) -> None:
    """After a pass by somebody without the ball the receiver has it, so that the rest of the phase is still read."""
    objects = doing.part.objects
    if VERBS[doing.part.verb].ball is Ball.GIVES and objects and isinstance(objects[0], Player):
        if objects[0].number in doing.state.place:
            doing.state.give(objects[0].number, doing.item.line)
    elif doing.part.verb == "shoot":
        doing.state.ended = "shot"

