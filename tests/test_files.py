"""Files: whole or not at all, nobody else's, and a list of what was written."""

from __future__ import annotations

import errno
import json
import os
import re
import subprocess
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutpaths import files
from cutpaths.errors import FileError
from cutpaths.files import MANIFEST, safe_name, write_file, write_folder, write_new

DIGEST = "ab" * 32


@pytest.fixture
def closed_folder(tmp_path: Path) -> Iterator[Path]:
    """A folder that may not be written to; root, who may anything, becomes somebody else."""
    folder = tmp_path / "closed"
    folder.mkdir()
    tmp_path.chmod(0o755)
    folder.chmod(0o555)
    root = os.geteuid() == 0
    if root:
        os.seteuid(65534)
    try:
        yield folder
    finally:
        if root:
            os.seteuid(0)
        folder.chmod(0o755)


def _write(
    folder: Path, contents: Mapping[str, bytes], project: str = "Tidepool", *, force: bool = False
) -> tuple[Path, ...]:
    return write_folder(folder, contents, project=project, digest=DIGEST, force=force)


def _contents(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in sorted(folder.iterdir())}


# --- names


@pytest.mark.parametrize(
    ("title", "name"),
    [
        ("Tidepool", "tidepool"),
        ("  Grandma's Quilt, No. 2! ", "grandma-s-quilt-no-2"),
        ("../../etc/passwd", "etc-passwd"),
        ("C:\\blanket", "c-blanket"),
        ("Größe Äpfel ñandú", "grosse-apfel-nandu"),
        ("Ærø Łódź İstanbul", "aero-lodz-istanbul"),
        ("2½ inch", "21-2-inch"),
        ("CON", "blanket-con"),
        ("lpt¹", "blanket-lpt1"),
        ("com10", "com10"),
        ("nul.svg", "nul-svg"),
        ("", "blanket"),
        ("...", "blanket"),
        ("木", "blanket"),
        ("a" * 200, "a" * 60),
        ("a" * 59 + " b", "a" * 59),
    ],
)
def test_titles_become_safe_names(title: str, name: str) -> None:
    """Lower-case ASCII without path parts, accents folded, no device names, never empty."""
    assert safe_name(title) == name


@given(st.text())
def test_every_title_becomes_a_safe_name(title: str) -> None:
    """Whatever a person writes: one part of a path, bounded, and safe already when named again."""
    name = safe_name(title)
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", name)
    assert len(name) <= 68
    assert safe_name(name) == name or len(name) > 60


# --- one file


def test_a_file_is_written_in_place_of_another(tmp_path: Path) -> None:
    """The new bytes are there, and nothing else in the folder."""
    path = tmp_path / "a.svg"
    write_file(path, b"old")
    write_file(path, b"new")
    assert _contents(tmp_path) == {"a.svg": b"new"}


def test_a_new_file_gets_the_rights_of_any_file(tmp_path: Path) -> None:
    """The temporary file is not more private than others are."""
    write_file(tmp_path / "a.svg", b"x")
    (tmp_path / "b.svg").write_bytes(b"x")
    assert (tmp_path / "a.svg").stat().st_mode == (tmp_path / "b.svg").stat().st_mode


def test_a_missing_folder_is_one_clear_line(tmp_path: Path) -> None:
    """The line names the file and the reason."""
    path = tmp_path / "nowhere" / "a.svg"
    with pytest.raises(FileError) as caught:
        write_file(path, b"x")
    assert str(caught.value) == f"{path} cannot be written: no such file or directory"


def test_a_name_that_breaks_a_line_is_shown_in_one(tmp_path: Path) -> None:
    """A path is the user's and can hold anything."""
    path = tmp_path / "no\nwhere" / "a.svg"
    with pytest.raises(FileError) as caught:
        write_file(path, b"x")
    assert "\n" not in str(caught.value)
    assert "no\\nwhere" in str(caught.value)


def test_a_folder_is_not_written_over(tmp_path: Path) -> None:
    """The rename fails, and its temporary file goes."""
    (tmp_path / "a.svg").mkdir()
    with pytest.raises(FileError) as caught:
        write_file(tmp_path / "a.svg", b"x")
    assert str(caught.value) == f"{tmp_path / 'a.svg'} cannot be written: is a directory"
    assert [path.name for path in tmp_path.iterdir()] == ["a.svg"]


