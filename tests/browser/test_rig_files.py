"""A calibration is kept, saved and loaded as a rig file, and nothing of the file is lost."""

from __future__ import annotations

from pathlib import Path
from random import Random
from typing import TYPE_CHECKING

import pytest
import rigs
from test_writers_page import page

from browser.driver import NEEDS_CHROMIUM
from browser.tabs import ROOT, calibrated, cut_line, opened, typed, typed_mat
from cutpaths.errors import InputError
from cutpaths.projector.calibrate import calibrate
from cutpaths.projector.lens import on_cloth
from cutpaths.projector.rig import Rig
from cutpaths.projector.rig_reading import load, read
from cutpaths.sheets.sheet import Wishes
from cutpaths.values import replace

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page

pytestmark = NEEDS_CHROMIUM
LOFT = ROOT / "fixtures" / "rigs" / "loft.toml"
# Every table and key, in inches, with comments; the lens stands where a tape would find it.
WHOLE = """\
# Over the cutting table.
format = 1
name = "Attic # 2"       # the small one
units = "in"

[picture]
width = 1920
height = 1080
inset = 67

[tape]
within = "1 mm"

[cloth]
margin = '1/2 in'        # under the raw edge
thickness = "2.5 mm"

[lens]
height = "1800 mm"       # straight down

[lens.distances]
"1" = "1897.6 mm"
"4" = "1896.5 mm"
"9" = "1896.6 mm"

[distances]              # with the long tape
"1-4" = "1056 mm"
"4-12" = "21 13/16"      # an inch tape will do
"12-9" = "981 mm"
"1-9" = "563 mm"
"1-12" = "1163 mm"
"4-9" = "1159 mm"
"1-10" = 26.417
"3-12" = "635 mm"
"""


def saved(tab: Page, folder: Path) -> str:
    """What the page saves."""
    with tab.expect_download() as download:
        tab.get_by_role("button", name="Save rig file").click()
    assert download.value.suggested_filename == "rig.toml"
    file = folder / "saved.toml"
    download.value.save_as(file)
    return file.read_text(encoding="utf-8")


def loaded(tab: Page, text: str, folder: Path) -> str:
    """Loads a text as a file; what the page then says."""
    file = folder / "mine.toml"
    file.write_text(text, encoding="utf-8")
    tab.evaluate("document.getElementById('fit').textContent = ''")
    tab.set_input_files("#load", file)
    tab.locator("#fit:not(:empty)").wait_for()
    return tab.text_content("#fit") or ""


def test_a_calibration_is_kept_saved_and_loaded(shown: Page, tmp_path: Path) -> None:
    """It is there after the page is opened again; its rig file reads in the package, and back."""
    calibrated(shown, rigs.CAMERAS["keystoned"])
    shown.reload()
    assert shown.locator("#work").is_visible()
    first = cut_line(shown)
    shown.keyboard.press("c")
    text = saved(shown, tmp_path)
    true = rigs.measured(rigs.rig(), rigs.CAMERAS["keystoned"], rigs.NINE)
    for ours, theirs in zip(read(text).distances, true.distances, strict=True):
        assert abs(ours.mm - theirs.mm) < 1e-3
    shown.get_by_role("button", name="Start again").click()
    assert shown.text_content("#fit") == "Measure 5 more."
    assert loaded(shown, text, tmp_path).startswith("Calibrated")
    shown.keyboard.press("c")
    assert cut_line(shown) == first


def test_a_file_that_is_loaded_and_saved_is_the_same(shown: Page, tmp_path: Path) -> None:
    """Letter for letter: tables, comments, units and fractions; so the calibration is the same."""
    for text in (WHOLE, LOFT.read_text()):
        assert loaded(shown, text, tmp_path).startswith("Calibrated")
        assert saved(shown, tmp_path) == text
    assert loaded(shown, WHOLE.replace("\n", "\r\n"), tmp_path).startswith("Calibrated")
    assert saved(shown, tmp_path) == WHOLE


def test_changed_readings_change_nothing_else(shown: Page, tmp_path: Path) -> None:
    """A reading typed anew, one taken out, one more, and the mat: all else stays as it was."""
    loaded(shown, WHOLE, tmp_path)
    typed(shown, [(1, 4, "41 9/16 in"), (4, 12, "555 mm")])
    shown.get_by_label("Length of reading 8", exact=True).fill("")
    shown.get_by_role("button", name="One more reading").click()
    for label, value in (("First cross", "2"), ("Second cross", "9"), ("Length", "66.25 cm")):
        shown.get_by_label(f"{label} of reading 9", exact=True).fill(value)
    typed_mat(shown, [(6, "10", "-3 mm")])
    wanted = WHOLE.replace('"1-4" = "1056 mm"', '"1-4" = "41 9/16 in"')
    wanted = wanted.replace(
        '"4-12" = "21 13/16"      # an inch tape will do',
        '"4-12" = "555 mm"  # an inch tape will do',
    )
    wanted = wanted.replace('"3-12" = "635 mm"\n', '"2-9" = "66.25 cm"\n')
    assert saved(shown, tmp_path) == wanted + '\n[positions]\n"6" = [10, "-3 mm"]\n'


