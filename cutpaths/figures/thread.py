"""The thread that a blanket takes, estimated from everything that is sewn; mm.

A lockstitch takes roughly 2.5 to 3 times the length of its seam (a rule of the trade, from memory).
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from cutpaths.figures.model import Figure, length
from cutpaths.geometry.marks import MarkKind, select
from cutpaths.geometry.polygons import distance, offset, perimeter
from cutpaths.lengths import YARD, Unit, as_fraction
from cutpaths.pieces import Kit
from cutpaths.project.model import Construction

LEAST, MOST = Fraction(5, 2), Fraction(3)
METRE = Fraction(1000)


def thread(kit: Kit) -> tuple[Figure, ...]:
    """How long all seams are together, and the thread that they take by a rule of the trade."""
    sewn = as_fraction(sum(_sewn(kit)))
    return (
        length("thread.seams", "all machine seams together", sewn, kit.project.ruler),
        _estimate("thread.least", "thread, 2 1/2 times the seams", sewn * LEAST, kit),
        _estimate("thread.most", "thread, 3 times the seams", sewn * MOST, kit),
    )


def _sewn(kit: Kit) -> Iterator[float]:
    """Each kind of seam: patches, panels, the basting line, the border, miters, top stitching."""
    blanket = kit.blanket
    if kit.pieced:
        yield sum(seam.length for seam in kit.patchwork.all_seams())
    if kit.panels is not None:
        yield sum(seam.length for seam in kit.panels.all_seams())
    if kit.project.construction is Construction.FOLDED_OVER:
        inner = offset(blanket.finished, [-float(border) for border in kit.project.borders])
        yield perimeter(inner)
        return
    yield sum(perimeter(mark.points) for mark in select(kit.top.marks, MarkKind.BASTE))
    yield perimeter(blanket.seam)
    yield sum(distance(corner.miter[0], corner.fold_point) for corner in blanket.corners)
    # The top stitching: along the border's seam, and along the blanket's edge.
    yield perimeter(blanket.seam) + perimeter(blanket.finished)


def _estimate(key: str, label: str, mm: Fraction, kit: Kit) -> Figure:
    """A length up to the next whole yard or metre."""
    yards, metres = (f"{-(-mm // of)} {unit}" for of, unit in ((YARD, "yd"), (METRE, "m")))
    inches = kit.project.ruler.unit is Unit.INCH
    first, beside = (yards, metres) if inches else (metres, yards)
    return Figure(key=key, label=label, text=f"about {first} ({beside})", value=mm, unit="mm")
