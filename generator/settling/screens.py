"""Screens: who is freed, who is screened, where the screener stands. In: Doing; out: Screen actions.

Where no place is named the end is a first guess, made when the user's way is known; the timeline refines it.
"""

from __future__ import annotations

from math import hypot

from generator.model.court import Point
from generator.model.sentence import DefenderBody, DefenderOf, One, Player
from generator.model.settled import Screen, Use
from generator.model.spots import STEP, name_place, side_of
from generator.settling.bearings import off_spot, toward
from generator.settling.defence import beside_man, body_place
from generator.settling.doing import Doing, effort_of
from generator.settling.places import Found
from generator.settling.problems import mistake
from generator.settling.who import find_defender, find_player, guard_of, is_defender

BALL_KINDS = ("ball", "step-up", "side", "flat", "drag")
_BACK_KINDS = ("back", "up", "flare")  # set from behind the defender: one step away (language.md 4)
_PAIR_GAP = {"double-screen": 0.33, "elevator-screen": 0.72}  # half the distance of the two, metres
_BESIDE = 0.95  # metres from a defender's middle to a screener at his shoulder: a step, whether he sees him or not
_HIS_PLACE = 1.5  # metres: a place so near to the freed player tells where he is found
_APART = 1.8  # metres from the first to the second screen of a stagger
_TOGETHER = 3.0  # metres: who stand farther apart do not go shoulder to shoulder by themselves (assumed)
_ON_HIS_WAY = 2.0  # metres from the user's straight way: a screener of a stagger who stands so near to it screens where he is
_GROUP = {"double-screen": "double", "elevator-screen": "elevator", "stagger": "stagger"}
IN_VIEW, FROM_BEHIND = 0.6, 0.9  # metres from the defender, timeline.md 1.7


def do_screen(doing: Doing) -> None:
    """One player's screen; pairs stand shoulder to shoulder, a step apart, or one after the other."""
    state, part = doing.state, doing.part
    freed, on = screened(doing)
    kind = _group_kind(doing, freed)
    (end, name), given = _place(doing, freed, kind)
    doing.leaves_screen()
    screen = Screen(
        **doing.shared(end, name), effort=effort_of(part.verb, part.kind, part.manners), freed=freed, on=on,
        place_given=given, ball_screen=part.kind in BALL_KINDS or state.holder in freed, side=part.side,
        group=f"{doing.item.slot}" if kind and len(doing.others) == 2 else "", group_kind=kind,
        via=tuple(doing.find(p)[0] for p in part.places[:-1]) if not kind else (),
    )
    _add(doing, screen)


def _group_kind(doing: Doing, freed: tuple[int, ...]) -> str:
    """`4 and 5 screen for 2`: shoulder to shoulder; far apart and without a place each where he is, one after the other."""
    part, state = doing.part, doing.state
    if part.verb in _GROUP or len(doing.others) != 2:
        return _GROUP.get(part.verb, "")
    first = next((a for a in reversed(state.of_phase()) if isinstance(a, Screen) and a.group == doing.item.slot), None)
    if first is not None:
        return first.group_kind
    far = state.place[doing.others[0]].distance(state.place[doing.others[1]]) > _TOGETHER
    return "stagger" if far and not part.places and not part.side and state.holder not in freed else "double"


def _add(doing: Doing, screen: Screen) -> None:
    state = doing.state
    doing.add(screen)
    state.screens[doing.player] = screen.key
    state.screener = doing.player
    state.last_move[doing.player] = screen.key
    if screen.place_given and not screen.group:
        state.sent.append((doing.player, screen.end, doing.item.line, screen.key))


