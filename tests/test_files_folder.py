"""Folders of files: nobody else's, all or none, and a list of what was written."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

import pytest

from cutpaths import files
from cutpaths.errors import FileError
from cutpaths.files import MANIFEST, write_folder

DIGEST = "ab" * 32
CHANGED = "cd" * 32


def _write(
    folder: Path,
    contents: Mapping[str, bytes],
    project: str = "Tidepool",
    *,
    digest: str = DIGEST,
    force: bool = False,
) -> tuple[Path, ...]:
    return write_folder(folder, contents, project=project, digest=digest, force=force)


def _contents(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in sorted(folder.iterdir())}


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
    """Once the project file has changed, what is made no longer is out of date and goes."""
    _write(tmp_path, {"a.svg": b"1", "b.svg": b"2"})
    (tmp_path / "notes.txt").write_bytes(b"mine")
    _write(tmp_path, {"b.svg": b"3", "c.svg": b"4"}, digest=CHANGED)
    found = _contents(tmp_path)
    listed = json.loads(found.pop(MANIFEST))
    assert found == {"b.svg": b"3", "c.svg": b"4", "notes.txt": b"mine"}
    assert list(listed["files"]) == ["b.svg", "c.svg"]


def test_files_of_another_use_stay(tmp_path: Path) -> None:
    """While the project file is the same, a run for one use leaves the files of another."""
    _write(tmp_path, {"a.svg": b"1", "b.svg": b"2"})
    _write(tmp_path, {"b.svg": b"3"})
    found = _contents(tmp_path)
    assert list(json.loads(found.pop(MANIFEST))["files"]) == ["a.svg", "b.svg"]
    assert found == {"a.svg": b"1", "b.svg": b"3"}


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


@pytest.mark.parametrize(
    "name", ["../a.svg", "a/b/c.svg", "a/", "", ".", "..", MANIFEST, "CUTPATHS.JSON"]
)
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
        _write(tmp_path, {"b.svg": b"2"}, digest=CHANGED)
    assert list(json.loads((tmp_path / MANIFEST).read_bytes())["files"]) == ["a.svg"]
