"""Finds the people a line means. In: a `One` of the sentence and the state; out: player numbers or X bodies.

Roles are settled in written order (language.md 7.7): passer and receiver by the last pass, cutter and screener by
the last such line, `he` as a rule or read has bound him.
"""

from __future__ import annotations

from generator.diagnostics import Location
from generator.model.court import Point
from generator.model.sentence import (
    AreaDefender,
    DefenderBody,
    DefenderOf,
    Everyone,
    NearestTo,
    One,
    Player,
    PlayerAt,
    Role,
)
from generator.settling.problems import mistake
from generator.settling.state import PLAYERS, Item, Setting, State
from generator.settling.words import say_line

Defender = DefenderBody | DefenderOf | AreaDefender
HERE = 1.0  # `player at left wing`: who stands within so many metres
TIE = 0.05


def is_defender(one: One) -> bool:
    """True for the three ways to name a defender."""
    return isinstance(one, Defender)


def find_player(one: One, state: State, setting: Setting, item: Item, where: Location) -> int:
    """The one player meant."""
    if isinstance(one, Player):
        return one.number
    if isinstance(one, Role):
        return _by_role(one.name, state, item, where)
    if isinstance(one, NearestTo):
        return _nearest(one, state, setting, item, where)
    if isinstance(one, PlayerAt):
        return _standing_at(one, state, setting, item, where)
    if isinstance(one, Everyone):
        raise mistake(where, "everyone-here", "only one player can be meant here", "name him")
    raise mistake(where, "defender-here", "a defender cannot do this", "name a player of the offence")


def _by_role(name: str, state: State, item: Item, where: Location) -> int:
    bound = item.role("he" if name == "him" else name)
    if bound is not None:
        return bound
    known = {
        "ball handler": state.holder, "passer": state.passer, "receiver": state.receiver, "cutter": state.cutter,
        "screener": state.screener, "inbounder": state.inbounder,
    }
    if name not in known:
        raise mistake(where, "role-unbound", f"`{name}` means nobody here",
                      "`he` and `anyone` belong into rules and reads: name the player")
    if known[name] is None:
        why = {"ball handler": "nobody has the ball", "passer": "nobody has passed yet", "receiver": "nobody has caught yet",
               "cutter": "nobody has cut yet", "screener": "nobody has screened yet",
               "inbounder": "nobody stands out of bounds with the ball"}[name]
        raise mistake(where, "role-empty", f"there is no {name} here: {why}", "name the player")
    return known[name]


def _nearest(one: NearestTo, state: State, setting: Setting, item: Item, where: Location) -> int:
    from generator.settling.places import find_place

    point, name = find_place(one.place, None, state, setting, item, where)
    free = [p for p in PLAYERS if p in state.place and p != state.holder and p not in item.group]
    if not free:
        raise mistake(where, "role-empty", f"nobody is free to be nearest to {name.words}", "name the player")
    ranked = sorted(free, key=lambda p: (round(state.place[p].distance(point) / TIE), p))
    best = ranked[0]
    if len(ranked) > 1 and abs(state.place[best].distance(point) - state.place[ranked[1]].distance(point)) < TIE:
        setting.problems.tell(where, "nearest-tie", f"{best} and {ranked[1]} are equally near to {name.words}: {best} is taken",
                              "name the player to be sure")
    return best


def _standing_at(one: PlayerAt, state: State, setting: Setting, item: Item, where: Location) -> int:
    from generator.settling.places import find_place

    point, name = find_place(one.place, None, state, setting, item, where)
    best = nearest_player(state, point)
    if best is None or state.place[best].distance(point) > HERE:
        raise mistake(where, "role-empty", f"nobody stands at {name.words} here", "name the player")
    return best


def nearest_player(state: State, point: Point, leave_out: frozenset[int] = frozenset()) -> int | None:
    """Who stands nearest to a point; equal distances go to the lower number."""
    there = [p for p in PLAYERS if p in state.place and p not in leave_out]
    return min(there, key=lambda p: (round(state.place[p].distance(point), 3), p), default=None)


