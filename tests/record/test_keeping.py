"""A record kept and taken up again is the same record, and nothing else comes out of what was kept."""

from __future__ import annotations

import pickle
from pathlib import Path

import pytest
from test_broken_records import MISTAKES, SOUND, mistake

from logbook.quantity.catalogue import catalogue
from logbook.record.keeping import packed, unpacked
from logbook.record.read import read_record

EXAMPLE = Path(__file__).parents[2] / "example_engine"
SHIPPED = {path.relative_to(EXAMPLE).as_posix(): path.read_bytes()
           for kind in ("yaml", "csv") for path in EXAMPLE.rglob(f"*.{kind}")}  # fmt: skip


@pytest.mark.parametrize("texts", [SHIPPED, SOUND], ids=["example", "sound"])
def test_it_comes_back_as_it_was(texts: dict[str, bytes]) -> None:
    record = read_record(texts)
    assert record.entries
    assert repr(unpacked(packed(record), texts)) == repr(record)


@pytest.mark.parametrize("file", MISTAKES, ids=lambda file: file.stem)
def test_so_does_one_with_a_mistake(file: Path) -> None:
    texts, _ = mistake(file.read_text(encoding="utf-8"))
    record = read_record(texts)
    assert repr(unpacked(packed(record), texts)) == repr(record)


def test_its_rows_are_the_catalogues_own() -> None:
    facts = unpacked(packed(read_record(SHIPPED)), SHIPPED).facts
    assert len(facts) > 30
    assert all(fact.row is catalogue()[name] for name, some in facts.items() for fact in some)


class Calls:
    """What calls a function when it is taken up."""

    def __init__(self, function: object, *arguments: object) -> None:
        self.way = function, arguments

    def __reduce__(self) -> tuple[object, tuple[object, ...]]:
        return self.way  # type: ignore[return-value]


def _word(text: str) -> bytes:
    return pickle.BINUNICODE + len(text.encode()).to_bytes(4, "little") + text.encode()


def _global(module: str, name: str, *arguments: str) -> bytes:
    """A pickle of a mere name; with arguments, of calling it with these texts."""
    called = pickle.MARK + b"".join(map(_word, arguments)) + pickle.TUPLE + pickle.REDUCE if arguments else b""
    return pickle.PROTO + b"\x04" + _word(module) + _word(name) + pickle.STACK_GLOBAL + called + pickle.STOP


@pytest.mark.parametrize(
    "data",
    [
        pickle.dumps(Calls(print, "taken up")),
        pickle.dumps(Calls(eval, "1 + 1")),
        pickle.dumps(Calls(Path.home)),
        pickle.dumps(Calls(read_record, {})),
        _global("posix", "system"),
        _global("logbook.record.read", "read_record"),
        _global("logbook.record.read", "re.compile"),
        _global("logbook.record.keeping", "pickle.Unpickler"),
        _global("logbook.store.disk", "write_quickly"),
        _global("logbook.store.disk", "Problem"),
        _global("logbook.record", "entries"),
        pickle.dumps("no record"),
        pickle.dumps({}),
    ],
)
def test_nothing_else_is_taken_up(data: bytes) -> None:
    with pytest.raises(pickle.UnpicklingError):
        unpacked(data, {})


@pytest.mark.parametrize("name", ["validating.TypeAdapter", "read.PurePosixPath", "facts.Quantity"])
def test_no_class_is_taken_from_where_it_is_only_imported(name: str) -> None:
    with pytest.raises(pickle.UnpicklingError, match=f"a record holds no logbook.record.{name}"):
        unpacked(_global("logbook.record." + name.split(".")[0], name.split(".")[1]), {})


def test_no_text_is_run(tmp_path: Path) -> None:
    """pydantic's adapter takes a text for the name of a type, and evaluates it."""
    made = tmp_path / "made"
    text = f"__import__('pathlib').Path({str(made)!r}).touch()"
    with pytest.raises(pickle.UnpicklingError):
        unpacked(_global("logbook.record.validating", "TypeAdapter", text), {})
    assert not made.exists()
