"""Nothing that a person wrote runs, nothing gets out, and the panel fits every picture."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from test_writers_page import HOSTILE, page

from browser.driver import CHROMIUM
from browser.tabs import opened

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page

pytestmark = pytest.mark.skipif(not CHROMIUM.exists(), reason="run tests/browser/install first")


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


@pytest.mark.parametrize(("width", "height"), [(1280, 720), (1920, 1080), (3840, 2160)])
def test_the_panel_fits_every_picture(shown: Page, width: int, height: int) -> None:
    """At each size the panel is whole on the screen, and no cross lies under it."""
    shown.set_viewport_size({"width": width, "height": height})
    shown.reload()
    box = shown.locator("#panel").bounding_box()
    assert box is not None
    assert box["y"] >= 0
    assert box["y"] + box["height"] <= height
    assert shown.locator("#panel").evaluate("e => e.scrollHeight <= e.clientHeight + 1")
    assert shown.locator("#picture polyline").count() == 24
    inner = width / 28.8 + (width - width / 14.4) / 3
    assert box["x"] > inner
    assert box["x"] + box["width"] < width - inner
    shown.set_viewport_size({"width": 1920, "height": 1080})
