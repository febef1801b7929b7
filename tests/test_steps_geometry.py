"""Step pictures are true: dots meet, waste has its area, lengths and angles are the figures'."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from shapely import union_all
from shapely.geometry import Polygon
from test_steps import FOLDED, TURNED, keys, kit_of, step

from cutpaths.drawing import Drawing
from cutpaths.figures import figures_of
from cutpaths.geometry.polygons import distance, middle, signed_area
from cutpaths.paint import Colour
from cutpaths.pieces import Kit
from cutpaths.project.model import Construction
from cutpaths.roles import Role
from cutpaths.shapes import Path as Line
from cutpaths.shapes import Point, Text
from cutpaths.sheets.seen import edge
from cutpaths.sheets.steps.corner_fold import Folding
from cutpaths.sheets.steps.cutting import folded, part_inside, parts_outside, side_of
from cutpaths.sheets.steps.exploded import parts, patches_of
from cutpaths.sheets.steps.folded_states import corners_folded, sides_folded
from cutpaths.sheets.steps.folding import Layer, fold
from cutpaths.sheets.steps.ink import DOT
from cutpaths.sheets.steps.making import Making
from cutpaths.sheets.steps.section import bulge, half_angle, lengths, opposite
from cutpaths.sheets.steps.shades import shades_of
from cutpaths.sheets.steps.tints import TINTS, Cloth

# Drawn coordinates are rounded to 1e-6 mm, and scales are some 1 to 10.
DRAWN_MM, DRAWN_PART = 1e-5, 1e-5
INCH = 25.4
CROOKED_MM = 1e-6
TRIMMED_LATER = tuple(name for name in TURNED if "trim-corner" in keys(name))


def value(kit: Kit, key: str) -> float:
    """A figure's number, in mm or degrees."""
    found = {f.key: f.value for group in figures_of(kit).groups for f in group.figures}[key]
    assert found is not None
    return float(found)


def painted(drawing: Drawing, colour: Colour) -> list[Polygon]:
    """The shapes of one colour, those of the key left out."""
    return [
        Polygon(item.shape.points)
        for item in drawing.items
        if item.paint is not None
        and item.paint.colour == colour
        and isinstance(item.shape, Line)
        and not item.key.startswith("key")
    ]


def dots(drawing: Drawing) -> list[Point]:
    """Middles of the dots of a picture, in their order."""
    found = [polygon.centroid for polygon in painted(drawing, DOT.colour)]
    return [(point.x, point.y) for point in found]


def lines(drawing: Drawing, role: Role) -> list[tuple[Point, Point]]:
    """Lines of a role, those of the key left out."""
    return [
        (item.shape.points[0], item.shape.points[1])
        for item in drawing.items
        if item.role is role and item.paint is None and isinstance(item.shape, Line)
        if item.key != "key"
    ]


def miters_of(drawing: Drawing) -> list[tuple[Point, Point]]:
    """Marked miter lines, each midway between its two lines."""
    found = lines(drawing, Role.MATCH)
    pairs = zip(found[::2], found[1::2], strict=True)
    return [(middle(p, r), middle(q, s)) for (p, q), (r, s) in pairs]


def near(p: Point, q: Point) -> bool:
    """Whether two places of a sheet are one."""
    return distance(p, q) < 1e-3


@pytest.mark.parametrize("name", TURNED)
def test_the_dots_of_a_folded_corner_meet(name: str) -> None:
    """Folded on its crease, one dot of each corner lies on the other, whatever the borders."""
    kit = kit_of(name)
    making = Making(kit)
    for i, corner in enumerate(kit.blanket.corners):
        first, second = Folding(making, corner, 1, i).dots
        assert distance(first, second) < 1e-9


