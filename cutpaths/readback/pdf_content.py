"""Reads the content of a PDF page: painted paths and runs of text, in mm from its lower left.

Operators of ISO 32000-1, 8 and 9, as far as they are written here; any other one is refused, so
that nothing can move or hide a line unseen. Colours are fractions of red, green and blue, or grey.
"""

from __future__ import annotations

import math
from typing import Any

from cutpaths.readback.found import Point, ReadError
from cutpaths.readback.pdf_fonts import Font
from cutpaths.readback.pdf_objects import Name, Operator, Scanner
from cutpaths.values import State, Value, field, replace

MM = 25.4 / 72

Matrix = tuple[float, float, float, float, float, float]
_STILL: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
PRINT = "a print"  # in place of a colour
_PAINTING = {"S": (False, True), "f": (True, False), "B": (True, True), "n": (False, False)}
# Joins, ends and limits of miters change nothing of where a line runs.
_SILENT = {"M", "J", "j", "i", "BMC", "W", "W*", "ri"}


class Route(Value):
    """A part of a path: the ends of its segments, in mm."""

    points: tuple[Point, ...]
    closed: bool
    curved: bool


class Mark(Value, kw_only=True):
    """A path as it was painted.

    Attributes:
        routes: its parts.
        fill, line: `#rrggbb`, `a print`, or empty where it is not filled, or has no line.
        width: of the line, in the unit of the drawing that it belongs to, which is written in mm.
        dashes: of the line, in that unit, so that a line is known though its file is scaled.
    """

    routes: tuple[Route, ...]
    fill: str
    line: str
    width: float
    dashes: tuple[float, ...]


class Run(Value, kw_only=True):
    """A run of text: where its baseline starts and ends, and how high a capital is, in mm."""

    string: str
    start: Point
    end: Point
    height: float
    colour: str


class Content(Value):
    """What a page shows, in its order; `clips` are the outlines that hide what is beyond them."""

    marks: tuple[Mark, ...]
    runs: tuple[Run, ...]
    clips: tuple[Route, ...]


class _State(Value):
    """The graphics state, as far as it matters."""

    matrix: Matrix = (MM, 0.0, 0.0, MM, 0.0, 0.0)
    fill: str = "#000000"
    line: str = "#000000"
    width: float = 1.0
    dashes: tuple[float, ...] = ()
    font: Font | None = None
    size: float = 0.0


def read_content(data: bytes, fonts: dict[str, Font]) -> Content:
    """Reads the content stream of a page.

    Raises:
        ReadError: it holds what is never written here.
    """
    page = _Page(fonts)
    operands: list[Any] = []
    for value in Scanner(data).values():
        if isinstance(value, Operator):
            try:
                page.run(value.text, operands)
            except (TypeError, ValueError, IndexError, AttributeError) as error:
                raise ReadError(f"{value.text} cannot be done with {operands!r}") from error
            operands = []
        else:
            operands.append(value)
    return Content(tuple(page.marks), tuple(page.runs), tuple(page.clips))


