"""Readings are judged as they are typed; the calibration is kept, saved, loaded, and refused."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
import rigs

from browser.driver import CHROMIUM
from browser.tabs import calibrated, cut_line, typed
from cutpaths.projector.rig_reading import read

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = pytest.mark.skipif(not CHROMIUM.exists(), reason="run tests/browser/install first")
ROOT = Path(__file__).parent.parent.parent
LOFT = ROOT / "fixtures" / "rigs" / "loft.toml"
NEAR = 0.2  # pixels
REACH = 5.0  # pixels to either side of a line in which its light is looked for


def test_readings_are_judged_while_they_are_typed(shown: Page) -> None:
    """Wrong readings get their line at once; nothing is drawn from them."""
    remark = shown.locator("#remark-0")
    for text, line in {
        "0": "must be more than 0",
        "-3": "must be more than 0",
        "far": "must be a length such as 1204, 47.5 in or 47 1/2 in",
        "12 ell": "must be in mm, cm, m or in, not ell",
        "1 1/0 in": "must not divide by zero",
    }.items():
        typed(shown, [(1, 4, text)])
        assert remark.text_content() == line
    typed(shown, [(1, 1, "100 mm")])
    assert remark.text_content() == "must be between two different crosses"
    typed(shown, [(1, 13, "100 mm")])
    assert remark.text_content() == "crosses are numbered from 1 to 12"
    typed(shown, [(1, 4, "40 in"), (4, 1, "1050 mm")])
    assert shown.text_content("#remark-1") == "does not agree with 40 in above"
    assert shown.text_content("#fit") == "Mend the readings marked below."
    shown.keyboard.press("Escape")


@pytest.mark.parametrize(("factor", "unit"), [(0.1, "cm"), (1 / 25.4, "in")])
def test_another_unit_is_recognised(shown: Page, factor: float, unit: str) -> None:
    """A reading ten or 25.4 times off is asked about."""
    wrong = {(4, 12): factor}
    rig = rigs.measured(rigs.rig(), rigs.CAMERAS["tilted"], rigs.NINE, wrong=wrong)
    typed(shown, [(d.first, d.second, f"{float(d.mm):.2f} mm") for d in rig.distances])
    assert shown.text_content("#remark-1") == f"far from the others: was it read in {unit}?"


def test_a_calibration_is_kept_saved_and_loaded(shown: Page, tmp_path: Path) -> None:
    """It is there after the page is opened again; its rig file reads in the package, and back."""
    calibrated(shown, rigs.CAMERAS["keystoned"])
    shown.reload()
    assert shown.locator("#work").is_visible()
    first = cut_line(shown)
    shown.keyboard.press("c")
    with shown.expect_download() as saved:
        shown.get_by_role("button", name="Save rig file").click()
    file = tmp_path / "rig.toml"
    saved.value.save_as(file)
    rig = read(file.read_text(encoding="utf-8"))
    true = rigs.measured(rigs.rig(), rigs.CAMERAS["keystoned"], rigs.NINE)
    for ours, theirs in zip(rig.distances, true.distances, strict=True):
        assert abs(ours.mm - theirs.mm) < 1e-3
    shown.get_by_role("button", name="Start again").click()
    assert shown.text_content("#fit") == "Measure 5 more."
    shown.set_input_files("#load", file)
    shown.wait_for_function("document.getElementById('fit').textContent.startsWith('Calibrated')")
    shown.keyboard.press("c")
    assert cut_line(shown) == first


def test_a_rig_file_of_the_package_loads(shown: Page, tmp_path: Path) -> None:
    """Its units and fractions are read as the package reads them; a broken one gets one line."""
    shown.set_input_files("#load", LOFT)
    shown.wait_for_function("document.getElementById('fit').textContent.startsWith('Calibrated')")
    assert shown.text_content("#remark-1") == "off by −0.7 mm"
    broken = tmp_path / "broken.toml"
    broken.write_text(LOFT.read_text().replace("width = 1920", "width = 0"))
    shown.set_input_files("#load", broken)
    shown.wait_for_function("document.getElementById('fit').textContent.startsWith('broken')")
    assert shown.text_content("#fit") == (
        "broken.toml: `picture.width` and `picture.height` must be from 320 to 16384 pixels."
    )


def test_a_calibration_for_another_window_is_refused(shown: Page) -> None:
    """In a window of another size the scale would be wrong: no mark is drawn, one line says why."""
    calibrated(shown, rigs.CAMERAS["tilted"])
    shown.set_viewport_size({"width": 1280, "height": 720})
    shown.wait_for_function("document.getElementById('refusal').textContent !== ''")
    assert (shown.text_content("#refusal") or "").startswith(
        "The calibration is for 1920 × 1080 pixels, this window has 1280 × 720: go to full screen"
    )
    assert shown.locator("#picture polyline").count() == 0
    shown.set_viewport_size({"width": 1920, "height": 1080})
