"""Files in folders inside a folder: nobody else's, all or none, and no empty folder left."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path

import pytest

from cutpaths import files
from cutpaths.errors import FileError
from cutpaths.files import MANIFEST, write_folder

DIGEST = "ab" * 32
CHANGED = "cd" * 32


def _write(
    folder: Path, contents: Mapping[str, bytes], digest: str = DIGEST, *, force: bool = False
) -> tuple[Path, ...]:
    return write_folder(folder, contents, project="Tidepool", digest=digest, force=force)


def _all(folder: Path) -> dict[str, bytes]:
    """Every file by its path in the folder, without the list."""
    found = {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }
    found.pop(MANIFEST, None)
    return found


def test_folders_are_made_and_listed(tmp_path: Path) -> None:
    """Files stand where their names say, and the list has the folders in the names."""
    contents = {"index.html": b"i", "cad/a.svg": b"1", "cad/b.dxf": b"2", "paper/a.pdf": b"3"}
    assert _write(tmp_path, contents) == tuple(tmp_path / name for name in contents)
    assert _all(tmp_path) == contents
    listed = json.loads((tmp_path / MANIFEST).read_bytes())["files"]
    assert list(listed) == ["cad/a.svg", "cad/b.dxf", "index.html", "paper/a.pdf"]


def test_what_is_out_of_date_goes_with_its_folder(tmp_path: Path) -> None:
    """A folder that stays with a person's own file in it is left, an empty one is removed."""
    _write(tmp_path, {"cad/a.svg": b"1", "paper/a.pdf": b"2"})
    (tmp_path / "paper" / "mine.txt").write_bytes(b"mine")
    _write(tmp_path, {"a.svg": b"3"}, CHANGED)
    assert _all(tmp_path) == {"a.svg": b"3", "paper/mine.txt": b"mine"}
    assert not (tmp_path / "cad").exists()


def test_a_file_of_others_inside_stops_the_run(tmp_path: Path) -> None:
    """Nothing is written, and no folder is made."""
    (tmp_path / "cad").mkdir()
    (tmp_path / "cad" / "a.svg").write_bytes(b"mine")
    with pytest.raises(FileError) as caught:
        _write(tmp_path, {"paper/b.pdf": b"1", "cad/a.svg": b"2"})
    assert str(caught.value) == (
        f"{tmp_path} has cad/a.svg, not listed in its {MANIFEST}. "
        "Choose another folder, or use --force to replace files"
    )
    assert sorted(path.name for path in tmp_path.iterdir()) == ["cad"]
    _write(tmp_path, {"cad/a.svg": b"2"}, force=True)
    assert _all(tmp_path) == {"cad/a.svg": b"2"}


@pytest.mark.parametrize("force", [False, True])
def test_a_link_is_not_followed(tmp_path: Path, force: bool) -> None:
    """A link in the place of a folder inside leads elsewhere: nothing is written there."""
    elsewhere, out = tmp_path / "elsewhere", tmp_path / "out"
    elsewhere.mkdir()
    out.mkdir()
    (out / "cad").symlink_to(elsewhere)
    with pytest.raises(FileError) as caught:
        _write(out, {"cad/a.svg": b"1"}, force=force)
    assert str(caught.value) == f"cad in {out} is not a folder. Choose another folder"
    assert list(elsewhere.iterdir()) == []


def test_nothing_is_removed_through_a_link(tmp_path: Path) -> None:
    """Where a listed folder has become a link, what it leads to stays."""
    elsewhere, out = tmp_path / "elsewhere", tmp_path / "out"
    _write(out, {"cad/a.svg": b"1", "b.svg": b"2"})
    (out / "cad").rename(elsewhere)
    (out / "cad").symlink_to(elsewhere)
    _write(out, {"b.svg": b"3"}, CHANGED)
    assert (elsewhere / "a.svg").read_bytes() == b"1"
    assert (out / "cad").is_symlink()


def test_a_file_in_the_folders_place_stops_even_a_forced_run(tmp_path: Path) -> None:
    """A file is not replaced by a folder."""
    (tmp_path / "cad").write_bytes(b"mine")
    with pytest.raises(FileError) as caught:
        _write(tmp_path, {"cad/a.svg": b"1"}, force=True)
    assert str(caught.value) == f"cad in {tmp_path} is not a folder. Choose another folder"
    assert (tmp_path / "cad").read_bytes() == b"mine"


def test_a_listed_folder_that_is_a_file_by_now_is_left(tmp_path: Path) -> None:
    """What a person put in place of a folder is not touched."""
    _write(tmp_path, {"cad/a.svg": b"1", "b.svg": b"2"})
    (tmp_path / "cad" / "a.svg").unlink()
    (tmp_path / "cad").rmdir()
    (tmp_path / "cad").write_bytes(b"mine")
    _write(tmp_path, {"b.svg": b"3"})
    assert _all(tmp_path) == {"b.svg": b"3", "cad": b"mine"}


@pytest.mark.parametrize(
    "names",
    [
        ("con/a.svg",),
        ("cad", "cad/a.svg"),
        ("CAD", "cad/a.svg"),
        ("cutpaths.json/a.svg",),
        ("cad/a.svg", "CAD/b.svg"),
        ("cad/../a.svg",),
        ("cad\\a.svg",),
        (".hidden/a.svg",),
    ],
)
def test_folders_that_clash_or_lead_out_are_refused(names: tuple[str, ...], tmp_path: Path) -> None:
    """Neither devices, nor a file's name, nor two names that some systems take for one."""
    with pytest.raises(FileError, match=r"cannot be the name|must differ"):
        _write(tmp_path, dict.fromkeys(names, b"1"))
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("stop", [FileError("no room"), KeyboardInterrupt()])
def test_what_stops_it_leaves_no_folder(
    stop: BaseException, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A run that ends before its files have their names leaves neither parts nor folders."""
    _write(tmp_path, {"b.svg": b"2"})
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir()}

    def denied(_part: Path, _path: Path) -> None:
        raise stop

    monkeypatch.setattr(files, "_rename", denied)
    with pytest.raises(type(stop)):
        _write(tmp_path, {"cad/a.svg": b"1", "b.svg": b"3"})
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == before
