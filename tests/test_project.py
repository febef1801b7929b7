"""A project file becomes a settled project: what is asked for, and the defaults of the rest."""

from __future__ import annotations

import hashlib
from fractions import Fraction

import pytest
from hypothesis import given, settings
from strategies import projects

from cutpaths.lengths import INCH, Ruler, Unit
from cutpaths.project import Project, read
from cutpaths.project.model import (
    BackingCorners,
    Construction,
    Fabric,
    Measured,
    Opening,
    Outline,
    Panel,
    Regular,
    Squares,
)
from cutpaths.project.outlines import Point

SHORT = """\
format = 1
title = "Pond"
[top]
layout = "squares"
patch = 5
columns = 3
rows = 2
[border]
width = 2
"""


def inches(*numbers: float | Fraction) -> tuple[Fraction, ...]:
    """Lengths in mm from inches."""
    return tuple(Fraction(number) * INCH for number in numbers)


def points_in(*points: tuple[int, int]) -> tuple[Point, ...]:
    """Points in mm from inches."""
    return tuple((x * INCH, y * INCH) for x, y in points)


def with_top(top: str, border: str = "width = 2", head: str = "") -> Project:
    """A project with one [top] table."""
    return read(f'format = 1\ntitle = "Pond"\n{head}\n[border]\n{border}\n[top]\n{top}\n')


def test_short_file_takes_every_default() -> None:
    """A file of ten lines is a whole project: two fabrics, 1/4 in seams, corners left on."""
    project = read(SHORT)
    assert project == Project(
        title="Pond",
        digest=hashlib.sha256(SHORT.encode()).hexdigest(),
        ruler=Ruler(Unit.INCH, INCH / 8),
        construction=Construction.TURNED,
        top=Squares(finished=INCH * Fraction(9, 2), chart=(("top",) * 3,) * 2),
        measured=None,
        fabrics=(
            Fabric(name="top", label="Top fabric", directional=False),
            Fabric(name="backing", label="Backing fabric", directional=False),
        ),
        backing_fabric="backing",
        corners=BackingCorners.LEFT_ON,
        allowance=INCH / 4,
        basting=INCH / 8,
        trim=INCH / 4,
        borders=inches(2, 2, 2, 2),
        turn_of_cloth=Fraction(0),
        opening=Opening(length=None, side=None, start=None),
        notes=(),
    )


@pytest.mark.parametrize(("units", "bare"), [("mm", 1), ("cm", 10)])
def test_metric_file_takes_metric_defaults(units: str, bare: int) -> None:
    """Metric files mark whole millimetres: seams and trim 6 mm, basting 3 mm, ruler 1 mm."""
    text = SHORT.replace("[top]", f'units = "{units}"\n[top]').replace("patch = 5", "patch = 30")
    project = read(text.replace("width = 2", "width = 20"))
    assert project.ruler == Ruler(Unit(units), Fraction(1))
    assert [project.allowance, project.basting, project.trim] == [6, 3, 6]
    assert list(project.borders) == [20 * bare] * 4


def test_basting_stays_inside_a_narrow_seam() -> None:
    """The default basting line lies half way to the stitching line at most."""
    project = read(SHORT + '[seams]\nallowance = "1/8"')
    assert (project.allowance, project.basting) == inches(Fraction(1, 8), Fraction(1, 16))
    assert read(SHORT + '[seams]\nallowance = "1/2"').basting == INCH / 8


def test_fabrics_take_turns() -> None:
    """Each row starts one fabric further, the head row with the first."""
    text = SHORT.replace("rows = 2", 'rows = 4\nfabrics = ["b", "a", "c"]')
    project = read(
        text + '[backing]\nfabric = "a"\n[fabric.b]\n[fabric.a]\n[fabric.c]\nlabel = "C"'
    )
    assert isinstance(project.top, Squares)
    assert project.top.chart == (
        ("b", "a", "c"),
        ("a", "c", "b"),
        ("c", "b", "a"),
        ("b", "a", "c"),
    )
    assert [fabric.name for fabric in project.fabrics] == ["b", "a", "c"]
    assert [fabric.label for fabric in project.fabrics] == ["b", "a", "C"]


