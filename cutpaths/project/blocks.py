"""Blocks: small grids by name, set in the rows of a larger grid.

Rows of the larger grid are seen from the front, the head row first; names stand apart by spaces.
A name is a block's, or a fabric's for a plain square or rectangle between blocks. Signs after a
block's name say how it is set:

    star       as it is drawn
    star>      a quarter turn clockwise
    star<      a quarter turn counter-clockwise
    star>>     a half turn
    star~      mirrored, left for right; `star~>` is mirrored first, then turned
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from fractions import Fraction

from cutpaths.lengths import shown
from cutpaths.project.cells import Cell, Fault, row_faults
from cutpaths.project.spelling import nearest_name
from cutpaths.values import Value

_SET = r"(?P<name>[a-z][a-z0-9_-]{0,39})(?P<mirror>~?)(?P<turn>>>?|<?)"
_QUARTERS = {"": 0, "<": 1, ">>": 2, ">": 3}  # counter-clockwise


class Block(Value, kw_only=True):
    """A small grid; sizes are finished, columns from the left and rows from the head."""

    columns: tuple[Fraction, ...]
    rows: tuple[Fraction, ...]
    cells: tuple[Cell, ...]

    def size(self, quarters: int = 0) -> tuple[Fraction, Fraction]:
        """Width and height, turned by quarters."""
        width, height = sum(self.columns, Fraction(0)), sum(self.rows, Fraction(0))
        return (height, width) if quarters % 2 else (width, height)


class SetBlock(Value):
    """What stands in one cell of the larger grid, and how it is set.

    Attributes:
        name: of a block, or of a fabric.
        quarters: quarter turns counter-clockwise.
        mirrored: whether it is mirrored first, left for right.
    """

    name: str
    quarters: int = 0
    mirrored: bool = False


class Sashing(Value, kw_only=True):
    """Strips between the blocks.

    Attributes:
        width: finished width.
        fabric: of the strips.
        cornerstone: fabric of the squares where they cross; None where the strips between rows
            run right across.
        around: whether they run round the outside too.
    """

    width: Fraction
    fabric: str
    cornerstone: str | None = None
    around: bool = False


def read_sets(chart: Sequence[str]) -> tuple[tuple[SetBlock, ...], ...]:
    """The rows of a chart without faults."""
    return tuple(tuple(_set(text) for text in line.split()) for line in chart)


def _set(text: str) -> SetBlock:
    found = re.fullmatch(_SET, text)
    if found is None:
        raise ValueError(f"not a set block: {text}")
    return SetBlock(found["name"], _QUARTERS[found["turn"]], bool(found["mirror"]))


def set_faults(
    chart: Sequence[str], blocks: Mapping[str, Block], fabrics: Collection[str]
) -> Iterator[Fault]:
    """What keeps a chart of blocks from being read, or its blocks from fitting together."""
    rows = [line.split() for line in chart]
    texts = _text_faults(rows, blocks, fabrics)
    for found in (row_faults(rows), texts, _size_faults(chart, blocks)):
        listed = list(found)
        yield from listed
        if listed:
            return


def _text_faults(
    rows: Sequence[Sequence[str]], blocks: Mapping[str, Block], fabrics: Collection[str]
) -> Iterator[Fault]:
    for count, row in enumerate(rows):
        for column, text in enumerate(row):
            if text not in blocks and text not in fabrics:
                for problem, hint in _wrong_text(text, blocks, fabrics):
                    yield Fault(count, f"cell {column + 1} {problem}, got {shown(text)}", hint)


def _wrong_text(
    text: str, blocks: Mapping[str, Block], fabrics: Collection[str]
) -> Iterator[tuple[str, str]]:
    """What is wrong with a cell that is no plain name of a block or a fabric."""
    if not re.fullmatch(_SET, text):
        yield "must be `star`, `star>`, `star<`, `star>>` or `star~`", ""
        return
    name = _set(text).name
    if name in blocks:
        return
    if name in fabrics:
        yield (
            "must name a block before `~`, `<` or `>`",
            f"Declared are {', '.join(sorted(blocks))}",
        )
        return
    known = sorted({*blocks, *fabrics})
    near = nearest_name(name, known)
    instead = f"Write `{near}`; declared are " if near else "Declared are "
    yield "must name a declared block or fabric", instead + ", ".join(known)


def _size_faults(chart: Sequence[str], blocks: Mapping[str, Block]) -> Iterator[Fault]:
    """Blocks of one row have one height, those of one column one width, and one is a block."""
    rows = read_sets(chart)
    columns = list(zip(*rows, strict=True))
    for axis, (lines, word) in enumerate(((columns, "column"), (rows, "row"))):
        for count, line in enumerate(lines):
            sizes = [
                (place, blocks[each.name].size(each.quarters)[axis], each.name)
                for place, each in enumerate(line)
                if each.name in blocks
            ]
            at = 0 if word == "column" else count
            if not sizes:
                rule = f"has no block in {word} {count + 1} to say how large it is"
                yield Fault(at, rule, "Make it a block of one cell")
            for place, size, name in sizes[1:]:
                if size != sizes[0][1]:
                    at = place if word == "column" else count
                    tall = "wide" if word == "column" else "high"
                    rule = f"block {name} in {word} {count + 1} must be as {tall} as {sizes[0][2]}"
                    yield Fault(at, rule, f"Make the sizes of both blocks add up to one {word}")
                    break


def sizes_of(
    chart: Sequence[Sequence[SetBlock]], blocks: Mapping[str, Block]
) -> tuple[tuple[Fraction, ...], tuple[Fraction, ...]]:
    """Widths of the columns and heights of the rows of a chart without faults."""
    columns = tuple(_size(line, blocks, 0) for line in zip(*chart, strict=True))
    return columns, tuple(_size(line, blocks, 1) for line in chart)


def _size(line: Sequence[SetBlock], blocks: Mapping[str, Block], axis: int) -> Fraction:
    return next(blocks[each.name].size(each.quarters)[axis] for each in line if each.name in blocks)


def with_sashing(sizes: Sequence[Fraction], sashing: Sashing | None) -> tuple[Fraction, ...]:
    """Sizes with those of the strips between them, and round them where asked for."""
    if sashing is None:
        return tuple(sizes)
    spaced = [size for each in sizes for size in (sashing.width, each)]
    return (*spaced, sashing.width) if sashing.around else tuple(spaced[1:])
