"""How a page words a fork: who reads what, and the clause before each answer."""

from __future__ import annotations

from generator.jobs.situations import reader_sees
from generator.jobs.situations import sees as situation
from generator.model.play import Answer, WatchKind
from generator.model.sentence import Player
from generator.model.settled import Branch, Fork
from generator.pages.wording import small

NOBODY = 0  # a page speaks about all five, to none of them


def head(fork: Fork) -> str:
    """`3 reads X3 on 5's screen`, `2 looks for 4, then 3`, `The bench decides`."""
    reader = str(fork.reader)
    match fork.read.watch.kind:
        case WatchKind.PLAYERS:
            looked = (str(o.number) for o in fork.read.watch.ones if isinstance(o, Player))
            return f"{reader} looks for {', then '.join(looked)}"
        case WatchKind.OWN_CHOICE:
            return f"{reader} chooses"
        case WatchKind.BENCH:
            return "The bench decides"
        case WatchKind.CLOCK:
            return f"{reader} plays by the clock"
        case WatchKind.BALL:
            return "The ball decides"
    return reader_sees(fork, NOBODY)


def clause(answer: Answer, fork: Fork, branch: Branch) -> str:
    """`If X3 trails 3 on 5's screen`; `Otherwise` for the main line."""
    if answer.is_otherwise:
        return "Otherwise"
    seen = situation(fork, answer, branch, NOBODY)
    return f"If {small(seen)}"
