"""Between pixels of a picture and mm on the table: a plane homography and its inverse.

A homography is nine numbers, row by row: (x, y) goes to (ax + by + c, dx + ey + f) / (gx + hy + i).
It keeps straight lines straight.
"""

from __future__ import annotations

from cutpaths.geometry.polygons import Ring, cross, sub
from cutpaths.shapes import Point
from cutpaths.values import Value

Matrix = tuple[float, float, float, float, float, float, float, float, float]


class View(Value, kw_only=True):
    """A calibrated picture.

    Attributes:
        width, height: in pixels.
        to_table: from pixels to mm.
        to_pixel: from mm to pixels.
    """

    width: int
    height: int
    to_table: Matrix
    to_pixel: Matrix

    def pixel(self, p: Point) -> Point:
        """Where a place of the table is in the picture."""
        return apply(self.to_pixel, p)

    def table(self, p: Point) -> Point:
        """Where a pixel falls on the table."""
        return apply(self.to_table, p)

    @property
    def outline(self) -> Ring:
        """The picture's edge on the table, counter-clockwise from its lower left corner."""
        w, h = float(self.width), float(self.height)
        return tuple(self.table(p) for p in ((0.0, h), (w, h), (w, 0.0), (0.0, 0.0)))


def view_of(width: int, height: int, to_table: Matrix) -> View:
    """A view from its homography."""
    return View(width=width, height=height, to_table=to_table, to_pixel=inverse(to_table))


def apply(m: Matrix, p: Point) -> Point:
    """Where a homography takes a point."""
    x, y = p
    depth = m[6] * x + m[7] * y + m[8]
    return (m[0] * x + m[1] * y + m[2]) / depth, (m[3] * x + m[4] * y + m[5]) / depth


def product(m: Matrix, n: Matrix) -> Matrix:
    """First n, then m."""
    rows = (m[0:3], m[3:6], m[6:9])
    columns = (n[0::3], n[1::3], n[2::3])
    a, b, c, d, e, f, g, h, i = (
        sum(u * v for u, v in zip(row, column, strict=True)) for row in rows for column in columns
    )
    return a, b, c, d, e, f, g, h, i


def inverse(m: Matrix) -> Matrix:
    """The homography back, with 1 as its last number.

    Raises:
        ZeroDivisionError: it takes the plane to a line.
    """
    a, b, c, d, e, f, g, h, i = m
    last = a * e - b * d
    return (
        (e * i - f * h) / last,
        (c * h - b * i) / last,
        (b * f - c * e) / last,
        (f * g - d * i) / last,
        (a * i - c * g) / last,
        (c * d - a * f) / last,
        (d * h - e * g) / last,
        (b * g - a * h) / last,
        1.0,
    )


def on_a_line(p: Point, q: Point, r: Point, slack: float) -> bool:
    """Whether three points lie on a line, within `slack` of their box's size."""
    u, v, w = sub(q, p), sub(r, p), sub(r, q)
    longest = max(abs(part) for side in (u, v, w) for part in side)
    return abs(cross(u, v)) <= slack * longest * longest
