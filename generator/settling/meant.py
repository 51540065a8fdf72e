"""What a line's words mean for the one who does it: with the ball or without, in which half. In: a part; out: the part
that the handlers know."""

from __future__ import annotations

from dataclasses import replace

from generator.model.sentence import Part, Way
from generator.model.settled import Move
from generator.model.spots import side_of
from generator.settling.state import State

_ANY_WALK = frozenset({"come", "go", "use"})  # said of the ball handler too: `1 comes off 5 to right elbow`
_RIM = frozenset({"rim", "front of the rim"})


def meant(part: Part, player: int, state: State) -> Part:
    """`1 comes off 5` with the ball is a dribble (to the rim a drive); `up the sideline` is that of his half."""
    if part.verb == "cut" and part.kind in _ANY_WALK and state.holder == player and player not in state.out:
        at_rim = bool(part.places) and getattr(part.places[-1], "spot", "") in _RIM
        part = replace(part, verb="drive" if at_rim else "dribble", kind="")
    if any(isinstance(w, Way) and w.word == "along-sideline" for w in part.ways):
        side = side_of(state.place[player], 0.0) or "right"
        ways = tuple(Way(f"along-{side}-sideline") if w == Way("along-sideline") else w for w in part.ways)
        part = replace(part, ways=ways)
    return part


def said_already(part: Part, player: int, state: State) -> bool:
    """`turns the corner and gets to the rim`: the second part says again where the first one ends."""
    last = state.get(state.last.get(player))
    return (part.verb == "drive" and not part.ways and isinstance(last, Move) and last.verb == "drive" and last.place.spot == "rim"
            and (not part.places or getattr(part.places[-1], "spot", "") == "rim"))
