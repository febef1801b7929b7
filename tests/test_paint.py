"""Paint goes along with what it fills, and reaches SVG and back unharmed."""

from __future__ import annotations

import hashlib
import io
import math
from collections.abc import Callable

import pytest
from outside import svg_xml
from PIL import Image
from sample_drawings import sheet

from cutpaths.drawing import Document, Item, Placed, flatten, move
from cutpaths.errors import DrawingError
from cutpaths.paint import Paint, Print
from cutpaths.readback import svg as reader
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Motion, Path, shift
from cutpaths.values import replace
from cutpaths.writers import dxf, svg


def _png(colour: tuple[int, int, int]) -> bytes:
    data = io.BytesIO()
    Image.new("RGB", (4, 2), colour).save(data, "PNG")
    return data.getvalue()


TURN = Motion(math.cos(0.4), math.sin(0.4), 12.5, 7.25)
CLOTH = Print(data=_png((200, 0, 0)), width=40.0, height=20.0)
PLAIN = Paint(colour=(1, 2, 3))
EDGED = Paint(colour=(250, 128, 7), edge=(9, 9, 9))
PRINTED = Paint(colour=(5, 6, 7), print=CLOTH.moved(TURN))
FLIPPED = Paint(colour=(5, 6, 7), print=CLOTH.moved(Motion.quarters(1, 3.0, 4.0, mirrored=True)))
SQUARE = Path(((10.0, 10.0), (30.0, 10.0), (30.0, 40.0), (10.0, 40.0)), closed=True)


def _picture() -> Document:
    plain = sheet(Path(((1.0, 1.0), (9.0, 9.0))), role=Role.TOPSTITCH).sheets[0]
    paints = [PLAIN, EDGED, PRINTED, PLAIN, FLIPPED]
    moved = (move(shift(20.0 * n, 0.0), Item(Role.STITCH, "a", SQUARE)) for n in range(5))
    items = [replace(item, paint=paint) for item, paint in zip(moved, paints, strict=True)]
    return Document("picture", (replace(plain, items=(*plain.items, *items)),))


def test_a_print_goes_along_with_its_shape() -> None:
    """Moving a painted item, or placing the drawing that it is on, moves its print alike."""
    item = Item(Role.STITCH, "a", SQUARE, PRINTED)
    moved = move(TURN, item)
    assert moved.paint is not None
    assert moved.paint.print is not None
    assert moved.paint.print.motion == TURN.then(TURN)
    assert moved.paint.print.data is CLOTH.data
    inner = replace(_picture().sheets[0], items=(item,))
    (placed,) = flatten(Item(Role.CUT, "b", Placed(inner, TURN)))
    assert placed.paint is not None
    assert placed.paint.print is not None
    motion = placed.paint.print.motion
    wanted = TURN.then(TURN)
    found = (motion.cos, motion.sin, motion.dx, motion.dy)
    assert found == pytest.approx((wanted.cos, wanted.sin, wanted.dx, wanted.dy), abs=2e-5)


def test_painted_shapes_stand_before_all_lines() -> None:
    """In one group, by key; shapes of one paint are one path; lines still have no fill."""
    root = svg_xml.root(svg.render(_picture()))
    groups = [g.getAttribute("id") for g in svg_xml.all_of(root, "g")]
    assert groups == ["paint", "paint-a", "topstitch", "topstitch-backing"]
    paths = svg_xml.all_of(svg_xml.group(svg.render(_picture()), "paint-a"), "path")
    assert [p.getAttribute("fill") for p in paths] == [
        "#010203",
        "#fa8007",
        "url(#print-1) #050607",
        "url(#print-2) #050607",
    ]
    assert [p.getAttribute("stroke") for p in paths] == ["none", "#090909", "none", "none"]
    assert paths[0].getAttribute("d").count("M") == 2


def test_an_image_is_in_the_file_once() -> None:
    """Two places of one print share it; the image is the print's own bytes."""
    text = svg.render(_picture()).decode()
    assert text.count("data:image/png;base64,") == 1
    found = reader.read(text.encode()).items
    tiles = {item.tile for item in found if item.tile is not None}
    assert len(tiles) == 2
    assert {tile.image for tile in tiles} == {hashlib.sha256(CLOTH.data).hexdigest()}