def screened(doing: Doing) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Players freed, and defenders screened as the numbers of their men (zone: areas)."""
    state, setting, item, where = doing.state, doing.setting, doing.item, doing.where
    freed: list[int] = []
    on: list[int] = []
    for one in doing.part.objects:
        if not is_defender(one):
            freed.append(find_player(one, state, setting, item, where))
            continue
        body = find_defender(one, state, setting, item, where, None, about_body=False)
        man = state.guards.get(body)
        on.append(man if man is not None else body)
        if man is not None and isinstance(one, (DefenderBody, DefenderOf)) and not any(isinstance(o, Player) for o in doing.part.objects):
            freed.append(man)
    if not freed and not on:
        raise mistake(where, "screen-for-nobody", f"{doing.player} screens for nobody",
                      f"name the player he frees: `{doing.player} screens for 3`")
    if doing.player in freed:
        raise mistake(where, "screen-for-himself", f"{doing.player} cannot screen for himself", "name the player he frees")
    if not on:
        on = [freed[0]] if setting.bodies_follow_men else [b for b in (guard_of(freed[0], state, setting),) if b]
    return tuple(dict.fromkeys(freed)), tuple(dict.fromkeys(on))


def _place(doing: Doing, freed: tuple[int, ...], kind: str) -> tuple[Found, bool]:
    places = doing.part.places
    index = doing.others.index(doing.player)
    if kind == "stagger" and len(places) > 1:
        return doing.find(places[min(index, len(places) - 1)]), True
    if places:
        found = doing.find(places[-1])
        if doing.part.side and freed and found[0].distance(doing.state.place[freed[0]]) < _HIS_PLACE:
            return _on_side(doing, freed[0]), True
        return (_of_pair(doing, found[0], freed, index, kind) if len(doing.others) == 2 else found), True
    if not freed:
        beside = _off_defender(_body(doing, doing.part.objects[0]), doing.origin, IN_VIEW)
        return (_of_pair(doing, beside, freed, index, kind) if len(doing.others) == 2 else off_spot(doing, beside)), True
    if doing.part.side:
        return _on_side(doing, freed[0]), True
    other = _other_defender(doing, freed)
    if other is not None:
        return off_spot(doing, _off_defender(other, doing.origin, IN_VIEW)), True
    guess = first_guess(doing, freed[0])
    if len(doing.others) == 2:
        return _of_pair(doing, guess, freed, index, kind), kind != "stagger"
    return off_spot(doing, guess), False


def _on_side(doing: Doing, freed: int) -> Found:
    """`on the right`: shoulder to shoulder with the freed player's defender, on that side of him."""
    man = beside_man(doing.state.place[freed], doing.setting)
    out = side_of(man, 0.05) or side_of(doing.origin, 0.0)
    outward = 1.0 if out == "right" else -1.0
    dx, dy = {"left": (-1.0, 0.0), "right": (1.0, 0.0), "middle": (-outward, 0.0), "sideline": (outward, 0.0), "high": (0.0, 1.0),
              "low": (0.0, -1.0)}[doing.part.side]
    return off_spot(doing, Point(man.x + dx * _BESIDE, man.y + dy * _BESIDE))


def _body(doing: Doing, one: One) -> Point:
    body = find_defender(one, doing.state, doing.setting, doing.item, doing.where, None, False)
    return body_place(body, doing.state, doing.setting)


def _other_defender(doing: Doing, freed: tuple[int, ...]) -> Point | None:
    """Where the defender stands who is named, when he is not the freed player's own man."""
    for one in doing.part.objects:
        if is_defender(one):
            body = find_defender(one, doing.state, doing.setting, doing.item, doing.where, None, False)
            if body != guard_of(freed[0], doing.state, doing.setting):
                return _body(doing, one)
    return None


def _of_pair(doing: Doing, middle: Point, freed: tuple[int, ...], index: int, kind: str) -> Found:
    """The two stand square to the freed player's way; a stagger's second one a step and a half further on."""
    user = doing.state.place[freed[0]] if freed else Point(0.0, doing.setting.court.rim)
    dx, dy = middle.x - user.x, middle.y - user.y
    length = hypot(dx, dy)
    dx, dy = (dx / length, dy / length) if length > 0.05 else (0.0, 1.0)
    if kind == "stagger":
        far = index * 2 * STEP
        return off_spot(doing, Point(middle.x + dx * far, middle.y + dy * far))
    if index:  # the first of the two stands already: this one on the other side of the middle
        mate = doing.state.place[doing.others[0]]
        return off_spot(doing, Point(2 * middle.x - mate.x, 2 * middle.y - mate.y))
    gap = _PAIR_GAP.get(doing.part.verb, 0.33)
    sign = gap if _first_side(doing, (-dy, dx)) else -gap
    return off_spot(doing, Point(middle.x - dy * sign, middle.y + dx * sign))


