"""Paint: what fills a closed shape in a picture; nothing that is cut, marked or lit has any.

Millimetres, x right, y up. A print is a picture of cloth at true scale that repeats in rows and
columns without end; its own frame has the lower left corner of one repeat at the origin.
"""

from __future__ import annotations

from cutpaths.shapes import IDENTITY, Motion
from cutpaths.values import Value, replace

Colour = tuple[int, int, int]

DECIMALS = 6  # of a print's place and turn
EDGE_MM = 0.3  # width of the line round what is painted


class Print(Value, kw_only=True):
    """A picture of cloth.

    Attributes:
        data: a PNG file.
        width, height: true size of one repeat.
        motion: from its own frame to the drawing's.
    """

    data: bytes
    width: float
    height: float
    motion: Motion = IDENTITY

    def moved(self, motion: Motion) -> Print:
        """The print in another frame."""
        return replace(self, motion=self.motion.then(motion))


class Paint(Value, kw_only=True):
    """What fills a closed shape.

    Attributes:
        colour: red, green, blue, 0 to 255; also what shows where a print cannot be.
        edge: colour of the thin line round it; None for none.
        print: a picture of cloth over the colour.
    """

    colour: Colour
    edge: Colour | None = None
    print: Print | None = None

    def moved(self, motion: Motion) -> Paint:
        """The paint in another frame: a print goes along."""
        return self if self.print is None else replace(self, print=self.print.moved(motion))

    def rounded(self) -> Paint:
        """The paint with its numbers as a drawing holds them."""
        if self.print is None:
            return self
        cos, sin, dx, dy = (round(v, DECIMALS) + 0.0 for v in _numbers(self.print.motion))
        motion = Motion(cos, sin, dx, dy, self.print.motion.mirrored)
        width, height = round(self.print.width, DECIMALS), round(self.print.height, DECIMALS)
        return replace(self, print=replace(self.print, width=width, height=height, motion=motion))


def hex_of(colour: Colour) -> str:
    """A colour as `#rrggbb`.

    >>> hex_of((58, 135, 156))
    '#3a879c'
    """
    return "#{:02x}{:02x}{:02x}".format(*colour)


def from_hex(text: str) -> Colour:
    """A colour from `#rrggbb`.

    >>> from_hex("#3A879C")
    (58, 135, 156)
    """
    red, green, blue = bytes.fromhex(text.removeprefix("#"))
    return red, green, blue


def mixed(colour: Colour, other: Colour, part: float) -> Colour:
    """A colour with a part (0 to 1) of another in it.

    >>> mixed((0, 100, 200), (255, 255, 255), 0.5)
    (128, 178, 228)
    """
    red, green, blue = (round(a + (b - a) * part) for a, b in zip(colour, other, strict=True))
    return red, green, blue


def _numbers(motion: Motion) -> tuple[float, float, float, float]:
    return motion.cos, motion.sin, motion.dx, motion.dy
