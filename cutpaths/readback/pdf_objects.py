"""Reads the objects of a PDF file (ISO 32000-1, 7): values, cross-reference tables, streams.

Only what is written here: plain tables of cross-references, each with the one before it, objects
that are not inside streams, and streams that are plain or deflated.
"""

from __future__ import annotations

import re
import zlib
from collections.abc import Iterator
from typing import Any

from cutpaths.readback.found import ReadError
from cutpaths.values import State, Value, field

_SPACE = re.compile(rb"(?:[\0\t\n\f\r ]+|%[^\r\n]*)*")
_END = rb"(?=[\0\t\n\f\r /<>\[\]()%]|\Z)"
_NUMBER = re.compile(rb"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)" + _END)
_WORD = re.compile(rb"[^\0\t\n\f\r /<>\[\](){}%]+")
_REFERENCE = re.compile(rb"([0-9]+)[\0\t\n\f\r ]+([0-9]+)[\0\t\n\f\r ]+R" + _END)
_HEX_NAME = re.compile(rb"#([0-9A-Fa-f]{2})")
_START = re.compile(rb"startxref\s+([0-9]+)\s+%%EOF\s*\Z")
_ESCAPES = {b"n": b"\n", b"r": b"\r", b"t": b"\t", b"b": b"\b", b"f": b"\f"}
_TABLES_MOST = 16


class Name(Value):
    """A name, without its slash."""

    text: str


class Reference(Value):
    """Points to an object by its number."""

    number: int


class Operator(Value):
    """A word that is no value: an operator of a content stream, or `obj`, `stream` and the like."""

    text: str


class Stream(Value):
    """A stream: its dictionary and its bytes as they stand in the file."""

    entries: dict[str, Any]
    raw: bytes


class Scanner(State):
    """Reads values one after the other. Numbers are floats, texts bytes, dictionaries by name."""

    data: bytes
    at: int = 0

    def values(self) -> Iterator[Any]:
        """Every value and operator to the end, as a content stream has them."""
        while self._skip() < len(self.data):
            yield self.value()

    def value(self) -> Any:
        """The next value.

        Raises:
            ReadError: there is none.
        """
        data, at = self.data, self._skip()
        first = data[at : at + 1]
        if first in b"+-.0123456789" and first:
            return self._number()
        if first == b"/":
            self.at = at + 1
            return Name(_HEX_NAME.sub(_unhex, self._word()).decode("latin-1"))
        if first == b"(":
            return self._text()
        if first == b"[":
            return self._list()
        if data.startswith(b"<<", at):
            return self._dictionary()
        if first == b"<":
            end = data.find(b">", at)
            self.at = end + 1
            digits = b"".join(data[at + 1 : end].split())
            return bytes.fromhex((digits + b"0" * (len(digits) % 2)).decode("latin-1"))
        word = self._word().decode("latin-1")
        return {"true": True, "false": False, "null": None}.get(word, Operator(word))

    def _skip(self) -> int:
        found = _SPACE.match(self.data, self.at)
        self.at = found.end() if found else self.at
        return self.at

    def _word(self) -> bytes:
        found = _WORD.match(self.data, self.at)
        if found is None:
            raise ReadError(f"a value was expected at byte {self.at}")
        self.at = found.end()
        return found[0]

    def _number(self) -> Any:
        found = _NUMBER.match(self.data, self.at)
        if found is None:
            raise ReadError(f"a number was expected at byte {self.at}")
        reference = _REFERENCE.match(self.data, self.at) if found[0].isdigit() else None
        if reference:
            self.at = reference.end()
            return Reference(int(reference[1]))
        self.at = found.end()
        return float(found[0])

    def _text(self) -> bytes:
        """A text in round brackets, which may hold others in pairs."""
        data, at, depth, made = self.data, self.at + 1, 1, bytearray()
        while at < len(data):
            letter = data[at : at + 1]
            at += 1
            if letter == b"\\":
                octal = re.match(rb"[0-7]{1,3}", data[at : at + 3])
                escaped = octal[0] if octal else data[at : at + 1]
                at += len(escaped)
                made += bytes([int(octal[0], 8) & 255]) if octal else _ESCAPES.get(escaped, escaped)
                continue
            depth += {b"(": 1, b")": -1}.get(letter, 0)
            if depth == 0:
                self.at = at
                return bytes(made)
            made += letter
        raise ReadError(f"the text at byte {self.at} has no end")

    def _list(self) -> list[Any]:
        self.at += 1
        found = []
        while not self.data.startswith(b"]", self._skip()):
            found.append(self.value())
        self.at += 1
        return found

    def _dictionary(self) -> dict[str, Any]:
        self.at += 2
        found: dict[str, Any] = {}
        while not self.data.startswith(b">>", self._skip()):
            key = self.value()
            if not isinstance(key, Name):
                raise ReadError(f"a dictionary has {key!r} where a name must be")
            found[key.text] = self.value()
        self.at += 2
        return found


