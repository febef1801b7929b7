"""The patchwork: patches as placed tile its outline, and are cut with their allowance all round.

Thousands of patches are laid at once as arrays of rings. Coordinates are rounded to the slack
first, so that neighbours that share a seam share its very points.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from cutpaths.geometry.assembly import Assembly, Piece
from cutpaths.geometry.marks import MarkKind, select
from cutpaths.geometry.polygons import Ring, edges
from cutpaths.pieces import Kit
from cutpaths.proof.check import Check
from cutpaths.proof.planes import SHARPEST_TIP, Tiling, less, strip, tiling
from cutpaths.proof.reading import Measure, Reading, judge
from cutpaths.proof.tolerances import PLACE_MM, area_slack
from cutpaths.shapes import Motion
from cutpaths.values import Value, replace

Array = NDArray[Any]
# Decimals of a millimetre to which shared seams are rounded; no coarser than `PLACE_MM`.
_SHARED_DECIMALS = 6


class Patches(Value, kw_only=True):
    """Every patch of a patchwork laid down.

    Attributes:
        keys: name of each.
        polygons: its finished shape.
        corners: the corners of all finished shapes, in rows of x and y.
    """

    keys: tuple[str, ...]
    polygons: Array
    corners: Array


def lay_patches(kit: Kit) -> Patches | None:
    """Sets every patch down by its places; None for a top of one cloth."""
    if not kit.pieced:
        return None
    rings = [
        (piece.key, _placed(finished_ring(piece), piece.places)) for piece in kit.patchwork.pieces()
    ]
    return Patches(
        keys=tuple(key for key, placed in rings for _ in placed),
        polygons=np.concatenate([shapely.polygons(placed) for _, placed in rings]),
        corners=np.concatenate([placed.reshape(-1, 2) for _, placed in rings]),
    )


def finished_ring(piece: Piece) -> Ring:
    """A patch's seam line as marked on it."""
    return select(piece.marks, MarkKind.SEAM_RING)[0].points


def _placed(ring: Ring, places: Sequence[Motion]) -> Array:
    """A ring moved by each of some motions: places x corners x (x, y), rounded."""
    points = np.array(ring)
    cos, sin, dx, dy, mirrored = (
        np.array([getattr(m, name) for m in places])[:, None]
        for name in ("cos", "sin", "dx", "dy", "mirrored")
    )
    x, y = np.where(mirrored, -points[:, 0], points[:, 0]), points[:, 1]
    moved = np.stack([cos * x - sin * y + dx, sin * x + cos * y + dy], axis=-1)
    return np.round(moved, _SHARED_DECIMALS)


def patches_tile(kit: Kit, measure: Measure, patches: Patches) -> tuple[Check, ...]:
    """The designed seam polygon against the patches laid on it."""
    outline = Polygon(kit.patchwork.outline)
    laid = tiling(patches.polygons, outline)
    at = _spot(patches, laid)
    return judge(
        "patches-tile",
        "The patches cover the patchwork's outline exactly once: "
        "nothing bare, nothing double, nothing over the edge.",
        tiling_readings(measure, laid, outline, at),
    )


def tiling_readings(
    measure: Measure, laid: Tiling, outline: BaseGeometry, at: str
) -> Iterator[Reading]:
    """What is covered, how much lies there altogether, and what sticks out."""
    yield measure.area(at, outline.area, outline.area - laid.bare.area, laid.slack)
    yield measure.area(at, outline.area, laid.laid, laid.slack)
    yield measure.area(at, outline.area, outline.area + laid.over.area, laid.slack)


def _spot(patches: Patches, laid: Tiling) -> str:
    """Which patches a flawed tiling is about: the two that overlap most, or those beside a gap."""
    if laid.double > laid.slack:
        tree = shapely.STRtree(patches.polygons)
        first, second = tree.query(patches.polygons, predicate="intersects")
        first, second = first[first < second], second[first < second]
        common = shapely.area(
            shapely.intersection(patches.polygons[first], patches.polygons[second])
        )
        worst = int(common.argmax())
        return " and ".join(sorted({patches.keys[first[worst]], patches.keys[second[worst]]}))
    for flaw in (laid.bare, laid.over):
        if flaw.area > laid.slack:
            near = shapely.STRtree(patches.polygons).query(
                flaw, predicate="dwithin", distance=PLACE_MM
            )
            return " and ".join(sorted({patches.keys[i] for i in near}))
    return ""


def patch_allowances(kit: Kit, measure: Measure) -> tuple[Check, ...]:
    """Every cut shape against its seam line."""
    allowance = float(kit.project.allowance)
    return judge(
        "patch-allowance",
        "Every patch is cut the seam allowance outside its seam line; only sharp tips may be less.",
        [
            reading
            for piece in kit.patchwork.pieces()
            for reading in _allowance(measure, piece, allowance)
        ],
    )


def _allowance(measure: Measure, piece: Piece, allowance: float) -> Iterator[Reading]:
    """The least allowance along the seam line, and how far the cut shape reaches past it."""
    ring, cut = finished_ring(piece), Polygon(piece.outline)
    finished = Polygon(ring)
    for line in edges(ring):
        yield measure.length(piece.key, allowance, least_beside(line, allowance, cut))
    most = finished.buffer(allowance, join_style="mitre", mitre_limit=SHARPEST_TIP)
    beyond = less(cut, most)
    if beyond.area > area_slack(cut.length):
        points = shapely.points(shapely.get_coordinates(beyond))
        over = float(shapely.distance(most, points).max())
        yield measure.length(piece.key, allowance, allowance + over)


def least_beside(line: tuple[Any, Any], amount: float, cut: BaseGeometry) -> float:
    """How much cloth lies to the right of a line all along it, up to an amount; mm."""
    missing = less(strip(line, amount), cut)
    if missing.is_empty:
        return amount
    return float(shapely.distance(shapely.LineString(line), missing))


def patch_seams(kit: Kit, measure: Measure, patches: Patches) -> tuple[Check, ...]:
    """The seams that the patchwork lists against the edges of its patches."""
    ends = np.array(_seam_ends(kit.patchwork)).reshape(-1, 2, 2)
    outline = Polygon(kit.patchwork.outline)
    between = (float(shapely.length(patches.polygons).sum()) - outline.length) / 2
    lengths = np.hypot(*(ends[:, 1] - ends[:, 0]).T)
    places = np.concatenate([ends[:, 0], ends[:, 1], ends.mean(axis=1)])
    off = 0.0
    if len(places):
        tree = shapely.STRtree(shapely.boundary(patches.polygons))
        _, distances = tree.query_nearest(
            shapely.points(places), all_matches=False, return_distance=True
        )
        off = float(distances.max())
    # Every length carries the rounding of its two ends.
    slack = PLACE_MM * (len(patches.corners) + len(places))
    return judge(
        "patch-seams",
        "The seams of the patchwork are just the lines where two patches meet.",
        [
            replace(measure.length("", between, float(lengths.sum())), slack=slack),
            replace(measure.apart("", off), slack=2 * PLACE_MM),
        ],
    )


def _seam_ends(assembly: Assembly) -> list[tuple[Any, Any]]:
    """Both ends of each seam of an assembly and of those inside it, in its own frame."""
    found = [(seam.start, seam.end) for seam in assembly.seams]
    for part in assembly.parts:
        if isinstance(part, Assembly):
            inside = _seam_ends(part)
            found += [(place.point(p), place.point(q)) for place in part.places for p, q in inside]
    return found
