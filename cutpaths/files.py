"""Files on disk: the only module that writes them. Each is written whole or not at all.

Bytes go to a temporary name in the same folder, are flushed to the disk, and take their real name
by a rename. A folder of files carries a list of them, `cutpaths.json`, by which the next run knows
what it may replace and remove. Files may stand in folders inside it, one deep.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import secrets
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

from cutpaths.errors import FileError
from cutpaths.values import Value

MANIFEST = "cutpaths.json"

_NAME_LENGTH = 60
_SHOWN = 3
# Letters that do not come apart into a plain letter and its accents.
_FOLDED = str.maketrans(
    {"æ": "ae", "œ": "oe", "ø": "o", "đ": "d", "ð": "d", "þ": "th", "ł": "l", "ħ": "h", "ı": "i"}
)
# Names of devices, which some systems open instead of a file (Microsoft, "Naming Files, Paths, and
# Namespaces").
_DEVICES = {"con", "prn", "aux", "nul", *(f"{d}{n}" for d in ("com", "lpt") for n in range(10))}
_PLAIN_NAME = re.compile(r"([a-z0-9][a-z0-9_-]*/)?[a-z0-9][a-z0-9_.-]*", re.IGNORECASE | re.ASCII)


class _Listed(Value):
    """What a folder's list says: the project's title, its digest, and SHA-256 by name of file."""

    project: str
    digest: str
    files: Mapping[str, str]


def safe_name(title: str) -> str:
    """A file name, without suffix, for a title: lower-case ASCII letters, digits and dashes.

    >>> safe_name("Tidepool No. 2"), safe_name("../Größe ½"), safe_name("CON"), safe_name("木")
    ('tidepool-no-2', 'grosse-1-2', 'blanket-con', 'blanket')
    """
    folded = unicodedata.normalize("NFKD", title.casefold().translate(_FOLDED))
    letters = "".join(c for c in folded if not unicodedata.combining(c))
    name = re.sub(r"[^a-z0-9]+", "-", letters).strip("-")[:_NAME_LENGTH].strip("-")
    if not name:
        return "blanket"
    return f"blanket-{name}" if name in _DEVICES else name


def write_file(path: Path, data: bytes) -> None:
    """Writes a file, in place of one of that name.

    Raises:
        FileError: it could not be written; what was there before still is.
    """
    with _staged({path: data}) as temporary:
        _rename(temporary[path], path)


def write_new(path: Path, data: bytes) -> None:
    """Writes a file that is not there yet.

    Raises:
        FileError: there is one of that name, or it could not be written.
    """
    try:
        path.open("xb").close()  # holds the name: nobody else can take it from here on
    except FileExistsError:
        raise FileError(f"{_shown(path)} exists. Choose another name") from None
    except OSError as error:
        raise _file_error(path, error) from error
    try:
        write_file(path, data)
    except BaseException:
        path.unlink(missing_ok=True)
        raise


def write_folder(
    folder: Path,
    files: Mapping[str, bytes],
    *,
    project: str,
    digest: str,
    force: bool,
    family: str | None = None,
) -> tuple[Path, ...]:
    """Writes the files of a project into a folder, and last their list, `cutpaths.json`.

    Looks first: files of others stop it before anything is written, unless `force`. Files that are
    listed there for this project and are not made this time stay while the project file is the
    same, since they belong to another use; once it has changed they are out of date and removed.
    Returns the files written in the order given, without the list.

    Args:
        folder: made when it is not there.
        files: plain names, with the name of a folder before a slash or without, and contents.
        project: title of the project; the list of another one stops it, unless `force`.
        digest: SHA-256 of the project file, for the list.
        force: replaces whatever stands in the way, but removes nothing of another project.
        family: how the names of this use begin; its listed files that are not made this time are
            out of date and removed even while the project file is the same.

    Raises:
        FileError: something stands in the way, or cannot be read or written.
    """
    _require_plain(files)
    paths = {name: folder / name for name in files}
    listed = _look(folder, files, project, force)
    others = {name: sha for name, sha in listed.files.items() if name not in files}
    old = () if family is None else tuple(name for name in others if name.startswith(family))
    kept = {n: sha for n, sha in others.items() if n not in old} if listed.digest == digest else {}
    stale = [folder / name for name in others if name not in kept]
    contents = {paths[name]: data for name, data in files.items()}
    contents[folder / MANIFEST] = _manifest(files, kept, project, digest)
    _make_folder(folder)
    with _inside(folder, files, others), _staged(contents) as temporary:
        for path in paths.values():
            _rename(temporary[path], path)
        for path in stale:
            # What is a link by now leads to files of somebody else.
            if not path.is_dir() and (path.parent == folder or not path.parent.is_symlink()):
                _remove(path)
        _rename(temporary[folder / MANIFEST], folder / MANIFEST)
    return tuple(paths.values())


@contextmanager
def _inside(folder: Path, files: Iterable[str], others: Iterable[str]) -> Iterator[None]:
    """Makes the folders inside a folder that files need; none of theirs or others' stays empty."""
    try:
        for name in _folders(files):
            _make_folder(folder / name)
        yield
    finally:
        for name in _folders((*files, *others)):
            path = folder / name
            if not path.is_symlink():
                with suppress(OSError):
                    path.rmdir()  # takes none that has anything in it


def _folders(names: Iterable[str]) -> list[str]:
    """The folders before the slashes of names, in order of first use."""
    return list(dict.fromkeys(name.split("/")[0] for name in names if "/" in name))


