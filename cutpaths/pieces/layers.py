"""From the exact sizes of a project to the float millimetres that geometry works on."""

from __future__ import annotations

from cutpaths.geometry.assembly import Assembly
from cutpaths.geometry.blanket import Layers
from cutpaths.geometry.edge_seams import edge_seams
from cutpaths.geometry.polygons import distance, edges
from cutpaths.pieces.opening import opening_of
from cutpaths.pieces.sewn import keeps_patch_seams, order_of_sewing, right_within, seam_as_sewn
from cutpaths.pieces.tops import seam_of_one_cloth
from cutpaths.project.model import BackingCorners, Project


def layers_of(project: Project, patchwork: Assembly | None) -> Layers:
    """What the construction is laid out from.

    Raises:
        InputError: the opening asked for does not fit; says the longest that would.
    """
    designed = seam_of_one_cloth(project) if patchwork is None else patchwork.outline
    seam = seam_as_sewn(project, designed)
    lengths = [distance(p, q) for p, q in edges(seam)]
    ticked = patchwork is not None and keeps_patch_seams(project)
    parts = edge_seams(designed, patchwork.all_seams() if patchwork and ticked else ())
    # On a measured top the patch seams keep their share of each side.
    seams = tuple(
        tuple(part * length for part in on_side)
        for on_side, length in zip(parts, lengths, strict=True)
    )
    borders = project.borders
    return Layers(
        seam=seam,
        allowance=float(project.allowance),
        borders=tuple(float(border + project.turn_of_cloth / 2) for border in borders),
        equal_corners=tuple(borders[i - 1] == borders[i] for i in range(len(borders))),
        trim=float(project.trim),
        basting=float(project.basting),
        edge_seams=seams,
        opening=opening_of(project, order_of_sewing(project, seam), lengths, seams),
        corners_trimmed=project.corners is BackingCorners.TRIMMED,
        right_within=right_within(project),
    )
