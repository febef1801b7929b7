"""Step pictures can be read: faces are told apart in grey, and labels find free places."""

from __future__ import annotations

from collections import defaultdict
from itertools import combinations, pairwise

import pytest
from test_steps import ALL, kit_of, steps

from cutpaths.paint import Colour
from cutpaths.pieces import build
from cutpaths.project import read
from cutpaths.roles import Role
from cutpaths.shapes import Text
from cutpaths.sheets.fabric_paint import luminance
from cutpaths.sheets.palette import colours_of
from cutpaths.sheets.steps.labels import Ground, Name, placed
from cutpaths.sheets.steps.lines import CENTER, PATCH, QUARTER, dashes, double, tick_lines
from cutpaths.sheets.steps.picture import PEN
from cutpaths.sheets.steps.shades import shades_of
from cutpaths.sheets.steps.tints import TINTS, Cloth, shades
from cutpaths.sheets.steps.view import MIRRORED, Room, detail, frame, whole

# WCAG 2.1: 1.4.3 asks 4.5:1 of text, 1.4.11 asks 3:1 of what is needed to understand a picture.
TEXT_CONTRAST, LINE_CONTRAST = 4.5, 3.0
BLACK = (0, 0, 0)


def contrast(one: Colour, other: Colour) -> float:
    """The contrast ratio of two colours (WCAG 2.1, definition)."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def colour(cloth: Cloth) -> Colour:
    """The colour of a face."""
    return TINTS[cloth].paint.colour


@pytest.mark.parametrize("cloth", Cloth)
def test_text_and_stitches_can_be_read_on_every_face(cloth: Cloth) -> None:
    """Black text has 4.5:1 on each face, and every ink of the pen 3:1."""
    assert contrast(BLACK, colour(cloth)) >= TEXT_CONTRAST
    dark = [ink for _, ink in PEN.inks if contrast(ink, colour(cloth)) < LINE_CONTRAST]
    assert dark == []


def test_only_wrong_sides_are_striped_and_each_its_own_way() -> None:
    """A right side is plain; the stripes of top and backing have different slopes."""
    striped = [cloth for cloth in Cloth if TINTS[cloth].stripes is not None]
    assert striped == [Cloth.TOP_WRONG, Cloth.BACKING_WRONG]
    assert TINTS[Cloth.TOP_WRONG].slope != TINTS[Cloth.BACKING_WRONG].slope


def test_faces_are_told_apart_in_grey() -> None:
    """Each right side is clearly darker than both wrong sides, and the two differ."""
    for right in (Cloth.TOP_RIGHT, Cloth.BACKING_RIGHT):
        for wrong in (Cloth.TOP_WRONG, Cloth.BACKING_WRONG):
            assert contrast(colour(right), colour(wrong)) > 1.5
    assert contrast(colour(Cloth.TOP_RIGHT), colour(Cloth.BACKING_RIGHT)) > 1.3


def test_shades_of_the_top_differ() -> None:
    """Up to nine fabrics have as many shades, from light to dark, on each of which all is read."""
    assert shades(1) == (TINTS[Cloth.TOP_RIGHT].paint,)
    for count in range(1, 10):
        found = [luminance(paint.colour) for paint in shades(count)]
        assert len(set(found)) == count
        assert found == sorted(found, reverse=True)
        assert all(contrast(BLACK, paint.colour) >= TEXT_CONTRAST for paint in shades(count))
        darkest = shades(count)[-1].colour
        assert [ink for _, ink in PEN.inks if contrast(ink, darkest) < LINE_CONTRAST] == []


def test_two_and_three_shades_are_told_apart_in_grey() -> None:
    """Of two or three fabrics each shade is clearly darker than the one before it."""
    for count in (2, 3):
        for light, dark in pairwise(shades(count)):
            assert contrast(light.colour, dark.colour) > 1.2


@pytest.mark.parametrize("name", ALL)
def test_the_lightest_fabric_has_the_lightest_shade(name: str) -> None:
    """Shades come in the order of the fabrics' own lightness; those alike in the project's."""
    kit = kit_of(name)
    own = colours_of(kit.project.fabrics)
    found = shades_of(kit)
    assert set(found) == {piece.fabric for piece in kit.patchwork.pieces()}
    lights = [luminance(own[fabric]) for fabric in found]
    assert lights == sorted(lights, reverse=True)
    tones = [luminance(paint.colour) for paint in found.values()]
    assert tones == sorted(set(tones), reverse=True)


def test_the_shades_of_the_example_follow_its_colours() -> None:
    """Sand is lighter than sea green, so it is in the steps, whichever is named first."""
    sand, sea = (shades_of(kit_of("tidepool"))[name].colour for name in ("sand", "sea"))
    assert luminance(sand) > luminance(sea)
    text = (
        'format = 1\ntitle = "Turned about"\nborder = { width = 2 }\n'
        'backing = { fabric = "dark" }\n'
        '[fabric.dark]\ncolour = "#203040"\n[fabric.pale]\ncolour = "#f0f0e0"\n'
        '[top]\nlayout = "squares"\npatch = 5\ncolumns = 4\nrows = 5\nfabrics = ["dark", "pale"]'
    )
    assert list(shades_of(build(read(text)))) == ["pale", "dark"]


STYLES_OF = {
    Role.STITCH: "stitches",
    Role.BASTE: "basting, long stitches",
    Role.FOLD: "fold",
    Role.TOPSTITCH: "top stitching",
}


@pytest.mark.parametrize(
    "name", ["tidepool", "beehive", "doorway", "folded", "harbor", "lighthouse"]
)
def test_a_style_of_line_has_one_meaning_in_all_pictures(name: str) -> None:
    """The key never gives a style two meanings: a seam line that is marked is not dashed."""
    seen: dict[Role, set[str]] = defaultdict(set)
    for each in steps(name):
        keyed = [item for item in each.drawing.items if item.key == "key"]
        for line, text in pairwise(keyed):
            if line.role is not Role.LABEL and isinstance(text.shape, Text):
                seen[line.role].add(text.shape.string)
    for role, meaning in STYLES_OF.items():
        assert seen.get(role, {meaning}) == {meaning}
    assert seen.get(Role.TRIM, set()) <= {"trim line", "cut"}


def test_marked_miters_quarters_and_centers_look_different() -> None:
    """A miter is a double line; a center has a bar, a quarter mark is double, a patch's single."""
    assert len(double((0.0, 0.0), (10.0, 0.0))) == 2
    found = [len(tick_lines((0.0, 0.0), (0.0, 2.0), kind)) for kind in (CENTER, QUARTER, PATCH)]
    assert found == [2, 2, 1]
    roles = [tick_lines((0.0, 0.0), (0.0, 2.0), kind)[0][0] for kind in (CENTER, QUARTER)]
    assert roles == [Role.CENTER, Role.MATCH]


