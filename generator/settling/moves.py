"""Moves and stands: everything a player does with his feet. In: Doing; out: actions added to the state."""

from __future__ import annotations

from dataclasses import replace

from generator.model.court import Court, Point
from generator.model.sentence import Everyone, MeasuredPlace, Way
from generator.model.settled import HandOff, Move, PlaceName, Stand
from generator.model.spots import OUT_OF_BOUNDS, lane_edge, name_place
from generator.settling.defence import body_place
from generator.settling.doing import Doing, effort_of, runs_on
from generator.settling.ends import beside_the_rim, find_end
from generator.settling.problems import mistake
from generator.settling.routes import find_uses, find_via, note_uses, settle_offered
from generator.settling.screener_ends import ghosted_place
from generator.settling.who import find_defender, find_player, guard_of

CUTS = frozenset({"cut", "curl", "fade", "flare", "back-cut", "shallow-cut", "dive"})
_SEALS = 0.8  # metres between who seals and who is sealed, assumed
_ASIDE = 0.6  # metres
_STILL = 0.4  # nearer than this nobody walks


def do_move(doing: Doing) -> None:
    """A cut, dribble, roll ...: one Move from his last place to its end."""
    state, part = doing.state, doing.part
    if part.start_place is not None:
        _must_start_there(doing)
    end, name = find_end(doing)
    if end == doing.origin and isinstance(doing.item.line.who[0], Everyone):
        do_stand(doing)  # everyone drifts, and there is no room for him
        return
    if name.spot == "rim":
        end = beside_the_rim(doing, end)
    with_ball = state.holder == doing.player
    uses = find_uses(doing, end)
    uses = settle_offered(doing, uses, end)
    own = doing.leaves_screen()
    screen = state.get(own)
    waits = screen.users if screen is not None and part.verb != "slip" else ()
    if part.verb == "close":
        waits = waits or _gap_users(doing)
    move = Move(
        **doing.shared(end, name), effort=effort_of(part.verb, part.kind, part.manners), with_ball=with_ball,
        via=_via(doing, end, bool(uses)), uses=uses, waits_clear=waits, waits_set=own if part.verb == "slip" else None,
        no_stop=part.verb == "set-up" or "on the run" in part.manners, ghost=part.verb == "ghost",
        curl=part.verb == "curl", joined=runs_on(doing, uses, waits), on_the_run=_starts_running(doing),
        ways=tuple(w.word for w in part.ways if isinstance(w, Way) and w.one is None),
        at=part.objects[0] if part.verb == "dribble-at" and part.objects else None,
    )
    doing.add(move)
    note_uses(doing, move.key, uses, end)
    _after_hand_off(doing, move)
    _remember(doing, move)


def _remember(doing: Doing, move: Move) -> None:
    state = doing.state
    state.last_move[doing.player] = move.key
    state.sent.append((doing.player, move.end, doing.item.line, move.key))
    if not move.with_ball and (move.verb in CUTS or move.uses):
        state.cutter = doing.player
    if move.with_ball:
        state.last_ball = move.key


def _via(doing: Doing, end: Point, used: bool) -> tuple[Point, ...]:
    on_the_way = tuple(doing.find(place)[0] for place in doing.part.places[:-1])
    if doing.part.verb == "ghost":
        return (*on_the_way, ghosted_place(doing))
    return on_the_way + find_via(doing, end, used)


def _gap_users(doing: Doing) -> tuple[str, ...]:
    """Who runs through the gap that the pair closes."""
    return tuple(a.key for a in doing.state.of_phase() if isinstance(a, Move) and a.verb != "close"
                 and any(doing.player == u.screener for u in a.uses))


def _starts_running(doing: Doing) -> bool:
    on_the_run = doing.setting.on_the_run
    return doing.player in on_the_run and doing.player not in doing.state.last


def _after_hand_off(doing: Doing, move: Move) -> None:
    """A hand-off receiver runs through the meeting point when he goes on."""
    state = doing.state
    before = [a for a in state.actions[:-1] if doing.player in (a.player, getattr(a, "receiver", None))]
    last = before[-1] if before else None
    if isinstance(last, HandOff) and last.receiver == doing.player and last.receiver_move and last.phase == move.phase:
        state.change(last.receiver_move, no_stop=True)


def _must_start_there(doing: Doing) -> None:
    start, name = doing.find(doing.part.start_place)
    if start.distance(doing.origin) > 1.5:
        raise mistake(doing.line_where, "not-there", f"{doing.player} does not start from {name.words}: he is at "
                      f"{doing.state.name[doing.player].words}", "drop `from`, or send him there first")


def stop_at_lane_edge(doing: Doing) -> None:
    """A driver who passes or pulls up stops where he enters the lane (language.md, `drives`)."""
    state, court = doing.state, doing.setting.court
    last = state.get(state.last.get(doing.player))
    if not isinstance(last, Move) or last.verb != "drive" or last.place.spot != "rim":
        return
    end = edge_of_drive(last, court)
    name = PlaceName(f"{'left' if end.x < 0 else 'right'} lane edge", "lane edge", "left" if end.x < 0 else "right")
    if abs(end.x) < 0.6:
        name = name_place(court, end)
    state.change(last.key, end=end, place=name)
    state.move(doing.player, end, name)


