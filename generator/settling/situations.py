"""The stated situation against what the start says. In: script, state; out: diagnostics."""

from __future__ import annotations

from generator.settling.script import Script
from generator.settling.state import Setting, State

_PLACES = {
    "baseline out of bounds": ("baseline out of bounds", "backcourt baseline out of bounds"),
    "sideline out of bounds": ("sideline out of bounds",),
    "after a made basket": ("backcourt baseline out of bounds",),
}
_NEVER_OUT = ("rebound", "jump ball", "free throw")


def check_situation(script: Script, state: State, setting: Setting) -> None:
    """A stated situation that disagrees with where the ball is: an error. `live` is what nobody stated."""
    play, source = script.play, script.start.source
    spot = state.name[state.holder].spot if state.holder in state.name else ""
    stated = play.situation
    out = bool(state.out)
    if stated in _PLACES and spot not in _PLACES[stated] and not script.joints:
        where = f"{state.holder} starts at {state.name[state.holder].words}" if state.holder in state.name else "nobody has the ball"
        setting.problems.error(source, "situation-disagrees", f"the situation is {stated}, but {where}",
                               f"place the inbounder at `{_PLACES[stated][0]} right with the ball`")
    if stated in _NEVER_OUT and out:
        setting.problems.error(source, "situation-disagrees", f"the situation is {stated}, but {state.holder} stands out of bounds",
                               "drop `situation`: an inbounder says it by himself")
