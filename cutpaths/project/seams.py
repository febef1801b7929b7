"""The distances of the sewing lines, with their defaults."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from cutpaths.lengths import INCH, Unit, exact_text
from cutpaths.project.flaws import Flaw
from cutpaths.project.model import Construction
from cutpaths.project.shape import FileTable
from cutpaths.values import Value

# Common practice, no source: 1/4 in seams and trim, basting half way. Metric work uses whole mm.
ALLOWANCE = INCH / 4
ALLOWANCE_METRIC = Fraction(6)


class Seams(Value, kw_only=True):
    """How a blanket is sewn: construction, distances in mm, and the unit that messages use."""

    unit: Unit
    construction: Construction
    allowance: Fraction
    basting: Fraction
    trim: Fraction
    turn: Fraction

    @property
    def folded_over(self) -> bool:
        """Whether the backing's edge is folded onto the top instead of sewn and turned."""
        return self.construction is Construction.FOLDED_OVER

    def text(self, mm: Fraction) -> str:
        """A length as messages say it."""
        return exact_text(mm, self.unit)

    def by(self, size: tuple[Fraction, Fraction]) -> str:
        """A width and height as messages say them."""
        return f"{self.text(size[0])} x {self.text(size[1])}"


def seams_of(file: FileTable) -> Seams:
    """The distances that a file gives, and the defaults of the others.

    Basting lies half way to the stitching line at most, whatever the allowance.
    """
    default = ALLOWANCE if file.units is Unit.INCH else ALLOWANCE_METRIC
    allowance = file.seams.allowance or default
    return Seams(
        unit=file.units,
        construction=file.construction,
        allowance=allowance,
        basting=file.seams.basting or min(default, allowance) / 2,
        trim=file.seams.miter or default,
        turn=file.turn_of_cloth or Fraction(0),
    )


def seam_flaws(file: FileTable) -> Iterator[Flaw]:
    """Rules of [seams] and of the keys that only one construction knows."""
    seams = seams_of(file)
    if seams.folded_over:
        yield from _turned_only(file)
    elif seams.basting >= seams.allowance:
        yield Flaw(
            ("seams", "basting"),
            f"must be less than the seam allowance, {seams.text(seams.allowance)}, "
            f"got {seams.text(seams.basting)}",
            "Baste nearer to the raw edge",
        )


def _turned_only(file: FileTable) -> Iterator[Flaw]:
    """Keys that mean nothing when no seam joins top and backing."""
    reasons = {
        ("opening",): (file.opening, "nothing is turned right side out"),
        ("seams", "basting"): (file.seams.basting, "the layers are not basted before a seam"),
        ("turn_of_cloth",): (file.turn_of_cloth, "no border is turned round a seam"),
    }
    for path, (given, reason) in reasons.items():
        if given is not None:
            problem = f"has no place in a folded-over blanket: {reason}"
            yield Flaw(path, problem, "Leave it out")