@pytest.mark.parametrize("name", TURNED)
def test_the_picture_of_the_fold_shows_one_dot_where_there_were_two(name: str) -> None:
    """Before: two dots, as far apart as the backing's, at the scale of their miter lines."""
    kit = kit_of(name)
    drawing = step(name, "fold-corner").drawing
    first, second, folded_dot = dots(drawing)
    corner = kit.blanket.corners[0]
    miters = [line for line in miters_of(drawing) if near(line[0], first)]
    scale = max(distance(*line) for line in miters) / value(kit, "corner.1.dot-to-fold")
    true = distance(*corner.miter)
    assert distance(first, second) == pytest.approx(true * scale, abs=1e-3)
    assert not near(folded_dot, first)


@pytest.mark.parametrize("name", TURNED)
def test_the_miter_line_is_drawn_at_its_angle_from_dot_to_fold(name: str) -> None:
    """The line that is drawn joins dot and fold; an edge of the cloth meets it at its figure."""
    kit = kit_of(name)
    drawing = step(name, "draw-miter").drawing
    ((start, end),) = miters_of(drawing)
    assert [near(start, p) or near(end, p) for p in dots(drawing)] == [True, True]
    way = math.atan2(start[1] - end[1], start[0] - end[0])
    angles = []
    for colour in (TINTS[Cloth.BACKING_WRONG].paint.colour,):
        for shape in painted(drawing, colour):
            ring = [(x, y) for x, y in shape.exterior.coords]
            for p, q in pairwise(ring):
                if near(end, p) or not Polygon([p, q, end]).area < 1e-3:
                    continue
                for far in (p, q):
                    turn = math.atan2(far[1] - end[1], far[0] - end[0]) - way
                    angles.append(abs(math.degrees(math.remainder(turn, math.tau))))
    wanted = value(kit, "corner.1.miter")
    assert min(abs(angle - wanted) for angle in angles) < 0.01


@pytest.mark.parametrize("name", TRIMMED_LATER)
def test_the_waste_is_drawn_with_its_area_and_its_corners(name: str) -> None:
    """Opened it is the piece of waste at the picture's scale; cut off it is that in halves."""
    kit = kit_of(name)
    drawing = step(name, "trim-corner").drawing
    (stitched,) = (
        line
        for line in lines(drawing, Role.STITCH)
        if any(near(line[0], p) for p in dots(drawing))
        and not any(near(line[1], p) for p in dots(drawing))
        and _ends_at_cut(drawing, line)
    )
    scale = distance(*stitched) / value(kit, "corner.1.dot-to-fold")
    waste = kit.waste[0]
    wanted = signed_area(waste.outline) * scale**2
    shapes = painted(drawing, TINTS[Cloth.BACKING_WRONG].paint.colour)
    areas = [shape.area for shape in shapes]
    opened = [s for s in shapes if s.area == pytest.approx(wanted, rel=DRAWN_PART)]
    assert len(opened) == 1
    assert len(opened[0].exterior.coords) - 1 == len(waste.outline)
    under = painted(drawing, TINTS[Cloth.BACKING_RIGHT].paint.colour)
    halves = [a + b.area for a in areas for b in under]
    folded_in_half = any(2 * a == pytest.approx(wanted, rel=DRAWN_PART) for a in areas)
    assert folded_in_half or any(h == pytest.approx(wanted, rel=DRAWN_PART) for h in halves)


def _ends_at_cut(drawing: Drawing, line: tuple[Point, Point]) -> bool:
    """Whether a seam runs along the cut, not along a side."""
    ((start, end),) = lines(drawing, Role.TRIM)
    cross = (end[0] - start[0]) * (line[1][1] - line[0][1]) - (end[1] - start[1]) * (
        line[1][0] - line[0][0]
    )
    return abs(cross) < 1e-3 * distance(start, end) * distance(*line)


def test_the_waste_of_the_example_is_a_triangle_of_its_figure() -> None:
    """13.24 sq in, a triangle; own arithmetic: legs of 5.5 - sqrt(2)/4 in, halved product."""
    kit = kit_of("tidepool")
    leg = 5.5 - math.sqrt(2) / 4
    assert value(kit, "corner.1.waste") / INCH**2 == pytest.approx(leg**2 / 2, rel=1e-9)
    texts = [
        i.shape.string
        for i in step("tidepool", "trim-corner").drawing.items
        if isinstance(i.shape, Text)
    ]
    assert "waste, opened: a triangle" in texts


