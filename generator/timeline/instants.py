"""Nodes of the graph: which instants an action has and at which node each hangs (timeline.md 3.1)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.model.settled import AnyAction, HandOff, Hold, Instant, LooseBall, Pass, Screen, Shot, Stand
from generator.timeline.chains import is_walk

if TYPE_CHECKING:
    from generator.timeline.schedule import At, Schedule


def add_nodes(s: Schedule, action: AnyAction) -> None:
    """Ready and start, then what the action's kind has; an action cut off has only what it has lived through."""
    key, net = action.key, s.net
    if key in s.past_cut:
        s.at[key] = {}
        for instant, t in s.past_cut[key].items():
            node = net.node("cut", key, instant)
            net.fixed[node] = t
            s.at[key][instant] = (node, 0.0)
        s.start[key] = s.at[key][Instant.START][0]
        return
    walk = is_walk(action, action.player)
    run = s.chains.runs[key] if walk else None
    if run is not None and run.key != key:
        course = s.courses.of(key)
        offset = course.times(course.index(key))[0]
        s.start[key], s.ready[key] = s.start[run.key], (s.ready[run.key][0], offset)
    else:
        ready, start = net.node("ready", key), net.node("start", key)
        net.edge(ready, start)
        s.start[key], s.ready[key] = start, (ready, 0.0)
        offset = 0.0
    s.at[key] = {Instant.START: (s.start[key], offset)}
    if walk:
        _walk_nodes(s, action)
    else:
        _still_nodes(s, action)


def _walk_nodes(s: Schedule, action: AnyAction) -> None:
    key, start, instants = action.key, s.start[action.key], s.at[action.key]
    course = s.courses.of(key)
    i = course.index(key)
    end = course.times(i)[1]
    instants[Instant.HALFWAY] = (start, course.map.time_at(sum(course.span(i)) / 2))
    instants[Instant.ARRIVE] = (start, course.arrive(i))
    uses = course.uses[i]
    if uses:
        instants[Instant.USE] = (start, course.map.time_at(uses[0].s_use))
        instants[Instant.CLEAR] = (start, course.map.time_at(uses[-1].s_clear))
    if isinstance(action, Screen):
        _screen_nodes(s, action, (start, end))
    elif isinstance(action, HandOff):
        _hand_off_nodes(s, action, (start, end))
    elif _has_until(action):
        node = s.net.node("end", key)
        s.net.edge(start, node, end)
        instants[Instant.END] = (node, 0.0)
    else:
        instants[Instant.END] = (start, end)


def _has_until(action: AnyAction) -> bool:
    return any(t.hold is Hold.UNTIL for t in action.triggers)


def _screen_nodes(s: Schedule, action: Screen, stop: At) -> None:
    end = s.net.node("end", action.key)
    s.at[action.key][Instant.SET] = (stop[0], stop[1] + s.pace.screen_set)
    s.at[action.key][Instant.END] = (end, 0.0)
    s.net.edge(stop[0], end, stop[1] + s.pace.screen_set)


def _hand_off_nodes(s: Schedule, action: HandOff, stop: At) -> None:
    meet = s.net.node("meet", action.key)
    s.net.edge(stop[0], meet, stop[1])
    s.at[action.key] |= {
        Instant.MEET: (meet, 0.0), Instant.RELEASE: (meet, 0.0),
        Instant.CATCH: (meet, s.pace.hand_off), Instant.END: (meet, s.pace.fake if action.fake else s.pace.hand_off),
    }
    s.at[action.key].setdefault(Instant.ARRIVE, stop)


def _still_nodes(s: Schedule, action: AnyAction) -> None:
    key, start, net = action.key, s.start[action.key], s.net
    instants = s.at[key]
    if isinstance(action, Screen):
        _screen_nodes(s, action, (start, 0.0))
    elif isinstance(action, HandOff):
        _hand_off_nodes(s, action, (start, 0.0))
    elif isinstance(action, Pass):
        catch = net.node("catch", key)
        instants |= {Instant.RELEASE: (start, 0.0), Instant.CATCH: (catch, 0.0), Instant.END: (catch, 0.0)}
    elif isinstance(action, Shot):
        instants |= {Instant.RELEASE: (start, s.pace.shot), Instant.END: (start, s.pace.shot)}
    elif isinstance(action, LooseBall):
        instants |= {Instant.CATCH: (start, s.pace.rebound), Instant.END: (start, s.pace.rebound)}
    else:
        seconds = action.seconds if isinstance(action, Stand) else 0.0
        end = net.node("end", key)
        net.edge(start, end, seconds)
        instants |= {Instant.END: (end, 0.0)}
