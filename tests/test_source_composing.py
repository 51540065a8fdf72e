"""Text -> located tree: raw texts, exact places, the same answers from both YAML readers, nothing composed unchecked."""

from __future__ import annotations

import pytest
import yaml

from generator.diagnostics import Location
from generator.source import ListNode, MappingNode, TextNode, compose, read_book_files
from generator.source.typography import plain, plain_marks

PURE = yaml.Loader


def _values(text: str):
    node, found = compose(text, "f")
    assert not found, found

    def bare(node):
        match node:
            case TextNode():
                return node.text
            case ListNode():
                return [bare(i) for i in node.items]
            case MappingNode():
                return {k.text: bare(v) for k, v in node.entries}

    return bare(node)


@pytest.mark.parametrize(
    "written",
    [
        "yes",
        "no",
        "on",
        "off",
        "true",
        "null",
        "~",
        "1",
        "1.0",
        "1.10",
        "1:30",
        "0x10",
        "010",
        "2026-12-04",
        "1e3",
        ".inf",
        "=",
    ],
)
def test_every_value_is_its_raw_text(written):
    assert _values(f"a: {written}\n") == {"a": written}


@pytest.mark.parametrize("text", ["1: top\n", '"1": top\n', "'1': top\n", "{1: top}\n", "? 1\n: top\n"])
def test_keys_in_and_without_quotes_are_the_same(text):
    assert _values(text) == {"1": "top"}


def test_every_node_knows_its_place():
    node, _ = compose("play: A\nphases:\n  - name: B\n    do: [1 passes to 2, 'x y']\n", "h/p.yml")
    phase = node.entries[1][1].items[0]
    do = phase.entries[1][1]
    assert node.entries[1][0].location == Location("h/p.yml", 2, 1)
    assert phase.location == Location("h/p.yml", 3, 5)
    assert do.flow and not node.entries[1][1].flow
    assert do.items[1].location == Location("h/p.yml", 4, 25)
    assert do.items[0].where(9) == Location("h/p.yml", 4, 19)
    assert do.items[1].where(2) == Location("h/p.yml", 4, 28)  # behind the quote


def test_places_in_folded_texts_are_those_of_the_beginning():
    node, _ = compose('a: "b\\tc"\nd: e\n  f\n', "f")
    (_, escaped), (_, folded) = node.entries
    assert escaped.where(2) == escaped.location and folded.where(2) == folded.location
    assert folded.text == "e f"


MANY = (
    "a: [b, c]\nd: {e: f}\n",
    "a: One: two\n",
    "a: @b\n",
    "a: 'b' c\n",
    "a: [b\nc: d\n",
    "a:\n\t- b\n",
    "a: &x b\nc: *x\n",
    "a: !t b\n",
    "<<: {a: b}\n",
    "[a]: b\n",
    "a: b\n---\nc: d\n",
    "a: b\n c: d\n",
    "a: b\nc\nd: e\n",
    "- a\nb: c\n",
    "a: 'b\n",
    "a: b\na: c\n",
    "",
    "# nothing\n",
    "a: |\n  b\n  c\n",
    "a: >-\n  b\n",
    "a: - b\n",
    "a: b #c\n",
    "{1:top}\n",
    "a: ? b\n",
    "a: % b\n",
)


@pytest.mark.parametrize("text", MANY)
def test_both_readers_give_the_same_tree_and_the_same_answers(text):
    assert compose(text, "f") == compose(text, "f", PURE)


@pytest.mark.parametrize("text", ["a: " + "[" * 25 + "]" * 25 + "\n", "- " * 30 + "a\n", "[" * 30_000, "{a: " * 30_000])
@pytest.mark.parametrize("loader", [yaml.CLoader, PURE])
def test_depth_is_refused_before_anything_is_composed(text, loader):
    node, found = compose(text, "f", loader)
    assert node is None and [d.rule for d in found] == ["too-deep"]


@pytest.mark.parametrize("levels, said", [(20, []), (21, ["too-deep"])])
def test_twenty_levels_are_read_and_no_more(levels, said):
    node, found = compose("[" * levels + "a" + "]" * levels + "\n", "f")
    assert [d.rule for d in found] == said and (node is None) == bool(said)


@pytest.mark.parametrize("values, said", [(19_999, []), (20_000, ["too-big"])])
def test_twenty_thousand_values_are_read_and_no_more(values, said):
    """The list that holds them is one more."""
    _, found = compose("[" + "a, " * values + "]", "f")
    assert [d.rule for d in found] == said


def test_aliases_are_never_followed():
    bomb = "a: &a [x, x]\n" + "".join(
        f"{chr(98 + i)}: &{chr(98 + i)} [*{chr(97 + i)}, *{chr(97 + i)}]\n" for i in range(20)
    )
    node, found = compose(bomb, "f")
    assert node is None and {d.rule for d in found} == {"alias", "anchor"} and len(found) <= 20


def test_all_colons_of_a_file_are_found_in_one_run():
    node, found = compose("why: One: two\ncall: Three: four\nplay: A\n", "f")
    assert [(d.location.line, d.rule) for d in found] == [(1, "colon"), (2, "colon")]
    assert [v.text for _, v in node.entries] == ["One: two", "Three: four", "A"]


# -- typography --------------------------------------------------------------------------------------------


def test_typographic_marks_are_read_as_plain_ones():
    assert plain("5\u2019s \u201cman\u201d \u2013 1\u20114") == '5\'s "man" - 1-4'
    assert _values("\u2013 1 passes to 2\n") == ["1 passes to 2"]
    assert _values("why: \u201cOne rule: go\u201d\n") == {"why": "One rule: go"}
    assert _values("a:\n\u00a0\u00a0b: c\n") == {"a": {"b": "c"}}


def test_prose_keeps_its_own_marks_and_offsets_do_not_move():
    text = "why: He said \u201cgo\u201d \u2014 and went; it\u2019s his.\n"
    assert plain_marks(text) == text
    assert len(plain_marks("\u2013 a: \u201cb\u201d\n")) == len("\u2013 a: \u201cb\u201d\n")


def test_a_byte_order_mark_is_no_mistake():
    assert _values("\ufeffa: b\n") == {"a": "b"}


# -- files -------------------------------------------------------------------------------------------------


def test_files_come_in_order_and_hidden_ones_do_not(tmp_path):
    for name in ("b/two.yml", "a.yaml", "b/one.YML", ".git/x.yml", "b/.y.yml", "notes.md"):
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("a: b\n")
    files, found = read_book_files(tmp_path)
    assert [f.path for f in files] == ["a.yaml", "b/one.YML", "b/two.yml"] and not found


def test_a_missing_folder_is_said(tmp_path):
    files, found = read_book_files(tmp_path / "nowhere")
    assert not files and found[0].rule == "book-folder"


def test_a_link_to_nowhere_is_said(tmp_path):
    (tmp_path / "a.yml").symlink_to(tmp_path / "gone.yml")
    files, found = read_book_files(tmp_path)
    assert not files and [d.rule for d in found] == ["unreadable"]
