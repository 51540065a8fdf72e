"""Players who stand where another wants to run, found once everything is timed (timeline.md 1.8)."""

from __future__ import annotations

from collections.abc import Mapping
from math import hypot

from generator.model.court import Point
from generator.model.settled import Move
from generator.timeline.chains import participants
from generator.timeline.courses import Course
from generator.timeline.movement import Movement
from generator.timeline.parameters import AT_END, BODY_TOUCH, DEFENDER_GAP
from generator.timeline.schedule import Schedule
from generator.timeline.shaping import at_an_end
from generator.timeline.taut import toward

GHOST_TICK = 0.05  # seconds
SAME = 0.05  # metres: known already


def standing_in_the_way(s: Schedule, movements: Mapping[int, Movement]) -> dict[str, tuple[Point, ...]]:
    """For each run not yet begun in the trunk: places of standing players it would run through."""
    found: dict[str, tuple[Point, ...]] = {}
    stands = {p: m.standing() for p, m in movements.items()}
    for run in dict.fromkeys(s.chains.runs.values()):
        if run.key in s.past_cut or s.net.fixed[s.start[run.key]] is not None:
            continue
        course = s.courses.of(run.key)
        friends = {run.player} | {u.screener for m in run.members if isinstance(m, Move) for u in m.uses}
        friends |= {p for h in run.through if h for p in participants(h)}
        began = s.net.times[s.start[run.key]]
        places = tuple(
            place for player in sorted(stands) if player not in friends
            for place in _met(course, began, stands[player])
        )
        places += tuple(p for m in run.members if isinstance(m, Move) and m.ghost for p in _guard_met(s, movements, run.player, m))
        if places:
            found[run.key] = places
    return found


def _met(course: Course, began: float, stands: list[tuple[float, float, Point]]) -> list[Point]:
    met = []
    start, end, length = course.curve.start, course.curve.end, course.curve.length
    finish = began + course.map.total
    for since, until, place in stands:
        if until < began or since > finish or any(place.distance(known) < SAME for known in course.standing):
            continue
        a = hypot(place[0] - start[0], place[1] - start[1])
        b = hypot(place[0] - end[0], place[1] - end[1])
        if a + b > length + 2 * BODY_TOUCH:
            continue
        s, distance = course.curve.nearest(place)
        if distance >= BODY_TOUCH or not AT_END < s < length - AT_END or at_an_end(course.curve, place, s, distance):
            continue
        if since <= began + course.map.time_at(s) <= until:
            met.append(place)
    return met


def _guard_met(s: Schedule, movements: Mapping[int, Movement], ghost: int, move: Move) -> tuple[Point, ...]:
    """A ghost touches nobody: where the ball handler's defender is (1.0 m from him toward the rim) when the ghost would
    run into him, and the handler himself, who is not to be run into instead."""
    holder = s.branch.phases[move.phase].holder
    if holder is None or holder == ghost or holder not in movements:
        return ()
    course = s.courses.of(move.key)
    begin, end = course.times(course.index(move.key))
    began = s.net.times[s.start[s.chains.runs[move.key].key]]
    instants = [began + begin + i * GHOST_TICK for i in range(int((end - begin) / GHOST_TICK) + 1)]

    def guard(t: float) -> Point:
        return toward(movements[holder].place(t), s.courses.rim, DEFENDER_GAP)

    def gap(t: float) -> float:
        a, b = movements[ghost].place(t), guard(t)
        return hypot(a[0] - b[0], a[1] - b[1])

    met = min(instants, key=gap)
    if gap(met) >= BODY_TOUCH:
        return ()
    return tuple(p for p in (guard(met), movements[holder].place(met)) if all(p.distance(known) >= SAME for known in course.standing))
