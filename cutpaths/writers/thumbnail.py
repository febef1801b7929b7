"""A drawing as a small picture inside a page: SVG of few letters, without ids, scripts or links.

The longer side has 400 units, y down, whole units. Lines are solid and of one width, texts are grey
bars, prints are plain colours. What is drawn twice is written once; where a drawing has more than
there is room for, its smallest parts become blocks, and painted parts a mosaic of squares.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import groupby
from operator import itemgetter

from cutpaths.drawing import Drawing, Item, flatten
from cutpaths.paint import hex_of
from cutpaths.roles import STYLES
from cutpaths.shapes import Anchor, Circle, Path, Point, Text
from cutpaths.strokes import text_width
from cutpaths.values import Value
from cutpaths.writers.html import Markup, filled

LONGER = 400
LINE = 1.5
BAR = 0.6  # height of a bar, as a part of its text's
FAINT = 2.0  # units; a smaller text is not shown
MOSAIC = 56  # squares along the longer side
SIDE = -(-LONGER // MOSAIC)
GREY, PALE = "#9a9a94", "#d3d1c9"

_Cell = tuple[int, int]
_Box = tuple[int, int, int, int]

_FRAME = (
    '<svg viewBox="0 0 {{width}} {{height}}" width="{{width}}" height="{{height}}" role="img"'
    ' aria-label="{{alt}}"><rect width="{{width}}" height="{{height}}" fill="#fff"/>'
    "{{inside}}</svg>"
)
_FILLED = '<path fill="{{colour}}" d="{{d}}"/>'
_STROKED = (
    '<path fill="none" stroke="{{colour}}" stroke-width="{{line}}" stroke-linejoin="round"'
    ' d="{{d}}"/>'
)


class _Stroke(Value):
    """A line: its colour, its width, the `d` of its path, and its box in units."""

    colour: str
    line: float
    d: str
    box: _Box

    @property
    def reach(self) -> int:
        """The longer side of its box."""
        left, top, right, foot = self.box
        return max(right - left, foot - top)


class _View(Value):
    """From a sheet's mm to whole units."""

    scale: float
    height: float

    def point(self, p: Point) -> tuple[int, int]:
        return round(p[0] * self.scale), round((self.height - p[1]) * self.scale)

    def box(self, points: Sequence[Point]) -> _Box:
        xs, ys = zip(*map(self.point, points), strict=True)
        return min(xs), min(ys), max(xs), max(ys)


def thumbnail(drawing: Drawing, alt: str, room: int) -> Markup:
    """The picture, in about `room` letters at most."""
    width, height = drawing.size
    view = _View(LONGER / max(width, height), height)
    items = [flat for item in drawing.items for flat in flatten(item)]
    painted = [item for item in items if item.paint is not None]
    parts = list(_filled(painted, view))
    if sum(map(len, parts)) > room:
        parts = list(_mosaic(painted, view))
    parts += _lines(drawing, [item for item in items if item.paint is None], view, room)
    return Markup(
        filled(
            _FRAME,
            {
                "width": str(round(width * view.scale)),
                "height": str(round(height * view.scale)),
                "alt": alt,
                "inside": Markup("".join(parts)),
            },
        )
    )


def _filled(painted: Sequence[Item], view: _View) -> Iterator[str]:
    """Painted parts in their order, neighbours of one colour together."""
    for colour, group in groupby(painted, key=_colour):
        d = "".join(dict.fromkeys(_path(item.shape, view) for item in group))
        if d:
            yield filled(_FILLED, {"colour": colour, "d": d})


def _colour(item: Item) -> str:
    return "" if item.paint is None else hex_of(item.paint.colour)


def _mosaic(painted: Sequence[Item], view: _View) -> Iterator[str]:
    """Squares in the colour of what is painted last over their middle."""
    seen: dict[_Cell, str] = {}
    for item in painted:
        if isinstance(item.shape, Path):
            for cell in _middles(view.box(item.shape.points)):
                seen[cell] = _colour(item)
    paths: dict[str, list[_Cell]] = {}
    for cell, colour in sorted(seen.items()):
        paths.setdefault(colour, []).append(cell)
    for colour, cells in paths.items():
        yield filled(_FILLED, {"colour": colour, "d": _blocks(cells)})


