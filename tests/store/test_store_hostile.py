"""A stranger's folder whose git configuration, hooks and attributes would all run a program of his."""

import os
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from logbook.advice import advice
from logbook.errors import CannotRead, CannotWrite
from logbook.logbook import Logbook
from logbook.saving import save
from logbook.store import files, git_read, git_write, journal
from logbook.undo import undo

Git = Callable[..., str]
HOOKS = (
    "pre-commit",
    "prepare-commit-msg",
    "commit-msg",
    "post-commit",
    "reference-transaction",
    "post-index-change",
    "pre-auto-gc",
    "post-checkout",
    "post-rewrite",
    "fsmonitor-watchman",
)


@pytest.fixture
def witness(tmp_path: Path) -> Path:
    return tmp_path / "witness"


@pytest.fixture
def hostile(engine: Path, tmp_path: Path, witness: Path, git: Git) -> Path:
    """A folder that holds every known way of making git run a program; the program leaves a witness."""
    evil = tmp_path / "evil"
    evil.write_text(f'#!/bin/sh\necho "$0 $*" >> {witness}\nexit 1\n')
    evil.chmod(0o755)
    hooks = tmp_path / "hooks"
    for folder in (hooks, engine / ".git" / "hooks"):
        folder.mkdir(exist_ok=True)
        for name in HOOKS:
            (folder / name).symlink_to(evil)
    (engine / ".git" / "info").mkdir(exist_ok=True)
    for attributes in (engine / ".gitattributes", engine / ".git" / "info" / "attributes"):
        attributes.write_text("* filter=evil diff=evil merge=evil\n")
    settings = {
        "core.fsmonitor": evil,
        "core.hooksPath": hooks,
        "core.pager": evil,
        "core.editor": evil,
        "core.sshCommand": evil,
        "core.askPass": evil,
        "core.gitProxy": evil,
        "core.alternateRefsCommand": evil,
        "core.repositoryFormatVersion": "1",
        "credential.helper": f"!{evil}",
        "diff.external": evil,
        "diff.evil.textconv": evil,
        "diff.evil.command": evil,
        "extensions.partialClone": "origin",
        "filter.evil.clean": evil,
        "filter.evil.smudge": evil,
        "filter.evil.process": evil,
        "filter.evil.required": "true",
        "gc.recentObjectsHook": evil,
        "gc.auto": "1",
        "gpg.program": evil,
        "commit.gpgSign": "true",
        "log.showSignature": "true",
        "log.diffMerges": "remerge",
        "merge.evil.driver": evil,
        "remote.origin.url": engine,
        "remote.origin.promisor": "true",
        "remote.origin.uploadpack": evil,
        "remote.origin.partialCloneFilter": "blob:none",
        "sequence.editor": evil,
        "trailer.Record-Fingerprint.command": evil,
        "uploadpack.packObjectsHook": evil,
        "maintenance.prefetch.enabled": "true",
    }
    lines = (f"[{section(name)}]\n\t{name.rpartition('.')[2]} = {value}\n" for name, value in settings.items())
    (engine / ".git" / "config").write_text("".join(lines))
    return engine


def section(name: str) -> str:
    first, *middle, _ = name.split(".")
    return f'{first} "{".".join(middle)}"' if middle else first


def test_the_traps_are_live(hostile: Path, witness: Path) -> None:
    subprocess.run(["git", "status"], cwd=hostile, capture_output=True, check=False)
    subprocess.run(["git", "cat-file", "-p", "1" * 40], cwd=hostile, capture_output=True, check=False)
    assert "uploadpack" not in os.environ
    assert len(witness.read_text().splitlines()) >= 3


def test_reading_runs_nothing(hostile: Path, witness: Path) -> None:
    (hostile / "engine.yaml").write_text("edited")
    assert len(git_read.history(hostile)) == 1
    assert git_read.first_written(hostile)
    assert git_read.status(hostile) == ["engine.yaml"]
    assert git_read.text_at(hostile, "HEAD", "engine.yaml")
    assert files.read_texts(hostile)
    assert journal.finish_interrupted(hostile) is None
    for revision in ("1" * 40, "HEAD~7", "ext::sh -c evil", "--upload-pack=evil"):
        with pytest.raises(CannotRead):
            git_read.texts_at(hostile, revision)
    assert not witness.exists()


