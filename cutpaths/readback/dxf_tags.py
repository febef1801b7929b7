"""DXF as it lies in the file: tags of a group code and a value, sections, entities, blocks.

Numbers are those of the file; no unit is known here. (DXF reference, "General DXF File Structure".)
"""

from __future__ import annotations

from collections.abc import Sequence

from cutpaths.readback.found import Point, ReadError
from cutpaths.values import Value

Tag = tuple[int, str]


class Entity(Value):
    """One entity, table entry or header variable: its type or name, and its tags."""

    name: str
    tags: tuple[Tag, ...]

    def text(self, code: int, default: str = "") -> str:
        """The first value with a group code."""
        written = self._first(code)
        return default if written is None else written

    def number(self, code: int, default: float | None = None) -> float:
        """The first value with a group code, as a number.

        Raises:
            ReadError: it is not there and has no default, or is no number.
        """
        written = self._first(code)
        if written is None and default is not None:
            return default
        return self._float(code, written)

    def numbers(self, code: int) -> tuple[float, ...]:
        """All values with a group code, as numbers.

        Raises:
            ReadError: one is no number.
        """
        return tuple([self._float(code, value) for found, value in self.tags if found == code])

    def point(self, code: int) -> Point:
        """The point whose x has a group code.

        Raises:
            ReadError: it is not there, or is no point.
        """
        return self.number(code), self.number(code + 10)

    def _first(self, code: int) -> str | None:
        for found, value in self.tags:
            if found == code:
                return value
        return None

    def _float(self, code: int, written: str | None) -> float:
        try:
            return float(written or "")
        except ValueError:
            raise ReadError(f"{self.name} has {written!r} as group {code}") from None


class Block(Value):
    """A named block: its base point and what it holds."""

    base: Point
    entities: tuple[Entity, ...]


class Structure(Value, kw_only=True):
    """A file as its parts: header variables, layer names, blocks by name, entities."""

    header: dict[str, Entity]
    layers: frozenset[str]
    blocks: dict[str, Block]
    entities: tuple[Entity, ...]


def structure(data: bytes) -> Structure:
    """Takes a file apart.

    Raises:
        ReadError: it is not a whole DXF file.
    """
    sections = _sections(_tags(data))
    tables = _split(sections.get("TABLES", ()), 0)
    return Structure(
        header={entity.name: entity for entity in _split(sections.get("HEADER", ()), 9)},
        layers=frozenset(entity.text(2) for entity in tables if entity.name == "LAYER"),
        blocks=_blocks(_split(sections.get("BLOCKS", ()), 0)),
        entities=_split(sections.get("ENTITIES", ()), 0),
    )


def _tags(data: bytes) -> list[Tag]:
    try:
        lines = data.decode("utf-8").replace("\r\n", "\n").split("\n")
        # A file has a few dozen group codes, each thousands of times.
        codes = {written: int(written) for written in set(lines[: len(lines) // 2 * 2 : 2])}
        tags = [(codes[code], value) for code, value in zip(lines[::2], lines[1::2], strict=False)]
    except ValueError as error:  # includes letters that are not UTF-8
        raise ReadError(f"not DXF: {error}") from error
    if len(lines) % 2 == 0 or tags[-1:] != [(0, "EOF")]:
        raise ReadError("the file has no end")
    return tags


def _sections(tags: list[Tag]) -> dict[str, tuple[Tag, ...]]:
    sections: dict[str, tuple[Tag, ...]] = {}
    names = [(n, value) for n, (code, value) in enumerate(tags) if code == 0]
    starts = [n for n, name in names if name == "SECTION"]
    ends = [n for n, name in names if name == "ENDSEC"]
    if len(starts) != len(ends):
        raise ReadError("a section has no end")
    for start, end in zip(starts, ends, strict=True):
        sections[tags[start + 1][1]] = tuple(tags[start + 2 : end])
    return sections


def _split(tags: Sequence[Tag], code: int) -> tuple[Entity, ...]:
    """Cuts tags before each one with a group code, whose value is the name of what follows."""
    starts = [n for n, tag in enumerate(tags) if tag[0] == code]
    ends = (*starts[1:], len(tags))
    parts = zip(starts, ends, strict=True) if starts else ()
    return tuple([Entity(tags[a][1], tuple(tags[a + 1 : b])) for a, b in parts])


def _blocks(entities: tuple[Entity, ...]) -> dict[str, Block]:
    blocks: dict[str, Block] = {}
    start = 0
    for number, entity in enumerate(entities):
        if entity.name == "BLOCK":
            start = number
        elif entity.name == "ENDBLK":
            head = entities[start]
            name = head.text(2)
            if name in blocks:
                raise ReadError(f"the block {name!r} is there twice")
            blocks[name] = Block(head.point(10), entities[start + 1 : number])
    return blocks
