"""The counts a whistle keeps, by book: seconds, and the citation that stands in every message.

In: the team (its rule set, women or men) and the kind of count; out: a Count, or None where the book has none. Numbers:
rule books as cited; `from memory` where no text was at hand. Editions of the international book are 2020, of the
professional one 2018-19; for both the edition is from memory.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.model.book import Team
from generator.model.court import RuleSet


@dataclass(frozen=True, slots=True)
class Count:
    """`seconds` are allowed; `book` cites. Closely guarded only: `front_court_only`, and `dribbling` where a dribble has
    a count of its own."""

    seconds: float
    book: str
    front_court_only: bool = False
    dribbling: bool = False

    @property
    def words(self) -> str:
        """`8 are allowed (FIBA Art. 28.1, 2020)`."""
        return f"{self.seconds:g} are allowed ({self.book})"


INTERNATIONAL, PROFESSIONAL, COLLEGE, HIGH_SCHOOL = RuleSet
WOMEN = "NCAA women's rules, from memory"
COUNTS: dict[str, dict[RuleSet, Count]] = {
    "front court": {
        INTERNATIONAL: Count(8, "FIBA Art. 28.1, 2020"),
        PROFESSIONAL: Count(8, "NBA Rule 10, 2018-19"),
        COLLEGE: Count(10, "NCAA men's rules, 2021-22"),
        HIGH_SCHOOL: Count(10, "NFHS Rule 9-8, 2019-20"),
    },
    "lane": {
        INTERNATIONAL: Count(3, "FIBA Art. 26, 2020"),
        PROFESSIONAL: Count(3, "NBA Rule 10, 2018-19"),
        COLLEGE: Count(3, "NCAA men's rules, from memory"),
        HIGH_SCHOOL: Count(3, "NFHS Rule 9-7, 2019-20"),
    },
    "throw-in": {
        INTERNATIONAL: Count(5, "FIBA Art. 17, 2020"),
        PROFESSIONAL: Count(5, "NBA video rulebook, 2018-19"),
        COLLEGE: Count(5, "NCAA men's rules, from memory"),
        HIGH_SCHOOL: Count(5, "NFHS rules, from memory"),
    },
    "closely guarded": {
        INTERNATIONAL: Count(5, "FIBA Art. 27, 2020"),
        COLLEGE: Count(5, "NCAA men's rules, 2021-22", front_court_only=True),
        HIGH_SCHOOL: Count(5, "NFHS Rules 4-10 and 9-10-1a, 2019-20", front_court_only=True, dribbling=True),
    },
}
OF_WOMEN: dict[str, Count] = {  # where the women's book stands beside the men's; the other three serve both
    "front court": Count(10, WOMEN), "lane": Count(3, WOMEN), "throw-in": Count(5, WOMEN), "closely guarded": Count(5, WOMEN),
}
SHOT_CLOCKS = {
    INTERNATIONAL: (24, "FIBA Art. 29.1.1, 2020"), PROFESSIONAL: (24, "NBA Rule 7-I, 2018-19"),
    COLLEGE: (30, "NCAA rules, since 2015-16"), HIGH_SCHOOL: (35, "NFHS Rule 2-14, 2022-23, by state adoption"),
}


def count_of(kind: str, team: Team) -> Count | None:
    """The count of that kind under the team's book."""
    if team.rule_set is COLLEGE and team.women:
        return OF_WOMEN[kind]
    return COUNTS[kind].get(team.rule_set)


def shot_clock_book(seconds: float, team: Team) -> str:
    """The citation of a shot clock of so many seconds, "" where it is the coach's own number."""
    published, book = SHOT_CLOCKS[team.rule_set]
    return book if seconds == published else ""
