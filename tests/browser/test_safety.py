"""Nothing that a person wrote runs, nothing gets out, and the panel fits every picture."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
import rigs
from test_writers_page import HOSTILE, page

from browser.driver import NEEDS_CHROMIUM
from browser.tabs import opened, typed, typed_mat
from cutpaths.projector.report import CAUTIONS
from cutpaths.projector.view import product

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, FloatRect, Page

pytestmark = NEEDS_CHROMIUM


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


SIZES = pytest.mark.parametrize(("width", "height"), [(1280, 720), (1920, 1080), (3840, 2160)])


@pytest.fixture
def sized(shown: Page, width: int, height: int) -> Iterator[Page]:
    """The page in a window of a size."""
    shown.set_viewport_size({"width": width, "height": height})
    shown.reload()
    yield shown
    shown.set_viewport_size({"width": 1920, "height": 1080})


def whole(tab: Page, name: str, width: int, height: int) -> FloatRect:
    """The box of a part of the page; all of it is on the screen and none of it is scrolled away."""
    box = tab.locator(name).bounding_box()
    assert box is not None
    assert min(box["x"], box["y"]) >= 0
    assert box["x"] + box["width"] <= width
    assert box["y"] + box["height"] <= height
    assert tab.locator(name).evaluate("e => e.scrollHeight <= e.clientHeight + 1")
    assert tab.locator(name).evaluate("e => e.scrollWidth <= e.clientWidth + 1")
    return box


@SIZES
@pytest.mark.parametrize("kind", ["empty", "full", "misread", "mat"])
def test_the_form_fits_every_picture(sized: Page, width: int, height: int, kind: str) -> None:
    """At each size the panel is whole on the screen, and no cross's middle lies under it."""
    if kind in ("full", "misread"):
        wrong = {(1, 12): 1.04} if kind == "misread" else {}
        rig = rigs.measured(rigs.rig(), rigs.CAMERAS["tilted"], rigs.NINE, noise=0.5, wrong=wrong)
        typed(sized, [(d.first, d.second, f"{float(d.mm):.0f} mm") for d in rig.distances])
        assert sized.locator("#problem-4").is_visible() == (kind == "misread")
    elif kind == "mat":
        read = [(n, "21 13/16 in", "-21 13/16 in") for n in (1, 4, 12, 9, 6, 7)]
        typed_mat(sized, [(n, f"{n} 13/16 in", up) for n, _, up in read])
    box = whole(sized, "#panel", width, height)
    assert sized.locator("#picture polyline").count() == 24
    inner = width / 28.8 + (width - width / 14.4) / 3
    assert box["x"] > inner
    assert box["x"] + box["width"] < width - inner


@SIZES
def test_marks_and_help_fit_every_picture(sized: Page, width: int, height: int) -> None:
    """The panel stands in a corner clear of the corner that is marked; the help is whole too."""
    truth = product(rigs.CAMERAS["straight"], (1920 / width, 0, 0, 0, 1080 / height, 0, 0, 0, 1))
    crosses = rigs.rig(width=width, height=height, inset=min(width, height) // 16)
    rig = rigs.measured(crosses, truth, rigs.NINE)
    typed(sized, [(d.first, d.second, f"{float(d.mm):.3f} mm") for d in rig.distances])
    sized.get_by_role("button", name="Calibrate or mark").click()
    sized.locator("details").evaluate("each => { each.open = true; }")
    for _ in range(4):
        sized.keyboard.press("n")
        box = whole(sized, "#panel", width, height)
        for x, y in (point for line in drawn(sized) for point in line):
            inside = box["x"] < x < box["x"] + box["width"]
            assert not (inside and box["y"] < y < box["y"] + box["height"])
    sized.keyboard.press("s")
    whole(sized, "#panel", width, height)
    sized.keyboard.press("h")
    whole(sized, "#help", width, height)


def drawn(tab: Page) -> list[list[list[float]]]:
    """The pixels of all lines."""
    lines = tab.locator("#picture polyline").evaluate_all(
        "all => all.map((each) => each.getAttribute('points'))"
    )
    return [[[float(v) for v in p.split(",")] for p in points.split()] for points in lines]


def test_the_page_says_how_to_stay_safe(shown: Page) -> None:
    """On the panel and in the help: the lens, the fall, the cable, and who else to ask."""
    assert shown.text_content("#cautions") == " ".join(CAUTIONS)
    assert shown.locator("#cautions").is_visible()
    shown.keyboard.press("h")
    said = " ".join((shown.locator("#help").inner_text()).split())
    for words in ("into the lens", "cannot fall", "IEC 62471-5:2015", "local rules"):
        assert words in said
