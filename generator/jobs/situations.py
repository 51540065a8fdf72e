"""What a reader looks at and what he sees, said to one player: `Your man X3 trails you on 5's screen.`

In: a fork of a settled branch, an answer of its read, the player spoken to. Out: words.
"""

from __future__ import annotations

from collections.abc import Sequence

from generator.jobs.phrases import defender_does, does_not, listed, they_do
from generator.model.play import Answer, Sight, WatchKind
from generator.model.sentence import AreaDefender, DefenderBody, DefenderOf, Player
from generator.model.settled import Branch, Fork, Pass


def sees(fork: Fork, answer: Answer, branch: Branch, player: int) -> str:
    """The situation in which `answer` is right, without a full stop; for `otherwise`: none of the others."""
    kind = fork.read.watch.kind
    if kind is WatchKind.OWN_CHOICE:
        return f"{_you(fork.reader, player, 'choose', 'chooses')} {answer.key}"
    if kind is WatchKind.BENCH:
        return f"The bench calls {answer.key}"
    if answer.is_otherwise:
        return _none(fork, branch, player)
    ways = [_together(sights, fork, branch, player) for sights in answer.sights]
    return ", or ".join([ways[0], *map(_small, ways[1:])])


def sees_one(fork: Fork, sights: tuple[Sight, ...], branch: Branch, player: int) -> str:
    """One of several alternatives of an answer's key."""
    return _together(sights, fork, branch, player)


def watch_sentence(fork: Fork, player: int) -> str:
    """`Watch X3 on 5's screen.` for the reader, `3 reads X3; go with him.` for the others; "" where the job itself says
    who is looked for."""
    watch = fork.read.watch
    if player != fork.reader:
        return _watch_for_others(fork)
    if watch.kind is WatchKind.PLAYERS:
        return ""
    if watch.kind is WatchKind.OWN_CHOICE:
        return f"Your choice: {listed((a.key for a in fork.read.answers), 'or')}."
    if watch.kind is WatchKind.BENCH:
        return "Listen for the call from the bench."
    if watch.kind is WatchKind.CLOCK:
        return "Watch the clock."
    if watch.kind is WatchKind.BALL:
        return "Watch the ball."
    return f"Watch {listed(_name(fork, n, player) for n in fork.watched) or watch.text}{_where(fork)}."


def ready_sentence(forks: Sequence[Fork], player: int) -> str:
    """For a phase in which somebody looks for players: `Look for 5, then 3.`, `Be ready: 2 looks for you second.`"""
    for fork in forks:
        order = looked_for(fork)
        if fork.read.watch.kind is not WatchKind.PLAYERS:
            continue
        if fork.reader == player:
            return f"Look for {', then '.join(order)}."
        if str(player) in order:
            return f"Be ready: {fork.reader} looks for you {_ORDER[min(order.index(str(player)), 4)]}."
    return ""


_ORDER = ("first", "second", "third", "fourth", "last")


def who_is_open(fork: Fork, answer: Answer, branch: Branch, player: int) -> str:
    """A situation in which the order decides: `5 is not open; 3 and 1 are open`. For `otherwise` as `sees`."""
    order, gets = looked_for(fork), _gets(answer)
    if gets not in order:
        return _none(fork, branch, player)
    cut = order.index(gets)
    said = "; ".join(filter(None, (_open(order[:cut], player, " not"), _open(order[cut:], player, ""))))
    return said[:1].upper() + said[1:]


def not_open(fork: Fork, branch: Branch) -> list[str]:
    """The numbers of whom `who_is_open` says that they are not."""
    if fork.read.watch.kind is not WatchKind.PLAYERS:
        return []
    order, gets = looked_for(fork), _gets(fork.answer)
    return order[: order.index(gets)] if gets in order else _without_last_resort(fork, branch)


def _gets(answer: Answer) -> str:
    """The player of whom the answer says that he is open; "" for `otherwise`."""
    return next((str(s.one.number) for s in answer.sights[0] if isinstance(s.one, Player)), "") if answer.sights else ""


def _open(numbers: list[str], player: int, negation: str) -> str:
    if not numbers:
        return ""
    names = ["you" if n == str(player) else n for n in numbers]
    verb = "are" if len(names) > 1 or names == ["you"] else "is"
    said = f"{listed(names)} {verb}{negation} open"
    return said


def reader_sees(fork: Fork, player: int) -> str:
    """`3 reads X3 on 5's screen`, to head a fork."""
    who = "You read" if fork.reader == player else f"{fork.reader} reads"
    return f"{who} {listed(f'X{n}' for n in fork.watched) or fork.read.watch.text}{_where(fork)}"


def _watch_for_others(fork: Fork) -> str:
    kind = fork.read.watch.kind
    if kind is WatchKind.PLAYERS:
        return ""
    if kind is WatchKind.OWN_CHOICE:
        return f"{fork.reader} chooses; go with him."
    if kind is WatchKind.BENCH:
        return "Listen for the call from the bench."
    if kind is WatchKind.CLOCK:
        return f"{fork.reader} plays by the clock."
    if kind is WatchKind.BALL:
        return "Watch the ball."
    whom = listed(f"X{n}" for n in fork.watched) or fork.read.watch.text
    return f"{fork.reader} reads {whom}{_where(fork)}; go with him."


def looked_for(fork: Fork) -> list[str]:
    """The numbers a reader looks for, in the coach's order."""
    return [str(n) for n in fork.watched] or [str(o.number) for o in fork.read.watch.ones if isinstance(o, Player)]


def _where(fork: Fork) -> str:
    screener = fork.read.watch.on_screen_of
    return f" on {screener.number}'s screen" if isinstance(screener, Player) else ""


