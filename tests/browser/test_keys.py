"""Every key does its work, every button what its key does, and every control has a name."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

import pytest
import rigs

from browser.driver import NEEDS_CHROMIUM
from browser.tabs import calibrated, cut_line, screen, steps

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = NEEDS_CHROMIUM
PIXELS = 3000 / 1800  # a mm of the straight rig


def title(tab: Page) -> str:
    """Where the work stands."""
    return tab.text_content("#work-title") or ""


def goes(*titles: str, first: str = "") -> Callable[[Page, Callable[[], None]], None]:
    """A check that each press leads to a title, the last pressed keys before it given."""

    def check(tab: Page, press: Callable[[], None]) -> None:
        for key in first.split():
            tab.keyboard.press(key)
        for wanted in titles:
            press()
            assert title(tab) == wanted

    return check


def moves(right: float, up: float) -> Callable[[Page, Callable[[], None]], None]:
    """A check that a press moves the marks by mm of the table."""

    def check(tab: Page, press: Callable[[], None]) -> None:
        start = cut_line(tab)[0]
        press()
        moved = cut_line(tab)[0]
        assert moved[0] - start[0] == pytest.approx(right * PIXELS, abs=2e-3)
        assert moved[1] - start[1] == pytest.approx(-up * PIXELS, abs=2e-3)

    return check


def turns(degrees: float) -> Callable[[Page, Callable[[], None]], None]:
    """A check that a press turns the marks, counter-clockwise, and that the panel says so."""

    def check(tab: Page, press: Callable[[], None]) -> None:
        press()
        (x, y), (u, v) = cut_line(tab)[:2]
        assert math.degrees(math.atan2(y - v, u - x)) == pytest.approx(degrees, abs=1e-3)
        assert f" {degrees} degrees" in (tab.text_content("#work-words") or "")

    return check


def undoes_nudges(tab: Page, press: Callable[[], None]) -> None:
    """Moved and turned marks are where they were."""
    start = cut_line(tab)
    for key in ("ArrowUp", "ArrowUp", "[", "ArrowLeft"):
        tab.keyboard.press(key)
    assert cut_line(tab) != start
    press()
    assert cut_line(tab) == start


def mirrors(tab: Page, press: Callable[[], None]) -> None:
    """The frame is mirrored about its middle, and says for which face it is."""
    start = cut_line(tab)
    press()
    for (x, y), (u, v) in zip(start, cut_line(tab), strict=True):
        assert (x + u) / 2 == pytest.approx(960, abs=2e-3)
        assert y == pytest.approx(v, abs=2e-3)
    assert tab.text_content("#work-face") == "Mirrored: for the right side up."
    press()
    assert cut_line(tab) == start


def widths(*wanted: str) -> Callable[[Page, Callable[[], None]], None]:
    """A check of the width of lines after each press."""

    def check(tab: Page, press: Callable[[], None]) -> None:
        line = tab.locator("#picture polyline").first
        assert line.get_attribute("stroke-width") == "2"
        for width in wanted:
            press()
            assert line.get_attribute("stroke-width") == width

    return check


def swaps_colours(tab: Page, press: Callable[[], None]) -> None:
    """Light on dark, dark on light, and back; lines and ground."""
    line = tab.locator("#picture polyline").first
    for stroke, ground in (("#000000", 1.0), ("#ffffff", 0.0)):
        press()
        assert line.get_attribute("stroke") == stroke
        assert screen(tab)[1075, 1915] == ground


def shows_all(tab: Page, press: Callable[[], None]) -> None:
    """A role that was hidden by its switch is drawn again."""
    for _ in range(2):
        tab.keyboard.press("n")
    lines = tab.locator("#picture polyline")
    before = lines.count()
    tab.locator("details").evaluate("each => { each.open = true; }")
    dots = tab.get_by_label("start and stop dot, back-tack sign")
    dots.click()
    assert tab.locator("#picture polyline[data-role=DOT]").count() == 0
    assert lines.count() < before
    press()
    assert lines.count() == before
    assert dots.is_checked()


def checks_scale(tab: Page, press: Callable[[], None]) -> None:
    """Two squares of 100 mm and 3 in instead of the marks; with the crosses too; and away."""
    squares = tab.locator("#picture polyline[data-role=SCALE]")
    press()
    sizes = []
    for points in squares.evaluate_all("all => all.map((each) => each.getAttribute('points'))"):
        xs = [float(point.split(",")[0]) for point in points.split()]
        sizes.append((max(xs) - min(xs)) / PIXELS)
    assert sizes == pytest.approx([100.0, 76.2], abs=0.01)
    assert tab.locator("#picture polyline").count() == 2
    press()
    assert squares.count() == 0
    tab.keyboard.press("c")
    press()
    assert squares.count() == 2
    assert tab.locator("#picture polyline").count() == 26


def calibrates(tab: Page, press: Callable[[], None]) -> None:
    """To the form with its crosses, and back to the marks."""
    press()
    assert tab.locator("#calibrate").is_visible()
    assert tab.locator("#picture polyline").count() == 24
    press()
    assert tab.locator("#work").is_visible()


def takes_panel_away(tab: Page, press: Callable[[], None]) -> None:
    """The panel goes; the key brings it back."""
    press()
    assert tab.locator("#panel").is_hidden()
    tab.keyboard.press("t")
    assert tab.locator("#panel").is_visible()


def fills_screen(tab: Page, press: Callable[[], None]) -> None:
    """Full screen, and back."""
    press()
    tab.locator(":root:fullscreen").wait_for()
    press()
    tab.locator(":root:not(:fullscreen)").wait_for()


def helps(tab: Page, press: Callable[[], None]) -> None:
    """All of the help is on the screen, and its button to close it is at hand."""
    press()
    assert tab.locator("#help").is_visible()
    assert tab.locator("#help").evaluate("e => e.scrollHeight <= e.clientHeight")
    assert tab.evaluate("document.activeElement.textContent") == "Close (h)"
    tab.keyboard.press("h")
    assert tab.locator("#help").is_hidden()
    assert tab.evaluate("document.activeElement.textContent") == "Help (h)"


def closes(tab: Page, press: Callable[[], None]) -> None:
    """Help goes first, then the scale check."""
    tab.keyboard.press("s")
    tab.keyboard.press("h")
    press()
    assert tab.locator("#help").is_hidden()
    assert tab.locator("#picture polyline[data-role=SCALE]").count() == 2
    press()
    assert tab.locator("#picture polyline[data-role=SCALE]").count() == 0


DA, AB = "backing, corner DA: ", "backing, corner AB: "
CHECKS: Mapping[str, Callable[[Page, Callable[[], None]], None]] = {
    "n": goes(
        f"{DA}long lines (2 of 4)",
        f"{DA}corner DA (3 of 4)",
        f"{DA}everything (4 of 4)",
        f"{AB}cut line (1 of 4)",
    ),
    "p": goes(f"{DA}everything (4 of 4)", f"{DA}corner DA (3 of 4)", first="PageDown"),
    "PageDown": goes(f"{AB}cut line (1 of 4)", first="n"),
    "PageUp": goes(*[f"{DA}cut line (1 of 4)"] * 2, first="PageDown n"),
    "b": goes("top, corner DA: cut line (1 of 4)", f"{DA}cut line (1 of 4)", first="PageDown"),
    "m": mirrors,
    "ArrowLeft": moves(-0.5, 0.0),
    "ArrowRight": moves(0.5, 0.0),
    "ArrowUp": moves(0.0, 0.5),
    "ArrowDown": moves(0.0, -0.5),
    "[": turns(0.1),
    "]": turns(-0.1),
    "0": undoes_nudges,
    "+": widths("3", "4", "5", "6", "7", "8", "8"),
    "-": widths("1", "1"),
    "d": swaps_colours,
    "a": shows_all,
    "s": checks_scale,
    "c": calibrates,
    "t": takes_panel_away,
    "f": fills_screen,
    "h": helps,
    "Escape": closes,
}
NO_BUTTON = {"Escape"}


def table(modules: Page) -> dict[str, str]:
    """The page's own table: the action of each key."""
    keys: list[list[str]] = modules.evaluate("""async () => (await import("/keys.js")).KEYS""")
    return {key: action for key, action, _ in keys}


