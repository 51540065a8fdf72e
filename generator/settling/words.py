"""Words for messages and cues, made from the tree of a sentence. In: values; out: plain English."""

from __future__ import annotations

from generator.model.sentence import (
    AreaDefender,
    DefenderBody,
    DefenderOf,
    Event,
    Everyone,
    Line,
    NearestTo,
    One,
    Player,
    Relation,
    Role,
    SpotPlace,
    Timing,
)
from generator.model.spots import spot_words
from generator.vocabulary.events import EVENTS
from generator.vocabulary.words import third_form

_EVENTS = {row.id: third_form(row.words[0]) for row in EVENTS}


def say_line(line: Line) -> str:
    """`1 passes to 2` (line 14)."""
    return f"`{line.text}` (line {line.source.line})"


def say_one(one: One | None) -> str:
    """A person as the coach would name him."""
    if one is None:
        return "ball"
    if isinstance(one, Player):
        return str(one.number)
    if isinstance(one, DefenderBody):
        return f"X{one.number}"
    if isinstance(one, DefenderOf):
        return "his defender" if one.of is None else f"{say_one(one.of)}'s defender"
    if isinstance(one, AreaDefender):
        return f"the {one.area} defender"
    if isinstance(one, Role):
        return one.name
    if isinstance(one, Everyone):
        return "everyone else" if one.others else "everyone"
    return f"nearest to {say_place(one.place)}" if isinstance(one, NearestTo) else f"player at {say_place(one.place)}"


def say_place(place: object) -> str:
    """A place as the coach would name it, as far as its tree tells."""
    if isinstance(place, SpotPlace):
        side = place.side.value if place.side.value != "none" else ""
        return spot_words(place.spot, side, place.argument, place.backcourt)
    return "that place"


def say_event(event: Event, he: int | None = None) -> str:
    """`2 catches`, `3 s on the clock`. `he`: the player a role word stands for."""
    if event.kind == "clock":
        return f"{event.seconds:g} s on the clock"
    who = str(he) if he is not None else say_one(event.one)
    words = f"{who} {_EVENTS.get(event.kind, event.kind)}"
    if event.place is not None:
        words += f" {say_place(event.place)}"
    return f"{words} {say_one(event.other)}" if event.other is not None else words


def say_timing(timing: Timing, he: int | None = None) -> str:
    """The timing phrase: `as 2 catches`, `with 3`, `at 6 s`, `on the pass`."""
    if timing.relation is Relation.WITH:
        return f"with {he if he is not None else say_one(timing.one)}"
    if timing.relation is Relation.AT_CLOCK:
        return f"at {timing.seconds:g} s"
    if timing.relation is Relation.ON:
        return f"on the {timing.event.kind}" if timing.event else "on the pass"
    if timing.event is None:
        return timing.relation.value
    return f"{timing.relation.value} {say_event(timing.event, he)}"
