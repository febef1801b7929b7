"""Readings are judged as they are typed, in the package's words; what stops them has one line."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
import rigs
from test_projector_fit import case_rig
from test_projector_misread import MISTAKES, SOUND

from browser.driver import NEEDS_CHROMIUM
from browser.tabs import calibrated, plain_rig, typed, typed_mat
from cutpaths.errors import InputError
from cutpaths.lengths import Unit, read_length
from cutpaths.projector.calibrate import calibrate
from cutpaths.projector.lens import on_cloth
from cutpaths.projector.rig_text import rig_text

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = NEEDS_CHROMIUM


def problem(tab: Page, row: int) -> str:
    """The line under a row of the form, counted from 0."""
    return tab.text_content(f"#problem-{row}") or ""


def test_lengths_are_judged_while_they_are_typed(shown: Page) -> None:
    """Wrong readings get their line at once; nothing is drawn from them."""
    for text, line in {
        "0": "must be more than 0",
        "-3": "must be more than 0",
        "far": "must be a length such as 1204, 47.5 in or 47 1/2 in",
        "120,4": "must be a length such as 1204, 47.5 in or 47 1/2 in",
        "12 ell": "must be in cm, in, m, mm or yd, not ell",
        "1 1/0 in": "must not divide by zero",
    }.items():
        typed(shown, [(1, 4, text)])
        assert problem(shown, 0) == line
        assert shown.locator("#problem-0").is_visible()
        assert shown.text_content("#fit") == "Mend the readings marked below."
    typed(shown, [(1, 1, "100 mm")])
    assert problem(shown, 0) == "must be between two different crosses"
    typed(shown, [(1, 13, "100 mm")])
    assert problem(shown, 0) == "crosses are numbered from 1 to 12"
    typed(shown, [(1, 4, "1050 mm")])
    assert problem(shown, 0) == ""
    assert shown.locator("#problem-0").is_hidden()


def test_distances_that_disagree_are_marked(shown: Page) -> None:
    """The same distance twice must agree, either way round, and three times is once too often."""
    typed(shown, [(1, 4, "40 in"), (4, 1, "1050 mm")])
    assert problem(shown, 1) == "does not agree with 40 in above: measure again, keep one"
    typed(shown, [(1, 4, "40 in"), (4, 1, "1017 mm"), (1, 4, "1016 mm")])
    assert [problem(shown, n) for n in range(3)] == ["", "", "is above twice already"]


def test_places_on_the_mat_are_judged_while_they_are_typed(shown: Page) -> None:
    """Both ways must be there, each cross once, each place once, and left of the corner is less."""
    for row, line in {
        (1, "10", ""): "up is missing",
        (1, "x", "3"): "right must be a length such as 1204, 47.5 in or 47 1/2 in",
        (13, "10", "20"): "crosses are numbered from 1 to 12",
        (1, "-10", "-20 mm"): "",
    }.items():
        typed_mat(shown, [row])
        assert problem(shown, 0) == line
    typed_mat(shown, [(1, "1", "2"), (1, "3", "4")])
    assert problem(shown, 1) == "cross 1 is above already"
    typed_mat(shown, [(1, "1", "2"), (4, "1", "2 in")])
    assert problem(shown, 1) == "must not be the place of cross 1"
    shown.get_by_label("Tape").check()
    assert shown.text_content("#fit") == "Mend the readings of the ruled mat."


def test_too_few_readings_say_how_many_and_which(shown: Page) -> None:
    """From nothing to the first reading that checks the others."""
    assert shown.text_content("#fit") == "Measure 5 more."
    rig = rigs.measured(rigs.rig(), rigs.CAMERAS["tilted"], rigs.NINE)
    rows = [(d.first, d.second, f"{float(d.mm):.2f} mm") for d in rig.distances]
    typed(shown, rows[:4])
    assert shown.text_content("#fit") == "Measure 1 more. Measure next: 1-12, 4-9, 1-10."
    typed(shown, rows[:5])
    assert shown.text_content("#fit") == (
        "Calibrated, but nothing checks the readings. Measure 4-9 next to make it better."
    )
    assert shown.text_content("#remark-0") == "nothing checks it"
    typed(shown, rows)
    assert (shown.text_content("#fit") or "").startswith(
        "Calibrated: readings agree within 0.0 mm, a mark may be off by up to "
    )
    assert shown.text_content("#remark-0") == "off by 0.0 mm"


def judged(modules: Page, case: dict[str, object]) -> tuple[list[tuple[str, str, str]], list[int]]:
    """What the page's script says of a case: its findings, and which readings are doubtful."""
    findings, doubtful = modules.evaluate(
        """async (rig) => {
            const { calibrated } = await import("/calibrate.js");
            const { findings, residuals = [] } = calibrated(rig);
            return [findings, residuals.flatMap(({ doubtful }, n) => (doubtful ? [n] : []))];
        }""",
        plain_rig() | {key: case[key] for key in ("distances", "positions")},
    )
    return [(each["key"], each["problem"], each["hint"]) for each in findings], doubtful


