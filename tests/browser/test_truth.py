"""Marks fall where the truth has them, and the script fits as the package does.

A simulated lens is the judge: what the page draws is read back from the screen's pixels and
compared with where the true rig has it.
"""

from __future__ import annotations

import json
import math
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
import rigs
from test_projector_fit import case_rig
from test_writers_page import page

from browser.driver import NEEDS_CHROMIUM
from browser.tabs import (
    cut_line,
    off_line,
    opened,
    plain_rig,
    screen,
    script_rig,
    true_pixel,
    typed,
)
from cutpaths.projector.calibrate import calibrate, still_to_measure
from cutpaths.projector.lens import on_cloth
from cutpaths.projector.view import apply
from cutpaths.shapes import Motion
from cutpaths.sheets.sheet import Wishes

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page

pytestmark = NEEDS_CHROMIUM
ROOT = Path(__file__).parent.parent.parent
NEAR = 0.2  # pixels
PLACES = ((0.0, 0.0), (300.0, 200.0), (-420.5, 110.25), (410.0, -90.0))


@pytest.mark.parametrize("name", sorted(rigs.CAMERAS))
def test_marks_fall_where_the_truth_has_them(shown: Page, name: str) -> None:
    """The cut lines and the arms of both dots of a corner, read off the screen, within 0.2 px."""
    truth = rigs.CAMERAS[name]
    rig = rigs.measured(rigs.rig(), truth, rigs.NINE)
    typed(shown, [(d.first, d.second, f"{float(d.mm):.3f} mm") for d in rig.distances])
    shown.get_by_role("button", name="Calibrate or mark").click()
    shown.keyboard.press("t")
    data = page().content.as_data()
    station, lines = data["pieces"][0]["stations"][0], data["pieces"][0]["lines"]
    home = Motion(*station["home"])
    left, foot = home.point((0.0, 0.0))
    corner = true_pixel(truth, (left, foot))
    for far in ((left + 150, foot), (left, foot + 150)):
        for part in (0.2, 0.5, 0.9):
            assert abs(off_line(screen(shown), corner, true_pixel(truth, far), part)) < NEAR
    while "corner DA (" not in (shown.text_content("#work-title") or ""):
        shown.keyboard.press("n")
    for role in ("CUT", "STITCH", "FOLD", "TRIM"):
        shown.evaluate(f"document.getElementById('role-{role}').click()")
    shown.keyboard.press("-")
    seen = screen(shown)
    arms = [
        [home.point((p[0], p[1])) for p in line["points"]]
        for line in lines
        if line["role"] == "DOT" and line["step"] == "corner DA" and _is_arm(line["points"])
    ]
    assert len(arms) == 8
    for start, end in arms:
        ends = true_pixel(truth, start), true_pixel(truth, end)
        assert abs(off_line(seen, *ends, 0.3, 2.0)) < NEAR


def _is_arm(points: list[list[float]]) -> bool:
    """Whether a line is an arm of a dot's cross: 4 mm, level or upright."""
    (x, y), (u, v) = points
    return abs(math.hypot(u - x, v - y) - 4.0) < 1e-6 and (x == u or y == v)


def test_the_script_fits_as_the_package_does(modules: Page) -> None:
    """Every shared case comes out within 1e-6 px and mm of what scipy found.

    What a mark may be off by, and what to measure next, are what the package says.
    """
    cases = json.loads((ROOT / "fixtures" / "rigs" / "cases.json").read_text())
    found = modules.evaluate(
        """async ([cases, plain]) => {
            const { calibrated } = await import("/calibrate.js");
            const { apply } = await import("/homography.js");
            return cases.map(({ distances, positions, places }) => {
                const found = calibrated({ ...plain, distances, positions });
                return [places.map(([place]) => apply(found.view.toPixel, place)),
                    found.residuals.map((each) => each.off), found.worst, found.next];
            });
        }""",
        [cases, plain_rig()],
    )
    for case, (pixels, off, worst, following) in zip(cases, found, strict=True):
        for (_, wanted), pixel in zip(case["places"], pixels, strict=True):
            assert math.dist(wanted, pixel) < 1e-6, case["name"]
        assert off == pytest.approx(case["off"], abs=1e-6), case["name"]
        ours = calibrate(case_rig(case))
        assert worst == pytest.approx(ours.worst, rel=1e-6), case["name"]
        assert tuple(following) == (still_to_measure(ours.rig) or (ours.following,))[0], case[
            "name"
        ]


def test_the_script_raises_cloth_as_the_package_does(modules: Page) -> None:
    """With thickness and lens a place of the cloth is where the package has it, to 1e-6 px."""
    for name, slants in (("keystoned", ()), ("off-centre", (1, 4, 9, 12))):
        truth = rigs.CAMERAS[name]
        height = {"keystoned": 1500, "off-centre": 2000}[name]
        plain = rigs.measured(rigs.rig(thickness=Fraction(5, 2)), truth, rigs.NINE)
        spots = [apply(truth, p) for p in plain.crosses]
        read = [(n, math.hypot(*spots[n - 1], height)) for n in slants]
        rig = rigs.with_lens(plain, height, read)
        view = on_cloth(calibrate(rig).view, rig)
        assert view != calibrate(rig).view
        found = modules.evaluate(
            """async ([rig, places]) => {
                const { calibrated } = await import("/calibrate.js");
                const { crossesOf } = await import("/crosses.js");
                const { apply } = await import("/homography.js");
                const { onCloth } = await import("/lens.js");
                const { view } = onCloth(calibrated(rig).view, rig, crossesOf(rig));
                return places.map((place) => apply(view.toPixel, place));
            }""",
            [script_rig(rig), PLACES],
        )
        for place, pixel in zip(PLACES, found, strict=True):
            assert math.dist(view.pixel(place), pixel) < 1e-6


def test_frames_planned_for_a_rig(context: BrowserContext, tmp_path: Path) -> None:
    """A page made for a rig is calibrated at once and its frames lie as the plan has them."""
    truth = rigs.CAMERAS["off-centre"]
    rig = rigs.measured(rigs.rig(), truth, rigs.NINE)
    document = page(wishes=Wishes(rig=rig))
    tab = opened(context, tmp_path, document)
    assert tab.locator("#work").is_visible()
    station = document.content.as_data()["pieces"][0]["stations"][0]
    place = Motion(*station["home"]).then(Motion(*station["room"]))
    lines = document.content.as_data()["pieces"][0]["lines"]
    for drawn, point in zip(cut_line(tab), lines[0]["points"], strict=False):
        wanted = true_pixel(truth, place.point((point[0], point[1])))
        assert math.dist(drawn, wanted) < 1e-3
    assert "A mark may be off by" in (tab.text_content("#work-words") or "")
    # The middle of a blanket has no marks: that is where the panel hides none.
    assert tab.locator("#panel").get_attribute("class") == ""
    boxes = tab.locator("#picture text").evaluate_all(
        "all => all.map((e) => e.getBBox()).map(({ x, y, height }) => [x, y, height])"
    )
    seen = [(y, height) for x, y, height in boxes if 0 < x < 1920 and -20 < y < 1080]
    assert seen
    assert all(y >= 0 and y + 0.9 * height <= 1080 for y, height in seen)
    assert tab.failures == []  # type: ignore[attr-defined]
    tab.close()
