"""A corner of the turned backing as it is folded for its miter, and how it is drawn; mm.

It is seen on the backing's wrong side, as the front view shows it. The half on the side before it
is folded under, along the crease, and comes to lie right side up below the other half.
"""

from __future__ import annotations

import math
from itertools import pairwise

from cutpaths.geometry.blanket import Corner
from cutpaths.geometry.polygons import (
    Ring,
    along,
    cross,
    distance,
    dot,
    middle,
    sub,
    unit,
)
from cutpaths.roles import Role
from cutpaths.shapes import Point, shift
from cutpaths.sheets.steps.cutting import Segment, folded, folded_point, long_line, side_of
from cutpaths.sheets.steps.lines import FOLD, STITCHES
from cutpaths.sheets.steps.making import Making
from cutpaths.sheets.steps.picture import Picture
from cutpaths.sheets.steps.tints import Cloth
from cutpaths.sheets.steps.view import Room, View
from cutpaths.values import Value

LEFT, RIGHT = Room(5.0, 0.0, 56.0, 62.0), Room(80.0, 0.0, 56.0, 62.0)


class Folding(Value):
    """A corner as it is folded; in the front view.

    Attributes:
        making: what is made.
        corner: the corner.
        number: that of its group of figures.
        index: of the corner.
    """

    making: Making
    corner: Corner
    number: int
    index: int

    @property
    def crease(self) -> Segment:
        """The line of the fold, from the fold point outward."""
        return self.corner.fold_point, self.corner.fold_end

    @property
    def dot(self) -> Point:
        """The dot of the half that stays."""
        return self.corner.miter[1]

    def still(self, ring: Ring) -> Ring:
        """The part of a ring on the half that stays."""
        return side_of(ring, self.crease, self.corner.miter[1])

    def under(self, ring: Ring) -> Ring:
        """The part of a ring on the half that is folded under, as it then lies."""
        return folded(side_of(ring, self.crease, self.corner.miter[0]), self.crease)

    @property
    def dots(self) -> tuple[Point, Point]:
        """Where both dots lie once it is folded."""
        return folded_point(self.corner.miter[0], self.crease), self.corner.miter[1]

    @property
    def reach(self) -> float:
        """How far the picture shows the cloth about the fold point."""
        return distance(self.corner.fold_point, self.dot)

    def around(self) -> tuple[Point, ...]:
        """Points that the flat corner must show."""
        corner, more = self.corner, self.reach * BEYOND
        seam = self.making.kit.blanket.seam
        i = self.index
        back = unit(sub(seam[i - 1], seam[i]))
        on = unit(sub(seam[(i + 1) % len(seam)], seam[i]))
        inner = along(corner.fold_point, unit(sub(corner.fold_point, corner.fold_end)), more)
        first, second = along(corner.miter[0], back, more), along(corner.miter[1], on, more)
        return (corner.backing_point, corner.fold_end, first, second, inner)

    def around_half(self) -> tuple[Point, ...]:
        """Points that the folded corner must show."""
        corner, more = self.corner, self.reach * BEYOND
        seam, i = self.making.kit.blanket.seam, self.index
        on = unit(sub(seam[(i + 1) % len(seam)], seam[i]))
        inner = along(corner.fold_point, unit(sub(corner.fold_point, corner.fold_end)), more)
        back = unit(sub(seam[i - 1], seam[i]))
        raw = self.making.kit.blanket.backing
        near = (*corner.outline, corner.backing_point)
        other = [corner.miter[0], along(corner.miter[0], back, more)]
        outward = along(corner.miter[0], sub(corner.backing_point, corner.fold_point), 0.0)
        return (
            corner.fold_end,
            *(p for p in near if p in self.still(raw)),
            along(corner.miter[1], on, more),
            inner,
            *(folded_point(p, self.crease) for p in (*other, outward)),
            *(folded_point(p, self.crease) for p in near if p in raw and p not in self.still(raw)),
        )

    @property
    def unequal(self) -> bool:
        """Whether raw edges do not match when it is folded."""
        i = self.index
        borders = self.making.kit.project.borders
        return borders[i - 1] != borders[i]


TOP_SEEN = 0.45  # how much of the top's edge is shown, in distances from dot to fold
LEFT_HALF, RIGHT_HALF = (3.0, 69.0), (71.0, 137.0)  # parts of a sheet with two views
PEEPS_MM = 1.1  # how far the lower half is drawn past the upper one, on the sheet
BEYOND = 0.75  # how far a view reaches past dots and fold point, in distances from dot to fold


ARC_STEPS = 16


def flat_corner(picture: Picture, view: View, f: Folding) -> None:
    """The corner flat, wrong side up, with its marks."""
    blanket = f.making.kit.blanket
    corner = f.corner
    picture.layer(view, blanket.backing, Cloth.BACKING_WRONG)
    inner = long_line(*f.crease, f.reach * 4)[0]
    for ends in ((inner, corner.fold_point), crease_on_cloth(f)):
        picture.line(view, ends, Role.FOLD, meaning=FOLD)
    for point in corner.miter:
        picture.miter(view, point, corner.fold_point)
    _top_below(picture, view, f)
    side_seams(picture, view, f, both=True)
    for point in corner.miter:
        picture.dot(view, point)


