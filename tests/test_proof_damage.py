"""Every fact of the proof fails when one piece is spoiled so that it does not hold."""

from __future__ import annotations

import damaged_corners
import damaged_filling
import damaged_folds
import damaged_grain
import damaged_pairs
import damaged_seams
import damaged_shapes
import damaged_tops
import pytest
from damaged_kits import (
    Case,
    checkers,
    filled,
    filled_and_folded,
    folded,
    hexagon_like,
    narrow_folds,
    paired,
    setting,
    square_panel,
)

from cutpaths.proof import prove

CASES = (
    *damaged_shapes.CASES,
    *damaged_tops.CASES,
    *damaged_grain.CASES,
    *damaged_pairs.CASES,
    *damaged_seams.CASES,
    *damaged_corners.CASES,
    *damaged_folds.CASES,
    *damaged_filling.CASES,
)


KITS = (
    checkers,
    square_panel,
    hexagon_like,
    folded,
    narrow_folds,
    paired,
    setting,
    filled,
    filled_and_folded,
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_damage_is_found(case: Case) -> None:
    """The check meant to find a damage fails, and with it only those that must."""
    failed = {check.name for check in prove(case.damage(case.kit())).failed}
    assert failed == {case.check, *case.others.split()}


def test_kits_are_sound_before() -> None:
    """The kits that are spoiled pass every check as they were made."""
    for kit in (kit() for kit in KITS):
        assert prove(kit).failed == ()


def test_every_check_is_damaged() -> None:
    """No check of either construction is without a damage that makes it fail."""
    names = {check.name for kit in KITS for check in prove(kit()).checks}
    assert names == {case.check for case in CASES}
