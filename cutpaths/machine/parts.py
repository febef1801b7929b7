"""Parts: what is laid on a bed, as it will be cut; float mm.

A part's outline is the line that the tool follows, half the kerf outside the piece. It keeps the
piece's frame; its turns are the ways in which its grain lets it lie.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from cutpaths.errors import Finding, InputError
from cutpaths.geometry.assembly import Grain, Piece, PieceKind
from cutpaths.geometry.polygons import SAME_PLACE_MM, Ring, box, cross, dot
from cutpaths.lengths import Unit, in_unit
from cutpaths.machine.bed import Bed, Feed, Tool
from cutpaths.machine.kerf import grown, smallest
from cutpaths.pieces import Kit
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Motion, Path, Point, shift
from cutpaths.values import Value

_DECIMALS = 6  # of mm, to which two outlines are compared


class Part(Value, kw_only=True):
    """One shape to cut, as often as it is needed.

    Attributes:
        piece: what it is; marks and holes come from here.
        outline: what the tool follows, in the piece's frame.
        holes: cut-outs as the tool follows them.
        turns: motions that turn the outline and set its box down at the origin.
        count: how many.
    """

    piece: Piece
    outline: Ring
    holes: tuple[Path | Circle, ...]
    turns: tuple[Motion, ...]
    count: int


def parts_of(kit: Kit, bed: Bed, kits: int) -> tuple[Part, ...]:
    """What the machine cuts for some kits; a template once, whatever their number.

    Raises:
        InputError: the kerf is larger than the smallest feature.
    """
    pieces = [piece for piece in kit.cloth if piece.kind in bed.pieces]
    if PieceKind.TEMPLATE in bed.pieces:
        pieces += [template.piece for template in kit.templates]
    _require_room_for_kerf(pieces, bed)
    return tuple(_part(piece, bed, kits) for piece in pieces)


def _part(piece: Piece, bed: Bed, kits: int) -> Part:
    outline = _widened(piece, Path(piece.outline, closed=True), bed.roles[Role.CUT], 0.5)
    if not isinstance(outline, Path):
        raise TypeError("an outline is a path")
    cutter = bed.roles.get(Role.CUTOUT)
    holes = piece.holes
    if cutter is not None:
        holes = tuple(_widened(piece, hole, cutter, -0.5) for hole in holes)
    return Part(
        piece=piece,
        outline=outline.points,
        holes=holes,
        turns=tuple(_turns(outline.points, piece.grain, bed.feed)),
        count=1 if piece.kind is PieceKind.TEMPLATE else piece.count * kits,
    )


def _widened(piece: Piece, shape: Path | Circle, tool: Tool, kerfs: float) -> Path | Circle:
    """A line as the tool follows it.

    Raises:
        InputError: something of it is too small for the kerf, such as the tip of a notch.
    """
    try:
        return grown(shape, float(tool.kerf) * kerfs)
    except ValueError as error:
        problem = f"must be less for {piece.key}, on which nothing of a corner would be left"
        raise InputError(Finding(key=f"tool.{tool.name}.kerf", problem=problem)) from error


def _turns(ring: Ring, grain: Grain | None, feed: Feed) -> Iterator[Motion]:
    """The ways a piece may lie, those that look alike once; never mirrored."""
    seen = set()
    for turn in _ways(grain, feed):
        left, bottom, _, _ = box(turn.ring(ring))
        motion = turn.then(shift(-left, -bottom))
        look = frozenset((round(x, _DECIMALS), round(y, _DECIMALS)) for x, y in motion.ring(ring))
        if look not in seen:
            seen.add(look)
            yield motion


def _ways(grain: Grain | None, feed: Feed) -> Iterator[Motion]:
    """Turns that lay the grain along the feed; a print's up goes the way of the feed."""
    if grain is None:
        yield from (Motion.quarters(n) for n in range(4))
        return
    along: Point = (0.0, 1.0) if feed is Feed.UP else (1.0, 0.0)
    turn = Motion(dot(grain.way, along), cross(grain.way, along))
    yield turn
    if not grain.headed:
        yield turn.then(Motion.quarters(2))


def _require_room_for_kerf(pieces: Iterable[Piece], bed: Bed) -> None:
    """Refuses a kerf as large as the smallest thing that is cut.

    Raises:
        InputError: names the tool's kerf and the feature.
    """
    for role in (Role.CUTOUT, Role.CUT):
        tool = bed.roles.get(role)
        features = [
            (smallest(shape), piece.key, what)
            for piece in pieces
            for shape, what in _features(piece, role)
        ]
        if tool is None or not features:
            continue
        size, key, what = min(features)
        if float(tool.kerf) >= size - SAME_PLACE_MM:
            room, kerf = (_size(mm, bed.unit) for mm in (size, float(tool.kerf)))
            problem = f"must be less than the smallest {what}, {room} on {key}, got {kerf}"
            raise InputError(Finding(key=f"tool.{tool.name}.kerf", problem=problem))


def _features(piece: Piece, role: Role) -> Iterator[tuple[Path | Circle, str]]:
    if role is Role.CUT:
        yield Path(piece.outline, closed=True), "edge of an outline"
        return
    for hole in piece.holes:
        yield hole, "hole" if isinstance(hole, Circle) else "edge of a cut-out"


def _size(mm: float, unit: Unit) -> str:
    """A computed length, for a message."""
    return f"{in_unit(Fraction(mm).limit_denominator(10**6), unit)} {unit.value}"
