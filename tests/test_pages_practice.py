"""The practice corner, folded by shapely: dot comes to dot, seam to seam, and the words fit."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path as File

import pytest
from builders import Sewn, folded_over, panel, project, regular, squares
from shapely import LineString, Polygon
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

from cutpaths.drawing import Item
from cutpaths.figures.corners import corner_check
from cutpaths.geometry.marks import MarkKind, select
from cutpaths.pieces import Kit, build
from cutpaths.project.model import BackingCorners, Top
from cutpaths.project.reading import load
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Path, Point, Text
from cutpaths.sheets.pages.page import room_of
from cutpaths.sheets.pages.paper import paper_named
from cutpaths.sheets.pages.practice import Practice, practices

ROOM = room_of(paper_named("letter"))
NEAR_MM = 1e-5  # a drawing is rounded to 1e-6
FIXTURES = File(__file__).parent.parent / "fixtures"
HALF = Fraction(1, 2)


PLAIN = Sewn()


def _kit(top: Top, borders: list[Fraction | int], sewn: Sewn = PLAIN) -> Kit:
    return build(project(top, borders, sewn))


TURNED = {
    "equal": _kit(squares(6, 7), [2 + HALF] * 4),
    "unequal": _kit(panel(20, 30), [2, 3, 4, 5]),
    "hexagon": _kit(regular(6, 10), [2] * 6),
    "triangle": _kit(regular(3, 30), [2] * 3),
    "octagon": _kit(regular(8, 12), [1 + HALF, 2] * 4),
    "turn of cloth": _kit(panel(20, 30), [2, 2, 3, 3], Sewn(turn=Fraction(1, 8))),
    "trimmed": _kit(panel(20, 30), [2] * 4, Sewn(corners=BackingCorners.TRIMMED)),
    "doorway": build(load(FIXTURES / "doorway.toml")),
}
FOLDED = {
    "equal": _kit(panel(20, 30), [1] * 4, folded_over()),
    "unequal": _kit(panel(20, 30), [1, 2, 1, 2], folded_over()),
}


def _lines(practice: Practice, block: int, role: Role) -> list[LineString]:
    """The lines of a role on one of the papers."""
    shapes = (i.shape for i in practice.blocks[block].items if i.role is role)
    return [LineString(shape.points) for shape in shapes if isinstance(shape, Path)]


def _dots(practice: Practice, block: int) -> list[Point]:
    shapes = (i.shape for i in practice.blocks[block].items if i.role is Role.DOT)
    return [shape.center for shape in shapes if isinstance(shape, Circle)]


def _paper(practice: Practice, block: int) -> Polygon:
    (ring,) = (
        i.shape.points
        for i in practice.blocks[block].items
        if i.role is Role.CUT and isinstance(i.shape, Path)
    )
    return Polygon(ring)


def _mirrored(shape: BaseGeometry, line: LineString) -> BaseGeometry:
    """A shape folded over along a line, which goes on beyond its ends."""
    (x, y), (x1, y1) = line.coords[0], line.coords[-1]
    length = ((x1 - x) ** 2 + (y1 - y) ** 2) ** 0.5
    u, v = (x1 - x) / length, (y1 - y) / length
    a, b, d = u * u - v * v, 2 * u * v, v * v - u * u
    return affine_transform(shape, [a, b, b, d, x - a * x - b * y, y - b * x - d * y])


def _apart(first: BaseGeometry, second: BaseGeometry) -> float:
    return float(first.hausdorff_distance(second))


def _miter_fold(practice: Practice) -> LineString:
    """The printed fold that carries one dot to the other; there must be one alone."""
    first, second = (LineString([p, (p[0] + 1e-9, p[1])]) for p in _dots(practice, 0))
    found = [
        fold
        for fold in _lines(practice, 0, Role.FOLD)
        if _apart(_mirrored(first, fold), second) < NEAR_MM
    ]
    assert len(found) == 1
    return found[0]


def _all(kits: dict[str, Kit]) -> list[tuple[str, int]]:
    return [(name, n) for name, kit in kits.items() for n in range(len(kit.templates))]


@pytest.mark.parametrize(("name", "number"), _all(TURNED))
def test_folded_on_the_marked_line_dot_comes_to_dot(name: str, number: int) -> None:
    """One printed fold brings the dots together, and the halves of the miter stitching line."""
    practice = practices(TURNED[name], ROOM)[number]
    assert len(_dots(practice, 0)) == 2
    fold = _miter_fold(practice)
    seams = _lines(practice, 0, Role.STITCH)
    halves = [
        seam
        for seam in seams
        if min(_apart(LineString([p, p]), LineString([fold.coords[0]] * 2)) for p in seam.coords)
        < NEAR_MM
    ]
    assert len(halves) == 2
    assert _apart(_mirrored(halves[0], fold), halves[1]) < NEAR_MM


@pytest.mark.parametrize(("name", "number"), _all(TURNED))
def test_turned_over_the_borders_meet_in_one_point(name: str, number: int) -> None:
    """Folded on the border folds, both dots fall together: where the top's dot lies."""
    kit = TURNED[name]
    practice = practices(kit, ROOM)[number]
    miter = _miter_fold(practice)
    borders = [f for f in _lines(practice, 0, Role.FOLD) if f is not miter and f.length > 20]
    borders = [f for f in borders if _apart(f, miter) > NEAR_MM]
    assert len(borders) == 2
    first, second = (LineString([p, p]) for p in _dots(practice, 0))
    met = [
        _mirrored(first, one)
        for one, other in (borders, borders[::-1])
        if _apart(_mirrored(first, one), _mirrored(second, other)) < NEAR_MM
    ]
    at = next(n for n, c in enumerate(kit.blanket.corners) if c.at == practice.corners[0])
    place = kit.backing.places[0].inverse().point(kit.blanket.seam[at])
    assert min(_apart(each, LineString([place, place])) for each in met) < NEAR_MM


