"""PDF pages by pikepdf (QPDF): what its own parser of content streams finds, in mm."""

from __future__ import annotations

import io
from decimal import Decimal
from typing import Any

import pikepdf

from cutpaths.values import State, Value, field

MM_PER_UNIT = 25.4 / 72  # a unit is 1/72 in (ISO 32000-1, 8.3.2.3, from memory)

Point = tuple[float, float]


class Drawn(Value):
    """A stroked or filled path: its points in mm from the lower left of the page."""

    points: tuple[Point, ...]
    closed: bool
    width: float
    operator: str


def opened(data: bytes) -> pikepdf.Pdf:
    """The file."""
    return pikepdf.open(io.BytesIO(data))


def box_units(data: bytes, page: int) -> list[float]:
    """The media box of a page, in units of the format."""
    made = opened(data)
    return [float(side) for side in made.pages[page].mediabox]


def size_mm(data: bytes, page: int) -> Point:
    """Width and height of a page."""
    left, bottom, right, top = box_units(data, page)
    return (right - left) * MM_PER_UNIT, (top - bottom) * MM_PER_UNIT


def paths(data: bytes, page: int) -> list[Drawn]:
    """Every painted path of a page, in its order; clipping paths are none."""
    made, walk = opened(data), _Walk()  # pages of a file that is let go are gone
    for instruction in pikepdf.parse_content_stream(made.pages[page]):
        walk.do(str(instruction.operator), [_number(value) for value in instruction.operands])
    return walk.found


class _Walk(State):
    """What is known on the way through a content stream."""

    matrix: tuple[float, ...] = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
    width: float = 1.0
    stack: list[tuple[tuple[float, ...], float]] = field(default_factory=list)
    current: list[tuple[list[Point], bool]] = field(default_factory=list)
    found: list[Drawn] = field(default_factory=list)

    def do(self, name: str, values: list[Any]) -> None:
        """One operator; those of texts and colours say nothing of lines."""
        if name == "q":
            self.stack.append((self.matrix, self.width))
        elif name == "Q":
            self.matrix, self.width = self.stack.pop()
        elif name == "cm":
            self.matrix = _times(values, self.matrix)
        elif name == "w":
            self.width = values[0]
        else:
            self._path(name, values)

    def _path(self, name: str, values: list[Any]) -> None:
        if name == "m":
            self.current.append(([_at(self.matrix, *values)], False))
        elif name in ("l", "c"):
            self.current[-1][0].append(_at(self.matrix, *values[-2:]))
        elif name == "h":
            self.current[-1] = (self.current[-1][0], True)
        elif name in ("S", "f", "B"):
            scale = (self.matrix[0] ** 2 + self.matrix[1] ** 2) ** 0.5 * MM_PER_UNIT
            width = self.width * scale
            self.found += [Drawn(tuple(p), closed, width, name) for p, closed in self.current]
            self.current = []
        elif name == "n":
            self.current = []


def _number(value: Any) -> Any:
    return float(value) if isinstance(value, int | float | Decimal) else value


def _times(first: list[float], then: tuple[float, ...]) -> tuple[float, ...]:
    a, b, c, d, e, f = first
    g, h, i, j, k, m = then
    return (
        a * g + b * i,
        a * h + b * j,
        c * g + d * i,
        c * h + d * j,
        e * g + f * i + k,
        e * h + f * j + m,
    )


def _at(matrix: tuple[float, ...], x: float, y: float) -> Point:
    a, b, c, d, e, f = matrix
    return (a * x + c * y + e) * MM_PER_UNIT, (b * x + d * y + f) * MM_PER_UNIT
