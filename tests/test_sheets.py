"""Sheets: what each use gets."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import combinations, pairwise
from pathlib import Path

import pytest
from shapely import STRtree
from shapely.affinity import rotate
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as Place

from cutpaths.cli.write import USES as NAMED_USES
from cutpaths.drawing import (
    Dimension,
    Drawing,
    Item,
    Placed,
    dimension_parts,
    expand,
    flatten,
    move,
    text_paths,
)
from cutpaths.geometry.assembly import Face
from cutpaths.geometry.marks import letter
from cutpaths.geometry.polygons import carry, signed_area
from cutpaths.pieces import Kit, build
from cutpaths.project import load
from cutpaths.project.model import Construction
from cutpaths.roles import STYLES, MachineWork, Role
from cutpaths.shapes import Circle, Text
from cutpaths.shapes import Path as Line
from cutpaths.sheets.rows import in_rows
from cutpaths.sheets.sheet import Output, Wishes
from cutpaths.sheets.uses import USES, outputs
from cutpaths.values import replace

FIXTURES = sorted((Path(__file__).parent.parent / "fixtures").glob("*.toml"))
KITS = {path.stem: build(load(path)) for path in FIXTURES}
# Two texts may come this near to one another, in mm, and still be told apart.
TEXT_GAP = 0.5
PLAIN = Wishes()
MARKED = ("cad", "cutter", "projector")  # sheets of single pieces with their marks
DRAWN = [use for use in USES if use != "booklet"]  # which is set by its writer


def _outputs(kit: Kit, use: str, wishes: Wishes = PLAIN) -> tuple[Output, ...]:
    return outputs(kit, (use,), wishes)


def _drawings(kit: Kit, uses: Iterable[str], wishes: Wishes = PLAIN) -> Iterator[Drawing]:
    """All drawings that some uses have; the page of the projector is none."""
    for output in outputs(kit, uses, wishes):
        yield from output.document.sheets


def _sheet(kit: Kit, name: str) -> Drawing:
    made = outputs(kit, MARKED, Wishes())
    return next(o.document.only_sheet("svg") for o in made if o.name == name)


def test_the_command_line_names_every_use() -> None:
    """The names that the command line offers are those of the table."""
    assert sorted(USES) == list(NAMED_USES)


@pytest.mark.parametrize("name", KITS)
def test_machine_sheets_hold_machine_work_only(name: str) -> None:
    """No grain, scale square, dimension or text on cloth goes to a machine unless asked for."""
    cards = {template.piece.key.lower() for template in KITS[name].templates}
    for sheet in _drawings(KITS[name], ["cutter"]):
        for item in sheet.items:
            if item.key in cards and item.role is Role.LABEL:
                continue
            assert item.role is not Role.GRAIN
            assert STYLES[item.role].work in {MachineWork.CUT, MachineWork.DRAW}
            assert not isinstance(item.shape, Placed | Text)


@pytest.mark.parametrize("name", KITS)
def test_nothing_is_drawn_on_a_right_side(name: str) -> None:
    """A piece that is cut right side up gets no pen: it would show."""
    kit = KITS[name]
    right = {piece.key.lower() for piece in kit.cloth if piece.face is Face.RIGHT}
    for wishes in (Wishes(), Wishes(text_on_cloth=True)):
        for sheet in _drawings(kit, ["cutter"], wishes):
            for item in sheet.items:
                if item.key in right and item.role is not Role.LABEL:
                    assert item.role is Role.CUT


@pytest.mark.parametrize("name", KITS)
def test_the_machine_sheets_of_all_have_every_cloth_piece(name: str) -> None:
    """Each fabric has a sheet with its pieces as often as they are cut, none over another."""
    kit = KITS[name]
    cut = {piece.fabric for piece in kit.cloth}
    fabrics = [fabric for fabric in kit.project.fabrics if fabric.name in cut]
    made = [o for o in _outputs(kit, "cutter") if o.name.startswith("cutter-all")]
    assert [o.name for o in made] == [f"cutter-all-{n}" for n in range(1, len(fabrics) + 1)]
    for fabric, output in zip(fabrics, made, strict=True):
        sheet = output.document.only_sheet("svg")
        assert sheet.about.piece == f"all pieces of {fabric.label} for one blanket"
        outlines = [i for i in sheet.items if i.role is Role.CUT]
        wanted = Counter({p.key.lower(): p.count for p in kit.cloth if p.fabric == fabric.name})
        assert Counter(i.key for i in outlines) == wanted
        _assert_apart(outlines)


def _assert_apart(cut: list[Item]) -> None:
    outlines = [Polygon(i.shape.points) for i in cut if isinstance(i.shape, Line)]
    first, second = STRtree(outlines).query(outlines, predicate="intersects")
    assert (first == second).all()


@pytest.mark.parametrize("name", KITS)
@pytest.mark.parametrize("use", ["cutter", "projector"])
def test_no_line_is_drawn_twice(name: str, use: str) -> None:
    """No two segments of one role overlap in a file for a machine or a projector."""
    for sheet in _drawings(KITS[name], [use]):
        by_role: dict[Role, list[LineString]] = {}
        for item in sheet.items:
            if isinstance(item.shape, Line):
                points = item.shape.points
                ring = points + points[:1] if item.shape.closed else points
                by_role.setdefault(item.role, []).extend(map(LineString, pairwise(ring)))
        for segments in by_role.values():
            first, second = STRtree(segments).query(segments, predicate="intersects")
            for i, j in zip(first, second, strict=True):
                if i < j:
                    assert segments[i].intersection(segments[j]).length < 1e-6


def test_the_mirrored_twin_is_the_mirror_image() -> None:
    """Every point of the twin is that of the sheet with x turned about; texts still read."""
    kit = KITS["doorway"]
    plain, twin = _sheet(kit, "projector-backing"), _sheet(kit, "projector-backing-mirrored")

    def rings(sheet: Drawing) -> list[tuple[tuple[float, float], ...]]:
        return [
            i.shape.points
            for i in sheet.items
            if i.role is Role.STITCH and isinstance(i.shape, Line)
        ]

    left = [min(x for x, _ in ring) for ring in rings(plain)]
    assert len(left) > 8
    shift = rings(plain)[0][0][0] + rings(twin)[0][0][0]
    for ring, mirror in zip(rings(plain), rings(twin), strict=True):
        for (x, y), (u, v) in zip(ring, mirror, strict=True):
            assert u == pytest.approx(shift - x, abs=2e-6)
            assert v == pytest.approx(y, abs=2e-6)
    letters = [i.shape for i in twin.items if isinstance(i.shape, Text)]
    assert {text.angle for text in letters} == {0.0}


@pytest.mark.parametrize("name", KITS)
def test_projector_sheets_have_the_scale_square(name: str) -> None:
    """A square of 100 mm and inside it one of 76.2 mm, on every projector sheet."""
    for sheet in _drawings(KITS[name], ["projector"]):
        squares = [
            i.shape for i in sheet.items if i.role is Role.SCALE and isinstance(i.shape, Line)
        ]
        sides = [round(s.points[1][0] - s.points[0][0], 6) for s in squares]
        assert sides == [100.0, 76.2]


@pytest.mark.parametrize("name", KITS)
def test_cad_sheets_have_each_piece_as_a_block(name: str) -> None:
    """Every distinct piece is placed once, under its own name, at true scale."""
    kit = KITS[name]
    placed = [i.shape for i in _sheet(kit, "cad-pieces").items if isinstance(i.shape, Placed)]
    names = [shape.drawing.name for shape in placed]
    wanted = {"BACKING", "TOP", *(p.key for p in kit.cloth), *(t.piece.key for t in kit.templates)}
    assert sorted(names) == sorted(wanted)
    backing = next(shape.drawing for shape in placed if shape.drawing.name == "BACKING")
    assert backing.size == pytest.approx(kit.backing.size, abs=1e-6)


def _text_boxes(sheet: Drawing) -> list[tuple[str, Polygon]]:
    """The oriented box of the ink of every text of a sheet, dimensions' texts too."""
    flat = (part for item in sheet.items for part in flatten(item))
    texts = [item.shape for item in flat if isinstance(item.shape, Text)]
    return [(text.string, _box_along(text)) for text in texts]


