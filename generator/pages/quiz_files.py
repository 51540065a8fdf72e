"""Questions -> the files a phone loads for the quiz: an index, and for each play its bank and its pictures."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from generator.diagrams import (
    answer_diagram,
    court_symbol,
    diagram_svg,
    moment_picture,
    opening_picture,
    phase_diagram,
)
from generator.diagrams.scene import Scene, View
from generator.model.book import Book
from generator.model.play import Play
from generator.model.settled import Variant
from generator.pages.addresses import fixed_page, url_of
from generator.pages.kept import Kept
from generator.pages.keys import digest
from generator.pages.site import SiteFile, json_file
from generator.quiz import Question, bank_json, index_json, pictures_wanted, team_bank_json
from generator.quiz.question import TEAM, Picture
from generator.timeline.other_sight import other_sight
from generator.timeline.timed import PlayTimes

INDEX = "data/quiz.json"


def quiz_files(
    book: Book, versions: Iterable[PlayTimes], questions: Sequence[Question], views: Mapping[str, View],
    keys: Mapping[str, str], kept: Kept,
) -> tuple[SiteFile, ...]:
    """`versions`: every version of the plays asked about; `views`: of the floor, by play id."""
    asked: dict[str, list[Question]] = {}
    for question in questions:
        asked.setdefault(question.play, []).append(question)
    times = {(t.play.id, t.settled.variant): t for t in versions}
    files = []
    for play in (p for p in book.plays if p.id in asked):
        mine = asked[play.id]
        files.append(json_file(f"data/{play.id}.json", bank_json(play, mine)))
        files.append(_pictures_file(play, pictures_wanted(mine, play), times, views[play.id], keys.get(play.id), kept))
    pages = {p.id: f"../{url_of(p.id)}" for p in book.plays}
    pages[TEAM] = f"../{url_of(fixed_page('calls'))}"
    team = team_bank_json(questions)
    if team is not None:
        files.append(json_file(f"data/{TEAM}.json", team))
    motions = {p.id: f"{p.id}.motion.json" for p in book.plays}
    return (json_file(INDEX, index_json(book, questions, "{id}.json", pages, motions)), *files)


def _pictures_file(
    play: Play, wanted: Mapping[str, tuple[Picture, Variant]], times: Mapping[tuple[str, Variant], PlayTimes], view: View,
    key: str | None, kept: Kept,
) -> SiteFile:
    def made() -> SiteFile:
        value = {"version": 1, "floor": court_symbol(view), "pictures": _pictures(play, wanted, times, view)}
        return json_file(f"data/{play.id}.pictures.json", value)

    return kept.get(f"pictures-{digest(key, *sorted(wanted))}", made) if key else made()


def _pictures(
    play: Play, wanted: Mapping[str, tuple[Picture, Variant]], times: Mapping[tuple[str, Variant], PlayTimes], view: View
) -> dict[str, str]:
    drawn = ((key, _scene(times[play.id, variant], picture, view)) for key, (picture, variant) in wanted.items())
    return {key: diagram_svg(scene, "") for key, scene in drawn if scene is not None}


def _scene(times: PlayTimes, picture: Picture, view: View) -> Scene | None:
    match picture.kind:
        case "read":
            return moment_picture(other_sight(times.timelines[picture.branch], picture.index, picture.way), picture.index, view)
        case "answer":
            return _answer(times, picture, view)
        case "phase":
            return opening_picture(times, picture.branch, picture.index, view, told=False)
        case "job":
            return phase_diagram(times, picture.branch, picture.index, view)
    raise ValueError(f"no picture of kind {picture.kind}")


def _answer(times: PlayTimes, picture: Picture, view: View) -> Scene:
    """What the five do after the fork: the answer's own picture, or the phase where the main line goes on."""
    branch = times.settled.branch(picture.branch)
    if branch.departure is not None and branch.departure.fork == picture.index:
        return answer_diagram(times, picture.branch, view)
    return phase_diagram(times, picture.branch, branch.forks[picture.index].phase, view)
