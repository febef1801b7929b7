"""The proof against what others have published about self-bound blankets.

Sizes of top and backing and the seam allowance were read at the source; borders and finished sizes
are our arithmetic from them. Inches unless said. Sizes in a pattern's title are nominal and are
not used.
"""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from builders import Sewn, folded_over, panel, project, regular
from shapely import Polygon

from cutpaths.errors import InputError
from cutpaths.geometry.marks import MarkKind
from cutpaths.geometry.polygons import distance
from cutpaths.lengths import INCH
from cutpaths.pieces import Kit, build
from cutpaths.proof import prove
from cutpaths.proof.borders import finished_ring
from cutpaths.proof.paper import Paper, paper_of_folded, paper_of_turned
from cutpaths.proof.waste import found_waste

CM = Fraction(100, 254)
# Top raw, backing, allowance, border, finished.
SOURCES: dict[str, tuple[int, int, str, str, float]] = {
    'Utah State University Extension, "Mitered Corner Baby Blanket"': (32, 42, "1/4", "5/2", 36.5),
    "Utah State University Extension (Juab County), handout, 2007": (30, 40, "1/4", "5/2", 34.5),
    "sewing blog; prints (18 + 26) / 2 - 1 = 21": (18, 26, "1/2", "2", 21),
}


def _kit(raw: Fraction, border: Fraction, allowance: Fraction, turn: Fraction = Fraction(0)) -> Kit:
    """A square blanket from the raw size of its top."""
    seen = raw - 2 * allowance
    sewn = Sewn(allowance=allowance, basting=allowance / 2, trim=Fraction(1, 4), turn=turn)
    return build(project(panel(seen, seen), (border,) * 4, sewn))


def _inches(mm: float) -> float:
    return mm / float(INCH)


def _finished(paper: Paper) -> float:
    """Width of the finished outline."""
    ring = finished_ring(paper)
    return _inches(max(x for x, _ in ring) - min(x for x, _ in ring))


@pytest.mark.parametrize("source", SOURCES)
def test_published_sizes(source: str) -> None:
    """Backing and finished size come out as published, or as follows from what was."""
    raw, backing, allowance, border, finished = SOURCES[source]
    kit = _kit(Fraction(raw), Fraction(border), Fraction(allowance))
    assert prove(kit).failed == ()
    assert _inches(kit.backing.size[0]) == pytest.approx(backing, abs=1e-9)
    assert _finished(paper_of_turned(kit)) == pytest.approx(finished, abs=1e-9)


def test_published_metric_sizes() -> None:
    """76 cm and 100 cm with seams of 1 cm give a border of 6 cm and 86 cm (sewing blog)."""
    kit = _kit(76 * CM, 6 * CM, CM)
    assert prove(kit).failed == ()
    assert kit.backing.size[0] == pytest.approx(1000, abs=1e-9)
    assert _finished(paper_of_turned(kit)) * 25.4 == pytest.approx(860, abs=1e-9)


def test_published_oblong() -> None:
    """A top of 32 x 36 takes a backing of 36 x 40 for a border of 1 (quilting blog)."""
    kit = build(project(panel(Fraction(63, 2), Fraction(71, 2)), (1, 1, 1, 1)))
    assert prove(kit).failed == ()
    assert [_inches(mm) for mm in kit.backing.size] == pytest.approx([36, 40], abs=1e-9)


def test_published_folded_over() -> None:
    """Folded over, 30 on 34 has a border of 1 and stays 30 (Care Wear, blanket instructions)."""
    kit = build(project(panel(Fraction(59, 2), Fraction(59, 2)), (1, 1, 1, 1), folded_over()))
    proof = {check.name: check for check in prove(kit).checks}
    assert _inches(kit.backing.size[0]) == pytest.approx(34, abs=1e-9)
    assert (proof["finished-as-top"].passed, proof["finished-as-top"].found) == (True, "900 sq in")
    assert paper_of_folded(kit).borders == pytest.approx((25.4,) * 4)


