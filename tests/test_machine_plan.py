"""Whole runs of the examples: all pieces there, apart, on the bed, nothing cut twice."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from itertools import pairwise
from pathlib import Path as Folder

import pytest
from machine_samples import bench, knife
from shapely import LineString, STRtree, unary_union
from shapely.affinity import translate
from shapely.geometry import Polygon
from shapely.geometry import box as frame
from shapely.ops import polygonize

from cutpaths.cli.kit import kit_of
from cutpaths.errors import InputError
from cutpaths.geometry.assembly import PieceKind
from cutpaths.machine.bed import Bed
from cutpaths.machine.bed_reading import load
from cutpaths.machine.job import Job
from cutpaths.machine.parts import parts_of
from cutpaths.machine.plan import BedWork, Plan, planned
from cutpaths.machine.report import efforts, report
from cutpaths.pieces import Kit
from cutpaths.roles import Role
from cutpaths.shapes import Path
from cutpaths.sheets.beds import bed_run
from cutpaths.values import replace

FIXTURES = Folder(__file__).parent.parent / "fixtures"
CLOTH = bench(pieces=frozenset(PieceKind) - {PieceKind.BACKING})
PROJECTS = ["tidepool", "trellis", "windrose", "doorway"]


def kit(name: str) -> Kit:
    """The pieces of an example."""
    return kit_of(FIXTURES / f"{name}.toml")


def no_marks(_: object) -> tuple[Job, ...]:
    """Nothing beside outlines and holes."""
    return ()


def plan_of(name: str, bed: Bed, kits: int = 1) -> Plan:
    """The run of an example without its marks."""
    return planned(parts_of(kit(name), bed, kits), bed, no_marks)


def outlines(work: BedWork) -> list[Polygon]:
    """The closed outlines of a bed."""
    return [
        Polygon(job.shape.points)
        for job in work.jobs
        if job.role is Role.CUT and isinstance(job.shape, Path) and job.shape.closed
    ]


def counted(plan: Plan) -> Counter[str]:
    """How many of each piece a run has."""
    found: Counter[str] = Counter()
    for work in plan.beds:
        for key, count in work.pieces:
            found[key] += count
    return found


@pytest.mark.parametrize("name", PROJECTS)
def test_every_piece_is_there_apart_and_on_the_bed(name: str) -> None:
    """For two kits: pieces by cloth and face, spacing kept, margins kept, templates once."""
    plan = plan_of(name, CLOTH, kits=2)
    made = kit(name)
    wanted = {p.key: 2 * p.count for p in made.cloth if p.kind is not PieceKind.BACKING}
    wanted |= {t.piece.key: 1 for t in made.templates}
    assert counted(plan) == wanted
    fabrics = {piece.key: piece.fabric for piece in made.cloth}
    room = frame(10 - 1e-6, 10 - 1e-6, 890 + 1e-6, 590 + 1e-6)
    for work in plan.beds:
        assert {fabrics.get(key, "") for key, _ in work.pieces} == {work.cloth}
        shapes = outlines(work)
        assert len(shapes) == sum(count for _, count in work.pieces)
        tree = STRtree(shapes)
        for n, shape in enumerate(shapes):
            assert room.contains(shape)
            near = [m for m in tree.query(shape.buffer(5.0)) if m != n]
            assert all(shape.distance(shapes[m]) > 4.0 - 1e-6 for m in near)
    assert all(group.beds >= group.fewest >= 1 for group in plan.groups)
    assert sum(group.beds for group in plan.groups) == len(plan.beds)


@pytest.mark.parametrize("name", PROJECTS)
def test_common_cuts_go_over_no_line_twice(name: str) -> None:
    """Cuts are as long as their union, and the faces between them hold every piece, kerf off."""
    laser = load(FIXTURES / "beds" / "loft-laser.toml")
    made = kit(name)
    plan = planned(parts_of(made, laser, 1), laser, no_marks)
    areas = {p.key: Polygon(p.outline).area for p in made.cloth}
    areas |= {t.piece.key: Polygon(t.piece.outline).area for t in made.templates}
    for work in plan.beds:
        lines = []
        for job in work.jobs:
            if isinstance(job.shape, Path) and job.role is Role.CUT:
                points = job.shape.points + (job.shape.points[:1] if job.shape.closed else ())
                lines += [LineString(pair) for pair in pairwise(points)]
        union = unary_union(lines, grid_size=1e-5)
        assert sum(line.length for line in lines) == pytest.approx(union.length, abs=1e-3)
        kerf = 0.2
        faces = [
            face.buffer(-kerf / 2, join_style="mitre", mitre_limit=9) for face in polygonize(union)
        ]
        for key, count in work.pieces:
            alike = [face for face in faces if abs(face.area - areas[key]) < 0.01 * 500]
            assert len(alike) >= count


def test_outlines_grow_and_holes_shrink_by_half_the_kerf() -> None:
    """A template for a 0.3 mm beam: outline 0.3 larger, holes of 3 mm cut with 2.7."""
    plain = plan_of("tidepool", CLOTH).beds[-1]
    bed = replace(knife(kerf=0.3), pieces=CLOTH.pieces)
    grown = plan_of("tidepool", bed).beds[-1]
    before, after = outlines(plain)[0], outlines(grown)[0]
    wanted = before.buffer(0.15, join_style="mitre", mitre_limit=9)
    right = after.bounds[0] - wanted.bounds[0]
    up = after.bounds[1] - wanted.bounds[1]
    assert translate(wanted, right, up).hausdorff_distance(after) < 1e-9
    holes = [
        sorted(job.length for job in work.jobs if job.role is Role.CUTOUT)
        for work in (plain, grown)
    ]
    assert len(holes[0]) == len(holes[1]) > 0
    assert all(b < a for a, b in zip(*holes, strict=True))


def test_a_kerf_as_large_as_a_hole_is_refused() -> None:
    """The smallest feature and its piece are named: slots of the template are 2 mm wide."""
    bed = replace(knife(kerf=2.0), pieces=CLOTH.pieces)
    with pytest.raises(InputError) as caught:
        parts_of(kit("tidepool"), bed, 1)
    assert str(caught.value) == (
        "`tool.knife.kerf` must be less than the smallest edge of a cut-out, 2 mm on "
        "CORNER-TEMPLATE, got 2 mm"
    )


def test_what_is_too_large_is_left_out_and_told() -> None:
    """A backing of 952.5 x 1066.8 mm needs a bed of 972.5 x 1086.8 mm with margins of 10 mm."""
    run = bed_run(kit("tidepool"), bench(), 1)
    assert run.notes == (
        "BACKING (952.5 x 1066.8 mm) is too large for the bed and left out, 1 of it: a bed of "
        "972.5 x 1086.8 mm with these margins would do.",
    )
    small = bench(width=Fraction(100), height=Fraction(100))
    with pytest.raises(InputError, match=r"^`bed.width` must have room for at least one piece"):
        bed_run(kit("tidepool"), small, 1)
    enough = bench(width=Fraction("972.5"), height=Fraction("1086.8"))
    assert bed_run(kit("tidepool"), enough, 1).notes == ()


def test_a_long_piece_is_cut_in_sections_on_a_roll() -> None:
    """The backing comes in two feed lengths; their outlines together are its outline."""
    roll = load(FIXTURES / "beds" / "roll-cutter.toml")
    flat = replace(roll.tools[1], blade_offset=Fraction(0), overcut=Fraction(0))
    roll = replace(roll, roles={r: t if t.draws else flat for r, t in roll.roles.items()})
    works = [work for work in plan_of("tidepool", roll).beds if work.section]
    assert [work.section for work in works] == [(1, 2), (2, 2)]
    lengths = [job.length for work in works for job in work.jobs if job.role is Role.CUT]
    assert sum(lengths) == pytest.approx(2 * (952.5 + 1066.8))


def test_both_faces_of_a_cloth_never_share_a_bed() -> None:
    """A cloth lies one way: a backing, marked wrong side up, has beds of its own."""
    wide = bench(width=Fraction(2000), height=Fraction(3000))
    plan = plan_of("doorway", wide)
    assert [(work.cloth, work.face.value) for work in plan.beds] == [
        ("oat", "right side up"),
        ("slate", "right side up"),
        ("slate", "wrong side up"),
        ("", "either face up"),
    ]


def test_the_effort_is_what_the_bed_file_says() -> None:
    """Times from lengths and speeds, worked out by hand for one square of 100 mm and one line."""
    bed = bench()
    square = ((10.0, 10.0), (110.0, 10.0), (110.0, 110.0), (10.0, 110.0))
    jobs = (
        Job(Role.STITCH, "a", Path(((0.0, 0.0), (120.0, 0.0)))),
        Job(Role.CUT, "a", Path(square, closed=True)),
    )
    first = plan_of("tidepool", CLOTH).beds[0]
    work = replace(first, jobs=jobs)
    one, two = efforts((work, work), bed)
    assert (one.drawn, one.cut, one.changes) == (120.0, 400.0, 1)
    assert one.travel == pytest.approx((110.0**2 + 10.0**2) ** 0.5)
    assert one.seconds == pytest.approx(120 / 120 + 400 / 60 + one.travel / 300 + 20)
    assert two.changes == 2
    assert two.seconds == pytest.approx(one.seconds + 20)


@pytest.mark.parametrize("name", ["long-table", "loft-laser", "roll-cutter"])
def test_every_report_carries_the_cautions(name: str) -> None:
    """Never unattended, maker first, what a laser or a blade asks, the split, the scale check."""
    bed = load(FIXTURES / "beds" / f"{name}.toml")
    text = "\n".join(report("Tide pool", plan_of("tidepool", bed), bed, {}, 1))
    assert "Never leave the machine running unattended" in text
    assert "machine maker's instructions and local rules come first" in text
    assert ("never PVC or vinyl" in text) == (name == "loft-laser")
    assert ("keep hands off the bed" in text) == (name != "loft-laser")
    assert "the table marks and cuts the backing, the machine cuts patches and templates" in text
    assert "100 mm and 3 in" in text
    made_up = "set the same in the machine's own program to 0" in text
    assert made_up == (name != "long-table")