def _require_plain(files: Mapping[str, bytes]) -> None:
    """Refuses names that leave the folder, or that some systems take for one another."""
    taken = {MANIFEST}
    for name in files:
        if _PLAIN_NAME.fullmatch(name) is None or name.lower() in taken:
            raise FileError(f"{name!r} cannot be the name of a file beside {sorted(taken)}")
        taken.add(name.lower())
    folders = _folders(files)
    if both := [n for n in folders if n.lower() in taken or _device(n)]:
        raise FileError(f"{both[0]!r} cannot be the name of a folder beside {sorted(taken)}")
    if len({name.lower() for name in folders}) < len(folders):
        raise FileError(f"folders must differ in more than capitals, got {sorted(folders)}")


def _device(name: str) -> bool:
    return name.lower() in _DEVICES


def _look(folder: Path, files: Mapping[str, bytes], project: str, force: bool) -> _Listed:
    """What a folder's list says of this project's files; refuses what stands in the way."""
    none = _Listed(project, "", {})
    listed = _listed(folder / MANIFEST, force) or none
    if listed.project != project and not force:
        raise FileError(
            f"{_shown(folder)} has the files of {listed.project!r}. "
            "Choose another folder, or use --force to replace files of the same name"
        )
    inner = [name for name in _folders(files) if os.path.lexists(folder / name)]
    if taken := [n for n in inner if (folder / n).is_symlink() or not (folder / n).is_dir()]:
        raise FileError(
            f"{_named(taken)} in {_shown(folder)} is not a folder. Choose another folder"
        )
    present = [name for name in files if os.path.lexists(folder / name)]
    if folders := [name for name in present if (folder / name).is_dir()]:
        raise FileError(f"{_named(folders)} in {_shown(folder)} is a folder. Choose another folder")
    others = [name for name in present if name not in listed.files]
    if others and not force:
        raise FileError(
            f"{_shown(folder)} has {_named(others)}, not listed in its {MANIFEST}. "
            "Choose another folder, or use --force to replace files"
        )
    return listed if listed.project == project else none


def _named(names: list[str]) -> str:
    more = f" and {len(names) - _SHOWN} more" if len(names) > _SHOWN else ""
    return ", ".join(names[:_SHOWN]) + more


def _listed(path: Path, force: bool) -> _Listed | None:
    """Reads the list of a folder; forced, a broken one counts as none."""
    try:
        data = path.read_bytes()
    except (FileNotFoundError, NotADirectoryError):
        return None
    except OSError as error:
        raise FileError(f"{_shown(path)} cannot be read: {_reason(error)}") from error
    listed = _parsed(data)
    if listed is None and not force:
        raise FileError(
            f"{_shown(path)} is not a list of files that cutpaths wrote. "
            "Choose another folder, or use --force to replace it"
        )
    return listed


def _parsed(data: bytes) -> _Listed | None:
    try:
        read = json.loads(data)
    except (ValueError, RecursionError):
        return None
    match read:
        case {"format": 1, "project": str(project), "digest": str(digest), "files": dict(files)}:
            # A list is only a file: a name in it must not reach out of its folder.
            plain = all(isinstance(name, str) and _PLAIN_NAME.fullmatch(name) for name in files)
            return _Listed(project, digest, files) if plain else None
        case _:
            return None


def _manifest(
    files: Mapping[str, bytes], kept: Mapping[str, str], project: str, digest: str
) -> bytes:
    made = {name: hashlib.sha256(data).hexdigest() for name, data in files.items()}
    listed = dict(sorted({**kept, **made}.items()))
    contents = {"format": 1, "project": project, "digest": digest, "files": listed}
    return (json.dumps(contents, indent=2, ensure_ascii=False) + "\n").encode()


@contextmanager
def _staged(contents: Mapping[Path, bytes]) -> Iterator[dict[Path, Path]]:
    """Writes all contents to temporary names, by final path; what is left of them is removed.

    A disk that is full is met here, before any file has taken its real name.
    """
    temporary: dict[Path, Path] = {}
    try:
        for path, data in contents.items():
            temporary[path] = path.parent / f".{secrets.token_hex(6)}.part"
            try:
                _write(temporary[path], data)
            except OSError as error:
                raise _file_error(path, error) from error
        yield temporary
    finally:
        for part in temporary.values():
            with suppress(OSError):
                part.unlink(missing_ok=True)


def _write(path: Path, data: bytes) -> None:
    with path.open("xb") as stream:
        stream.write(data)
        stream.flush()
        os.fsync(stream.fileno())


def _rename(part: Path, path: Path) -> None:
    try:
        part.replace(path)
    except OSError as error:
        raise _file_error(path, error) from error


def _remove(path: Path) -> None:
    try:
        path.unlink(missing_ok=True)
    except OSError as error:
        raise FileError(f"{_shown(path)} cannot be removed: {_reason(error)}") from error


def _make_folder(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise FileError(f"the folder {_shown(folder)} cannot be made: {_reason(error)}") from error


def _file_error(path: Path, error: OSError) -> FileError:
    return FileError(f"{_shown(path)} cannot be written: {_reason(error)}")


def _reason(error: OSError) -> str:
    return (error.strerror or str(error)).lower()


def _shown(path: Path) -> str:
    """A path in one line, whatever is in its name."""
    written = str(path)
    return written if written.isprintable() else ascii(written)
