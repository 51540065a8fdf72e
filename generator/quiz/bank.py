"""Questions -> what a phone loads: one JSON value per play, and an index. Version 1; the shapes are documented, field by
field, in `site_theme/assets/js/quiz_types.js`.

Numbers are rounded (metres to 1 cm, seconds to 0.01 s) and empty fields left out, so equal books give equal bytes.
Pictures are named by short keys; `pictures_wanted` says which ones somebody who draws must provide beside the bank.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence

from generator.model.book import Book, GamePlan
from generator.model.court import Court, court_for
from generator.model.identity import fingerprint, stable_id
from generator.model.play import Play
from generator.model.settled import Variant
from generator.model.spots import PERIMETER, spot_point, spot_words
from generator.quiz.question import TEAM, Clip, Picture, Question

VERSION = 1
TEAM_NAME = "Our calls"
_SPOTS = (
    *PERIMETER, ("elbow", "left"), ("elbow", "right"), ("nail", ""), ("block", "left"), ("block", "right"),
    ("mid-post", "left"), ("mid-post", "right"), ("dunker spot", "left"), ("dunker spot", "right"),
    ("short corner", "left"), ("short corner", "right"), ("front of the rim", ""), ("middle of the lane", ""),
)


def version_key(variant: Variant) -> str:
    """Names a version of a play in the data: "" as written, `m`, `2-3`, `m2-3`."""
    swaps = "".join(f"{player}-{role}" for player, role in variant.run_for)
    return ("m" if variant.mirrored else "") + swaps


def picture_key(picture: Picture, variant: Variant) -> str:
    """A short name for a picture within its play."""
    way = (str(picture.way),) if picture.way else ()
    return stable_id(picture.kind, picture.branch, str(picture.index), version_key(variant), *way)[:6]


def pictures_wanted(questions: Iterable[Question], play: Play) -> Mapping[str, tuple[Picture, Variant]]:
    """Every picture the questions of a play show, by key."""
    wanted: dict[str, tuple[Picture, Variant]] = {}
    for q in questions:
        if q.play == play.id:
            for picture in (q.picture, q.answer_picture):
                if picture is not None:
                    wanted[picture_key(picture, q.variant)] = (picture, q.variant)
    return wanted


def bank_json(play: Play, questions: Iterable[Question]) -> dict:
    """The bank of one play."""
    return {
        "version": VERSION, "play": play.id, "name": play.name,
        "questions": [_question(q) for q in questions if q.play == play.id],
    }


def team_bank_json(questions: Iterable[Question]) -> dict | None:
    """The bank of the team's own calls, which belong to no play; None without any."""
    mine = [_question(q) for q in questions if q.play == TEAM]
    return {"version": VERSION, "play": TEAM, "name": TEAM_NAME, "questions": mine} if mine else None


def index_json(
    book: Book, questions: Sequence[Question], address: str = "{id}.json", pages: Mapping[str, str] | None = None,
    motions: Mapping[str, str] | None = None,
) -> dict:
    """The index. `address`: of a bank, relative to the index, `{id}` for the play's id; pictures lie beside it as
    `{id}.pictures.json`. `pages`, `motions`: addresses of each play's page and motion data by play id."""
    asked: dict[str, list[Question]] = {}
    for question in questions:
        asked.setdefault(question.play, []).append(question)
    plays = [p for p in book.plays if p.id in asked]
    return {
        "version": VERSION,
        "book": fingerprint(*(q.id for q in questions)),
        "plays": [_play(p, asked[p.id], address, pages or {}, motions or {}) for p in plays] + _team(questions, address, pages or {}),
        "tonight": [_tonight(g, book, asked) for g in book.games],
        "spots": [_spot(court_for(book.team.rule_set), *s) for s in _SPOTS],
        "floor": _floor(court_for(book.team.rule_set)),
    }


def _play(
    play: Play, questions: Sequence[Question], address: str, pages: Mapping[str, str], motions: Mapping[str, str]
) -> dict:
    counts = [sum(q.position == n for q in questions) for n in range(6)]
    bank = address.format(id=play.id)
    return _filled({
        "id": play.id, "name": play.name, "series": play.series, "bank": bank,
        "pictures": bank.removesuffix(".json") + ".pictures.json", "page": pages.get(play.id, ""),
        "motion": motions.get(play.id, ""), "counts": counts,
    })


def _team(questions: Sequence[Question], address: str, pages: Mapping[str, str]) -> list[dict]:
    count = sum(q.play == TEAM for q in questions)
    entry = {"id": TEAM, "name": TEAM_NAME, "bank": address.format(id=TEAM), "page": pages.get(TEAM, ""), "counts": [count] + [0] * 5}
    return [_filled(entry)] if count else []


def _tonight(game: GamePlan, book: Book, asked: Collection[str]) -> dict:
    names = game.quiz_plays or game.plays
    plays = [p.id for n in names if (p := book.play(n)) is not None and p.id in asked]
    return {
        "id": game.id, "against": game.against, "date": game.date, "plays": plays + [TEAM] * (TEAM in asked),
        "coverages": {k: round(v, 3) for k, v in sorted(game.coverages.items())}, "questions": game.quiz_questions,
    }


def _question(q: Question) -> dict:
    return _filled({
        "id": q.id, "kind": q.kind.value, "play": q.play, "pos": q.position, "prompt": q.prompt,
        "options": [o.text for o in q.options], "right": list(q.right),
        "at": [round(q.at.x, 2), round(q.at.y, 2)] if q.at else None, "within": q.within,
        "why": q.why, "twin": q.twin, "themes": list(q.themes), "coverage": q.coverage,
        "picture": picture_key(q.picture, q.variant) if q.picture else "",
        "answer": picture_key(q.answer_picture, q.variant) if q.answer_picture else "",
        "clip": _clip(q.clip, q.variant), "then": _clip(q.then, q.variant), "moment": q.moment,
    }, keep=("options", "right", "pos"))


def _clip(clip: Clip | None, variant: Variant) -> dict | None:
    if clip is None:
        return None
    return _filled({
        "branch": clip.branch, "version": version_key(variant), "from": round(clip.start, 2), "to": round(clip.end, 2),
    }, keep=("from", "to"))


def _spot(court: Court, spot: str, side: str) -> dict:
    point = spot_point(court, spot, side)
    return {"name": spot_words(spot, side), "at": [round(point.x, 2), round(point.y, 2)]}


def _floor(court: Court) -> dict:
    return {
        "halfWidth": round(court.half_width, 3), "depth": round(court.length / 2, 3), "halfLane": round(court.half_lane, 3),
        "freeThrow": round(court.free_throw_line, 3), "rim": round(court.rim, 3), "arc": round(court.arc_radius, 3),
        "corner": round(court.corner_line, 3), "join": round(court.arc_join, 3),
    }


def _filled(fields: dict, keep: tuple[str, ...] = ()) -> dict:
    return {k: v for k, v in fields.items() if v or k in keep}
