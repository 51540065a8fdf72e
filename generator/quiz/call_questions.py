"""Call questions: which play does the bench mean, what is its signal, which plays can this opening picture still be."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from generator.model.book import fold_name
from generator.model.court import Point
from generator.model.identity import fingerprint, stable_id
from generator.model.play import Play
from generator.quiz.candidates import WRONG
from generator.quiz.drafts import Draft
from generator.quiz.draws import Draws
from generator.quiz.question import Clip, Kind, Option, Picture
from generator.quiz.scene import Version
from generator.timeline.timed import PlayTimes

SAME_OPENING = 0.6  # metres: nearer is the same picture to anybody
OTHER_OPENING = 1.5  # metres: farther is another; between the two a play is not offered at all
_FAR = 99.0
Openings = dict[str, list[tuple[Mapping[int, Point], int | None]]]  # by play id: places and holder of each
_SHOWN = 4  # options of an opening picture, where several may be right


def signal_drafts(version: Version, plays: Sequence[Play]) -> Iterator[Draft]:
    """Signal to play, play to signal, call to play where the call does not say the name."""
    play = version.times.play
    if not version.is_plain:
        return
    if play.signal and _alone(play.signal, [p.signal for p in plays]):
        named = f"The bench shows: {play.signal}. Which play is it?"
        yield from _which(version, plays, "signal", named, fingerprint(fold_name(play.signal)))
        yield from _what_signal(version, plays)
    if play.call and not _says_name(play) and _alone(play.call, [p.call for p in plays]):
        yield from _which(version, plays, "call", f"The bench calls \"{play.call}\". Which play is it?", fingerprint(fold_name(play.call)))


def _alone(words: str, all_words: Sequence[str]) -> bool:
    return sum(fold_name(w) == fold_name(words) for w in all_words) == 1


def _says_name(play: Play) -> bool:
    call, name = fold_name(play.call), fold_name(play.name)
    return call in name or name in call


def _others(play: Play, plays: Sequence[Play], seed: str) -> list[Play]:
    """Plays of the same series first, each group in a drawn order."""
    drawn = Draws(seed).shuffled([p for p in plays if p.id != play.id])
    return sorted(drawn, key=lambda p: p.series != play.series)


def _which(version: Version, plays: Sequence[Play], what: str, prompt: str, print_: str) -> Iterator[Draft]:
    play = version.times.play
    id_ = version.question_id("call", f"{play.id} {what}", 0, print_)
    wrong = _others(play, plays, id_)[:WRONG]
    if len(wrong) == WRONG:
        why = _what_others_are(wrong, what) or play.purpose
        yield _draft(version, id_, what, prompt, (Option(play.name, play=play.id),), tuple(Option(p.name, play=p.id) for p in wrong), why)


def _what_others_are(others: Sequence[Play], what: str) -> str:
    """`Graft is "two fingers, bent", Windfall "two fingers, down".`: what the bench would have shown or called for them."""
    said = [(p.name, p.signal if what == "signal" else p.call) for p in others]
    named = [f"{name} is \"{words}\"" if not i else f"{name} \"{words}\"" for i, (name, words) in enumerate(s for s in said if s[1])]
    return f"{', '.join(named)}." if named else ""


def _what_signal(version: Version, plays: Sequence[Play]) -> Iterator[Draft]:
    play = version.times.play
    id_ = version.question_id("call", f"{play.id} its signal", 0, fingerprint(fold_name(play.signal)))
    wrong = [p for p in _others(play, plays, id_) if p.signal and fold_name(p.signal) != fold_name(play.signal)]
    texts = list(dict.fromkeys(p.signal for p in wrong))[:WRONG]
    if len(texts) == WRONG:
        by_text = {p.signal: p.id for p in reversed(wrong)}
        yield _draft(
            version, id_, "its signal", f"What is the signal for {play.name}?", (Option(_capital(play.signal), play=play.id),),
            tuple(Option(_capital(t), play=by_text[t]) for t in texts), _what_others_are([p for p in wrong if p.id in map(by_text.get, texts)], "signal"),
        )


def _draft(
    version: Version, id_: str, what: str, prompt: str, right: tuple[Option, ...], wrong: tuple[Option, ...], why: str
) -> Draft:
    play = version.times.play
    main = version.times.main
    return Draft(
        id=id_, kind=Kind.CALL, node=play.id, prompt=prompt, right=right, wrong=wrong, why=why, source=play.source,
        answer_picture=Picture("job", main.branch.key, 0), then=Clip(main.branch.key, 0.0, main.duration),
        twin=version.twin_id("call", f"{play.id} {'call' if what == 'call' else 'signal'}", 0),  # asked either way round
    )


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


# -- opening pictures ------------------------------------------------------------------------------------


def opening_drafts(version: Version, all_times: Sequence[PlayTimes], known: Openings | None = None) -> Iterator[Draft]:
    """This opening picture: which plays can it still be? Only where at least two can, or one of a series. `known`:
    `openings(all_times)`, where it is there already."""
    if not version.is_plain:
        return
    mine = version.times
    distances = {id_: _nearest(mine, starts) for id_, starts in (known or openings(all_times)).items()}
    names = {t.play.id: t.play for t in all_times}
    lead_ins = {fold_name(t.play.name) for t in all_times if t.play.is_lead_in}
    fit = [id_ for id_, d in distances.items() if d <= SAME_OPENING and id_ != mine.play.id]
    far = [id_ for id_, d in distances.items() if d >= OTHER_OPENING and not _unknown_lead_in(names[id_], lead_ins)]
    group = stable_id("opening", *sorted([mine.play.id, *fit]))
    chosen = _choose(mine.play, fit, far, names, group)
    if chosen is None:
        return
    right, wrong = chosen
    start = fingerprint(*sorted(mine.settled.main.start.items()), mine.settled.main.phases[0].holder or 0)
    yield Draft(
        id=version.question_id("call", f"{mine.play.id} opening", 0, fingerprint(start, group)), kind=Kind.CALL,
        node=mine.play.id, prompt=_opening_prompt(len(right)),
        right=tuple(Option(names[i].name, play=i) for i in right), wrong=tuple(Option(names[i].name, play=i) for i in wrong),
        why=_opening_why([names[i].name for i in right]), source=mine.play.source,
        picture=Picture("phase", mine.main.branch.key, 0), twin=group,
    )


def _opening_prompt(right: int) -> str:
    if right == 1:
        return "This is the opening picture. Which play can it be? One fits."
    return "This is the opening picture. Which of these plays can it still be? More than one fits: tap all of them."


def _opening_why(names: list[str]) -> str:
    if len(names) == 1:
        return f"Only {names[0]} of these starts like this."
    return f"{', '.join(names[:-1])} and {names[-1]} start from the same places."


def _choose(
    play: Play, fit: list[str], far: list[str], names: Mapping[str, Play], seed: str
) -> tuple[list[str], list[str]] | None:
    """At most two more that fit and enough that do not, series first among those; None without a wrong one."""
    draw = Draws(f"{seed}/{play.id}")
    more = draw.shuffled(sorted(fit))[:2]
    wrong = sorted(draw.shuffled(sorted(far)), key=lambda i: names[i].series != play.series)
    count = _SHOWN - 1 - len(more) if more else WRONG
    return ([play.id, *more], wrong[:count]) if len(wrong) >= max(1, count) else None


def openings(all_times: Sequence[PlayTimes]) -> Openings:
    """Every picture from which a play may begin: its versions' starts, and those of its lead-ins."""
    found: Openings = {}
    lead_ins = {fold_name(t.play.name): t for t in all_times if t.play.is_lead_in}
    for times in all_times:
        if times.play.is_lead_in:
            continue
        starts = found.setdefault(times.play.id, [])
        starts.append(_start(times))
        for ref in times.play.lead_ins:
            lead_in = lead_ins.get(fold_name(ref.name))
            if lead_in is not None:
                places, holder = _start(lead_in)
                roles = dict(ref.roles)
                turned = {n: places[roles.get(n, n)] for n in places if roles.get(n, n) in places}
                starts.append((turned, next((n for n in places if roles.get(n, n) == holder), holder)))
    return found


def _start(times: PlayTimes) -> tuple[Mapping[int, Point], int | None]:
    return times.settled.main.start, times.settled.main.phases[0].holder


def _nearest(mine: PlayTimes, starts: Sequence[tuple[Mapping[int, Point], int | None]]) -> float:
    """The distance of the worst player in the most similar of the openings; another ball holder counts as far. What is
    another picture anyway is not measured to the end."""
    (places, holder), nearest = _start(mine), _FAR
    for other, other_holder in starts:
        if holder != other_holder or places.keys() != other.keys():
            continue
        worst = 0.0
        for player, place in places.items():
            worst = max(worst, place.distance(other[player]))
            if worst >= nearest or worst >= OTHER_OPENING:
                break
        nearest = min(nearest, worst)
    return nearest


def _unknown_lead_in(play: Play, known: set[str]) -> bool:
    return any(fold_name(ref.name) not in known for ref in play.lead_ins)