def test_an_unwritable_folder_is_one_clear_line(closed_folder: Path) -> None:
    """No rights to write is said, for one file, for a new one and for a folder of them."""
    path = closed_folder / "a.svg"
    for write in (write_file, write_new):
        with pytest.raises(FileError) as caught:
            write(path, b"x")
        assert str(caught.value) == f"{path} cannot be written: permission denied"
    for folder in (closed_folder, closed_folder / "out"):
        with pytest.raises(FileError, match="permission denied"):
            _write(folder, {"a.svg": b"x"})


def test_a_full_disk_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An error of the disk while writing leaves what was there, and no temporary file."""
    path = tmp_path / "a.svg"
    write_file(path, b"old")

    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(FileError) as caught:
        write_file(path, b"new")
    assert str(caught.value) == f"{path} cannot be written: no space left on device"
    assert _contents(tmp_path) == {"a.svg": b"old"}


LIMITED = """
import resource, signal, sys
from pathlib import Path
from cutpaths.errors import FileError
from cutpaths.files import write_folder
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))
contents = {"a.svg": b"x" * 900, "b.svg": b"y" * 5000}
try:
    write_folder(Path(sys.argv[1]), contents, project="Tidepool", digest="", force=False)
except FileError as error:
    print(error)
"""


def test_a_disk_that_fills_midway_changes_no_file(tmp_path: Path) -> None:
    """The system itself cuts a write short: no file of the folder has changed, none is left over.

    The limit on file sizes (POSIX setrlimit) stands in for the end of a disk.
    """
    folder = tmp_path / "out"
    _write(folder, {"a.svg": b"old", "b.svg": b"old"})
    before = _contents(folder)
    command = [sys.executable, "-c", LIMITED, str(folder)]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    assert done.stdout == f"{folder / 'b.svg'} cannot be written: file too large\n"
    assert _contents(folder) == before


def test_an_interrupt_leaves_nothing_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Ctrl-C while writing passes through and takes the temporary file with it."""

    def interrupted(_: int) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", interrupted)
    with pytest.raises(KeyboardInterrupt):
        write_new(tmp_path / "a.toml", b"x")
    assert _contents(tmp_path) == {}


# --- a new file


def test_a_new_file_is_written_once(tmp_path: Path) -> None:
    """A second one of the name is refused, and the first stays."""
    path = tmp_path / "tidepool.toml"
    write_new(path, b"first")
    with pytest.raises(FileError) as caught:
        write_new(path, b"second")
    assert str(caught.value) == f"{path} exists. Choose another name"
    assert _contents(tmp_path) == {"tidepool.toml": b"first"}


def test_a_new_file_is_not_written_through_a_link(tmp_path: Path) -> None:
    """A link that leads nowhere is a name that is taken."""
    path = tmp_path / "tidepool.toml"
    path.symlink_to(tmp_path / "elsewhere.toml")
    with pytest.raises(FileError) as caught:
        write_new(path, b"x")
    assert str(caught.value) == f"{path} exists. Choose another name"
    assert not (tmp_path / "elsewhere.toml").exists()


@pytest.mark.parametrize("name", ["nowhere/tidepool.toml", "."])
def test_a_new_file_without_a_place_is_refused(name: str, tmp_path: Path) -> None:
    """No folder, or a folder in its place."""
    reason = "cannot be written: no such file" if "/" in name else "exists. Choose another name"
    with pytest.raises(FileError, match=reason):
        write_new(tmp_path / name, b"x")
    assert _contents(tmp_path) == {}


# --- a folder


def test_a_folder_has_its_files_and_their_list(tmp_path: Path) -> None:
    """Files in the order given; the list has names, SHA-256, title and digest, sorted, in UTF-8.

    The digests are those of FIPS 180's "abc" and of no bytes at all (from memory).
    """
    folder = tmp_path / "kits" / "out"
    contents = {"tide-top.svg": b"abc", "tide-backing.dxf": b""}
    assert _write(folder, contents, "Tide ½") == (
        folder / "tide-top.svg",
        folder / "tide-backing.dxf",
    )
    assert (folder / MANIFEST).read_text(encoding="utf-8") == (
        "{\n"
        '  "format": 1,\n'
        '  "project": "Tide ½",\n'
        f'  "digest": "{DIGEST}",\n'
        '  "files": {\n'
        '    "tide-backing.dxf": '
        '"e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",\n'
        '    "tide-top.svg": '
        '"ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"\n'
        "  }\n"
        "}\n"
    )
    names = {path.name for path in folder.iterdir()}
    assert names == {"tide-top.svg", "tide-backing.dxf", MANIFEST}


