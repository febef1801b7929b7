"""Sheets: what each use gets."""

from __future__ import annotations

from itertools import combinations, pairwise
from pathlib import Path

import pytest
from shapely import STRtree
from shapely.geometry import LineString, Polygon

from cutpaths.cli.write import USES as NAMED_USES
from cutpaths.drawing import Drawing, Item, Placed, expand, flatten, text_paths
from cutpaths.geometry.assembly import Face
from cutpaths.pieces import Kit, build
from cutpaths.project import load
from cutpaths.roles import STYLES, MachineWork, Role
from cutpaths.shapes import Circle, Text
from cutpaths.shapes import Path as Line
from cutpaths.sheets.rows import in_rows
from cutpaths.sheets.sheet import Output, Wishes
from cutpaths.sheets.uses import USES, outputs

FIXTURES = sorted((Path(__file__).parent.parent / "fixtures").glob("*.toml"))
KITS = {path.stem: build(load(path)) for path in FIXTURES}
# Two texts may come this near to one another, in mm, and still be told apart.
TEXT_GAP = 0.5
PLAIN = Wishes()


def _outputs(kit: Kit, use: str, wishes: Wishes = PLAIN) -> tuple[Output, ...]:
    return outputs(kit, (use,), wishes)


def _sheet(kit: Kit, name: str) -> Drawing:
    made = outputs(kit, USES, Wishes())
    return next(o.document.sheets[0] for o in made if o.name == name)


def test_the_command_line_names_every_use() -> None:
    """The names that the command line offers are those of the table."""
    assert sorted(USES) == list(NAMED_USES)


@pytest.mark.parametrize("name", KITS)
def test_machine_sheets_hold_machine_work_only(name: str) -> None:
    """No text, grain, scale square or dimension goes to a machine unless it is asked for."""
    for output in _outputs(KITS[name], "cutter"):
        for item in output.document.sheets[0].items:
            assert STYLES[item.role].work in {MachineWork.CUT, MachineWork.DRAW}
            assert not isinstance(item.shape, Placed | Text)


@pytest.mark.parametrize("name", KITS)
def test_nothing_is_drawn_on_a_right_side(name: str) -> None:
    """A piece that is cut right side up gets no pen: it would show."""
    kit = KITS[name]
    right = {piece.key.lower() for piece in kit.cloth if piece.face is Face.RIGHT}
    for wishes in (Wishes(), Wishes(text_on_cloth=True)):
        for output in _outputs(kit, "cutter", wishes):
            for item in output.document.sheets[0].items:
                if item.key in right and item.role is not Role.LABEL:
                    assert item.role is Role.CUT


@pytest.mark.parametrize("name", KITS)
def test_the_machine_sheet_of_all_has_every_cloth_piece(name: str) -> None:
    """Each piece stands there as often as it is cut, and none overlaps another."""
    kit = KITS[name]
    cut = [i for i in _sheet(kit, "cutter-all").items if i.role is Role.CUT]
    for piece in kit.cloth:
        assert sum(i.key == piece.key.lower() for i in cut) == piece.count
    outlines = [Polygon(i.shape.points) for i in cut if isinstance(i.shape, Line)]
    first, second = STRtree(outlines).query(outlines, predicate="intersects")
    assert (first == second).all()


@pytest.mark.parametrize("name", KITS)
@pytest.mark.parametrize("use", ["cutter", "projector"])
def test_no_line_is_drawn_twice(name: str, use: str) -> None:
    """No two segments of one role overlap in a file for a machine or a projector."""
    for output in _outputs(KITS[name], use):
        by_role: dict[Role, list[LineString]] = {}
        for item in output.document.sheets[0].items:
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
    for output in _outputs(KITS[name], "projector"):
        squares = [
            i.shape
            for i in output.document.sheets[0].items
            if i.role is Role.SCALE and isinstance(i.shape, Line)
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
    return [
        (
            text.string,
            LineString(
                [p for path in text_paths(text) for p in path.points]
            ).minimum_rotated_rectangle.buffer(TEXT_GAP / 2),
        )
        for text in texts
    ]


@pytest.mark.parametrize("name", KITS)
@pytest.mark.parametrize("use", ["cad", "projector"])
def test_no_two_texts_overlap(name: str, use: str) -> None:
    """The ink of no two texts touches, on any sheet to be read."""
    for output in _outputs(KITS[name], use):
        boxes = _text_boxes(output.document.sheets[0])
        assert boxes
        touching = [(a, b) for (a, p), (b, q) in combinations(boxes, 2) if p.intersects(q)]
        assert touching == []


@pytest.mark.parametrize("name", KITS)
def test_everything_lies_on_its_sheet(name: str) -> None:
    """No point of any sheet falls off it."""
    for output in outputs(KITS[name], USES, Wishes(text_on_cloth=True)):
        sheet = output.document.sheets[0]
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
    backing = made["cutter-backing"].document.sheets[0]
    (label,) = [i.shape for i in backing.items if isinstance(i.shape, Text)]
    waste = Polygon(kit.waste[0].outline).buffer(1e-6)
    home = min(p[0] for i in backing.items if i.role is Role.CUT for p in _points(i))
    ink = [(x - home, y - home) for path in text_paths(label) for x, y in path.points]
    assert waste.covers(LineString(ink))


def test_rows_hold_their_boxes() -> None:
    """Boxes go to the right, then up; one that is wider than the row still has its place."""
    places = in_rows([(50, 10), (40, 20), (30, 5), (200, 8)], 100, 5)
    assert [(p.dx, p.dy) for p in places] == [(0, 0), (55, 0), (0, 25), (0, 35)]