def test_thick_cloth_is_marked_as_the_package_has_it(shown: Page, tmp_path: Path) -> None:
    """The first point of a cut line, on cloth 2.5 mm above the table that was measured."""
    loaded(shown, WHOLE, tmp_path)
    rig = read(saved(shown, tmp_path))
    flat = calibrate(rig).view
    view = on_cloth(flat, rig)
    shown.get_by_role("button", name="Calibrate or mark").click()
    data = page().content.as_data()["pieces"][0]
    cos, sin, dx, dy = data["stations"][0]["home"]
    for drawn, (x, y) in zip(cut_line(shown), data["lines"][0]["points"], strict=False):
        spot = cos * x - sin * y + dx, sin * x + cos * y + dy
        assert drawn == pytest.approx(view.pixel(spot), abs=1e-3)
    assert max(abs(a - b) for a, b in zip(view.to_pixel, flat.to_pixel, strict=True)) > 1e-4


def test_a_page_for_a_rig_saves_it_whole(context: BrowserContext, tmp_path: Path) -> None:
    """With `--rig` the rig comes out again with every table; lengths exact, in whatever unit."""
    rig = read(WHOLE)
    tab = opened(context, tmp_path, page(wishes=Wishes(rig=rig)))
    assert tab.locator("#work").is_visible()
    tab.keyboard.press("c")
    again = read(saved(tab, tmp_path))
    assert _without_units(replace(again, digest=rig.digest)) == _without_units(rig)
    assert calibrate(again).view == calibrate(rig).view
    tab.close()


def _without_units(rig: Rig) -> Rig:
    return replace(rig, distances=tuple(replace(each, unit=None) for each in rig.distances))


def test_what_was_kept_gives_way_to_a_newer_rig(context: BrowserContext, tmp_path: Path) -> None:
    """A page made for other readings starts from them, not from what the browser has kept."""
    rig = read(WHOLE)
    tab = opened(context, tmp_path, page(wishes=Wishes(rig=rig)))
    tab.keyboard.press("c")
    typed(tab, [(1, 4, "1057 mm")])
    tab.reload()
    tab.keyboard.press("c")
    assert tab.get_by_label("Length of reading 1", exact=True).input_value() == "1057 mm"
    kept = tab.evaluate("JSON.stringify(localStorage)")
    newer = read(WHOLE.replace('"1056 mm"', '"1056.5 mm"'))
    other = opened(context, tmp_path, page(wishes=Wishes(rig=newer)))
    other.evaluate("(kept) => Object.assign(localStorage, JSON.parse(kept))", kept)
    other.reload()
    other.keyboard.press("c")
    assert other.get_by_label("Length of reading 1", exact=True).input_value() == "1056.5 mm"
    other.close()
    tab.close()


def test_a_rig_file_of_the_package_loads(shown: Page, tmp_path: Path) -> None:
    """Its units and fractions are read as the package reads them, and so is what is off."""
    assert loaded(shown, LOFT.read_text(), tmp_path).startswith("Calibrated")
    for n, residual in enumerate(calibrate(load(LOFT)).residuals):
        size, sign = f"{abs(residual.off):.1f}", "−" if residual.off < 0 else "+"
        wanted = "off by 0.0 mm" if size == "0.0" else f"off by {sign}{size} mm"
        assert shown.text_content(f"#remark-{n}") == wanted


