"""Projects of squares with stock, for tests of cloth; sizes are inches."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from cutpaths.cloth.by_hand import plan_of
from cutpaths.cloth.cutting import FabricPlan
from cutpaths.cloth.needs import PATCHES, Need
from cutpaths.cloth.packing.effort import Effort
from cutpaths.cloth.searched_strips import Search
from cutpaths.lengths import INCH, Unit
from cutpaths.pieces import Kit, build
from cutpaths.project import read
from cutpaths.project.model import Fabric
from cutpaths.project.stock import Run, Stock, plain_stock
from cutpaths.values import replace

QUICK = Search(Effort(seconds=None, tries=50))
BARE: dict[str, Any] = {"square_up": Fraction(0), "strip_ends": Fraction(0)}

TEXT = """
format = 1
title = "Tarn"
[fabric.sand]
[fabric.sea]
[top]
layout = "squares"
patch = 5
columns = 6
rows = 7
fabrics = ["sand"]
[border]
width = 2
[backing]
fabric = "sea"
"""


def kit(stock: str = "", *, columns: int = 6, rows: int = 7, backing: str = "") -> Kit:
    """Squares of sand on a backing of sea, with stock tables."""
    text = TEXT.replace("columns = 6", f"columns = {columns}").replace("rows = 7", f"rows = {rows}")
    text = text.replace('fabric = "sea"', f'fabric = "sea"\n{backing}')
    return build(read(f"{text}{stock}", name="tarn.toml"))


def stock(width: int, **changes: Any) -> Stock:
    """The usual stock with another usable width."""
    return replace(plain_stock(Unit.INCH), width=width * INCH, **changes)


def squares(side: Fraction | int, count: int) -> Need:
    """So many squares."""
    size = (side * INCH, side * INCH)
    return Need(keys=("PATCH-1",), part=PATCHES, size=size, count=count, run=Run.EITHER)


def planned(made: Kit, known: Stock, *needs: Need) -> FabricPlan:
    """The plan of some needs from a stock."""
    fabric = Fabric(name="sand", label="Sand", directional=False, stock=known)
    return plan_of(made.project, fabric, needs, QUICK)
