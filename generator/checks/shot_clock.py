"""shot-clock: the longest way through a play does not fit the clock.

What: the longest branch, alone and behind every permitted chain of lead-ins, against the clock of the rule set (or the
play's own `clock`), in half seconds and with the time people take to look. Alone or behind a single lead-in a misfit
is a warning; a chain of several that does not fit is told as information, since each may be run alone.
Why: the play ends in a shot that nobody may take any more.
Passes:
    play: Good
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Swing, do: [1 passes to 2, 2 shoots]}
Fails:
    play: Bad
    clock: 1 s
    start: {1: backcourt top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Up, do: [1 dribbles to top, 1 passes to 2, 2 shoots]}
Source: 24 s: FIBA Official Basketball Rules Art. 29.1.1, 2020; NBA Rule 7-I, 2018-19 (both editions from memory). 30 s:
NCAA men's and women's since 2015-16. 35 s where a state has adopted it: NFHS Rule 2-14, from 2022-23; without that high
school has no shot clock and nothing is told. What people add is assumed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.checks.counts import shot_clock_book
from generator.checks.finding import Finding
from generator.clock import clock_report, seconds_range
from generator.clock.report import ChainLength, PlayClock
from generator.diagnostics import Diagnostic, Location, Severity
from generator.model.book import Book, Team, fold_name
from generator.timeline.timed import PlayTimes

RULE = "shot-clock"


def check_clock(play: PlayTimes, all_times: Sequence[PlayTimes], book: Book) -> Iterator[Finding]:
    """Findings about one play; `all_times` holds the lead-ins, and chains if they were simulated."""
    own = [t for t in all_times if t.play.is_lead_in or t.play.id == play.play.id]
    for clock in clock_report(own, book):
        for chain in clock.chains:
            if chain.fits in ("no", "tight"):
                yield _finding(clock, chain, book.team)


def _finding(clock: PlayClock, chain: ChainLength, team: Team) -> Finding:
    low, high = seconds_range(chain.running)
    cited = "" if clock.play.clock is not None else shot_clock_book(clock.clock or 0.0, team)
    names = " then ".join(chain.lead_ins)
    what = f"{names} and this play" if names else "the longest branch"
    verb = "need" if names else "needs"
    many, tight = len(chain.lead_ins) > 1, chain.fits == "tight"
    severity = Severity.INFO if many or tight else Severity.WARNING
    hint = "only the quickest run fits" if tight else "leave a lead-in out, or shorten the longest branch"
    message = f"{what} {verb} {low:g} to {high:g} s; the clock gives {clock.clock:g}{f' ({cited})' if cited else ''}"
    return Finding(Diagnostic(_place(clock, chain), severity, RULE, message, hint), topic=names)


def _place(clock: PlayClock, chain: ChainLength) -> Location:
    """The last lead-in of the chain, or the play."""
    wanted = fold_name(chain.lead_ins[-1]) if chain.lead_ins else ""
    return next((r.source for r in clock.play.lead_ins if fold_name(r.name) == wanted), clock.play.source)
