"""The filling: its size, its way in, its cloth and its sheets; sizes are inches."""

from __future__ import annotations

import math
from fractions import Fraction
from pathlib import Path

import pytest
from bad_input import SOUND
from cloths import QUICK
from machine_samples import SOUND as BED

from cutpaths.cloth.by_hand import plans_of
from cutpaths.cloth.by_machine import machine_plans
from cutpaths.cloth.fit import options
from cutpaths.cloth.lengths_to_buy import shopping
from cutpaths.cloth.needs import FILLING, needs_of
from cutpaths.cloth.notes import cloth_notes
from cutpaths.drawing import Placed
from cutpaths.errors import InputError
from cutpaths.figures import figures_of
from cutpaths.geometry.assembly import Face, PieceKind
from cutpaths.geometry.opening import FILLED_INCH, FILLED_METRIC
from cutpaths.lengths import INCH, YARD
from cutpaths.machine.bed_reading import read as read_bed
from cutpaths.machine.parts import parts_of
from cutpaths.pieces import Kit, build
from cutpaths.project import load, read
from cutpaths.project.model import Filling
from cutpaths.project.stock import Run
from cutpaths.proof import prove
from cutpaths.roles import Role
from cutpaths.shapes import Path as Line
from cutpaths.shapes import Text
from cutpaths.sheets.sheet import Output, Wishes
from cutpaths.sheets.uses import outputs

COVE = build(load(Path(__file__).parent.parent / "fixtures" / "cove.toml"))
HEXAGON = 'layout = "outline"\nregular = { sides = 6, side = 14 }'
PLAIN = Wishes()
PANEL = 'layout = "panel"\ncut = { width = 30, height = 36 }'


def filled(top: str = PANEL, filling: str = "", head: str = "", border: str = "2") -> Kit:
    """A blanket with a filling."""
    return build(
        read(
            f'format = 1\ntitle = "Pond"\n{head}\n[top]\n{top}\n[border]\nwidth = {border}\n'
            f"[filling]\n{filling}\n"
        )
    )


def size(kit: Kit) -> tuple[float, float]:
    """Width and height of the filling, in inches."""
    assert kit.filling is not None
    width, height = kit.filling.size
    return width / 25.4, height / 25.4


@pytest.mark.parametrize(
    ("head", "filling", "expected"),
    [
        # Finished 30 - 1/2 + 4 = 33 1/2 by 39 1/2; the filling is twice 1/8 less.
        pytest.param("", "", (33.25, 39.25), id="turned"),
        pytest.param("", 'less = "1/2"', (32.5, 38.5), id="less"),
        pytest.param("", "less = 0", (33.5, 39.5), id="to the fold"),
        # What the turn of cloth adds to the pieces is eaten by the fold.
        pytest.param('turn_of_cloth = "1/4"', "", (33.25, 39.25), id="thick cloth"),
        # Folded over, the blanket finishes at the size of its top.
        pytest.param('construction = "folded-over"', "", (29.75, 35.75), id="folded over"),
    ],
)
def test_size_of_a_rectangle(head: str, filling: str, expected: tuple[float, float]) -> None:
    """It is the finished size less twice what it is cut smaller, and the figures say so exactly."""
    kit = filled(head=head, filling=filling)
    assert size(kit) == pytest.approx(expected, abs=1e-9)
    shown = {f.key: f.value for group in figures_of(kit).groups for f in group.figures}
    assert shown["filling.width"] == Fraction(expected[0]) * INCH
    assert shown["filling.height"] == Fraction(expected[1]) * INCH
    assert shown["filling.count"] == 1


def test_size_of_a_hexagon() -> None:
    """A hexagon grows by 2 d / sqrt 3 on each side when its edges move out by d."""
    kit = filled(HEXAGON, border='"1 1/2"')
    side = 14 + 2 * (1.5 - 0.125) / math.sqrt(3)
    assert size(kit) == pytest.approx((2 * side, side * math.sqrt(3)), abs=1e-9)
    shown = {f.key: f.text for group in figures_of(kit).groups for f in group.figures}
    assert shown["side.filling"] == "~15 5/8 in (395.9 mm)"
    assert shown["filling.less"] == "1/8 in (3.2 mm)"


