"""After the program was renewed: its figures in a commit of their own; and the advice that only `check` gives."""

from __future__ import annotations

import re
import subprocess
from io import BytesIO
from pathlib import Path

import pytest
from keyboard import git, typed

from logbook import __version__
from logbook.store import files, git_run

SHEET = "measurements/2024-01-13-on-the-bench.yaml"


def by_an_older_program(folder: Path) -> bytes:
    """As if version 0.0.9 had worked out another ratio and had not known another spec. Gives what stands there now."""
    now = (folder / "specs.yaml").read_bytes()
    text = (
        now.decode()
        .replace(f"engine-logbook {__version__}", "engine-logbook 0.0.9")
        .replace("unit: cc", "unit: ccm", 1)
    )
    (folder / "specs.yaml").write_text(re.sub(r"  mean_compression_ratio:\n(    .*\n)+", "", text))
    git(folder, "commit", "-qam", "As it was")
    return now


def test_an_upgrade_is_told_apart_from_a_change(own: Path) -> None:
    now = by_an_older_program(own)
    sheet = own / SHEET
    sheet.write_text(sheet.read_text().replace("26.0 / 26.1", "25.0 / 25.1"))
    ran = typed("save", at=own)
    assert ran.status == 0, ran.err
    subject = f"Recompute the specs with engine-logbook {__version__}: 2 specs changed, no fact changed"
    assert " ".join(ran.out.split()).startswith(f"{subject}: commit ")
    assert git(own, "log", "-2", "--format=%s").splitlines() == ["On the bench", subject]
    assert git(own, "show", "--format=", "--name-only", "HEAD~1").split() == ["specs.yaml"]
    assert git(own, "show", "HEAD~1:specs.yaml").encode() == now
    assert git(own, "show", "--format=", "--name-only", "HEAD").split() == [SHEET, "specs.yaml"]
    assert git(own, "status", "--porcelain") == ""
    fingerprints = git(own, "log", "-3", "--format=%(trailers:key=Record-Fingerprint,valueonly)").split()
    assert f"record_fingerprint: {fingerprints[1]}" in git(own, "show", "HEAD~1:specs.yaml")


def test_an_upgrade_alone_and_then_nothing(own: Path) -> None:
    text = (own / "specs.yaml").read_text()
    (own / "specs.yaml").write_text(text.replace("formulas: 1\n", "formulas: 0\n"))
    assert "formulas: 0" in (own / "specs.yaml").read_text()
    git(own, "commit", "-qam", "As it was")
    ran = typed("save", at=own)
    assert "no spec changed, no fact changed" in " ".join(ran.out.split())
    assert ran.out.endswith("Nothing else has changed.\n")
    assert (own / "specs.yaml").read_text() == text
    assert typed("save", at=own).out == "Nothing has changed since the last save.\n"


def test_a_save_that_is_refused_recomputes_nothing(own: Path) -> None:
    by_an_older_program(own)
    head = git(own, "rev-parse", "HEAD")
    (own / "parts/head-c.yaml").write_text("kind: nonsense\n")
    assert typed("save", at=own).status == 2
    assert git(own, "rev-parse", "HEAD") == head


CONFLICT = b"program: x\n<<<<<<< HEAD\nspecs: a\n=======\nspecs: b\n>>>>>>> other\n"


@pytest.mark.parametrize(
    ("stands", "line", "says"),
    [
        (CONFLICT, 2, "two versions stand between the marks of a merge;"),
        (b"spoilt", 1, "another version of the program worked it out"),
    ],
)
def test_a_spoilt_specs_file_is_a_note_and_save_mends_it(own: Path, stands: bytes, line: int, says: str) -> None:
    whole = (own / "specs.yaml").read_bytes()
    (own / "specs.yaml").write_bytes(stands)
    ran = typed("check", at=own)
    assert (ran.status, ran.out.startswith(f"specs.yaml:{line}:1: note: {says}")) == (0, True), ran.out
    assert "logbook save mends it" in ran.out
    assert typed("save", at=own).status == 0
    assert (own / "specs.yaml").read_bytes() == whole
    assert typed("check", at=own).out == "Nothing to say: the record reads well.\n"


def test_a_conflict_that_was_committed_is_mended_too(own: Path) -> None:
    whole = (own / "specs.yaml").read_bytes()
    (own / "specs.yaml").write_bytes(CONFLICT)
    git(own, "commit", "-qam", "Merged in a hurry")
    assert typed("save", at=own).status == 0
    assert (git(own, "show", "HEAD:specs.yaml").encode(), git(own, "status", "--porcelain")) == (whole, "")


