"""The house stands: imports run downwards, one room touches the disk, and a reading command starts light."""

from __future__ import annotations

import ast
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "logbook"
MODULES = sorted(PACKAGE.rglob("*.py"))

#: From the top down. A module imports from its own layer and from those below it.
LAYERS = ("cli", "documents", "front", "judge", "specs", "state", "record", "quantity", "errors")
#: The package's own modules that are no room: the front door and what stands beside it; the lightest thing of all.
FRONT = {"logbook", "reading", "saving", "beginning", "demo", "undo", "upkeep", "advice", "written"}
FACES = {"__main__"}
LIGHT = {"__init__"}

FORMULAS = (
    *("volumes", "compression", "motion", "timing", "condition"),
    *("atmosphere", "flow", "openings", "breathing", "boost", "fuel", "knock"),
    *("crowns", "swing", "cutting", "bore", "clearances", "bearings", "growth", "fasteners"),
    *("rest", "lift_table", "lift", "valve_train", "valve_to_piston", "pressures", "air_entropy", "crossing"),
    *("leak_down", "power", "correction", "layout"),
)

#: Who touches the disk or runs a program besides the store, and why.
ALLOWED = {
    "cli/streams.py": "the standard output, put to rest when nobody reads it any more",
}


def layer(module: str) -> str:
    """The layer of a module by its dotted name: logbook.record.read -> record."""
    parts = module.split(".")
    if len(parts) == 1 or parts[1] in LIGHT:
        return "init"
    if parts[1] in FACES:
        return "cli"
    return "front" if parts[1] in FRONT else parts[1]


def dotted(file: Path) -> str:
    return ".".join(file.relative_to(PACKAGE.parent).with_suffix("").parts)


KNOWN = {dotted(each).removesuffix(".__init__") for each in MODULES}


def imports(file: Path) -> Iterator[tuple[str, int]]:
    """Our own modules that a file imports, anywhere in it, with the line."""
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            for alias in node.names:
                if alias.name.split(".")[0] == "logbook":
                    yield alias.name, node.lineno
        elif isinstance(node, ast.ImportFrom) and (node.module or "").split(".")[0] == "logbook":
            assert node.level == 0, "imports are absolute here"
            for alias in node.names:
                whole = f"{node.module}.{alias.name}"
                yield whole if whole in KNOWN else str(node.module), node.lineno


def may_import(here: str, there: str) -> bool:
    if here == "init" or there == "init":
        return True  # the version, and the public names that are imported when they are asked for
    if here == "store":
        return there in ("store", "errors")
    if there == "store":
        return here in ("cli", "documents", "front")
    return LAYERS.index(here) <= LAYERS.index(there)


def test_imports_run_downwards() -> None:
    for file in MODULES:
        here = layer(dotted(file))
        upwards = [
            f"{file}:{line}: imports {name}" for name, line in imports(file) if not may_import(here, layer(name))
        ]
        assert upwards == [], file


def test_every_room_has_its_place_in_the_order() -> None:
    rooms = {layer(dotted(file)) for file in MODULES} - {"init", "store"}
    assert rooms <= set(LAYERS)


def test_formulas_know_nothing_of_records_and_states() -> None:
    for name in FORMULAS:
        found = {layer(module) for module, _ in imports(PACKAGE / "specs" / f"{name}.py")}
        assert found <= {"specs", "quantity"}, name
        inside = {module for module, _ in imports(PACKAGE / "specs" / f"{name}.py") if layer(module) == "specs"}
        assert inside <= {f"logbook.specs.{each}" for each in (*FORMULAS, "every", "possible")}, name


# the disk

READS = {"read_text", "read_bytes"}
WRITES = {"write_text", "write_bytes", "unlink", "mkdir", "rmdir", "rename", "replace", "touch", "symlink_to"}
OF_OS = {"open", "read", "write", "remove", "unlink", "mkdir", "makedirs", "rmdir", "rename", "replace", "link",
         "symlink", "listdir", "scandir", "walk", "stat", "lstat", "chmod", "system", "popen", "fork", "kill",
         "truncate", "fsync", "spawnl", "spawnv", "execv", "execvp"}  # fmt: skip
RUNNERS = {
    "subprocess",
    "shutil",
    "tempfile",
    "glob",
    "fcntl",
    "socket",
    "urllib",
    "http",
    "requests",
    "git",
    "filelock",
}


