"""Sizes of patches: cut or finished, and wide enough for their seams."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from cutpaths.project.fill import LONGEST
from cutpaths.project.flaws import Flaw
from cutpaths.project.kinds import Patch
from cutpaths.project.seams import Seams
from cutpaths.project.sizes import raw_top
from cutpaths.source import KeyPath


def patch_flaws(path: KeyPath, patch: Patch, seams: Seams) -> Iterator[Flaw]:
    """Rules of a square patch."""
    cut, finished = patch.cut, patch.finished
    if cut is None and finished is None:
        yield Flaw(path, "must have `cut` or `finished`", "Write for example `patch = 5`")
    elif cut is not None and finished is not None and cut != raw_top(finished, seams.allowance):
        made = seams.text(raw_top(finished, seams.allowance))
        problem = f"has sizes that disagree: finished {seams.text(finished)} is cut {made}"
        yield Flaw(path, f"{problem}, got cut {seams.text(cut)}", "Give one of the two")
    elif finished_side(patch, seams) < seams.allowance:
        yield seam_too_wide("patch", finished_side(patch, seams), seams)


def finished_side(patch: Patch, seams: Seams) -> Fraction:
    """Finished side of a square patch; 0 or less where none is given or its seams take all."""
    if patch.finished is not None:
        return patch.finished
    return (patch.cut or 0) - 2 * seams.allowance


def top_too_long(size: Fraction, seams: Seams) -> Flaw:
    """A top is no longer than any length may be."""
    problem = f"must not be over {seams.text(LONGEST)}, is {seams.text(size)}"
    return Flaw(("top",), problem, "Use fewer or smaller patches")


def seam_too_wide(what: str, seen: Fraction, seams: Seams) -> Flaw:
    """A piece must show at least as much as a seam takes, or its seams lie over each other."""
    if seen <= 0:
        half = raw_top(seen, seams.allowance) / 2
        rule = f"less than half the cut {what}, {seams.text(half)}"
    else:
        rule = f"no larger than the finished {what}, {seams.text(seen)}"
    return Flaw(
        ("seams", "allowance"),
        f"must be {rule}, got {seams.text(seams.allowance)}",
        f"Make the {what} larger or the seam allowance smaller",
    )
