"""Step pictures can be read: faces are told apart in grey, and labels find free places."""

from __future__ import annotations

from itertools import combinations

import pytest

from cutpaths.paint import Colour
from cutpaths.sheets.fabric_paint import luminance
from cutpaths.sheets.steps.labels import Ground, Name, placed
from cutpaths.sheets.steps.picture import PEN
from cutpaths.sheets.steps.tints import TINTS, Cloth, shade
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
    """Five fabrics of a top have five shades."""
    assert len({shade(i).colour for i in range(5)}) == 5
    assert shade(5) == shade(0)


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