@pytest.mark.parametrize("name", [*TURNED, *FOLDED])
def test_the_finished_blanket_is_drawn_in_its_proportions(name: str) -> None:
    """What is painted of it is as wide for its height as the figures say."""
    kit = kit_of(name)
    drawing = step(name, "finished").drawing
    colours = [
        TINTS[Cloth.BACKING_RIGHT].paint.colour,
        *(paint.colour for paint in shades_of(kit).values()),
    ]
    shapes = [shape for colour in colours for shape in painted(drawing, colour)]
    lefts, lows, rights, highs = zip(*(shape.bounds for shape in shapes), strict=True)
    wide, high = max(rights) - min(lefts), max(highs) - min(lows)
    true = value(kit, "finished.width") / value(kit, "finished.height")
    # What the cloth's thickness eats at the fold is in the figures' paper, not in the picture.
    ring = edge(kit)
    seen = (max(x for x, _ in ring) - min(x for x, _ in ring)) / (
        max(y for _, y in ring) - min(y for _, y in ring)
    )
    assert wide / high == pytest.approx(seen, rel=1e-6)
    assert seen == pytest.approx(true, rel=1e-6)


@pytest.mark.parametrize("name", TURNED)
def test_a_pinned_side_has_its_dots_at_true_distance(name: str) -> None:
    """The dots of the sewn side stand as far apart as the figures say, for the backing drawn."""
    kit = kit_of(name)
    making = Making(kit)
    side = kit.order[0]
    first, last, *_ = dots(step(name, "sew-side").drawing)
    turned = [making.sewing(side).point(p) for p in kit.blanket.backing]
    wide = max(x for x, _ in turned) - min(x for x, _ in turned)
    colour = TINTS[Cloth.BACKING_RIGHT].paint.colour
    whole = max(
        painted(step(name, "sew-side").drawing, colour), key=lambda shape: shape.area
    ).bounds
    scale = (whole[2] - whole[0]) / wide
    (here, far) = making.corners_of(side)
    assert distance(first, last) == pytest.approx(
        distance(here.miter[1], far.miter[0]) * scale, abs=1e-3
    )


@pytest.mark.parametrize("name", TURNED)
def test_a_cut_through_the_work_is_as_long_as_its_cloth(name: str) -> None:
    """Where a side lies opposite the backing is longer than the top by both borders and a turn."""
    kit = kit_of(name)
    making = Making(kit)
    side = kit.order[0]
    found = lengths(making, side)
    if opposite(making, side) is None or name == "ferry":
        assert found.backing > found.top
        return
    more = sum(2 * border for border in found.borders) + 2 * float(kit.project.turn_of_cloth)
    assert found.backing - found.top == pytest.approx(more, abs=CROOKED_MM)


@pytest.mark.parametrize("part", [1.0, 0.9, 0.5, 0.2])
def test_the_bulge_is_as_long_as_the_backing(part: float) -> None:
    """An arc over a chord of 40 mm is 40 / part long, and ends where the chord does."""
    line = bulge((10.0, 5.0), 40.0, part)
    assert sum(distance(p, q) for p, q in pairwise(line)) == pytest.approx(40.0 / part, rel=2e-3)
    assert line[0] == pytest.approx((10.0, 5.0))
    assert line[-1] == pytest.approx((50.0, 5.0))
    assert min(y for _, y in line) <= 5.0


def test_half_the_angle_of_a_half_circle() -> None:
    """A chord of 2 / pi of its arc is a diameter (Euclid): half the angle is a right angle."""
    assert half_angle(2 / math.pi) == pytest.approx(math.pi / 2)