def test_a_hand_edit_not_saved_yet_makes_it_stale(own: Path) -> None:
    sheet = own / SHEET
    sheet.write_text(sheet.read_text().replace("26.0 / 26.1", "25.0 / 25.1"))
    assert (
        "specs.yaml:1:1: note: it was worked out before the files beside it were edited\n" in typed("check", at=own).out
    )
    typed("save", at=own)
    assert typed("check", at=own).out == "Nothing to say: the record reads well.\n"


def test_no_second_copy(own: Path) -> None:
    git(own, "remote", "remove", "backup")
    ran = typed("check", at=own)
    assert ran.status == 0
    assert "engine.yaml:1:1: note: there is no second copy:" in ran.out
    assert "git push backup HEAD, now" in " ".join(ran.out.split())  # alone, git wants to be told where a branch goes
    git(own, "init", "-q", "--bare", str(own.parent / "elsewhere.git"))
    git(own, "remote", "add", "backup", str(own.parent / "elsewhere.git"))
    git(own, "push", "-q", "backup", "HEAD")
    assert "no second copy" not in typed("check", at=own).out
    git(own, "remote", "remove", "backup")
    (own / ".git").rename(own / ".not-git")
    assert "in no git repository: what is overwritten is lost" in " ".join(typed("check", at=own).out.split())


def photograph(where: bool, pixels: int = 8) -> bytes:
    from PIL import Image

    picture, remarks = Image.new("RGB", (pixels, pixels)), Image.Exif()
    remarks[0x010F] = "a camera"
    if where:
        remarks.get_ifd(0x8825)[1] = "N"
    out = BytesIO()
    picture.save(out, "JPEG", exif=remarks)
    return out.getvalue()


def test_advice_on_photographs(own: Path) -> None:
    pictures = {"at-home.JPG": photograph(True), "quiet.jpg": photograph(False), "broken.jpg": b"\xff\xd8\xff\xe1\0",
                "huge.png": b"\0" * (8 * 2**20 + 1), "table.csv": b"\0" * 9}  # fmt: skip
    (own / "files").mkdir()
    for name, data in pictures.items():
        (own / "files" / name).write_bytes(data)
    typed("save", at=own)
    told = [line for line in typed("check", at=own).out.splitlines() if line.startswith("files/")]
    assert told == [
        "files/at-home.JPG:1:1: note: this photograph tells where it was taken (GPS",
        "files/huge.png:1:1: note: this picture has 8 MiB, and git keeps it for ever",
    ]


def heic(where: bool, at_the_end: bool = False) -> bytes:
    """As a telephone writes it: remarks in a box of their own, and picture data that looks like remarks by chance."""
    from PIL import Image

    remarks = Image.Exif()
    remarks[0x010F] = "a telephone"
    if where:
        remarks.get_ifd(0x8825)[1] = "N"
    picture = b"\x11" * 3000 + b"II*\0\xff\xff\xff\xff" + b"MM\0*" + b"\x22" * 300_000
    exif = b"\0\0\0\x06" + remarks.tobytes()
    inside = picture + exif if at_the_end else exif + picture
    return b"\0\0\0\x18ftypheic\0\0\0\0mif1heic" + (len(inside) + 8).to_bytes(4) + b"mdat" + inside


@pytest.mark.parametrize(("where", "at_the_end"), [(True, False), (True, True), (False, False), (False, True)])
def test_a_heic_photograph_tells_where_it_was_taken_too(own: Path, where: bool, at_the_end: bool) -> None:
    (own / "files").mkdir()
    (own / "files/deck.HEIC").write_bytes(heic(where, at_the_end))
    typed("save", at=own)
    told = [line for line in typed("check", at=own).out.splitlines() if line.startswith("files/")]
    assert bool(told) == where
    assert all("tells where it was taken" in line for line in told)


def test_private_text_is_told_at_save_and_saved(own: Path) -> None:
    (own / "notes").mkdir()
    (own / "notes/2024-03-09-seller.yaml").write_text("date: 2024-03-09\ntitle: Ask jo@example.org\n")
    ran = typed("save", at=own)
    assert ran.status == 1
    assert "notes/2024-03-09-seller.yaml:2:12: doubtful: `jo@example.org` looks like an" in ran.out
    assert git(own, "status", "--porcelain") == ""
    assert typed("check", at=own).status == 1