def test_chart_gives_columns_and_rows() -> None:
    """A chart is taken row by row as it stands; counts that agree with it are fine."""
    top = 'layout = "squares"\npatch = { finished = 4 }\nrows = 3\nchart = ["a b", "b  a", " a a "]'
    project = with_top(top + "\n[fabric.a]\n[fabric.b]\n[backing]\nfabric = 'a'")
    assert isinstance(project.top, Squares)
    assert project.top.chart == (("a", "b"), ("b", "a"), ("a", "a"))
    assert (project.top.columns, project.top.rows) == (2, 3)
    assert project.top.finished == 4 * INCH


def test_the_only_fabric_is_meant_everywhere() -> None:
    """With one declared fabric, top and backing need not name it."""
    project = read(SHORT + "[fabric.oat]\ndirectional = true")
    assert project.fabrics == (Fabric(name="oat", label="oat", directional=True),)
    assert project.backing_fabric == "oat"
    assert isinstance(project.top, Squares)
    assert project.top.chart == (("oat",) * 3,) * 2


@pytest.mark.parametrize(
    "size",
    [
        "cut = { width = 30, height = 36 }",
        'seen = { width = "29 1/2", height = "35 1/2" }',
        'cut = { width = 30, height = 36 }\nseen = { width = "29 1/2", height = "35 1/2" }',
    ],
)
def test_panel_by_either_size(size: str) -> None:
    """A panel's cut size is two allowances larger than the size that is seen."""
    project = with_top(f'layout = "panel"\n{size}')
    width, height = inches(29.5, 35.5)
    assert project.top == Panel(width=width, height=height, fabric="top")
    assert project.finished_top == project.sewn_top == (width, height)


def test_outline_by_points() -> None:
    """Points lie on the stitching line, or outside it by the allowance when they are cut size."""
    points = "points = [[0, 0], [30, 0], [40, 20], [20, 35], [0, 20]]"
    ring = points_in((0, 0), (30, 0), (40, 20), (20, 35), (0, 20))
    on_seam = Fraction(0)
    for size, outset in [("", on_seam), ('size = "seen"', on_seam), ('size = "cut"', INCH / 4)]:
        project = with_top(f'layout = "outline"\n{points}\n{size}')
        assert project.top == Outline(points=ring, outset=outset, fabric="top")
        assert project.borders == inches(2, 2, 2, 2, 2)


def test_clockwise_outline_is_turned_round() -> None:
    """Side A stays, each side keeps its own border, letters then run counter-clockwise."""
    points = "points = [[0, 0], [0, 20], [20, 35], [40, 20], [30, 0]]"
    widths = "width = { A = 1, B = 2, C = 3, D = 4, E = 5 }"
    project = with_top(f'layout = "outline"\n{points}', widths + "\n[opening]\nside = 'B'")
    assert isinstance(project.top, Outline)
    ring = points_in((0, 20), (0, 0), (30, 0), (40, 20), (20, 35))
    assert project.top.points == ring
    assert project.borders == inches(1, 5, 4, 3, 2)
    assert project.opening == Opening(length=None, side=4, start=None)
    assert project.notes == (
        "The outline's points run clockwise; its sides are lettered counter-clockwise.",
        "Sides are lettered anew, each with its own border: B of the file is E, C of the file is D,"
        " D of the file is C, E of the file is B.",
    )


def test_points_on_a_straight_side_are_left_out() -> None:
    """Written sides that lie on one line become one side, side A the one with the written A."""
    points = "points = [[10, 0], [20, 0], [20, 10], [20, 15], [0, 15], [0, 0]]"
    widths = "width = { A = 1, B = 2, C = 2, D = 3, E = 4, F = 1 }"
    project = with_top(f'layout = "outline"\n{points}', widths + "\n[opening]\nside = 'C'")
    assert isinstance(project.top, Outline)
    ring = points_in((0, 0), (20, 0), (20, 15), (0, 15))
    assert project.top.points == ring
    assert project.borders == inches(1, 2, 3, 4)
    assert project.opening == Opening(length=None, side=1, start=None)
    assert project.notes == (
        "The outline has points in the middle of straight sides; they are left out.",
        "Sides are lettered anew, each with its own border: C of the file is B, D of the file is C,"
        " E of the file is D, F of the file is A.",
    )


def test_regular_outline() -> None:
    """A regular polygon takes its finished side."""
    project = with_top('layout = "outline"\nregular = { sides = 6, side = 9 }')
    assert project.top == Regular(sides=6, side=9 * INCH, fabric="top")
    assert project.borders == inches(2, 2, 2, 2, 2, 2)
    assert project.finished_top is None


