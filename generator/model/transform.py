"""Plays turned into other plays of the same form: left for right, one player for another.

In: a value of the model (Play, Phase, Line, Start ... or a settled play); out: the same with every side or every
number exchanged. Texts of the coach stay as written (language.md 6.3). Both are involutions or have inverses:
`mirror(mirror(p)) == p`, `rename(rename(p, m), inverse(m)) == p`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass, replace
from enum import Enum
from functools import cache

from generator.model.areas import areas_of, mirrored_area, mirrored_body
from generator.model.book import fold_name
from generator.model.court import Point
from generator.model.play import GoTo, LeadInRef, Phase, Play, Repeat, Sight, StartPlace, Teach
from generator.model.sentence import (
    AreaDefender,
    DefenderBody,
    HalfPlace,
    Part,
    Player,
    RelativePlace,
    Side,
    SpotPlace,
    Way,
)
from generator.model.settled import Cue, Fork, Move, PlaceName, Screen, SettledPlay, Trigger

_SWAP = {"left": "right", "right": "left"}
_SWAP_SIDE = {Side.LEFT: Side.RIGHT, Side.RIGHT: Side.LEFT}
_ATOMS = (str, int, float, bool, type(None), Enum)
Change = Callable[[object], object]


@cache
def _names(kind: type) -> tuple[str, ...]:
    return tuple(f.name for f in fields(kind))


def _rewrite(value: object, change: Change) -> object:
    """`value` with its parts rewritten first, then itself."""
    if isinstance(value, _ATOMS):
        return value
    if isinstance(value, Point):
        return change(value)
    if isinstance(value, tuple):
        parts = [_rewrite(v, change) for v in value]
        same = all(a is b for a, b in zip(parts, value))
        return value if same else type(value)(*parts) if hasattr(value, "_fields") else tuple(parts)
    if isinstance(value, Mapping):
        return {key: _rewrite(v, change) for key, v in value.items()}
    if is_dataclass(value):
        changed = {}
        for name in _names(type(value)):
            old = getattr(value, name)
            new = _rewrite(old, change)
            if new is not old:
                changed[name] = new
        return change(replace(value, **changed) if changed else value)
    return value


def swap_words(text: str) -> str:
    """left for right in a text that we made ourselves, word by word."""
    return " ".join(_SWAP.get(word, word) for word in text.split(" "))


# -- mirroring -------------------------------------------------------------------------------------------


def mirror(value, against: str = "man"):
    """Left and right exchanged in sides, areas, spots, clock places and coordinates. `against`: the defence of the
    play the value belongs to, for X numbers that are areas. Plays bring their own."""
    if isinstance(value, Play):
        against = value.against
    own_phases = frozenset(_own_names(value))
    return _rewrite(value, lambda v: _mirrored(v, against, own_phases))


def _own_names(value: object):
    if isinstance(value, Play):
        yield from (fold_name(p.name) for p in value.phases if isinstance(p, Phase))
    yield from ("end", "next phase")


def _mirrored(value: object, against: str, own: frozenset[str]) -> object:
    handler = _MIRRORS.get(type(value))
    return handler(value, against, own) if handler else value


def _mirror_spot(value: SpotPlace, against: str, own: frozenset[str]) -> SpotPlace:
    argument = value.argument
    if value.spot == "circle" and argument is not None:
        argument = (12 - argument) % 12 or 12
    return replace(value, side=_SWAP_SIDE.get(value.side, value.side), argument=argument)


def _mirror_relative(value: RelativePlace, against: str, own: frozenset[str]) -> RelativePlace:
    turned = {"left-of": "right-of", "right-of": "left-of"}
    return replace(value, direction=turned.get(value.direction, value.direction))


def _mirror_way(value: Way, against: str, own: frozenset[str]) -> Way:
    return replace(value, word="-".join(_SWAP.get(w, w) for w in value.word.split("-")))


def _mirror_sight(value: Sight, against: str, own: frozenset[str]) -> Sight:
    if value.coverage in ("ball left", "ball right"):
        return replace(value, coverage=swap_words(value.coverage), word=swap_words(value.word))
    return value


def _mirror_go_to(value: GoTo, against: str, own: frozenset[str]) -> GoTo:
    inside = fold_name(value.target) in own
    return value if inside else replace(value, mirrored=not value.mirrored)


def _mirror_name(value: PlaceName, against: str, own: frozenset[str]) -> PlaceName:
    words = swap_words(value.words)
    if value.spot == "circle":
        hour = int(words.split(" ")[2])
        words = f"circle at {(12 - hour) % 12 or 12} o'clock"
    return replace(value, words=words, side=_SWAP.get(value.side, value.side))


def _mirror_fork(value: Fork, against: str, own: frozenset[str]) -> Fork:
    if value.read.watch.kind.value != "defenders":
        return value
    return replace(value, watched=tuple(mirrored_body(against, b) for b in value.watched))


def _mirror_screen(value: Screen, against: str, own: frozenset[str]) -> Screen:
    on = tuple(mirrored_body(against, b) for b in value.on) if areas_of(against) else value.on
    return replace(value, side=_SWAP.get(value.side, value.side), on=on)


_MIRRORS: dict[type, Callable] = {
    Point: lambda v, a, o: v.mirrored(),
    SpotPlace: _mirror_spot,
    HalfPlace: lambda v, a, o: replace(v, side=_SWAP_SIDE.get(v.side, v.side)),
    RelativePlace: _mirror_relative,
    Way: _mirror_way,
    Part: lambda v, a, o: replace(v, side=_SWAP.get(v.side, v.side)),
    AreaDefender: lambda v, a, o: replace(v, area=mirrored_area(v.area)),
    DefenderBody: lambda v, a, o: replace(v, number=mirrored_body(a, v.number)),
    Sight: _mirror_sight,
    GoTo: _mirror_go_to,
    PlaceName: _mirror_name,
    Trigger: lambda v, a, o: replace(v, words=swap_words(v.words)),
    Screen: _mirror_screen,
    Move: lambda v, a, o: replace(v, ways=tuple("-".join(_SWAP.get(w, w) for w in way.split("-")) for way in v.ways)),
    Cue: lambda v, a, o: replace(v, defender=mirrored_body(a, v.defender)),
    Fork: _mirror_fork,
}


def mirror_settled(settled: SettledPlay) -> SettledPlay:
    """The settled play seen in a mirror; the variant says so."""
    own = frozenset(_own_names(settled.play))
    turned = _rewrite(settled, lambda v: _mirrored(v, settled.play.against, own))
    return replace(turned, variant=replace(settled.variant, mirrored=not settled.variant.mirrored))


# -- renaming --------------------------------------------------------------------------------------------


def inverse(roles: Mapping[int, int]) -> dict[int, int]:
    """The renaming that undoes `roles`."""
    return {new: old for old, new in roles.items()}


def swaps(pairs: Mapping[int, int] | tuple[tuple[int, int], ...]) -> dict[int, int]:
    """{3: 2} as a renaming of all five: 3 does 2's jobs and 2 does 3's (old number -> new number).

    Chains are closed into a ring: {3: 2, 2: 4} gives 2 -> 3, 4 -> 2, 3 -> 4.
    """
    does = dict(pairs)
    renamed = {role: player for player, role in does.items()}
    for player in sorted(set(does) - set(renamed)):
        start = player
        while start in does:
            start = does[start]
        renamed[player] = start
    return {n: renamed.get(n, n) for n in (1, 2, 3, 4, 5)}


def rename(value, roles: Mapping[int, int], bodies: bool = True):
    """Every player N becomes `roles[N]` (numbers left out stay). `bodies`: X numbers belong to men and go with them."""
    to = lambda n: roles.get(n, n)
    if isinstance(value, Play):
        bodies = not areas_of(value.against)
    return _rewrite(value, lambda v: _renamed(v, to, bodies))


def _renamed(value: object, to: Callable[[int], int], bodies: bool) -> object:
    if isinstance(value, Player):
        return Player(to(value.number))
    if isinstance(value, DefenderBody):
        return DefenderBody(to(value.number)) if bodies else value
    if isinstance(value, StartPlace):
        return replace(value, player=to(value.player))
    if isinstance(value, Teach):
        return replace(value, players=tuple(to(p) for p in value.players))
    if isinstance(value, (Phase, Repeat)):
        return replace(value, roles=_both(value.roles, to)) if value.roles else value
    if isinstance(value, LeadInRef):
        return _rename_lead_in(value, to)
    if isinstance(value, Play):
        together = tuple(tuple(to(p) for p in group) for group in value.interchangeable)
        return replace(value, also_for=_both(value.also_for, to), interchangeable=together)
    return value


def _both(roles: Mapping[int, int], to: Callable[[int], int]) -> dict[int, int]:
    return {to(a): to(b) for a, b in roles.items()}


def _rename_lead_in(value: LeadInRef, to: Callable[[int], int]) -> LeadInRef:
    """The roles inside the lead-in stay; who takes them changes."""
    taken = {to(p): value.roles.get(p, p) for p in (1, 2, 3, 4, 5)}
    return replace(value, roles={p: r for p, r in sorted(taken.items()) if p != r})