def test_metric_files_cut_it_3_mm_smaller() -> None:
    """The default is what a metric ruler shows."""
    kit = filled(
        'layout = "panel"\nseen = { width = 900, height = 600 }', head='units = "mm"', border="50"
    )
    assert kit.project.filling == Filling("filling", Fraction(3))
    assert kit.filling is not None
    assert kit.filling.size == pytest.approx((994.0, 694.0), abs=1e-9)


def test_it_is_one_bare_piece_to_cut() -> None:
    """It is cut once, either face up, from its own cloth, and has no marks and no grain."""
    piece = COVE.filling
    assert piece is not None
    assert COVE.cloth[-1] is piece
    assert (piece.key, piece.kind, piece.fabric) == ("FILLING", PieceKind.FILLING, "cloud")
    assert (piece.count, piece.face, piece.grain, piece.marks) == (1, Face.EITHER, None, ())
    assert build(read(SOUND)).filling is None


def test_a_side_must_be_left() -> None:
    """A short side beside a narrow border is refused where nothing of it would be left."""
    points = "[[0, 0], [20, 0], [20, 19.8], [19.8, 20], [0, 20]]"
    top = f'layout = "outline"\npoints = {points}'
    border = '{ A = 1, B = 1, C = "1 1/4", D = 1, E = 1 }'
    assert len(filled(top, 'less = "1/2"', border=border).blanket.finished) == 5
    with pytest.raises(InputError) as caught:
        filled(top, 'less = "7/8"', border=border)
    assert str(caught.value) == "`filling.less` must leave every side a length, got 7/8 in"


@pytest.mark.parametrize(
    ("width", "length", "note"),
    [
        (40, 12, ""),
        (16, 12, ""),
        (15, 11, "Side C has no room for the usual 12 in opening: it is 11 in long."),
        (12, 8, "Side C has no room for the usual 12 in opening: it is 8 in long."),
    ],
)
def test_the_opening_is_longer(width: int, length: int, note: str) -> None:
    """12 in are left unsewn, or the longest shorter length that fits, which a note tells."""
    kit = filled(f'layout = "panel"\nseen = {{ width = {width}, height = 50 }}')
    assert kit.opening is not None
    assert kit.opening.length == pytest.approx(length * 25.4)
    assert kit.notes[2:] == ((note,) if note else ())
    assert prove(kit).failed == ()


def test_usual_openings_of_a_filling() -> None:
    """They go down from 12 in or 30 cm to the shortest without a filling."""
    assert [mm / 25.4 for mm in FILLED_INCH] == pytest.approx([12, 11, 10, 9, 8, 7, 6, 5, 4])
    assert FILLED_METRIC == (300, 280, 250, 220, 200, 180, 150, 120, 100)


def test_notes_say_how_it_goes_in() -> None:
    """Turned, it is slid in, and thickness is warned of unless it is allowed for."""
    turned, folded = filled().notes, filled(head='construction = "folded-over"').notes
    assert turned == (
        "The filling goes in once the blanket is turned: slide it through the opening and smooth "
        "it out to the folds all round; stitching along the border's seam holds it.",
        "A thick filling makes the blanket smaller: `turn_of_cloth` allows for it.",
    )
    assert filled(head='turn_of_cloth = "1/8"').notes == turned[:1]
    assert folded == (
        "The filling is laid between backing and top before the backing's edge is folded; the "
        "stitching of the border holds it.",
    )


def test_without_fabrics_it_has_one_of_its_own() -> None:
    """Top, backing and filling are three cloths where no fabric has a table."""
    project = filled().project
    assert [fabric.label for fabric in project.fabrics] == [
        "Top fabric",
        "Backing fabric",
        "Filling",
    ]
    assert project.filling == Filling("filling", INCH / 8)


def test_its_cloth_is_bought() -> None:
    """35 3/4 x 40 1/4 in from 46 in, 1 in off both ends: 37 3/4 in, 1 1/8 yd, 9.45 at 8.40."""
    need = needs_of(COVE, COVE.project.fabrics[2])[0]
    assert (need.keys, need.part, need.count) == (("FILLING",), FILLING, 1)
    assert need.size == (Fraction(143, 4) * INCH, Fraction(161, 4) * INCH)
    line = shopping(plans_of(COVE, QUICK)[2])
    assert (line.used, line.to_buy, line.cost) == (
        Fraction(151, 4) * INCH,
        Fraction(9, 8) * YARD,
        Fraction("9.45"),
    )


