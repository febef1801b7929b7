"""Marks fall where the truth has them, and the script fits as the package does.

A simulated lens is the judge: what the page draws is read back from the screen's pixels and
compared with where the true rig has it.
"""

from __future__ import annotations

import http.server
import json
import math
import threading
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
import rigs
from test_writers_page import page

from browser.driver import CHROMIUM
from browser.tabs import calibrated, cut_line, off_line, opened, screen, true_pixel
from cutpaths.shapes import Motion
from cutpaths.sheets.sheet import Wishes

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page

pytestmark = pytest.mark.skipif(not CHROMIUM.exists(), reason="run tests/browser/install first")
ROOT = Path(__file__).parent.parent.parent
LOFT = ROOT / "fixtures" / "rigs" / "loft.toml"
NEAR = 0.2  # pixels
REACH = 5.0  # pixels to either side of a line in which its light is looked for


@pytest.mark.parametrize("name", sorted(rigs.CAMERAS))
def test_marks_fall_where_the_truth_has_them(shown: Page, name: str) -> None:
    """The cut lines and the arms of both dots of a corner, read off the screen, within 0.2 px."""
    truth = rigs.CAMERAS[name]
    calibrated(shown, truth)
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


def test_the_script_fits_as_the_package_does(context: BrowserContext) -> None:
    """Every shared case comes out within 1e-6 px of what scipy found."""
    handler = partial(_Quiet, directory=str(ROOT / "cutpaths" / "projector" / "page"))
    cases = json.loads((ROOT / "fixtures" / "rigs" / "cases.json").read_text())
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        tab = context.new_page()
        tab.goto(f"http://127.0.0.1:{server.server_address[1]}/fit.js")
        found = tab.evaluate(
            """async ([cases, crosses]) => {
                const { fitView } = await import("/fit.js");
                const { apply } = await import("/homography.js");
                return cases.map((each) => {
                    const view = fitView(1920, 1080, crosses, each);
                    return each.places.map(([place]) => apply(view.toPixel, place));
                });
            }""",
            [cases, [list(p) for p in rigs.rig().crosses]],
        )
        tab.close()
        server.shutdown()
    for case, pixels in zip(cases, found, strict=True):
        for (_, wanted), pixel in zip(case["places"], pixels, strict=True):
            assert math.dist(wanted, pixel) < 1e-6, case["name"]


class _Quiet(http.server.SimpleHTTPRequestHandler):
    """Serves the modules to this machine alone."""

    def log_message(self, *_: object) -> None:
        """Says nothing."""


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
    assert tab.failures == []  # type: ignore[attr-defined]
    tab.close()
