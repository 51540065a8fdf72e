"""Edges of the ball: passes to standing and running receivers, hand-offs, loose balls (timeline.md 3.3)."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from generator.model.court import Point
from generator.model.settled import HandOff, Hold, Instant, LooseBall, Move, Pass, PassKind, Shot
from generator.timeline.parameters import LEAD, LOB_LEAD
from generator.timeline.running_catch import catch_time
from generator.timeline.wishes import ON_RELEASE, wait_for

if TYPE_CHECKING:
    from generator.timeline.schedule import Schedule


def loose_ball_edges(s: Schedule, action: LooseBall) -> None:
    """A rebound or tip waits for the last shot above it to come down."""
    shots = [a for a in s.actions if isinstance(a, Shot) and s.chains.order[a.key] < s.chains.order[action.key]]
    if shots:
        wait_for(s, action.key, s.at[shots[-1].key][Instant.END], s.pace.shot_flight)


def flight_to(s: Schedule, action: Pass, place: Point) -> float:
    """Seconds a pass flies from where its passer stands to `place`."""
    passer = s.courses.place_before(action.key, action.player)
    return hypot(place[0] - passer[0], place[1] - passer[1]) / s.pace.flight_speed(action.pass_kind)


def pass_edges(s: Schedule, action: Pass) -> None:
    """Ball and receiver arrive together; on the run where the move goes on (timeline.md 3.3)."""
    key = action.key
    release, catch = s.start[key], s.at[key][Instant.CATCH][0]
    meets = s.chains.actions.get(action.meets) if action.meets else None
    running = isinstance(meets, Move) and meets.key in s.at and meets.key not in s.past_cut
    starts_on_it = running and _starts_on(meets, key)
    if running and (action.lead or starts_on_it):
        _running_catch(s, action, meets, starts_on_it)
        held = s.free.get(action.receiver, [])
    else:
        place = s.courses.place_before(key, action.receiver)
        flight = flight_to(s, action, place)
        for node, wait, _ in s.free.get(action.receiver, []):
            s.net.edge(node, s.ready[key][0], wait - flight)
        s.net.edge(release, catch, flight)
        held = []
    s.free[action.player] = [(release, s.pace.passer_leaves, "")]
    s.free[action.receiver] = [*held, (catch, s.pace.catch, "pass")]


def _starts_on(move: Move, pass_key: str) -> bool:
    """True for `2 cuts to rim as 1 passes` when the pass goes to 2."""
    return any(
        m.action == pass_key and m.instant in ON_RELEASE
        for t in move.triggers if t.hold in (Hold.AS, Hold.AFTER, Hold.WITH) for m in t.marks
    )


def _running_catch(s: Schedule, action: Pass, meets: Move, starts_on_it: bool) -> None:
    course = s.courses.of(meets.key)
    i = course.index(meets.key)
    lead = LOB_LEAD if action.pass_kind is PassKind.LOB else LEAD
    begin, end = course.span(i)
    aim = max(begin, end - lead)
    t_aim = course.map.time_at(aim)
    flight = flight_to(s, action, course.curve.at(aim))
    release, runner, catch = s.start[action.key], s.start[meets.key], s.at[action.key][Instant.CATCH][0]
    if not starts_on_it:
        s.net.edge(runner, s.ready[action.key][0], t_aim - flight)
    passer = s.courses.place_before(action.key, action.player)
    speed = s.pace.flight_speed(action.pass_kind)

    def find(times: list[float]) -> float:
        if abs(times[runner] + t_aim - flight - times[release]) < 1e-9:
            return times[release] + flight
        return catch_time(course, i, times[runner], passer, times[release], speed)

    s.net.rule(catch, (release, runner), find)


def hand_off_edges(s: Schedule, action: HandOff) -> None:
    """Both are there; who runs through starts so that he is there with the giver."""
    key = action.key
    meet = s.at[key][Instant.MEET][0]
    for node, wait, _ in s.free.get(action.receiver, []):
        s.net.edge(node, meet, wait)
    move = s.chains.actions.get(action.receiver_move) if action.receiver_move else None
    run = s.chains.runs.get(move.key) if move is not None and s.has(move.key) and move.key not in s.past_cut else None
    if run is not None and action in run.through:
        course = s.courses.of(move.key)
        stop = s.stop(key) or (s.start[key], 0.0)
        s.net.edge(stop[0], s.ready[run.key][0], stop[1] - course.times(course.index(move.key))[1], owner=key)
    s.free[action.player] = [(*s.at[key][Instant.END], "")]
    s.free[action.receiver] = [(*s.at[key][Instant.END], "")]
