"""The page in Chromium: marks fall where the truth has them, every key works, nothing runs wild.

A simulated lens is the judge: what the page draws is read back from the screen's pixels and
compared with where the true rig has it.
"""

from __future__ import annotations

import http.server
import io
import json
import math
import threading
from collections.abc import Iterator
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
import rigs
from PIL import Image
from test_writers_page import HOSTILE, page

from browser.driver import CHROMIUM, browser
from cutpaths.projector.rig_reading import read
from cutpaths.projector.view import Matrix, apply, inverse
from cutpaths.shapes import Motion, Point
from cutpaths.sheets.page import PageDocument
from cutpaths.sheets.sheet import Wishes
from cutpaths.writers.page import render

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page

pytestmark = pytest.mark.skipif(not CHROMIUM.exists(), reason="run tests/browser/install first")
ROOT = Path(__file__).parent.parent.parent
LOFT = ROOT / "fixtures" / "rigs" / "loft.toml"
NEAR = 0.2  # pixels
REACH = 5.0  # pixels to either side of a line in which its light is looked for


@pytest.fixture(scope="module")
def context() -> Iterator[BrowserContext]:
    """A browser as large as the simulated picture."""
    with browser(1920, 1080) as opened:
        yield opened


@pytest.fixture
def shown(context: BrowserContext, tmp_path: Path) -> Iterator[Page]:
    """The page without a rig, nothing kept from other tests."""
    tab = opened(context, tmp_path, page())
    yield tab
    assert tab.failures == []  # type: ignore[attr-defined]  # hung on it by `opened`
    tab.close()


def opened(context: BrowserContext, folder: Path, document: PageDocument) -> Page:
    """A tab with a page from a file; errors of its script and requests are kept."""
    file = folder / "page.html"
    file.write_bytes(render(document))
    tab = context.new_page()
    failures: list[str] = []
    tab.on("pageerror", lambda error: failures.append(str(error)))
    tab.on("console", lambda message: failures.append(message.text))
    tab.on("dialog", lambda dialog: (failures.append("dialog"), dialog.dismiss()))
    tab.on("request", lambda sent: None if sent.url == file.as_uri() else failures.append(sent.url))
    tab.goto(file.as_uri())
    tab.evaluate("localStorage.clear()")
    tab.reload()
    tab.failures = failures  # type: ignore[attr-defined]
    return tab


def typed(tab: Page, readings: list[tuple[int, int, str]]) -> None:
    """Types readings into the form, row by row."""
    for n, (first, second, text) in enumerate(readings, 1):
        if tab.get_by_label(f"Length of reading {n}", exact=True).count() == 0:
            tab.get_by_role("button", name="One more reading").click()
        tab.get_by_label(f"First cross of reading {n}", exact=True).fill(str(first))
        tab.get_by_label(f"Second cross of reading {n}", exact=True).fill(str(second))
        tab.get_by_label(f"Length of reading {n}", exact=True).fill(text)


def calibrated(tab: Page, truth: Matrix) -> None:
    """Types what a tape says on a true rig, to a thousandth of a mm, and goes to the marks."""
    rig = rigs.measured(rigs.rig(), truth, rigs.NINE)
    typed(tab, [(d.first, d.second, f"{float(d.mm):.3f} mm") for d in rig.distances])
    tab.get_by_role("button", name="Calibrate or mark").click()


def screen(tab: Page) -> np.ndarray[Any, np.dtype[np.float64]]:
    """What the screen shows, as brightness 0 to 1."""
    with Image.open(io.BytesIO(tab.screenshot())) as image:
        return np.asarray(image.convert("RGB"), dtype=np.float64).max(axis=2) / 255


def off_line(seen: np.ndarray[Any, Any], start: Point, end: Point, part: float) -> float:
    """How far the light is from a line, square to it, at a part of its way; in pixels."""
    x, y = (a + part * (b - a) for a, b in zip(start, end, strict=True))
    length = math.dist(start, end)
    across = -(end[1] - start[1]) / length, (end[0] - start[0]) / length
    steps = np.arange(-REACH, REACH + 0.01, 0.125)
    light = [_bilinear(seen, x + t * across[0] - 0.5, y + t * across[1] - 0.5) for t in steps]
    assert max(light) > 0.3, "no line here"
    return float(np.average(steps, weights=light))


def _bilinear(seen: np.ndarray[Any, Any], x: float, y: float) -> float:
    i, j = math.floor(x), math.floor(y)
    u, v = x - i, y - j
    top = seen[j, i] * (1 - u) + seen[j, i + 1] * u
    foot = seen[j + 1, i] * (1 - u) + seen[j + 1, i + 1] * u
    return float(top * (1 - v) + foot * v)


