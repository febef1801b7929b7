"""Kits of tops that were measured: what the backing follows, and that it still sews together."""

from __future__ import annotations

import random
from fractions import Fraction
from pathlib import Path

import pytest
from bad_input import SOUND, SQUARES

from cutpaths.geometry.blanket import CornerType
from cutpaths.geometry.marks import MarkKind, select
from cutpaths.geometry.polygons import Ring, corner_angle, distance, edges, inside_by
from cutpaths.lengths import INCH
from cutpaths.pieces import Kit, build
from cutpaths.pieces.sewn import to_trim, true_shape
from cutpaths.project import load, read
from cutpaths.project.model import Project
from cutpaths.proof import prove
from cutpaths.values import replace

FERRY = Path(__file__).parents[1] / "fixtures" / "ferry.toml"
TAPED = 'sides = { A = 28, B = "32 1/4", C = 27, D = 32 }\ndiagonals = { DA-BC = "42 1/4" }'
# Foot 28 in and head 27 in, level and 32 in apart: slants sqrt(32² + (1/2)²), diagonals
# sqrt(27.5² + 32²), to nine decimals.
TRAPEZOID = (
    "sides = { A = 28, B = 32.003906011, C = 27, D = 32.003906011 }\ndiagonals = 42.193009848"
)
MM = 25.4


def project(remedy: str, taped: str = TAPED, **changes: str) -> Project:
    """The sound project with a measured top; changes replace its text."""
    text = f'{SOUND}[measured]\n{taped}\nremedy = "{remedy}"\n'
    for old, new in changes.items():
        text = text.replace({"head": 'title = "Pond"', "width": "width = 2"}[old], new)
    return read(text)


def sides(ring: Ring) -> list[float]:
    """Lengths of a ring's sides."""
    return [distance(p, q) for p, q in edges(ring)]


def apart(first: Ring, second: Ring) -> float:
    """How far two rings are apart, corner by corner, in mm."""
    return max(distance(p, q) for p, q in zip(first, second, strict=True))


def failed(kit: Kit) -> list[str]:
    """Names of the checks that fail."""
    return [check.name for check in prove(kit).failed]


def test_cut_to_fit_follows_the_tape() -> None:
    """The top's raw sides and diagonal are those taped; the seam lies the allowance inside."""
    blanket = build(project("cut-to-fit")).blanket
    taped = [28 * MM, 32.25 * MM, 27 * MM, 32 * MM]
    assert sides(blanket.top) == pytest.approx(taped, abs=1e-9)
    assert distance(blanket.top[0], blanket.top[2]) == pytest.approx(42.25 * MM, abs=1e-9)
    for corner in blanket.seam:
        assert inside_by(corner, blanket.top) == pytest.approx(0.25 * MM, abs=1e-9)
    for corner in blanket.top:
        assert inside_by(corner, blanket.backing) == pytest.approx(4 * MM, abs=1e-9)


def test_cut_to_fit_has_corners_of_its_own() -> None:
    """Each corner keeps its angle on seam, finished outline and backing, and has its template."""
    kit = build(project("cut-to-fit"))
    blanket = kit.blanket
    angles = [corner_angle(blanket.top, i) for i in range(4)]
    for ring in (blanket.seam, blanket.finished, blanket.backing):
        assert [corner_angle(ring, i) for i in range(4)] == pytest.approx(angles, abs=1e-9)
    assert sum(angles) == pytest.approx(360.0, abs=1e-9)
    assert [t.corners for t in kit.templates] == [("DA",), ("AB",), ("BC",), ("CD",)]


def test_corner_is_right_within_the_rulers_reach() -> None:
    """On 4 1/4 in of miter half a step of 1/8 in is 0.84 degrees; a finer ruler sees more."""
    coarse = build(project("cut-to-fit")).blanket.corners
    assert [round(c.angle, 2) for c in coarse] == [89.45, 88.76, 90.72, 91.06]
    right, other = CornerType.RIGHT_EQUAL, CornerType.OTHER
    assert [c.kind for c in coarse] == [right, other, right, other]
    fine = build(project("cut-to-fit", head='title = "Pond"\nruler = "1/64"')).blanket.corners
    assert [c.kind for c in fine] == [other] * 4


def test_patch_seams_keep_their_share_of_each_side() -> None:
    """Six patches in a row part foot and head into sixths, whatever their lengths."""
    kit = build(project("cut-to-fit"))
    for side, patches in ((0, 6), (1, 7), (2, 6), (3, 7)):
        start, end = edges(kit.blanket.seam)[side]
        name = "ABCD"[side]
        marks = select(kit.blanket.top_marks, MarkKind.PATCH_SEAM)
        ticks = [m.points[0] for m in marks if m.at.startswith(f"{name}:")]
        parts = [distance(start, tick) / distance(start, end) for tick in ticks]
        assert parts == pytest.approx([n / patches for n in range(1, patches)], abs=1e-12)


@pytest.mark.parametrize("remedy", ["as-designed", "ease", "cut-to-fit", "trim-top"])
def test_measured_top_is_sewn_as_a_rectangle(remedy: str) -> None:
    """Opposite sides are sewn first, and the opening stays on the head, however it leans."""
    kit = build(project(remedy))
    assert kit.order == (0, 2, 1, 3)
    assert kit.opening is not None
    assert kit.opening.side == 2


def test_as_designed_is_the_design() -> None:
    """A top taken as designed has the very layers of one that was never measured."""
    assert build(project("as-designed")).blanket == build(read(SOUND)).blanket


