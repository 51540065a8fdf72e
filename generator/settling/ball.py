"""Verbs of the ball: passes, hand-offs, looks, shots, loose balls. In: Doing; out: actions, and who has the ball.

Possession is settled in written order: an N or G verb by anybody else is refused with the line that gave the ball away.
"""

from __future__ import annotations

import re

from generator.diagnostics import Location
from generator.model.court import Point
from generator.model.sentence import Off, One, Player, Role
from generator.model.settled import HandOff, LooseBall, Move, Pass, PassKind, PlaceName
from generator.model.spots import rim_point
from generator.settling.bearings import off_spot, toward
from generator.settling.doing import Doing, effort_of
from generator.settling.ends import find_end
from generator.settling.moves import do_stand, stop_at_lane_edge
from generator.settling.places import Found
from generator.settling.problems import mistake
from generator.settling.who import find_player, holder_words
from generator.vocabulary.talk import HIS_SCREENER

_KINDS = {kind.value: kind for kind in PassKind}
_NEAR = 0.7  # a receiver so near to the place needs no move
_LEAD_NEAR_RIM = 1.5  # a move that ends so near to the rim is led by the pass
AT_RIM = 2.5  # metres from the rim within which a lob is caught without a run
_BESIDE_LANE = 1.5  # metres from the lane within which one is said to be inside (assumed)
_SHOULDER = 0.7  # a hand-off receiver stands so far from the giver


def object_where(doing: Doing, one: One) -> Location:
    """Where an object stands in the line, as far as its text tells; else the verb's place."""
    line, verb = doing.item.line, doing.part.source
    if not isinstance(one, Player) or verb.line != line.source.line:
        return verb
    begin = verb.column - line.source.column
    found = re.compile(rf"\b{one.number}\b").search(line.text, max(0, begin))
    return verb._replace(column=line.source.column + found.start()) if found else verb


def _receiver(doing: Doing) -> int:
    if not doing.part.objects:
        raise mistake(doing.where, "receiver-missing", "to whom?", "name the receiver: `passes to 2`")
    one = doing.part.objects[0]
    receiver = find_player(one, doing.state, doing.setting, doing.item, doing.where)
    if receiver == doing.player:
        raise mistake(object_where(doing, one), "pass-to-himself", f"{receiver} cannot pass to himself", "name another receiver")
    return receiver


# -- passes ----------------------------------------------------------------------------------------------


def do_pass(doing: Doing) -> None:
    """The ball to a teammate, where he ends or at the place named."""
    state, part = doing.state, doing.part
    receiver = _receiver(doing)
    _must_be_as_said(doing, receiver)
    stop_at_lane_edge(doing)
    kind = _KINDS.get(part.kind, PassKind.CHEST)
    if kind is PassKind.LOB and not part.places:
        _goes_up(doing, receiver)
    (catch_at, name), given = _catch_place(doing, receiver, kind)
    meets, lead = _meets(doing, receiver, catch_at, kind, given)
    shared = doing.shared(doing.origin, state.name[doing.player])
    if not (meets or state.place[receiver].distance(catch_at) <= _NEAR):
        meets = _comes(doing, receiver, (catch_at, name))
    action = Pass(**shared, receiver=receiver, pass_kind=kind, catch_at=catch_at, meets=meets, lead=lead,
                  throw_in=doing.player in state.out)
    doing.add(action)
    state.last[receiver] = action.key
    if given:
        state.move(receiver, catch_at, name)
    _ball_goes(doing, receiver, action.key)


def _must_be_as_said(doing: Doing, receiver: int) -> None:
    """`on the roll`, `coming off 5`: the lines above move him, and so; `in the post`: he is near the lane."""
    state, part, court = doing.state, doing.part, doing.setting.court
    here = state.place[receiver]
    if "inside" in part.manners and (abs(here.x) > court.half_lane + _BESIDE_LANE or here.y > court.free_throw_line):
        raise mistake(doing.line_where, "not-inside", f"{receiver} is not inside but at {state.name[receiver].words}",
                      f"send him in above the pass, as in `{receiver} posts up on the left block`")
    if "under way" not in part.manners:
        return
    moves = [a for a in state.of_phase() if isinstance(a, Move) and a.player == receiver]
    if not moves:
        raise mistake(doing.line_where, "not-under-way", f"{receiver} is not under way here: no line above moves him",
                      f"write his way above the pass, as in `{receiver} cuts to rim`")
    off = [find_player(w.one, state, doing.setting, doing.item, doing.where) for w in part.ways
           if isinstance(w, Off) and w.one != Role(HIS_SCREENER)]
    missed = next((n for n in off if all(n != u.screener for a in moves for u in a.uses)), None)
    if missed is not None:
        raise mistake(doing.line_where, "not-under-way", f"{receiver} does not come off {missed} by the lines above",
                      f"write `{receiver} cuts off {missed} to right wing` above the pass, or leave `off {missed}` out")


