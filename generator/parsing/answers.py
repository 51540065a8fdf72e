"""`answers`: what the five do, by what the reader sees."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

from generator.model.identity import canonical, stable_id
from generator.model.play import Answer, Read, Sight, Watch, WatchKind
from generator.parsing import fields, notes
from generator.parsing.answer_keys import read_sights
from generator.parsing.context import Context
from generator.parsing.lines import colon, read_lines
from generator.parsing.sentence import begins_with_who
from generator.parsing.words_of_line import Refused, Words, refusal
from generator.source.nodes import ListNode, MappingNode, Node, TextNode
from generator.vocabulary.coverages import BALL_WHOLES

FREE = (WatchKind.OWN_CHOICE, WatchKind.BENCH)  # the first key is the main line
ReadReader = Callable[[Node | None, str, Context], tuple[Read, ...]]  # reads inside an answer


def read_answers(
    node: Node | None, watch: Watch | None, read: str, context: Context, read_reads: ReadReader
) -> tuple[Answer, ...] | None:
    """The answers of the read whose id is `read`; None where there are none to read."""
    findings = context.findings
    if node is None:
        return None
    if not isinstance(node, MappingNode) or not node.entries:
        hint = "write `answers: {trail: [3 curls], otherwise: go on}`"
        findings.error(node.location, "shape", "`answers` needs what he sees, and what the five do", hint)
        return None
    answers = []
    for key, value in node.entries:
        if findings.full:
            break
        answer = _answer(key, value, watch, read, context, read_reads)
        if answer:
            answers.append(answer)
    if watch is not None:
        _same_twice(answers, findings)
        _otherwise(answers, node, watch, findings)
    return tuple(answers)


def _answer(
    key: TextNode, value: Node, watch: Watch | None, read: str, context: Context, read_reads: ReadReader
) -> Answer | None:
    sights = _sights(key, watch, context)
    id_ = stable_id("answer", read, _spell(sights or ()))
    lines, go_on, keys = _what(value, key, context)
    if sights is None or lines is None:
        return None
    findings = context.findings
    return Answer(
        id_,
        sights,
        key.text.strip(),
        lines,
        go_on,
        fields.prose(keys.get("why"), "why", findings),
        notes.teach(keys.get("teach"), findings),
        read_reads(keys.get("reads"), id_, context),
        notes.go_to(keys.get("go to"), findings),
        source=key.location,
    )


def _sights(key: TextNode, watch: Watch | None, context: Context) -> tuple[tuple[Sight, ...], ...] | None:
    if fields.fold(key.text) == "otherwise":
        return ()
    if watch is None:
        return None
    if not key.text.strip():
        context.findings.error(
            key.location, "answer-key", "an answer has an empty key", "write what he sees, such as `trail`"
        )
        return None
    try:
        words = Words(key)
        return read_sights(words, watch, context.coverage_trie)
    except Refused as refused:
        context.findings.add(refusal(key, refused))
        return None


def _spell(sights: tuple[tuple[Sight, ...], ...]) -> str:
    """One spelling for a key, whatever the order and the wording."""
    if not sights:
        return "otherwise"
    return "|".join(
        sorted("&".join(sorted(f"{canonical(s.one)} {s.coverage}" for s in together)) for together in sights)
    )


def _what(value: Node, key: TextNode, context: Context) -> tuple[tuple | None, bool, fields.Fields]:
    """Lines, whether they end with `go on`, and the other keys of the answer."""
    findings, said = context.findings, key.text.strip()
    if isinstance(value, TextNode) and not value.text.strip():
        hint = (
            "write `otherwise: go on`"
            if fields.fold(said) == "otherwise"
            else f"write `{said}: [3 shoots]`, or `{said}: go on`"
        )
        findings.error(key.location, "empty", f"the answer `{said}` is empty", hint)
        return None, False, {}
    if not isinstance(value, MappingNode):
        return *_lines(value, said, context), {}
    if value.entries and fields.read_fields(value, "answer", "", _Silent(), needed=False) == {}:
        return _colon_or_unknown(value, said, context)
    keys = fields.read_fields(value, "answer", f"the answer `{said}`", findings) or {}
    if not keys.keys() & {"do", "reads", "go to"}:
        hint = f"add `do: [3 shoots]`, or write `{said}: go on`"
        findings.error(value.location, "empty", f"the answer `{said}` does nothing", hint)
        return None, False, keys
    if "do" not in keys:
        return (), False, keys
    return *_lines(keys["do"], "do", context), keys


class _Silent(fields.Findings):
    """Looks at keys without reporting them."""

    def add(self, *diagnostics) -> None:
        """Keeps nothing."""


def _colon_or_unknown(value: MappingNode, said: str, context: Context) -> tuple[None, bool, fields.Fields]:
    if begins_with_who(value.entries[0][0].text):
        colon(value, context.findings)
    else:
        fields.read_fields(value, "answer", f"the answer `{said}`", context.findings)
    return None, False, {}


def _lines(node: Node, key: str, context: Context) -> tuple[tuple, bool]:
    if isinstance(node, TextNode) and fields.fold(node.text) == "go on":
        return (), True
    go_on = (
        isinstance(node, ListNode)
        and bool(node.items)
        and isinstance(node.items[-1], TextNode)
        and fields.fold(node.items[-1].text) == "go on"
    )
    if go_on:
        node = node._replace(items=node.items[:-1])
        if not node.items:
            return (), True
    return read_lines(node, key, context.findings), go_on


def _same_twice(answers: list[Answer], findings) -> None:
    seen: dict[str, Answer] = {}
    for answer in answers:
        for together in answer.sights:
            spelled = _spell((together,))
            first = seen.setdefault(spelled, answer)
            if first is not answer:
                message = f"'{answer.key}' answers what '{first.key}' in line {first.source.line} answers already"
                findings.error(answer.source, "same-coverage", message, "keep one of them, or name the defender")


def _otherwise(answers: list[Answer], node: MappingNode, watch: Watch, findings) -> None:
    written = next((k for k, _ in node.entries if fields.fold(k.text) == "otherwise"), None)
    if watch.kind in FREE:
        if written:
            said = "own choice" if watch.kind is WatchKind.OWN_CHOICE else "bench"
            findings.error(
                written.location,
                "otherwise",
                f"`otherwise` has no place with `watch: {said}`",
                "the first key is the main line",
            )
        return
    if watch.kind is WatchKind.CLOCK:
        _overlaps(answers, findings)
    if written is None and not _nothing_over(answers, watch):
        hint = "add `otherwise: go on`, or what the five do then"
        findings.error(node.location, "otherwise", "this read does not say what happens otherwise", hint)


def _spans(answers: list[Answer]) -> list[tuple[float, float, Answer]]:
    spans = [(s.seconds, a) for a in answers for t in a.sights for s in t if s.seconds]
    return sorted(
        (((low or 0.0), high if high is not None else float("inf"), a) for (low, high), a in spans), key=lambda s: s[:2]
    )


def _overlaps(answers: list[Answer], findings) -> None:
    spans = _spans(answers)
    for (_, high, first), (low, _, second) in pairwise(spans):
        if low < high:
            message = f"'{second.key}' and '{first.key}' in line {first.source.line} overlap"
            findings.error(second.source, "same-coverage", message, "let one span begin where the other ends")


def _nothing_over(answers: list[Answer], watch: Watch) -> bool:
    if watch.kind is WatchKind.BALL:
        said = {s.coverage for a in answers for t in a.sights for s in t}
        return any(whole <= said for whole in BALL_WHOLES)
    if watch.kind is not WatchKind.CLOCK:
        return False
    reached = 0.0
    for low, high, _ in _spans(answers):
        if low > reached:
            return False
        reached = max(reached, high)
    return reached == float("inf")