def _first_side(doing: Doing, across: tuple[float, float]) -> bool:
    """True when the first named takes the side `across` points to: his own, so that the two do not cross; else the
    one nearer to the rim."""
    other = doing.state.place[doing.others[1]]
    along = (doing.origin.x - other.x) * across[0] + (doing.origin.y - other.y) * across[1]
    return along > 0 if abs(along) > 0.05 else across[1] < 0


def first_guess(doing: Doing, freed: int) -> Point:
    """A step from the freed player's defender, on the screener's side, until the user's way is known."""
    man = doing.state.place[freed]
    return _off_defender(beside_man(man, doing.setting), doing.origin, IN_VIEW)


def stand_on_the_way(doing: Doing, uses: tuple[Use, ...], goal: Point) -> None:
    """The screeners of a stagger without a place who stand along the user's way, in his order, screen where they are."""
    state, start = doing.state, doing.origin
    found = [state.get(u.screen) for u in uses if u.screen]
    found = [s for s in found if s.group_kind == "stagger" and not s.place_given and not s.users]
    length = start.distance(goal)
    if len(found) != 2 or length < _TOGETHER:
        return
    dx, dy = (goal.x - start.x) / length, (goal.y - start.y) / length
    along = [(s.origin.x - start.x) * dx + (s.origin.y - start.y) * dy for s in found]
    aside = [abs((s.origin.x - start.x) * dy - (s.origin.y - start.y) * dx) for s in found]
    if not (_APART / 2 < along[0] < along[1] - _APART / 2 and along[1] < length + _APART / 2):
        return
    if found[0].verb == "stagger" and max(aside) > _ON_HIS_WAY:  # those come to him; a plain pair far apart stays where each is
        return
    for screen in found:
        state.change(screen.key, end=screen.origin, place=name_place(doing.setting.court, screen.origin), place_given=True)
        if state.screens.get(screen.player) == screen.key:
            state.move(screen.player, screen.origin, name_place(doing.setting.court, screen.origin))


def guess_place(doing: Doing, screen: Screen, goal: Point, uses: tuple[Use, ...] = ()) -> Point:
    """A step from the freed player on the side he goes (timeline.md 1.7); moves the screener there by the text. `uses`: the
    second of a stagger that is met stands further on."""
    state, setting = doing.state, doing.setting
    far = FROM_BEHIND if screen.kind in _BACK_KINDS else IN_VIEW
    end = _off_defender(beside_man(doing.origin, setting), goal, far)
    mates = [u.screen for u in uses if u.screen and state.get(u.screen).group == screen.group]
    if screen.group_kind == "stagger" and screen.key in mates[1:]:
        end = toward(end, goal, _APART)
    name = name_place(setting.court, end)
    state.change(screen.key, end=end, place=name)
    if state.screens.get(screen.player) == screen.key:
        state.move(screen.player, end, name)
    return end


def _off_defender(defender: Point, goal: Point, far: float) -> Point:
    dx, dy = goal.x - defender.x, goal.y - defender.y
    length = hypot(dx, dy)
    if length < 0.05:
        return defender
    return Point(defender.x + dx / length * far, defender.y + dy / length * far)


def do_again(doing: Doing) -> None:
    """Flips (other side of the same screen) or re-screens (same place again)."""
    state = doing.state
    old = next((a for a in reversed(state.actions) if isinstance(a, Screen) and a.player == doing.player), None)
    if old is None:
        raise mistake(doing.where, "no-screen-before", f"{doing.player} has set no screen that he could set again",
                      f"write `{doing.player} screens for 1` first")
    freed, on = screened(doing) if doing.part.objects else (old.freed, old.on)
    found, given = (doing.find(doing.part.places[-1]), True) if doing.part.places else (_again(doing, old, freed), False)
    doing.leaves_screen()
    shared = doing.shared(*found) | {"kind": old.kind}
    _add(doing, Screen(**shared, effort=effort_of("screen", "", doing.part.manners), freed=freed, on=on,
                       place_given=given or doing.part.verb == "re-screen",
                       ball_screen=old.ball_screen or state.holder in freed, side=doing.part.side))


def _again(doing: Doing, old: Screen, freed: tuple[int, ...]) -> Found:
    if doing.part.verb == "re-screen" or not freed:
        return old.end, old.place
    man = beside_man(doing.state.place[freed[0]], doing.setting)
    return off_spot(doing, Point(2 * man.x - old.end.x, 2 * man.y - old.end.y))