def test_own_files_are_replaced_and_removed(tmp_path: Path) -> None:
    """A second run replaces what it makes again and removes what it makes no longer."""
    _write(tmp_path, {"a.svg": b"1", "b.svg": b"2"})
    (tmp_path / "notes.txt").write_bytes(b"mine")
    _write(tmp_path, {"b.svg": b"3", "c.svg": b"4"})
    found = _contents(tmp_path)
    listed = json.loads(found.pop(MANIFEST))
    assert found == {"b.svg": b"3", "c.svg": b"4", "notes.txt": b"mine"}
    assert list(listed["files"]) == ["b.svg", "c.svg"]


def test_the_same_run_gives_the_same_folder(tmp_path: Path) -> None:
    """Nothing of the time or the place gets into the list."""
    one, other = tmp_path / "one", tmp_path / "other"
    for folder in (one, other, other):
        _write(folder, {"b.svg": b"2", "a.svg": b"1"})
    assert _contents(one) == _contents(other)


@pytest.mark.parametrize("force", [False, True])
def test_files_of_others_stop_the_run(force: bool, tmp_path: Path) -> None:
    """A file that is not listed is not replaced, and nothing is written, unless forced."""
    (tmp_path / "a.svg").write_bytes(b"mine")
    contents = {"z.svg": b"1", "a.svg": b"2"}
    if force:
        _write(tmp_path, contents, force=True)
        assert (tmp_path / "a.svg").read_bytes() == b"2"
        return
    with pytest.raises(FileError) as caught:
        _write(tmp_path, contents)
    assert str(caught.value) == (
        f"{tmp_path} has a.svg, not listed in its {MANIFEST}. "
        "Choose another folder, or use --force to replace files"
    )
    assert _contents(tmp_path) == {"a.svg": b"mine"}


def test_many_files_of_others_are_counted(tmp_path: Path) -> None:
    """The line stays short."""
    contents = {f"{n}.svg": b"x" for n in range(5)}
    for name in contents:
        (tmp_path / name).write_bytes(b"mine")
    with pytest.raises(FileError) as caught:
        _write(tmp_path, contents)
    assert str(caught.value).startswith(
        f"{tmp_path} has 0.svg, 1.svg, 2.svg and 2 more, not listed"
    )


def test_another_projects_folder_stops_the_run(tmp_path: Path) -> None:
    """A folder belongs to the project in its list, even where no file has the same name."""
    _write(tmp_path, {"a.svg": b"1"}, "Tidepool")
    before = _contents(tmp_path)
    with pytest.raises(FileError) as caught:
        _write(tmp_path, {"b.svg": b"2"}, "Meadow")
    assert str(caught.value) == (
        f"{tmp_path} has the files of 'Tidepool'. "
        "Choose another folder, or use --force to replace files of the same name"
    )
    assert _contents(tmp_path) == before


def test_forced_nothing_of_another_project_is_removed(tmp_path: Path) -> None:
    """Files of the same name are replaced, the others stay."""
    _write(tmp_path, {"a.svg": b"1", "b.svg": b"1"}, "Tidepool")
    _write(tmp_path, {"b.svg": b"2"}, "Meadow", force=True)
    found = _contents(tmp_path)
    assert (found["a.svg"], found["b.svg"]) == (b"1", b"2")
    assert json.loads(found[MANIFEST])["project"] == "Meadow"


