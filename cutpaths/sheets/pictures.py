"""The pictures of a project as a use: front, back and layout chart."""

from __future__ import annotations

from cutpaths.pieces import Kit
from cutpaths.sheets.chart import chart_sheets
from cutpaths.sheets.fabric_paint import cloths_of
from cutpaths.sheets.picture import picture_sheets
from cutpaths.sheets.sheet import Output, Wishes
from cutpaths.values import replace

FORMATS = ("svg",)  # larger or smaller without loss, and no extra is needed for plain colours


def pictures(kit: Kit, wishes: Wishes) -> tuple[Output, ...]:
    """Front, back and, of a pieced top, the chart.

    Raises:
        InputError: a picture of cloth cannot be read.
    """
    cloths = cloths_of(kit.project.fabrics, wishes.beside)
    made = (*picture_sheets(kit, cloths), *chart_sheets(kit, cloths))
    return tuple(replace(output, formats=FORMATS) for output in made)