def test_the_matrix_of_a_print_is_that_of_the_standard() -> None:
    """It takes (x, y) to (a x + c y + e, b x + d y + f) (W3C SVG 1.1, 7.4), y down, 120 mm high.

    The image's corners come where the print's motion says; in the file the image hangs from the
    pattern's origin, one repeat lower.
    """
    text = svg.render(_picture()).decode()
    matrix = text.split('patternTransform="matrix(')[1].split(")")[0]
    a, b, c, d, e, f = map(float, matrix.split())
    for x, y in ((0.0, 20.0), (40.0, 20.0), (40.0, 0.0)):
        right, down = x, 20.0 - y - 20.0  # one repeat of 20 mm higher than it hangs
        must = TURN.point((x, y))
        found = (a * right + c * down + e, 120.0 - (b * right + d * down + f))
        assert found == pytest.approx(must, abs=1e-4)


def test_a_sound_picture_reads_back() -> None:
    """Every paint is found as it was drawn."""
    assert reader.check(_picture(), svg.render(_picture())) == ()


def _swap(old: str, new: str) -> Callable[[str], str]:
    def edit(text: str) -> str:
        assert old in text
        return text.replace(old, new, 1)

    return edit


@pytest.mark.parametrize(
    ("edit", "told"),
    [
        (
            _swap('fill="#010203"', 'fill="#010204"'),
            "PAINT line 1: fill must be '#010203', found '#010204'",
        ),
        (
            _swap('stroke="#090909"', 'stroke="none"'),
            "PAINT line 3: edge must be '#090909', found 'none'",
        ),
        (_swap('fill="url(#print-1) ', 'fill="'), "PAINT line 4: must show another print"),
        (
            _swap("url(#print-1)", "url(#print-2)"),
            "PAINT line 4: its print must lie at (0.921061, 0.389418, -0.389418, 0.921061, "
            "12.5, 7.25), found (0.0, -1.0, -1.0, 0.0, 3.0, 4.0)",
        ),
        (_swap("url(#print-1)", "url(#print-9)"), "there is no pattern 'print-9'"),
        (
            _swap('width="40.000000" xlink', 'width="41.000000" xlink'),
            "the pattern 'cloth-1' must show one image of its own size",
        ),
        (
            _swap('patternUnits="userSpaceOnUse"', ""),
            "the pattern 'cloth-1' must show one image of its own size",
        ),
        (
            _swap("base64,", "base64,!"),
            "the image 'image-cloth-1' is broken: Only base64 data is allowed",
        ),
        (_swap("patternTransform", "transform"), "the pattern 'print-1' has no image or no place"),
        (
            _swap("<defs>", "<defs><rect />"),
            "a definition must be an image or a pattern, found 'rect'",
        ),
        (
            _swap('fill="#010203"', 'fill="red"'),
            "a painted path must have a colour, found 'red'",
        ),
        (
            _swap('fill="#010203"', 'fill="#010203" opacity="0"'),
            "only a path with d, fill, stroke can be painted",
        ),
    ],
)
def test_a_broken_picture_is_found_out(edit: Callable[[str], str], told: str) -> None:
    """Another colour, edge, print, place or size, and whatever is never written."""
    broken = edit(svg.render(_picture()).decode())
    assert reader.check(_picture(), broken.encode())[0] == told


@pytest.mark.parametrize("shape", [Circle((5.0, 5.0), 2.0), Path(SQUARE.points)])
def test_only_closed_lines_are_painted(shape: Circle | Path) -> None:
    """A circle and an open line are refused."""
    drawing = replace(_picture().sheets[0], items=(Item(Role.STITCH, "a", shape, PLAIN),))
    with pytest.raises(DrawingError) as caught:
        svg.render(Document("picture", (drawing,)))
    assert str(caught.value) == "STITCH of a: only a closed line can be painted"


def test_dxf_holds_no_paint() -> None:
    """A picture is refused, also one that is placed on another sheet."""
    inner = _picture().sheets[0]
    outer = replace(inner, items=(Item(Role.CUT, "b", Placed(inner, TURN)),))
    for drawing in (inner, outer):
        with pytest.raises(DrawingError) as caught:
            dxf.render(Document("picture", (drawing,)))
        assert str(caught.value) == "DXF holds no paint, and sheet is a picture"
