"""Drawings: what stands between what is drawn and how it is written.

Millimetres, x right, y up, origin at the lower left corner of the sheet. A `Drawing` is plain
frozen data; a sheet makes one and a writer reads it, and neither knows the other. Each coordinate
is rounded once, here, to 1e-6 mm, so that every writer and reader speaks of the same numbers.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import groupby
from typing import assert_never

from cutpaths.errors import DrawingError
from cutpaths.lengths import Unit
from cutpaths.paint import Colour, Paint
from cutpaths.roles import Machine, Role
from cutpaths.shapes import Anchor, Circle, Motion, Path, Point, Text
from cutpaths.strokes import text_strokes, text_width
from cutpaths.values import Value, field, force_setattr, replace

DECIMALS = 6


class Dimension(Value, kw_only=True):
    """The distance between two points, with extension lines and its text.

    Attributes:
        start, end: the two points that are measured.
        offset: distance of the dimension line from them, to the left of start to end when positive.
        text: what it reads, made from the exact length.
        height: text height in mm.
        beyond: the text stands beyond the end, even where it would fit between the two points.
    """

    start: Point
    end: Point
    offset: float
    text: str
    height: float = 5.0
    beyond: bool = False


class Placed(Value):
    """A named drawing, set down on another by a motion."""

    drawing: Drawing
    motion: Motion


ItemShape = Path | Circle | Text | Dimension | Placed


class Item(Value):
    """One thing on a drawing: its role, the key of what it belongs to, and its shape.

    The key is lower-case ASCII from the program (a piece's key), never text from the user. In
    pictures a closed path may be filled with a paint, and then has no line of its role.
    """

    role: Role
    key: str
    shape: ItemShape
    paint: Paint | None = None


class About(Value, kw_only=True):
    """What a drawing says of itself in its file.

    Attributes:
        project: title of the project.
        digest: SHA-256 of the project file, so that a sheet can be matched to its source.
        piece: key of the piece, or what the sheet shows.
        face: which face of the cloth is up; empty where several pieces are shown.
        unit: the unit of the texts, and of formats that carry one.
        author: who made the pattern; empty where its file does not say.
    """

    project: str
    digest: str
    piece: str
    face: str
    unit: Unit
    author: str = ""


class Pen(Value, kw_only=True):
    """How a sheet is drawn.

    Attributes:
        scale: line widths, as a multiple of the roles' own.
        patterned: lines have the dash patterns of their roles; else all are solid.
        stretch: lengths of dashes, as a multiple of the roles' own.
        inks: colours in place of those of the roles, such as that of a thread.
        text_as_strokes: texts are lines of the single-line font even in a format that has text of
            its own, because a machine or a projector may drop that. False on sheets for CAD.
        machine: the sheet is a machine's work, in its order; SVG too is in the unit of `about`.
    """

    scale: float = 1.0
    patterned: bool = True
    stretch: float = 1.0
    inks: tuple[tuple[Role, Colour], ...] = ()
    text_as_strokes: bool = True
    machine: Machine | None = None


class Drawing(Value, kw_only=True):
    """One sheet.

    Attributes:
        name: names the sheet, and the block where it is placed on another.
        size: width and height in mm.
        about: what the file says of itself.
        items: in drawing order of the sheet; writers sort them by role where a format needs it.
        pen: how its lines are drawn.
    """

    name: str
    size: tuple[float, float]
    about: About
    items: tuple[Item, ...]
    pen: Pen = field(default=Pen())

    def __post_init__(self) -> None:
        force_setattr(self, "size", _rounded_point(self.size))
        force_setattr(self, "items", tuple(_rounded(item) for item in self.items))


class Document(Value):
    """A name and one or more drawings (sheets, pages, beds)."""

    name: str
    sheets: tuple[Drawing, ...]

    def only_sheet(self, form: str) -> Drawing:
        """The one sheet, for formats that hold one.

        Raises:
            DrawingError: there are none, or several.
        """
        if len(self.sheets) != 1:
            raise DrawingError(f"{form} holds one sheet, {self.name} has {len(self.sheets)}")
        return self.sheets[0]


def by_role(items: Iterable[Item]) -> Iterator[tuple[Role, dict[str, list[Item]]]]:
    """Items grouped by role in drawing order, and within a role by key in order of first use."""
    groups: dict[Role, dict[str, list[Item]]] = {}
    for item in items:
        groups.setdefault(item.role, {}).setdefault(item.key, []).append(item)
    return ((role, groups[role]) for role in Role if role in groups)


def in_groups(items: Iterable[Item], pen: Pen) -> Iterator[tuple[Role, dict[str, list[Item]]]]:
    """Items as a file has them: by role, but on a machine's sheet as they come."""
    if pen.machine is None:
        yield from by_role(items)
        return
    for (role, key), run in groupby(items, key=lambda item: (item.role, item.key)):
        yield role, {key: list(run)}


def by_paint(items: Iterable[Item]) -> Iterator[tuple[str, dict[Paint, list[Item]]]]:
    """Painted items grouped by key, and within a key by paint, both in order of first use."""
    groups: dict[str, dict[Paint, list[Item]]] = {}
    for item in items:
        if item.paint is not None:
            groups.setdefault(item.key, {}).setdefault(item.paint, []).append(item)
    return iter(groups.items())


def flatten(item: Item) -> tuple[Item, ...]:
    """An item as paths, circles and texts: what is placed is moved, a dimension is drawn."""
    match item.shape:
        case Path() | Circle() | Text():
            return (item,)
        case Dimension() as dimension:
            return tuple(Item(item.role, item.key, part) for part in dimension_parts(dimension))
        case Placed(drawing, motion):
            moved = tuple(move(motion, inner) for inner in drawing.items)
            return tuple(flat for inner in moved for flat in flatten(inner))
        case _:
            assert_never(item.shape)


def expand(item: Item) -> tuple[Item, ...]:
    """An item as paths and circles alone, for writers that know nothing else."""
    return tuple(
        Item(flat.role, flat.key, shape)
        for flat in flatten(item)
        for shape in (text_paths(flat.shape) if isinstance(flat.shape, Text) else (flat.shape,))
    )


def move(motion: Motion, item: Item) -> Item:
    """An item moved; a placed drawing's motion is followed by this one."""
    match item.shape:
        case Placed(drawing, inner):
            return replace(item, shape=Placed(drawing, inner.then(motion)))
        case Dimension() as dimension:
            start, end = motion.point(dimension.start), motion.point(dimension.end)
            offset = -dimension.offset if motion.mirrored else dimension.offset
            return replace(item, shape=replace(dimension, start=start, end=end, offset=offset))
        case Text() as text:
            return replace(item, shape=motion.text(text))
        case line:
            paint = None if item.paint is None else item.paint.moved(motion)
            return replace(item, shape=motion.line(line), paint=paint)


# The lines of a text are asked for again and again: for the room it takes, for each format that it
# is written in, and for each check of one.
@lru_cache(maxsize=4096)
def text_paths(text: Text) -> tuple[Path, ...]:
    """A text as strokes of the single-line font, at its place."""
    width = text_width(text.string, text.height)
    back = {Anchor.START: 0.0, Anchor.MIDDLE: width / 2, Anchor.END: width}[text.anchor]
    turn = math.radians(text.angle)
    place = Motion(math.cos(turn), math.sin(turn), *text.at)
    strokes = text_strokes(text.string, text.height)
    return tuple(Path(place.points([(x - back, y) for x, y in line])) for line in strokes)


def dimension_parts(dimension: Dimension) -> tuple[Path | Text, ...]:
    """A dimension as two extension lines, the dimension line, two end strokes and its text.

    Raises:
        DrawingError: its two points are one.
    """
    (x0, y0), (x1, y1) = dimension.start, dimension.end
    length = math.hypot(x1 - x0, y1 - y0)
    if length == 0.0:
        raise DrawingError(f"the dimension {dimension.text!r} must have two different points")
    cos, sin = (x1 - x0) / length, (y1 - y0) / length
    frame = Motion(cos, sin, x0, y0)
    side, off = math.copysign(1.0, dimension.offset), dimension.offset
    tick, gap = dimension.height * 0.35, dimension.height * 0.4

    def line(*points: Point) -> Path:
        return Path(tuple(frame.point(p) for p in points))

    return (
        line((0.0, side * gap), (0.0, off + side * gap)),
        line((length, side * gap), (length, off + side * gap)),
        line((0.0, off), (length, off)),
        line((-tick, off - tick), (tick, off + tick)),
        line((length - tick, off - tick), (length + tick, off + tick)),
        _dimension_text(dimension, frame, length),
    )


def _dimension_text(dimension: Dimension, frame: Motion, length: float) -> Text:
    """The text above its line, never upside down; beside the line where asked or too short."""
    # The tails of letters hang a third of the height below the baseline.
    gap = dimension.height * 0.5
    upright = -90.0 < frame.degrees <= 90.0
    below = dimension.offset + gap if upright else dimension.offset - gap
    room = text_width(dimension.text, dimension.height) + 2 * gap
    fits = room <= length and not dimension.beyond
    along = length / 2 if fits else length + 2 * gap
    beyond = Anchor.START if upright else Anchor.END
    return Text(
        string=dimension.text,
        at=frame.point((along, below)),
        height=dimension.height,
        angle=frame.degrees if upright else frame.degrees + 180.0,
        anchor=Anchor.MIDDLE if fits else beyond,
    )


def _rounded_point(p: Point) -> Point:
    # Adding 0.0 turns -0.0 into 0.0.
    return round(p[0], DECIMALS) + 0.0, round(p[1], DECIMALS) + 0.0


def _rounded_points(points: Iterable[Point]) -> tuple[Point, ...]:
    return tuple([(round(x, DECIMALS) + 0.0, round(y, DECIMALS) + 0.0) for x, y in points])


def _rounded(item: Item) -> Item:
    match item.shape:
        case Path(points, closed):
            path = Path(_rounded_points(points), closed)
            return Item(item.role, item.key, path, item.paint and item.paint.rounded())
        case Circle(center, radius):
            circle = Circle(_rounded_point(center), round(radius, DECIMALS))
            return replace(item, shape=circle)
        case Text() as text:
            return replace(item, shape=replace(text, at=_rounded_point(text.at)))
        case Dimension() as dimension:
            start, end = _rounded_point(dimension.start), _rounded_point(dimension.end)
            return replace(item, shape=replace(dimension, start=start, end=end))
        case Placed():
            return item
        case _:
            assert_never(item.shape)