@pytest.mark.parametrize(("name", "number"), _all(TURNED))
def test_both_papers_end_together(name: str, number: int) -> None:
    """Beside the dot, the seams of backing and top are as long, so that the edges come out even."""
    practice = practices(TURNED[name], ROOM)[number]
    lengths = []
    for block in (0, 1):
        dots = [LineString([p, p]) for p in _dots(practice, block)]
        edge = _paper(practice, block).boundary
        seams = [
            seam.length
            for seam in _lines(practice, block, Role.STITCH)
            if seam.length > 13  # longer than any bar or tack
            and min(seam.distance(dot) for dot in dots) < NEAR_MM
            and seam.distance(edge) < NEAR_MM
            and abs(edge.distance(LineString([seam.coords[0]] * 2)))
            + abs(edge.distance(LineString([seam.coords[-1]] * 2)))
            > NEAR_MM
        ]
        lengths.append(sorted(seams))
    assert len(lengths[1]) == 2
    assert lengths[0] == pytest.approx(lengths[1], abs=NEAR_MM)


def test_raw_edges_match_only_where_borders_are_equal() -> None:
    """Equal borders at a right angle: the folded paper lies edge on edge; unequal ones: not."""
    for name, even in (("equal", True), ("unequal", False), ("hexagon", True)):
        practice = practices(TURNED[name], ROOM)[0]
        paper, fold = _paper(practice, 0), _miter_fold(practice)
        same = _mirrored(paper, fold).symmetric_difference(paper).area < 1e-3
        assert same is even


@pytest.mark.parametrize(("name", "number"), _all(TURNED | {}))
def test_the_marks_are_those_of_the_cloth(name: str, number: int) -> None:
    """Trim lines and folds are there as on the cloth; nothing runs off the paper."""
    kit = TURNED[name]
    practice = practices(kit, ROOM)[number]
    corner = practice.corners[0]
    wanted = len(select(kit.backing.marks, MarkKind.MITER_TRIM, corner))
    assert len(_lines(practice, 0, Role.TRIM)) == wanted
    for block in (0, 1):
        paper = _paper(practice, block).buffer(NEAR_MM)
        for item in practice.blocks[block].items:
            if isinstance(item.shape, Path):
                ring = item.shape.points
                assert paper.covers(LineString(ring)), item
            if isinstance(item.shape, Circle):
                assert paper.contains(LineString([item.shape.center] * 2))


