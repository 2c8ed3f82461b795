"""One commit of our own paths, or none at all.

Built from git's plumbing: blobs, a private index made from the last commit's tree, a tree, a commit, and the branch
moved by compare and swap. The user's hooks do not run, what he has staged stays staged, and other engines and other
files in the repository are not looked at. Which step may be interrupted and what follows is told in journal.py.
"""

from collections.abc import Mapping, Sequence
from datetime import datetime
from hashlib import sha256
from pathlib import Path

from logbook.errors import CannotWrite
from logbook.store import disk, files, fingerprint, git_run
from logbook.store.git_read import PLAIN_FILES, Blob, Scratch, scratch
from logbook.store.git_run import GitFailed, GitMissing, clearly
from logbook.store.identity import identity, refuse_other_owner
from logbook.store.journal import (
    Journal,
    disk_id,
    drop_journal,
    finish,
    move_branch,
    place_change,
    settle,
    write_journal,
)
from logbook.store.lock import refuse_git_locks, repository_lock
from logbook.store.repository import (
    Head,
    Repository,
    find_repository,
    open_repository,
    read_head,
    read_reference,
)
from logbook.store.staging import Change, index_lines, run_live, staged_otherwise

_UNFINISHED = {
    "MERGE_HEAD": "merge",
    "CHERRY_PICK_HEAD": "cherry-pick",
    "REVERT_HEAD": "revert",
    "rebase-merge": "rebase",
    "rebase-apply": "rebase",
    "sequencer": "cherry-pick or revert",
}


def commit(
    folder: Path,
    changes: Mapping[str, bytes | None],
    message: str,
    *,
    trailers: Mapping[str, str] | None = None,
    seen: Mapping[str, bytes | None] | None = None,
    author_date: datetime | None = None,
    write_files: bool = True,
    who: Mapping[str, str] | None = None,
    fingerprinted: bool = True,
) -> str | None:
    """Write `changes` (path inside the logbook: content, None deletes) as one commit; its id, None if nothing differs.

    A file on the disk may be as in the last commit, as in `changes` (edited by hand, now saved), or as the caller
    read it (`seen`); specs.yaml may be anything, for it is generated. Any other content is someone's work and is
    refused by name. `trailers` come at the end of the message, the record fingerprint last. `author_date` dates
    author and committer (with time zone), unless `who` (as `identity` gives it) names and dates both. With
    `write_files=False` the work tree is left alone. Raises CannotWrite or CannotRead, and then nothing was changed,
    unless the sentence says that the commit was made.
    """
    says = f"Nothing was written in {folder}"
    with clearly(CannotWrite, says):
        repository = open_repository(folder)
        with repository_lock(repository):
            finish(repository, folder)
            head = read_head(repository)
            branch = _refuse_unready(repository, head)
            with scratch(repository) as git:
                _refuse_settings(git)
                who = who or identity(repository, author_date)
                planned = _plan(git, head, changes, seen or {}, write_files)
                differing = [change for change in planned if change.old != change.new]
                _refuse_staged(git, differing)
                contents = {repository.prefix + path: data for path, data in changes.items() if data is not None}
                if not differing:
                    _only_place(git, planned, contents)
                    return None
                text = _message(message, trailers or {})
                new = _make_commit(git, head, differing, contents, text, who, fingerprinted)
                journal = Journal(branch, head.commit, new, write_files, tuple(planned))
                _make_visible(git, journal, contents, who)
    _maintain(repository)
    return new


def _refuse_unready(repository: Repository, head: Head) -> str:
    """The branch to move; CannotWrite where the repository is in the middle of something."""
    if head.branch is None:
        raise CannotWrite(
            f"{repository.root} has no branch checked out (detached head); go back to one: git switch main"
        )
    refuse_unfinished(repository)
    refuse_git_locks(repository, head.branch)
    return head.branch