def _ball_goes(doing: Doing, receiver: int, key: str) -> None:
    state = doing.state
    state.passer, state.receiver, state.last_ball = doing.player, receiver, key
    state.give(receiver, doing.item.line)


def _catch_place(doing: Doing, receiver: int, kind: PassKind) -> tuple[Found, bool]:
    state = doing.state
    if doing.part.places:
        return doing.find(doing.part.places[-1], receiver), True
    place = state.place[receiver]
    if kind is PassKind.LOB:
        rim = rim_point(doing.setting.court, place)
        if place.distance(rim) < AT_RIM:
            return (rim, PlaceName("rim", "rim")), False
    return (place, state.name[receiver]), False


def _meets(doing: Doing, receiver: int, at: Point, kind: PassKind, given: bool) -> tuple[str | None, bool]:
    """The receiver's move that the ball goes to, and whether he catches before its end."""
    state = doing.state
    last = state.get(state.last.get(receiver))
    if not isinstance(last, Move):
        return None, False
    fresh = last.phase == state.phase
    if given and not fresh and last.end.distance(at) > _NEAR:
        return None, False  # that move is long over: he comes to the place named
    led = last.end.distance(Point(0.0, doing.setting.court.rim)) <= _LEAD_NEAR_RIM or kind is PassKind.LOB
    led = led or "on the run" in doing.part.manners or "on the run" in last.manners
    led = led or (given and last.end.distance(at) > _NEAR)
    return last.key, fresh and led


def _goes_up(doing: Doing, receiver: int) -> None:
    """A lob is caught at the rim in the air: who stands away from it, but inside the arc or near it, runs there."""
    state, court = doing.state, doing.setting.court
    here = state.place[receiver]
    rim = rim_point(court, here)
    if not AT_RIM <= here.distance(rim) <= court.behind_arc + 1.0:
        return
    his = Doing(receiver, doing.part, doing.item, state, doing.setting, f"{doing.key}r", doing.number, doing.others, False)
    move = Move(**(his.shared(rim, PlaceName("rim", "rim")) | {"verb": "dive", "kind": ""}), effort=effort_of("dive", "", frozenset()))
    his.leaves_screen()
    his.add(move)
    state.last_move[receiver] = move.key


def _comes(doing: Doing, receiver: int, place: Found) -> str:
    """The receiver has no line that brings him there: he comes to the ball."""
    his = Doing(receiver, doing.part, doing.item, doing.state, doing.setting, f"{doing.key}r", doing.number, doing.others, False)
    move = Move(**(his.shared(*place) | {"verb": "cut", "kind": "come"}), effort=effort_of("cut", "come", frozenset()))
    his.add(move)
    doing.state.last_move[receiver] = move.key
    return move.key


def do_inbound(doing: Doing) -> None:
    """A throw-in: a pass from out of bounds."""
    if doing.player not in doing.state.out:
        raise mistake(doing.where, "not-out", f"{doing.player} inbounds, but he stands on the floor",
                      f"write `{doing.player} passes to ...`, or start him at `baseline out of bounds right`")
    do_pass(doing)


# -- hand-offs -------------------------------------------------------------------------------------------


def do_hand_off(doing: Doing) -> None:
    """The giver dribbles to the place if one is named, the receiver comes, the ball changes hands."""
    state, part = doing.state, doing.part
    receiver = _receiver(doing)
    end, name = doing.find(part.places[-1]) if part.places else _where_they_meet(doing, receiver)
    doing.leaves_screen()
    move = _his_run(doing, receiver, end, name)
    action = HandOff(**doing.shared(end, name), receiver=receiver, receiver_move=move,
                     effort=effort_of("hand-off", "", part.manners))
    doing.add(action)
    state.last[receiver] = action.key
    _ball_goes(doing, receiver, action.key)


def _where_they_meet(doing: Doing, receiver: int) -> Found:
    """A dribble hand-off without a place: half-way; any other where the giver is."""
    state = doing.state
    if doing.part.kind != "dribble":
        return doing.origin, state.name[doing.player]
    there = state.place[receiver]
    return off_spot(doing, toward(doing.origin, there, doing.origin.distance(there) / 2))


