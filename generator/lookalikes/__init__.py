"""Look-alikes: timelines -> until which second two plays look the same, what tells them apart, trees of series."""

from generator.lookalikes.drawing import as_svg
from generator.lookalikes.report import Candidate, Pair, Report, Trunk, knots, lookalike_report, series_tree
from generator.lookalikes.split import Split, Tell, split
from generator.lookalikes.words import alike_lines, as_json, as_text, half_seconds, tell_words

__all__ = [
    "Candidate", "Pair", "Report", "Split", "Tell", "Trunk", "alike_lines", "as_json", "as_svg", "as_text", "half_seconds",
    "knots", "lookalike_report", "series_tree", "split", "tell_words",
]
