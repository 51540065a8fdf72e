"""The clock: timelines -> how long plays are and until when they can start (text, JSON, chart)."""

from generator.clock.chart import as_svg
from generator.clock.ranges import range_words, seconds_range
from generator.clock.report import (
    BranchLength,
    ChainLength,
    PhaseLength,
    PlayClock,
    clock_at_start,
    clock_report,
    permitted_chains,
    phase_lengths,
)
from generator.clock.text import as_json, as_text, chain_lines

__all__ = [
    "BranchLength", "ChainLength", "PhaseLength", "PlayClock", "as_json", "as_svg", "as_text", "chain_lines",
    "clock_at_start", "clock_report", "permitted_chains", "phase_lengths", "range_words", "seconds_range",
]