def _box_along(text: Text) -> Polygon:
    """The box of a text's ink along its line, so that its own line is beside it."""
    ink = LineString([p for path in text_paths(text) for p in path.points])
    level = rotate(ink, -text.angle, origin=(0.0, 0.0)).envelope
    return rotate(level, text.angle, origin=(0.0, 0.0)).buffer(TEXT_GAP / 2)


@pytest.mark.parametrize("name", KITS)
@pytest.mark.parametrize("use", ["cad", "projector"])
def test_no_two_texts_overlap(name: str, use: str) -> None:
    """The ink of no two texts touches, on any sheet to be read."""
    for sheet in _drawings(KITS[name], [use]):
        boxes = _text_boxes(sheet)
        assert boxes
        touching = [(a, b) for (a, p), (b, q) in combinations(boxes, 2) if p.intersects(q)]
        assert touching == []


def _lines(item: Item) -> Iterator[LineString]:
    """Every line of an item that no text may lie under: not the extension lines of dimensions."""
    match item.shape:
        case Placed(drawing, motion):
            for inner in drawing.items:
                yield from _lines(move(motion, inner))
        case Dimension() as dimension:
            for part in dimension_parts(dimension)[2:]:
                if isinstance(part, Line):
                    yield LineString(part.points)
        case Line(points, closed):
            yield LineString(points + points[:1] if closed else points)
        case Circle((x, y), radius):
            yield LineString(Place(x, y).buffer(radius).exterior.coords)
        case _:
            assert isinstance(item.shape, Text)


