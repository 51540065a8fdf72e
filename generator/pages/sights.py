"""What a reader looks at and what he may see, in words: `X3 on 5's screen`, `X3 trails`."""

from __future__ import annotations

from generator.model.play import Answer, Read, Sight, Watch, WatchKind
from generator.model.sentence import AreaDefender, DefenderBody, DefenderOf, One, Player, Role
from generator.pages.wording import joined

_ASIDE = {
    WatchKind.OWN_CHOICE: "he chooses",
    WatchKind.BENCH: "the bench calls",
    WatchKind.CLOCK: "the clock shows",
    WatchKind.BALL: "the ball is",
}


def one_words(one: One | None) -> str:
    """Somebody of a sentence as people say it."""
    match one:
        case Player(number=number):
            return str(number)
        case DefenderBody(number=number):
            return f"X{number}"
        case DefenderOf(of=None):
            return "his defender"
        case DefenderOf(of=of):
            return f"{one_words(of)}'s defender"
        case AreaDefender(area=area):
            return f"the {area} defender"
        case Role(name=name):
            return name if name.startswith(("any", "he")) else f"the {name}"
    return "he"


def reader_words(one: One) -> str:
    """The reader, fit to begin a sentence."""
    words = one_words(one)
    return words[:1].upper() + words[1:]


def watch_words(watch: Watch) -> str:
    """What is watched, as the coach wrote it; own choice, bench and clock in our words."""
    if watch.kind is WatchKind.OWN_CHOICE:
        return "his own choice"
    if watch.kind in (WatchKind.BENCH, WatchKind.CLOCK, WatchKind.BALL):
        return f"the {watch.kind.value}"
    return watch.text or joined(tuple(map(one_words, watch.ones)))


def sees(answer: Answer, read: Read) -> str:
    """A whole clause: `If X3: trail`, `If 2 is open`, `Otherwise`."""
    if answer.is_otherwise:
        return "Otherwise"
    aside = _ASIDE.get(read.watch.kind)
    if aside:
        return f"If {aside} {answer.key}"
    ways = (" and ".join(_sight(s, read) for s in together) for together in answer.sights)
    return f"If {' or '.join(ways)}"


def _sight(sight: Sight, read: Read) -> str:
    if sight.coverage == "open":
        return f"{one_words(sight.one)} is open"
    if sight.one is None and len(read.watch.ones) != 1:
        return f"they {sight.word}"
    return f"{one_words(sight.one or read.watch.ones[0])}: {sight.word}"
