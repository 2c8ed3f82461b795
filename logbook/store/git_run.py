"""The one place where git is started.

Every process gets the same environment: no system or global configuration, no hooks, no file monitor, no pager, no
prompt, no network, no lazy fetching of missing objects, no replaced objects, no pathspec magic. It is set through
GIT_CONFIG_COUNT and its pairs, which outrank anything that a repository's own configuration says.
"""

import re
import subprocess
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path

from logbook.errors import LogbookError

_CONFIG = {
    "core.alternateRefsCommand": "false",
    "core.attributesFile": "/dev/null",
    "core.commitGraph": "false",  # it repeats what the commits say, and a forged one would be believed
    "core.excludesFile": "/dev/null",
    "core.fsmonitor": "false",
    "core.fsync": "all",
    "core.hooksPath": "/dev/null",
    "core.pager": "cat",
    "core.quotePath": "false",
    "core.sshCommand": "false",
    "diff.external": "",
    "gc.recentObjectsHook": "",
    "gpg.program": "false",
    "i18n.logOutputEncoding": "UTF-8",
    "log.showSignature": "false",
    "protocol.allow": "never",
    "submodule.recurse": "false",
}

ENVIRONMENT: Mapping[str, str] = {
    "GIT_ALLOW_PROTOCOL": "none",
    "GIT_ALTERNATE_OBJECT_DIRECTORIES": "",
    "GIT_ASKPASS": "false",
    "GIT_ATTR_NOSYSTEM": "1",
    "GIT_CONFIG_GLOBAL": "/dev/null",
    "GIT_CONFIG_NOSYSTEM": "1",
    "GIT_CONFIG_PARAMETERS": "",
    "GIT_EDITOR": "false",
    "GIT_LITERAL_PATHSPECS": "1",
    "GIT_NAMESPACE": "",
    "GIT_NO_LAZY_FETCH": "1",
    "GIT_NO_REPLACE_OBJECTS": "1",
    "GIT_OPTIONAL_LOCKS": "0",
    "GIT_PAGER": "cat",
    "GIT_TERMINAL_PROMPT": "0",
    "SSH_ASKPASS": "false",
    "GIT_CONFIG_COUNT": str(len(_CONFIG)),
    **{f"GIT_CONFIG_KEY_{number}": key for number, key in enumerate(_CONFIG)},
    **{f"GIT_CONFIG_VALUE_{number}": value for number, value in enumerate(_CONFIG.values())},
}


#: How git words it that an object of its store is not there or is not what it was.
_DAMAGED = re.compile(
    r"\bcorrupt|inflate|\bloose object|\bheader for|\bis missing|unable to (read|unpack|find|stream)|"
    r"not a (tree|commit)\b|not a valid object|bad (object|tree|file)|could not read|packfile"
)
_MEND = (
    "; the history in .git is damaged, the files of the record are not: look at it with `git fsck --full`, then take "
    ".git back from a second copy of the record"
)

Environment = Mapping[str, str | None]
NOTHING: Environment = {}


class GitMissing(Exception):
    """There is no git program to start."""

    def __str__(self) -> str:
        return "git was not found; install it (Debian, Ubuntu: apt-get install git) and run this again"


class GitFailed(Exception):
    """Git ended with an error; its own first line says which."""

    def __init__(self, arguments: Sequence[str], status: int, errors: bytes) -> None:
        lines = errors.decode("utf-8", "replace").strip().splitlines()
        self.says = lines[0] if lines else f"git {arguments[0]} ended with status {status}"
        super().__init__(self.says)


def run(arguments: Sequence[str], where: Path, environment: Environment, data: bytes = b"") -> bytes:
    """Start git in `where`, give it `data`, and return what it printed. Raises GitFailed and GitMissing.

    `environment` comes on top of the fixed one; None takes a fixed variable away, so that the user's own holds.
    """
    try:
        from git.cmd import Git
        from git.exc import GitCommandNotFound
    except ModuleNotFoundError:
        raise
    except ImportError as error:  # GitPython looks for the program while it is imported
        raise GitMissing from error
    program = Git.GIT_PYTHON_GIT_EXECUTABLE or "git"
    merged = {key: value for key, value in {**ENVIRONMENT, **environment}.items() if value is not None}
    try:
        process = Git(where).execute([program, *arguments], istream=subprocess.PIPE, as_process=True, env=merged)
    except GitCommandNotFound as error:
        raise GitMissing from error
    output, errors = process.communicate(data)
    if process.returncode:
        raise GitFailed(arguments, process.returncode, errors)
    return bytes(output)


@contextmanager
def clearly(kind: type[LogbookError], says: str) -> Iterator[None]:
    """Turn what git says into one sentence for the user: `says`, git's own reason, and what to do about damage."""
    try:
        yield
    except GitMissing as error:
        raise kind(f"{says}: {error}") from error
    except GitFailed as error:
        mend = _MEND if _DAMAGED.search(error.says) else ""
        raise kind(f"{says}: git says '{error.says}'{mend}") from error
    except OSError as error:
        raise kind(f"{says}: {error.filename or 'the disk'}: {error.strerror}") from error
