"""What was written down, and when; refused where a repository leads elsewhere."""

import os
import shutil
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest

from logbook.errors import CannotRead
from logbook.store import git_read, git_run, git_write, repository

Git = Callable[..., str]
DAY = datetime(2001, 5, 6, 12, 0, tzinfo=UTC)


def test_history_tells_who_when_and_what_oldest_first(engine: Path, git: Git) -> None:
    git_write.commit(engine, {"notes/a.yaml": b"one"}, "A note", trailers={"Undoes": "abc"}, author_date=DAY)
    git_write.commit(engine, {"notes/a.yaml": None}, "Gone\n\nwith a body")
    first, second, third = git_read.history(engine)
    assert [change.path for change in first.paths] == [".gitignore", "engine.yaml", "parts/head-a.yaml", "specs.yaml"]
    assert (second.author, second.email, second.subject) == ("A Owner", "owner@example.org", "A note")
    assert second.authored == second.committed == DAY
    assert second.trailers["Undoes"] == "abc"
    assert len(second.trailers["Record-Fingerprint"]) == 64
    note = git(engine, "rev-parse", f"{second.commit}:notes/a.yaml").strip()
    assert second.paths == (git_read.ChangedPath("notes/a.yaml", "A", None, note),)
    assert third.paths == (git_read.ChangedPath("notes/a.yaml", "D", note, None),)
    assert git_read.first_written(engine)["notes/a.yaml"] == DAY


def test_history_takes_the_users_own_commits_merges_and_odd_names(engine: Path, git: Git) -> None:
    git(engine, "commit", "-q", "--allow-empty", "-m", ":looks like a raw line\n\nKey: a: b")
    git(engine, "switch", "-q", "-c", "side")
    (engine / "files").mkdir()
    (engine / "files" / ":odd\tname é.csv").write_text("x")
    git(engine, "add", ".")
    git(engine, "commit", "-q", "-m", "side")
    git(engine, "switch", "-q", "main")
    git(engine, "commit", "-q", "--allow-empty", "-m", "main")
    git(engine, "merge", "-q", "--no-ff", "-m", "Merge", "side")
    history = git_read.history(engine)
    assert {written.commit for written in history} == set(git(engine, "rev-list", "HEAD").split())
    assert history[1].subject == ":looks like a raw line"
    assert history[1].trailers == {"Key": "a: b"}
    assert [change.path for change in history[-1].paths] == ["files/:odd\tname é.csv"]


def test_a_logbook_inside_a_larger_repository_sees_only_itself(tmp_path: Path, git: Git) -> None:
    git(tmp_path, "init", "-q", "-b", "main")
    for name in ("six", "six-b"):
        git_write.create(tmp_path / name)
        git_write.commit(tmp_path / name, {"engine.yaml": name.encode()}, name)
    git_write.commit(tmp_path / "six", {"parts/a.yaml": b"a"}, "Part")
    assert [written.subject for written in git_read.history(tmp_path / "six")] == ["six", "Part"]
    assert set(git_read.first_written(tmp_path / "six")) == {"engine.yaml", "parts/a.yaml"}
    assert git_read.texts_at(tmp_path / "six", "HEAD") == {"engine.yaml": b"six", "parts/a.yaml": b"a"}
    assert git_read.status(tmp_path / "six") == [".gitignore"]


def test_before_the_first_commit_there_is_no_history(tmp_path: Path) -> None:
    git_write.create(tmp_path)
    (tmp_path / "engine.yaml").write_text("format: 1")
    assert git_read.history(tmp_path) == ()
    assert git_read.status(tmp_path) == [".gitignore", "engine.yaml"]


def test_revisions_are_named_as_usual(engine: Path, git: Git) -> None:
    git(engine, "tag", "-a", "-m", "sold", "sold")
    git_write.commit(engine, {"engine.yaml": b"format: 2\n"}, "Later")
    git(engine, "pack-refs", "--all")
    git(engine, "gc", "-q")
    assert git_read.text_at(engine, "sold", "engine.yaml") == b"format: 1\nname: Quarry six\n"
    assert git_read.text_at(engine, "HEAD", "engine.yaml") == b"format: 2\n"
    assert set(git_read.texts_at(engine, "main~1")) == {"engine.yaml", "parts/head-a.yaml"}
    with pytest.raises(CannotRead, match="There was no parts/x"):
        git_read.text_at(engine, "HEAD", "parts/x.yaml")