@pytest.mark.parametrize("name", KITS)
def test_no_line_runs_through_a_text_of_the_cad_sheet(name: str) -> None:
    """No outline, mark or dimension line touches a text; extension lines of dimensions may."""
    (sheet,) = _drawings(KITS[name], ["cad"])
    lines = [line for item in sheet.items for line in _lines(item)]
    boxes = _text_boxes(sheet)
    crossed, _ = STRtree(lines).query([box for _, box in boxes], predicate="intersects")
    assert [boxes[i][0] for i in crossed] == []


def _labels(kit: Kit, key: str) -> list[str]:
    """The texts of a piece on the CAD sheet, without its dimensions."""
    items = _sheet(kit, "cad-pieces").items
    return [i.shape.string for i in items if i.key == key and isinstance(i.shape, Text)]


@pytest.mark.parametrize("name", KITS)
def test_cad_sheets_name_the_sides(name: str) -> None:
    """Backing and top have each side's letter with its turn in sewing; the top says it is mirrored.

    The letters follow the sides: on the backing counter-clockwise, on the mirrored top clockwise.
    """
    kit = KITS[name]
    turns = {letter(side): n for n, side in enumerate(kit.order, 1)}
    wanted = [f"{side} {turn}" for side, turn in sorted(turns.items())]
    texts = [i for i in _sheet(kit, "cad-pieces").items if isinstance(i.shape, Text)]
    for key, sign in (("backing", 1), ("top", -1)):
        found = {
            i.shape.string: i.shape.at
            for i in texts
            if i.key == key and isinstance(i.shape, Text) and i.shape.string in wanted
        }
        assert sorted(found) == wanted
        assert sign * signed_area(tuple(found[text] for text in wanted)) > 0
    assert "wrong side up, mirrored" in _labels(kit, "top")


def _with_borders(*widths: int) -> Kit:
    project = load(FIXTURES[0].parent / "tidepool.toml")
    borders = tuple(Fraction(127, 5) * width for width in widths)
    return build(replace(project, borders=borders))


def test_a_card_says_which_way_it_lies() -> None:
    """With borders in two widths the card is turned over at every second corner, and says so."""
    kit = _with_borders(3, 2, 3, 2)
    (template,) = kit.templates
    assert template.corners == ("DA", "AB", "BC", "CD")
    assert template.turned_over == ("AB", "CD")
    assert _labels(kit, "corner-template") == [
        "CORNER-TEMPLATE",
        "cut 1",
        "this face up for corners DA, BC",
        "turned over: AB, CD",
        "B, D end",
        "A, C end",
    ]
    asked = outputs(kit, ["cutter"], Wishes(text_on_cloth=True))
    card = next(o for o in asked if o.name == "cutter-corner-template").document.only_sheet("svg")
    drawn = {i.shape.string for i in card.items if isinstance(i.shape, Text)}
    assert {"B, D end", "A, C end"} <= drawn
    assert card.about.face == "the one drawn for DA, BC; the other for AB, CD"


def test_a_card_for_equal_borders_needs_no_turning() -> None:
    """Where the borders are equal either face will do."""
    (template,) = KITS["tidepool"].templates
    assert (template.turned_over, template.raw_edges) == ((), ())
    assert _labels(KITS["tidepool"], "corner-template")[2:] == [
        "either face up",
        "corners DA, AB, BC, CD",
    ]