def test_a_hidden_edge_is_dashed_over_its_length() -> None:
    """Dashes of 1.1 mm with gaps of 0.9 mm: ten begin on 20 mm, and none ends beyond it."""
    found = [ring for ring, _ in dashes((0.0, 0.0), (20.0, 0.0))]
    assert len(found) == 10
    assert max(x for ring in found for x, _ in ring) <= 20.0


def ground() -> Ground:
    """An empty sheet of 100 x 60 mm."""
    return Ground(bounds=(0.0, 0.0, 100.0, 60.0), tags=[], signs=[], lines=[], edges=[], leaders=[])


def test_a_label_stands_on_the_side_wished_for() -> None:
    """With room all round it is right of what it names, with a leader that starts there."""
    (found,) = placed([Name(string="dot", at=(50.0, 30.0), toward=(1.0, 0.0))], ground())
    assert found.leader is not None
    assert found.leader[0] == (50.0, 30.0)
    assert min(x for x, _ in found.tag) > 50.0


def test_a_label_keeps_off_signs_lines_and_the_edge_of_the_sheet() -> None:
    """At the right edge, beside a sign, it stands elsewhere, wholly on the sheet."""
    taken = ground()
    taken.signs.append(frame(70.0, 20.0, 92.0, 40.0))
    taken.lines.append(((0.0, 30.0), (100.0, 30.0)))
    (found,) = placed([Name(string="corner", at=(95.0, 30.0), toward=(1.0, 0.0))], taken)
    left, foot = min(x for x, _ in found.tag), min(y for _, y in found.tag)
    right, head = max(x for x, _ in found.tag), max(y for _, y in found.tag)
    assert 0.0 <= left < right <= 100.0
    assert not (left < 92.0 and right > 70.0 and foot < 40.0 and head > 20.0)
    assert not foot < 30.0 < head


def test_a_label_keeps_to_its_part_of_the_sheet() -> None:
    """Wished to the right of a place at the end of its part, it stands within that part."""
    name = Name(string="dot of side A", at=(48.0, 30.0), toward=(1.0, 0.0), within=(0.0, 50.0))
    (found,) = placed([name], ground())
    assert max(x for x, _ in found.tag) <= 50.0


def test_labels_keep_off_one_another() -> None:
    """Ten labels of one place have ten places, and no leader crosses a label."""
    names = [Name(string=f"label {i}", at=(50.0, 30.0)) for i in range(10)]
    found = placed(names, ground())
    for one, other in combinations(found, 2):
        apart = (
            max(x for x, _ in one.tag) <= min(x for x, _ in other.tag)
            or max(x for x, _ in other.tag) <= min(x for x, _ in one.tag)
            or max(y for _, y in one.tag) <= min(y for _, y in other.tag)
            or max(y for _, y in other.tag) <= min(y for _, y in one.tag)
        )
        assert apart


def test_a_view_is_true_in_both_ways_and_mirrors() -> None:
    """One scale for both axes; a mirrored ring comes back counter-clockwise."""
    ring = ((0.0, 0.0), (200.0, 0.0), (200.0, 100.0), (0.0, 100.0))
    view = whole(ring, Room(10.0, 5.0, 50.0, 50.0))
    assert view.scale == pytest.approx(0.25)
    assert view.points(ring) == ((10.0, 5.0), (60.0, 5.0), (60.0, 30.0), (10.0, 30.0))
    mirrored = whole(ring, Room(10.0, 5.0, 50.0, 50.0), MIRRORED)
    assert mirrored.point((0.0, 0.0)) == pytest.approx((60.0, 5.0))
    assert mirrored.ring(ring)[0] == pytest.approx(mirrored.point(ring[-1]))


def test_a_detail_is_cut_off_outside_what_it_must_show() -> None:
    """Its window is the box of its points, and as much more as is asked for."""
    view = detail(((0.0, 0.0), (100.0, 100.0)), Room(0.0, 0.0, 50.0, 80.0), pad=2.0)
    assert view.window == ((-2.0, -2.0), (52.0, -2.0), (52.0, 52.0), (-2.0, 52.0))