class PdfFile(State):
    """The objects of a file by number, read when they are asked for."""

    data: bytes
    trailer: dict[str, Any] = field(default_factory=dict)
    _places: dict[int, int] = field(default_factory=dict)
    _known: dict[int, Any] = field(default_factory=dict)

    def resolve(self, value: Any) -> Any:
        """A value, or what it points to.

        Raises:
            ReadError: it points to nothing.
        """
        while isinstance(value, Reference):
            number = value.number
            if number not in self._known:
                if number not in self._places:
                    raise ReadError(f"there is no object {number}")
                self._known[number] = self._object(number)
            value = self._known[number]
        return value

    def entries(self, value: Any) -> dict[str, Any]:
        """A dictionary, or that of a stream.

        Raises:
            ReadError: it is neither.
        """
        found = self.resolve(value)
        if isinstance(found, Stream):
            return found.entries
        if not isinstance(found, dict):
            raise ReadError(f"a dictionary was expected, found {found!r}")
        return found

    def contents(self, value: Any) -> bytes:
        """The bytes of a stream, inflated.

        Raises:
            ReadError: it is no stream, or packed in a way that is never written here.
        """
        found = self.resolve(value)
        if not isinstance(found, Stream):
            raise ReadError(f"a stream was expected, found {found!r}")
        match self.resolve(found.entries.get("Filter")):
            case None:
                return found.raw
            case Name("FlateDecode"):
                try:
                    return zlib.decompress(found.raw)
                except zlib.error as error:
                    raise ReadError(f"a stream is broken: {error}") from error
            case other:
                raise ReadError(f"a stream must be deflated, found {other!r}")

    def _object(self, number: int) -> Any:
        scan = Scanner(self.data, self._places[number])
        head = [scan.value() for _ in range(3)]
        if head != [float(number), 0.0, Operator("obj")]:
            raise ReadError(f"object {number} is not where the table says")
        value = scan.value()
        if not isinstance(value, dict) or scan.value() != Operator("stream"):
            return value
        start = scan.at + (2 if self.data.startswith(b"\r\n", scan.at) else 1)
        length = self.resolve(value.get("Length"))
        if not isinstance(length, float):
            raise ReadError(f"the stream {number} has no length")
        return Stream(value, self.data[start : start + int(length)])


def read_objects(data: bytes) -> PdfFile:
    """Reads the tables of a file, the newest first.

    Raises:
        ReadError: it is not PDF, or built in a way that is never written here.
    """
    start = _START.search(data)
    if not data.startswith(b"%PDF-1.") or start is None:
        raise ReadError("not a PDF file: it has no head or no end")
    found = PdfFile(data)
    at: float | None = float(start[1])
    for _ in range(_TABLES_MOST):
        if at is None:
            return found
        scan = Scanner(data, int(at))
        for number, place in _table(scan):
            found._places.setdefault(number, place)
        trailer = scan.value()
        if not isinstance(trailer, dict):
            raise ReadError("the table of objects has no trailer")
        found.trailer = {**trailer, **found.trailer}
        at = trailer.get("Prev")
    raise ReadError("there is no end to the tables of objects")


def _table(scan: Scanner) -> Iterator[tuple[int, int]]:
    """Numbers and places of the objects that a table has."""
    if scan.value() != Operator("xref"):
        raise ReadError("there is no table of objects where the file says")
    while isinstance(first := scan.value(), float):
        for number in range(int(first), int(first) + int(scan.value())):
            place, _, kind = scan.value(), scan.value(), scan.value()
            if kind == Operator("n"):
                yield number, int(place)
    if first != Operator("trailer"):
        raise ReadError("the table of objects has no trailer")


def _unhex(found: re.Match[bytes]) -> bytes:
    return bytes([int(found[1], 16)])
