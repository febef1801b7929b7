"""Plans for a machine that cuts shapes, judged by shapely on the shapes themselves."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from pathlib import Path

import pytest
from cloths import QUICK, kit
from shapely import Polygon, STRtree

from cutpaths.cloth.by_machine import MachinePlan, machine_plans
from cutpaths.cloth.machine_report import machine_lines
from cutpaths.errors import InputError
from cutpaths.geometry.assembly import Face
from cutpaths.geometry.patch_shapes import PatchKind
from cutpaths.lengths import INCH
from cutpaths.pieces import Kit, build
from cutpaths.project import load
from cutpaths.values import replace

FIXTURES = Path(__file__).parent.parent / "fixtures"
SPACING = INCH / 8
SLACK_MM = 1e-5


def windrose() -> Kit:
    """Triangles of three fabrics."""
    return build(load(FIXTURES / "windrose.toml"))


def shapes(plan: MachinePlan) -> list[Polygon]:
    """Every piece as it lies."""
    return [Polygon(laid.motion.ring(laid.piece.outline)) for laid in plan.laid]


@pytest.fixture(scope="module")
def plans() -> tuple[tuple[Kit, MachinePlan], ...]:
    """Plans of squares and backings."""
    return tuple(
        (each, plan)
        for each in (kit(), build(load(FIXTURES / "tidepool.toml")))
        for plan in machine_plans(each, SPACING, QUICK)
    )


def test_every_piece_is_laid_once(plans: tuple[tuple[Kit, MachinePlan], ...]) -> None:
    """Each piece of a fabric lies on its cloth as often as it is cut."""
    for made, plan in plans:
        wanted = {p.key: p.count for p in made.cloth if p.fabric == plan.fabric.name}
        assert Counter(laid.piece.key for laid in plan.laid) == wanted


def _require_apart(plan: MachinePlan) -> None:
    found = shapes(plan)
    tree = STRtree(found)
    for n, shape in enumerate(found):
        left, bottom, right, top = shape.bounds
        assert min(left, bottom) >= -SLACK_MM
        assert right <= float(plan.stock.width) + SLACK_MM
        assert top <= float(plan.used) + SLACK_MM
        near = tree.query(shape, predicate="dwithin", distance=float(SPACING) - SLACK_MM)
        assert list(near) == [n]


def test_pieces_keep_their_distance(plans: tuple[tuple[Kit, MachinePlan], ...]) -> None:
    """No two shapes come nearer than the spacing, and all lie on the cloth used."""
    for _, plan in plans:
        _require_apart(plan)


def test_triangles_share_boxes_and_keep_their_distance() -> None:
    """Half triangles lie two by two along their long edges, a spacing apart."""
    made = windrose()
    small = replace(made, panels=replace(made.patchwork, parts=(), seams=()))
    for plan in machine_plans(small, SPACING, QUICK):
        _require_apart(plan)
        box_area = sum(w * h for w, h in (laid.piece.size for laid in plan.laid))
        kinds = Counter(laid.piece.shape.kind for laid in plan.laid if laid.piece.shape)
        if kinds[PatchKind.HALF] > len(plan.laid) / 3:
            assert float(plan.used * plan.stock.width) < box_area


def test_cloth_lies_wrong_side_up(plans: tuple[tuple[Kit, MachinePlan], ...]) -> None:
    """Patches, cut right side up by hand, are turned over; backings are not."""
    for _, plan in plans:
        for laid in plan.laid:
            assert laid.motion.mirrored is (laid.piece.face is Face.RIGHT)


def test_a_print_with_an_up_is_not_turned() -> None:
    """A directional backing stands along the selvage."""
    made = build(load(FIXTURES / "tidepool.toml"))
    stripe = next(p for p in machine_plans(made, SPACING, QUICK) if p.fabric.name == "stripe")
    assert [laid.motion.cos for laid in stripe.laid] == [1.0]


def test_bound_and_words(plans: tuple[tuple[Kit, MachinePlan], ...]) -> None:
    """No plan is below its bound, and the caution stands at the end."""
    for made, plan in plans:
        assert plan.bound <= plan.used
        told = list(machine_lines(made, [plan]))
        assert told[-1].startswith("Never leave a cutting machine running unattended")


def test_a_piece_too_wide_is_named() -> None:
    """The piece and the width that would do are in one line."""
    with pytest.raises(InputError) as caught:
        machine_plans(kit("[fabric.sea.stock]\nwidth = 30\n"), Fraction(0), QUICK)
    assert str(caught.value) == (
        "`fabric.sea.stock.width` must hold BACKING, got 30 in. Usable width of 35 1/2 in would do"
    )
