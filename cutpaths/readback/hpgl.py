"""Reads HP-GL files of the kind that is written here: strictly, as a plotter of any age would.

A file has no unit but the plotter's, 0.025 mm. Only `IN`, `PS`, `SP`, `PA`, `PU` and `PD` with
absolute coordinates are known; anything else is refused. A plot is compared to half a unit, each
line for itself; a circle must keep to its radius and come round once.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from itertools import pairwise

from cutpaths.drawing import Document, Drawing
from cutpaths.readback.expected import strokes_of
from cutpaths.readback.found import Found, Kind, Point, ReadError
from cutpaths.values import Value

MM = 0.025
# Half a unit, and a float's last digits.
SLACK_MM = MM / 2 + 1e-9
# A circle's chords may lie half a unit to either side, and each of their ends is rounded.
CIRCLE_MM = MM / 2 + MM * math.sqrt(0.5) + 1e-9
SHOWN = 20

_COMMAND = re.compile(r"(IN|PS|SP|PA|PU|PD)(-?[0-9]+(?:,-?[0-9]+)*)?;")


class Plot(Value):
    """What a plotter makes of a file.

    Attributes:
        size: plot size in mm; None where the file gives none.
        strokes: number of the pen, and the places in mm that it goes through while it is down.
    """

    size: Point | None
    strokes: tuple[tuple[int, tuple[Point, ...]], ...]


def check(document: Document, data: bytes) -> tuple[str, ...]:
    """How a file differs from its document; empty where it does not.

    Raises:
        DrawingError: the document has not one sheet.
    """
    return compared(document, data, sized=True)


def compared(document: Document, data: bytes, *, sized: bool) -> tuple[str, ...]:
    """How a file differs from its document, which must give its plot size or must not.

    Raises:
        DrawingError: the document has not one sheet.
    """
    drawing = document.only_sheet("HP-GL")
    try:
        plot = read(data)
    except ReadError as error:
        return (str(error),)
    size = _size(drawing, plot) if sized else _no_size(plot)
    lines = [*size, *_differences(drawing, plot)]
    more = len(lines) - SHOWN
    return (*lines[:SHOWN], *((f"... and {more} more",) if more > 0 else ()))


def read(data: bytes) -> Plot:
    """Reads a file.

    Raises:
        ReadError: it is not HP-GL, or holds what is never written here.
    """
    plotter = _Plotter()
    for command, numbers in _commands(data):
        plotter.do(command, numbers)
    if plotter.down:
        raise ReadError("the file ends with the pen down")
    return Plot(plotter.size, tuple((pen, tuple(points)) for pen, points in plotter.strokes))


def _commands(data: bytes) -> Iterator[tuple[str, tuple[int, ...]]]:
    text = data.decode("ascii", "replace").replace("\n", "")
    at = 0
    while at < len(text):
        found = _COMMAND.match(text, at)
        if found is None:
            raise ReadError(f"not HP-GL as it is written here: {text[at : at + 20]!r}")
        yield found[1], tuple(map(int, found[2].split(","))) if found[2] else ()
        at = found.end()


class _Plotter:
    """A plotter at work; changed in place, as a plotter is."""

    def __init__(self) -> None:
        self.size: Point | None = None
        self.strokes: list[tuple[int, list[Point]]] = []
        self.down = False
        self.pen = 0
        self.here: Point | None = None
        self.ready = False

    def do(self, command: str, numbers: tuple[int, ...]) -> None:
        if command == "IN":
            self.ready = True
        elif not self.ready:
            raise ReadError(f"a file must begin with IN, found {command}")
        elif command == "PS":
            if len(numbers) != 2 or self.strokes:
                raise ReadError("PS must have two numbers and stand before the first line")
            self.size = numbers[0] * MM, numbers[1] * MM
        elif command == "SP":
            self.pen = numbers[0] if numbers else 0
        else:
            self._move(command, numbers)

    def _move(self, command: str, numbers: tuple[int, ...]) -> None:
        if len(numbers) % 2:
            raise ReadError(f"{command} must have pairs of numbers, found {len(numbers)}")
        if command == "PU":
            self.down = False
        places = [(x * MM, y * MM) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]
        if command == "PD":
            if self.here is None or not self.pen:
                raise ReadError("the pen comes down before it has a place and a number")
            if not self.down:
                self.strokes.append((self.pen, [self.here]))
            self.down = True
            self.strokes[-1][1].extend(places)
        elif self.down and places:
            raise ReadError("PA must not draw")
        if places:
            self.here = places[-1]


def _size(drawing: Drawing, plot: Plot) -> Iterator[str]:
    if plot.size is None:
        yield "PS is missing"
    elif any(abs(a - b) > SLACK_MM for a, b in zip(drawing.size, plot.size, strict=True)):
        yield f"PS must be {drawing.size} mm, found {plot.size}"


def _no_size(plot: Plot) -> Iterator[str]:
    if plot.size is not None:
        yield "an old plotter does not know PS"


def _differences(drawing: Drawing, plot: Plot) -> Iterator[str]:
    expected = strokes_of(drawing)
    if len(expected) != len(plot.strokes):
        yield f"{len(expected)} lines expected, {len(plot.strokes)} found"
        return
    pens = (
        {role.value: number for role, number in drawing.pen.machine.tools}
        if (drawing.pen.machine)
        else {}
    )
    for number, (must, (pen, points)) in enumerate(zip(expected, plot.strokes, strict=True), 1):
        if pens and pen != pens.get(must.role):
            yield f"line {number} must have pen {pens.get(must.role)}, found {pen}"
        far = _off_circle(must, points) if must.kind is Kind.CIRCLE else _off_line(must, points)
        if far:
            yield f"line {number}, {must.role}: {far}"


def _off_line(must: Found, points: tuple[Point, ...]) -> str:
    """Each place must be a drawn one, in turn; drawn places that fell together may lack."""
    wanted = [*must.points, must.points[0]] if must.closed else list(must.points)
    at = 0
    for place in wanted:
        if at + 1 < len(points) and _near(points[at + 1], place):
            at += 1
        elif not _near(points[at], place):
            return f"must pass {_numbers(place)} mm, found {_numbers(points[at])}"
    if at + 1 < len(points) and points[at + 1] != points[at]:
        return f"goes on to {_numbers(points[-1])} mm"
    return ""


def _off_circle(must: Found, points: tuple[Point, ...]) -> str:
    (x, y) = must.points[0]
    for place in points:
        if abs(math.dist(place, (x, y)) - must.size) > CIRCLE_MM:
            return f"must keep {must.size:.3f} mm from {_numbers((x, y))}, found {_numbers(place)}"
    angles = [math.atan2(b - y, a - x) for a, b in points]
    steps = [(b - a + math.pi) % (2 * math.pi) - math.pi for a, b in pairwise(angles)]
    if abs(abs(sum(steps)) - 2 * math.pi) > 1e-6:
        return "must come round once"
    return ""


def _near(a: Point, b: Point) -> bool:
    return abs(a[0] - b[0]) <= SLACK_MM and abs(a[1] - b[1]) <= SLACK_MM


def _numbers(point: Point) -> str:
    return f"({point[0]:.3f}, {point[1]:.3f})"
