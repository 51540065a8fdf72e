"""What the parsers of one file share."""

from __future__ import annotations

from dataclasses import dataclass, field

from generator.parsing.findings import Findings
from generator.vocabulary.table import COVERAGE_TRIE


@dataclass(slots=True)
class Context:
    """The problems found so far and the team's coverages. `scope` names the play, for ids."""

    findings: Findings
    coverage_trie: dict = field(default_factory=lambda: COVERAGE_TRIE)
    scope: tuple[str, ...] = ()
