"""What a kit asks to be cut of each fabric: rectangles, with their counts; mm, exact.

Triangles are cut as pairs, or by fours, from squares. What is no rectangle and comes from no
square is cut from a rectangle round it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from cutpaths.cloth.packing.items import Item
from cutpaths.cloth.stock import run_of, stock_of
from cutpaths.figures.sizes import filling_size, sizes
from cutpaths.geometry.assembly import Face, Piece, PieceKind
from cutpaths.geometry.layouts.triangles import Blanks, blanks_of, rounded_up
from cutpaths.geometry.patch_shapes import PatchKind
from cutpaths.lengths import Ruler, as_fraction
from cutpaths.pieces import Kit
from cutpaths.project.model import Fabric
from cutpaths.project.sizes import raw_top
from cutpaths.project.stock import Run, Size, Stock
from cutpaths.values import Value

BACKING, FILLING, PANELS, PATCHES, TOP = "backing", "filling", "panels", "patches", "top"


class Need(Value, kw_only=True):
    """Rectangles of one size.

    Attributes:
        keys: keys of the pieces that they are, or become.
        part: which part of the blanket: `backing`, `filling`, `panels`, `patches` or `top`.
        size: across and along the piece as it stands in the blanket.
        count: how many for one blanket.
        run: how it lies on the cloth.
        then: what is done to it once it is cut; empty where nothing is.
        one_way: whether it may lie only one face up, because its mirror image is another piece.
    """

    keys: tuple[str, ...]
    part: str
    size: Size
    count: int
    run: Run
    then: str = ""
    one_way: bool = False

    @property
    def item(self) -> Item:
        """What the packing is asked."""
        width, height = self.size
        if self.run is Run.CROSSWISE:
            width, height = height, width
        turn = self.run is Run.EITHER and width != height
        return Item(width=width, height=height, count=self.count, turn=turn)

    @property
    def area(self) -> Fraction:
        """Of all of them, in mm²."""
        return self.size[0] * self.size[1] * self.count

    def words(self, ruler: Ruler, count: int) -> str:
        """So many of them, as the trade says it: `8 squares of 5 in`, `BACKING, 37 x 42 in`."""
        if self.part in (BACKING, FILLING, TOP):
            return f"the {self.keys[0]} ({by(self.size, ruler)})"
        if self.part == PANELS:
            return f"{' and '.join(self.keys)} ({by(self.size, ruler)})"
        width, height = self.size
        name, size = ("rectangle", by(self.size, ruler))
        if width == height:
            name, size = "square", ruler.text(width)
        return f"{count} {name}{'' if count == 1 else 's'} of {size}"


def by(size: Sequence[Fraction], ruler: Ruler) -> str:
    """Two lengths with their unit once, `37 1/2 x 42 in`."""
    unit = f" {ruler.unit.value}"
    return " x ".join(ruler.text(each).removesuffix(unit) for each in size) + unit


def needs_of(kit: Kit, fabric: Fabric) -> tuple[Need, ...]:
    """What one blanket takes of a fabric, the largest first."""
    stock = stock_of(kit.project, fabric)
    own = [piece for piece in kit.cloth if piece.fabric == fabric.name]
    blanks = blanks_of(own, kit.project.allowance, kit.project.ruler.step)
    halved = {key for each in blanks for key in each.keys}
    found = [
        *(_whole(kit, fabric, stock, piece) for piece in own if piece.key not in halved),
        *(_blanks(fabric, stock, each) for each in blanks),
    ]
    return tuple(sorted(_merged(found), key=lambda need: (-need.size[1] * need.size[0], need.keys)))


def _merged(needs: Sequence[Need]) -> Iterator[Need]:
    """Needs alike in all but their keys as one."""
    alike: dict[tuple[object, ...], list[Need]] = {}
    for need in needs:
        alone = need.part == BACKING
        kind = (need.part, need.size, need.run, need.then, need.one_way, alone and need.keys)
        alike.setdefault(kind, []).append(need)
    for group in alike.values():
        first = group[0]
        yield Need(
            keys=tuple(key for each in group for key in each.keys),
            part=first.part,
            size=first.size,
            count=sum(each.count for each in group),
            run=first.run,
            then=first.then,
            one_way=first.one_way,
        )


def _whole(kit: Kit, fabric: Fabric, stock: Stock, piece: Piece) -> Need:
    part = PARTS[piece.kind]
    size = _size(kit, piece)
    rectangular = len(piece.outline) == 4 and exact_box(piece) == size
    then = "" if rectangular or _corners_only(piece) else _outlined(piece)
    return Need(
        keys=(piece.key,),
        part=part,
        size=size,
        count=piece.count,
        run=lie_of(stock, fabric, piece),
        then=then,
        one_way=bool(then) and piece.face is not Face.EITHER,
    )


def lie_of(stock: Stock, fabric: Fabric, piece: Piece) -> Run:
    """How a piece lies on the cloth; what has no grain has no up either, whatever its fabric."""
    directional = fabric.directional and piece.grain is not None
    return run_of(stock, PARTS[piece.kind], directional=directional)


def _outlined(piece: Piece) -> str:
    """What is done to a piece of no recipe; a quarter of a rectangle is one, which is said."""
    if piece.shape is not None and piece.shape.kind is PatchKind.QUARTER:
        return "cut to its outline, since a quarter of a rectangle comes from no square"
    return "cut to its outline"


PARTS = {
    PieceKind.PATCH: PATCHES,
    PieceKind.TOP: TOP,
    PieceKind.BACKING: BACKING,
    PieceKind.PANEL: PANELS,
    PieceKind.FILLING: FILLING,
}


def _corners_only(piece: Piece) -> bool:
    """Whether only the corners of a rectangle are cut off: a matter of trimming, not of cutting."""
    return piece.kind is PieceKind.BACKING and len(piece.outline) == 8


def exact_box(piece: Piece) -> Size:
    """The box of a piece, to the 1e-6 mm that drawings hold."""
    width, height = piece.size
    return as_fraction(width), as_fraction(height)


def _size(kit: Kit, piece: Piece) -> Size:
    """Exact where the project settles it, else the box rounded up to the ruler's step."""
    shape, box = piece.shape, exact_box(piece)
    if shape is not None and shape.kind is PatchKind.RECTANGLE:
        allowance = kit.project.allowance
        cut = raw_top(shape.width, allowance), raw_top(shape.height, allowance)
        return cut if (box[0] > box[1]) == (cut[0] > cut[1]) else (cut[1], cut[0])
    settled = sizes(kit.project)
    if settled is not None and piece.kind is PieceKind.BACKING:
        return settled.backing
    if settled is not None and piece.kind is PieceKind.TOP:
        return settled.raw
    if piece.kind is PieceKind.FILLING and (whole := filling_size(kit.project)) is not None:
        return whole
    if piece.kind is PieceKind.PANEL:
        return box
    step = kit.project.ruler.step
    return rounded_up(box[0], step), rounded_up(box[1], step)


def _blanks(fabric: Fabric, stock: Stock, blanks: Blanks) -> Need:
    blank = blanks.blank
    times = "once" if blank.cuts == 1 else "twice"
    then = f"cut {times} on the diagonal"
    if blank.rising is not None:
        then += f" that {'rises' if blank.rising else 'falls'} to the right, right side up"
    run = run_of(stock, PATCHES, directional=fabric.directional)
    # Turned by a quarter, a rectangle's rising diagonal would fall.
    if blank.rising is not None and run is Run.EITHER:
        run = Run.LENGTHWISE
    return Need(
        keys=blanks.keys,
        part=PATCHES,
        size=blank.cut,
        count=blanks.count,
        run=run,
        then=f"{then} into {', '.join(blanks.keys)}",
        one_way=blank.rising is not None,
    )