def edge_of_drive(drive: Move, court: Court) -> Point:
    """Where a drive to the rim enters the lane."""
    start = _comes_off(drive) if drive.uses else drive.via[-1] if drive.via else drive.origin
    edge = lane_edge(court, start if start.x >= 0 else start.mirrored())
    return edge if start.x >= 0 else edge.mirrored()


def _comes_off(drive: Move) -> Point:
    """Where he comes off the last screen: beside the screener, on the side he passes him."""
    use = drive.uses[-1]
    aside = {"left": -1.0, "right": 1.0}.get(use.words, 0.0)
    return Point(use.at.x + aside, use.at.y)


# -- standing --------------------------------------------------------------------------------------------


def do_stand(doing: Doing, seconds: float = 0.0, seals: int | None = None, looks: tuple[int, ...] = ()) -> None:
    """Time passes, the place stays."""
    doing.add(Stand(**doing.shared(doing.origin, doing.state.name[doing.player]), seconds=seconds, seals=seals, looks=looks))


def do_stay(doing: Doing) -> None:
    """Stays; with a place he goes there first."""
    if doing.part.places and find_end(doing)[0].distance(doing.origin) > _STILL:
        return do_move(doing)
    return do_stand(doing)


def do_post_up(doing: Doing) -> None:
    """The nearest block (or the place named), then 0.6 s."""
    if find_end(doing)[0].distance(doing.origin) > _STILL:
        return do_move(doing)
    return do_stand(doing, 0.6)


def do_seal(doing: Doing) -> None:
    """Keeps a defender behind him, 0.6 s; with a place he goes there."""
    state, setting = doing.state, doing.setting
    if doing.part.objects:
        body = find_defender(doing.part.objects[0], state, doing.setting, doing.item, doing.where, doing.player, False)
    else:
        body = guard_of(doing.player, state, doing.setting)
    if body is not None and not doing.part.places and body in setting.areas.values():
        doing = _goes_to_seal(doing, body)
    if doing.part.places and find_end(doing)[0].distance(doing.origin) > _STILL:
        do_move(doing)
        return
    do_stand(doing, 0.6, seals=state.guards.get(body, body))


def _goes_to_seal(doing: Doing, body: int) -> Doing:
    """The defender of an area comes to nobody: whoever seals him goes to him, on the side he comes from."""
    there = body_place(body, doing.state, doing.setting)
    far = there.distance(doing.origin)
    if far <= _SEALS + _STILL:
        return doing
    k = _SEALS / far
    beside = Point(there.x + k * (doing.origin.x - there.x), there.y + k * (doing.origin.y - there.y))
    return replace(doing, part=replace(doing.part, places=(MeasuredPlace(beside),)))


def do_fill_up(doing: Doing) -> None:
    """The next spot up if it becomes empty, else he stays."""
    if find_end(doing)[0].distance(doing.origin) > _STILL:
        return do_move(doing)
    return do_stand(doing)


def do_set_up(doing: Doing) -> None:
    """A false step, without a stop before his next part."""
    do_move(doing)


def do_exchange(doing: Doing) -> None:
    """Both change places; the partner's move is made here when he has no line of his own for it."""
    do_move(doing)
    if not doing.part.objects:
        return
    other = find_player(doing.part.objects[0], doing.state, doing.setting, doing.item, doing.where)
    if other in doing.others or other == doing.state.holder:
        return
    mine = doing.state.get(doing.state.last[doing.player])
    partner = Doing(other, doing.part, doing.item, doing.state, doing.setting, f"{doing.key}.{other}", doing.number,
                    doing.others, False)
    name = name_place(doing.setting.court, mine.origin)
    if not mine.via:
        doing.state.change(mine.key, via=(_by_his_right(mine.origin, mine.end),))
    move = Move(**partner.shared(mine.origin, name), effort=mine.effort, via=(_by_his_right(mine.end, mine.origin),))
    partner.add(move)
    _remember(partner, move)


def _by_his_right(start: Point, end: Point) -> Point:
    """Half-way, a little to the right hand of the runner, so that two who trade places pass each other."""
    far = start.distance(end) or 1.0
    across = Point((end.y - start.y) / far * _ASIDE, (start.x - end.x) / far * _ASIDE)
    return Point((start.x + end.x) / 2 + across.x, (start.y + end.y) / 2 + across.y)


def do_face(doing: Doing) -> None:
    """Turns where he stands."""
    do_stand(doing)


def do_step_in(doing: Doing) -> None:
    """The inbounder comes into the court."""
    state = doing.state
    if doing.player not in state.out:
        raise mistake(doing.where, "not-out", f"{doing.player} is not out of bounds", "only the inbounder steps in")
    state.out.pop(doing.player)
    do_move(doing)


def out_of_bounds(name: PlaceName) -> bool:
    """True for places that are not on the floor."""
    return name.spot in OUT_OF_BOUNDS

