"""Two players sent to one spot in a phase. In: the state at its end; out: errors (language.md section 5)."""

from __future__ import annotations

from generator.model.court import Point
from generator.model.settled import HandOff
from generator.settling.places import SAME_SPOT
from generator.settling.state import Setting, State

_AT_RIM = 1.0  # finishers pass one another under the basket


def report_shared_spots(state: State, setting: Setting) -> None:
    """Notes the second of two lines that send two players to one spot, unless the first leaves it by a later line;
    warns where somebody is sent to a spot that another holds for the whole phase."""
    rim = Point(0.0, setting.court.rim)
    for index, (player, point, line, key) in enumerate(state.sent):
        if point.distance(rim) < _AT_RIM or _met_for_the_ball(state, key):
            continue
        for other, there, first_line, first_key in state.sent[:index]:
            if other == player or there.distance(point) > SAME_SPOT or not _stays(state, other, there) or (
                    not _stays(state, player, point)) or _met_for_the_ball(state, first_key):
                continue
            spot = state.get(key).place.words
            setting.problems.error(
                line.source, "two-to-one-spot", f"{other} and {player} are both sent to {spot}: `{first_line.text}` "
                f"(line {first_line.source.line}) and `{line.text}` (line {line.source.line})",
                f"send one of them elsewhere, or let {other} leave first")
    _warn_held(state, setting, rim)


def _stays(state: State, player: int, point: Point) -> bool:
    return state.place[player].distance(point) <= SAME_SPOT


def _warn_held(state: State, setting: Setting, rim: Point) -> None:
    sent = {s[0] for s in state.sent}
    for player, point, line, key in state.sent:
        if point.distance(rim) < _AT_RIM or not _stays(state, player, point) or _met_for_the_ball(state, key):
            continue
        for other, there in state.place.items():
            if other != player and other not in sent and there.distance(point) <= SAME_SPOT:
                setting.problems.warn(line.source, "spot-held", f"{player} is sent to {state.get(key).place.words}, "
                                      f"where {other} stands and stays", f"send {other} away, or name another spot")


def _met_for_the_ball(state: State, key: str) -> bool:
    """A hand-off brings two players to one place on purpose."""
    move = state.get(key)
    return any(isinstance(a, HandOff) and move is not None and move.player in (a.player, a.receiver) for a in state.of_phase())
