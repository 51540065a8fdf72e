"""The checks: timelines and book -> diagnostics. One module a rule; its docstring is the rule's manual page.

To add one: write a module with `RULE` and `check(case)`, name it in CHECKS, write tests/checks/test_<module>.py.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from inspect import cleandoc
from types import ModuleType

from generator.checks import (
    collision,
    deadline,
    front_court,
    ghost_contact,
    held_ball,
    idle,
    in_bounds,
    late_read,
    lead_in_fit,
    long_pass,
    moving_screen,
    one_place,
    open_answer,
    pass_lane,
    screen_distance,
    screen_kind,
    shot_clock,
    sound_alike,
    spacing,
    three_seconds,
    throw_in,
    waiting,
)
from generator.checks.allowing import heed_allow, unknown_allows
from generator.checks.finding import Case, Finding
from generator.diagnostics import Diagnostic, Severity
from generator.model.book import Book, fold_name
from generator.model.play import Allow, Answer, Phase, Play, Read
from generator.timeline.timed import PlayTimes

__all__ = ["CHECKS", "Check", "heed_allow", "run_checks", "unknown_allows"]


@dataclass(frozen=True, slots=True)
class Check:
    """A rule: its id, its manual page (module docstring), and how one play is looked at (None: book-wide or with
    lead-ins, see run_checks)."""

    rule: str
    page: str
    of_play: Callable[[Case], Iterator[Finding]] | None


def _check(module: ModuleType) -> Check:
    return Check(module.RULE, cleandoc(module.__doc__ or ""), getattr(module, "check", None))


CHECKS: tuple[Check, ...] = tuple(map(_check, (
    one_place, in_bounds, lead_in_fit, deadline, three_seconds, throw_in, front_court, held_ball, shot_clock, moving_screen,
    screen_distance, ghost_contact, collision, pass_lane, long_pass, late_read, open_answer, screen_kind, spacing, waiting,
    sound_alike, idle,
)))


Once = Callable[[PlayTimes, Callable[[], tuple[Diagnostic, ...]]], tuple[Diagnostic, ...]]


def run_checks(all_times: Sequence[PlayTimes], book: Book, once: Once | None = None) -> tuple[Diagnostic, ...]:
    """Everything the checks say about the plays and lead-ins in `all_times`, `allow` heeded, each finding once.
    `once(times, make)` is called in place of `make()`, which looks at one play, so that a caller can keep its results."""
    lead_ins = {fold_name(t.play.name): t for t in all_times if t.play.is_lead_in}
    said: list[Diagnostic] = []
    for times in all_times:
        if times.settled.variant.lead_ins:
            continue  # a chain lends its length to the shot clock; its parts are checked on their own
        look = lambda times=times: _of_play(times, all_times, lead_ins, book)
        said += once(times, look) if once else look()
    plays = {p.source: p for p in (*book.plays, *book.lead_ins)}
    for finding in sound_alike.check_book(book):
        said += _kept([finding], plays[finding.diagnostic.location])
    return tuple(said)


def _of_play(
    times: PlayTimes, all_times: Sequence[PlayTimes], lead_ins: Mapping[str, PlayTimes], book: Book
) -> tuple[Diagnostic, ...]:
    case = Case(times, book)
    found = [f for check in CHECKS if check.of_play is not None for f in check.of_play(case)]
    found += lead_in_fit.check_lead_ins(case, lead_ins)
    if not times.play.is_lead_in:
        found += shot_clock.check_clock(times, all_times, book)
    return tuple(_kept(found, times.play))


def _kept(found: Sequence[Finding], play: Play) -> Iterator[Diagnostic]:
    """Those that no `allow` silences; of several about one thing the first, which is the main line's. Infos about lines
    taken over by `same as` are told where those lines stand, once."""
    seen = set()
    for finding in found:
        said = finding.diagnostic
        if said.severity is Severity.INFO and said.location.path != play.source.path:
            continue
        key = (said.location, said.rule, finding.topic)
        if key not in seen and not any(a.rule == said.rule for a in _allowed(finding, play)):
            seen.add(key)
            yield said


def _allowed(finding: Finding, play: Play) -> Iterator[Allow]:
    yield from play.allow
    for phase in play.phases:
        if isinstance(phase, Phase) and phase.id == finding.phase:
            yield from phase.allow
        if isinstance(phase, Phase):
            for read in phase.reads:
                yield from _allowed_in(read, finding.answer)
    for rule in play.rules:
        if rule.read is not None:
            yield from _allowed_in(rule.read, finding.answer)


def _allowed_in(read: Read, answer: str) -> Iterator[Allow]:
    """What a read allows, if the answer is one of its own or of a read inside it."""
    for one in read.answers:
        inside = [a for nested in one.reads for a in _allowed_in(nested, answer)]
        if one.id == answer or _holds(one, answer):
            yield from read.allow
        yield from inside


def _holds(one: Answer, answer: str) -> bool:
    return any(a.id == answer or _holds(a, answer) for read in one.reads for a in read.answers)
