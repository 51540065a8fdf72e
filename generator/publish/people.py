"""Who has a seat: adding, removing and replacing, as functions from state to state.

Taking a seat away also changes the keys of what it could open, so that whatever is published from then on is out of its reach;
the others' phones fetch the new key by themselves.
"""

from __future__ import annotations

import secrets
from collections.abc import Callable, Mapping
from dataclasses import replace

from generator.publish.private_state import Audience, PastResult, Person, PrivateState
from generator.vault.cipher import KEY_BYTES, new_signer
from generator.vault.codes import ROUNDS, SALT_BYTES, new_code, seat_key
from generator.vault.results import ID_BYTES as RESULT_ID_BYTES
from generator.vault.seats import dummy_seat, seats_shown

Entropy = Callable[[int], bytes]


def new_state(entropy: Entropy = secrets.token_bytes, rounds: int = ROUNDS) -> PrivateState:
    """Fresh keys for a book, nobody seated yet."""
    audiences = (Audience(entropy(2).hex(), entropy(KEY_BYTES)) for _ in range(2))
    players, staff = audiences
    while staff.id == players.id:
        staff = replace(staff, id=entropy(2).hex())
    return filled(PrivateState(entropy(SALT_BYTES), rounds, new_signer(), players, staff), entropy)


def add_person(
    state: PrivateState, name: str, who: str, positions: tuple[int, ...], staff: bool, entropy: Entropy = secrets.token_bytes,
    by_hand: bool = False,
) -> tuple[PrivateState, Person]:
    """The state with one more seat, and who sits there."""
    person = _seated(Person(name, who, positions, staff, "", "", b"", "", b"", by_hand), state, entropy)
    return filled(replace(state, people=(*state.people, person)), entropy), person


def remove_person(state: PrivateState, person: Person, relock: bool, entropy: Entropy = secrets.token_bytes) -> PrivateState:
    """His seat is gone and the keys are new. `relock`: also what is already published gets new keys at the next publish."""
    left = tuple(p for p in state.people if p.seat != person.seat)
    without = _kept_results(replace(state, people=left, dropped=(*state.dropped, person.seat)), (person,))
    return filled(_after(without, person, relock, entropy), entropy)


def replace_code(
    state: PrivateState, person: Person, relock: bool, entropy: Entropy = secrets.token_bytes
) -> tuple[PrivateState, Person]:
    """The same person under a new code; the old code opens nothing that is published from now on."""
    again = _seated(person, state, entropy)
    people = tuple(again if p.seat == person.seat else p for p in state.people)
    moved = _kept_results(replace(state, people=people, dropped=(*state.dropped, person.seat)), (person,))
    changed = filled(_after(moved, person, relock, entropy), entropy)
    return changed, next(p for p in changed.people if p.seat == again.seat)


def follow_roster(state: PrivateState, positions: Mapping[str, tuple[int, ...]]) -> PrivateState:
    """Players' positions as the roster has them now, by roster key, except where they were given by hand."""
    people = tuple(
        p if p.staff or p.by_hand else replace(p, positions=positions.get(p.who, p.positions)) for p in state.people
    )
    return replace(state, people=people)


def _after(state: PrivateState, leaver: Person, relock: bool, entropy: Entropy) -> PrivateState:
    """A coach's phone knew everybody's result key, so those change with him."""
    fresh = with_new_keys(state, leaver.staff, relock, entropy)
    if not leaver.staff:
        return fresh
    people = list(fresh.people)
    for i, p in enumerate(people):
        people[i] = replace(p, result_id=_new_id(replace(fresh, people=tuple(people)), entropy), result_key=entropy(KEY_BYTES))
    return _kept_results(replace(fresh, people=tuple(people)), fresh.people)


def _kept_results(state: PrivateState, people: tuple[Person, ...]) -> PrivateState:
    """Results that these people locked and have not sent yet can still be opened when they come."""
    past = (PastResult(p.result_id, p.who, p.result_key) for p in people)
    return replace(state, past_results=(*state.past_results, *past))


def with_new_keys(state: PrivateState, staff_too: bool, relock: bool, entropy: Entropy = secrets.token_bytes) -> PrivateState:
    """New content keys. Every seat's entry is made afresh, dummies too, so that nobody can tell which ones had to be."""
    players = _turned(state.players, relock, entropy)
    staff = _turned(state.staff, relock, entropy) if staff_too else state.staff
    people = tuple(replace(p, wrap=b"", wrapped="") for p in state.people)
    dummies = tuple((seat, dummy_seat(entropy)[1]) for seat, _ in state.dummies)
    return replace(state, players=players, staff=staff, people=people, dummies=dummies)


def filled(state: PrivateState, entropy: Entropy = secrets.token_bytes) -> PrivateState:
    """Just as many dummy seats as make the number of seats a multiple of sixteen; those that stay are left as they are."""
    wanted = seats_shown(len(state.people)) - len(state.people)
    kept = state.dummies[:wanted]
    fresh = tuple(dummy_seat(entropy) for _ in range(wanted - len(kept)))
    gone = tuple(seat for seat, _ in state.dummies[wanted:])
    return replace(state, dummies=(*kept, *fresh), dropped=(*state.dropped, *gone))


def _seated(person: Person, state: PrivateState, entropy: Entropy) -> Person:
    code = new_code(entropy)
    found = seat_key(code, state.salt, state.rounds)
    return replace(
        person, code=code, seat=found.seat, key=found.key, result_id=_new_id(state, entropy), result_key=entropy(KEY_BYTES),
        wrap=b"", wrapped="",
    )


def _new_id(state: PrivateState, entropy: Entropy) -> str:
    taken = {p.result_id for p in (*state.people, *state.past_results)}
    result_id = entropy(RESULT_ID_BYTES).hex()
    while result_id in taken:
        result_id = entropy(RESULT_ID_BYTES).hex()
    return result_id


def _turned(audience: Audience, relock: bool, entropy: Entropy) -> Audience:
    """A relocked audience forgets its old keys: everything is sealed again, and what lay under the old ones is taken away."""
    old = () if relock else (audience.current, *audience.old)
    return Audience(audience.id, entropy(KEY_BYTES), old)
