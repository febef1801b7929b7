"""The report of a calibration, line by line; lengths in mm, because they are small."""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.lengths import exact_text
from cutpaths.projector.calibrate import Calibration, Residual, still_to_measure
from cutpaths.projector.lens import on_cloth

CAUTIONS = (
    "Fix the projector so that it cannot fall, and its cable so that nobody trips over it.",
    "Do not look into the lens.",
)


def report(found: Calibration) -> list[str]:
    """What was found: the picture, each reading, the expected errors, and what to measure next."""
    return [*_picture(found), "", *_readings(found), "", *_errors(found), "", *_next(found)]


def _picture(found: Calibration) -> Iterator[str]:
    rig = found.rig
    left, bottom, right, top = _box(found)
    size = f"{right - left:.0f} x {top - bottom:.0f} mm"
    yield f"{rig.name}: {rig.width} x {rig.height} pixels on {size} of table"
    if rig.thickness and rig.lens:
        moved = on_cloth(found.view, rig)
        corners = zip(found.view.outline, moved.outline, strict=True)
        most = max(((p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2) ** 0.5 for p, q in corners)
        yield f"Cloth of {exact_text(rig.thickness, rig.unit)} moves a mark by up to {most:.1f} mm"


def _box(found: Calibration) -> tuple[float, float, float, float]:
    xs = [x for x, _ in found.view.outline]
    ys = [y for _, y in found.view.outline]
    return min(xs), min(ys), max(xs), max(ys)


def _readings(found: Calibration) -> Iterator[str]:
    yield f"{'reading':<10} {'tape':>12} {'off':>9}"
    for residual in found.residuals:
        yield _reading(found, residual)
    if not found.spare:
        yield "No reading is left over: a misread tape would not be noticed."


def _reading(found: Calibration, residual: Residual) -> str:
    tape = exact_text(residual.mm, found.rig.unit) if residual.mm else ""
    remark = "" if residual.checked else "  nothing checks it"
    if residual.doubtful:
        remark = "  doubtful: measure it again"
    return f"{residual.name:<10} {tape:>12} {residual.off:>+6.1f} mm{remark}"


def _errors(found: Calibration) -> Iterator[str]:
    within = exact_text(found.rig.within, found.rig.unit)
    yield f"Expected error of a mark in mm, as the picture lies, for a tape good to {within}:"
    for row in found.errors:
        yield "  " + " ".join(f"{mm:>5.1f}" for mm in row)
    yield f"Over the whole picture {found.usual:.1f} mm, at worst {found.worst:.1f} mm."


def _next(found: Calibration) -> Iterator[str]:
    first, second = (still_to_measure(found.rig) or (found.following,))[0]
    yield f"To make it better, measure {first}-{second} next."
    yield from CAUTIONS