def _top_below(picture: Picture, view: View, f: Folding) -> None:
    """Where the top ends beside each dot, below the backing."""
    making, i = f.making, f.index
    top = making.kit.blanket.top
    before, after = (i - 1) % making.sides, (i + 1) % making.sides
    for side, far in ((before, after), (i, before)):
        place = making.onto_backing(side)
        corner, end = place.point(top[i]), place.point(top[far])
        inner = along(corner, unit(sub(end, corner)), f.reach * TOP_SEEN)
        picture.hidden(view, (corner, inner))
    picture.name("top, below", view.point(inner), (0.3, 1.0), within=LEFT_HALF)


def crease_on_cloth(f: Folding) -> Segment:
    """The crease outside the fold point, as far as there is cloth."""
    return f.making.crease_mark(f.corner.at)


def side_seams(picture: Picture, view: View, f: Folding, *, both: bool) -> None:
    """The seams of the two sides that end at the dots."""
    here, far = f.corner, f.making.corners_of(f.index)[1]
    picture.line(view, (here.miter[1], far.miter[0]), Role.STITCH, meaning=STITCHES)
    if both:
        before = f.making.kit.blanket.corners[f.index - 1]
        picture.line(view, (before.miter[1], here.miter[0]), Role.STITCH)


def folded_corner(
    picture: Picture, view: View, f: Folding, ring: Ring, *, seams: bool = True
) -> None:
    """The corner folded: one half under the other, right sides together.

    The lower half is drawn a little farther out along the crease, so that its edges are seen.
    """
    outward = unit(sub(f.corner.fold_end, f.corner.fold_point))
    peeps = shift(*(v * PEEPS_MM / view.scale for v in outward))
    picture.layer(view, peeps.ring(f.under(ring)), Cloth.BACKING_RIGHT)
    picture.layer(view, f.still(ring), Cloth.BACKING_WRONG)
    if seams:
        side_seams(picture, view, f, both=False)


def angle_at_fold(picture: Picture, view: View, f: Folding) -> None:
    """The angle between the miter line and the fold outside it, with its figure."""
    at = view.point(f.corner.fold_point)
    first = unit(sub(view.point(f.dot), at))
    second = unit(sub(view.point(f.corner.fold_end), at))
    radius = 7.0
    turn = cross(first, second)
    points = []
    angle = math.atan2(turn, dot(first, second))
    start = math.atan2(first[1], first[0])
    for n in range(ARC_STEPS + 1):
        a = start + angle * n / ARC_STEPS
        points.append((at[0] + radius * math.cos(a), at[1] + radius * math.sin(a)))
    for pair in pairwise(points):
        picture.sheet_line(pair, Role.DIMENSION)
    half = start + angle / 2
    place = at[0] + radius * math.cos(half), at[1] + radius * math.sin(half)
    text = f.making.numbers[f"corner.{f.number}.miter"]
    picture.name(text, place, (math.cos(half), math.sin(half)))


def fold_arrow(picture: Picture, view: View, f: Folding) -> Segment:
    """The arrow from dot to dot that says which half is folded under; returns both dots."""
    start, end = view.points(f.corner.miter)
    across = unit(sub(end, start))
    outward = unit(sub(view.point(f.corner.fold_end), view.point(f.corner.fold_point)))
    turn = 1.0 if cross(across, outward) > 0 else -1.0
    bulge = distance(start, end) * 0.22
    picture.below_arrow(along(start, across, 2.5), along(end, across, -2.5), turn * bulge)
    aside = unit(along((-outward[0], -outward[1]), across, -0.5))
    place = along(middle(start, end), outward, bulge)
    picture.name("fold under", place, aside, within=LEFT_HALF)
    return start, end


def captions_below(picture: Picture, views: tuple[View, ...], words: tuple[str, ...]) -> None:
    """A few words below each view."""
    low = min(view.window[0][1] for view in views) - 5.0
    for view, text in zip(views, words, strict=True):
        center = (view.window[0][0] + view.window[1][0]) / 2
        picture.text(text, (center, low - 1.4))


def side_of_line(f: Folding) -> Segment:
    """The trim line on the half that stays, from the fold to its raw edge."""
    line = f.corner.trim
    last = line[-1]
    if len(line) == 3:
        return line[1], last
    crease = unit(sub(f.corner.fold_end, f.corner.fold_point))
    way = unit(sub(line[1], line[0]))
    part = cross(sub(line[0], f.corner.fold_point), way) / cross(crease, way)
    return along(f.corner.fold_point, crease, part), last


def sentence(text: str) -> str:
    """A clause as a sentence of its own."""
    clean = text.strip()
    return f"{clean[:1].upper()}{clean[1:]}."
