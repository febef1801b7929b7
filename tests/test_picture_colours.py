"""Chosen colours: told apart by everybody, in colour and in grey."""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest

from cutpaths.paint import Colour
from cutpaths.project.model import Fabric
from cutpaths.sheets.fabric_paint import Cloth, luminance
from cutpaths.sheets.palette import COLOURS, colours_of

Row = tuple[float, float, float]
Matrix = tuple[Row, Row, Row]

# Machado, Oliveira and Fernandes, "A Physiologically-based Model for Simulation of Color Vision
# Deficiency" (2009), severity 1.0, for linear red, green and blue; from memory.
VISIONS: dict[str, Matrix] = {
    "all cones": ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
    "no red cones": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "no green cones": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "no blue cones": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}
# IEC 61966-2-1 (sRGB) to XYZ, and the white of D65; from memory.
TO_XYZ: Matrix = (
    (0.4124564, 0.3575761, 0.1804375),
    (0.2126729, 0.7151522, 0.0721750),
    (0.0193339, 0.1191920, 0.9503041),
)
WHITE: Row = (0.95047, 1.0, 1.08883)
# In CIE 1976 L*a*b* some 2.3 is just noticed side by side (Mahy and others, 1994; from memory).
APART = 12.0
CONTRAST = 2.0


def _times(matrix: Matrix, row: Row) -> Row:
    first, second, third = (sum(m * v for m, v in zip(line, row, strict=True)) for line in matrix)
    return first, second, third


def _linear(colour: Colour) -> Row:
    parts = [level / 255 for level in colour]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return red, green, blue


def _lab(colour: Colour, vision: Matrix) -> Row:
    """CIE 1976 L*a*b* (CIE 15) of a colour as somebody sees it."""
    seen = _times(vision, _linear(colour))
    clipped = (min(max(seen[0], 0), 1), min(max(seen[1], 0), 1), min(max(seen[2], 0), 1))
    parts = (v / w for v, w in zip(_times(TO_XYZ, clipped), WHITE, strict=True))
    x, y, z = (p ** (1 / 3) if p > 216 / 24389 else (24389 / 27 * p + 16) / 116 for p in parts)
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def _distance(one: Colour, other: Colour, vision: Matrix) -> float:
    pairs = zip(_lab(one, vision), _lab(other, vision), strict=True)
    return float(sum((a - b) ** 2 for a, b in pairs) ** 0.5)


def test_the_measure_used_here_is_the_standards() -> None:
    """Red of sRGB is L* 53.24, a* 80.09, b* 67.20 (widely published; from memory)."""
    assert _lab((255, 0, 0), VISIONS["all cones"]) == pytest.approx((53.24, 80.09, 67.20), abs=0.02)


def test_each_simulation_leaves_grey_grey() -> None:
    """Rows of its matrix add up to 1, as the paper's do."""
    for vision in VISIONS.values():
        assert [sum(row) for row in vision] == pytest.approx([1.0] * 3, abs=2e-6)


@pytest.mark.parametrize("vision", VISIONS)
def test_any_two_colours_can_be_told_apart(vision: str) -> None:
    """All pairs of the list are well over what is just noticed, whichever cones are missing."""
    near = min(_distance(a, b, VISIONS[vision]) for a, b in combinations(COLOURS, 2))
    assert near >= APART


def test_colours_side_by_side_differ_in_lightness() -> None:
    """Each and the next have a contrast of 2:1 (W3C WCAG 2.1), the last and the first too."""
    assert len(COLOURS) == 24
    for one, other in pairwise((*COLOURS, COLOURS[0])):
        dark, light = sorted((luminance(one), luminance(other)))
        assert (light + 0.05) / (dark + 0.05) >= CONTRAST


def test_colours_are_taken_in_the_order_of_the_file() -> None:
    """A fabric's own colour counts as a place of the list; after the last the list starts anew."""
    fabrics = [
        Fabric(name=f"f{i}", label="", directional=False, colour="#010203" if i == 1 else None)
        for i in range(26)
    ]
    found = colours_of(fabrics)
    assert list(found)[:3] == ["f0", "f1", "f2"]
    assert (found["f0"], found["f1"], found["f2"]) == (COLOURS[0], (1, 2, 3), COLOURS[2])
    assert (found["f23"], found["f24"], found["f25"]) == (COLOURS[23], COLOURS[0], COLOURS[1])


@pytest.mark.parametrize("colour", [*COLOURS, (0, 0, 0), (255, 255, 255), (0, 0, 255)])
def test_tints_can_be_written_on(colour: Colour) -> None:
    """Black on each tint reaches 7:1, the enhanced contrast of text (W3C WCAG 2.1, 1.4.6)."""
    assert (luminance(Cloth(colour).tint.colour) + 0.05) / 0.05 >= 7.0


@pytest.mark.parametrize("colour", [*COLOURS, (0, 0, 0), (255, 255, 255)])
def test_the_edge_of_a_cloth_is_seen(colour: Colour) -> None:
    """The line round a patch differs from its cloth, also round the darkest and the palest."""
    edge = Cloth(colour).paint().edge
    assert edge is not None
    dark, light = sorted((luminance(colour), luminance(edge)))
    assert (light + 0.05) / (dark + 0.05) >= 1.5