def test_eased_is_the_average() -> None:
    """Eased, it has the very layers of a top whose middle measures the average."""
    middle = read(f'{SOUND}[measured]\nwidth = "27 1/2"\nheight = "32 1/8"')
    assert build(project("ease")).blanket == build(middle).blanket


def test_fitting_a_true_rectangle_changes_nothing() -> None:
    """Cut to fit a top that is as designed, the backing is the design's to 1e-9 mm."""
    panel = 'layout = "panel"\ncut = { width = 40, height = 42 }'
    text = SOUND.replace(SQUARES, panel)
    taped = "sides = { A = 40, B = 42, C = 40, D = 42 }\ndiagonals = 58"
    fitted = build(read(f'{text}[measured]\n{taped}\nremedy = "cut-to-fit"')).blanket
    plain = build(read(text)).blanket
    assert apart(fitted.backing, plain.backing) < 1e-9
    assert [c.kind for c in fitted.corners] == [CornerType.RIGHT_EQUAL] * 4


def test_trimmed_trapezoid_is_as_wide_as_its_head() -> None:
    """A foot of 28 in and a level head of 27 in, 32 in apart, are trimmed to 27 x 32 in."""
    kit = build(project("trim-top", TRAPEZOID))
    width, height = kit.project.sewn_top or (Fraction(0), Fraction(0))
    assert float(width) == pytest.approx((27 - 0.5) * MM, abs=1e-5)
    assert float(height) == pytest.approx((32 - 0.5) * MM, abs=1e-5)
    backing = sides(kit.blanket.backing)
    assert backing[0] == pytest.approx(float(width) + (0.5 + 8) * MM, abs=1e-9)
    assert backing[1] == pytest.approx(float(height) + (0.5 + 8) * MM, abs=1e-9)


def test_trimmed_size_is_never_more_than_there_is() -> None:
    """The size is cut off, not rounded up, at a millionth of a millimetre."""
    kit = build(project("trim-top"))
    measured = kit.project.measured
    assert measured is not None
    assert measured.trimmed is not None
    for size, found in zip(measured.trimmed, to_trim(measured).size, strict=True):
        assert 0 <= found - float(size) < 2e-6
        assert (size * 10**6).denominator == 1


def test_trimming_leaves_no_ticks() -> None:
    """What is trimmed shifts the patch seams along the edge, so none is marked; centers stay."""
    kit = build(project("trim-top"))
    assert select(kit.backing.marks, MarkKind.PATCH_SEAM) == ()
    assert len(select(kit.backing.marks, MarkKind.CENTER)) == 4


@pytest.mark.parametrize(
    "changes",
    [
        {},
        {"head": 'title = "Pond"\nturn_of_cloth = "1/8"'},
        {"width": "width = { A = 3, B = 2, C = 1, D = 2.5 }"},
        {"width": 'width = 2\n[backing]\ncorners = "trimmed"'},
        {"width": 'width = 2\n[opening]\nside = "B"\nlength = 5'},
    ],
    ids=["plain", "thick", "unequal", "trimmed", "opening"],
)
@pytest.mark.parametrize("remedy", ["as-designed", "ease", "cut-to-fit", "trim-top"])
def test_every_remedy_sews_together(remedy: str, changes: dict[str, str]) -> None:
    """The proof holds for each remedy, with every kind of border."""
    assert failed(build(project(remedy, **changes))) == []


@pytest.mark.parametrize("remedy", ["as-designed", "ease", "trim-top"])
def test_folded_over_sews_together(remedy: str) -> None:
    """Folded over, each remedy that it allows holds too."""
    head = 'title = "Pond"\nconstruction = "folded-over"'
    assert failed(build(project(remedy, head=head))) == []


def test_example_sews_together() -> None:
    """The crooked example, with more taped than is needed, holds."""
    kit = build(load(FERRY))
    assert failed(kit) == []
    assert kit.notes == ()


@pytest.mark.parametrize("seed", range(12))
def test_any_crooked_top_sews_together(seed: int) -> None:
    """Tapes read to 1/16 in, of tops whose sides are up to 3 % off, make kits that hold."""
    rng = random.Random(seed)  # noqa: S311

    def off(inches: float, part: float = 0.03) -> float:
        return round(inches * (1 + rng.uniform(-part, part)) * 16) / 16

    lengths = [off(27.5), off(32), off(27.5), off(32), off(42.19, 0.02)]
    a, b, c, d, diagonal = lengths
    name = rng.choice(["DA-BC", "AB-CD"])
    taped = f"sides = {{ A = {a}, B = {b}, C = {c}, D = {d} }}\n"
    taped += f"diagonals = {{ {name} = {diagonal} }}"
    kit = build(project("cut-to-fit", taped))
    assert failed(kit) == []
    assert sides(kit.blanket.top) == pytest.approx([x * MM for x in lengths[:4]], abs=1e-9)


def test_proof_sees_a_top_that_is_not_the_one_taped() -> None:
    """With side A taped 1 mm longer than the kit has it, size and corners of the top fail."""
    kit = build(project("cut-to-fit"))
    measured = kit.project.measured
    assert measured is not None
    longer = replace(measured, sides=(measured.sides[0] + 1, *measured.sides[1:]))
    wrong = replace(kit, project=replace(kit.project, measured=longer))
    assert failed(wrong) == ["top-size", "top-over-patches"]


def test_true_shape_is_that_of_the_tape() -> None:
    """A side 1 in longer than the others makes a shape with just these sides."""
    measured = project("cut-to-fit").measured
    assert measured is not None
    assert sides(true_shape(measured))[0] == pytest.approx(float(28 * INCH), abs=1e-9)
