"""Figures of a measured top, and the table of what a deviation would do."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from bad_input import SOUND

from cutpaths.figures import Figure, figures_of
from cutpaths.figures.deviations import deviations, heading
from cutpaths.lengths import INCH
from cutpaths.pieces import build
from cutpaths.project import load, read
from cutpaths.project.measured import Difference
from cutpaths.project.measured_words import percent
from cutpaths.project.model import Project

FIXTURES = Path(__file__).parents[1] / "fixtures"
TAPED = 'sides = { A = 28, B = "32 1/4", C = 27, D = 32 }\ndiagonals = { DA-BC = "42 1/4" }'
# Foot 1/4 in longer than the head: the diagonal is sqrt(27 1/2² + 32² - 1/8²) in.
EVEN = 'sides = { A = "27 5/8", B = 32, C = "27 3/8", D = 32 }\ndiagonals = 42.192823738'
PANEL = 'format = 1\ntitle = "Pond"\n[top]\nlayout = "panel"\ncut = { width = 32, height = 32 }\n'


def of(project: Project) -> dict[str, Figure]:
    """All figures of a project by their keys."""
    return {f.key: f for group in figures_of(build(project)).groups for f in group.figures}


def measured(table: str, remedy: str = "") -> dict[str, Figure]:
    """The figures of the sound project with a measured top."""
    asked = f'remedy = "{remedy}"\n' if remedy else ""
    return of(read(f"{SOUND}[measured]\n{table}\n{asked}"))


def texts(found: dict[str, Figure], start: str) -> dict[str, str]:
    """The texts of the figures whose keys start alike, by the rest of the key."""
    return {key.removeprefix(start): f.text for key, f in found.items() if key.startswith(start)}


def test_unmeasured_top_has_no_such_figures() -> None:
    """What was not measured is not told."""
    assert texts(of(read(SOUND)), "measured.") == {}


def test_true_shape_is_told() -> None:
    """Lengths as they are, the diagonal that was not taped, corners, and how far out of square.

    By the law of cosines in the two triangles at DA the other diagonal is 42.320 in.
    """
    found = measured(TAPED)
    assert texts(found, "measured.") == {
        "a": "28 in (711.2 mm)",
        "b": "32 1/4 in (819.2 mm)",
        "c": "27 in (685.8 mm)",
        "d": "32 in (812.8 mm)",
        "da-bc": "42 1/4 in (1073.2 mm)",
        "ab-cd": "~42 3/8 in (1074.9 mm), not taped",
        "corner.da": "89.45°",
        "corner.ab": "88.76°",
        "corner.bc": "90.72°",
        "corner.cd": "91.06°",
        "out-of-square": "1.24°",
        "diagonals-differ": "~1/8 in (1.8 mm)",
        "off.width": "nothing",
        "off.height": "0.4 %, 1/8 in (3.2 mm) large",
        "remedy": (
            "cut-to-fit: side A is 1.8 % longer than the average, over the 1 % that can be eased; "
            "the backing gets the top's corners and sides"
        ),
    }
    corners = [found[f"measured.corner.{name}"].value or 0 for name in ("da", "ab", "bc", "cd")]
    assert float(sum(corners)) == pytest.approx(360.0)


def test_misfit_is_shown() -> None:
    """More tape than needed leaves a misfit; of five lengths none.

    A square of 1000 with both diagonals taped 1420: the fit shares the misfit between all six. By
    symmetry it is a square of side x: least (4 (x - 1000)² + 2 (x sqrt 2 - 1420)²) is at
    x = (4000 + 2 * 1420 sqrt 2) / 8, 2.046 more than 1000 and its diagonal 2.893 less than 1420.
    """
    text = PANEL.replace("32", '"1 m"') + "[border]\nwidth = 2\n[measured]\n"
    found = of(read(text + 'sides = "1000 mm"\ndiagonals = "1420 mm"\nremedy = "cut-to-fit"'))
    x = (4000 + 2 * 1420 * 2**0.5) / 8
    assert (round(x - 1000, 3), round(1420 - x * 2**0.5, 3)) == (2.046, 2.893)
    assert float(found["measured.a"].value or 0) == pytest.approx(x, abs=1e-6)
    assert found["measured.a"].text == "~39 1/2 in (1002 mm), ~1/8 in more than taped"
    assert found["measured.da-bc"].text == "~55 3/4 in (1417.1 mm), ~1/8 in less than taped"


def test_easing_is_told_for_each_side() -> None:
    """Foot 1/8 in longer and head 1/8 in shorter than the average of 27 1/2 in.

    Along the seam it is less by s tan(lean) at both ends: 3.175 - 2 * 6.35 * 0.0039 = 3.125 mm.
    """
    found = measured(EVEN)
    assert found["measured.remedy"].text == (
        "ease: the backing is cut to the average; side A is 0.5 % longer than the average, under "
        "the 1 % that can be eased"
    )
    assert texts(found, "measured.ease.") == {
        "a": "ease in ~1/8 in of the top's edge (0.5 %)",
        "c": "ease in ~1/8 in of the backing's edge (0.5 %)",
    }
    assert found["top.width"].label == "top, raw edge to raw edge, as measured, across"


# Left side 7/8 in shorter than the right one, with the diagonal of the average height.
SHORT_SIDE = (
    'sides = { A = "27 1/2", B = 32, C = "27 1/2", D = "31 1/8" }\ndiagonals = { DA-BC = 42 }'
)


def test_caution_is_of_what_is_eased_most_whatever_was_asked_for() -> None:
    """7/8 in of a 31 1/2 in seam is over 1 %: told as designed as well as eased."""
    text = f"{SOUND}[measured]\n{SHORT_SIDE}\nremedy = "
    found = of(read(f'{text}"as-designed"'))
    assert found["measured.ease.d"].text == "ease in ~7/8 in of the backing's edge (2.8 %)"
    notes = build(read(f'{text}"as-designed"')).notes
    assert notes == (
        "Easing may pucker: side D is 2.8 % shorter than on the backing, over the 1 % that can be "
        "eased.",
    )
    assert build(read(f'{text}"ease"')).notes == (
        "Easing may pucker: side D is 1.4 % shorter than on the backing, over the 1 % that can be "
        "eased.",
    )
    assert build(read(f'{text}"cut-to-fit"')).notes == ()


def test_caution_of_a_top_that_only_leans() -> None:
    """Sides as designed, but a diagonal of 43 where 42.193 is due: 1.9 %."""
    leaning = 'sides = { A = "27 1/2", B = 32, C = "27 1/2", D = 32 }\ndiagonals = { DA-BC = 43 }'
    assert build(read(f'{SOUND}[measured]\n{leaning}\nremedy = "as-designed"')).notes == (
        "Easing may pucker: diagonal DA-BC is 1.9 % longer than on the backing, over the 1 % that "
        "can be eased.",
    )


def test_reason_that_speaks_against_what_was_asked_for_is_left_out() -> None:
    """Asked to cut to fit what could be eased, or to ease what hardly can, no reason is made up."""
    assert measured(EVEN, "cut-to-fit")["measured.remedy"].text == (
        "cut-to-fit, as asked for: the backing gets the top's corners and sides"
    )
    assert measured(TAPED, "ease")["measured.remedy"].text == (
        "ease, as asked for: the backing is cut to the average"
    )


@pytest.mark.parametrize(
    ("taped", "told"),
    [("1018", "1.8 %"), ("1010", "1 %"), ("1009.96", "0.996 %"), ("1010.4", "1.04 %")],
)
def test_percent_near_the_limit_has_more_decimals(taped: str, told: str) -> None:
    """What is under 1 % never reads as 1 %; what is 1 % does."""
    assert percent(Difference("side A", Fraction(taped), Fraction(1000))) == told


def test_percent_of_very_little_is_not_none() -> None:
    """A length that is off is never told to be off by 0 %."""
    assert percent(Difference("side A", Fraction("1000.2"), Fraction(1000))) == "0.02 %"


def test_as_designed_is_eased_to_the_design() -> None:
    """1/16 in too wide is within what a tape can tell; it is eased onto the backing as designed."""
    found = measured('width = "27 9/16"\nheight = 32')
    assert found["measured.remedy"].text == "as-designed: nothing is over 1/16 in off the design"
    assert found["measured.off.width"].text == "0.2 %, ~1/8 in (1.6 mm) large"
    assert texts(found, "measured.ease.") == {
        "width": "ease in ~1/8 in of the top's edge (0.2 %)",
    }
    assert found["top.width"].value == Fraction(55, 2) * INCH


def test_trimming_is_told_for_both_ends_of_each_side() -> None:
    """A head an inch shorter than the foot costs half an inch at both ends of the foot.

    Where nothing comes off, nothing is told.
    """
    slant = "sides = { A = 28, B = 32.003906011, C = 27, D = 32.003906011 }"
    found = measured(f"{slant}\ndiagonals = 42.193009848", "trim-top")
    off = {key: float(round(f.value or 0, 4)) for key, f in found.items() if ".trim." in key}
    assert off == {"measured.trim.b.ab": 12.7, "measured.trim.d.da": 12.7}
    assert found["measured.remedy"].text == (
        "trim-top, as asked for: the top is cut down to the largest true rectangle"
    )
    assert found["top.width"].label == "top, raw edge to raw edge, once trimmed, across"


def test_deviations_of_a_printed_blanket() -> None:
    """Top 32, backing 42, seam 1/4 in: border (B - T) / 4 and dots 2 w + s, for every T.

    Sizes of Utah State University Extension, "Mitered Corner Baby Blanket", whose border is 2 1/2
    and whose dots stand 5 1/4 in from the corner.
    """
    found = {f.label: f.text for f in deviations(read(PANEL + "[border]\nbacking = 42"))}
    assert found == {
        label: f"cut the backing {size} in x {size} in, or keep it: border {border} in, "
        f"dots {dots} in from the corner"
        for label, size, border, dots in (
            ("1/8 in small", "41 7/8", "2 17/32", "5 5/16"),
            ("1/4 in small", "41 3/4", "2 9/16", "5 3/8"),
            ("3/8 in small", "41 5/8", "2 19/32", "5 7/16"),
            ("1/2 in small", "41 1/2", "2 5/8", "5 1/2"),
            ("1/8 in large", "42 1/8", "2 15/32", "5 3/16"),
            ("1/4 in large", "42 1/4", "2 7/16", "5 1/8"),
            ("3/8 in large", "42 3/8", "2 13/32", "5 1/16"),
            ("1/2 in large", "42 1/2", "2 3/8", "5"),
        )
    }


@pytest.mark.parametrize("off", ["-1/2", "-1/8", "3/8"])
def test_deviations_are_what_measuring_gives(off: str) -> None:
    """A line of the table says what the kit of a top so measured comes to, either way."""
    by = Fraction(off)
    way = f"{abs(by)} in {'small' if by < 0 else 'large'}"
    line = next(f.text for f in deviations(read(SOUND)) if f.label == way)
    taped = f"[measured]\nwidth = {float(27.5 + by)}\nheight = {float(32 + by)}\n"
    cut = of(read(SOUND + taped))
    sizes = [cut[f"backing.{name}"].text.split(" (")[0] for name in ("width", "height")]
    assert line.startswith(f"cut the backing {' x '.join(sizes)}, or keep it: border ")
    kept = of(
        read(
            SOUND.replace("width = 2", "backing = { width = 35.5, height = 40 }")
            + taped.replace("[measured]", '[measured]\nremedy = "ease"')
        )
    )
    border, dots = kept["border"].value or 0, kept["corner.1.dot.along"].value or 0
    read_off = [part.split(" in")[0].split(" ", 1)[1] for part in line.split(": ")[1].split(", ")]
    assert [sum(map(Fraction, text.split())) * INCH for text in read_off] == [border, dots]


def test_deviations_of_unequal_borders() -> None:
    """Borders of their own change by a quarter each, their dots by a half."""
    text = PANEL + "[border]\nwidth = { A = 3, B = 2, C = 1, D = 1.5 }"
    found = {f.label: f.text for f in deviations(read(text))}
    assert found["1/4 in small"] == (
        "cut the backing 38 3/4 in x 39 3/4 in, or keep it: each border 1/16 in wider, dots 1/8 in "
        "farther from the corners"
    )


def test_deviations_of_a_folded_over_blanket() -> None:
    """Top 30, backing 34: border 1; 1/2 in small it is 1 1/8, folded at 1 1/8 and 2 1/4 in.

    Sizes of Care Wear (hospital charity), blanket instructions.
    """
    text = PANEL.replace("32", "30").replace("[top]", 'construction = "folded-over"\n[top]')
    found = {f.label: f.text for f in deviations(read(text + "[border]\nbacking = 34"))}
    assert found["1/2 in small"] == (
        "cut the backing 33 1/2 in x 33 1/2 in, or keep it: border 1 1/8 in, "
        "folds at 1 1/8 in and 2 1/4 in"
    )


def test_deviations_in_metric() -> None:
    """Metric projects count in threes of millimetres."""
    text = PANEL.replace("[top]", 'units = "mm"\n[top]').replace("32", "760")
    found = {f.label: f.text for f in deviations(read(text + "[border]\nwidth = 60"))}
    assert list(found)[:4] == ["3 mm small", "6 mm small", "9 mm small", "12 mm small"]
    assert found["6 mm large"] == (
        "cut the backing 1006 mm x 1006 mm, or keep it: border 58.5 mm, dots 123 mm from the corner"
    )


def test_deviations_of_sizes_between_the_marks() -> None:
    """A backing of 42 1/100 in is told to the nearest 1/32 in and marked; no decimals of an inch.

    The border is then (42.01 - 32) / 4 = 2.5025 in, a little over 2 1/2.
    """
    project = read(PANEL + "[border]\nwidth = 2.5025")
    assert heading(project) == "If the sewn top comes out (told to 1/32 in, ~ where rounded)"
    found = {f.label: f.text for f in deviations(project)}
    assert found["1/8 in small"] == (
        "cut the backing ~41 7/8 in x ~41 7/8 in, or keep it: border ~2 17/32 in, "
        "dots ~5 5/16 in from the corner"
    )


def test_deviations_that_leave_too_narrow_a_border() -> None:
    """A border that would no longer hide its seam is not offered."""
    found = {f.label: f.text for f in deviations(read(PANEL + '[border]\nwidth = "5/16"'))}
    assert found["1/2 in large"] == (
        "cut the backing 33 3/4 in x 33 3/4 in, or a wider one: the same leaves a border of only "
        "3/16 in"
    )


@pytest.mark.parametrize("name", ["beehive", "doorway", "ferry"])
def test_deviations_are_for_rectangles_not_yet_measured(name: str) -> None:
    """Outlines have no such table, nor has a top whose measure is known."""
    assert deviations(load(FIXTURES / f"{name}.toml")) == ()