@pytest.mark.parametrize("revision", ["nowhere", "--output=x", "HEAD^{tree}", "", "main..main"])
def test_what_is_no_revision_is_refused(engine: Path, revision: str) -> None:
    with pytest.raises(CannotRead, match="no revision"):
        git_read.texts_at(engine, revision)
    assert not (engine / "x").exists()


def test_edited_is_what_git_would_call_modified(engine: Path, git: Git) -> None:
    (engine / "engine.yaml").write_text("edited")
    (engine / "parts" / "head-a.yaml").unlink()
    (engine / "notes").mkdir()
    (engine / "notes" / "new.yaml").write_text("new")
    (engine / "README.md").write_text("not ours")
    edited = git_read.edited(engine)
    assert edited == {"engine.yaml": b"edited", "notes/new.yaml": b"new", "parts/head-a.yaml": None}
    assert git_read.status(engine) == list(edited)
    assert git_write.commit(engine, edited, "Save")
    assert git(engine, "status", "--porcelain") == "?? README.md\n"


def test_a_blob_id_is_gits_own(engine: Path, git: Git) -> None:
    with git_read.reading(engine, "") as scratch:
        assert (
            scratch.blob_id((engine / "engine.yaml").read_bytes()) == git(engine, "hash-object", "engine.yaml").strip()
        )


def test_sha256_repositories_are_read_and_written(tmp_path: Path, git: Git) -> None:
    git(tmp_path, "init", "-q", "-b", "main", "--object-format=sha256")
    (tmp_path / "engine.yaml").write_text("format: 1")
    number = git_write.commit(tmp_path, git_read.edited(tmp_path), "First")
    assert git_write.commit(tmp_path, {"engine.yaml": None, "parts/a.yaml": b"a"}, "Second")
    assert git_read.history(tmp_path)[0].commit == number == git(tmp_path, "rev-parse", "HEAD~1").strip()
    assert git(tmp_path, "status", "--porcelain") == ""


def test_a_shallow_clone_is_read_as_far_as_it_goes(engine: Path, tmp_path: Path, git: Git) -> None:
    git_write.commit(engine, {"notes/a.yaml": b"one"}, "A note")
    git(tmp_path, "clone", "-q", "--depth=1", f"file://{engine}", "copy")
    assert [written.subject for written in git_read.history(tmp_path / "copy")] == ["A note"]
    assert git_write.commit(tmp_path / "copy", {"notes/b.yaml": b"b"}, "More")


def _git_file(engine: Path) -> None:
    shutil.move(engine / ".git", engine.parent / "elsewhere")
    (engine / ".git").write_text(f"gitdir: {engine.parent / 'elsewhere'}\n")


def _git_link(engine: Path) -> None:
    shutil.move(engine / ".git", engine.parent / "elsewhere")
    (engine / ".git").symlink_to(engine.parent / "elsewhere")


def _objects_link(engine: Path) -> None:
    shutil.move(engine / ".git" / "objects", engine.parent / "elsewhere")
    (engine / ".git" / "objects").symlink_to(engine.parent / "elsewhere")


def _lock_link(engine: Path) -> None:
    (engine / ".git" / "logbook.lock").unlink()
    (engine / ".git" / "logbook.lock").symlink_to(engine.parent / "evil")


def _common_dir(engine: Path) -> None:
    (engine / ".git" / "commondir").write_text("../elsewhere\n")


def _alternates(engine: Path) -> None:
    (engine / ".git" / "objects" / "info").mkdir(exist_ok=True)
    (engine / ".git" / "objects" / "info" / "alternates").write_text("/somewhere/else/objects\n")


def _no_head(engine: Path) -> None:
    (engine / ".git" / "HEAD").unlink()


def _no_objects(engine: Path) -> None:
    shutil.rmtree(engine / ".git" / "objects")
    (engine / ".git" / "objects").mkdir()


def _spoilt_head(engine: Path) -> None:
    (engine / ".git" / "HEAD").write_text("ref: refs/heads/../../../etc/passwd\n")


def _reftable(engine: Path) -> None:
    (engine / ".git" / "HEAD").write_text("ref: refs/heads/.invalid\n")


def _no_repository(engine: Path) -> None:
    shutil.rmtree(engine / ".git")


