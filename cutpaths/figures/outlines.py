"""How what is no rectangle is drawn: the rectangle it is cut from, and where its corners are; mm.

Places are told in the piece's own frame, as it lies when it is marked, wrong side up: so far across
from the rectangle's left edge, so far up from its lower edge.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from cutpaths.figures.model import Figure, Group, length, words
from cutpaths.figures.sizes import sizes
from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.layouts.triangles import rounded_up
from cutpaths.lengths import Ruler, as_fraction
from cutpaths.pieces import Kit
from cutpaths.shapes import Point

Named = tuple[str, Point]  # the name of a corner, and where it is in the front view


def outline_groups(kit: Kit) -> tuple[Group, ...]:
    """A group for the backing, and one for a top of one cloth; none where they are rectangles."""
    if sizes(kit.project) is not None:
        return ()
    ruler = kit.project.ruler
    pieces = (kit.backing,) if kit.pieced else (kit.backing, kit.top)
    return tuple(_group(piece, tuple(corner_places(kit, piece)), ruler) for piece in pieces)


def corner_places(kit: Kit, piece: Piece) -> Iterator[Named]:
    """The corners of backing or top in the front view."""
    if piece is kit.backing:
        yield from _of_backing(kit)
    else:
        names = (corner.at for corner in kit.blanket.corners)
        yield from zip(names, kit.blanket.top, strict=True)


def outline_key(piece: Piece) -> str:
    """What the keys of a piece's outline start with."""
    return f"outline.{piece.key.lower()}"


def _of_backing(kit: Kit) -> Iterator[Named]:
    """The backing's corners; the points of one that is cut off are numbered."""
    corners = kit.blanket.corners
    if len(kit.backing.outline) == len(corners):
        yield from ((corner.at, corner.backing_point) for corner in corners)
        return
    for corner in corners:
        for n, point in enumerate(corner.outline, 1):
            yield f"{corner.at}, point {n}", point


def _group(piece: Piece, corners: Sequence[Named], ruler: Ruler) -> Group:
    key, label = outline_key(piece), "rectangle to cut it from"
    width, height = (rounded_up(as_fraction(side), ruler.step) for side in piece.size)
    home = piece.places[0].inverse()
    return Group(
        f"{piece.key} to draw, {piece.face.value}, from the rectangle's lower left corner",
        (
            length(f"{key}.width", f"{label}, across", width, ruler),
            length(f"{key}.height", f"{label}, up", height, ruler),
            *(_corner(key, name, home.point(point), ruler) for name, point in corners),
        ),
    )


def _corner(key: str, name: str, place: Point, ruler: Ruler) -> Figure:
    across, up = (_from(as_fraction(side), ruler) for side in place)
    at = name.lower().replace(", point ", ".")
    return words(f"{key}.{at}", f"corner {name}", f"{across} across, {up} up")


def _from(mm: Fraction, ruler: Ruler) -> str:
    return ruler.both(mm) if mm else "0"
