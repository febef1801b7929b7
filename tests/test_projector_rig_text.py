"""A rig written as a file reads back as the same rig, whatever its unit."""

from __future__ import annotations

from fractions import Fraction

import pytest
import rigs
from hypothesis import given
from hypothesis import strategies as some

from cutpaths.lengths import INCH, Unit
from cutpaths.projector.rig import Distance, Lens, Position, Rig
from cutpaths.projector.rig_reading import read
from cutpaths.projector.rig_text import rig_text
from cutpaths.values import replace

SIXTY_FOURTHS = some.integers(64, 60_000).map(lambda n: n * INCH / 64)
MICRONS = some.integers(1_000, 2_000_000).map(lambda n: Fraction(n, 1_000))
LENGTHS = some.one_of(SIXTY_FOURTHS, MICRONS)


def full(unit: Unit, mm: Fraction = Fraction(1056)) -> Rig:
    """A rig with every table."""
    return rigs.rig(
        name='Loft "north" \\ table',
        unit=unit,
        within=Fraction(3, 2),
        margin=Fraction(0),
        thickness=Fraction(9, 4),
        lens=Lens(Fraction(1800), ((1, Fraction(1962)), (4, Fraction(1958)), (12, Fraction(1931)))),
        distances=(Distance(1, 4, mm), Distance(12, 4, INCH * 21 + INCH * Fraction(1, 3))),
        positions=(Position(6, -mm, Fraction(0)), Position(7, INCH / 8, mm)),
    )


@pytest.mark.parametrize("unit", list(Unit))
@given(mm=LENGTHS)
def test_a_rig_comes_back_the_same(unit: Unit, mm: Fraction) -> None:
    """Every table, every length exactly; only digest and written units are of the new text."""
    rig = full(unit, mm)
    again = read(rig_text(rig))
    distances = tuple(replace(each, unit=None) for each in again.distances)
    assert replace(again, digest=rig.digest, distances=distances) == rig


def test_a_rig_without_lens_has_no_table_for_it() -> None:
    """What is not known is left out, and the text says so little."""
    text = rig_text(rigs.rig())
    assert "[lens" not in text
    assert "thickness" not in text
    assert replace(read(text), digest="0" * 64) == rigs.rig()


def test_lengths_without_end_are_rounded_to_a_millionth_of_a_mm() -> None:
    """What no tape reads, such as a simulated distance, is rounded and nothing more."""
    rig = rigs.measured(rigs.rig(), rigs.CAMERAS["tilted"], rigs.NINE)
    again = read(rig_text(rig))
    for ours, theirs in zip(again.distances, rig.distances, strict=True):
        assert abs(ours.mm - theirs.mm) <= Fraction(1, 2_000_000)
