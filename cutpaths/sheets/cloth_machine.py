"""Machine sheets of whole lengths of cloth: final coordinates, only what the machine does; mm."""

from __future__ import annotations

from collections.abc import Sequence

from cutpaths.cloth.by_machine import MachinePlan
from cutpaths.drawing import Document, Drawing, Pen, move
from cutpaths.pieces import Kit
from cutpaths.sheets.cutter import machine_items
from cutpaths.sheets.sheet import Output, Wishes, about

FORMATS = ("svg", "dxf")
PEN = Pen(patterned=False)


def machine_sheets(kit: Kit, plans: Sequence[MachinePlan], wishes: Wishes) -> tuple[Output, ...]:
    """A sheet as wide as the cloth for each fabric; its origin is the corner of the cloth."""
    return tuple(_sheet(kit, plan, wishes) for plan in plans)


def _sheet(kit: Kit, plan: MachinePlan, wishes: Wishes) -> Output:
    name = f"cloth-machine-{plan.fabric.name}"
    work = {piece.key: machine_items(kit, piece, wishes) for piece in kit.cloth}
    items = [move(laid.motion, item) for laid in plan.laid for item in work[laid.piece.key]]
    says = about(kit, f"all pieces of {plan.fabric.label}", "wrong side up")
    drawing = Drawing(
        name=name,
        size=(float(plan.stock.width), float(plan.used)),
        about=says,
        items=tuple(items),
        pen=PEN,
    )
    return Output(name=name, document=Document(name, (drawing,)), formats=FORMATS)