def _his_run(doing: Doing, receiver: int, end: Point, name: PlaceName) -> str | None:
    """The receiver's move to the hand-off: his own line when it brings him there, else one made here."""
    state = doing.state
    last = state.get(state.last.get(receiver))
    if isinstance(last, Move) and last.phase == state.phase and last.end.distance(end) <= 2.0:
        return last.key
    if state.place[receiver].distance(end) <= 1.0:
        return None
    start = state.place[receiver]
    meeting = toward(start, end, max(0.0, start.distance(end) - _SHOULDER))
    his = Doing(receiver, doing.part, doing.item, state, doing.setting, f"{doing.key}r", doing.number, doing.others, False)
    move = Move(**(his.shared(meeting, PlaceName(name.words, name.spot, name.side)) | {"verb": "cut", "kind": "come"}),
                effort=effort_of("cut", "", frozenset()))
    his.leaves_screen()
    his.add(move)
    state.last_move[receiver] = move.key
    return move.key


def do_keep(doing: Doing) -> None:
    """The hand-off is faked: to the last one who ran by him, the ball stays."""
    state = doing.state
    near = [a for a in state.of_phase() if isinstance(a, Move) and a.player != doing.player]
    receiver = near[-1].player if near else None
    if receiver is None:
        return do_stand(doing, 0.5)
    action = HandOff(**doing.shared(doing.origin, state.name[doing.player]), receiver=receiver,
                     receiver_move=near[-1].key, fake=True)
    doing.add(action)
    return None


# -- with the ball, standing -----------------------------------------------------------------------------


def do_fake(doing: Doing) -> None:
    """Shows a pass or a shot, 0.5 s."""
    looks = tuple(find_player(o, doing.state, doing.setting, doing.item, doing.where) for o in doing.part.objects)
    do_stand(doing, 0.5, looks=looks)


def do_look(doing: Doing) -> None:
    """A look at teammates; what comes of it is a read (reads.py)."""
    looks = tuple(find_player(o, doing.state, doing.setting, doing.item, doing.where) for o in doing.part.objects)
    himself = doing.part.objects[looks.index(doing.player)] if doing.player in looks else None
    if himself is not None and (len(looks) == 1 or isinstance(doing.item.line.who[0], Player)):
        raise mistake(object_where(doing, himself), "pass-to-himself", f"{doing.player} cannot look for himself", "name somebody else")
    looks = tuple(n for n in looks if n != doing.player)  # `ball handler looks for 5 then 3`, and 3 has it in this branch
    for one in looks:
        _must_be_there(doing, one)
    stop_at_lane_edge(doing)
    do_stand(doing, 0.0, looks=looks)


def _must_be_there(doing: Doing, one: int) -> None:
    """`looks for 5 on the block`, `looks for 2 on the cut`: as the lines above leave him."""
    _must_be_as_said(doing, one)
    if not doing.part.places:
        return
    there, name = doing.find(doing.part.places[-1], one)
    if there.distance(doing.state.place[one]) > _BESIDE_LANE:
        raise mistake(doing.line_where, "not-there-yet", f"{one} is not at {name.words} but at {doing.state.name[one].words}",
                      f"send him there above the look, as in `{one} cuts to rim`, or leave the place out")


def do_hold(doing: Doing) -> None:
    """Keeps the ball, 0.5 s or until an event."""
    do_stand(doing, 0.5)


# -- loose balls -----------------------------------------------------------------------------------------


def do_loose(doing: Doing) -> None:
    """Tips, rebounds, boxes out, crashes: the ball is in the air."""
    state, part = doing.state, doing.part
    if part.verb in ("tip", "rebound") and state.holder is not None:
        raise mistake(doing.line_where, "ball-not-loose", f"{doing.player} cannot {part.verb} a ball that is held: "
                      f"{holder_words(state)}", "a shot or a toss stands before it")
    end, name = find_end(doing) if part.verb in ("crash", "rebound") else (doing.origin, state.name[doing.player])
    doing.leaves_screen()
    receiver = None
    if part.verb == "tip" and part.objects:
        receiver = _receiver(doing)
    if end.distance(doing.origin) > 0.4:
        shared = doing.shared(end, name) | {"key": f"{doing.key}r"}
        doing.add(Move(**shared, effort=effort_of(part.verb, "", part.manners)))
    action = LooseBall(**doing.shared(end, name), receiver=receiver)
    doing.add(action)
    if part.verb in ("tip", "rebound"):
        state.ended = None
        _ball_goes(doing, receiver or doing.player, action.key)
        if receiver:
            state.last[receiver] = action.key

