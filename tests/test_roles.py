"""The table of roles: complete, told apart without colour, readable on white."""

from __future__ import annotations

from itertools import combinations

import pytest

from cutpaths.roles import STYLES, MachineWork, Role

# Okabe and Ito, Color Universal Design (2008): the hues that pass 3:1 on white.
OKABE_ITO = {"#0072b2", "#d55e00", "#009e73"}


def luminance(colour: tuple[int, int, int]) -> float:
    """Relative luminance (W3C WCAG 2.1)."""
    parts = [level / 255 for level in colour]
    red, green, blue = (c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: tuple[int, int, int], other: tuple[int, int, int]) -> float:
    """Contrast ratio (W3C WCAG 2.1)."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def test_the_contrast_used_here_is_the_standards() -> None:
    """Blue on white is 8.59 and on red 2.15, as W3C's WCAG 2.1 material has it."""
    assert round(contrast((0, 0, 255), (255, 255, 255)), 2) == 8.59
    assert round(contrast((0, 0, 255), (255, 0, 0)), 2) == 2.15


@pytest.mark.parametrize("role", list(Role))
def test_each_role_can_be_seen_on_white(role: Role) -> None:
    """Graphical objects need 3:1 (W3C WCAG 2.1, 1.4.11); hues are Okabe and Ito's, or black."""
    style = STYLES[role]
    assert contrast(style.colour, (255, 255, 255)) >= 3.0
    assert style.hex in OKABE_ITO | {"#000000"}


def test_each_role_has_a_style() -> None:
    """The table has a row for each role and no other."""
    assert list(STYLES) == list(Role)


def test_lines_are_told_apart_by_pattern() -> None:
    """Lines that can lie beside one another on cloth differ by pattern, whatever their colour."""
    lines = [Role.CUT, Role.STITCH, Role.BASTE, Role.FOLD, Role.TRIM, Role.TOPSTITCH]
    same = [(a, b) for a, b in combinations(lines, 2) if STYLES[a].pattern == STYLES[b].pattern]
    assert same == []


@pytest.mark.parametrize("role", list(Role))
def test_patterns_are_dashes_and_gaps(role: Role) -> None:
    """A pattern has as many gaps as dashes, each longer than nothing; a pen has a width."""
    style = STYLES[role]
    assert len(style.pattern) % 2 == 0
    assert all(length > 0 for length in style.pattern)
    assert 0.1 <= style.width <= 0.7


def test_machines_cut_outlines_last() -> None:
    """The order of the roles is that of machine files: pen work, cut-outs, outlines."""
    cut = [role for role in Role if STYLES[role].work is MachineWork.CUT]
    assert cut == [Role.CUTOUT, Role.CUT]
    assert list(Role)[-2:] == cut


def test_machines_never_get_dimensions_or_top_stitching() -> None:
    """Dimensions and top stitching are for people; scale, text and grain wait to be asked for."""
    assert {r for r in Role if STYLES[r].work is MachineWork.NEVER} == {
        Role.DIMENSION,
        Role.TOPSTITCH,
    }
    assert {r for r in Role if STYLES[r].work is MachineWork.ASKED} == {
        Role.SCALE,
        Role.LABEL,
        Role.GRAIN,
    }


def test_names_are_fit_for_layers_and_ids() -> None:
    """A role's name is capitals only, short enough for a layer, and its own value."""
    assert all(r.value == r.name and r.isascii() and r.isalpha() and len(r) <= 31 for r in Role)
