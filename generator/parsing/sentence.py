"""A line of text -> Line."""

from __future__ import annotations

from generator.diagnostics import Diagnostic, Location
from generator.model.sentence import Everyone, Line, One, Part, Relation, Timing
from generator.parsing.event_words import RELATIONS, begins_timing, timings
from generator.parsing.part_rules import unknown_word
from generator.parsing.part_runs import next_part, next_run, with_ways
from generator.parsing.talk_words import sentence_begins
from generator.parsing.who_words import DEFENDERS, PLAYERS, WHO_HINT, name, one
from generator.parsing.words_of_line import Refused, Words, refusal
from generator.source.nodes import TextNode
from generator.vocabulary.advice import advice
from generator.vocabulary.nearest import did_you_mean
from generator.vocabulary.table import OFFENCE_TRIE
from generator.vocabulary.words import match


def parse_line(text: str, location: Location) -> tuple[Line | None, tuple[Diagnostic, ...]]:
    """One sentence; `location` is where `text` begins."""
    return read_line(TextNode(text, location))


def read_line(node: TextNode) -> tuple[Line | None, tuple[Diagnostic, ...]]:
    """One sentence from a file; the first of several."""
    lines, problems = read_sentences(node)
    return (lines[0] if lines else None), problems


def read_sentences(node: TextNode) -> tuple[tuple[Line, ...], tuple[Diagnostic, ...]]:
    """The sentences of one text: one, unless a comma or `and` with another player begins the next, or a pass names a shot."""
    try:
        return tuple(_lines(Words(node))), ()
    except Refused as refused:
        return (), (refusal(node, refused),)


def begins_with_who(text: str) -> bool:
    """True when `text` begins as a sentence does."""
    try:
        words = Words(TextNode(text, Location("", 1, 1)))
        words.take("then")
        return one(words) is not None
    except Refused as refused:
        return refused.rule == "player"


def _lines(words: Words) -> list[Line]:
    if words.at_end():
        raise words.refuse("empty", "this line is empty", "write who does what, as in `1 passes to 2`")
    if "or" in words.words:
        at = words.words.index("or")
        hint = "choose one, or write `looks for 3 then 2`, or make it a read"
        raise words.refuse("or", "`or` stands in this line: a line says one thing", hint, at)
    lines = _sentence(words)
    while not words.at_end():
        if words.peek() == "who" and words.last_named is not None:
            at, words.i = words.i, words.i + 1
            lines += _sentence(words, words.last_named)
            _one_timing(words, lines, at)
            continue
        if words.peek() == "then" and sentence_begins(words, words.i + 1):
            at = words.i
            lines += _sentence(words)
            _one_timing(words, lines, at + 1)
            continue
        at = words.i + (words.peek() == "and")
        if not (at > words.i or words.after_comma()) or not sentence_begins(words, at):
            raise _leftover(words, list(lines[0].timings))
        words.i = at
        lines += _sentence(words)
        _one_timing(words, lines, at)
    return lines


def _one_timing(words: Words, lines: list[Line], at: int) -> None:
    if any(timing.relation is not Relation.THEN for line in lines for timing in line.timings):
        raise _either(words, words.said(at), at)


def _either(words: Words, said: str, at: int):
    return words.refuse("two-sentences", f"a second sentence begins with '{said}', and the timing could belong to either",
                        "give each a line of its own", at)


def _sentence(words: Words, known: One | None = None) -> list[Line]:
    """One sentence; two lines where somebody is given something and goes on, or a pass is for a shot."""
    start = words.i
    first = [Timing(Relation.THEN)] if words.take("then") else []
    early = _timing_first(words) if known is None else []
    who = _who(words) if known is None else [known]
    runs: list[tuple[tuple[One, ...], list[Part]]] = []
    next_run(words, who, runs)
    while _goes_on(words):
        if words.peek() in ("then", "and"):
            next_part(words)
        next_run(words, who, runs)
    every = [*first, *early, *timings(words)]
    said, where = _said(words, start)
    said = said if known is None else f"{name(known)} {said}"
    if every[len(first):] and len(runs) > 1:
        raise _either(words, said, start)
    lines = [Line(doer, tuple(with_ways(parts)), tuple(every if n == 0 else ()), text=said, source=where) for n, (doer, parts) in enumerate(runs)]
    return [*lines, *_shots(words)]


def _said(words: Words, start: int) -> tuple[str, Location]:
    """The sentence's text and place: the whole text when it is all there is."""
    node = words.node
    if start == 0 and words.at_end():
        return node.text, node.location
    return words.said(start), node.where(words.starts[start])


def _shots(words: Words) -> list[Line]:
    """The shots that passes of this sentence are for: `1 passes to 2 for three`."""
    lines = []
    for one_, verb, at in words.extra:
        where = words.node.where(words.starts[at])
        lines.append(Line((one_,), (Part("shoot", text=verb, source=where),), (), text=f"{name(one_)} {verb}", source=where))
    words.extra = []
    return lines


def _goes_on(words: Words) -> bool:
    """True where the same player's next verb follows: after `then`, `and`, or a comma."""
    if words.peek() in ("then", "and"):
        return not sentence_begins(words, words.i + 1)
    return words.after_comma() and not words.at_end() and match(OFFENCE_TRIE, words.words, words.i) is not None


def _timing_first(words: Words) -> list[Timing]:
    """`as 2 catches, 5 dives`: the comma parts the timing from who does it."""
    start = words.i
    if words.commas and begins_timing(words):
        try:
            found = timings(words)
        except Refused:
            found = []
        if found and words.after_comma() and sentence_begins(words, words.i):
            return found
        words.i = start
    _refuse_timing_first(words)
    return []


def _refuse_timing_first(words: Words) -> None:
    if begins_timing(words) or words.peek() in RELATIONS:
        said = words.next_said()
        hint = f"write who does what first: `3 cuts to rim {said} ...`"
        raise words.refuse("timing-first", f"timing stands last, but this line opens with `{said}`", hint)


def _who(words: Words) -> list[One]:
    words.may_measure = False
    who = [_one(words)]
    while words.peek() == "and" or _list_goes_on(words) or _next_screener(words):
        words.take("and") or words.take("then")
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


def _next_screener(words: Words) -> bool:
    """True at the `then` of `5 then 4 stagger for 2`: the screens are met in the order written."""
    if words.peek() != "then" or words.peek(1) not in PLAYERS:
        return False
    found = match(OFFENCE_TRIE, words.words, words.i + 2)
    return found is not None and found[0][0].id == "stagger"


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
    opening = advice("opening", words.words, start)
    if opening:
        raise words.refuse("who", f"'{said}' is nobody: a line begins with who does it", opening, start)
    if said.lower() == "if":
        hint = "that is a read: `who: 1`, `watch: X5`, `answers: {hedge: [5 slips to rim], otherwise: go on}`"
        raise words.refuse("who", "a line says what is done, not under which condition", hint, start)
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


def _leftover(words: Words, found: list[Timing]):
    said = words.next_said()
    if found and (match(OFFENCE_TRIE, words.words, words.i) or words.peek() in ("then", "and")):
        hint = "put all he does before the timing, or give it a line of its own"
        return words.refuse("timing-last", f"timing stands last, but '{said}' follows it", hint)
    return unknown_word(words, words.said(max(0, words.i - 1), words.i))
