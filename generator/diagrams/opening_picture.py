"""The opening of a phase, numbers only: where the five stand by the plan and who has the ball."""

from __future__ import annotations

from generator.diagrams.placement import compose
from generator.diagrams.scene import Scene, View
from generator.diagrams.sketch import Sketch
from generator.diagrams.trails import places_at_opening
from generator.diagrams.words import phase_title, picture_words
from generator.timeline.timed import PlayTimes


def opening_picture(times: PlayTimes, branch_key: str, phase_index: int, view: View, told: bool = True) -> Scene:
    """The scene as phase `phase_index` of the branch opens. `view`: from `play_view`. `told` False: neither title nor
    words name the play or the phase, for pictures that ask which play it is."""
    timeline = times.timelines[branch_key]
    phase = timeline.branch.phases[phase_index]
    places = places_at_opening(timeline, phase_index)
    return compose(
        Sketch(
            view,
            {p: view.place(at) for p, at in places.items()},
            phase.holder,
            phase_title(times.play, phase) if told else "Where the five stand",
            picture_words(phase.plan_names, phase.holder, ()),
        )
    )
