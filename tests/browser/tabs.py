"""A tab with the page: opened, typed into, and read back from the screen's pixels."""

from __future__ import annotations

import io
import math
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import rigs
from PIL import Image

from cutpaths.projector.rig import Rig
from cutpaths.projector.rig_text import rig_text
from cutpaths.projector.view import Matrix, apply, inverse
from cutpaths.shapes import Motion, Point
from cutpaths.sheets.page import PageDocument
from cutpaths.writers.page import render

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page

ROOT = Path(__file__).parent.parent.parent
LOFT = ROOT / "fixtures" / "rigs" / "loft.toml"
NEAR = 0.2  # pixels
REACH = 5.0  # pixels to either side of a line in which its light is looked for


def opened(context: BrowserContext, folder: Path, document: PageDocument) -> Page:
    """A tab with a page from a file; errors of its script and requests are kept."""
    file = folder / "page.html"
    file.write_bytes(render(document))
    tab = context.new_page()
    tab.set_default_timeout(5_000)
    failures: list[str] = []
    tab.on("pageerror", lambda error: failures.append(str(error)))
    tab.on("console", lambda message: failures.append(message.text))
    tab.on("dialog", lambda dialog: failures.append(dialog.message))
    tab.on("request", lambda sent: None if sent.url == file.as_uri() else failures.append(sent.url))
    tab.goto(file.as_uri())
    tab.evaluate("localStorage.clear()")
    tab.reload()
    tab.failures = failures  # type: ignore[attr-defined]
    return tab


def script_rig(rig: Rig) -> dict[str, Any]:
    """A rig as the page's script has it."""
    return plain_rig() | {
        "unit": rig.unit.value,
        "within": float(rig.within),
        "thickness": float(rig.thickness),
        "lens": rig.lens
        and {
            "height": float(rig.lens.height),
            "distances": [[n, float(mm)] for n, mm in rig.lens.distances],
        },
        "distances": [[d.first, d.second, float(d.mm)] for d in rig.distances],
        "positions": [[p.cross, float(p.x), float(p.y)] for p in rig.positions],
    }


def plain_rig() -> dict[str, Any]:
    """The simulated rig without readings, as the page's script has it."""
    plain = rigs.rig()
    keys = ("width", "height", "columns", "rows", "inset")
    return {key: getattr(plain, key) for key in keys} | {
        "unit": "mm",
        "within": 1.0,
        "thickness": 0.0,
        "lens": None,
        "distances": [],
        "positions": [],
    }


def typed(tab: Page, readings: list[tuple[int, int, str]]) -> None:
    """Types readings into the form, row by row."""
    for n, (first, second, text) in enumerate(readings, 1):
        if tab.get_by_label(f"Length of reading {n}", exact=True).count() == 0:
            tab.get_by_role("button", name="One more reading").click()
        for label, value in (("First cross", first), ("Second cross", second), ("Length", text)):
            field = tab.get_by_label(f"{label} of reading {n}", exact=True)
            if field.input_value() != str(value):
                field.fill(str(value))


def typed_mat(tab: Page, readings: list[tuple[int, str, str]]) -> None:
    """Goes to the form for a ruled mat and types where crosses fall on it."""
    tab.get_by_label("Ruled mat").check()
    for n, values in enumerate(readings, 1):
        if tab.get_by_label(f"Cross of mat reading {n}", exact=True).count() == 0:
            tab.get_by_role("button", name="One more reading").click()
        for label, value in zip(("Cross", "Right", "Up"), values, strict=True):
            tab.get_by_label(f"{label} of mat reading {n}", exact=True).fill(str(value))


def calibrated(tab: Page, truth: Matrix) -> None:
    """Loads the rig file of a true rig, and goes to the marks."""
    text = rig_text(rigs.measured(rigs.rig(), truth, rigs.NINE))
    file: Any = {"name": "rig.toml", "mimeType": "application/toml", "buffer": text.encode()}
    tab.set_input_files("#load", file)
    tab.get_by_text("Calibrated: ").wait_for()
    tab.get_by_role("button", name="Calibrate or mark").click()


def screen(tab: Page) -> np.ndarray[Any, np.dtype[np.float64]]:
    """What the screen shows, as brightness 0 to 1."""
    with Image.open(io.BytesIO(tab.screenshot())) as image:
        bright = np.asarray(image.convert("RGB"), dtype=np.float64).max(axis=2)
    return np.asarray(bright / 255, dtype=np.float64)


def off_line(
    seen: np.ndarray[Any, Any], start: Point, end: Point, part: float, reach: float = REACH
) -> float:
    """How far the light is from a line, square to it, at a part of its way; in pixels."""
    x, y = (a + part * (b - a) for a, b in zip(start, end, strict=True))
    length = math.dist(start, end)
    across = -(end[1] - start[1]) / length, (end[0] - start[0]) / length
    steps = np.arange(-reach, reach + 0.01, 0.125)
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