def refuse_unfinished(repository: Repository) -> None:
    """CannotWrite where git is in the middle of a merge or the like: its files are not the owner's word yet."""
    for name, what in _UNFINISHED.items():
        if (repository.git_dir / name).exists():
            raise CannotWrite(
                f"A {what} is in progress in {repository.root}; finish it with git, or: git {what} --abort"
            )


def _refuse_settings(git: Scratch) -> None:
    refuse_other_owner(git)
    root = git.repository.root
    if git.settings.get("core.bare", "").lower() in ("true", "yes", "on", "1"):
        raise CannotWrite(f"{root} is set to be a bare repository; mend it: git config core.bare false")
    if "core.worktree" in git.settings:
        raise CannotWrite(f"{root} is set to keep its files elsewhere; mend it: git config --unset core.worktree")


def _plan(
    git: Scratch,
    head: Head,
    changes: Mapping[str, bytes | None],
    seen: Mapping[str, bytes | None],
    write_files: bool,
) -> list[Change]:
    """Each change with the blob ids before and after; refuses a path that leads out and a file with other content."""
    prefix = git.repository.prefix
    if prefix.endswith(f"{files.PRIVATE}/"):
        raise CannotWrite(f"{prefix} has no git repository of its own and must not come into the public one")
    entries = git.entries(head.commit, [prefix + files.check_path(path) for path in changes]) if changes else {}
    return [
        _planned(git, path, data, entries.get(prefix + path), seen, write_files)
        for path, data in sorted(changes.items())
    ]


def _planned(
    git: Scratch,
    path: str,
    data: bytes | None,
    entry: Blob | None,
    seen: Mapping[str, bytes | None],
    write_files: bool,
) -> Change:
    if entry is not None and entry.mode not in PLAIN_FILES:
        raise CannotWrite(f"{path} is a link or a folder in the last commit; take it out with git first")
    old, new = entry.id if entry else None, _id(git, data)
    on_disk = (
        _checked_disk(git, path, {old, new} | ({_id(git, seen[path])} if path in seen else set()))
        if write_files
        else new
    )
    return Change(git.repository.prefix + path, entry.mode if entry else "100644", old, new, on_disk)


def _id(git: Scratch, data: bytes | None) -> str | None:
    return None if data is None else git.blob_id(data)


def _checked_disk(git: Scratch, path: str, expected: set[str | None]) -> str | None:
    """What stands on the disk now; CannotWrite where that is somebody's work that would be overwritten."""
    files.refuse_linked_parents(git.repository.root / git.repository.prefix, path)
    now = disk_id(git, git.repository.root / git.repository.prefix / path)
    if now in expected or path == files.GENERATED:
        return now
    says = "has been deleted by hand" if now is None else "has been edited by hand and not saved"
    raise CannotWrite(f"{path} {says}; nothing was written. Save it first: logbook save")


def _refuse_staged(git: Scratch, changes: Sequence[Change]) -> None:
    others = staged_otherwise(git.repository, changes, git.blob_id(b"")) if changes else []
    if others:
        paths = ", ".join(change.path for change in others)
        raise CannotWrite(
            f"Staged in git with other content than is to be written: {paths}; nothing was written. "
            f"Commit it or take it back: git restore --staged {others[0].path}"
        )


def _only_place(git: Scratch, planned: Sequence[Change], contents: Mapping[str, bytes]) -> None:
    """Nothing to commit; a specs.yaml that was spoilt on the disk is still put right."""
    for change in planned:
        _prepare(git, change, contents)
        place_change(git, change, prepared=True)


def _message(message: str, trailers: Mapping[str, str]) -> str:
    """Subject, body and trailers; CannotWrite for a message that git could not keep as it is."""
    text = message.strip()
    if not text or "\0" in text or any("\n" in value for value in trailers.values()):
        raise CannotWrite("A commit needs a message of plain text, and trailers of one line each")
    return text + "\n\n" + "".join(f"{key}: {value}\n" for key, value in trailers.items())


