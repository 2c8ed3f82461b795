"""The one reader of YAML: every scalar is the text that was written; the catalogue decides what it is.

In: the bytes of a file. Out: nested dicts, lists and strings, or findings. YAML's own guessing (no, 1:30, 0123, 1.10)
is off, and what makes a record hard to read or dangerous to open is refused: duplicate keys, anchors and aliases,
tags, several documents. Positions are not kept while reading; `place_of` reads the text once more when something is
asked.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache
from typing import Any

import yaml
from yaml.composer import Composer

from logbook.record.finding import WRONG, Finding, Path

Tree = dict[str, Any] | list[Any] | str

_LARGEST = 1 << 20
_DEEPEST = 20

try:
    from yaml.cyaml import CParser as _Parser  # type: ignore[attr-defined]
except ImportError:  # PyYAML without libyaml: ten times slower, the same result
    from yaml.parser import Parser
    from yaml.reader import Reader
    from yaml.scanner import Scanner

    class _Parser(Reader, Scanner, Parser, Composer):  # type: ignore[no-redef]
        def __init__(self, stream: Any) -> None:
            Reader.__init__(self, stream)
            Scanner.__init__(self)
            Parser.__init__(self)
            Composer.__init__(self)


class _Reader(_Parser):
    """libyaml's parser with no resolver at all: asked what a scalar is, it says nothing. A third of the usual time."""

    resolve = staticmethod(lambda kind, value, implicit: "")
    descend_resolver = staticmethod(lambda parent, index: None)
    ascend_resolver = staticmethod(lambda: None)


class _Refused(Exception):
    def __init__(self, mark: yaml.Mark, says: str, mend: str) -> None:
        super().__init__(says)
        self.mark, self.says, self.mend = mark, says, mend


def read_yaml(data: bytes, file: str) -> tuple[Tree | None, tuple[Finding, ...]]:
    """The tree of one file, or None with the finding that says why there is none.

    An empty file is None with a finding; a key with nothing after it holds the empty string.
    """
    problem = _not_text(data, file)
    if problem:
        return None, (problem,)
    text = data.decode("utf-8-sig")
    try:
        if "&" in text or "*" in text or "!" in text:
            _refuse_anchors_and_tags(text)
        node = _compose(text)
        if node is None:
            return None, (Finding(file, 1, 1, WRONG, "the file is empty", "write at least one `key: value` line"),)
        return _plain(node, 0), ()
    except _Refused as refused:
        return None, (_finding(file, refused.mark, refused.says, refused.mend),)
    except yaml.MarkedYAMLError as error:
        return None, (_syntax(file, text, error),)
    except (yaml.YAMLError, ValueError, RecursionError) as error:
        return None, (
            Finding(
                file,
                1,
                1,
                WRONG,
                f"this is not readable YAML ({str(error).splitlines()[0]})",
                "keep plain text with `key: value` lines",
            ),
        )


def place_of(data: bytes, path: Path, *, key: bool = False) -> tuple[int, int]:
    """Line and column (from 1) of the value at `path`, or of its key. Steps that are not in the file are skipped."""
    node = _nodes(data)
    mark = node.start_mark
    for position, step in enumerate(path):
        last = position == len(path) - 1
        found = _step_into(node, step)
        if found is not None:
            label, node = found
            mark = label.start_mark if key and last else node.start_mark
    return mark.line + 1, mark.column + 1


@lru_cache(maxsize=4)  # a file with many findings is read once more, not once more for each
def _nodes(data: bytes) -> Any:
    return _compose(data.decode("utf-8-sig", "replace"))


def _compose(text: str) -> Any:
    reader = _Reader(text)
    try:
        return reader.get_single_node()
    finally:
        reader.dispose()


def _plain(node: Any, depth: int) -> Tree:
    """Nodes to dicts, lists and strings, refusing what the format has no use for."""
    kind = type(node)
    if kind is yaml.ScalarNode:
        return node.value  # type: ignore[no-any-return]
    if depth > _DEEPEST:
        raise _Refused(node.start_mark, "nested too deep", f"keep to {_DEEPEST} levels")
    if kind is yaml.SequenceNode:
        return [_plain(item, depth + 1) for item in node.value]
    tree: dict[str, Any] = {}
    for key, value in node.value:
        if type(key) is not yaml.ScalarNode:
            raise _Refused(key.start_mark, "a key must be a word, not a list or a mapping", "write `key: value`")
        name = key.value
        if name in tree:
            raise _Refused(key.start_mark, f"`{name}` stands twice", "keep one of the two lines")
        if value.value == "" and node.flow_style and value.start_mark.index == value.end_mark.index:
            raise _Refused(
                key.start_mark,
                f"`{name}` has nothing after it; a comma inside braces begins a new key",
                "write the value, or use separate lines instead of braces",
            )
        tree[name] = _plain(value, depth + 1)
    return tree