class _Page(State):
    """Does one operator after the other."""

    fonts: dict[str, Font]
    marks: list[Mark] = field(default_factory=list)
    runs: list[Run] = field(default_factory=list)
    clips: list[Route] = field(default_factory=list)
    state: _State = _State()
    saved: list[_State] = field(default_factory=list)
    routes: list[list[Point]] = field(default_factory=list)
    closed: set[int] = field(default_factory=set)
    curved: set[int] = field(default_factory=set)
    clipping: bool = False
    text: Matrix = _STILL
    # For each open marked content, what it reads in place of its glyphs; None where nothing.
    actual: list[str | None] = field(default_factory=list)

    def run(self, name: str, operands: list[Any]) -> None:
        """Does one operator."""
        if name in _SILENT:
            if name == "BMC":
                self.actual.append(None)
            self.clipping = self.clipping or name in ("W", "W*")
            return
        done = (
            self._state(name, operands)
            or self._draw(name, operands)
            or self._letter(name, operands)
            or self._mark(name, operands)
        )
        if not done:
            raise ReadError(f"the operator {name} with {operands!r} is never written here")

    def _state(self, name: str, operands: list[Any]) -> bool:
        """Operators that change the state; whether it was one."""
        match name, operands:
            case "q", []:
                self.saved.append(self.state)
            case "Q", []:
                self.state = self.saved.pop()
            case "cm", [*numbers]:
                self._set(matrix=_product(_matrix(numbers), self.state.matrix))
            case "w", [width]:
                self._set(width=float(width))
            case "d", [dashes, start] if start == 0.0:
                self._set(dashes=tuple(map(float, dashes)))
            case (("cs" | "CS" | "scn" | "SCN"), [*values]):
                self._colour(name, values)
            case _:
                return False
        return True

    def _draw(self, name: str, operands: list[Any]) -> bool:
        """Operators of paths; whether it was one."""
        match name, operands:
            case (("m" | "l" | "c" | "h" | "re"), [*numbers]):
                self._build(name, numbers)
            case (("S" | "f" | "B" | "n"), []):
                self._paint(*_PAINTING[name])
            case _:
                return False
        return True

    def _mark(self, name: str, operands: list[Any]) -> bool:
        """Operators of marked content, which may read otherwise than its glyphs do."""
        match name, operands:
            case "BDC", [_, properties]:
                given = properties.get("ActualText") if isinstance(properties, dict) else None
                self.actual.append(None if given is None else _text(given))
            case "EMC", []:
                self.actual.pop()
            case _:
                return False
        return True

    def _set(self, **changes: Any) -> None:
        self.state = replace(self.state, **changes)

    def _colour(self, name: str, values: list[Any]) -> None:
        which = "fill" if name.islower() else "line"
        if name in ("cs", "CS"):
            self._set(**{which: "#000000"})
        elif isinstance(values[-1], Name):
            self._set(**{which: PRINT})
        else:
            shades = [round(255 * value) for value in values] * (3 if len(values) == 1 else 1)
            red, green, blue = shades
            self._set(**{which: f"#{red:02x}{green:02x}{blue:02x}"})

    def _build(self, name: str, numbers: list[float]) -> None:
        """Adds to the path: the end of each segment."""
        if name == "re":
            x, y, across, up = numbers
            ring = ((x, y), (x + across, y), (x + across, y + up), (x, y + up))
            self.routes.append([_moved(self.state.matrix, *p) for p in ring])
            name = "h"
        if name == "h":
            self.closed.add(len(self.routes) - 1)
            return
        x, y = numbers[-2:]
        if len(numbers) != (6 if name == "c" else 2):
            raise ReadError(f"{name} cannot be done with {numbers!r}")
        if name == "c":
            self.curved.add(len(self.routes) - 1)
        if name == "m":
            self.routes.append([])
        self.routes[-1].append(_moved(self.state.matrix, x, y))

    def _paint(self, filled: bool, lined: bool) -> None:
        routes = tuple(
            Route(tuple(points), n in self.closed, n in self.curved)
            for n, points in enumerate(self.routes)
        )
        state = self.state
        if self.clipping:
            self.clips += routes
        if filled or lined:
            mark = Mark(
                routes=routes,
                fill=state.fill if filled else "",
                line=state.line if lined else "",
                width=state.width,
                dashes=state.dashes,
            )
            self.marks.append(mark)
        self.routes, self.closed, self.curved, self.clipping = [], set(), set(), False

    def _letter(self, name: str, operands: list[Any]) -> bool:
        """Operators of texts; whether it was one."""
        match name, operands:
            case "BT", []:
                self.text = _STILL
            case "ET", []:
                self.text = _STILL
            case "Tr", [mode]:
                # Any other mode than filled would leave letters out, or cut by them.
                return bool(mode == 0.0)
            case "Tf", [Name(font), size]:
                self._set(font=self.fonts[font], size=float(size))
            case "Tm", [*numbers]:
                self.text = _matrix(numbers)
            case "Tj", [bytes(text)]:
                self._show([text])
            case "TJ", [list(parts)]:
                self._show(parts)
            case _:
                return False
        return True

    def _show(self, parts: list[Any]) -> None:
        """A run of text from where the line stands; its letters, and how far they reach."""
        font, size = self.state.font, self.state.size
        if font is None:
            raise ReadError("a text has no font")
        whole = _product(self.text, self.state.matrix)
        string, reach = "", 0.0
        for part in parts:
            if isinstance(part, float):
                reach -= part / 1000 * size
                continue
            for code in font.codes(part):
                string += font.letters.get(code, "\ufffd")
                reach += font.widths.get(code, 0.0) * size
        for level, actual in enumerate(self.actual):
            if actual is not None:
                # What it reads is said once, whatever number of runs it is drawn in.
                string, self.actual[level] = actual, ""
        a, b, c, d, _, _ = whole
        across = math.hypot(a, b)
        self.runs.append(
            Run(
                string=string,
                start=_moved(whole, 0.0, 0.0),
                end=_moved(whole, reach, 0.0),
                # Up from the baseline, to the left of the way it runs; negative when mirrored.
                height=(a * d - b * c) / across * font.capital * size,
                colour=self.state.fill,
            )
        )


def _text(data: bytes) -> str:
    marked = data.startswith(b"\xfe\xff")
    return data[2:].decode("utf-16-be") if marked else data.decode("latin-1")


def _matrix(numbers: list[float]) -> Matrix:
    a, b, c, d, e, f = map(float, numbers)
    return a, b, c, d, e, f


def _product(first: Matrix, then: Matrix) -> Matrix:
    """One transformation followed by another (ISO 32000-1, 8.3.4)."""
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


def _moved(matrix: Matrix, x: float, y: float) -> Point:
    a, b, c, d, e, f = matrix
    return a * x + c * y + e, b * x + d * y + f
