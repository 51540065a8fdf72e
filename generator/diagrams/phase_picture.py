"""The picture of a phase (the plan): starts, ways, passes, screens, faint ends.

The plan is where the lines of the phases before leave each player, whoever is still on his way on the clock
(timeline.md 3.8). A phase is one picture unless it is crowded: more than `MOST_LINES` lines, or lines that placement
could not keep apart; then two pictures, split at the ball line in the middle of its play.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from generator.diagrams.placement import compose
from generator.diagrams.scene import Line, PassLine, Scene, View, Wave
from generator.diagrams.sketch import Sketch
from generator.diagrams.trails import draw_actions, places_at_opening
from generator.diagrams.words import phase_title, picture_words
from generator.model.book import Team
from generator.model.court import Point, court_for
from generator.model.settled import AnyAction, BranchPhase, HandOff, Pass
from generator.timeline.timed import PlayTimes, Timeline

MOST_LINES = 10
_RUN_OFF = 1.45  # metres shown behind a line where somebody throws in


def play_view(times: PlayTimes, team: Team) -> View:
    """The view of a play and its motion: as deep as anybody goes, with run-off only where somebody throws in. Each
    picture leaves out what of it nobody uses (`compose`)."""
    court = court_for(team.rule_set)
    points = [p for t in times.timelines.values() for p in _places(t)]
    far_end = court.length + (_RUN_OFF if any(p.y > court.length for p in points) else 0.5)
    side = _RUN_OFF if any(abs(p.x) > court.half_width for p in points) else 0.5
    behind = _RUN_OFF if any(p.y < 0 for p in points) else 0.5
    everything = View(team.rule_set, team.basket, far_end, side, behind)
    return replace(everything.reaching(max(p.y for p in points)), whole=False)


def _places(timeline: Timeline) -> Iterable[Point]:
    for phase in timeline.branch.phases:
        yield from phase.plan.values()
        yield from phase.end_plan.values()


def phase_diagram(
    times: PlayTimes,
    branch_key: str,
    phase_index: int,
    view: View,
    highlight: int | None = None,
    defenders: Iterable[int] | None = None,
) -> Scene:
    """The whole phase as one scene. `view`: from `play_view`. `highlight`: the position it is for. `defenders`: bodies
    to show where they stand as the phase opens."""
    timeline = times.timelines[branch_key]
    phase = timeline.branch.phases[phase_index]
    actions = [timeline.branch.action(k) for k in phase.actions]
    starts = places_at_opening(timeline, phase_index)
    marks = {b: timeline.defender(b, timeline.phases[phase_index].opens) for b in defenders or ()}
    title = phase_title(times.play, phase)
    return compose(_sketch(timeline, view, actions, starts, phase.holder, title, phase, highlight, marks))


def phase_diagrams(
    times: PlayTimes, branch_key: str, phase_index: int, view: View, highlight: int | None = None
) -> tuple[Scene, ...]:
    """The phase as it is printed: one scene, or two when it is crowded and two are clearer."""
    scene = phase_diagram(times, branch_key, phase_index, view, highlight)
    if not crowded(scene):
        return (scene,)
    halves = _halves(times, branch_key, phase_index, view, highlight)
    return halves if halves and sum(s.strain for s in halves) <= scene.strain else (scene,)


def crowded(scene: Scene) -> bool:
    """The stated limit for a second picture."""
    return scene.strain > 0 or len(scene.of(Line, Wave, PassLine)) > MOST_LINES


def _halves(
    times: PlayTimes, branch_key: str, phase_index: int, view: View, highlight: int | None
) -> tuple[Scene, ...] | None:
    timeline = times.timelines[branch_key]
    phase = timeline.branch.phases[phase_index]
    actions = [timeline.branch.action(k) for k in phase.actions]
    cut = _middle_ball_line(actions)
    if cut is None:
        return None
    first, second = actions[: cut + 1], actions[cut + 1 :]
    starts = places_at_opening(timeline, phase_index)
    between = {p: _after(timeline, first, p, at) for p, at in starts.items()}
    holder = first[-1].receiver
    title = phase_title(times.play, phase)
    one = _sketch(timeline, view, first, starts, phase.holder, f"{title}, first part", phase, highlight, {})
    two = _sketch(timeline, view, second, between, holder, f"{title}, second part", phase, highlight, {})
    return compose(one), compose(two)


def _middle_ball_line(actions: list[AnyAction]) -> int | None:
    """Index of the pass or hand-off in the middle, if lines follow it."""
    balls = [i for i, a in enumerate(actions) if isinstance(a, Pass | HandOff) and not getattr(a, "fake", False)]
    balls = [i for i in balls if i < len(actions) - 1]
    return min(balls, key=lambda i: abs(i + 1 - len(actions) / 2)) if balls else None


def _after(timeline: Timeline, actions: list[AnyAction], player: int, at: Point) -> Point:
    ends = [t.end for a in actions if a.player == player and (t := timeline.timed.get(a.key)) and t.route is not None]
    return timeline.position(player, max(ends)) if ends else at


def _sketch(
    timeline: Timeline, view: View, actions: list[AnyAction], starts: Mapping[int, Point], holder: int | None,
    title: str, phase: BranchPhase, own: int | None, defenders: Mapping[int, Point],
) -> Sketch:
    drawn = draw_actions(timeline, view, actions)
    return Sketch(
        view,
        {p: view.place(at) for p, at in starts.items()},
        holder,
        title,
        picture_words(phase.plan_names, holder, actions),
        drawn.trails,
        drawn.flights,
        drawn.hand_offs,
        drawn.shots,
        drawn.order,
        defenders={b: view.place(at) for b, at in defenders.items()},
        own=own,
    )