@pytest.mark.parametrize("mistake", MISTAKES, ids=lambda each: each["name"])
def test_the_page_says_what_the_package_says(modules: Page, mistake: dict[str, object]) -> None:
    """Key, problem and hint of every shared mistake, letter for letter."""
    with pytest.raises(InputError) as caught:
        calibrate(case_rig(mistake))
    said, _ = judged(modules, mistake)
    assert said == [(each.key, each.problem, each.hint) for each in caught.value.findings]


@pytest.mark.parametrize("sound", SOUND, ids=lambda each: each["name"])
def test_the_page_uses_what_the_package_uses(modules: Page, sound: dict[str, object]) -> None:
    """Sound readings pass; the same ones are doubtful."""
    rig = case_rig(sound)
    said, doubtful = judged(modules, sound)
    assert said == []
    assert [rig.distances[n].name for n in doubtful] == sound["doubtful"]


@pytest.mark.parametrize(("factor", "unit"), [(0.1, "cm"), (1 / 25.4, "in")])
def test_another_unit_is_recognised(shown: Page, factor: float, unit: str) -> None:
    """A reading ten or 25.4 times off is asked about, under its row."""
    wrong = {(4, 12): factor}
    rig = rigs.measured(rigs.rig(), rigs.CAMERAS["tilted"], rigs.NINE, wrong=wrong)
    typed(shown, [(d.first, d.second, f"{float(d.mm):.2f} mm") for d in rig.distances])
    assert problem(shown, 1).startswith(f"is about {'1/10' if unit == 'cm' else '1/25.4'} of what")
    assert problem(shown, 1).endswith(f"Was it read in {unit}?")
    assert shown.text_content("#fit") == "Not calibrated: mend what is marked below."


def rows_of(name: str) -> list[tuple[int, int, str]]:
    """The distances of a shared mistake as a person types them."""
    (mistake,) = (each for each in MISTAKES if each["name"] == name)
    return [(i, j, f"{mm} mm") for i, j, mm in mistake["distances"]]


@pytest.mark.parametrize(
    ("name", "line"),
    [
        (
            "all in inches",
            "the readings make the picture 46 mm wide, which no projector shows. Were the readings "
            "in cm or in?",
        ),
        (
            "one of six",
            "the readings disagree by 33.2 mm: one reading is wrong. Measure one distance more to "
            "find out which.",
        ),
        (
            "three of nine",
            "the readings disagree by 50.5 mm: several readings are wrong. Measure again `1-12`, "
            "`4-12`, `1-4` first.",
        ),
        (
            "on a line",
            "the readings must reach four crosses of which no three are on a line: 1, 2, 3 are. "
            "Measure next: 4-12, 9-12, 1-9.",
        ),
        (
            "free",
            "the readings leave the picture free to change its shape. Measure next: 1-12, 4-9, "
            "1-10.",
        ),
    ],
)
def test_what_no_single_reading_explains_stands_above_the_form(
    shown: Page, name: str, line: str
) -> None:
    """One line, no row marked, no calibration."""
    typed(shown, rows_of(name))
    assert shown.text_content("#fit") == f"Not calibrated: {line}"
    assert shown.locator("#form .bad:visible").count() == 0
    shown.keyboard.press("Escape")
    shown.get_by_role("button", name="Calibrate or mark").click()
    assert shown.text_content("#refusal") == "Not calibrated: measure the crosses first (c)."


def test_a_lens_that_stands_nowhere(shown: Page, tmp_path: Path) -> None:
    """Slants from the lens that cannot be right stop the page as they stop the package."""
    rig = rigs.measured(rigs.rig(thickness=Fraction(2)), rigs.CAMERAS["tilted"], rigs.NINE)
    rig = rigs.with_lens(rig, 1800, [(1, 1900), (4, 2400), (12, 1905), (9, 1910)])
    file = tmp_path / "rig.toml"
    file.write_text(rig_text(rig))
    with pytest.raises(InputError) as caught:
        on_cloth(calibrate(rig).view, rig)
    (finding,) = caught.value.findings
    shown.set_input_files("#load", file)
    shown.get_by_text("no lens stands there").wait_for()
    assert shown.text_content("#fit") == (
        f"Not calibrated: readings from the lens {finding.problem}. {finding.hint}."
    )


def test_a_misread_tape_is_named_and_stops_the_marks(shown: Page) -> None:
    """The row that is wrong gets the line, no other does; there is no calibration to mark with."""
    wrong = {(1, 12): 1.04}
    rig = rigs.measured(rigs.rig(), rigs.CAMERAS["tilted"], rigs.NINE, wrong=wrong)
    typed(shown, [(d.first, d.second, f"{float(d.mm):.1f} mm") for d in rig.distances])
    assert [n for n in range(9) if problem(shown, n)] == [4]
    assert problem(shown, 4) == (
        "must be about 1236 mm by all other readings, got 1285.3 mm. Measure it again"
    )
    shown.get_by_role("button", name="Calibrate or mark").click()
    assert shown.text_content("#refusal") == "Not calibrated: measure the crosses first (c)."
    assert shown.locator("#picture polyline").count() == 0


