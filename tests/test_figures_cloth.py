"""Figures about the backing's cloth."""

from __future__ import annotations

from fractions import Fraction

import pytest
from cloths import kit

from cutpaths.figures import figures_of
from cutpaths.figures.cloth import cloth_notes
from cutpaths.lengths import INCH
from cutpaths.pieces import build
from cutpaths.project import read


def figure(stock: str, key: str) -> Fraction | None:
    """The value of one figure; None where there is none."""
    groups = figures_of(kit(stock)).groups
    return {f.key: f.value for group in groups for f in group.figures}.get(key)


@pytest.mark.parametrize(("width", "border"), [(42, "3 3/8"), (40, "2 7/8"), (30, "3/8")])
def test_widest_border(width: int, border: str) -> None:
    """(usable width less both strip ends - top) / 4, down to the ruler: the top is 27 1/2 in.

    Backing = top + 4 borders: Utah State University Extension, "Mitered Corner Baby Blanket".
    """
    found = figure(f"[fabric.sea.stock]\nwidth = {width}\n", "cloth.border")
    whole, _, part = border.rpartition(" ")
    assert found == (int(whole or 0) + Fraction(part)) * INCH


def test_no_border_where_the_top_is_too_wide() -> None:
    """A top as wide as the cloth has no border without joining."""
    groups = figures_of(kit("[fabric.sea.stock]\nwidth = 28\n")).groups
    texts = {f.key: f.text for group in groups for f in group.figures}
    assert texts["cloth.border"] == "none: the top is as wide as the cloth"


def test_no_border_where_the_width_is_not_known() -> None:
    """Without stock nothing is said of a width."""
    assert figure("", "cloth.border") is None


def test_halves_on_the_fold() -> None:
    """A backing of 35 1/2 x 40 in is folded to 17 3/4 x 40 and to 17 3/4 x 20."""
    keys = ("fold.half.width", "fold.half.height", "fold.quarter.width", "fold.quarter.height")
    found = [figure("", key) for key in keys]
    assert found == [Fraction(n) * INCH for n in (Fraction(71, 4), 40, Fraction(71, 4), 20)]


BORDERS = """format = 1
title = "Tarn"
[top]
layout = "panel"
cut = { width = 30, height = 30 }
[border]
width = { A = %s, B = %s, C = %s, D = %s }
"""


@pytest.mark.parametrize(
    ("borders", "keys", "unlike"),
    [
        (("2", "2", "3", "2"), {"fold.half.width", "fold.half.height"}, "head and foot"),
        (("2", "2", "2", "3"), set(), "left and right"),
        (("2", "2", "3", "3"), set(), "left and right and at head and foot"),
    ],
)
def test_only_equal_opposite_borders_are_folded(
    borders: tuple[str, ...], keys: set[str], unlike: str
) -> None:
    """A fold is offered only where the borders at both its sides are equal, else a note warns."""
    made = build(read(BORDERS % borders))
    groups = figures_of(made).groups
    found = {f.key for group in groups for f in group.figures if f.key.startswith("fold.")}
    assert found == keys
    assert next(cloth_notes(made)) == (
        f"The borders at {unlike} differ: a backing cut on the fold would have its marks in the "
        "wrong places there."
    )


def test_directional_backing_warns_once() -> None:
    """A print with an up stands upside down at head and foot; said once."""
    text = BORDERS % ("2", "2", "2", "2") + "[fabric.reed]\ndirectional = true\n"
    notes = [n for n in figures_of(build(read(text))).notes if "upside down" in n]
    assert notes == [
        "The print of reed has an up: where the backing comes round to the front it stands upside "
        "down in the borders at head and foot."
    ]
