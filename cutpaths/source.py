"""Project files as tables: from bytes to TOML tables, with includes, and back to a key's line.

A file may name others of its folder in `include`. Their tables are merged under its own before
anything is checked: a file's own keys win over those of its includes, an earlier include wins over
a later one. Lines count from 1. What the keys mean is not known here.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from hashlib import sha256
from typing import TYPE_CHECKING

from cutpaths.errors import FileError, Finding, InputError
from cutpaths.key_lines import KeyPath as KeyPath
from cutpaths.key_lines import line_of
from cutpaths.later import Later
from cutpaths.lengths import shown
from cutpaths.values import Value

if TYPE_CHECKING:  # pathlib loads slowly, and callers bring their own paths
    from pathlib import Path

    from cutpaths import toml_slips
else:
    toml_slips = Later("cutpaths.toml_slips")

LARGEST = 1_000_000  # bytes; a project is a few hundred
FILES_MOST = 16
PARTS_MOST = 32  # of one dotted key; the time to parse a key grows with their square

# How the TOML reader ends its messages.
_AT = r" \(at (?:line (?P<line>\d+), column \d+|end of document)\)$"
_DEEP = re.compile(rf"""(?<![\w"'.-])(?:[\w"'-]+[ \t]*\.[ \t]*){{{PARTS_MOST}}}""", re.ASCII)
_DIGITS = r"[0-9_]{4000}"
_UNSAFE = r"[/\\:\x00-\x1f\x7f]"


class Written(str):
    """A TOML float as it is written, so that 0.1 stays one tenth; not a text of the file."""


class File(Value):
    """One TOML file: its name, its text and its own table."""

    name: str
    text: str
    table: Mapping[str, object]


class Source(Value):
    """A project file with all that it includes.

    Attributes:
        table: the merged table, without `include`.
        digest: SHA-256 of the bytes of all files, in their order.
        files: the project file, then what it includes, depth first.
        overrides: tables whose keys stand for those of the file itself, the strongest first.
    """

    table: Mapping[str, object]
    digest: str
    files: tuple[File, ...]
    overrides: tuple[KeyPath, ...] = ()

    def place(self, path: KeyPath) -> tuple[str, int]:
        """File and line of a key; of the nearest table round it where the key is not written."""
        for depth in range(len(path), 0, -1):
            for table in (*self.overrides, ()):
                for file in self.files:
                    if _holds(file.table, (*table, *path[:depth])):
                        return file.name, line_of(file.text, (*table, *path[:depth]))
        return self.files[0].name, 1


def load(path: Path, *, awaited: bool = False) -> Source:
    """Reads a project file and its includes.

    Args:
        path: the project file.
        awaited: whether an included file that is not there counts as an empty one that is to come.

    Raises:
        FileError: the project file cannot be read.
        InputError: it, or a file it includes, is not text, not TOML, missing or too large.
    """
    return _source(path.name, _bytes(path), path.parent, awaited=awaited)


def read(text: str, name: str) -> Source:
    """Reads a project file that is given as text; it has no folder, so it includes nothing.

    Raises:
        InputError: it is not TOML, too large, or asks for an include.
    """
    return _source(name, text.encode("utf-8", "surrogatepass"), None)


def _source(name: str, data: bytes, folder: Path | None, *, awaited: bool = False) -> Source:
    first = _parsed(name, data)
    read_so_far = {name: (first, data)}
    findings = list(_include(first, folder, (name,), read_so_far, awaited=awaited))
    if findings:
        raise InputError(*findings)
    files = tuple(file for file, _ in read_so_far.values())
    digest = sha256(b"".join(data for _, data in read_so_far.values())).hexdigest()
    table: Mapping[str, object] = {}
    for file in files:
        table = merged(table, file.table)
    return Source({key: table[key] for key in table if key != "include"}, digest, files)


def merged(over: Mapping[str, object], under: Mapping[str, object]) -> dict[str, object]:
    """Two tables as one: where both have a key `over` wins, and tables merge in turn."""
    result = dict(under) | dict(over)
    for key in over.keys() & under.keys():
        mine, theirs = over[key], under[key]
        if isinstance(mine, Mapping) and isinstance(theirs, Mapping):
            result[key] = merged(mine, theirs)
    return result


def _include(
    file: File,
    folder: Path | None,
    chain: tuple[str, ...],
    found: dict[str, tuple[File, bytes]],
    *,
    awaited: bool,
) -> Iterator[Finding]:
    """Reads what a file includes into `found`; yields what is wrong with it."""

    def told(problem: str, hint: str = "") -> Finding:
        line = line_of(file.text, ("include",))
        return Finding(key="include", problem=problem, hint=hint, file=file.name, line=line)

    names = file.table.get("include", [])
    for problem, hint in _wrong_names(names, folder, chain):
        yield told(problem, hint)
        return
    for name in names if isinstance(names, list) and folder is not None else ():
        if name in found:
            continue
        if len(found) == FILES_MOST:
            yield told(f"must not bring the project to more than {FILES_MOST} files")
            return
        if awaited and not (folder / name).exists():
            found[name] = (_parsed(name, b""), b"")
            continue
        try:
            data = _bytes(folder / name)
            found[name] = (_parsed(name, data), data)
        except FileError:
            problem = f"must name a file that can be read, got {shown(name)}"
            yield told(problem, "Put it into the same folder or mend its name")
        except InputError as error:
            yield from error.findings
        else:
            inner = found[name][0]
            yield from _include(inner, folder, (*chain, name), found, awaited=awaited)


def _wrong_names(
    names: object, folder: Path | None, chain: tuple[str, ...]
) -> Iterator[tuple[str, str]]:
    """What is wrong with the names of an `include`, and what would be right."""
    if not isinstance(names, list) or not all(type(name) is str for name in names):
        yield "must be a list of file names", 'Write for example `include = ["cloth.toml"]`'
        return
    if names and folder is None:
        yield "cannot be used in a text that is not a file", "Put all tables into the text itself"
    for name in names:
        if re.search(_UNSAFE, name) or not name.endswith(".toml"):
            yield f"must name .toml files of the same folder, got {shown(name)}", ""
        elif name in chain:
            way = ", which includes ".join((*chain[chain.index(name) :], name))
            yield f"must not lead back to a file: {way}", "Leave one of them out"


def _bytes(path: Path) -> bytes:
    try:
        with path.open("rb") as stream:
            return stream.read(LARGEST + 1)
    except OSError as error:
        reason = (error.strerror or "unknown reason").lower()
        raise FileError(f"{path}: cannot be read: {reason}") from error
    except ValueError as error:  # a name that no file can have
        raise FileError(f"{str(path)!r}: cannot be read: not a file name") from error


def _parsed(name: str, data: bytes) -> File:
    if len(data) > LARGEST:
        raise _unusable(name, f"must be at most {LARGEST:,} bytes long, is longer")
    if b"\0" in data:
        raise _unusable(name, "must be a text file, this is a binary one")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        problem = f"must be UTF-8 text, has byte 0x{data[error.start]:02x}"
        raise _unusable(name, problem, line, "Save it as UTF-8") from error
    return File(name, text, _tables(name, text))


def _tables(name: str, text: str) -> dict[str, object]:
    if deep := _DEEP.search(text):
        line = text.count("\n", 0, deep.start()) + 1
        raise _unusable(name, f"must not have keys of more than {PARTS_MOST} parts", line)
    try:
        return tomllib.loads(text, parse_float=Written)
    except tomllib.TOMLDecodeError as error:
        raise _syntax_error(name, text, str(error)) from error
    except RecursionError as error:
        raise _unusable(name, "must not nest lists or tables so deeply") from error
    except ValueError as error:  # Python refuses to read thousands of digits
        found = re.search(_DIGITS, text)
        line = text.count("\n", 0, found.start()) + 1 if found else 0
        raise _unusable(name, "has a number with thousands of digits", line) from error


def _syntax_error(name: str, text: str, said: str) -> InputError:
    at = re.search(_AT, said)
    line = int(at["line"]) if at and at["line"] else text.rstrip().count("\n") + 1
    words = said[: at.start()] if at else said
    hint = toml_slips.slip_hint(text.split("\n")[line - 1])
    return _unusable(name, f"is not TOML: {words[:1].lower()}{words[1:]}", line, hint)


def _unusable(name: str, problem: str, line: int = 0, hint: str = "") -> InputError:
    return InputError(Finding(key="", problem=problem, hint=hint, file=name, line=line))


def _holds(table: object, path: KeyPath) -> bool:
    """Whether a table has a value at a path."""
    for part in path:
        match table, part:
            case Mapping(), _ if part in table:
                table = table[part]
            case list(), int() if part < len(table):
                table = table[part]
            case _:
                return False
    return True
