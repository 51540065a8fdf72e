"""When to go: the coach's own timing words, else what the start waited for on the timeline."""

from __future__ import annotations

import re

from generator.jobs.deeds import Deed, DeedKind
from generator.model.settled import HandOff, Hold, Move, Pass, Screen, Trigger
from generator.timeline.timed import Timeline

_SILENT = {Hold.THEN, Hold.AT_ONCE}
_WAIT = 0.3  # seconds after the opening from which on a start counts as waited for
_HEADS = {
    DeedKind.MOVE: "Go", DeedKind.DRIBBLE: "Go", DeedKind.SCREEN: "Set it", DeedKind.PASS: "Pass",
    DeedKind.HAND_OFF: "Give it", DeedKind.SHOOT: "Shoot", DeedKind.STAND: "Wait", DeedKind.BOARD: "Go",
}


def cue_sentence(deed: Deed, timeline: Timeline, player: int) -> str:
    """`Go as 2 catches.`: for the first deed of a job; "" when nothing has to be waited for."""
    head = _HEADS.get(deed.kind)
    if head is None:
        return ""
    written = _written(deed.action.triggers)
    if written:
        return f"{_until_head(deed, head)} {written}."
    waited = _waited_for(deed, timeline, player)
    return f"{head} {waited}." if waited else ""


def later_cue(deed: Deed) -> str:
    """`as he arrives`: the coach's timing of a later deed, the partner called `he`."""
    words = _written(deed.action.triggers)
    if deed.kind in (DeedKind.PASS, DeedKind.HAND_OFF, DeedKind.SCREEN) and len(deed.partner) == 1:
        words = re.sub(rf"\b{deed.partner[0]}\b(?! s\b)", "he", words, count=1)
    return words


def _until_head(deed: Deed, head: str) -> str:
    holds = [t.hold for t in deed.action.triggers if t.words]
    if Hold.UNTIL in holds:
        return "Hold it" if deed.kind in (DeedKind.STAND, DeedKind.DRIBBLE) else "Stay"
    if Hold.BEFORE in holds:
        return {"Go": "Be there", "Set it": "Be set"}.get(head, head)
    return head


def _written(triggers: tuple[Trigger, ...]) -> str:
    return " ".join(t.words.strip() for t in triggers if t.words and t.hold not in _SILENT)


def _waited_for(deed: Deed, timeline: Timeline, player: int) -> str:
    timed = timeline.timed.get(deed.action.key)
    if timed is None:
        return ""
    if isinstance(deed.action, Move) and any(u.screen and u.needs_set for u in deed.action.uses):
        screener = next(u.screener for u in deed.action.uses if u.screen and u.needs_set)
        return f"when {screener} is set"
    waited = timeline.timed.get(timed.why)
    opens = timeline.phases[deed.action.phase].opens
    if waited is None or timed.start < opens + _WAIT:
        return ""
    if deed.kind is DeedKind.PASS and waited.action.player not in deed.partner:
        return ""  # the passer looked at somebody else first
    return _event_words(waited.action, player)


def _event_words(action: object, player: int) -> str:
    match action:
        case Pass(receiver=receiver) if receiver != player:
            return f"when {receiver} catches"
        case HandOff(receiver=receiver) if receiver != player:
            return f"when {receiver} has the ball"
        case Screen(player=other) if other != player:
            return f"when {other} is set"
        case Move(player=other) if other != player:
            return f"when {other} is past you" if any(u.screener == player for u in action.uses) else f"when {other} is there"
    return ""


