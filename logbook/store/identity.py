"""Who commits, and whether the repository is his to write in: both asked of the user's own git configuration.

Only here is the system's and the user's global configuration read; reading it runs nothing.
"""

import os
import re
from datetime import datetime
from pathlib import Path

from logbook.errors import CannotWrite
from logbook.store.git_read import Scratch
from logbook.store.git_run import Environment, GitFailed
from logbook.store.repository import Repository
from logbook.store.staging import run_live

_OWN_CONFIG: Environment = {"GIT_CONFIG_NOSYSTEM": None, "GIT_CONFIG_GLOBAL": None}
_IDENT = re.compile(r"(?P<name>.*?) <(?P<email>[^<>]*)> \d+ [+-]\d{4}\Z", re.DOTALL)


def identity(repository: Repository, date: datetime | None = None) -> dict[str, str]:
    """The environment that names author and committer to git, dated `date` (with its time zone) or now.

    Raises CannotWrite where git knows no name and address; none is made up from the machine's name.
    """
    variables = _person(repository, "AUTHOR") | _person(repository, "COMMITTER")
    if date is not None:
        stamp = f"@{int(date.timestamp())} {date:%z}"
        variables |= {"GIT_AUTHOR_DATE": stamp, "GIT_COMMITTER_DATE": stamp}
    return variables


def _person(repository: Repository, role: str) -> dict[str, str]:
    question = ("-c", "user.useConfigOnly=true", "var", f"GIT_{role}_IDENT")
    try:
        ident = run_live(repository, *question, environment=_OWN_CONFIG).decode("utf-8", "replace")
    except GitFailed as error:
        raise CannotWrite(
            "Git does not know who writes; tell it once with these two commands:\n"
            '  git config --global user.name "Your Name"\n'
            "  git config --global user.email you@example.org"
        ) from error
    match = _IDENT.match(ident.strip())
    if match is None:
        raise CannotWrite(
            f"Git's name for the {role.lower()} is not usable: {ident.strip()}; set user.name and user.email"
        )
    return {f"GIT_{role}_NAME": match["name"], f"GIT_{role}_EMAIL": match["email"]}


def refuse_other_owner(git: Scratch) -> None:
    """As git does: another user's repository is written only if the user has named it in his safe.directory."""
    repository = git.repository
    if _is_own(repository.git_dir) and _is_own(repository.root):
        return
    trusted = _safe_directories(git)
    if "*" not in trusted and str(repository.root) not in trusted:
        raise CannotWrite(
            f"{repository.root} belongs to another user (git calls this dubious ownership); copy it into a folder "
            f"of your own, or if you trust it: git config --global --add safe.directory {repository.root}"
        )


def _is_own(place: Path) -> bool:
    if os.name == "nt":
        return True
    user = os.geteuid()
    return place.stat().st_uid in ({user, int(os.environ.get("SUDO_UID") or user)} if user == 0 else {user})


def _safe_directories(git: Scratch) -> list[str]:
    try:
        listing = git.run("config", "--get-all", "-z", "safe.directory", environment=_OWN_CONFIG)
    except GitFailed:
        return []
    return listing.decode("utf-8", "surrogateescape").split("\0")
