"""Quiz results as they come in: a line of text, opened with the keys of the private state."""

from __future__ import annotations

from dataclasses import dataclass

from generator.publish.private_state import PrivateState
from generator.vault.results import open_result


@dataclass(frozen=True, slots=True)
class ResultIn:
    """`who` is the roster key; `old`: made with a card that has been replaced or taken away since."""

    who: str
    old: bool
    content: bytes


def read_result(state: PrivateState, line: str) -> ResultIn:
    """Whose result the line is and what it says; `vault.cipher.NotOpened` when nobody of this book made it."""
    now = {p.result_id: (p.who, False, p.result_key) for p in state.people}
    past = {r.result_id: (r.who, True, r.key) for r in state.past_results}
    known = past | now
    result_id, content = open_result(line, {i: key for i, (_, _, key) in known.items()})
    who, old, _ = known[result_id]
    return ResultIn(who, old, content)
