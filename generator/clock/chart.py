"""The clock report as an SVG chart: a bar a chain, cut where the play begins, against the clock.

In: PlayClock values; out: SVG text by the template `clock_chart.html`. Units of the drawing are SVG units; a second is
`SECOND` of them. Colours come from the page (`currentColor`), so the chart follows light, dark and print.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import ceil

from generator.clock.ranges import range_words, seconds_range
from generator.clock.report import ChainLength, PlayClock
from generator.model.numbers import number
from generator.templates import our_templates

SECOND = 16
ROW = 34
HEAD = 22
LEFT = 8
WORDS = {"yes": "fits", "tight": "only a quick run fits", "no": "does not fit", None: ""}


@dataclass(frozen=True, slots=True)
class Bar:
    """One chain: `cut` is where the play itself begins; `low` and `high` are the ends of the range, all drawn from x;
    `phases` the x at which the phases of its longest branch open, each a gap in the bar."""

    label: str
    length: str
    y: float
    cut: float
    low: float
    high: float
    phases: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Chart:
    """What the template draws."""

    title: str
    width: float
    height: float
    left: float
    clock: float | None  # x of the clock's zero
    clock_words: str
    bars: tuple[Bar, ...]


def as_svg(report: Sequence[PlayClock]) -> str:
    """One SVG with a group for each play, one below the other."""
    charts, y = [], 0.0
    for clock in report:
        chart = chart_of(clock)
        charts.append((y, chart))
        y += chart.height
    width = max((c.width for _, c in charts), default=0.0)
    return our_templates().get_template("clock_chart.html").render(charts=charts, width=width, height=y, number=number)


def chart_of(clock: PlayClock) -> Chart:
    """The bars of one play."""
    bars = tuple(_bar(chain, clock.alone, index) for index, chain in enumerate(clock.chains))
    most = max([clock.clock or 0.0] + [seconds_range(c.worst)[1] for c in clock.chains])
    words = "" if clock.clock is None else f"{clock.clock:g} s"
    return Chart(
        clock.play.name, LEFT * 2 + ceil(most) * SECOND + 60, HEAD + ROW * len(bars) + 8, LEFT,
        None if clock.clock is None else LEFT + clock.clock * SECOND, words, bars,
    )


def _bar(chain: ChainLength, alone: ChainLength, index: int) -> Bar:
    low, high = seconds_range(chain.worst)
    label = " + ".join((*chain.lead_ins, "the play")) if chain.lead_ins else "the play alone"
    verdict = WORDS[chain.fits]
    length = range_words(chain.worst) + (f", {verdict}" if verdict else "")
    lead_in_phases = len(chain.phases) - len(alone.phases)  # above 0: timed as one run, with the lead-ins' own phases
    before = sum(p.seconds for p in chain.phases[:lead_in_phases]) if lead_in_phases > 0 else max(0.0, chain.worst - alone.worst)
    opens = [x for x in accumulate(p.seconds for p in chain.phases[:-1]) if 0.3 < x < low]
    gaps = tuple(round((x + (0.0 if lead_in_phases > 0 else before)) * SECOND, 1) for x in opens)
    return Bar(label, length, HEAD + ROW * index, round(before * SECOND, 1), low * SECOND, high * SECOND, gaps)
