"""What those named in a sentence do, verb by verb: words -> runs of parts, each with its doers."""

from __future__ import annotations

from dataclasses import replace

from generator.model.sentence import Everyone, One, Part, Player, RelativePlace
from generator.parsing.event_words import begins_timing
from generator.parsing.part_words import PartReader
from generator.parsing.talk_words import given, skip_lead, walk_to_screen
from generator.parsing.who_words import DEFENDERS, name, one
from generator.parsing.words_of_line import Words
from generator.vocabulary.advice import ADVICE, advice
from generator.vocabulary.nearest import closest
from generator.vocabulary.table import (
    COVERAGE_TRIE,
    DEFENCE_TRIE,
    OFFENCE_TRIE,
    VERB,
    coverage_name,
    verb_wordings,
)
from generator.vocabulary.words import match

_BEFORE_HIM = 2.0  # metres: how near to the freed player a walk off another's screen ends, before the screener sets his


def next_run(words: Words, who: list[One], runs: list[tuple[tuple[One, ...], list[Part]]]) -> None:
    """Adds the next part; a run of parts ends where another gives him something: `comes to top and takes a hand-off from 5`."""
    giver = _giver(words, who)
    if giver is not None:
        runs.append(((giver[0],), [giver[1]]))
        return
    parts = _parts(words, who)  # `2 and 4 exchange` makes the second his object
    if not runs or runs[-1][0] != tuple(who):
        runs.append((tuple(who), []))
    runs[-1][1].extend(parts)


def with_ways(parts: list[Part]) -> list[Part]:
    """`comes off 5 and drives to the rim`: the way of a verb without a place belongs to the verb that follows."""
    found: list[Part] = []
    for part in parts:
        before = found[-1] if found else None
        open_ = before is not None and before.verb in ("cut", "dribble") and not before.places and before.ways and before.facing is None
        if open_ and part.verb == "screen" and isinstance(part.objects[0], Player):  # `comes off 2 and ball screens for 1`
            found[-1] = replace(before, places=(RelativePlace("in-front-of", part.objects[0], _BEFORE_HIM),))
        elif open_:
            part = replace(part, ways=(*before.ways, *part.ways), side=part.side or before.side, manners=part.manners | before.manners)
            found.pop()
        found.append(part)
    return found


def _giver(words: Words, who: list[One]) -> tuple[One, Part] | None:
    """`2 gets a ball screen from 5`: 5 and his part."""
    found = given(words) if len(who) == 1 and not isinstance(who[0], (*DEFENDERS, Everyone)) else None
    if found is None:
        return None
    giver, verb, kind, start = found
    reader = PartReader(words, verb, kind, start, words.i)
    reader.objects.append(who[0])
    words.own_side = verb.own_side
    return giver, reader.read()


def next_part(words: Words) -> None:
    """Goes over the `then` or `and` before the next verb."""
    words.i += 1
    if begins_timing(words):
        raise words.refuse(
            "word", f"`{words.words[words.i - 1]}` needs a verb after it", "timing needs no joining word", words.i - 1
        )


def _parts(words: Words, who: list[One]) -> list[Part]:
    """One part, or the two that a v-cut stands for: a false step, then the cut."""
    walk = walk_to_screen(words)
    skip_lead(words)
    start, found = words.i, match(OFFENCE_TRIE, words.words, words.i)
    if walk:
        part = _part(words, who)
        return [replace(part, manners=part.manners | {walk})]
    if isinstance(who[0], DEFENDERS) or found is None or found[0][1] != "v-cut":
        return [_part(words, who)]
    words.i = found[1]
    cut = PartReader(words, VERB["cut"], "", start, words.i).read()
    return [Part("set-up", "v-cut", text="sets up", source=cut.source), cut]


def _part(words: Words, who: list[One]) -> Part:
    start = words.i
    defence = isinstance(who[0], DEFENDERS)
    found = match(DEFENCE_TRIE if defence else OFFENCE_TRIE, words.words, start)
    if found is None or not defence and _better_advice(words, found[1]):
        raise _unknown_verb(words, who, defence)
    (verb, kind), words.i = found
    if verb.who and len(who) != verb.who and not isinstance(who[0], Everyone):
        said = words.said(start)
        raise words.refuse(
            "who", f"`{said}` takes two players, but {_names(who)} is named", f"write it so: `{verb.example}`", start
        )
    reader = PartReader(words, verb, kind, start, words.i)
    if verb.id == "exchange" and len(who) == 2:  # `2 and 4 exchange`
        reader.objects.append(who.pop())
    return reader.read()


def _better_advice(words: Words, end: int) -> bool:
    """True where a longer wording than the verb stands, one that is not taken: `picks up the dribble`."""
    longer = match(ADVICE, words.words, words.i)
    return longer is not None and longer[1] > end


def _names(who: list[One]) -> str:
    return " and ".join(map(name, who))


def _unknown_verb(words: Words, who: list[One], defence: bool):
    said, start = words.next_said(), words.i
    names = _names(who)
    if not said:
        return words.refuse("verb", f"{names} does nothing here", "write what he does, as in `1 passes to 2`")
    hint = "" if defence else advice("verb", words.words, start)
    if hint:
        return words.refuse("verb", f"`{words.said(start, match(ADVICE, words.words, start)[1])}` is not taken", hint)
    coverage = match(COVERAGE_TRIE, words.words, start) if defence else None
    if coverage:
        said = words.said(start, coverage[1])
        hint = f"write it under `answers` of a read that watches {names}, as in `{coverage_name(coverage[0])}: [3 curls to rim]`"
        return words.refuse("verb", f"`{said}` is what a defender shows, not a line", hint)
    other = match(OFFENCE_TRIE if defence else DEFENCE_TRIE, words.words, start)
    if other:
        return _wrong_team(words, other, names, defence)
    if one(words) is not None:
        words.i = start
        return words.refuse(
            "who",
            f"'{words.next_said()}' stands right after {names}",
            f"join players with `and`: `{names} and {words.next_said()} ...`",
        )
    words.i = start
    if words.peek() in ("to", "at", "off", "for", "from", "into") or begins_timing(words):
        return words.refuse(
            "verb",
            f"a verb is missing between {names} and `{said}`",
            f"write `{names} cuts {said} ...` or `{names} passes {said} ...`",
        )
    written = tuple(words.next_said(count) for count in (1, 2, 3) if start + count <= len(words.words))
    best = closest(written, verb_wordings(defence))
    if best:
        return words.refuse("verb", f"'{written[best[1]]}' is no verb", f"did you mean `{best[0]}`?", start)
    return words.refuse("verb", f"'{said}' is no verb", "the handbook's language page has all verbs", start)


def _wrong_team(words: Words, other, names: str, defence: bool):
    said = words.said(words.i, other[1])
    if defence:
        hint = "a defender denies, traps, switches, hedges, drops, fronts, helps, stays, tags or stunts"
        return words.refuse("verb", f"`{said}` is for our players, but {names} is a defender", hint)
    return words.refuse(
        "verb", f"`{said}` is for defenders, but {names} is one of ours", f"write `X3 {said}`, or say what {names} does"
    )
