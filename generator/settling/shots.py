"""Shots: from where he is, from the end of a drive, from the place a line names. In: Doing; out: Shot actions."""

from __future__ import annotations

import re

from generator.model.settled import Move, Shot
from generator.settling.doing import Doing, effort_of
from generator.settling.moves import stop_at_lane_edge
from generator.settling.problems import mistake

_THERE = 1.6  # metres: so near to the place named he is there
_AT_RIM = re.compile(r"finish|score|dunk|lay")  # shots taken at the rim
_AT_THE_BASKET = 3.0  # `finishes at the rim`: one step and a lay-up away (from memory)


def do_shoot(doing: Doing) -> None:
    """Shoots from where he is; a driver who finishes goes all the way, one who pulls up stops at the lane edge."""
    state = doing.state
    words = doing.part.text.lower() if doing.part.text else ""
    if _goes_there(doing, words):
        pass
    elif not _AT_RIM.match(words):
        stop_at_lane_edge(doing)
    doing.add(Shot(**doing.shared(doing.origin, state.name[doing.player]), on_purpose=doing.part.verb == "miss"))
    state.holder, state.since, state.in_air = None, doing.item.line, "shot"
    state.ended = "shot"


def _goes_there(doing: Doing, words: str) -> bool:
    """`pulls up at right elbow`: he dribbles there, a drive stops there; `finishes at the rim`: he drives. Any other shot
    only says where he is."""
    state = doing.state
    if not doing.part.places:
        return False
    end, name = doing.find(doing.part.places[-1])
    near = doing.origin.distance(end)
    if near <= _THERE or name.spot == "rim" and near <= _AT_THE_BASKET:
        return False
    last = state.get(state.last.get(doing.player))
    at_rim = name.spot == "rim" and _AT_RIM.match(words)
    if not at_rim and not words.startswith("pull"):
        raise mistake(doing.line_where, "shot-elsewhere", f"{doing.player} shoots at {name.words}, but he is at {state.name[doing.player].words}",
                      f"move him there before it, as in `{doing.player} dribbles to right elbow then pulls up`")
    if isinstance(last, Move) and last.verb == "drive" and last.phase == state.phase and last.place.spot == "rim":
        state.change(last.key, end=end, place=name)
        state.move(doing.player, end, name)
        return True
    verb = "drive" if at_rim else "dribble"
    shared = doing.shared(end, name) | {"key": f"{doing.key}d", "verb": verb, "kind": ""}
    doing.add(Move(**shared, effort=effort_of(verb, "", doing.part.manners), with_ball=True))
    state.last_move[doing.player] = f"{doing.key}d"
    return True
