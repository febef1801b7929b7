"""The page of a folder in a real browser: it asks for nothing, runs nothing, leads to its files."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from test_writers_index import HOSTILE, page

from browser.driver import NEEDS_CHROMIUM
from cutpaths.writers.index import render

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page

pytestmark = NEEDS_CHROMIUM


@pytest.fixture
def failures() -> list[str]:
    """Whatever the browser complains of, asks for or is made to show."""
    return []


@pytest.fixture
def hostile(context: BrowserContext, tmp_path: Path, failures: list[str]) -> Iterator[Page]:
    """The page of a project with a hostile title, with a file beside it for each link."""
    document = page(HOSTILE)
    for group in document.content.groups:
        for card in group.cards:
            for each in card.files:
                (tmp_path / each.path).parent.mkdir(exist_ok=True)
                (tmp_path / each.path).write_text("here", encoding="utf-8")
    file = tmp_path / "index.html"
    file.write_bytes(render(document))
    tab = context.new_page()
    tab.set_default_timeout(5_000)
    tab.on("pageerror", lambda error: failures.append(str(error)))
    tab.on("console", lambda message: failures.append(message.text))
    tab.on("dialog", lambda dialog: failures.append(dialog.message))
    tab.on("request", lambda sent: None if sent.url == file.as_uri() else failures.append(sent.url))
    tab.goto(file.as_uri())
    yield tab
    tab.close()


def test_nothing_runs_and_nothing_is_asked_for(hostile: Page, failures: list[str]) -> None:
    """The title stands as it is written; no dialog, no request, no error."""
    assert hostile.text_content("h1") == HOSTILE
    assert hostile.title() == f"{HOSTILE}: all files"
    assert hostile.locator("img, script, iframe").count() == 0
    assert failures == []


def test_every_link_leads_to_a_file(hostile: Page) -> None:
    """As the browser resolves them, all links are files of the folder or places on the page."""
    links = hostile.eval_on_selector_all("a", "all => all.map(a => a.href)")
    files = [link for link in links if "#" not in link]
    assert len(files) == sum(len(c.files) for g in page().content.groups for c in g.cards)
    assert all(Path(link.removeprefix("file://")).exists() for link in files)


def test_the_style_holds_in_light_and_dark(hostile: Page) -> None:
    """The policy lets the page's own style in; text and ground stay 7:1 apart or more.

    Contrast as in WCAG 2.2, success criterion 1.4.6 (from memory).
    """
    for scheme in ("light", "dark"):
        hostile.emulate_media(color_scheme=scheme)
        colours = hostile.evaluate(
            "['color', 'backgroundColor'].map(k => getComputedStyle(document.body)[k])"
        )
        ink, ground = (_luminance(colour) for colour in colours)
        low, high = sorted((ink, ground))
        assert (high + 0.05) / (low + 0.05) >= 7.0


def test_nothing_is_wider_than_a_phone(hostile: Page) -> None:
    """At 360 px the page does not scroll sideways, whatever the title."""
    hostile.set_viewport_size({"width": 360, "height": 800})
    assert hostile.evaluate("document.documentElement.scrollWidth") <= 360
    hostile.set_viewport_size({"width": 1920, "height": 1080})


def _luminance(colour: str) -> float:
    """Relative luminance of `rgb(r, g, b)`."""
    parts = [int(each) / 255 for each in colour[colour.index("(") + 1 : -1].split(",")[:3]]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