@pytest.mark.parametrize(
    "kit",
    [_with_borders(3, 2, 3, 2), _with_borders(2, 2, 3, 3), KITS["doorway"], KITS["beehive"]],
    ids=["pairs", "neighbours", "doorway", "beehive"],
)
def test_cards_fit_their_corners_as_they_are_said_to_lie(kit: Kit) -> None:
    """Laid as it says, a card has its holes on the dots and its named edges on those raw edges."""
    corners = {corner.at: corner for corner in kit.blanket.corners}
    ring = [corner.backing_point for corner in kit.blanket.corners]
    raw = {
        letter(i): LineString(side)
        for i, side in enumerate(zip(ring, ring[1:] + ring[:1], strict=True))
    }
    for template in kit.templates:
        first, second = (h.center for h in template.piece.holes if isinstance(h, Circle))
        for at in template.corners:
            over = at in template.turned_over
            dots = corners[at].miter
            holes = (second, first) if over else (first, second)
            laid = carry(holes, dots, mirrored=over)
            for hole, dot in zip(holes, dots, strict=True):
                assert laid.point(hole) == pytest.approx(dot, abs=1e-6)
            for edge in template.raw_edges:
                (side,) = set(edge.sides) & set(at)
                for end in (edge.start, edge.end):
                    assert raw[side].distance(Place(laid.point(end))) < 1e-6


def test_grain_lines_wait_to_be_asked_for() -> None:
    """Asked for, a machine draws the grain line of what lies wrong side up, else none."""
    kit = KITS["tidepool"]
    for wishes, count in ((PLAIN, 0), (Wishes(text_on_cloth=True), 2)):
        made = {o.name: o.document for o in _outputs(kit, "cutter", wishes)}
        backing = made["cutter-backing"].only_sheet("svg")
        assert sum(i.role is Role.GRAIN for i in backing.items) == count


def test_labels_of_pairs_say_what_is_done() -> None:
    """Squares for pairs of triangles say that they are sewn before they are cut, and trimmed."""
    assert "sew, cut apart, trim to 4 1/2 in" in _labels(KITS["lighthouse"], "pair-1")
    assert "sew, cut apart, trim to 4 1/2 in" in _labels(KITS["lighthouse"], "pair-1-under")


def test_folded_over_pieces_have_no_seam_allowance() -> None:
    """Folded over, only patches are sewn with an allowance; turned, backing and top are too."""
    project = load(FIXTURES[0].parent / "tidepool.toml")
    fold = Construction.FOLDED_OVER
    folded = build(replace(project, construction=fold, opening=None))
    said = "seam allowance "
    for key, kit, found in (
        ("backing", folded, False),
        ("top", folded, False),
        ("patch-1", folded, True),
        ("backing", KITS["tidepool"], True),
        ("top", KITS["tidepool"], True),
    ):
        assert any(text.startswith(said) for text in _labels(kit, key)) is found


@pytest.mark.parametrize("name", KITS)
def test_everything_lies_on_its_sheet(name: str) -> None:
    """No point of any sheet falls off it."""
    wishes = Wishes(text_on_cloth=True, beside=FIXTURES[0].parent)
    for sheet in _drawings(KITS[name], DRAWN, wishes):
        for x, y in (p for item in sheet.items for part in expand(item) for p in _points(part)):
            assert 0.0 <= x <= sheet.size[0]
            assert 0.0 <= y <= sheet.size[1]


def _points(item: Item) -> tuple[tuple[float, float], ...]:
    match item.shape:
        case Line(points):
            return points
        case Circle((x, y), r):
            return (x - r, y - r), (x + r, y + r)
        case shape:
            raise AssertionError(shape)


def test_text_on_cloth_keeps_to_waste_and_allowance() -> None:
    """Asked for, a label lies in the corner that is cut away, or in the seam allowance."""
    kit = KITS["tidepool"]
    made = {o.name: o for o in _outputs(kit, "cutter", Wishes(text_on_cloth=True))}
    backing = made["cutter-backing"].document.only_sheet("svg")
    (label,) = [i.shape for i in backing.items if isinstance(i.shape, Text)]
    waste = Polygon(kit.waste[0].outline).buffer(1e-6)
    home = min(p[0] for i in backing.items if i.role is Role.CUT for p in _points(i))
    ink = [(x - home, y - home) for path in text_paths(label) for x, y in path.points]
    assert waste.covers(LineString(ink))


def test_rows_hold_their_boxes() -> None:
    """Boxes go to the right, then up; one that is wider than the row still has its place."""
    places = in_rows([(50, 10), (40, 20), (30, 5), (200, 8)], 100, 5)
    assert [(p.dx, p.dy) for p in places] == [(0, 0), (55, 0), (0, 25), (0, 35)]
