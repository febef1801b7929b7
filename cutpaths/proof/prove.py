"""Sewn on paper: whether the pieces of a kit fit together, judged from their own coordinates.

Nothing here knows the formulas that made the pieces. Checks go in the order of the work; while
shapes, marks, faces or letters are wrong there is nothing to sew, and the proof ends there.
"""

from __future__ import annotations

from collections.abc import Callable

from cutpaths.pieces import Kit
from cutpaths.project.model import Construction
from cutpaths.proof import borders, folding, miters, patches, seams, top, waste
from cutpaths.proof.check import Check, Proof
from cutpaths.proof.filling import filling
from cutpaths.proof.grain import grain_kept
from cutpaths.proof.inside import marks_inside
from cutpaths.proof.opening import opening
from cutpaths.proof.orientation import orientation, top_placed
from cutpaths.proof.pairs import pairs_serve
from cutpaths.proof.panels import panels
from cutpaths.proof.paper import Paper, paper_of_folded, paper_of_turned
from cutpaths.proof.patches import Patches
from cutpaths.proof.soundness import marks_whole, shapes_sound
from cutpaths.proof.templates import templates
from cutpaths.proof.wanted import Wanted, wanted_folded, wanted_turned
from cutpaths.values import Value

_Checks = tuple[Check, ...]


class _Sewing(Value, kw_only=True):
    """What the proof of one construction is made of."""

    wanted: Callable[[Kit], tuple[Wanted, ...]]
    lay: Callable[[Kit], Paper]
    joined: Callable[[Paper, Patches | None], _Checks]


def prove(kit: Kit) -> Proof:
    """Checks everything that must hold for the pieces of a kit."""
    sewing = _SEWING[kit.project.construction]
    checks = shapes_sound(kit)
    if _all_pass(checks):
        checks += marks_whole(kit, sewing.wanted(kit))
    if _all_pass(checks):
        checks += orientation(kit)
    if not _all_pass(checks):
        return Proof(checks)
    paper, laid = sewing.lay(kit), patches.lay_patches(kit)
    return Proof(
        (
            *checks,
            *top_placed(paper),
            *grain_kept(paper),
            *_top(paper, laid),
            *sewing.joined(paper, laid),
            *waste.trim_line(paper),
            *waste.waste_sides(paper),
            *waste.waste_region(paper),
            *waste.waste_and_kept(paper),
            *templates(paper),
            *panels(kit),
            *filling(paper),
            *marks_inside(kit),
        )
    )


def _all_pass(checks: _Checks) -> bool:
    return all(check.passed for check in checks)


def _top(paper: Paper, laid: Patches | None) -> _Checks:
    """The top and its patches."""
    pieced: _Checks = ()
    if laid is not None:
        pieced = (
            *patches.patches_tile(paper.kit, paper.measure, laid),
            *patches.patch_allowances(paper.kit, paper.measure),
            *patches.patch_seams(paper.kit, paper.measure, laid),
            *pairs_serve(paper.kit, paper.measure),
        )
    return (
        *pieced,
        *top.top_size(paper),
        *top.top_allowance(paper),
    )


def _turned(paper: Paper, laid: Patches | None) -> _Checks:
    """Top and backing sewn together, turned, and mitered."""
    return (
        *top.top_over_patches(paper),
        *top.basting_line(paper),
        *seams.ticks_at_seams(paper, laid),
        *seams.seams_equal(paper),
        *seams.stitching_whole(paper),
        *seams.dots_meet(paper),
        *seams.matches_meet(paper),
        *seams.centers_in_middle(paper),
        *seams.signs_on_seams(paper),
        *opening(paper),
        *borders.border_width(paper),
        *borders.front_covered(paper),
        *borders.backing_outline(paper),
        *borders.backing_allowance(paper),
        *miters.miter_halves(paper),
        *miters.miter_crease(paper),
        *miters.miter_angle(paper),
        *miters.miter_allowance(paper),
    )


def _folded_over(paper: Paper, _laid: Patches | None) -> _Checks:
    """The backing's edge folded twice onto the top."""
    return (
        *borders.backing_outline(paper),
        *folding.folds_in_place(paper),
        *folding.centers(paper),
        *folding.folded_front(paper),
    )


_SEWING = {
    Construction.TURNED: _Sewing(wanted=wanted_turned, lay=paper_of_turned, joined=_turned),
    Construction.FOLDED_OVER: _Sewing(
        wanted=wanted_folded, lay=paper_of_folded, joined=_folded_over
    ),
}