@pytest.mark.parametrize(
    ("old", "new", "line"),
    [
        ("format = 1", "", "this is no rig file: `format = 1` is missing"),
        ("width = 1920", "width = 0", "`picture.width` must be a whole number of pixels from 320"),
        ("inset = 67", "inset = 400", "`picture.inset` must be a whole number of pixels from 1 to"),
        ("inset = 67", "inset = 67\nrows = 2", "`picture.rows` must be a whole number from 3 to 9"),
        ('"in"', '"ell"', "`units` must be in, mm or cm"),
        ('"1 mm"', '"80 mm"', "`tape.within` must be at most ~1.9685 in"),
        ('"2.5 mm"', '"-1 mm"', "`cloth.thickness` must be not less than 0"),
        ("[lens]", "[cloth]", "line 18 of the file has the table `cloth` again"),
        ('"1800 mm"', '"12 mm"', "`lens.height` must be over ten times the cloth"),
        ('"1897.6 mm"', '"1700 mm"', "`lens.distances.1` must not be less than `lens.height`"),
        ('"1-4" =', '"1-1" =', "`distances.1-1` must be between two different crosses"),
        ('"1-4" =', '"1-13" =', "`distances.1-13` must name two crosses from 1 to 12"),
        ('"1-4" =', '"4-12" =', "line 28 of the file has `4-12` again"),
        ('"1056 mm"', "0", "`distances.1-4` must be more than 0"),
        ('"1056 mm"', "nan", "line 27 of the file is not understood"),
        ('"1056 mm"', "01056", "line 27 of the file is not understood"),
        ('"1056 mm"', '"far"', "`distances.1-4` must be a length such as 1204"),
        ('"1056 mm"', '"1056 m"', "`distances.1-4` must not be over 100 m"),
        ('"Attic # 2"', '" "', "`name` is missing"),
        ('"1056 mm"', "[1, 2]", "line 27 of the file: `1-4` must be a single value"),
        ("margin", "magrin", "line 15 of the file: `magrin` is not a known key"),
        ("[tape]", "[tapes]", "line 11 of the file: `tapes` is not a known table"),
        ("[tape]", 'constructor = "x"', "line 11 of the file: `constructor` is not a known key"),
        ("[tape]", "tape = {within = 1}", "line 11 of the file is not understood: write a key, ="),
        ("format = 1", 'include = ["a.toml"]', "`include` names files that the page cannot read"),
    ],
)
def test_a_broken_file_gets_one_line(
    shown: Page, tmp_path: Path, old: str, new: str, line: str
) -> None:
    """The line says what is wrong and where; what was there before stays."""
    typed(shown, [(1, 4, "1050 mm")])
    assert old in WHOLE
    said = loaded(shown, WHOLE.replace(old, new, 1), tmp_path)
    assert said.startswith(f"mine.toml: {line}")
    assert said.endswith(".")
    assert shown.get_by_label("Length of reading 1", exact=True).input_value() == "1050 mm"


def test_a_file_too_large_is_refused(shown: Page, tmp_path: Path) -> None:
    """What is no rig file by its size alone is not read."""
    assert loaded(shown, "#" * 100_001, tmp_path) == "mine.toml: the file is too large."


SLIPS = "0123456789.\"=[]#-_ '\nabmin/½,{}"


def slipped(dice: Random) -> str:
    """The whole file with one to three slips of a person's fingers."""
    text = WHOLE
    for _ in range(dice.randint(1, 3)):
        at = dice.randrange(len(text))
        cut = dice.choice((0, 1, 1, 40))
        text = text[:at] + dice.choice(("", *SLIPS)) + text[at + cut :]
    return text


def sound(text: str) -> Rig | None:
    """The rig that the package reads, None where it refuses."""
    try:
        return read(text)
    except InputError:
        return None


def refused(text: str) -> str:
    """Why the package refuses a file."""
    with pytest.raises(InputError) as caught:
        read(text)
    return str(caught.value)


def test_the_page_reads_files_as_the_package_does(modules: Page) -> None:
    """Of 2000 files with slips none is read otherwise, nor is one taken that the package refuses.

    Only a distance that is given twice is taken and marked in the form. What is then saved is the
    same rig.
    """
    dice = Random(7)  # noqa: S311  # slips, no secrets
    texts = [slipped(dice) for _ in range(2000)]
    found = modules.evaluate(
        """async (texts) => {
            const { readRig, savedText } = await import("/rig_file.js");
            return texts.map((text) => {
                const { rig, problem } = readRig(text);
                return problem ? null : [savedText(rig), rig.distances.map((each) => each[2]),
                    rig.thickness, rig.lens?.distances.map((each) => each[1]) ?? null];
            });
        }""",
        texts,
    )
    taken = 0
    for text, ours in zip(texts, found, strict=True):
        rig = sound(text)
        if rig is None:
            assert ours is None or "must agree with" in refused(text), text
        elif ours is not None:
            taken += 1
            saved_text, distances, thickness, slants = ours
            assert distances == pytest.approx([float(d.mm) for d in rig.distances], rel=1e-12)
            assert thickness == pytest.approx(float(rig.thickness), rel=1e-12)
            wanted = None if rig.lens is None else [float(mm) for _, mm in rig.lens.distances]
            assert slants == (None if wanted is None else pytest.approx(wanted, rel=1e-12))
            assert replace(read(saved_text), digest=rig.digest) == rig
    assert taken > 150
