"""Plans for a machine that cuts shapes from one length of cloth: placed freely; mm.

The cloth lies wrong side up, so that marks are drawn where they do not show: pieces that are cut
right side up by hand are turned over here. Two alike half triangles share the box of one, unless
their print has an up. Nothing is squared up: the machine cuts no edge of the cloth.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from fractions import Fraction

from cutpaths.cloth.bound import freely_bound
from cutpaths.cloth.checked import require
from cutpaths.cloth.needs import lie_of
from cutpaths.cloth.packing import judge
from cutpaths.cloth.packing.free import pack_free
from cutpaths.cloth.packing.items import Item, Placement
from cutpaths.cloth.searched_strips import Search
from cutpaths.cloth.stock import stock_of
from cutpaths.errors import Finding, InputError
from cutpaths.geometry.assembly import Face, Piece
from cutpaths.geometry.patch_shapes import PatchKind
from cutpaths.geometry.polygons import box
from cutpaths.lengths import as_fraction
from cutpaths.pieces import Kit
from cutpaths.project.model import Fabric
from cutpaths.project.stock import Run, Stock
from cutpaths.shapes import IDENTITY, Motion, shift
from cutpaths.values import Value


class Laid(Value):
    """One piece on the cloth."""

    piece: Piece
    motion: Motion


class MachinePlan(Value, kw_only=True):
    """Every piece of one fabric on its length of cloth.

    Attributes:
        fabric, stock: which one, and how it is sold.
        spacing: least distance between pieces.
        laid: every piece, wrong side up, from the lower left corner of the usable width.
        used: length of cloth.
        bound: below which no plan of these boxes comes.
        method: how it was made.
    """

    fabric: Fabric
    stock: Stock
    spacing: Fraction
    laid: tuple[Laid, ...]
    used: Fraction
    bound: Fraction
    method: str


class _Group(Value):
    """Alike pieces that lie in boxes of one size: the motions of those in a box, and the count."""

    piece: Piece
    inside: tuple[Motion, ...]
    item: Item


def machine_plans(kit: Kit, spacing: Fraction, search: Search) -> tuple[MachinePlan, ...]:
    """A plan for every fabric that the kit takes.

    Raises:
        InputError: a piece is wider than its cloth.
    """
    jobs = []
    for fabric in kit.project.fabrics:
        stock = stock_of(kit.project, fabric)
        groups = [_group(fabric, stock, p, spacing) for p in kit.cloth if p.fabric == fabric.name]
        jobs.append((fabric, stock, groups))
    findings = [f for job in jobs for f in _misfits(kit, *job)]
    if findings:
        raise InputError(*findings)
    return tuple(_plan(*job, spacing, search) for job in jobs if job[2])


def _misfits(kit: Kit, fabric: Fabric, stock: Stock, groups: Sequence[_Group]) -> Iterator[Finding]:
    ruler = kit.project.ruler
    for group in groups:
        enough = Fraction(group.item.least_width)
        if enough > stock.width:
            yield Finding(
                key=f"fabric.{fabric.name}.stock.width",
                problem=f"must hold {group.piece.key}, got {ruler.text(stock.width)}",
                hint=f"Usable width of {ruler.text(enough)} would do",
            )


def _plan(
    fabric: Fabric, stock: Stock, groups: Sequence[_Group], spacing: Fraction, search: Search
) -> MachinePlan:
    items = [group.item for group in groups]
    plan = pack_free(items, stock.width, spacing=spacing, effort=search.effort, watch=search.watch)
    require(judge.faults(items, plan, spacing=spacing), fabric.label)
    return MachinePlan(
        fabric=fabric,
        stock=stock,
        spacing=spacing,
        laid=tuple(_laid(groups, plan.placements)),
        used=Fraction(plan.height),
        bound=freely_bound(items, stock.width, spacing),
        method=str(plan.method),
    )


def _group(fabric: Fabric, stock: Stock, piece: Piece, spacing: Fraction) -> _Group:
    run = lie_of(stock, fabric, piece)
    home = _wrong_side_up(piece)
    inside, width = (
        _pair(piece, home, float(spacing)) if _pairs(piece) else ((home,), piece.size[0])
    )
    size = as_fraction(width), as_fraction(piece.size[1])
    if run is Run.CROSSWISE:
        size = size[1], size[0]
        inside = tuple(motion.then(_quarter(piece.size[1])) for motion in inside)
    turn = run is Run.EITHER and size[0] != size[1]
    count = -(-piece.count // len(inside))
    return _Group(piece, inside, Item(width=size[0], height=size[1], count=count, turn=turn))


def _wrong_side_up(piece: Piece) -> Motion:
    """The piece in its own box as it lies on cloth that is wrong side up."""
    turned_over = Motion.quarters(0, piece.size[0], 0.0, mirrored=True)
    return turned_over if piece.face is Face.RIGHT else IDENTITY


def _pairs(piece: Piece) -> bool:
    half = piece.shape is not None and piece.shape.kind is PatchKind.HALF
    return half and piece.count > 1 and piece.grain is not None and not piece.grain.headed


def _pair(piece: Piece, home: Motion, spacing: float) -> tuple[tuple[Motion, ...], float]:
    """Two half triangles along their long edges, and the width of the box that they share."""
    width, height = piece.size
    over = spacing * math.hypot(width, height) / height
    ring = home.ring(piece.outline)
    center = sum(x for x, _ in ring) / len(ring)
    first, second = (0.0, over) if center < width / 2 else (over, 0.0)
    other = home.then(Motion.quarters(2, width + second, height))
    return (home.then(shift(first, 0.0)), other), width + over


def _quarter(height: float) -> Motion:
    """A quarter turn of a box of some height, back to the origin."""
    return Motion.quarters(1, height, 0.0)


def _laid(groups: Sequence[_Group], places: Sequence[Placement]) -> Iterator[Laid]:
    left = [group.piece.count for group in groups]
    for place in places:
        group = groups[place.item]
        lie = _quarter(float(group.item.height)) if place.turned else IDENTITY
        set_down = lie.then(shift(float(place.x), float(place.y)))
        for motion in group.inside[: left[place.item]]:
            yield Laid(group.piece, motion.then(set_down))
            left[place.item] -= 1


def extent(laid: Laid) -> tuple[float, float, float, float]:
    """Left, bottom, right and top of a piece on the cloth."""
    return box(laid.motion.ring(laid.piece.outline))