def _make_commit(
    git: Scratch,
    head: Head,
    changes: Sequence[Change],
    contents: Mapping[str, bytes],
    message: str,
    who: Mapping[str, str],
    fingerprinted: bool,
) -> str:
    """State 1: blobs, tree and commit in the object store, where nobody sees them yet."""
    _write_blobs(git, [contents[change.path] for change in changes if change.new])
    if head.commit:
        git.run("read-tree", head.commit)
    git.run("update-index", "-z", "--index-info", data=index_lines(changes))
    tree = git.run("write-tree", "--missing-ok").decode().strip()
    if fingerprinted:
        message += f"{fingerprint.TRAILER}: {tree_fingerprint(git, tree)}\n"
    parent = ("-p", head.commit) if head.commit else ()
    return git.run("commit-tree", tree, *parent, "-F", "-", data=message.encode(), environment=who).decode().strip()


def _write_blobs(git: Scratch, contents: Sequence[bytes]) -> None:
    """All blobs by one process: their contents wait in the scratch folder, under names of ours."""
    for number, data in enumerate(contents):
        (git.place / f"blob-{number}").write_bytes(data)
    names = "".join(f"blob-{number}\n" for number in range(len(contents)))
    if names:
        git.run("hash-object", "-w", "--no-filters", "--stdin-paths", data=names.encode())


def tree_fingerprint(git: Scratch, revision: str) -> str:
    """The record fingerprint of a commit or tree, the same as of a folder that holds just these files."""
    tree = {path: blob for path, blob in git.tree(revision).items() if fingerprint.is_fingerprinted(path)}
    digests = (sha256(data).hexdigest() for data in git.contents(list(tree.values())))
    return fingerprint.fingerprint_of(dict(zip(tree, digests, strict=True)))


def _prepare(git: Scratch, change: Change, contents: Mapping[str, bytes]) -> None:
    if change.new and change.disk != change.new:
        disk.prepare(git.repository.root / change.path, contents[change.path])


def _make_visible(git: Scratch, journal: Journal, contents: Mapping[str, bytes], who: Mapping[str, str]) -> None:
    """States 1 to 6: files beside their places, journal, branch, files, index, journal gone."""
    repository = git.repository
    try:
        for change in journal.changes if journal.write_files else ():
            _prepare(git, change, contents)
        write_journal(repository, journal)
        _move(repository, journal, who)
    except (OSError, GitFailed, CannotWrite):
        for change in journal.changes:
            disk.temporary_for(repository.root / change.path).unlink(missing_ok=True)
        drop_journal(repository)
        raise
    says = f"The change is committed as {journal.new[:10]}; the next writing command will put the rest in place"
    with clearly(CannotWrite, says):
        settle(git, journal, journal.changes, prepared=True)


def _move(repository: Repository, journal: Journal, who: Mapping[str, str]) -> None:
    try:
        move_branch(repository, journal, who)
    except GitFailed as error:
        if read_reference(repository, journal.branch) == journal.old:
            raise
        raise CannotWrite(
            f"Somebody else committed to {journal.branch} at the same moment; nothing was written. Run this again"
        ) from error


def _maintain(repository: Repository) -> None:
    """Let git repack when it finds it due, as it does after its own commits; it matters to nobody if that fails."""
    try:
        run_live(repository, "maintenance", "run", "--auto", "--quiet")
    except (GitFailed, GitMissing, OSError):
        pass


def create(folder: Path) -> bool:
    """Make the folder, and a git repository in it unless it lies in one already (False). private/ is ignored."""
    with clearly(CannotWrite, f"No git repository could be made in {folder}"):
        disk.make_folder(folder)
        made = find_repository(folder) is None
        if made:
            where = {"GIT_DIR": str(folder.resolve() / ".git"), "GIT_WORK_TREE": str(folder.resolve())}
            git_run.run(("init", "--quiet", "--template=", "--initial-branch=main"), folder, where)
        if disk.content(folder / files.IGNORE) is None:
            disk.write_durably(folder / files.IGNORE, files.IGNORED)
        return made
