"""Every key does its work, and every control has a name and is reached by keyboard."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest
import rigs

from browser.driver import CHROMIUM
from browser.tabs import calibrated, cut_line, screen, steps

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = pytest.mark.skipif(not CHROMIUM.exists(), reason="run tests/browser/install first")


def test_keys_of_steps_frames_and_pieces(shown: Page) -> None:
    """Next and previous go through the steps and over to the next frame, and back."""
    calibrated(shown, rigs.CAMERAS["tilted"])
    title = shown.locator("#work-title")
    seen = [title.text_content()]
    for key in ("n", "n", "n", "n", "p", "p", "PageDown", "PageUp", "b"):
        shown.keyboard.press(key)
        seen.append(title.text_content())
    assert seen == [
        "backing, corner DA: cut line (1 of 4)",
        "backing, corner DA: long lines (2 of 4)",
        "backing, corner DA: corner DA (3 of 4)",
        "backing, corner DA: everything (4 of 4)",
        "backing, corner AB: cut line (1 of 4)",
        "backing, corner DA: everything (4 of 4)",
        "backing, corner DA: corner DA (3 of 4)",
        "backing, corner AB: cut line (1 of 4)",
        "backing, corner DA: cut line (1 of 4)",
        "top, corner DA: cut line (1 of 4)",
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
