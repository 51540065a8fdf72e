"""The small picture of an answer: from the instant of its read point, numbers and routes alike, to the plan.

The defenders the read watches stand where their coverage has brought them, with the trace of their last steps.
"""

from __future__ import annotations

from generator.diagrams.path import Spot
from generator.diagrams.placement import compose
from generator.diagrams.read_picture import with_last_steps
from generator.diagrams.scene import (
    Bar,
    EndGhost,
    HandOffMark,
    Line,
    OrderMark,
    PassLine,
    Scene,
    ShotMark,
    View,
    Wave,
)
from generator.diagrams.sketch import Flight, Sketch
from generator.diagrams.trails import Trails, draw_actions
from generator.diagrams.words import lines_in_words
from generator.model.play import WatchKind
from generator.model.settled import AnyAction, Branch
from generator.timeline.timed import Ball, PlayTimes, Timeline


def answer_diagram(times: PlayTimes, branch_key: str, view: View, highlight: int | None = None) -> Scene:
    """The scene of the answer by which the branch leaves its parent. `view`: from `play_view`."""
    timeline = times.timelines[branch_key]
    branch = timeline.branch
    if branch.departure is None:
        raise ValueError(f"branch {branch_key} leaves no other")
    fork = branch.forks[branch.departure.fork]
    instant = timeline.fork_times[branch.departure.fork]
    actions = _shown(branch, fork.phase)
    ball = timeline.ball(instant)
    drawn = draw_actions(timeline, view, actions, since=instant)
    flights = drawn.flights if ball.holder else _in_flight(ball, drawn, timeline, view)
    key = fork.answer.key
    watched = fork.watched if fork.read.watch.kind is WatchKind.DEFENDERS else ()
    scene = compose(
        Sketch(
            view,
            {p: view.place(timeline.position(p, instant)) for p in branch.start},
            ball.holder,
            f"{times.play.name}: {key}" if key else times.play.name,
            lines_in_words(a for a in actions if a.key in branch.departure.own),
            drawn.trails,
            flights,
            drawn.hand_offs,
            drawn.shots,
            drawn.order,
            defenders={b: view.place(timeline.defender(b, instant)) for b in watched},
            watched=frozenset(watched),
            own=highlight,
        )
    )
    return with_last_steps(scene, timeline, instant, (), watched, _ink(scene))


def _ink(scene: Scene) -> tuple[Spot, ...]:
    """Spots where a trace would be taken for something else: ends, heads, bars, marks."""
    tips = (item.path.last for item in scene.of(Line, Wave, PassLine))
    return (*tips, *(item.at for item in scene.of(EndGhost, Bar, HandOffMark, ShotMark, OrderMark)))


def _shown(branch: Branch, phase: int) -> list[AnyAction]:
    """The answer's own lines and, up to its phase, whatever is still going on: late movers, lines the answer leaves
    alone, and those it stops as far as they still run."""
    own = set(branch.departure.own)
    return [a for a in branch.actions if a.key in own or a.phase <= phase]


def _in_flight(ball: Ball, drawn: Trails, timeline: Timeline, view: View) -> tuple[Flight, ...]:
    """A pass that is in the air at the read point flies from where the ball is."""
    here = view.place(ball.point)
    return tuple(
        Flight(f.passer, f.receiver, here, f.end) if (f.passer, f.receiver) == (ball.passer, ball.receiver) else f
        for f in drawn.flights
    )
