"""Lines of defenders: `X3 denies 3`, `X5 and X1 switch`. In: Item, State; out: cues (a coverage with its beginning).

Each sets that coverage from the phase's opening, or from the event of its timing, until the next line or read about
the same body. A switch changes whom the bodies guard.
"""

from __future__ import annotations

from generator.model.sentence import Part
from generator.model.settled import Cue, Mark, Screen
from generator.settling.defence import switch
from generator.settling.problems import mistake
from generator.settling.state import Item, Pending, Setting, State
from generator.settling.who import find_defender, find_player, is_defender
from generator.vocabulary.verbs_defence import VERBS

_COVERAGES = frozenset(v.id for v in VERBS)


def do_defence(item: Item, state: State, setting: Setting) -> None:
    """Adds a cue for every defender of the line."""
    line = item.line
    bodies = [find_defender(one, state, setting, item, line.source) for one in line.who]
    for part in line.parts:
        if part.verb not in _COVERAGES:
            raise mistake(part.source, "defender-verb", f"a defender does not `{part.text or part.verb}`",
                          "defenders " + ", ".join(sorted(_COVERAGES)))
        other = _other(part, item, state, setting)
        for body in bodies:
            _cue(body, part, other, item, state)
        if part.verb == "switch":
            _switch(bodies, other, part, state)


def _other(part: Part, item: Item, state: State, setting: Setting) -> int | None:
    if not part.objects:
        return None
    one = part.objects[0]
    if is_defender(one):
        body = find_defender(one, state, setting, item, part.source, about_body=False)
        return state.guards.get(body, body)
    return find_player(one, state, setting, item, part.source)


def _cue(body: int, part: Part, other: int | None, item: Item, state: State) -> None:
    screen = _screen_about(body, state)
    key = f"cue:{len(state.cues)}"
    begins = Mark(None, phase=state.phase)
    state.cues.append(Cue(body, part.verb, begins, on=screen.key if screen else None,
                          user=screen.users[0] if screen and screen.users else None, other=other, source=item.line.source))
    for timing in item.line.timings:
        state.pending.append(Pending(key, timing, 10_000, item))


def _screen_about(body: int, state: State) -> Screen | None:
    """The last screen of this phase that this defender has to do with."""
    man = state.guards.get(body, body)
    about = [a for a in state.of_phase() if isinstance(a, Screen) and (a.player == man or man in a.freed or man in a.on)]
    return about[-1] if about else None


def _switch(bodies: list[int], other: int | None, part: Part, state: State) -> None:
    if len(bodies) == 2:
        switch(state, *bodies)
        return
    partner = next((x for x, man in state.guards.items() if man == other), None) if other is not None else None
    if partner is None:
        screen = _screen_about(bodies[0], state)
        man = state.guards.get(bodies[0])
        men = {screen.player, *screen.freed} - {man} if screen else set()
        partner = next((x for x, m in sorted(state.guards.items()) if m in men), None)
    if partner is None:
        raise mistake(part.source, "switch-with-whom", f"X{bodies[0]} switches with whom?", "write `X5 and X1 switch`")
    switch(state, bodies[0], partner)
