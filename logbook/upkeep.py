"""What a save does besides the change itself, so that the change stands alone in its commit.

After the program was renewed, specs.yaml is worked out anew from the last commit's own texts in a commit of its own:
whoever reads `git log -p specs.yaml` sees which figures the program changed and which the owner. And `.gitignore` keeps
private/ out of the public history, beside whatever else the owner has written into it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from datetime import datetime
from pathlib import Path

from logbook import __version__
from logbook.errors import CannotRead, LogbookError
from logbook.logbook import Logbook
from logbook.record.finding import DOUBTFUL, WRONG, Finding
from logbook.saving import SPECS_FILE, current_specs
from logbook.specs.specs_file import FORMULAS
from logbook.store import files

_MADE_BY = re.compile(rb"^program: engine-logbook (\S+)\nformulas: (\d+)$", re.MULTILINE)
_SPEC = re.compile(r"^  (\w+):\n((?:    .*\n)*)", re.MULTILINE)
_IGNORES_PRIVATE = {f"/{files.PRIVATE}/", f"/{files.PRIVATE}", f"{files.PRIVATE}/", files.PRIVATE}

_MOST_NAMED = 4


def made_by_us(specs: bytes) -> bool:
    """Whether a specs.yaml was worked out by this version of the program and of its formulas."""
    made = _MADE_BY.search(specs)
    return made is not None and made.groups() == (__version__.encode(), str(FORMULAS).encode())


def recompute_alone(folder: Path, date: datetime | None) -> str | None:
    """Commit the last commit's specs as this version works them out; a sentence, None where it worked them out."""
    from logbook.store.earlier import public_at
    from logbook.store.git_read import text_at
    from logbook.store.git_write import commit

    try:
        was = text_at(folder, "HEAD", SPECS_FILE)
    except CannotRead:  # nothing was committed yet
        return None
    if made_by_us(was):
        return None
    public = public_at(folder)
    anew = current_specs(Logbook.of_texts(public, folder), public)
    subject = f"Recompute the specs with engine-logbook {__version__}: {_how_many(was, anew)} changed, no fact changed"
    made = commit(folder, {SPECS_FILE: anew}, subject, author_date=date)
    return f"{subject}: commit {made[:10]}." if made else None


def _how_many(was: bytes, anew: bytes) -> str:
    before, after = (dict(_SPEC.findall(text.decode("utf-8", "replace"))) for text in (was, anew))
    number = sum(before.get(name) != after.get(name) for name in {*before, *after})
    return f"{number or 'no'} spec{'s' if number > 1 else ''}"


def ignoring_private(public: Mapping[str, bytes]) -> dict[str, bytes]:
    """The .gitignore to be written, if what stands there lets private/ into the public history; else nothing."""
    stands = public.get(files.IGNORE)
    if stands is None:
        return {files.IGNORE: files.IGNORED}
    lines = stands.decode("utf-8", "replace").splitlines()
    if any(line.strip() in _IGNORES_PRIVATE for line in lines):
        return {}
    gap = b"" if stands.endswith(b"\n") or not stands else b"\n"
    return {files.IGNORE: stands + gap + f"/{files.PRIVATE}/\n".encode()}


def private_in_public(folder: Path, demonstration: bool) -> Iterator[Finding]:
    """A private/ that the engine's own repository holds, as after `git add -f`: the next push would publish it.

    The demonstration's is invented, and part of its example.
    """
    from logbook.store.tracked import tracked_private

    held = tracked_private(folder) if not demonstration else []
    if held:
        more = f" and {len(held) - 1} more" if len(held) > 1 else ""
        says = f"{held[0]}{more} is in the engine's own git repository, which is not private"
        mend = (f"take it out: git rm -r --cached {files.PRIVATE}, then git commit; what was committed before stays in "
                "the history: push it nowhere until git filter-repo has taken it out")  # fmt: skip
        yield Finding(held[0], 1, 1, WRONG, says, mend)


def private_once_public(folder: Path, demonstration: bool) -> Iterator[Finding]:
    """A private/ that only older commits hold: whoever has a copy of the repository can still read it.

    Nothing where the history cannot be read: every writing command says so.
    """
    from logbook.store.once_public import once_public
    from logbook.store.repository import open_repository
    from logbook.store.tracked import tracked_private

    try:
        held = set(tracked_private(folder))
        found = [] if demonstration else [each for each in once_public(folder) if each.path not in held]
    except CannotRead:
        return
    if found:
        place = open_repository(folder).prefix + files.PRIVATE
        named = [f"{each.path} (commit {each.commit[:10]} of {each.day})" for each in found[:_MOST_NAMED]]
        more = f" and {len(found) - _MOST_NAMED} more" if len(found) > _MOST_NAMED else ""
        says = f"the public history still holds {', '.join(named)}{more}, although the last commit does not"
        mend = (f"what was pushed or given away is out: take it as known. To take it out of the history, write that "
                f"anew, with new commit ids: git filter-repo --invert-paths --path {place}; then give everybody who "
                "has a copy the new one")  # fmt: skip
        yield Finding(found[0].path, 1, 1, DOUBTFUL, says, mend)


def private_saved(folder: Path, subject: str, date: datetime | None) -> tuple[str | None, str | None]:
    """Save private/ into its own repository: a sentence if something was, and one if it could not be.

    It comes after the public commit and never stops it.
    """
    from logbook.store.private import save_private

    try:
        saved = save_private(folder, subject, date)
    except LogbookError as error:
        return None, f"{files.PRIVATE}/ could not be saved: {error}"
    if saved is None:
        return None, None
    commit, paths = saved
    return (
        f"Saved {len(paths)} private file{'s' if len(paths) > 1 else ''} as commit {commit[:10]} of private/ alone.",
        None,
    )