def test_published_miter() -> None:
    """Dots 5.25 along the edge and 0.25 in from it, miter 3.5355 long, square to its fold.

    Utah State University Extension: "mark a line at a 90 degree angle from the fold to the stop
    point", dots and "trim all but 1/4 inch" as read there; the length is our arithmetic.
    """
    kit = _kit(Fraction(32), Fraction(5, 2), Fraction(1, 4))
    proof = {check.name: check for check in prove(kit).checks}
    assert proof["miter-angle"].found == "90 degrees"
    assert proof["miter-halves"].found == "~3 1/2 in (3.5355 in)"
    assert proof["trim-line"].found == "1/4 in"
    dots = {mark.at: mark.points[0] for mark in kit.backing.marks if mark.kind is MarkKind.DOT}
    assert [_inches(mm) for mm in dots["DA:A"]] == pytest.approx([5.25, 0.25], abs=1e-9)
    assert [_inches(mm) for mm in dots["DA:D"]] == pytest.approx([0.25, 5.25], abs=1e-9)


def test_waste_of_the_handout() -> None:
    """The 30 on 40 corner loses a triangle of 13.24 sq in with legs of 5.146 (our arithmetic)."""
    paper = paper_of_turned(_kit(Fraction(30), Fraction(5, 2), Fraction(1, 4)))
    waste = found_waste(paper)["DA"]
    assert waste.area / float(INCH) ** 2 == pytest.approx(13.24, abs=0.005)
    corner, ahead, *_ = sorted(waste.exterior.coords[:-1], key=sum)
    assert _inches(distance(_pair(corner), _pair(ahead))) == pytest.approx(5.146, abs=0.0005)


def _pair(coordinates: tuple[float, ...]) -> tuple[float, float]:
    return coordinates[0], coordinates[1]


def test_turn_of_cloth_is_found_and_said() -> None:
    """30, border 2.5, turn 1/8: backing 40.25, finished 34.5; the paper shows half a turn more."""
    kit = _kit(Fraction(30), Fraction(5, 2), Fraction(1, 4), Fraction(1, 8))
    proof = {check.name: check for check in prove(kit).checks}
    assert _inches(kit.backing.size[0]) == pytest.approx(40.25, abs=1e-9)
    assert proof["border-width"].passed
    assert proof["border-width"].found == (
        "2 1/2 in plus ~1/8 in (0.0625 in) for the turn of cloth"
    )
    # On paper, which has no thickness, the turn shows once more across the whole blanket.
    assert _finished(paper_of_turned(kit)) == pytest.approx(34.5 + 0.125, abs=1e-9)


def test_hexagon() -> None:
    """Side 9, border 1.5: the miter is 1.7321 from dot to fold, 60 degrees off it (own)."""
    kit = build(project(regular(6, 9), (Fraction(3, 2),) * 6))
    proof = {check.name: check for check in prove(kit).checks}
    assert proof["miter-halves"].found == "~1 3/4 in (1.7321 in)"
    assert proof["miter-angle"].found == "60 degrees"
    assert math.isclose(1.5 / math.cos(math.radians(30)), 1.7321, abs_tol=5e-5)


def test_hexagon_with_alternating_borders() -> None:
    """Side 10: borders of 1 and 2 in turn pass; 1 and 3 throw a dot off the cloth (own)."""
    assert prove(build(project(regular(6, 10), (1, 2) * 3))).failed == ()
    with pytest.raises(InputError, match="corner FA has a dot, or the allowance beside it, off"):
        build(project(regular(6, 10), (1, 3) * 3))


def test_center_of_unequal_borders() -> None:
    """Borders left 4, right 2: the joined side's center is 2 off the raw middle (own)."""
    kit = build(project(panel(30, 30), (2, 2, 2, 4)))
    assert prove(kit).failed == ()
    (center,) = (
        m.points[0] for m in kit.backing.marks if m.kind is MarkKind.CENTER and m.at == "A"
    )
    assert _inches(center[0] - kit.backing.size[0] / 2) == pytest.approx(2, abs=1e-9)


def test_areas_of_the_front() -> None:
    """The finished front of 34.5 x 34.5 is covered, 1190.25 sq in."""
    kit = _kit(Fraction(30), Fraction(5, 2), Fraction(1, 4))
    proof = {check.name: check for check in prove(kit).checks}
    assert proof["front-covered"].found == "1190.25 sq in"
    assert Polygon(finished_ring(paper_of_turned(kit))).area == pytest.approx(
        float(Fraction(69, 2) ** 2 * INCH**2), abs=1e-6
    )
