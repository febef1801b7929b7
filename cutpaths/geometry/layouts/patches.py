"""Patches: from tiles on a lattice to pieces as they are cut; mm, right side up.

A tile is one patch where it lies in the finished top. Tiles of one fabric and one shape are one
piece. Where the fabric has no up they may be quarter turns of each other, since straight edges
stay on one grain or the other; where it has one, each way round is a piece of its own. Nothing is
turned over: a mirrored triangle is another piece.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from math import sqrt

from cutpaths.geometry.assembly import Face, Grain, Piece, PieceKind
from cutpaths.geometry.layouts.cut_shapes import outlines
from cutpaths.geometry.layouts.lattice import Lattice, Node
from cutpaths.geometry.layouts.rules import PatchRules
from cutpaths.geometry.marks import Mark, MarkKind
from cutpaths.geometry.patch_shapes import PatchKind, PatchShape
from cutpaths.geometry.polygons import (
    Ring,
    along,
    distance,
    edges,
    perimeter,
    signed_area,
)
from cutpaths.shapes import Motion, Point
from cutpaths.values import Value, replace

GRAIN_LINE_MOST_MM = 100.0
GRAIN_LINE_PART = 0.8  # of the circle that fits into a triangle

QUARTER = 2  # eighths of a turn
_DIAGONAL = sqrt(0.5)
# Cosine and sine of each eighth of a turn, counter-clockwise; quarters are exact.
_EIGHTHS = (
    (1.0, 0.0),
    (_DIAGONAL, _DIAGONAL),
    (0.0, 1.0),
    (-_DIAGONAL, _DIAGONAL),
    (-1.0, 0.0),
    (-_DIAGONAL, -_DIAGONAL),
    (0.0, -1.0),
    (_DIAGONAL, -_DIAGONAL),
)
# Kind, width and height in the lattice's own measure, fabric, and the eighths by which the shape
# is turned in the piece's frame.
Key = tuple[PatchKind, int, int, str, int]


class Tile(Value):
    """One patch of a finished top.

    Attributes:
        kind: its shape's kind.
        width, height: its shape's sizes, whole numbers that alike shapes share.
        fabric: name of its fabric.
        turn: eighths of a turn, counter-clockwise, from the shape's own frame.
        ring: its finished corners in the order of the shape's own.
    """

    kind: PatchKind
    width: int
    height: int
    fabric: str
    turn: int
    ring: tuple[Node, ...]


class Shaping(Value):
    """What a layout makes of its tiles' shapes.

    Attributes:
        measure: kind, width and height to the exact shape.
        along_long: kinds of triangle whose tips are cut square to the long edge, because the long
            edge is the one that is sewn to other units.
    """

    measure: Callable[[PatchKind, int, int], PatchShape]
    along_long: frozenset[PatchKind]


def numbered(tiles: Iterable[Tile], rules: PatchRules) -> dict[Key, str]:
    """A name for each different piece, in the order of the tiles."""
    keys: dict[Key, str] = {}
    for tile in tiles:
        if _laid(tile, keys, rules)[0] not in keys:
            keys[_key(tile, rules)] = f"PATCH-{len(keys) + 1}"
    return keys


def pieces(
    tiles: Iterable[Tile],
    lattice: Lattice,
    names: Mapping[Key, str],
    shaping: Shaping,
    rules: PatchRules,
) -> tuple[Piece, ...]:
    """The pieces of some tiles, each with the places of all its tiles."""
    made: dict[Key, Piece] = {}
    anchors: dict[tuple[Key, int], tuple[float, float, float, float]] = {}
    places: dict[Key, list[Motion]] = {}
    for tile in tiles:
        key, turn, corner = _laid(tile, names, rules)
        if (key, turn) not in anchors:
            if key not in made:
                made[key] = _piece(names[key], key, shaping, rules)
                places[key] = []
            anchors[key, turn] = _anchor(made[key], turn)
        cos, sin, x, y = anchors[key, turn]
        at = lattice.point(tile.ring[corner])
        places[key].append(Motion(cos, sin, at[0] - x, at[1] - y))
    return tuple(replace(piece, places=tuple(places[key])) for key, piece in made.items())


def _key(tile: Tile, rules: PatchRules) -> Key:
    """The key of a tile's piece. A square on point stands straight in its own frame."""
    own = tile.turn - tile.turn % QUARTER if rules.directional[tile.fabric] else 0
    return tile.kind, tile.width, tile.height, tile.fabric, own


def _laid(tile: Tile, names: Mapping[Key, str], rules: PatchRules) -> tuple[Key, int, int]:
    """A tile's piece, the eighths by which it is turned, and where its first corner comes to."""
    key = _key(tile, rules)
    if key not in names and tile.kind is PatchKind.RECTANGLE and not rules.directional[tile.fabric]:
        # Lying rectangles and standing ones are one piece, as the first of them lies.
        return (tile.kind, tile.height, tile.width, tile.fabric, 0), tile.turn + QUARTER, 1
    return key, tile.turn - key[-1], 0


def _anchor(piece: Piece, turn: int) -> tuple[float, float, float, float]:
    """A turn, and where it takes the piece's first finished corner."""
    cos, sin = _EIGHTHS[turn]
    x, y = Motion(cos, sin).point(_finished(piece)[0])
    return cos, sin, x, y


def _finished(piece: Piece) -> Ring:
    """A patch's seam line in its own frame."""
    return piece.marks[0].points


def _piece(name: str, key: Key, shaping: Shaping, rules: PatchRules) -> Piece:
    """A patch as it is cut, with no places yet."""
    kind, width, height, fabric, turn = key
    shape = shaping.measure(kind, width, height)
    headed = rules.directional[fabric]
    # A quarter triangle keeps its long edge on the grain.
    across = kind is PatchKind.QUARTER and not headed
    grain = Grain((1.0, 0.0) if across else (0.0, 1.0), headed)
    cut, finished = outlines(
        shape,
        rules.allowance,
        turn // QUARTER,
        blunt=rules.blunted,
        along_long=kind in shaping.along_long,
    )
    marks = [Mark(MarkKind.SEAM_RING, "", finished)]
    if kind is not PatchKind.RECTANGLE:
        marks.append(Mark(MarkKind.GRAIN, "", _grain_line(finished, grain.way)))
    return Piece(
        key=name,
        kind=PieceKind.PATCH,
        fabric=fabric,
        face=Face.RIGHT,
        grain=grain,
        outline=cut,
        marks=tuple(marks),
        places=(),
        shape=shape,
    )


def _grain_line(triangle: Ring, way: Point) -> tuple[Point, Point]:
    """A line along the threads through the middle of the circle that fits into a triangle."""
    around = perimeter(triangle)
    first, second, third = (distance(p, q) for p, q in edges(triangle))
    opposite = second, third, first
    center = (
        sum(p[0] * side for p, side in zip(triangle, opposite, strict=True)) / around,
        sum(p[1] * side for p, side in zip(triangle, opposite, strict=True)) / around,
    )
    radius = 2 * signed_area(triangle) / around
    reach = min(GRAIN_LINE_MOST_MM / 2, GRAIN_LINE_PART * radius)
    return along(center, way, -reach), along(center, way, reach)