def touches(file: Path) -> Iterator[str]:
    """Where a file opens, writes or runs something."""
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import | ast.ImportFrom):
            names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else [node.module or ""]
            for name in names:
                if name.split(".")[0] in RUNNERS:
                    yield f"{file}:{node.lineno}: imports {name}"
        elif isinstance(node, ast.Call) and is_touch(node):
            yield f"{file}:{node.lineno}: {ast.unparse(node.func)}(...)"


def is_touch(call: ast.Call) -> bool:
    function = call.func
    if isinstance(function, ast.Name):
        return function.id == "open"
    if not isinstance(function, ast.Attribute):
        return False
    if isinstance(function.value, ast.Name) and function.value.id == "os":
        return function.attr in OF_OS
    if function.attr == "replace" and (len(call.args) != 1 or call.keywords):
        return False  # a text's, or a dataclass's
    return function.attr in READS | WRITES


OUTSIDE_THE_STORE = [file for file in MODULES if file.parent.name != "store"]


def test_only_the_store_touches_the_disk_or_runs_a_program() -> None:
    for file in OUTSIDE_THE_STORE:
        if file.relative_to(PACKAGE).as_posix() not in ALLOWED:
            assert list(touches(file)) == [], file


def test_the_named_exceptions_are_still_needed() -> None:
    assert [name for name in ALLOWED if not list(touches(PACKAGE / name))] == []


def test_the_search_finds_what_it_looks_for() -> None:
    """It would be of no use if the store itself looked clean."""
    found = {file.name for file in MODULES if file.parent.name == "store" and list(touches(file))}
    assert {"disk.py", "git_run.py", "lock.py"} <= found


# the start

HEAVY = ("git", "weasyprint", "matplotlib", "scipy", "numpy", "jinja2", "markdown", "rich", "uncertainties", "PIL",
         "pint", "ruamel", "segno")  # fmt: skip


@pytest.mark.skipif(not (PACKAGE / "cli" / "main.py").exists(), reason="there is no command yet")
def test_no_heavy_library_is_on_the_way_to_a_reading_command() -> None:
    told = subprocess.run(
        [sys.executable, "-X", "importtime", "-c", "import logbook.cli.main"],
        cwd=PACKAGE.parent, capture_output=True, text=True, check=True,
    )  # fmt: skip
    loaded = {line.rpartition("|")[2].strip().split(".")[0] for line in told.stderr.splitlines()}
    assert "click" in loaded
    assert loaded & set(HEAVY) == set()


def test_a_record_that_was_read_before_needs_neither_yaml_nor_pydantic(tmp_path: Path) -> None:
    ours = ["-m", "logbook", "specs", "--in", str(PACKAGE.parent / "example_engine")]
    cache = {**os.environ, "HOME": str(tmp_path), "XDG_CACHE_HOME": str(tmp_path)}
    first, second = (
        subprocess.run([sys.executable, "-X", "importtime", *ours],
                       cwd=PACKAGE.parent, env=cache, capture_output=True, text=True, check=True)
        for _ in range(2)
    )  # fmt: skip
    loaded = [{line.rpartition("|")[2].strip() for line in told.stderr.splitlines()} for told in (first, second)]
    assert {"yaml", "pydantic"} <= loaded[0]
    assert loaded[1] & {*HEAVY, "yaml", "pydantic", "pydantic_core"} == set()
    assert second.stdout == first.stdout


def test_importing_the_package_imports_nothing_of_it() -> None:
    ours = "import sys, logbook; print(*(each for each in sys.modules if each.startswith('logbook.')))"
    told = subprocess.run(
        [sys.executable, "-c", ours],
        cwd=PACKAGE.parent, capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert told.stdout.split() == []


# the size of things


def test_a_module_can_be_read_at_a_sitting() -> None:
    for file in MODULES:
        assert len(file.read_text(encoding="utf-8").splitlines()) <= 300, file


def test_half_of_all_functions_are_under_ten_lines() -> None:
    sizes = sorted(
        size(node)
        for file in MODULES
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8")))
        if isinstance(node, ast.FunctionDef)
    )
    assert sizes[len(sizes) // 2] < 10


def size(function: ast.FunctionDef) -> int:
    """Lines of the body, without the docstring."""
    body = function.body[1:] if ast.get_docstring(function) else function.body
    return (body[-1].end_lineno or 0) - body[0].lineno + 1 if body else 0