def _middles(box: _Box) -> Iterator[_Cell]:
    """The squares, by row and column, whose middle is in a box."""
    left, top, right, foot = ((edge + SIDE // 2) // SIDE for edge in box)
    return ((row, column) for row in range(top, foot) for column in range(left, right))


def _touched(box: _Box) -> Iterator[_Cell]:
    """The squares that a box reaches into."""
    left, top, right, foot = (edge // SIDE for edge in box)
    return ((row, column) for row in range(top, foot + 1) for column in range(left, right + 1))


def _blocks(cells: Sequence[_Cell]) -> str:
    """Squares as a path, those beside one another in one."""
    parts = []
    for row, group in groupby(cells, key=itemgetter(0)):
        columns = [column for _, column in group]
        start = 0
        for end in range(1, len(columns) + 1):
            if end == len(columns) or columns[end] != columns[end - 1] + 1:
                wide = (end - start) * SIDE
                parts.append(f"M{columns[start] * SIDE} {row * SIDE}h{wide}v{SIDE}h-{wide}z")
                start = end
    return "".join(parts)


def _lines(drawing: Drawing, items: Sequence[Item], view: _View, room: int) -> Iterator[str]:
    """Lines and bars by colour and width; where there is no room for all, small ones as blocks."""
    strokes = list(dict.fromkeys(_strokes(drawing, items, view)))
    least = _least(strokes, room)
    small = {c for s in strokes if s.reach < least for c in _touched(s.box)}
    if small:
        yield filled(_FILLED, {"colour": PALE, "d": _blocks(sorted(small))})
    styles = dict.fromkeys((stroke.colour, stroke.line) for stroke in strokes)
    for colour, line in styles:
        d = "".join(
            s.d for s in strokes if s.reach >= least and (s.colour, s.line) == (colour, line)
        )
        if d:
            yield filled(_STROKED, {"colour": colour, "line": f"{line:g}", "d": d})


def _strokes(drawing: Drawing, items: Sequence[Item], view: _View) -> Iterator[_Stroke]:
    """What is seen of lines, dots and texts."""
    inks = dict(drawing.pen.inks)
    for item in items:
        colour, line = hex_of(inks.get(item.role, STYLES[item.role].colour)), LINE
        if isinstance(item.shape, Text):
            colour, line = GREY, round(item.shape.height * view.scale * BAR, 1)
            if line < FAINT * BAR:
                continue
        if d := _path(item.shape, view):
            yield _Stroke(colour, line, d, _box(item.shape, view))


def _least(strokes: Sequence[_Stroke], room: int) -> int:
    """How long a line must be to be drawn, so that all those that are as long are."""
    letters: Counter[int] = Counter()
    for stroke in strokes:
        letters[stroke.reach] += len(stroke.d)
    used = 0
    for reach in sorted(letters, reverse=True):
        used += letters[reach]
        if used > room:
            return reach + 1
    return 0


def _path(shape: object, view: _View) -> str:
    """A shape as the `d` of a path; empty where nothing of it is seen."""
    match shape:
        case Circle((x, y), radius):
            cx, cy = view.point((x, y))
            r = max(1, round(radius * view.scale))
            return f"M{cx - r} {cy}a{r} {r} 0 1 0 {2 * r} 0a{r} {r} 0 1 0 {-2 * r} 0"
        case Text() as text:
            start, end = (view.point(p) for p in _ends(text))
            return f"M{start[0]} {start[1]}L{end[0]} {end[1]}"
        case Path(points, closed):
            seen = [view.point(p) for p in points]
            corners = [p for i, p in enumerate(seen) if i == 0 or p != seen[i - 1]]
            if len(corners) < 2:
                return ""
            return "M" + "L".join(f"{x} {y}" for x, y in corners) + ("z" if closed else "")
    return ""


def _ends(text: Text) -> tuple[Point, Point]:
    """The ends of the bar in place of a text, level texts as they lie and others upright."""
    width, (x, y) = text_width(text.string, text.height), text.at
    back = {Anchor.START: 0.0, Anchor.MIDDLE: width / 2, Anchor.END: width}[text.anchor]
    middle = text.height / 2
    if abs(text.angle) % 180.0 < 45.0:
        return (x - back, y + middle), (x - back + width, y + middle)
    return (x - middle, y - back), (x - middle, y - back + width)


def _box(shape: object, view: _View) -> _Box:
    """The box of a shape, in units."""
    points: Sequence[Point] = ()
    match shape:
        case Path(points, _):
            pass
        case Text() as text:
            points = _ends(text)
        case Circle((x, y), r):
            points = (x - r, y - r), (x + r, y + r)
    return view.box(points)
