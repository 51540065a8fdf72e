"""Small words for pages: days, names of people, sides, facts of a play. Values in, text out."""

from __future__ import annotations

from datetime import date

from generator.model.book import RosterEntry, Team
from generator.model.play import Play
from generator.pages.views import Fact

_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
    "December",
)


def day(iso: str) -> str:
    """`2026-12-04` -> `Friday 4 December`; what is no date stays as it is."""
    try:
        when = date.fromisoformat(iso)
    except ValueError:
        return iso
    return f"{_DAYS[when.weekday()]} {when.day} {_MONTHS[when.month - 1]}"


def person(entry: RosterEntry, team: Team) -> str:
    """How the site names somebody: the first name, the number where two share it; all of it by the book's switch."""
    if team.full_names:
        return f"{entry.name}, {entry.number}" if entry.number else entry.name
    first = entry.name.split()[0]
    alike = sum(e.name.split()[0] == first for e in team.roster)
    return f"number {entry.number}" if alike > 1 and entry.number else first


def joined(words: tuple[str, ...]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def capital(text: str) -> str:
    """The same with a capital first letter."""
    return text[:1].upper() + text[1:]


def small(text: str) -> str:
    """The same inside a sentence: `They switch` -> `they switch`; X1 and numbers stay."""
    return text if text[:1] == "X" else text[:1].lower() + text[1:]


def facts(play: Play) -> tuple[Fact, ...]:
    """What a player must know before the first step, without what goes without saying."""
    lead_ins = joined(tuple(ref.name for ref in play.lead_ins))
    swaps = joined(tuple(f"{mine} for {theirs}" for mine, theirs in sorted(play.also_for.items())))
    alike = "; ".join(joined(tuple(map(str, group))) for group in play.interchangeable)
    told = (
        ("When", "" if play.situation == "live" else play.situation),
        ("Against", "" if play.against in ("man", "nobody") else play.against),
        ("On air", "the coach calls what the defence does" if play.against == "nobody" else ""),
        ("On the clock", "" if play.clock is None else f"{play.clock:g} s"),
        ("After", f"{lead_ins}, or from a standing start" if lead_ins else ""),
        ("Both sides", "yes, also to the left hand" if play.both_sides else ""),
        ("Runs for another", swaps),
        ("Same jobs", alike),
    )
    return tuple(Fact(name, value) for name, value in told if value)