def test_folded_over_has_no_opening() -> None:
    """A folded-over blanket has neither opening nor turn, and its outline is its raw edge."""
    head = 'construction = "folded-over"'
    project = with_top('layout = "panel"\ncut = { width = 30, height = 30 }', head=head)
    assert project.construction is Construction.FOLDED_OVER
    assert project.opening is None
    assert project.turn_of_cloth == 0
    outline = with_top('layout = "outline"\npoints = [[0,0],[8,6],[2,14],[-6,8]]', head=head)
    assert isinstance(outline.top, Outline)
    assert outline.top.outset == INCH / 4


def test_opening_as_asked_for() -> None:
    """What is given of the opening is kept, with its side as an index."""
    project = read(SHORT + '[opening]\nlength = 6\nside = "C"\nstart = "2 1/2"')
    length, start = inches(6, 2.5)
    assert project.opening == Opening(length=length, side=2, start=start)


def test_measured_top_carries_the_border() -> None:
    """Backing sizes settle the border from the top as taped, not as designed."""
    text = SHORT.replace("width = 2", "backing = { width = 24, height = 18 }")
    assert read(text).borders == inches(2.125, 2.5, 2.125, 2.5)
    taped = read(text + '[measured]\nwidth = 14\nheight = "9 3/4"')
    width, height = inches(14, 9.75)
    assert taped.measured == Measured(width=width, height=height)
    assert taped.borders == inches(Fraction(33, 16), 2.5, Fraction(33, 16), 2.5)
    assert taped.sewn_top == inches(13.5, 9.25)
    assert taped.notes == (
        "The border is 2 1/2 in at left and right and 2 1/16 in at head and foot.",
    )


def test_border_is_rounded_only_when_asked() -> None:
    """`nearest` rounds the border found, never a size, and tells what that makes."""
    text = SHORT.replace("width = 2", "finished = { width = 18.3, height = 13.7 }")
    assert read(text).borders == inches(*(Fraction(n, 100) for n in (235, 240, 235, 240)))
    rounded = read(text.replace("[border]", '[border]\nnearest = "1/8"'))
    assert rounded.borders == inches(2.375, 2.375, 2.375, 2.375)
    assert rounded.notes == (
        "The border is rounded from 2.4 in x 2.35 in to 2 3/8 in x 2 3/8 in (left and right x "
        "head and foot): the backing is 23 1/2 in x 19 in, the blanket 18 1/4 in x 13 3/4 in.",
    )


def test_sizes_that_agree_are_fine() -> None:
    """All three of border, backing and finished size may be given when they say the same."""
    sizes = "width = 2\nbacking = { width = 22, height = 17.5 }"
    project = read(SHORT.replace("width = 2", sizes + "\nfinished = { width = 17.5, height = 13 }"))
    assert project.borders == inches(2, 2, 2, 2)


def test_narrow_borders_and_trimmed_corners_are_noted() -> None:
    """What works but is hard to sew is said, not refused."""
    text = SHORT.replace("width = 2", "width = { A = '3/8', B = 1, C = '7/16', D = 1 }")
    project = read(text + '[backing]\ncorners = "trimmed"')
    assert project.corners is BackingCorners.TRIMMED
    assert project.notes == (
        "The border is narrow at side A, C (3/8 in): under 1/2 in it is hard to turn and to press.",
        "The backing's corners are trimmed beforehand, but a pieced top seldom comes out exact: "
        "measure it and give [measured], or leave the corners on.",
    )
    assert read(text.replace("{ A = '3/8', B = 1, C = '7/16', D = 1 }", "'3/8'")).notes == (
        "The border is narrow all round (3/8 in): under 1/2 in it is hard to turn and to press.",
    )


@settings(max_examples=60)
@given(projects())
def test_right_tables_are_projects(project: Project) -> None:
    """Every right table is read, with one border a side and each at least its seams."""
    match project.top:
        case Regular(sides=sides):
            count = sides
        case Outline(points=points):
            count = len(points)
        case _:
            count = 4
    assert len(project.borders) == count
    assert min(project.borders) >= project.allowance + project.turn_of_cloth / 2
    assert project.basting < project.allowance
