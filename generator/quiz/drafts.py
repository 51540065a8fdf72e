"""A question before its options are put in order; or the reason why there is none."""

from __future__ import annotations

from dataclasses import dataclass, field

from generator.diagnostics import Diagnostic, Location, info
from generator.model.court import Point
from generator.quiz.candidates import Candidate
from generator.quiz.draws import Draws
from generator.quiz.question import Clip, Kind, Option, Picture, Question
from generator.quiz.scene import Version

RULE = "question-dropped"
_NOWHERE = Location("", 1, 1)


@dataclass(frozen=True, slots=True)
class Draft:
    """`right` and `wrong` are candidates or ready options. `problem` set: there is no question, and why."""

    id: str = ""
    kind: Kind = Kind.JOB
    position: int = 0
    node: str = ""
    prompt: str = ""
    right: tuple[Candidate | Option, ...] = ()
    wrong: tuple[Candidate | Option, ...] = ()
    why: str = ""
    source: Location = _NOWHERE
    read: str = ""
    coverage: str = ""
    at: Point | None = None
    within: float = 0.0
    picture: Picture | None = None
    answer_picture: Picture | None = None
    clip: Clip | None = None
    then: Clip | None = None
    moment: str = ""
    twin: str = ""
    themes: tuple[str, ...] = ()
    problem: Diagnostic | None = field(default=None)


ALIKE = (
    "there are not two other options that clearly end otherwise",
    "answers that differ by more than 1.5 m or by who gets the ball can be asked",
)
TWO_BALLS = (
    "when it is read the ball has already left the passer's hands",
    "read earlier (`when`), or let the pass wait for the screen (`as`, `after`)",
)


def dropped(source: Location, about: str, reason: tuple[str, str] = ALIKE) -> Draft:
    """No question, and why: by default that its wrong options cannot be told from the right one."""
    return Draft(problem=info(source, RULE, f"no fair question: {about}; {reason[0]}", reason[1]))


def finished(draft: Draft, version: Version, seed: str) -> Question:
    """The question with its options in a drawn order, so that the bank itself shows no pattern."""
    options = [(o if isinstance(o, Option) else o.option(), i < len(draft.right)) for i, o in enumerate(draft.right + draft.wrong)]
    mixed = Draws(f"{seed}/{draft.id}").shuffled(options)
    return Question(
        id=draft.id, kind=draft.kind, play=version.times.play.id, position=draft.position, prompt=draft.prompt,
        options=tuple(o for o, _ in mixed), right=tuple(i for i, (_, right) in enumerate(mixed) if right),
        why=draft.why, twin=draft.twin or version.twin_id(draft.kind.value, draft.node, draft.position), node=draft.node,
        source=draft.source, variant=version.times.settled.variant, read=draft.read, coverage=draft.coverage, at=draft.at,
        within=draft.within, picture=draft.picture, answer_picture=draft.answer_picture, clip=draft.clip, then=draft.then,
        moment=draft.moment, themes=tuple(dict.fromkeys(draft.themes)),
    )