def _step_into(node: Any, step: str | int) -> tuple[Any, Any] | None:
    if isinstance(node, yaml.MappingNode):
        return next(((key, value) for key, value in node.value if key.value == str(step)), None)
    if isinstance(node, yaml.SequenceNode) and isinstance(step, int) and step < len(node.value):
        return node.value[step], node.value[step]
    return None


def _not_text(data: bytes, file: str) -> Finding | None:
    if len(data) > _LARGEST:
        return Finding(file, 1, 1, WRONG, "the file is larger than 1 MiB", "keep data tables in CSV files")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        column = error.start - (data.rfind(b"\n", 0, error.start) + 1) + 1
        return Finding(file, line, column, WRONG, "this is not UTF-8 text", "save the file as UTF-8")
    odd = re.search(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]", text)
    if odd:
        line = text.count("\n", 0, odd.start()) + 1
        column = odd.start() - (text.rfind("\n", 0, odd.start()) + 1) + 1
        return Finding(
            file, line, column, WRONG, "there is a control character here; is this a text file?", "keep plain text only"
        )
    return None


def _refuse_anchors_and_tags(text: str) -> None:
    refusals: Sequence[tuple[Any, str, str]] = (
        (yaml.AnchorToken, "an anchor (&) is not allowed", "write the value out, or put text with & in quotes"),
        (yaml.AliasToken, "an alias (*) is not allowed", "write the value out, or put text with * in quotes"),
        (yaml.TagToken, "a tag (!) is not allowed", "leave it out, or put text with ! in quotes"),
    )
    for token in _tokens(text):
        for kind, says, mend in refusals:
            if isinstance(token, kind):
                raise _Refused(token.start_mark, says, mend)


def _tokens(text: str) -> Iterator[Any]:
    reader = _Reader(text)
    try:
        while reader.check_token():
            yield reader.get_token()
    finally:
        reader.dispose()


def _finding(file: str, mark: yaml.Mark, says: str, mend: str) -> Finding:
    return Finding(file, mark.line + 1, mark.column + 1, WRONG, says, mend)


#: libyaml stops here where the mistake is, for these, behind it: what was begun and never ended.
_BEGUN_BEFORE = ("could not find expected ':'", "expected ',' or", "found unexpected end of stream")

#: What libyaml says, and what it usually means at the bench. First match wins.
_MEANINGS: Sequence[tuple[Callable[[str, str], bool], str, str]] = (
    (
        lambda says, line: line.startswith(("<<<<<<<", "=======", ">>>>>>>")),
        "the marks of a git conflict are still in the file",
        "keep one side and delete the three marker lines",
    ),
    (
        lambda says, line: "\t" in line[: len(line) - len(line.lstrip())] or "'\\t'" in says,
        "a tab stands where spaces belong",
        "indent with spaces",
    ),
    (
        lambda says, line: "mapping values are not allowed" in says,
        "there is a second colon on this line",
        "put the text after the first colon in quotes",
    ),
    (
        lambda says, line: "expected a single document" in says,
        "there is more than one document in the file",
        "delete the `---` line and what does not belong here",
    ),
    (
        lambda says, line: "expected ',' or" in says,
        "a bracket or brace is not closed, or a comma is missing",
        "close it, or use separate lines",
    ),
    (
        lambda says, line: "could not find expected ':'" in says,
        "this line has no colon after its key",
        "write `key: value`",
    ),
    (
        lambda says, line: any(each in says for each in ("expected <block end>", "'-' indicator", "expected key")),
        "this line is not indented like the ones above it",
        "give lines of one level the same number of spaces",
    ),
    (
        lambda says, line: "found unexpected end of stream" in says,
        "a quote is opened and never closed",
        "close the quote",
    ),
    (
        lambda says, line: "maximum nesting depth" in says,
        "nested too deep",
        f"keep to {_DEEPEST} levels",
    ),
    (
        lambda says, line: "cannot start any token" in says,
        "this text begins with a sign that YAML keeps for itself",
        "put the text in quotes",
    ),
)


def _syntax(file: str, text: str, error: yaml.MarkedYAMLError) -> Finding:
    said = f"{error.problem or ''} {error.context or ''}"
    begun = error.context_mark if any(each in said for each in _BEGUN_BEFORE) else None
    mark = begun or error.problem_mark or error.context_mark
    line_number, column = (mark.line, mark.column) if mark else (0, 0)
    lines = text.splitlines()
    for number, line in enumerate(lines):  # libyaml often stops a line late on a conflict
        if line.startswith("<<<<<<<"):
            line_number, column = number, 0
            break
    line = lines[line_number] if line_number < len(lines) else ""
    for applies, says, mend in _MEANINGS:
        if applies(said, line):
            return Finding(file, line_number + 1, column + 1, WRONG, says, mend)
    return Finding(
        file,
        line_number + 1,
        column + 1,
        WRONG,
        f"this is not readable YAML ({error.problem})",
        "write `key: value` lines, lists with `- `, text with special signs in quotes",
    )
