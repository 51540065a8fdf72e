"""One verb with what belongs to it: object, place, way, side, manner, in any order, each at most once."""

from __future__ import annotations

from generator.model.sentence import Everyone, Off, One, Part, Place, Player, RelativePlace, Role, Side, Way
from generator.parsing import part_rules
from generator.parsing.element_words import PLACE_PREPOSITIONS, STANDS, read_element
from generator.parsing.event_words import begins_timing
from generator.parsing.place_words import needed_place
from generator.parsing.talk_words import sentence_begins, skip_noun, whose_screen
from generator.parsing.who_words import DEFENDERS, WHO_HINT, one
from generator.parsing.words_of_line import Words
from generator.vocabulary.entries import Ball, Takes, Verb
from generator.vocabulary.small_words import MAY_ONE
from generator.vocabulary.spot_words import match_spot
from generator.vocabulary.table import (
    DEFENCE_TRIE,
    DIRECTION_TRIE,
    OFFENCE,
    OFFENCE_TRIE,
    kind_of,
)
from generator.vocabulary.words import forms, match

_PREPOSITIONS = PLACE_PREPOSITIONS | STANDS | {"from", "off", "for"}
_FILLS = frozenset({"up", "out", "down", "back", "in", "on", "ahead", "over", "across", "away"})  # say nothing before a preposition: `slides down to`
_BARE = frozenset(tuple(w) for v in OFFENCE for wording in v.bare for w in forms(wording))


