"""What no format can hold is refused in one line, before anything is written."""

from __future__ import annotations

import math

import pytest
from sample_drawings import RING, about, patch, sheet

from cutpaths.drawing import Dimension, Drawing, Item, ItemShape, Placed
from cutpaths.errors import DrawingError
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Motion, Path, Text, shift
from cutpaths.values import replace
from cutpaths.writers import dxf, svg
from cutpaths.writers.writable import require_writable

NAN, INFINITE = math.nan, math.inf
FAR = "numbers must be within 1000000 mm, got "


def _dimension(end: tuple[float, float], offset: float = 5.0, height: float = 5.0) -> Dimension:
    return Dimension(start=(0.0, 0.0), end=end, offset=offset, text="1 in", height=height)


@pytest.mark.parametrize(
    ("shape", "problem"),
    [
        (Path(((0.0, 0.0), (NAN, 1.0))), f"{FAR}(nan, 1.0)"),
        (Path(((0.0, 0.0), (1.0, INFINITE))), f"{FAR}(1.0, inf)"),
        (Path(((0.0, -1e6), (1.0, 0.0))), f"{FAR}(0.0, -1000000.0)"),
        (Path(((0.0, 0.0),)), "a line must have 2 points, got 1"),
        (Path(()), "a line must have 2 points, got 0"),
        (Path(RING[:2], closed=True), "a line must have 3 points, got 2"),
        (Path(RING[:1] * 2), "a line must not stand still, as at (10.0, 20.0)"),
        (
            Path((*RING, RING[0]), closed=True),
            "a closed line must not repeat its first point (10.0, 20.0)",
        ),
        (Circle((1.0, 2.0), 0.0), "a radius must be over 0 mm, got 0.0"),
        (Circle((1.0, 2.0), NAN), "a radius must be over 0 mm, got nan"),
        (Circle((NAN, 2.0), 1.0), f"{FAR}(nan, 2.0)"),
        (Text(string=" ", at=(0.0, 0.0), height=3.0), "a text must have letters"),
        (
            Text(string="A", at=(0.0, 0.0), height=-3.0),
            "a text height must be over 0 mm, got -3.0",
        ),
        (Text(string="A", at=(0.0, NAN), height=3.0), f"{FAR}(0.0, nan)"),
        (Text(string="A", at=(0.0, 0.0), height=3.0, angle=NAN), f"{FAR}(nan, 0.0)"),
        (_dimension((0.0, 0.0)), "a dimension must have two different points"),
        (_dimension((NAN, 0.0)), f"{FAR}(nan, 0.0)"),
        (_dimension((1.0, 0.0), offset=INFINITE), f"{FAR}(inf, 0.0)"),
        (_dimension((1.0, 0.0), height=0.0), "a text height must be over 0 mm, got 0.0"),
        (Placed(patch(), shift(NAN, 0.0)), f"{FAR}(nan, 0.0)"),
        (Placed(patch(), Motion(cos=NAN)), f"{FAR}(nan, 0.0)"),
    ],
)
def test_shapes_that_cannot_be_written_are_refused(shape: ItemShape, problem: str) -> None:
    """Both writers refuse the shape by the same line, with its role and key."""
    for writer in (svg, dxf):
        with pytest.raises(DrawingError) as caught:
            writer.render(sheet(shape))
        assert str(caught.value) == f"CUT of backing: {problem}"


@pytest.mark.parametrize(
    ("string", "named"),
    [
        ("a\x01b", "U+0001 in 'a\\x01b'"),
        ("two\nlines", "U+000A in 'two\\nlines'"),
        ("a\x7f", "U+007F in 'a\\x7f'"),
        ("a\u2028b", "U+2028 in 'a\\u2028b'"),
        ("\ud800", "U+D800 in '\\ud800'"),
        ("\uffff", "U+FFFF in '\\uffff'"),
    ],
)
def test_letters_that_break_a_file_are_refused(string: str, named: str) -> None:
    """In texts, dimensions, titles and names alike."""
    message = f"a text must be one line of printable letters, got {named}"
    shapes: list[ItemShape] = [
        Text(string=string, at=(0.0, 0.0), height=3.0),
        replace(_dimension((1.0, 0.0)), text=string),
    ]
    good = sheet(Path(RING)).sheets[0]
    drawings = [sheet(shape).sheets[0] for shape in shapes]
    drawings += [replace(good, about=replace(about(), project=string)), replace(good, name=string)]
    for drawing in drawings:
        with pytest.raises(DrawingError) as caught:
            require_writable(drawing)
        assert str(caught.value) == message


@pytest.mark.parametrize("key", ["", "Backing", "a b", "größe", "-a", "a--b", "a\n"])
def test_keys_are_plain(key: str) -> None:
    """A key becomes an id, so it is lower-case letters, digits and dashes."""
    drawing = Drawing(
        name="sheet",
        size=(9.0, 9.0),
        about=about(),
        items=(Item(Role.CUT, key, Path(RING)),),
    )
    with pytest.raises(DrawingError) as caught:
        require_writable(drawing)
    assert str(caught.value) == (
        f"a key must be lower-case letters, digits and dashes, got {key!r}"
    )


@pytest.mark.parametrize("size", [(0.0, 5.0), (5.0, -1.0), (NAN, 5.0), (5.0, 1e6)])
def test_a_sheet_has_a_size(size: tuple[float, float]) -> None:
    """Width and height are over 0 and under a kilometre."""
    drawing = Drawing(name="sheet", size=size, about=about(), items=())
    with pytest.raises(DrawingError) as caught:
        require_writable(drawing)
    assert str(caught.value) == f"sheet: the sheet must have a size, got {size}"


def test_what_is_placed_is_looked_at() -> None:
    """A fault inside a placed drawing is found."""
    broken = Path(((0.0, 0.0), (NAN, 0.0)))
    bad = replace(patch(), items=(Item(Role.CUT, "top", broken),))
    with pytest.raises(DrawingError) as caught:
        require_writable(sheet(Placed(bad, shift(1.0, 1.0))).sheets[0])
    assert str(caught.value) == f"CUT of top: {FAR}(nan, 0.0)"