def true_pixel(truth: Matrix, place: Point) -> Point:
    """Where a true rig has a place that is given about the middle of its picture."""
    back = inverse(truth)
    middle, beside = apply(truth, (960.0, 540.0)), apply(truth, (960.001, 540.0))
    length = math.dist(middle, beside)
    cos, sin = (beside[0] - middle[0]) / length, (beside[1] - middle[1]) / length
    return apply(back, Motion(cos, sin, *middle).point(place))


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
    shown.keyboard.press("n")
    assert "corner DA" in (shown.text_content("#work-title") or "")
    for role in ("CUT", "STITCH", "FOLD", "TRIM"):
        shown.evaluate(f"document.getElementById('role-{role}').click()")
    seen = screen(shown)
    arms = [
        [home.point((p[0], p[1])) for p in line["points"]]
        for line in lines
        if line["role"] == "DOT" and line["step"] == "corner DA" and _is_arm(line["points"])
    ]
    assert len(arms) == 8
    for start, end in arms:
        ends = true_pixel(truth, start), true_pixel(truth, end)
        assert abs(off_line(seen, *ends, 0.2)) < NEAR


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


def test_a_hostile_title_does_not_run(context: BrowserContext, tmp_path: Path) -> None:
    """It is shown as it is written; no dialog, no picture, no request, no error."""
    tab = opened(context, tmp_path, page(HOSTILE))
    assert tab.text_content("h1") == HOSTILE
    assert tab.title() == f"{HOSTILE}: marks by light"
    assert tab.locator("img").count() == 0
    assert tab.failures == []  # type: ignore[attr-defined]
    tab.close()


def test_the_policy_stops_everything_else(context: BrowserContext, tmp_path: Path) -> None:
    """A script, a picture and a request put into the page by hand do not get out."""
    tab = opened(context, tmp_path, page())
    done = tab.evaluate(
        """async () => {
            const script = document.createElement("script");
            script.textContent = "window.ran = true";
            document.body.append(script);
            const sent = await fetch("http://127.0.0.1:9/").then(() => true, () => false);
            return [window.ran === true, sent];
        }"""
    )
    assert done == [False, False]
    assert any("Content Security Policy" in line for line in tab.failures)  # type: ignore[attr-defined]
    tab.close()


def cut_line(tab: Page) -> list[list[float]]:
    """The pixels of the cut line as drawn."""
    drawn = tab.locator("#picture polyline[data-role=CUT]").first.get_attribute("points") or ""
    return [[float(v) for v in point.split(",")] for point in drawn.split()]


def steps(tab: Page) -> set[str | None]:
    """The steps of which something is drawn."""
    found: list[str | None] = tab.locator("#picture polyline").evaluate_all(
        "all => all.map((each) => each.dataset.step)"
    )
    return set(found)


def test_keys_of_steps_frames_and_pieces(shown: Page) -> None:
    """Next and previous go through the steps and over to the next frame, and back."""
    calibrated(shown, rigs.CAMERAS["tilted"])
    title = shown.locator("#work-title")
    seen = [title.text_content()]
    for key in ("n", "n", "n", "p", "p", "PageDown", "PageUp", "b"):
        shown.keyboard.press(key)
        seen.append(title.text_content())
    assert seen == [
        "backing, corner DA: cut line (1 of 3)",
        "backing, corner DA: corner DA (2 of 3)",
        "backing, corner DA: everything (3 of 3)",
        "backing, corner AB: cut line (1 of 3)",
        "backing, corner DA: everything (3 of 3)",
        "backing, corner DA: corner DA (2 of 3)",
        "backing, corner AB: cut line (1 of 3)",
        "backing, corner DA: cut line (1 of 3)",
        "top, corner DA: cut line (1 of 3)",
    ]
    shown.keyboard.press("p")
    assert title.text_content() == seen[-1]
    assert steps(shown) == {"cut line"}


def test_keys_of_nudges(shown: Page) -> None:
    """Arrows move by 0.5 mm of table, brackets turn by 0.1 degree, 0 takes it back."""
    calibrated(shown, rigs.CAMERAS["straight"])
    start = cut_line(shown)
    scale = 3000 / 1800  # pixels a mm of the straight rig
    for key, (dx, dy) in {
        "ArrowRight": (0.5, 0.0),
        "ArrowUp": (0.5, -0.5),
        "ArrowLeft": (0.0, -0.5),
        "ArrowDown": (0.0, 0.0),
    }.items():
        shown.keyboard.press(key)
        moved = cut_line(shown)[0]
        assert moved[0] - start[0][0] == pytest.approx(dx * scale, abs=2e-3)
        assert moved[1] - start[0][1] == pytest.approx(dy * scale, abs=2e-3)
    shown.keyboard.press("[")
    (x, y), (u, v) = cut_line(shown)[:2]
    assert math.degrees(math.atan2(y - v, u - x)) == pytest.approx(0.1, abs=1e-3)
    shown.keyboard.press("]")
    shown.keyboard.press("]")
    (x, y), (u, v) = cut_line(shown)[:2]
    assert math.degrees(math.atan2(y - v, u - x)) == pytest.approx(-0.1, abs=1e-3)
    assert "-0.1 degrees" in (shown.text_content("#work-words") or "")
    shown.keyboard.press("0")
    assert cut_line(shown) == start


