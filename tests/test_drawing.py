"""Drawings: rounded once, grouped, moved, flattened."""

from __future__ import annotations

import math

import pytest
from sample_drawings import PLACES, about, patch

from cutpaths.drawing import (
    Dimension,
    Document,
    Drawing,
    Item,
    Pen,
    Placed,
    by_role,
    dimension_parts,
    expand,
    flatten,
    move,
    text_paths,
)
from cutpaths.errors import DrawingError
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Circle, Motion, Path, Text, shift
from cutpaths.strokes import text_width


def _drawing(*items: Item, size: tuple[float, float] = (100.0, 50.0)) -> Drawing:
    return Drawing(name="sheet", size=size, about=about(), items=items)


def test_coordinates_are_rounded_once() -> None:
    """A drawing rounds each coordinate to 1e-6 mm and has no negative nought."""
    path = Path(((1 / 3, -1e-9), (2 / 3, 1.0)))
    drawing = _drawing(
        Item(Role.CUT, "top", path),
        Item(Role.DOT, "top", Circle((1 / 3, 2.0), 1 / 7)),
        Item(Role.LABEL, "top", Text(string="A", at=(1 / 3, -0.0), height=3.0)),
        Item(
            Role.DIMENSION,
            "top",
            Dimension(start=(1 / 3, 0.0), end=(5.0, 1 / 3), offset=5.0, text="x"),
        ),
        size=(100 / 3, 50.0),
    )
    line, circle, text, dimension = (item.shape for item in drawing.items)
    assert line == Path(((0.333333, 0.0), (0.666667, 1.0)))
    assert isinstance(line, Path)
    assert math.copysign(1.0, line.points[0][1]) == 1.0
    assert circle == Circle((0.333333, 2.0), 0.142857)
    assert isinstance(text, Text)
    assert text.at == (0.333333, 0.0)
    assert isinstance(dimension, Dimension)
    assert (dimension.start, dimension.end) == ((0.333333, 0.0), (5.0, 0.333333))
    assert drawing.size == (33.333333, 50.0)


def test_items_are_grouped_in_drawing_order() -> None:
    """Roles come in drawing order, outlines last; keys in order of first use; items as given."""
    line = Path(((0.0, 0.0), (1.0, 0.0)))
    given = [
        Item(Role.CUT, "top", line),
        Item(Role.STITCH, "top", line),
        Item(Role.CUT, "backing", line),
        Item(Role.LABEL, "top", line),
        Item(Role.CUT, "top", Circle((0.0, 0.0), 1.0)),
    ]
    groups = [(role, {k: len(v) for k, v in keys.items()}) for role, keys in by_role(given)]
    assert groups == [
        (Role.LABEL, {"top": 1}),
        (Role.STITCH, {"top": 1}),
        (Role.CUT, {"top": 2, "backing": 1}),
    ]


def test_one_sheet_is_asked_for_by_name() -> None:
    """A format of one sheet gets it, or a line that says how many there are."""
    sheet = _drawing()
    assert Document("kit", (sheet,)).only_sheet("SVG") is sheet
    with pytest.raises(DrawingError) as caught:
        Document("kit", (sheet, sheet)).only_sheet("SVG")
    assert str(caught.value) == "SVG holds one sheet, kit has 2"


def test_flattening_moves_what_is_placed() -> None:
    """A placed drawing becomes its own items, moved, under their own roles and keys."""
    placed = Item(Role.CUT, "sheet", Placed(patch(), shift(10.0, 20.0)))
    flat = flatten(placed)
    assert [item.role for item in flat] == [Role.CUT, Role.DOT, Role.LABEL, *[Role.DIMENSION] * 6]
    assert {item.key for item in flat} == {"patch-1"}
    first = flat[0].shape
    assert isinstance(first, Path)
    assert first.points[:2] == ((10.0, 20.0), (124.3, 20.0))
    assert flat[1].shape == Circle((16.35, 26.35), 1.5)


def test_expanding_leaves_paths_and_circles() -> None:
    """Expanded, a text is its strokes; what is left is what a pen can draw."""
    placed = Item(Role.CUT, "sheet", Placed(patch(), PLACES[3]))
    shapes = [item.shape for item in expand(placed)]
    assert {type(shape) for shape in shapes} == {Path, Circle}
    texts = [item.shape for item in flatten(placed) if isinstance(item.shape, Text)]
    strokes = sum(len(text_paths(text)) for text in texts)
    assert len(shapes) == len(flatten(placed)) - len(texts) + strokes


