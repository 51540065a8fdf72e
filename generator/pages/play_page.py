"""A timed play and its parts -> the view of its page: phases of the main line, then those reached only by a read."""

from __future__ import annotations

from collections.abc import Iterator

from generator.model.play import Answer, Play, Read, Teach
from generator.model.settled import Branch, BranchPhase, Fork
from generator.pages.addresses import series_page, url_of
from generator.pages.figures import Figures
from generator.pages.lists import series_of
from generator.pages.parts import PlayParts
from generator.pages.sights import clause, head
from generator.pages.views import (
    AnswerView,
    Figure,
    FilmLink,
    Link,
    PhaseView,
    PlayView,
    ReadView,
)
from generator.pages.wording import facts, joined
from generator.timeline.timed import PlayTimes


def play_view(times: PlayTimes, parts: PlayParts, neighbours: tuple[Play | None, Play | None], figures: Figures) -> PlayView:
    """The view of one play; `neighbours` are the plays before and after it in its series."""
    play, page = times.play, _Page(times, parts, figures)
    before, after = (Link(p.name, url_of(p.id)) if p else None for p in neighbours)
    series = series_of(play)
    return PlayView(
        id=play.id,
        name=play.name,
        series=Link(series, url_of(series_page(series))),
        purpose=play.purpose,
        call=play.call,
        signal=play.signal,
        facts=facts(play),
        motion=parts.motion,
        floor=figures.add(parts.floor) if parts.floor else None,
        phases=tuple(
            page.phase(number, branch, index)
            for number, (branch, index) in enumerate(shown_phases(times), start=1)
        ),
        look_alikes=parts.look_alikes,
        clock=parts.clock,
        teach=tuple(map(_teach, play.teach)),
        films=tuple(FilmLink(f.title, f.link) for f in play.film),
        before=before,
        after=after,
        note="Draft: not on phones." if play.draft else "",
    )


def shown_phases(times: PlayTimes) -> Iterator[tuple[Branch, int]]:
    """(branch, index of the phase in it): each phase once, the main line's first; rounds of a repeat only once."""
    seen: set[str] = set()
    for branch in times.settled.branches:
        for index, phase in enumerate(branch.phases):
            if phase.id not in seen:
                seen.add(phase.id)
                yield branch, index


def forks_by_read(times: PlayTimes) -> dict[str, tuple[Fork, Branch]]:
    """The fork at which each read is first met, and the branch it is met in."""
    found: dict[str, tuple[Fork, Branch]] = {}
    for branch in times.settled.branches:
        for fork in branch.forks:
            found.setdefault(fork.read.id, (fork, branch))
    return found


class _Page:
    """One play page in the making."""

    def __init__(self, times: PlayTimes, parts: PlayParts, figures: Figures) -> None:
        self.play, self.parts, self.figures = times.play, parts, figures
        self.forks = forks_by_read(times)

    def phase(self, number: int, branch: Branch, index: int) -> PhaseView:
        phase = branch.phases[index]
        forks = [f for f in branch.forks if f.phase == index and f.depth == 0]
        written = next((p for p in self.play.phases if getattr(p, "id", "") == phase.id), None)
        return PhaseView(
            id=phase.id,
            number=number,
            name=phase.name,
            note=_phase_note(phase, branch, self.play),
            figures=tuple(map(self.figures.add, self.parts.phase_pictures.get(phase.id, ()))),
            jobs=self.parts.phase_jobs.get(phase.id, ()),
            reads=tuple(map(self._read, dict.fromkeys(f.read for f in forks))),
            readers=frozenset(f.reader for f in forks),
            teach=tuple(map(_teach, _for_everyone(written.teach))) if written else (),
        )

    def _read(self, read: Read) -> ReadView:
        fork, branch = self.forks[read.id]
        return ReadView(
            id=read.id,
            head=head(fork),
            answers=tuple(self._answer(a, fork, branch) for a in read.answers),
            positions=(fork.reader,),
            why=read.why.text if read.why else "",
        )

    def _answer(self, answer: Answer, fork: Fork, branch: Branch) -> AnswerView:
        return AnswerView(
            id=answer.id,
            sees=clause(answer, fork, branch),
            does=tuple(line.text for line in answer.lines),
            why=answer.why.text if answer.why else "",
            leads_to=_leads_to(answer),
            figure=self._figure(self.parts.answer_pictures.get(answer.id)),
            reads=tuple(self._read(r) for r in answer.reads if r.id in self.forks),
        )

    def _figure(self, picture: str | None) -> Figure | None:
        return self.figures.add(picture) if picture else None


def _phase_note(phase: BranchPhase, branch: Branch, play: Play) -> str:
    if branch.parent is not None:
        return f"Only {branch.name}."
    repeat = next((p for p in play.phases if getattr(p, "phase", None) == phase.name), None)
    if repeat is not None:
        side = " on the other side" if repeat.mirrored else ""
        until = f", until {repeat.until}" if repeat.until else ""
        return f"From here the play repeats{side}{until}."
    return "Can be left out." if phase.optional else ""


def _leads_to(answer: Answer) -> str:
    if answer.go_to is not None:
        side = ", mirrored" if answer.go_to.mirrored else ""
        return f"then {answer.go_to.target}{side}"
    if not answer.lines and not answer.reads:
        return "play on"
    return "then play on" if answer.go_on else ""


def _for_everyone(teach: tuple[Teach, ...]) -> tuple[Teach, ...]:
    """A player's own teaching point stands in his job; here remain those for all."""
    return tuple(t for t in teach if not t.players)


def _teach(teach: Teach) -> str:
    who = joined(tuple(map(str, teach.players)))
    return f"{who}: {teach.text}" if who else teach.text