def test_every_key_has_a_check(shown: Page, modules: Page) -> None:
    """The page's table, its help, and the checks here name the same keys."""
    assert list(table(modules)) == list(CHECKS)
    assert shown.locator("#keys kbd").count() == len(CHECKS)


@pytest.mark.parametrize("key", CHECKS)
def test_every_key_does_its_work(shown: Page, key: str) -> None:
    """What the help says of the key, seen on the page."""
    calibrated(shown, rigs.CAMERAS["straight"])
    CHECKS[key](shown, lambda: shown.keyboard.press(key))


@pytest.mark.parametrize("key", sorted(CHECKS.keys() - NO_BUTTON))
def test_every_key_has_a_button_that_does_the_same(shown: Page, modules: Page, key: str) -> None:
    """Who cannot press keys presses buttons."""
    calibrated(shown, rigs.CAMERAS["straight"])
    button = shown.locator(f"#panel button[data-action={table(modules)[key]}]")
    CHECKS[key](shown, lambda: button.evaluate("each => each.click()"))


def test_keys_stay_out_of_what_is_typed(shown: Page) -> None:
    """In a field, with a modifier, or unknown, a key of the table does nothing."""
    calibrated(shown, rigs.CAMERAS["straight"])
    before = title(shown), cut_line(shown)
    for key in ("Control+n", "Alt+ArrowLeft", "x", "F2"):
        shown.keyboard.press(key)
    assert (title(shown), cut_line(shown)) == before
    shown.keyboard.press("c")
    shown.get_by_label("Length of reading 1", exact=True).focus()
    shown.keyboard.press("d")
    assert shown.locator("body").get_attribute("class") == "light-on-dark"


def test_a_frame_starts_from_its_first_step(shown: Page) -> None:
    """The first step shows the cut line alone; nudges do not outlive their frame."""
    calibrated(shown, rigs.CAMERAS["straight"])
    shown.keyboard.press("ArrowUp")
    shown.keyboard.press("PageDown")
    assert steps(shown) == {"cut line"}
    assert "Nudged" not in (shown.text_content("#work-words") or "")


@pytest.mark.parametrize("kind", ["tape", "mat", "marks"])
def test_every_control_has_a_name_and_is_reached_by_keyboard(shown: Page, kind: str) -> None:
    """Tab goes through every visible control, and each has an accessible name of its own."""
    if kind == "marks":
        calibrated(shown, rigs.CAMERAS["straight"])
        shown.locator("details").evaluate("each => { each.open = true; }")
    elif kind == "mat":
        shown.get_by_label("Ruled mat").check()
    shown.evaluate("document.activeElement.blur()")
    # Of a group of radio buttons Tab reaches the one that is chosen.
    wanted = shown.evaluate(
        """() => [...document.querySelectorAll("button, input, select, summary")]
            .filter((each) => each.checkVisibility())
            .filter((each) => each.type !== "radio" || each.checked).length"""
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