def test_key_of_the_mirror(shown: Page) -> None:
    """The frame is mirrored about its middle, and says for which face it is."""
    calibrated(shown, rigs.CAMERAS["straight"])
    start = cut_line(shown)
    shown.keyboard.press("m")
    for (x, y), (u, v) in zip(start, cut_line(shown), strict=True):
        assert (x + u) / 2 == pytest.approx(960, abs=2e-3)
        assert y == pytest.approx(v, abs=2e-3)
    assert shown.text_content("#work-face") == "Mirrored: for the right side up."


def test_keys_of_lines_and_colours(shown: Page) -> None:
    """Thicker, thinner, light on dark and dark on light; there is an end to both."""
    calibrated(shown, rigs.CAMERAS["tilted"])
    line = shown.locator("#picture polyline").first
    assert line.get_attribute("stroke-width") == "2"
    shown.keyboard.press("+")
    assert line.get_attribute("stroke-width") == "3"
    for _ in range(5):
        shown.keyboard.press("-")
    assert line.get_attribute("stroke-width") == "1"
    assert line.get_attribute("stroke") == "#ffffff"
    shown.keyboard.press("d")
    assert line.get_attribute("stroke") == "#000000"
    assert screen(shown)[5, 5] == 1.0
    shown.keyboard.press("d")
    assert screen(shown)[5, 5] == 0.0


def test_roles_are_hidden_and_shown(shown: Page) -> None:
    """Each role has a switch; one key brings all back."""
    calibrated(shown, rigs.CAMERAS["tilted"])
    for _ in range(2):
        shown.keyboard.press("n")
    shown.get_by_text("Hide and show").click()
    roles = shown.locator("#picture polyline")
    before = roles.count()
    shown.get_by_label("start and stop dot, back-tack sign").click()
    assert shown.locator("#picture polyline[data-role=DOT]").count() == 0
    assert roles.count() < before
    shown.keyboard.press("a")
    assert roles.count() == before
    assert shown.get_by_label("start and stop dot, back-tack sign").is_checked()


def test_keys_of_scale_check_help_panel_and_screen(shown: Page) -> None:
    """Scale squares at any time, help on one screen, the panel away and back, full screen."""
    calibrated(shown, rigs.CAMERAS["straight"])
    shown.keyboard.press("s")
    squares = shown.locator("#picture polyline[data-role=SCALE]")
    sizes = []
    for points in squares.evaluate_all("all => all.map((each) => each.getAttribute('points'))"):
        xs = [float(point.split(",")[0]) for point in points.split()]
        sizes.append((max(xs) - min(xs)) * 1800 / 3000)
    assert sizes == pytest.approx([100.0, 76.2], abs=0.01)
    shown.keyboard.press("Escape")
    assert squares.count() == 0
    shown.keyboard.press("h")
    box = shown.locator("#help").bounding_box()
    assert box is not None
    assert shown.locator("#help").evaluate("e => e.scrollHeight <= e.clientHeight")
    assert shown.locator("#keys kbd").count() == 23
    shown.keyboard.press("Escape")
    assert shown.locator("#help").is_hidden()
    shown.keyboard.press("t")
    assert shown.locator("#panel").is_hidden()
    shown.keyboard.press("t")
    shown.keyboard.press("c")
    assert shown.locator("#calibrate").is_visible()
    shown.keyboard.press("s")
    assert squares.count() == 2
    shown.keyboard.press("f")
    shown.wait_for_function("document.fullscreenElement !== null")
    shown.keyboard.press("f")
    shown.wait_for_function("document.fullscreenElement === null")


def test_every_control_has_a_name_and_is_reached_by_keyboard(shown: Page) -> None:
    """Tab goes through every visible control, and each has an accessible name."""
    wanted = shown.evaluate(
        """() => [...document.querySelectorAll("button, input, select, summary")]
            .filter((each) => each.checkVisibility()).length"""
    )
    names = set()
    for n in range(wanted):
        shown.keyboard.press("Tab")
        name = shown.evaluate(
            """() => { const e = document.activeElement;
                return e.getAttribute("aria-label") || e.labels?.[0]?.textContent
                    || e.textContent; }"""
        )
        assert name.strip(), n
        names.add(name.strip())
    assert len(names) == wanted


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
    typed(shown, [(1, 4, "1000 mm"), (4, 1, "1050 mm")])
    assert shown.text_content("#remark-1") == "does not agree with 1000 mm above"
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


@pytest.mark.parametrize(("width", "height"), [(1280, 720), (1920, 1080), (3840, 2160)])
def test_the_panel_fits_every_picture(width: int, height: int, tmp_path: Path) -> None:
    """At each size the panel is whole on the screen, and no cross lies under it."""
    with browser(width, height) as opened_now:
        tab = opened(opened_now, tmp_path, page())
        box = tab.locator("#panel").bounding_box()
        assert box is not None
        assert box["y"] >= 0
        assert box["y"] + box["height"] <= height
        assert tab.locator("#panel").evaluate("e => e.scrollHeight <= e.clientHeight + 1")
        crosses = tab.locator("#picture polyline").count()
        assert crosses == 24
        inner = 67 * width / 1920 + (width - 2 * 67 * width / 1920) / 3
        assert box["x"] > inner
        assert box["x"] + box["width"] < width - inner