def _together(sights: tuple[Sight, ...], fork: Fork, branch: Branch, player: int) -> str:
    said = [_sight(s, fork, branch, player) for s in sights]
    return " and ".join([said[0], *map(_small, said[1:])])


def _sight(sight: Sight, fork: Fork, branch: Branch, player: int) -> str:
    if sight.seconds is not None:
        return f"The clock shows {sight.word}"
    kind = fork.read.watch.kind
    if kind is WatchKind.BALL:
        return _ball(sight.coverage)
    if kind is WatchKind.PLAYERS or sight.coverage in ("open", "denied"):
        number = sight.one.number if isinstance(sight.one, Player) else None
        return f"You are {sight.coverage}" if number == player else f"{number if number else 'He'} is {sight.coverage}"
    word = f" ({sight.word})" if _is_team_word(sight) else ""
    body, whom = _body(sight, fork), _whom(sight, fork, branch, player)
    if body is None:
        return _on_screen(f"{they_do(sight.coverage, whom)}{word}", fork)
    said = f"{_name(fork, body, player, capital=True)} {defender_does(sight.coverage, whom)}{word}"
    return _on_screen(said, fork) if _is_first(body, fork) else said


def _on_screen(said: str, fork: Fork) -> str:
    """`... on 5's screen`, or `5's screen` for `the screen` where the phrase speaks of it already."""
    where = _where(fork)
    if where and "the screen" in said and "the screener" not in said:
        return said.replace("the screen", where.removeprefix(" on "), 1)
    return said + where


def _is_first(body: int, fork: Fork) -> bool:
    return not fork.watched or body == fork.watched[0]


def _whom(sight: Sight, fork: Fork, branch: Branch, player: int) -> str:
    """Who is trailed, denied, ... by the defender meant, if it is the one in question."""
    body = _body(sight, fork)
    return _user(fork, branch, player) if body is None or _is_first(body, fork) else ""


def _is_team_word(sight: Sight) -> bool:
    """Whether the coach's word is the team's own, to be said beside what it looks like."""
    words = sight.word.casefold().replace("-", " ").split()
    return bool(words) and words[-1] not in _TRADE and not set(words) & set(sight.coverage.replace("-", " ").split())


_TRADE = frozenset(
    ["chase", "under", "over", "show", "out", "blitz", "down", "jam", "overplay", "rotate", "low", "man", "nail", "close", "help", "away"]
)  # other trade words of the table: said as they are, they need no bracket


def _ball(coverage: str) -> str:
    return {
        "made": "The shot is made", "missed": "The shot is missed", "tip won": "We win the tip", "tip lost": "They win the tip",
    }.get(coverage, f"The ball goes {coverage.removeprefix('ball ')}")


def _body(sight: Sight, fork: Fork) -> int | None:
    """Number of the defender meant; None: the pair, the whole defence."""
    if isinstance(sight.one, DefenderBody):
        return sight.one.number
    if isinstance(sight.one, DefenderOf) and isinstance(sight.one.of, Player):
        return sight.one.of.number
    return fork.watched[0] if sight.one is None and len(fork.watched) == 1 else None


def _user(fork: Fork, branch: Branch, player: int) -> str:
    """Who is trailed, denied, trapped: the user of the watched screen, else the man of the watched defender."""
    if fork.user is not None:
        number = branch.action(fork.user).player
    elif fork.watched:
        number = fork.watched[0]
    else:
        return ""
    return "you" if number == player else str(number)


def _name(fork: Fork, number: int, player: int, capital: bool = False) -> str:
    """`your man X3`, `X3`; in a zone nobody has a man: `the low right defender X4`."""
    area = next((o.area for o in fork.read.watch.ones if isinstance(o, AreaDefender)), "")
    if area and fork.watched == (number,):
        return f"{'The' if capital else 'the'} {area} defender X{number}"
    if number == player and number not in fork.areas:
        return f"{'Your' if capital else 'your'} man X{number}"
    return f"X{number}"


def _none(fork: Fork, branch: Branch, player: int) -> str:
    """`X3 does not trail you or shoot the gap`, `Neither 5 nor 3 is open`."""
    kind = fork.read.watch.kind
    if kind is WatchKind.PLAYERS:
        return _none_open(_without_last_resort(fork, branch), player)
    if kind in (WatchKind.CLOCK, WatchKind.BALL):
        return "Anything else"
    by_body: dict[int | None, list[tuple[str, str]]] = {}
    for answer in fork.read.answers:
        for together in answer.sights:
            body, whom = _body(together[0], fork), _whom(together[0], fork, branch, player)
            by_body.setdefault(body, []).append((together[0].coverage, whom))
    said = [
        does_not("They" if body is None else _name(fork, body, player, capital=True), body is None, list(dict.fromkeys(items)))
        for body, items in by_body.items()
    ]
    return listed([said[0], *(_small(s) for s in said[1:])])


def _without_last_resort(fork: Fork, branch: Branch) -> list[str]:
    """The players looked for, without the one who gets it when nobody else is open."""
    gets = {str(a.receiver) for a in branch.actions if isinstance(a, Pass) and a.answer == fork.taken}
    return [n for n in looked_for(fork) if n not in gets] or looked_for(fork)


def _none_open(numbers: list[str], player: int) -> str:
    if len(numbers) == 1:
        return "You are not open" if numbers == [str(player)] else f"{numbers[0]} is not open"
    if len(numbers) == 2:
        return f"Neither {numbers[0]} nor {numbers[1]} is open"
    return f"None of {listed(numbers)} is open"


def _small(said: str) -> str:
    return said if said.startswith("X") or said[:1].isdigit() else said[:1].lower() + said[1:]


def _you(number: int, player: int, second: str, third: str) -> str:
    return f"You {second}" if number == player else f"{number} {third}"