def test_folding_over_hides_the_raw_edges_and_covers_the_border() -> None:
    """All sides folded twice, what is up is the top inside the border and the backing on it."""
    kit = kit_of("folded-four")
    assert kit.project.construction is Construction.FOLDED_OVER
    making = Making(kit)
    layers = sides_folded(making, corners_folded(making), kit.order, 2)
    assert layers[0].cloth is Cloth.BACKING_WRONG
    top = Polygon(kit.blanket.top)
    for layer in layers:
        assert Polygon(layer.ring).difference(top.buffer(1e-6)).area < 1e-6
    up = [Polygon(layer.ring) for layer in layers if layer.cloth is Cloth.BACKING_RIGHT]
    seen = union_all(up)
    a, b, c, d = (float(border) for border in kit.project.borders)
    left, foot, right, head = top.bounds
    bare = (right - left - b - d) * (head - foot - a - c)
    assert seen.area == pytest.approx(top.area - bare, rel=1e-9)


def test_a_fold_turns_over_what_lies_beyond_it() -> None:
    """A strip folded in half lies on itself, its other face up and its layers reversed."""
    strip = Layer(((0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (0.0, 1.0)), Cloth.TOP_RIGHT)
    under = Layer(strip.ring, Cloth.BACKING_WRONG)
    found = fold([under, strip], ((2.0, 0.0), (2.0, 1.0)), (1.0, 0.5))
    assert [layer.cloth for layer in found] == [
        Cloth.BACKING_WRONG,
        Cloth.TOP_RIGHT,
        Cloth.TOP_WRONG,
        Cloth.BACKING_RIGHT,
    ]
    for layer in found:
        assert signed_area(layer.ring) == pytest.approx(2.0)
        assert min(x for x, _ in layer.ring) == pytest.approx(0.0)
        assert max(x for x, _ in layer.ring) == pytest.approx(2.0)


def test_folding_twice_changes_nothing() -> None:
    """A ring folded over a line and back again is the same ring."""
    ring = ((0.0, 0.0), (3.0, 0.5), (2.0, 2.0))
    line = ((1.0, -1.0), (2.0, 5.0))
    back = folded(folded(ring, line), line)
    assert sorted(back) == [pytest.approx(p) for p in sorted(ring)]
    assert signed_area(folded(ring, line)) == pytest.approx(signed_area(ring))


def test_a_ring_is_cut_along_a_line() -> None:
    """Of a square the side where a point lies is kept, with its share of the area."""
    square = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))
    kept = side_of(square, ((1.0, 0.0), (1.0, 4.0)), (0.0, 2.0))
    assert signed_area(kept) == pytest.approx(4.0)


def test_hidden_parts_of_lines_are_left_out() -> None:
    """A line under a square comes back as the two parts beside it."""
    square = ((1.0, -1.0), (2.0, -1.0), (2.0, 1.0), (1.0, 1.0))
    found = parts_outside((0.0, 0.0), (3.0, 0.0), [square])
    assert found == (((0.0, 0.0), (1.0, 0.0)), ((2.0, 0.0), (3.0, 0.0)))


@pytest.mark.parametrize(("name", "sewn"), [("tidepool", 7), ("kiln", 14), ("trellis", 8 + 4)])
def test_rows_hang_together_once_their_seams_are_sewn(name: str, sewn: int) -> None:
    """Before the first seam every patch lies alone, then there are rows, then one top."""
    kit = kit_of(name)
    patches, seams = patches_of(kit), kit.patchwork.all_seams()
    stages = list(dict.fromkeys(seam.stage for seam in seams))
    assert len(parts(patches, [])) == len(patches)
    rows = parts(patches, [seam for seam in seams if seam.stage is stages[0]])
    assert len(rows) == sewn
    assert len(parts(patches, seams)) == 1


def test_a_raw_edge_on_the_rim_of_a_picture_is_drawn() -> None:
    """A line along an edge of a window is inside it, though rounding puts it a hair outside."""
    window = ((0.3, 0.0), (10.0, 0.0), (10.0, 10.0), (0.3, 10.0))
    hair = 0.1 + 0.2 - 1e-13
    part = part_inside((hair, 12.0), (hair, 1.0), window)
    assert part is not None
    assert part[0] == pytest.approx((hair, 10.0))
    assert part[1] == pytest.approx((hair, 1.0))
    assert part_inside((0.29, 12.0), (0.29, 1.0), window) is None