def test_an_up_of_its_cloth_does_not_matter() -> None:
    """It lies either way on the cloth, and mirrored, even where it has an outline."""
    text = (
        'format = 1\ntitle = "Pond"\n[fabric.oat]\ndirectional = true\n'
        f'[top]\n{HEXAGON}\n[border]\nwidth = 2\n[filling]\nfabric = "oat"\n'
    )
    kit = build(read(text))
    needs = {need.part: need for need in needs_of(kit, kit.project.fabrics[0])}
    assert needs["backing"].run is Run.LENGTHWISE
    assert (needs[FILLING].run, needs[FILLING].one_way) == (Run.EITHER, False)
    assert needs[FILLING].then == "cut to its outline"
    plan = machine_plans(kit, Fraction(3), QUICK)[0]
    assert sorted(laid.piece.key for laid in plan.laid) == ["BACKING", "FILLING", "TOP"]


def test_cloth_that_shrinks_apart_is_told_by_its_layer() -> None:
    """The filling's cloth and the backing's are compared, not called the top's."""
    shrinks = "shrinkage = { length = 6, width = 6 }\nwashed = 'after'"
    text = (
        f'format = 1\ntitle = "Pond"\n[fabric.oat]\n[fabric.cloud]\n'
        f'[fabric.cloud.stock]\n{shrinks}\nwidth = 60\n[top]\n{PANEL}\nfabric = "oat"\n'
        '[backing]\nfabric = "oat"\n[border]\nwidth = 2\n[filling]\nfabric = "cloud"\n'
    )
    kit = build(read(text))
    notes = cloth_notes(plans_of(kit, QUICK), kit.project.ruler)
    assert notes == (
        "cloud of the filling and oat of the backing come out 6 % apart after the first wash: the "
        "blanket will pucker. Wash both before cutting, or choose cloths that shrink alike.",
    )


def test_what_is_fitted_needs_a_filling_too() -> None:
    """Without batting on hand nothing can be made of what is."""
    hand = '.stock]\non_hand = [{ length = "3 yd" }]\n'
    text = (
        f'format = 1\ntitle = "Pond"\n[fabric.oat{hand}[fabric.cloud]\n'
        '[top]\nlayout = "squares"\npatch = 5\ncolumns = 4\nrows = 5\nfabrics = ["oat"]\n'
        '[backing]\nfabric = "oat"\n[border]\nwidth = 2\n[filling]\nfabric = "cloud"\n'
    )
    with pytest.raises(InputError) as caught:
        options(read(text), lambda _number, _of: True)
    assert "`fabric.cloud.stock.on_hand` is missing" in str(caught.value)


def _output(name: str, wishes: Wishes = PLAIN) -> Output:
    use = name.split("-", 1)[0]
    return next(o for o in outputs(COVE, (use,), wishes) if o.name == name)


def test_it_has_a_file_for_a_machine() -> None:
    """The file holds its outline and nothing else, even where text on cloth is asked for."""
    for wishes in (Wishes(), Wishes(text_on_cloth=True)):
        items = _output("cutter-filling", wishes).document.only_sheet("dxf").items
        assert [item.role for item in items] == [Role.CUT]
        outline = items[0].shape
        assert isinstance(outline, Line)
        assert len(outline.points) == 4


def test_it_is_on_the_cad_sheet() -> None:
    """Its block stands there with its size, its cloth and how far inside the edge it ends."""
    items = _output("cad-pieces").document.only_sheet("dxf").items
    own = [item.shape for item in items if item.key == "filling"]
    blocks = [shape.drawing.name for shape in own if isinstance(shape, Placed)]
    assert blocks == ["FILLING"]
    assert [shape.string for shape in own if isinstance(shape, Text)] == [
        "FILLING",
        "Cotton batting",
        "cut 1",
        "either face up",
        "1/8 in inside the finished edge",
    ]


def test_a_bed_may_cut_it_or_not() -> None:
    """It goes on every bed, or on those that ask for it."""
    every = parts_of(COVE, read_bed(BED), 1)
    asked = parts_of(COVE, read_bed(BED.replace("margin", 'pieces = ["filling"]\nmargin')), 2)
    without = parts_of(COVE, read_bed(BED.replace("margin", 'pieces = ["backing"]\nmargin')), 1)
    assert "FILLING" in [part.piece.key for part in every]
    assert [(part.piece.key, part.count, len(part.turns)) for part in asked] == [("FILLING", 2, 2)]
    assert [part.piece.key for part in without] == ["BACKING"]
