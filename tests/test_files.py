"""Files: names that are safe, and each file whole or not at all."""

from __future__ import annotations

import errno
import os
import re
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutpaths.errors import FileError
from cutpaths.files import safe_name, write_file, write_folder, write_new

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