def test_a_missing_object_is_not_fetched(hostile: Path, witness: Path, git: Git) -> None:
    blob = subprocess.run(
        ["git", "-c", "core.fsmonitor=false", "rev-parse", "HEAD:engine.yaml"],
        cwd=hostile,
        capture_output=True,
        text=True,
        check=True,
    ).stdout.strip()
    (hostile / ".git" / "objects" / blob[:2] / blob[2:]).unlink()
    with pytest.raises(CannotRead, match="cannot be read"):
        git_read.texts_at(hostile, "HEAD")
    with pytest.raises(CannotWrite):
        git_write.commit(hostile, {"notes/a.yaml": b"a"}, "Note")
    assert not witness.exists()


def test_writing_runs_nothing(hostile: Path, witness: Path) -> None:
    (hostile / "engine.yaml").write_text("edited")
    for number in range(3):
        assert git_write.commit(hostile, {**git_read.edited(hostile), f"notes/{number}.yaml": b"a"}, "Note")
    assert (hostile / "notes" / "0.yaml").read_bytes() == b"a"
    assert git_read.text_at(hostile, "HEAD", "engine.yaml") == b"edited"
    assert not witness.exists()


def test_saving_undoing_and_advice_run_nothing(hostile: Path, witness: Path) -> None:
    """The same traps in private/'s own repository as well."""
    save(hostile, "First", even_so="it is a test")
    (hostile / "private").mkdir()
    (hostile / "private" / "who.txt").write_text("a secret")
    shutil.copytree(hostile / ".git", hostile / "private" / ".git", symlinks=True)
    shutil.copy(hostile / ".gitattributes", hostile / "private")
    (hostile / "notes").mkdir()
    (hostile / "notes" / "a.yaml").write_text("a")
    saved = save(hostile, "Second", even_so="it is a test")
    assert (saved.unsaved, bool(saved.private)) == (None, True)
    assert undo(hostile).subject == "Second"
    assert not (hostile / "notes" / "a.yaml").exists()
    assert list(advice(Logbook.open(hostile))) == []  # it has a remote, and an engine.yaml that says nothing
    assert not witness.exists()


def test_reading_follows_no_include(engine: Path, tmp_path: Path) -> None:
    """Git would refuse to go on after reading what the include leads to."""
    (tmp_path / "elsewhere").write_text("[this is no configuration\n")
    with (engine / ".git" / "config").open("a") as config:
        config.write(f"[include]\n\tpath = {tmp_path / 'elsewhere'}\n")
    assert len(git_read.history(engine)) == 1


def test_a_forged_replacement_or_graph_is_not_believed(engine: Path, git: Git) -> None:
    git_write.commit(engine, {"engine.yaml": b"sold honestly"}, "Later")
    honest = git(engine, "rev-parse", "HEAD:engine.yaml").strip()
    (engine / "forged").write_text("never measured")
    forged = git(engine, "hash-object", "-w", "forged").strip()
    git(engine, "replace", honest, forged)
    assert git(engine, "show", "HEAD:engine.yaml") == "never measured"
    assert git_read.text_at(engine, "HEAD", "engine.yaml") == b"sold honestly"


@pytest.mark.parametrize(
    "change",
    [
        {"path": "../../evil"},
        {"path": ".git/config"},
        {"path": "/tmp/evil"},
        {"mode": "120000"},
        {"new": "not an id"},
        {"old": 7},
    ],
)
def test_a_forged_journal_is_refused(engine: Path, tmp_path: Path, change: dict[str, object]) -> None:
    import json

    good = {"path": "notes/a.yaml", "mode": "100644", "old": None, "new": "1" * 40, "disk": None}
    entry = {
        "format": 1,
        "branch": "refs/heads/main",
        "old": None,
        "new": "1" * 40,
        "write_files": True,
        "changes": [good | change],
    }
    (engine / ".git" / "logbook-journal.json").write_text(json.dumps(entry))
    with pytest.raises(CannotWrite, match="is not a journal of this program's"):
        journal.finish_interrupted(engine)
    assert not (tmp_path / "evil").exists()


@pytest.mark.parametrize("text", ["", "[]", "{}", "null", '{"format": 2}', "\xff"])
def test_what_is_no_journal_is_refused(engine: Path, text: str) -> None:
    (engine / ".git" / "logbook-journal.json").write_bytes(text.encode("latin-1"))
    with pytest.raises(CannotWrite, match="is not a journal of this program's"):
        journal.finish_interrupted(engine)