def test_moving_a_placed_drawing_follows_its_motion() -> None:
    """Moving what is placed and then flattening is flattening and then moving."""
    inner, outer = PLACES[4], PLACES[3]
    item = Item(Role.CUT, "sheet", Placed(patch(), inner))
    one = [i.shape for i in expand(move(outer, item))]
    other = [move(outer, i).shape for i in expand(item)]
    paths = [(a, b) for a, b in zip(one, other, strict=True) if isinstance(a, Path)]
    outline, moved = paths[0]
    assert isinstance(moved, Path)
    gaps = [math.dist(p, q) for p, q in zip(outline.points, moved.points, strict=True)]
    assert max(gaps) < 1e-9


@pytest.mark.parametrize("mirrored", [False, True])
def test_a_moved_dimension_stays_on_its_side(mirrored: bool) -> None:
    """The dimension line of a moved dimension is the moved dimension line, mirrored too."""
    dimension = Dimension(start=(0.0, 0.0), end=(40.0, 0.0), offset=12.0, text="40 mm")
    motion = Motion.quarters(1, 5.0, 6.0, mirrored=mirrored)
    moved = move(motion, Item(Role.DIMENSION, "top", dimension)).shape
    assert isinstance(moved, Dimension)
    line = dimension_parts(moved)[2]
    assert line == motion.line(Path(((0.0, 12.0), (40.0, 12.0))))


def test_a_dimension_is_drawn_by_six_parts() -> None:
    """Two extension lines from a gap to past the line, the line, two end strokes, the text."""
    dimension = Dimension(start=(10.0, 5.0), end=(50.0, 5.0), offset=12.0, text="40 mm")
    *lines, text = dimension_parts(dimension)
    assert lines == [
        Path(((10.0, 7.0), (10.0, 19.0))),
        Path(((50.0, 7.0), (50.0, 19.0))),
        Path(((10.0, 17.0), (50.0, 17.0))),
        Path(((8.25, 15.25), (11.75, 18.75))),
        Path(((48.25, 15.25), (51.75, 18.75))),
    ]
    assert text == Text(
        string="40 mm", at=(30.0, 19.5), height=5.0, angle=0.0, anchor=Anchor.MIDDLE
    )


@pytest.mark.parametrize("turn", range(0, 360, 30))
@pytest.mark.parametrize("offset", [12.0, -12.0])
def test_the_text_of_a_dimension_is_never_upside_down(turn: int, offset: float) -> None:
    """Whichever way a dimension runs, its text reads from the left or from below."""
    end = (40 * math.cos(math.radians(turn)), 40 * math.sin(math.radians(turn)))
    dimension = Dimension(start=(0.0, 0.0), end=end, offset=offset, text="40 mm")
    text = dimension_parts(dimension)[-1]
    assert isinstance(text, Text)
    assert -90.0001 < (text.angle + 180.0) % 360.0 - 180.0 <= 90.0001


@pytest.mark.parametrize("turn", [0, 180])
def test_the_text_of_a_short_dimension_stands_beside_it(turn: int) -> None:
    """A text that does not fit between the extension lines starts beyond the second one."""
    end = (4.0, 0.0) if turn == 0 else (-4.0, 0.0)
    dimension = Dimension(start=(0.0, 0.0), end=end, offset=12.0, text="1/8 in")
    text = dimension_parts(dimension)[-1]
    assert isinstance(text, Text)
    xs = [x for path in text_paths(text) for x, _ in path.points]
    assert min(xs) > 4.0 if turn == 0 else max(xs) < -4.0


def test_a_dimension_of_one_point_is_refused() -> None:
    """Two points that are one have no distance to draw."""
    dimension = Dimension(start=(1.0, 2.0), end=(1.0, 2.0), offset=5.0, text="0 mm")
    with pytest.raises(DrawingError) as caught:
        dimension_parts(dimension)
    assert str(caught.value) == "the dimension '0 mm' must have two different points"


@pytest.mark.parametrize(
    ("anchor", "start"), [(Anchor.START, 10.0), (Anchor.MIDDLE, -5.0), (Anchor.END, -20.0)]
)
def test_a_text_stands_by_its_anchor(anchor: Anchor, start: float) -> None:
    """The strokes start at the place, end there, or have it in their middle."""
    text = Text(string="HI", at=(10.0, 20.0), height=21.0, anchor=anchor)
    assert text_width("HI", 21.0) == 30.0
    first = text_paths(text)[0]
    assert first.points == ((start + 4.0, 41.0), (start + 4.0, 20.0))


def test_a_pen_draws_patterns_and_strokes_unless_told() -> None:
    """A sheet that says nothing of its pen has patterns, plain widths and texts as strokes."""
    assert _drawing().pen == Pen(scale=1.0, patterned=True, text_as_strokes=True)