class PartReader:
    """Reads one part; afterwards `part` is complete."""

    def __init__(self, words: Words, verb: Verb, kind: str, start: int, verb_end: int):
        self.words, self.verb, self.kind, self.start, self.verb_end = words, verb, kind, start, verb_end
        self.bare = tuple(words.words[start:verb_end]) in _BARE  # the player may follow without the preposition
        self.objects: list[One] = []
        self.places: list[Place] = []
        self.start_place: Place | None = None
        self.ways: list = []
        self.lane: Side | None = None  # of a fast break, when one is named
        self.side = ""
        self.manners: set[str] = set()
        self.facing: Place | None = None
        self.on_ball = False  # `screens the ball`
        self.unclear: int | None = None  # where `behind 5` or `in front of 5` may be way or place

    @property
    def own_side(self) -> bool:
        """True where a spot may leave out its side."""
        row = kind_of(self.verb, self.kind) if self.kind else None
        return self.verb.own_side or row is not None and row.own_side

    @property
    def said_verb(self) -> str:
        """The verb as written."""
        return self.words.said(self.start, self.verb_end)

    def read(self) -> Part:
        """The part from the word after the verb to the next part, timing or the end."""
        words = self.words
        words.own_side = self.own_side and self.verb.id != "look-for"
        self._skip_ball()
        self._whose_screen()
        self._follows_pass()
        while not words.at_end() and not (begins_timing(words) and not self._with_kind()):
            word = words.peek()
            if word in ("then", "and"):
                if not self._goes_on(word):
                    break
            elif words.after_comma() and (sentence_begins(words, words.i) or match(OFFENCE_TRIE, words.words, words.i)):
                break
            elif word == "who" and self.objects and isinstance(self.objects[0], Player):
                words.last_named = self.objects[0]
                break
            elif self._fills():
                words.i += 1
            elif not words.at_end():
                read_element(self, word)
        words.own_side = False
        if self.on_ball and not self.objects:
            self.objects.append(Role("ball handler"))
        part_rules.settle_unclear(self)
        part_rules.complete(self)
        node = words.node
        return Part(
            self.verb.id,
            self.kind,
            tuple(self.objects),
            tuple(self.places),
            self.start_place,
            tuple(self.ways),
            self.side,
            frozenset(self.manners),
            self.facing,
            text=words.said(self.start),
            source=node.where(words.starts[self.start]),
        )

    def _fills(self) -> bool:
        """True at `back` of `back out to`: such words before a preposition say nothing."""
        words, at = self.words, 0
        if words.peek() == "away" and words.peek(1) == "from":
            return False
        if words.peek() == "over" and self.ways:  # `off 5 over to top`: over the screen
            return False
        while words.peek(at) in _FILLS:
            at += 1
        if at == 1 and self.verb.place is Takes.MAY and words.peek() != "away" and self.verb.id not in ("drive", "hand-off", "pass", "look-for", "shoot"):
            words.i += 1  # `lifts up`, `drifts down`
            ends = words.at_end() or words.peek() in ("and", "then") or begins_timing(words)
            words.i -= 1
            if ends:
                return True
        return at > 0 and words.peek(at) in _PREPOSITIONS or at > 1 and words.peek(at - 1) in STANDS

    def _skip_ball(self) -> None:
        """`it` and `the ball` right after a verb of the ball say nothing: `swings it to 2`."""
        if self.verb.ball in (Ball.NEEDS, Ball.GIVES) and self.verb.id not in ("look-for", "dribble-at"):
            self.words.take("it") or self.words.peek(1) != "handler" and self.words.take("ball")

    def _whose_screen(self) -> None:
        """`uses 5's screen`: the way he goes, off 5."""
        if self.kind == "use":
            self.ways.append(Off(whose_screen(self.words, "uses")))

    def _follows_pass(self) -> None:
        """`follows his pass`: whoever caught it."""
        if self.verb.id == "follow" and self.words.take("pass"):
            self.objects.append(Role("receiver"))

    def _with_kind(self) -> bool:
        """`hits 5 with a pocket pass`: the kind of the pass."""
        words = self.words
        if words.peek() != "with" or self.verb.id != "pass" or self.kind or not self.objects:
            return False
        for length in (2, 3, 1):
            said = words.words[words.i + 1 : words.i + 1 + length]
            found = match(OFFENCE_TRIE, said, 0)
            if found and found[1] == length and found[0][0].id == "pass" and found[0][1]:
                self.kind, words.i = found[0][1], words.i + 1 + length
                return True
        return False

    # -- `then` and `and` -----------------------------------------------------------------------------

    def _goes_on(self, word: str) -> bool:
        """True when `then` or `and` goes on with this part (next screener, next player looked for, next place)."""
        words, start = self.words, self.words.i
        words.i += 1
        if sentence_begins(words, words.i):
            words.i = start
            return False
        verb = match(OFFENCE_TRIE, words.words, words.i) or match(DEFENCE_TRIE, words.words, words.i)
        if words.peek() == "step" and match(DIRECTION_TRIE, words.words, words.i + 1):  # `a step outside right block`
            verb = None
        spot = match_spot(words.words, words.i)
        if verb and not (spot and spot.end > verb[1]):
            words.i = start
            return False
        who = one(words)
        if who is not None:
            self._another(who, word, start)
            return True
        if word == "then" and self.places:
            self.places.append(needed_place(words, "then"))
            return True
        words.i = start
        return False

    def _another(self, who: One, word: str, start: int) -> None:
        words = self.words
        skip_noun(words)
        if match(OFFENCE_TRIE, words.words, words.i) or match(DEFENCE_TRIE, words.words, words.i):
            said = words.said(start + 1)
            raise words.refuse(
                "two-sentences", f"a second sentence begins with '{said}'", "give it a line of its own", start + 1
            )
        if self.ways and isinstance(self.ways[-1], Off):
            self.ways.append(Off(who))
        elif self.ways and isinstance(self.ways[-1], Way) and self.ways[-1].one is not None and self.ways[-1].word in MAY_ONE:
            self.ways.append(Way(self.ways[-1].word, who))  # `over 4 and 5`
        elif self.verb.of == "both" and word == "and" and self.objects and isinstance(who, DEFENDERS):
            self.add_object(who)
        elif self.verb.objects == 0 and self.objects and word == "then":
            self.objects.append(who)
        else:
            part_rules.refuse_second(self, who, word, start)

    # -- what was found -------------------------------------------------------------------------------

    def add_object(self, who: One) -> None:
        """Whom it is done with; a second only where the verb takes one."""
        start = self.words.i - 1
        if isinstance(who, Everyone):
            raise self.words.refuse("who", f"`{self.said_verb}` needs one player, not everyone", WHO_HINT, start)
        several = self.verb.of == "both" and (
            isinstance(who, DEFENDERS) or all(isinstance(o, DEFENDERS) for o in self.objects)
        )
        if self.objects and not several:
            part_rules.refuse_second(self, who, "", start)
        if isinstance(who, DEFENDERS):
            self.objects.append(who)
        else:
            self.objects.insert(0, who)
        part_rules.check_object(self, who, start)
        if self.verb.ball is Ball.GIVES or self.verb.id == "look-for":
            self.words.own_side = self.own_side

    def add_place(self, found: Place, start: int) -> None:
        """Where to; `start` is the first word of it. A second is refused."""
        if self.places:
            raise self.words.refuse(
                "twice",
                f"'{self.words.said(start)}' is a second place for `{self.said_verb}`",
                "a way over two places is written `to left wing then top`",
                start,
            )
        self.places.append(found)

    def once(self, what: str, value: object) -> None:
        """Refuses `what` when it was said before: `value` is what was read then."""
        if value is not None:
            raise self.words.refuse("twice", f"`{what}` stands here twice", "keep one of them", self.words.i - 1)

    def place_of_unclear(self) -> RelativePlace:
        """The way that may be a place, as a place."""
        way = self.ways[-1]
        return RelativePlace(way.word, way.one)