def test_check_starts_git_in_a_scratch_repository_alone(own: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    ran = []

    def in_scratch(arguments: tuple[str, ...], where: Path, environment: dict[str, str], data: bytes = b"") -> bytes:
        ran.append(arguments[0])
        assert own not in (where, *where.parents)
        assert environment["GIT_DIR"] == environment["GIT_WORK_TREE"] == str(where)
        return run(arguments, where, environment, data)

    run = git_run.run
    monkeypatch.setattr("logbook.store.git_run.run", in_scratch)
    assert typed("check", at=own).status == 0
    assert ran == ["config", "log"]
    assert files.read_public(own)


def test_specs_starts_no_git(own: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def never(*arguments: object, **more: object) -> None:
        raise AssertionError("git was started")

    monkeypatch.setattr("logbook.store.git_run.run", never)
    assert typed("specs", at=own).status == 0


# private/ in the public repository


@pytest.mark.parametrize("version", ["2", "3", "4"])
def test_a_private_folder_that_was_committed_by_hand_is_wrong(own: Path, version: str) -> None:
    (own / "private").mkdir()
    for name in ("costs.csv", "who.txt"):
        (own / "private" / name).write_text("entry,amount,currency\n")
    git(own, "config", "index.version", version)
    git(own, "add", "-f", "private/costs.csv", "private/who.txt")
    if version == "3":
        (own / "a.txt").write_text("intended")
        git(own, "add", "-N", "a.txt")  # an entry with extended flags makes it version 3
    else:
        git(own, "update-index", "--index-version", version)
    assert (own / ".git/index").read_bytes()[4:8] == bytes((0, 0, 0, int(version)))
    ran = typed("check", at=own)
    assert ran.status == 1
    told = " ".join(ran.out.split())
    assert "private/costs.csv:1:1: wrong: private/costs.csv and 1 more is in the engine's own git repository" in told
    assert "git rm -r --cached private" in told
    before = git(own, "rev-parse", "HEAD")
    (own / "notes").mkdir()
    (own / "notes/2024-03-09-n.yaml").write_text("date: 2024-03-09\ntitle: N\n")
    ran = typed("save", at=own)
    assert (ran.status, git(own, "rev-parse", "HEAD")) == (2, before)
    assert "which is not private" in " ".join(ran.told)
    git(own, "rm", "-rq", "--cached", "private")
    assert typed("save", at=own).status == 0
    assert "private" not in typed("check", at=own).out  # it was staged, and never committed


def test_a_private_repository_added_as_it_is_is_found_too(own: Path) -> None:
    (own / "private").mkdir()
    (own / "private/who.txt").write_text("a secret")
    typed("save", at=own)
    git(own, "-c", "advice.addEmbeddedRepo=false", "add", "-f", "private")
    assert "private:1:1: wrong: private is in the engine's own" in typed("check", at=own).out


def test_of_many_engines_each_is_told_of_its_own(own: Path, tmp_path: Path) -> None:
    shop = tmp_path / "shop"
    shop.mkdir()
    git(shop, "init", "-q", "-b", "main")
    for name in ("a", "b"):
        own_files = [file for file in own.rglob("*") if file.is_file() and ".git/" not in f"{file}/"]
        for file in own_files:
            (shop / name / file.relative_to(own)).parent.mkdir(parents=True, exist_ok=True)
            (shop / name / file.relative_to(own)).write_bytes(file.read_bytes())
    (shop / "a/private").mkdir()
    (shop / "a/private/who.txt").write_text("a secret")
    git(shop, "add", "-f", ".")
    git(shop, "commit", "-qm", "All")
    assert "private/who.txt:1:1: wrong" in typed("check", at=shop / "a").out
    assert "private" not in typed("check", at=shop / "b").out


@pytest.mark.parametrize(
    "spoilt", [b"", b"DIRC", b"DIRC\0\0\0\2\xff\xff\xff\xff" + b"\0" * 99, b"DIRC\0\0\0\4\0\0\0\3" + b"\xff" * 99]
)
def test_an_index_that_cannot_be_read_stops_no_check(own: Path, spoilt: bytes) -> None:
    (own / ".git/index").write_bytes(spoilt)
    assert "wrong" not in typed("check", at=own).out


# private/ in the history


def published(own: Path, *names: str) -> str:
    """A private/ that was committed by hand and taken out again; gives the commit that holds it."""
    (own / "private").mkdir(exist_ok=True)
    for name in names:
        (own / "private" / name).parent.mkdir(exist_ok=True)
        (own / "private" / name).write_text("a secret")
    git(own, "add", "-f", "private")
    git(own, "commit", "-qm", "Too much")
    number = git(own, "rev-parse", "HEAD").strip()
    git(own, "rm", "-rq", "--cached", "private")
    git(own, "commit", "-qm", "Taken out again")
    return number


def test_what_was_public_once_is_told_with_its_commit(own: Path) -> None:
    number = published(own, "who.txt", "papers/invoice é.pdf")
    day = git(own, "show", "-s", "--format=%cs", number).strip()
    for command in ("check", "save"):
        ran = typed(command, at=own)
        told = " ".join(ran.out.split())
        assert ran.status == 1
        assert "doubtful: the public history still holds private/" in told
        assert f"private/who.txt (commit {number[:10]} of {day})" in told
        assert f"private/papers/invoice é.pdf (commit {number[:10]} of {day})" in told
        assert "what was pushed or given away is out" in told
        assert "git filter-repo --invert-paths --path private" in told
    assert git(own, "log", "-1", "--format=%s").strip() == "Taken out again"


def test_a_branch_that_is_not_checked_out_and_a_merge_are_looked_through_too(own: Path) -> None:
    git(own, "checkout", "-qb", "other")
    first = published(own, "who.txt")
    git(own, "checkout", "-q", "main")
    assert first[:10] in typed("check", at=own).out
    git(own, "merge", "-q", "--no-ff", "-m", "Merge", "other")
    git(own, "branch", "-qD", "other")
    assert first[:10] in typed("check", at=own).out


def test_history_written_anew_is_quiet(own: Path) -> None:
    published(own, "who.txt")
    git(own, "reset", "-q", "--hard", "HEAD~2")
    assert "private" not in typed("check", at=own).out


def test_what_the_index_holds_is_told_once(own: Path) -> None:
    (own / "private").mkdir()
    (own / "private/who.txt").write_text("a secret")
    git(own, "add", "-f", "private")
    git(own, "commit", "-qm", "Too much")
    told = typed("check", at=own).out
    assert "wrong: private/who.txt is in" in told
    assert "public history" not in told


def test_of_many_engines_each_history_is_told_of_its_own(own: Path, tmp_path: Path) -> None:
    shop = tmp_path / "shop"
    for name in ("a", "b"):
        for path in files.read_public(own):
            (shop / name / path).parent.mkdir(parents=True, exist_ok=True)
            (shop / name / path).write_bytes((own / path).read_bytes())
    git(shop, "init", "-q", "-b", "main")
    (shop / "a/private").mkdir()
    (shop / "a/private/who.txt").write_text("a secret")
    git(shop, "add", "-f", ".")
    git(shop, "commit", "-qm", "All")
    git(shop, "rm", "-rq", "--cached", "a/private")
    git(shop, "commit", "-qm", "Taken out again")
    told = " ".join(typed("check", at=shop / "a").out.split())
    assert "history still holds private/who.txt (commit" in told
    assert "--invert-paths --path a/private;" in told
    assert "private" not in typed("check", at=shop / "b").out


def test_a_repository_whose_history_cannot_be_read_is_checked_all_the_same(own: Path) -> None:
    (own / ".git/refs/heads/main").write_text("1" * 40 + "\n")
    assert "wrong" not in typed("check", at=own).out


# in the middle of something


def test_a_save_during_a_merge_says_one_thing(own: Path) -> None:
    """Not the marks of the conflict file by file, and no advice to save them even so."""
    for branch, volume in (("other", "25.0"), ("main", "27.0")):
        if branch == "other":
            git(own, "checkout", "-q", "-b", branch)
        else:
            git(own, "checkout", "-q", branch)
        (own / SHEET).write_text((own / SHEET).read_text().replace("26.0 /", f"{volume} /"))
        git(own, "commit", "-qam", branch)
    subprocess.run(["git", "merge", "other"], cwd=own, capture_output=True, check=False)
    assert "<<<<<<<" in (own / SHEET).read_text()
    ran = typed("save", at=own)
    assert (ran.status, ran.out) == (2, "")
    assert ran.told == [f"A merge is in progress in {own}; finish it with git, or: git merge --abort"]