@pytest.mark.parametrize(
    "broken",
    [
        b"",
        b"{",
        b"\xff\xfe",
        b"[" * 100_000,
        b"[]",
        b'{"format": 2, "project": "Tidepool", "files": {}}',
        b'{"format": 1, "project": "Tidepool"}',
        b'{"format": 1, "project": 5, "files": {}}',
        b'{"format": 1, "project": "Tidepool", "files": {"../a.svg": ""}}',
        b'{"format": 1, "project": "Tidepool", "files": {"/etc/passwd": ""}}',
        b'{"format": 1, "project": "Tidepool", "files": {"": ""}}',
    ],
)
def test_a_broken_list_is_one_clear_line(broken: bytes, tmp_path: Path) -> None:
    """A list that cutpaths did not write stops the run; a name in it never leads elsewhere."""
    folder = tmp_path / "out"
    folder.mkdir()
    (tmp_path / "a.svg").write_bytes(b"outside")
    (folder / MANIFEST).write_bytes(broken)
    with pytest.raises(FileError) as caught:
        _write(folder, {"b.svg": b"1"})
    assert str(caught.value) == (
        f"{folder / MANIFEST} is not a list of files that cutpaths wrote. "
        "Choose another folder, or use --force to replace it"
    )
    assert _contents(folder) == {MANIFEST: broken}
    _write(folder, {"b.svg": b"1"}, force=True)
    assert list(json.loads((folder / MANIFEST).read_bytes())["files"]) == ["b.svg"]
    assert (tmp_path / "a.svg").read_bytes() == b"outside"


def test_a_folder_in_a_files_place_stops_even_a_forced_run(tmp_path: Path) -> None:
    """A folder cannot be replaced by a file, and nothing is written."""
    (tmp_path / "b.svg").mkdir()
    with pytest.raises(FileError) as caught:
        _write(tmp_path, {"a.svg": b"1", "b.svg": b"2"}, force=True)
    assert str(caught.value) == f"b.svg in {tmp_path} is a folder. Choose another folder"
    assert [path.name for path in tmp_path.iterdir()] == ["b.svg"]


def test_a_folder_in_a_stale_files_place_is_left(tmp_path: Path) -> None:
    """What a person put in place of a listed file is not removed with it."""
    _write(tmp_path, {"a.svg": b"1", "b.svg": b"1"})
    (tmp_path / "a.svg").unlink()
    (tmp_path / "a.svg").mkdir()
    _write(tmp_path, {"b.svg": b"2"})
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a.svg", "b.svg", MANIFEST]


def test_a_file_in_the_folders_place_is_one_clear_line(tmp_path: Path) -> None:
    """A folder cannot be made where a file is."""
    (tmp_path / "out").write_bytes(b"mine")
    with pytest.raises(FileError) as caught:
        _write(tmp_path / "out", {"a.svg": b"1"})
    assert str(caught.value) == f"the folder {tmp_path / 'out'} cannot be made: file exists"


def test_a_list_that_is_a_folder_is_one_clear_line(tmp_path: Path) -> None:
    """A list that cannot be read stops the run."""
    (tmp_path / MANIFEST).mkdir()
    with pytest.raises(FileError) as caught:
        _write(tmp_path, {"a.svg": b"1"})
    assert str(caught.value) == f"{tmp_path / MANIFEST} cannot be read: is a directory"


@pytest.mark.parametrize("name", ["../a.svg", "a/b.svg", "", ".", "..", MANIFEST, "CUTPATHS.JSON"])
def test_names_that_leave_the_folder_are_refused(name: str, tmp_path: Path) -> None:
    """Only plain names are written, and never over the list."""
    with pytest.raises(FileError, match="cannot be the name of a file"):
        _write(tmp_path, {name: b"1"})
    assert _contents(tmp_path) == {}


def test_names_that_differ_in_case_alone_are_refused(tmp_path: Path) -> None:
    """Some systems take them for one file."""
    with pytest.raises(FileError, match=r"'A\.svg' cannot be the name of a file"):
        _write(tmp_path, {"a.svg": b"1", "A.svg": b"2"})


def test_a_file_that_cannot_be_removed_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The list still names it then, so that the next run can remove it."""
    _write(tmp_path, {"a.svg": b"1"})

    def denied(path: Path) -> None:
        raise FileError(f"{path} cannot be removed: permission denied")

    monkeypatch.setattr(files, "_remove", denied)
    with pytest.raises(FileError, match=r"a\.svg cannot be removed"):
        _write(tmp_path, {"b.svg": b"2"})
    assert list(json.loads((tmp_path / MANIFEST).read_bytes())["files"]) == ["a.svg"]
