"""Does a part fit where the part before it ends? In: a Joint of the script, the state; out: errors.

Nobody more than 1.5 m off, the ball in the same hands.
"""

from __future__ import annotations

from generator.model.play import Start
from generator.model.spots import name_place
from generator.settling.places import find_place
from generator.settling.problems import Mistake
from generator.settling.script import Joint
from generator.settling.state import Item, Setting, State

FIT = 1.5  # metres, language.md 6.4


def report_joint(joint: Joint, state: State, setting: Setting) -> None:
    """Notes what does not fit between a lead-in's end and the start of what follows it."""
    whose = f"the start of {joint.name}"
    for message in misfits(joint.start, state, setting, whose, joint.follows):
        setting.problems.error(joint.source, "lead-in-fit", message,
                               "end the lead-in where the play begins, or give its roles: `{1: 2, 2: 1}`")
        return


def misfits(start: Start, state: State, setting: Setting, whose: str, before: str) -> list[str]:
    """Sentences, one for the worst player and one for the ball."""
    worst, said = 0.0, ""
    for place in start.places:
        if place.player not in state.place:
            continue
        try:
            point, name = find_place(place.place, place.player, state, setting, _NOBODY, place.source)
        except Mistake:
            continue  # said where the start itself is read
        far = state.place[place.player].distance(point)
        if far > max(FIT, worst):
            there = name_place(setting.court, state.place[place.player]).words
            worst = far
            said = f"{before} leaves {place.player} at {there}, {far:.1f} m from {name.words}, {whose}"
    found = [said] if said else []
    holder = next((p.player for p in start.places if p.with_ball), 1)
    if state.holder != holder and not state.ended:
        who = f"{state.holder} has" if state.holder else "nobody has"
        found.append(f"after {before} {who} the ball; {whose} gives it to {holder}")
    return found


_NOBODY = Item(None, "")
