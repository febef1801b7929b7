"""What a reader finds in a file: plain items in mm, x right, y up, in the order of the file."""

from __future__ import annotations

from enum import StrEnum

from cutpaths.values import Value

Point = tuple[float, float]


class ReadError(ValueError):
    """The bytes are not a file of the kind that is written here; the text says why."""


class Kind(StrEnum):
    """What an item of a file is."""

    LINE = "line"
    CIRCLE = "circle"
    TEXT = "text"
    DIMENSION = "dimension"


class Tile(Value):
    """A picture of cloth that repeats.

    Attributes:
        image: SHA-256 of the image's bytes.
        size: width and height of one repeat.
        place: where it lies: the point (x, y) of the image comes to (a x + c y + e, b x + d y + f)
            of the sheet, as the six numbers a to f.
    """

    image: str
    size: Point
    place: tuple[float, ...]


class Found(Value, kw_only=True):
    """One item of a file.

    Attributes:
        role: name of its layer or group, in capitals.
        kind: what it is.
        points: corners of a line; center of a circle; place of a text; of a dimension the two
            points measured and the end of the dimension line beside the second.
        key: what it belongs to, where the format keeps it.
        closed: whether a line returns to its first point.
        size: radius of a circle, or height of a text; 0 for others.
        angle: of a text, in degrees.
        string: what a text or a dimension reads; of a line, the text that it is a stroke of.
        anchor: which end of a text stands at its place; empty for others.
        fill: colour of what is painted; empty for others.
        edge: colour of the line round what is painted, or `none`; empty for others.
        tile: the print over the colour.
    """

    role: str
    kind: Kind
    points: tuple[Point, ...]
    key: str = ""
    closed: bool = False
    size: float = 0.0
    angle: float = 0.0
    string: str = ""
    anchor: str = ""
    fill: str = ""
    edge: str = ""
    tile: Tile | None = None