def _bare(engine: Path) -> None:
    for entry in (engine / ".git").iterdir():
        shutil.move(entry, engine / entry.name)
    (engine / ".git").rmdir()


@pytest.mark.parametrize(
    ("spoil", "says"),
    [
        (_git_file, "leads to a repository elsewhere"),
        (_git_link, "is a symbolic link"),
        (_objects_link, "is a symbolic link"),
        (_lock_link, r"logbook\.lock is a symbolic link"),
        (_common_dir, "leads to a repository elsewhere"),
        (_alternates, "borrows its objects from /somewhere/else/objects"),
        (_no_head, "not a whole git repository"),
        (_no_objects, "cannot be read: git says"),
        (_spoilt_head, "names no branch and no commit"),
        (_reftable, "reftable"),
        (_no_repository, "is in no git repository"),
        (_bare, "is a bare repository"),
    ],
)
def test_what_leads_elsewhere_or_is_broken_is_one_sentence(engine: Path, spoil: object, says: str) -> None:
    spoil(engine)  # type: ignore[operator]
    with pytest.raises(CannotRead, match=says) as caught:
        git_read.history(engine)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize("cut", [True, False], ids=["cut short", "gone"])
@pytest.mark.parametrize("what", ["HEAD", "HEAD^{tree}", "HEAD:engine.yaml"])
def test_a_damaged_object_says_what_to_do(engine: Path, git: Git, what: str, cut: bool) -> None:
    name = git(engine, "rev-parse", what).strip()
    file = engine / ".git" / "objects" / name[:2] / name[2:]
    file.chmod(0o644)
    file.write_bytes(file.read_bytes()[:20])
    if not cut:
        file.unlink()
    with pytest.raises(CannotRead) as caught:
        git_read.texts_at(engine, "HEAD")
    assert "git says '" in str(caught.value)
    assert str(caught.value).endswith(
        "; the history in .git is damaged, the files of the record are not: look at it with `git fsck --full`, then "
        "take .git back from a second copy of the record"
    )


def test_a_linked_reference_is_not_followed(engine: Path) -> None:
    secret = engine.parent / "secret"
    secret.write_text("a" * 40 + "\n")
    (engine / ".git" / "refs" / "tags" / "evil").symlink_to(secret)
    assert "refs/tags/evil" not in repository.read_references(repository.open_repository(engine))


def test_a_branch_behind_a_linked_folder_is_not_followed(engine: Path, git: Git) -> None:
    git(engine, "switch", "-q", "-c", "deep/er/branch")
    shutil.move(engine / ".git" / "refs" / "heads" / "deep" / "er", engine.parent / "er")
    (engine / ".git" / "refs" / "heads" / "deep" / "er").symlink_to(engine.parent / "er")
    with pytest.raises(CannotRead, match="is a symbolic link"):
        git_read.history(engine)


def test_without_git_there_is_a_sentence(engine: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", "")
    with pytest.raises(CannotRead, match="git was not found; install it"):
        git_read.history(engine)


def test_the_environment_of_a_surrounding_git_is_overruled(engine: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("GIT_DIR", "GIT_INDEX_FILE", "GIT_OBJECT_DIRECTORY", "GIT_WORK_TREE", "GIT_COMMON_DIR"):
        monkeypatch.setenv(name, os.devnull)
    monkeypatch.setenv("GIT_CONFIG_PARAMETERS", "'log.showSignature'='true'")
    assert git_write.commit(engine, {"notes/a.yaml": b"one"}, "A note")
    assert len(git_read.history(engine)) == 2


def test_every_override_reaches_git(engine: Path) -> None:
    listing = git_run.run(("config", "--list"), engine, {"GIT_DIR": str(engine / ".git")}).decode()
    assert "core.hookspath=/dev/null" in listing
    assert "core.fsmonitor=false" in listing
    assert "protocol.allow=never" in listing


def test_a_giant_in_the_history_is_not_read(engine: Path, git: Git) -> None:
    (engine / "parts" / "giant.yaml").write_bytes(b" " * (2**20 + 1))
    git(engine, "add", ".")
    git(engine, "commit", "-q", "-m", "giant")
    with pytest.raises(CannotRead, match="larger than 1 MiB"):
        git_read.texts_at(engine, "HEAD")
    assert git_read.text_at(engine, "HEAD~1", "engine.yaml")
