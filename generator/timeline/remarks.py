"""What the timeline says to the coach: a screen that has gone, a player who is not on the way (timeline.md 1.10, 3.4)."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from generator.diagnostics import Diagnostic, warning
from generator.model.settled import Instant, Move
from generator.timeline.parameters import OFF_THE_WAY

if TYPE_CHECKING:
    from generator.timeline.timeline import BranchTimeline


def remarks(timeline: BranchTimeline) -> tuple[Diagnostic, ...]:
    """Warnings about screens of one branch."""
    said: list[Diagnostic] = []
    for timed in timeline.timed.values():
        action = timed.action
        if isinstance(action, Move) and action.uses and timed.cut_at is None:
            said.extend(_gone(timeline, action))
            said.extend(_off_the_way(timeline, action))
    return tuple(said)


def _gone(timeline: BranchTimeline, move: Move):
    """`5 has left before 4 uses his screen`."""
    schedule = timeline.schedule
    for use in move.uses:
        following = schedule.screens_left.get(use.screen)
        used = schedule.use_of(move.key, use.screen, Instant.USE) if use.screen else None
        if following is None or used is None or following.key not in timeline.timed:
            continue
        if timeline.timed[following.key].start < schedule.net.times[used[0]] + used[1] - 1e-6:
            yield warning(
                move.source, "screen-has-left", f"{use.screener} has left before {move.player} uses his screen",
                f'write "{move.text}" above the line with which {use.screener} leaves',
            )


def _off_the_way(timeline: BranchTimeline, move: Move):
    course = timeline.schedule.courses.of(move.key)
    begin, end = course.span(course.index(move.key))
    a, b = course.curve.at(begin), course.curve.at(end)
    straight = hypot(b[0] - a[0], b[1] - a[1])
    if straight > 1.0 and not move.via and end - begin > OFF_THE_WAY * straight:
        screener = move.uses[0].screener
        yield warning(
            move.source, "not-on-the-way", f"{screener} is not on {move.player}'s way to {move.place.words}",
            "move the screen between the two places, or send him another way",
        )
