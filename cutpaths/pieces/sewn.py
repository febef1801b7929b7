"""The top as it was sewn: from what was taped to the seam polygon that the backing follows; mm."""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from cutpaths.geometry.blanket import RIGHT_ANGLE_SLACK_DEGREES, sewing_order
from cutpaths.geometry.outlines import rectangle
from cutpaths.geometry.polygons import Ring, distance, edges, offset
from cutpaths.later import Later
from cutpaths.project.measured import SIDE_NAMES, Difference, Measured, Remedy
from cutpaths.project.measured_words import easing_notes
from cutpaths.project.model import Project
from cutpaths.project.sizes import raw_top
from cutpaths.shapes import shift
from cutpaths.values import replace

if TYPE_CHECKING:
    from cutpaths.geometry import largest_rectangle as largest
    from cutpaths.geometry import quadrilateral
    from cutpaths.geometry.largest_rectangle import Trimmed
    from cutpaths.geometry.quadrilateral import Span
else:  # only tops that were measured need them
    largest = Later("cutpaths.geometry.largest_rectangle")
    quadrilateral = Later("cutpaths.geometry.quadrilateral")


def taped(measured: Measured) -> dict[Span, float]:
    """Every length that was taped."""
    given = zip(
        (*quadrilateral.SIDES, *quadrilateral.DIAGONALS, *quadrilateral.MIDDLES),
        (*(measured.sides or (None,) * 4), *measured.diagonals, measured.width, measured.height),
        strict=True,
    )
    return {span: float(mm) for span, mm in given if mm is not None}


def true_shape(measured: Measured) -> Ring:
    """The top's raw edge as it really is; needs four sides and a diagonal."""
    return quadrilateral.fit(taped(measured))


def to_trim(measured: Measured) -> Trimmed:
    """The largest rectangle in the top, raw edge to raw edge."""
    return largest.largest_rectangle(true_shape(measured))


def with_trimmed_size(project: Project) -> Project:
    """The project with the size of the rectangle to which its top is trimmed, where it is.

    The size is cut off after a millionth of a millimetre, as drawings hold it.
    """
    measured = project.measured
    if measured is None or measured.remedy is not Remedy.TRIM_TOP:
        return project
    width, height = (Fraction(math.floor(mm * 10**6), 10**6) for mm in to_trim(measured).size)
    return replace(project, measured=replace(measured, trimmed=(width, height)))


def seam_as_sewn(project: Project, designed: Ring) -> Ring:
    """The seam polygon that backing, dots and miters follow; it starts at the origin.

    Raises:
        TypeError: the top is no rectangle, but was measured as one.
    """
    measured, allowance = project.measured, float(project.allowance)
    if measured is None or measured.remedy is Remedy.AS_DESIGNED:
        return designed
    if measured.remedy is Remedy.CUT_TO_FIT:
        seam = offset(true_shape(measured), [-allowance] * 4)
        return shift(-seam[0][0], -seam[0][1]).ring(seam)
    size = project.sewn_top
    if size is None:
        raise TypeError("only rectangles are measured by width and height")
    return rectangle(float(size[0]), float(size[1]))


def to_ease(project: Project, seam: Ring) -> tuple[Difference, ...]:
    """What is eased onto the backing: sides along the seam, or the middle where no more is known.

    Args:
        project: how the top was sewn, and what is done about it.
        seam: the seam polygon that the backing follows.
    """
    measured = project.measured
    if measured is None or measured.remedy not in (Remedy.EASE, Remedy.AS_DESIGNED):
        return ()
    if measured.sides:
        sewn = offset(true_shape(measured), [-float(project.allowance)] * 4)
        sides = zip(SIDE_NAMES, _lengths(sewn), _lengths(seam), strict=True)
        return tuple(Difference(f"side {name}", have, want) for name, have, want in sides)
    names = zip(
        ("the width", "the height"), measured.average, _cut_for(project, measured), strict=True
    )
    return tuple(Difference(name, have, want) for name, have, want in names)


def _lengths(ring: Ring) -> list[Fraction]:
    """Lengths of the edges, to the millionth of a millimetre that drawings hold."""
    return [Fraction(f"{distance(start, end):.6f}") for start, end in edges(ring)]


def _cut_for(project: Project, measured: Measured) -> tuple[Fraction, Fraction]:
    """Raw size of the rectangle for which the backing is cut."""
    designed = project.finished_top
    if measured.remedy is Remedy.EASE or designed is None:
        return measured.average
    return raw_top(designed[0], project.allowance), raw_top(designed[1], project.allowance)


def sewn_notes(project: Project, seam: Ring) -> Iterator[str]:
    """A caution where more is eased than can be; a top that leans counts by its diagonals."""
    measured, eased = project.measured, to_ease(project, seam)
    if measured is None or not eased:
        return
    within = measured.against(_cut_for(project, measured))
    yield from easing_notes(
        (*eased, *(each for each in within if not each.what.startswith("side")))
    )


def keeps_patch_seams(project: Project) -> bool:
    """Whether patch seams stand at the top's edge where the design's share of it says.

    Trimming shifts them along the edge, so that a tick would mislead.
    """
    return project.measured is None or project.measured.remedy is not Remedy.TRIM_TOP


def order_of_sewing(project: Project, seam: Ring) -> tuple[int, ...]:
    """The order in which sides are sewn; a measured top is sewn as the rectangle it is meant to be.

    Common practice, no source.
    """
    return (0, 2, 1, 3) if project.measured is not None else sewing_order(seam)


def right_within(project: Project) -> float:
    """How far from 90 degrees a corner counts as right, in degrees: what the ruler cannot show.

    Turned by so much, the far end of the widest miter moves by half a step of the ruler.
    """
    if project.measured is None:
        return RIGHT_ANGLE_SLACK_DEGREES
    reach = 2 * max(project.borders) + project.turn_of_cloth + project.allowance
    return math.degrees(math.atan(float(project.ruler.step / 2 / reach)))
