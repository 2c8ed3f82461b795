"""The reader of YAML: never an exception, and every scalar exactly as it was written."""

from __future__ import annotations

import json

import pytest
import yaml
from hypothesis import example, given, settings
from hypothesis import strategies as st

from logbook.record.strict_yaml import place_of, read_yaml

#: What YAML's own guessing makes something else of.
GUESSED = ["no", "yes", "on", "1:30", "0123456", "1.10", "7E12", "089", "0x1F", "1_000", "2024-02-30", "~", "null",
           ".inf", "1e3", "0o17", "+12", "9.2:1", "=", "<<"]  # fmt: skip


@pytest.mark.parametrize("text", GUESSED)
def test_a_scalar_is_the_text_that_was_written(text: str) -> None:
    assert read_yaml(f"part_number: {text}\n".encode(), "f")[0] == {"part_number": text}
    assert read_yaml(f"{text}: yes\n".encode(), "f")[0] == {text: "yes"}
    assert read_yaml(f"- {text}\n- [{text}]\n".encode(), "f")[0] == [text, [text]]


@settings(max_examples=250, deadline=None)
@given(st.binary(max_size=200))
@example(b"\xef\xbb\xbf")
@example("\u0085a: b".encode())
@example("\ufeffa: \ufeffb".encode())
@example(b"%YAML 9.9\n---\na: b")
@example(b"%TAG ! tag:x,2000:\n---\na: b")
def test_no_bytes_make_it_raise(data: bytes) -> None:
    tree, findings = read_yaml(data, "f")
    assert (tree is None) == bool(findings)
    for finding in findings:
        assert finding.line >= 1
        assert finding.column >= 1


SIGNS = st.text(alphabet="ab:-?&*!|>'\"%@`#,[]{} \n\t<=~\u00e9\u2028\U0001f600", max_size=60)


@settings(max_examples=350, deadline=None)
@given(SIGNS)
def test_no_text_makes_it_raise(text: str) -> None:
    tree, findings = read_yaml(text.encode(), "f")
    assert (tree is None) == bool(findings)
    if tree is not None:
        assert place_of(text.encode(), ("a", 0, "b"), key=True) >= (1, 1)


def in_quotes(tree: object) -> str:
    return json.dumps(tree, ensure_ascii=False)


PLAIN = st.text(st.characters(codec="utf-8", categories=("L", "N", "P", "S", "Zs")), min_size=1, max_size=20)
TREES = st.recursive(
    PLAIN, lambda inner: st.lists(inner, max_size=4) | st.dictionaries(PLAIN, inner, max_size=4), max_leaves=12
)


@settings(max_examples=200, deadline=None)
@given(st.dictionaries(PLAIN, TREES, min_size=1, max_size=4))
def test_what_was_written_in_quotes_comes_back(tree: dict[str, object]) -> None:
    """JSON is YAML with quotes and braces: any tree of texts survives."""
    assert read_yaml(in_quotes(tree).encode(), "f") == (tree, ())


@settings(max_examples=200, deadline=None)
@given(st.dictionaries(PLAIN, TREES, min_size=1, max_size=4))
def test_the_place_of_a_key_is_where_it_stands(tree: dict[str, object]) -> None:
    text = "".join(f"{in_quotes(key)}: {in_quotes(value)}\n" for key, value in tree.items())
    for number, key in enumerate(tree, 1):
        assert place_of(text.encode(), (key,), key=True) == (number, 1)
        assert place_of(text.encode(), (key,)) == (number, len(in_quotes(key)) + 3)


def test_it_reads_what_the_yaml_library_reads_where_nothing_is_guessed() -> None:
    text = "a: one\nb:\n  - two\n  - {c: three, d: [four, five]}\ne: |\n  six\n  seven\nf: >-\n  eight\n  nine\n"
    assert read_yaml(text.encode(), "f")[0] == yaml.safe_load(text)


def test_an_empty_value_on_a_line_of_its_own_is_the_empty_text() -> None:
    assert read_yaml(b"a:\nb: ''\n", "f")[0] == {"a": "", "b": ""}


def test_many_mistakes_in_one_file_take_no_longer_than_reading_it() -> None:
    """The file is parsed once for all findings: ten thousand would otherwise read it ten thousand times."""
    lines = "".join(f"key{number}: x\n" for number in range(3000)).encode()
    place_of(lines, ("key0",))
    first = place_of(lines, ("key2999",), key=True)
    assert first == (3000, 1)