def test_a_doubtful_reading_is_marked_and_still_used(shown: Page) -> None:
    """5 mm off is more than its error explains, and less than what stops a calibration."""
    wrong = {(1, 12): 1 + 5 / 1300}
    rig = rigs.measured(rigs.rig(), rigs.CAMERAS["tilted"], rigs.NINE, wrong=wrong)
    typed(shown, [(d.first, d.second, f"{float(d.mm):.2f} mm") for d in rig.distances])
    assert [problem(shown, n) for n in (0, 4)] == ["", "doubtful: measure it again"]
    assert (shown.text_content("#fit") or "").startswith("Calibrated: ")


def test_a_mat_alone_calibrates(shown: Page) -> None:
    """Six crosses read off a mat, one then 40 mm off: it is named, and mended it calibrates."""
    rig = rigs.on_mat(rigs.rig(), rigs.CAMERAS["tilted"], (1, 4, 12, 9, 6, 7, 2, 11), noise=0.4)
    rows = [(p.cross, f"{float(p.x):.2f} mm", f"{float(p.y):.2f} mm") for p in rig.positions]
    cross, right, up = rows[5]
    typed_mat(shown, [*rows[:5], (cross, f"{float(right[:-3]) + 40} mm", up), *rows[6:]])
    assert problem(shown, 5) == "is not where all other readings have it. Read it again"
    typed_mat(shown, rows)
    found = calibrate(rig)
    for n, residual in enumerate(found.residuals):
        said = shown.text_content(f"#remark-{n}") or ""
        assert float(said.removeprefix("off by ").lstrip("+").removesuffix(" mm")) == (
            pytest.approx(residual.off, abs=0.06)
        )
    assert (shown.text_content("#fit") or "").startswith("Calibrated: ")
    shown.get_by_role("button", name="Calibrate or mark").click()
    assert shown.locator("#picture polyline").count() > 0


def test_the_form_for_a_mat_goes_by_keyboard(shown: Page) -> None:
    """From the choice by arrows to the first field by Tab; its cross is then larger."""
    shown.get_by_label("Tape").focus()
    shown.keyboard.press("ArrowRight")
    assert shown.get_by_label("Ruled mat").is_checked()
    for _ in range(2):
        shown.keyboard.press("Tab")
    name = "document.activeElement.getAttribute('aria-label')"
    assert shown.evaluate(name) == "Cross of mat reading 1"
    arms = shown.locator("#picture polyline").evaluate_all(
        """all => all.map((each) => {
            const box = each.getBBox();
            return Math.max(box.width, box.height);
        })"""
    )
    assert [n for n, arm in enumerate(arms) if arm > 1.5 * min(arms)] == [0, 1]
    shown.keyboard.press("Tab")
    shown.keyboard.type("n 2")
    assert shown.evaluate(name) == "Right of mat reading 1"
    assert problem(shown, 0).startswith("right must be a length")


def test_the_page_reads_lengths_as_the_package_does(modules: Page) -> None:
    """Every way to write a length gives the same mm, or is refused by both."""
    texts = ["1204", "47.5 in", '47 1/2"', "2¼″", "1/8 in", ".5", "5.", "+3 cm", "-2 1/4 in"]
    texts += ["1 ⁄ 3 in", "6-3/8 in", "⅔ yd", "2 yards", "1.2 M", "3/0", "12 ell", "1,5", "", "1 2"]
    texts += ["9" * 10, "1e3", "0x10", "½", "5 ½ inches", "- 3", "1" * 9 + " " * 60]
    found = modules.evaluate(
        """async (texts) => {
            const { readLength } = await import("/lengths.js");
            return texts.map((text) => readLength(text, "cm").mm ?? null);
        }""",
        texts,
    )
    for text, mm in zip(texts, found, strict=True):
        try:
            ours: Fraction | None = read_length(text, Unit.CENTIMETRE)
        except ValueError:
            ours = None
        assert (ours is None) == (mm is None), text
        assert ours is None or mm == pytest.approx(float(ours), rel=1e-14), text


def test_a_calibration_for_another_window_is_refused(shown: Page) -> None:
    """In a window of another size the scale would be wrong: no mark is drawn, one line says why."""
    calibrated(shown, rigs.CAMERAS["tilted"])
    shown.set_viewport_size({"width": 1280, "height": 720})
    shown.locator("#refusal:not(:empty)").wait_for()
    assert (shown.text_content("#refusal") or "").startswith(
        "The calibration is for 1920 × 1080 pixels, this window has 1280 × 720: go to full screen"
    )
    assert shown.locator("#picture polyline").count() == 0
    shown.set_viewport_size({"width": 1920, "height": 1080})