def find_players(who: tuple[One, ...], state: State, setting: Setting, item: Item, where: Location) -> tuple[int, ...]:
    """Everybody a line's `who` means, in the order written, each once."""
    found: list[int] = []
    for one in who:
        if isinstance(one, Everyone):
            left_out = item.group | _in_this_do(state, item) if one.others else frozenset()
            found.extend(p for p in PLAYERS if p in state.place and p not in left_out)
        else:
            found.append(find_player(one, state, setting, item, where))
    return tuple(dict.fromkeys(found))


def _in_this_do(state: State, item: Item) -> frozenset[int]:
    """Who has a line, or gets the ball, in the `do` of this line so far (roles name nobody in advance)."""
    do = item.slot.rsplit(".", 1)[0] + "."
    mine = [a for a in state.of_phase() if a.line.startswith(do)]
    return frozenset(p for a in mine for p in (a.player, getattr(a, "receiver", None)) if p)


def guard_of(player: int, state: State, setting: Setting) -> int | None:
    """The X body that guards a player now; in a zone the one whose area holds him, of a chased man his chaser."""
    if not setting.bodies_follow_men and player not in state.guards.values():
        from generator.settling.defence import area_holding

        return area_holding(state.place[player], state, setting)
    return next((x for x, man in sorted(state.guards.items()) if man == player), None)


def find_defender(one: One, state: State, setting: Setting, item: Item, where: Location, of_line: int | None = None,
                  about_body: bool = True) -> int:
    """The X body meant. `of_line`: whom `his defender` belongs to. `about_body`: the line or watch is about that body
    (else X3 is refused once he no longer guards 3, language.md 6.5)."""
    if isinstance(one, DefenderBody):
        if one.number not in PLAYERS:
            raise mistake(where, "no-such-defender", f"there is no X{one.number}", "defenders are X1 to X5")
        man = state.guards.get(one.number)
        if setting.bodies_follow_men and not about_body and man is not None and man != one.number:
            raise mistake(where, "x-after-switch", f"X{one.number} guards {man} since the switch, not {one.number}",
                          f"write `{one.number}'s defender` or `{man}'s defender`")
        return one.number
    if isinstance(one, DefenderOf):
        man = of_line if one.of is None else find_player(one.of, state, setting, item, where)
        man = item.role("he") if man is None else man
        if man is None:
            raise mistake(where, "role-unbound", "`his defender` belongs to nobody here", "name the player: `3's defender`")
        body = guard_of(man, state, setting)
        if body is None:
            raise mistake(where, "no-such-defender", f"nobody guards {man} here", "name the defender")
        return body
    if isinstance(one, AreaDefender):
        return _by_area(one, state, setting, where, of_line)
    raise mistake(where, "defender-needed", "a defender is needed here", "write X3, `3's defender` or the area of a zone")


def _by_area(one: AreaDefender, state: State, setting: Setting, where: Location, of_line: int | None) -> int:
    if one.area == "nearest":
        from generator.settling.defence import nearest_body

        near = of_line or state.holder
        if near is None:
            raise mistake(where, "role-unbound", "the defender nearest to whom?", "name the defender")
        return nearest_body(state.place[near], state, setting)
    if one.area in setting.areas:
        return setting.areas[one.area]
    if not setting.areas:
        raise mistake(where, "no-such-area", f"`{one.area} defender` is an area of a zone, and this play is against man",
                      "write `against: zone 2-3`, or name the defender: `X3`, `3's defender`")
    known = ", ".join(sorted(setting.areas))
    raise mistake(where, "no-such-area", f"this defence has no {one.area} defender", f"its areas are {known}")


def holder_words(state: State) -> str:
    """Who has the ball and since which line, for messages."""
    if state.holder is None:
        return "nobody has the ball" + (f" since {say_line(state.since)}" if state.since else "")
    since = f" since {say_line(state.since)}" if state.since else " from the start"
    return f"{state.holder} has the ball{since}"