@pytest.mark.parametrize(("name", "number"), _all(FOLDED))
def test_folded_over_the_corner_fold_runs_through_the_tops_corner(name: str, number: int) -> None:
    """The corner fold runs through the crossing of the second folds: the top's corner."""
    kit = FOLDED[name]
    practice = practices(kit, ROOM)[number]
    folds = _lines(practice, 0, Role.FOLD)
    assert len(folds) == 5
    crossings = [
        a.intersection(b) for n, a in enumerate(folds) for b in folds[n + 1 :] if a.intersects(b)
    ]
    through = [p for p in crossings if sum(f.distance(p) < NEAR_MM for f in folds) == 3]
    assert through
    assert _dots(practice, 0) == []


def _words(practice: Practice) -> str:
    return " ".join(i.shape.string for i in practice.blocks[2].items if isinstance(i.shape, Text))


@pytest.mark.parametrize("name", TURNED)
def test_the_words_follow_the_type_of_the_corner(name: str) -> None:
    """Each corner has the check of its own type; other types are not spoken of."""
    kit = TURNED[name]
    by_name = {corner.at: corner for corner in kit.blanket.corners}
    for practice in practices(kit, ROOM):
        words, corner = _words(practice), by_name[practice.corners[0]]
        assert corner_check(corner, folded=False) in words
        assert ("Cut along the trim line" in words) is bool(_lines(practice, 0, Role.TRIM))
        assert f"dot {corner.at[0]} on dot {corner.at[1]}" in words
        if name == "hexagon":
            assert "45" not in words
            assert "triangle" not in words


@pytest.mark.parametrize("name", FOLDED)
def test_the_words_of_folded_over_corners(name: str) -> None:
    """Folded over there are no dots and no miter stitching, and 45 degrees only where it is so."""
    kit = FOLDED[name]
    for practice in practices(kit, ROOM):
        words = _words(practice)
        assert "dot" not in words
        assert ("which stands at 45 degrees" in words) is (name == "equal")
        assert ("does not stand at 45 degrees" in words) is (name == "unequal")
        assert words.index("Cut the tip off") < words.index("Fold the tip") < words.index("Check:")


@pytest.mark.parametrize(("name", "number"), _all(TURNED | {"folded over": FOLDED["equal"]}))
def test_the_key_shows_the_lines_that_are_there(name: str, number: int) -> None:
    """A sample for each kind of line on the papers, and for no other."""
    practice = practices((TURNED | {"folded over": FOLDED["equal"]})[name], ROOM)[number]
    *papers, words = practice.blocks
    drawn = {i.role for paper in papers for i in paper.items if isinstance(i.shape, Path)}
    lines = {Role.FOLD, Role.STITCH, Role.BASTE, Role.TRIM, Role.CUT}
    sampled = [i.role for i in words.items if isinstance(i.shape, Path)]
    assert sampled == [role for role in sampled if role in drawn]
    assert set(sampled) == drawn & lines


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", ["equal", "doorway", "hexagon"])
def test_papers_lie_as_the_steps_show_their_corner(name: str, paper: str) -> None:
    """Corner DA lies at the lower left: papers are never turned where they fit as they are."""
    for practice in practices(TURNED[name], room_of(paper_named(paper))):
        assert [block.turns for block in practice.blocks] == [(0,)] * 3
    backing = practices(TURNED[name], ROOM)[0].backing
    assert min(y for _, y in backing) == pytest.approx(0.0)


def test_there_is_one_for_each_different_corner() -> None:
    """Mirrored and alike corners share a practice corner, as they share a template."""
    assert [p.corners for p in practices(TURNED["equal"], ROOM)] == [("DA", "AB", "BC", "CD")]
    assert len(practices(TURNED["unequal"], ROOM)) == 4
    names = [letter for p in practices(TURNED["doorway"], ROOM) for letter in p.corners]
    assert sorted(names) == ["AB", "BC", "CD", "DA"]


def test_each_paper_says_what_it_is_and_whose_sides() -> None:
    """The piece, the face and both sides stand on each paper, upright and off its lines."""
    for kit in TURNED.values():
        for practice in practices(kit, ROOM):
            for block, title in ((0, "BACKING, wrong side up"), (1, "TOP, wrong side up")):
                items: tuple[Item, ...] = practice.blocks[block].items
                texts = [i.shape for i in items if isinstance(i.shape, Text)]
                assert title in [text.string for text in texts]
                for side in practice.corners[0]:
                    assert any(t.string.startswith(f"side {side}") for t in texts)
