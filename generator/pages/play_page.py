"""A timed play and its parts -> the view of its page: phases of the main line, then those reached only by a read."""

from __future__ import annotations

from collections.abc import Iterator

from generator.model.play import Answer, Play, Read, Teach
from generator.model.sentence import Player
from generator.model.settled import Branch, BranchPhase
from generator.pages.addresses import series_page, url_of
from generator.pages.figures import Figures
from generator.pages.lists import series_of
from generator.pages.parts import Picture, PlayParts
from generator.pages.sights import reader_words, sees, watch_words
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
    play = times.play
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
        phases=tuple(
            _phase(number, branch, index, play, parts, figures)
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


def _phase(number: int, branch: Branch, index: int, play: Play, parts: PlayParts, figures: Figures) -> PhaseView:
    phase = branch.phases[index]
    reads = (f.read for f in branch.forks if f.phase == index and f.depth == 0)
    written = next((p for p in play.phases if getattr(p, "id", "") == phase.id), None)
    return PhaseView(
        id=phase.id,
        number=number,
        name=phase.name,
        note=_phase_note(phase, branch, play),
        figure=_figure(parts.phase_pictures.get(phase.id), figures),
        jobs=parts.phase_jobs.get(phase.id, ()),
        reads=tuple(_read(r, parts, figures) for r in dict.fromkeys(reads)),
        teach=tuple(map(_teach, _for_everyone(written.teach))) if written else (),
    )


def _phase_note(phase: BranchPhase, branch: Branch, play: Play) -> str:
    if branch.parent is not None:
        return f"Only {branch.name}."
    repeat = next((p for p in play.phases if getattr(p, "phase", None) == phase.name), None)
    if repeat is not None:
        side = " on the other side" if repeat.mirrored else ""
        until = f", until {repeat.until}" if repeat.until else ""
        return f"From here the play repeats{side}{until}."
    return "Can be left out." if phase.optional else ""


def _read(read: Read, parts: PlayParts, figures: Figures) -> ReadView:
    return ReadView(
        id=read.id,
        reader=reader_words(read.who),
        watches=watch_words(read.watch),
        answers=tuple(_answer(a, read, parts, figures) for a in read.answers),
        positions=(read.who.number,) if isinstance(read.who, Player) else (),
        why=read.why.text if read.why else "",
    )


def _answer(answer: Answer, read: Read, parts: PlayParts, figures: Figures) -> AnswerView:
    return AnswerView(
        id=answer.id,
        sees=sees(answer, read),
        does=tuple(line.text for line in answer.lines),
        why=answer.why.text if answer.why else "",
        leads_to=_leads_to(answer),
        figure=_figure(parts.answer_pictures.get(answer.id), figures),
        jobs=parts.answer_jobs.get(answer.id, ()),
        reads=tuple(_read(r, parts, figures) for r in answer.reads),
    )


def _leads_to(answer: Answer) -> str:
    if answer.go_to is not None:
        side = ", mirrored" if answer.go_to.mirrored else ""
        return f"then {answer.go_to.target}{side}"
    if not answer.lines and not answer.reads:
        return "play on"
    return "then play on" if answer.go_on else ""


def _figure(picture: Picture | None, figures: Figures) -> Figure | None:
    return figures.add(picture.svg, words=picture.words) if picture else None


def _for_everyone(teach: tuple[Teach, ...]) -> tuple[Teach, ...]:
    """A player's own teaching point stands in his job; here remain those for all."""
    return tuple(t for t in teach if not t.players)


def _teach(teach: Teach) -> str:
    who = joined(tuple(map(str, teach.players)))
    return f"{who}: {teach.text}" if who else teach.text
