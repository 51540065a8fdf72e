"""A line of text -> Line."""

from __future__ import annotations

from generator.diagnostics import Diagnostic, Location
from generator.model.sentence import Everyone, Line, One, Part, Relation, Timing
from generator.parsing.event_words import RELATIONS, begins_timing, timings
from generator.parsing.part_rules import unknown_word
from generator.parsing.part_words import PartReader
from generator.parsing.who_words import DEFENDERS, PLAYERS, WHO_HINT, name, one
from generator.parsing.words_of_line import Refused, Words, refusal
from generator.source.nodes import TextNode
from generator.vocabulary.advice import ADVICE, advice
from generator.vocabulary.nearest import closest, did_you_mean
from generator.vocabulary.table import DEFENCE_TRIE, OFFENCE_TRIE, VERB, verb_wordings
from generator.vocabulary.words import match


def parse_line(text: str, location: Location) -> tuple[Line | None, tuple[Diagnostic, ...]]:
    """One sentence; `location` is where `text` begins."""
    return read_line(TextNode(text, location))


def read_line(node: TextNode) -> tuple[Line | None, tuple[Diagnostic, ...]]:
    """One sentence from a file."""
    try:
        words = Words(node)
        line = _line(words)
    except Refused as refused:
        return None, (refusal(node, refused),)
    return line, ()


def begins_with_who(text: str) -> bool:
    """True when `text` begins as a sentence does."""
    try:
        words = Words(TextNode(text, Location("", 1, 1)))
        words.take("then")
        return one(words) is not None
    except Refused as refused:
        return refused.rule == "player"


def _line(words: Words) -> Line:
    node = words.node
    if words.at_end():
        raise words.refuse("empty", "this line is empty", "write who does what, as in `1 passes to 2`")
    if "or" in words.words:
        at = words.words.index("or")
        hint = "choose one, or write `looks for 3 then 2`, or make it a read"
        raise words.refuse("or", "`or` stands in this line: a line says one thing", hint, at)
    first = [Timing(Relation.THEN)] if words.take("then") else []
    _refuse_timing_first(words)
    who = _who(words)
    parts = _parts(words, who)
    while words.peek() in ("then", "and"):
        _next_part(words)
        parts += _parts(words, who)
    line_timings = [*first, *timings(words)]
    if not words.at_end():
        raise _leftover(words, line_timings)
    return Line(tuple(who), tuple(parts), tuple(line_timings), text=node.text, source=node.location)


def _refuse_timing_first(words: Words) -> None:
    if begins_timing(words) or words.peek() in RELATIONS:
        said = words.next_said()
        hint = f"write who does what first: `3 cuts to rim {said} ...`"
        raise words.refuse("timing-first", f"timing stands last, but this line opens with `{said}`", hint)


def _who(words: Words) -> list[One]:
    words.may_measure = False
    who = [_one(words)]
    while words.peek() == "and" or _list_goes_on(words):
        words.take("and")
        who.append(_one(words))
    words.may_measure = True
    words.take("both")
    words.several = len(who) > 1 or isinstance(who[0], Everyone)
    seen = set()
    for somebody in who:
        if somebody in seen:
            raise words.refuse("who", f"{name(somebody)} is named twice", "name each player once", 0)
        seen.add(somebody)
    if len(who) > 1 and any(isinstance(w, Everyone) for w in who):
        raise words.refuse("who", "`everyone` stands alone", "write `everyone` or name the players", 0)
    defenders = sum(isinstance(w, DEFENDERS) for w in who)
    if defenders not in (0, len(who)):
        raise words.refuse(
            "who", "players of both teams stand in one line", "give the defenders a line of their own", 0
        )
    return who


def _list_goes_on(words: Words) -> bool:
    """True at the comma of `2, 3 and 4`: the players of a list, with `and` before the last."""
    at = words.i
    while words.words[at : at + 1] and words.words[at] in PLAYERS:
        at += 1
    return at > words.i and words.words[at : at + 1] == ["and"] and words.words[at + 1 : at + 2][:1] and words.words[at + 1] in PLAYERS


def _one(words: Words) -> One:
    start = words.i
    found = one(words)
    if found is not None:
        return found
    said = words.next_said()
    if not said:
        raise words.refuse("who", "a line begins with who does it", WHO_HINT)
    verb = match(OFFENCE_TRIE, words.words, words.i)
    if verb:
        raise words.refuse(
            "who",
            f"'{said}' is what somebody does, but nobody is named before it",
            f"write `1 {said} ...`, with the player first",
            start,
        )
    hint = did_you_mean(words.next_said(2), _ROLE_NAMES) or did_you_mean(said, _ROLE_NAMES, WHO_HINT)
    if said.lower() in ("player", "players"):
        hint = "write the number alone, as in `1 passes to 2`"
    raise words.refuse("who", f"'{said}' is nobody: a line begins with who does it", hint, start)


_ROLE_NAMES = (
    "ball handler",
    "passer",
    "receiver",
    "cutter",
    "screener",
    "inbounder",
    "anyone",
    "everyone",
    "everyone else",
    "nearest to",
    "player at",
)


def _next_part(words: Words) -> None:
    words.i += 1
    if begins_timing(words):
        raise words.refuse(
            "word", f"`{words.words[words.i - 1]}` needs a verb after it", "timing needs no joining word", words.i - 1
        )


def _parts(words: Words, who: list[One]) -> list[Part]:
    """One part, or the two that a v-cut stands for: a false step, then the cut."""
    start, found = words.i, match(OFFENCE_TRIE, words.words, words.i)
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


def _leftover(words: Words, found: list[Timing]):
    said = words.next_said()
    if found and (match(OFFENCE_TRIE, words.words, words.i) or words.peek() in ("then", "and")):
        hint = "put all he does before the timing, or give it a line of its own"
        return words.refuse("timing-last", f"timing stands last, but '{said}' follows it", hint)
    return unknown_word(words, words.said(max(0, words.i - 1), words.i))
