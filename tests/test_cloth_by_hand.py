"""Plans for cutting by hand."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from cloths import BARE, QUICK, kit, planned, squares, stock
from hypothesis import given, settings
from hypothesis import strategies as st

from cutpaths.cloth.by_hand import plans_of
from cutpaths.cloth.checked import PlanError, checked
from cutpaths.cloth.cutting import FabricPlan, Source
from cutpaths.cloth.lengths_to_buy import shopping
from cutpaths.cloth.needs import PATCHES, Need, needs_of
from cutpaths.cloth.notes import cloth_notes
from cutpaths.cloth.packing.cuts import Cut
from cutpaths.cloth.plan_words import steps
from cutpaths.errors import InputError
from cutpaths.lengths import INCH, YARD
from cutpaths.pieces import build
from cutpaths.project import load
from cutpaths.project.stock import OnHand, Run, Sold, Washed
from cutpaths.values import replace


def test_plain_squares_in_words() -> None:
    """42 squares of 5 in from 40 in: seven strips a length, the last one with what is left."""
    made = kit()
    plan = plans_of(made, QUICK)[0]
    assert steps(plan, made.project.ruler) == (
        "Take the length bought (1 yd; 32 in of it is used).",
        "Square up: press, fold on the grain, and cut 1 in off each end.",
        "Cut 6 strips 5 in x usable width; crosscut 7 squares of 5 in from each.",
    )
    line = shopping(plan)
    assert (line.used, line.to_buy, line.bound) == (32 * INCH, YARD, 32 * INCH)


def test_the_length_is_told_as_it_is_bought() -> None:
    """A shop knows yards or metres; a whole length says so, and a washed one is smaller."""
    bare = replace(stock(40), **BARE)
    made = kit()
    told = steps(planned(made, bare, squares(9, 16)), made.project.ruler)
    assert told[0] == "Take the length bought (1 yd; all of it is used)."
    fifth = (Fraction(1, 5), Fraction(0))
    washed = replace(bare, washed=Washed.BEFORE, shrinkage=fifth)
    told = steps(planned(made, washed, squares(9, 12)), made.project.ruler)
    assert told[0] == "Take the length bought (1 yd, washed; 27 in of it is used)."
    metric = build(load(Path(__file__).parent.parent / "fixtures" / "fjord.toml"))
    told = steps(plans_of(metric, QUICK)[0], metric.project.ruler)
    assert told[0] == "Take the length bought (0.4 m; 35 cm of it is used)."


def test_a_piece_as_large_as_what_is_used_is_still_cut_off() -> None:
    """Of a length longer than its one piece something is cut, unlike of a quarter of its size."""
    made, bare = kit(), replace(stock(40), **BARE)
    told = steps(planned(made, bare, squares(40, 1)), made.project.ruler)
    assert told == (
        "Take the length bought (1 1/8 yd; 40 in of it is used).",
        "Cut 1 strip 40 in x usable width; crosscut 1 square of 40 in from it.",
    )


def test_directional_pieces_are_not_turned() -> None:
    """A piece taller than wide stands on directional cloth and lies down where that saves cloth."""
    free = kit("[fabric.sand.stock]\nwidth = 41\n")
    headed = kit("[fabric.sea.stock]\nwidth = 60\n")
    need = needs_of(free, free.project.fabrics[1])[0]
    assert need.run is Run.EITHER
    sea = replace(headed.project.fabrics[1], directional=True)
    assert needs_of(headed, sea)[0].run is Run.LENGTHWISE


def test_triangles_are_cut_from_squares() -> None:
    """Half-square triangles of one fabric are asked for as squares that are cut once."""
    made = build(load(Path(__file__).parent.parent / "fixtures" / "windrose.toml"))
    chalk = next(f for f in made.project.fabrics if f.name == "chalk")
    found = {need.then: (need.count, need.size[0]) for need in needs_of(made, chalk) if need.then}
    assert found == {
        "cut twice on the diagonal into PATCH-5": (6, Fraction(17, 4) * INCH),
        "cut once on the diagonal into PATCH-3": (24, Fraction(31, 8) * INCH),
    }


def test_what_is_on_hand_is_used_first() -> None:
    """Half a yard on hand gives 21 squares of 42, and only the others are bought."""
    on_hand = (OnHand(size=(40 * INCH, 18 * INCH), count=1),)
    plan = planned(kit(), stock(40, on_hand=on_hand), squares(5, 42))
    assert [sheet.source for sheet in plan.sheets] == [Source.ON_HAND, Source.BOUGHT]
    assert [len(list(sheet.placements())) for sheet in plan.sheets] == [21, 21]
    assert shopping(plan).used == 17 * INCH


def test_a_pack_piece_is_a_square() -> None:
    """43 squares from packs of 42 take two packs."""
    pack = stock(40, sold=Sold.PACK, piece=(5 * INCH, 5 * INCH), count=42, price=Fraction("11.5"))
    line = shopping(planned(kit(), pack, squares(5, 43)))
    assert [line.used, line.to_buy, line.cost, line.waste] == [43, 2, 23, 0]


def test_washing_first_takes_more() -> None:
    """Cloth that loses a tenth of its length is bought so much longer, then rounded up."""
    text = "[fabric.sand.stock]\nprice = 8\nshrinkage = { length = 10, width = 5 }\n"
    line = shopping(plans_of(kit(text), QUICK)[0])
    # 32 in / 0.9 = 35.56 in, 8 eighths of a yard.
    assert [line.to_buy, line.cost, line.width] == [YARD, 8, 40 * INCH / Fraction(19, 20)]


def test_cloths_that_shrink_apart_are_told() -> None:
    """Top and backing more than 2 % apart after the first wash are noted; 2 % are not."""
    text = (
        '[fabric.sand.stock]\nshrinkage = { length = %s, width = 1 }\nwashed = "after"\n'
        '[fabric.sea.stock]\nwidth = 44\nshrinkage = { length = 1, width = 1 }\nwashed = "after"\n'
    )
    ruler = kit().project.ruler
    alike = cloth_notes(plans_of(kit(text % "3"), QUICK), ruler)
    apart = cloth_notes(plans_of(kit(text % "3.5"), QUICK), ruler)
    assert alike == ()
    assert apart == (
        "sand of the top and sea of the backing come out 2.5 % apart after the first wash: the "
        "blanket will pucker. Wash both before cutting, or choose cloths that shrink alike.",
    )


def test_a_piece_that_fits_no_cloth_is_named() -> None:
    """The backing's size, the cloth's and the width that would do are in one line."""
    with pytest.raises(InputError) as caught:
        plans_of(kit("[fabric.sea.stock]\nwidth = 30\n"), QUICK)
    assert str(caught.value) == (
        "`fabric.sea.stock.width` must hold the BACKING (35 1/2 x 40 in), got 30 in of which "
        "29 in are left once strips are squared. Usable width of 36 1/2 in would do; or join it of "
        "panels with [backing.join]"
    )


def _plan() -> FabricPlan:
    return planned(kit(), stock(40), squares(5, 10))


def _changed(plan: FabricPlan, **changes: Any) -> FabricPlan:
    """The plan with the first piece of its first strip changed."""
    sheet = plan.sheets[0]
    strip = sheet.strips[0]
    assert isinstance(strip, Cut)
    parts = (replace(strip.parts[0], **changes), *strip.parts[1:])
    strips = (replace(strip, parts=parts), *sheet.strips[1:])
    return replace(plan, sheets=(replace(sheet, strips=strips),))


def test_a_smaller_piece_is_caught() -> None:
    """A plan that cuts one piece smaller is refused."""
    with pytest.raises(PlanError, match="is not of its size"):
        checked(_changed(_plan(), width=4 * INCH))


def test_pieces_over_each_other_are_caught() -> None:
    """A plan whose strips overlap is refused."""
    plan = _plan()
    sheet = plan.sheets[0]
    strip = sheet.strips[0]
    low = replace(strip, height=4 * INCH)
    with pytest.raises(PlanError, match="lie over each other"):
        checked(replace(plan, sheets=(replace(sheet, strips=(low, *sheet.strips[1:])),)))


def test_a_missing_piece_is_caught() -> None:
    """A plan without its last strip is refused."""
    plan = _plan()
    sheet = plan.sheets[0]
    with pytest.raises(PlanError, match="PATCH-1 is cut 7 times, not 10"):
        checked(replace(plan, sheets=(replace(sheet, strips=sheet.strips[:1]),)))


def test_a_piece_outside_is_caught() -> None:
    """A plan on too short a cloth is refused."""
    plan = _plan()
    sheet = replace(plan.sheets[0], length=11 * INCH)
    with pytest.raises(PlanError, match="lies outside the cloth"):
        checked(replace(plan, sheets=(sheet,)))


_SIZE = st.integers(4, 160).map(lambda eighths: Fraction(eighths, 8) * INCH)


@settings(max_examples=25, deadline=None)
@given(
    needs=st.lists(st.tuples(_SIZE, _SIZE, st.integers(1, 12)), min_size=1, max_size=5),
    width=st.integers(22, 44),
)
def test_every_plan_is_sound_and_above_its_bound(
    needs: list[tuple[Fraction, Fraction, int]], width: int
) -> None:
    """Whatever is cut, the plan passes its own check and is not below its bound."""
    wanted = [
        Need(keys=(f"PATCH-{n}",), part=PATCHES, size=(w, h), count=count, run=Run.EITHER)
        for n, (w, h, count) in enumerate(needs, 1)
    ]
    plan = planned(kit(), stock(width), *wanted)
    line = shopping(plan)
    assert line.bound <= line.used <= line.to_buy
    assert sum(len(list(sheet.placements())) for sheet in plan.sheets) == sum(n[2] for n in needs)


def test_the_same_plan_twice() -> None:
    """The same seed and the same tries give the same plan."""
    first, second = (
        planned(kit(), stock(40, **BARE), squares(5, 9), squares(Fraction(7, 2), 11))
        for _ in range(2)
    )
    assert first.sheets == second.sheets
