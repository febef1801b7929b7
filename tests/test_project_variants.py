"""Sizes and colorways: tables that override parts of a project."""

from __future__ import annotations

from pathlib import Path

import pytest

from cutpaths import source
from cutpaths.errors import InputError
from cutpaths.lengths import INCH
from cutpaths.pieces import build
from cutpaths.project import load, load_sound_variants, load_variants, read
from cutpaths.project.located import located
from cutpaths.project.model import Panel
from cutpaths.project.variants import Variants, variants_of

LIGHTHOUSE = Path(__file__).parents[1] / "fixtures" / "lighthouse.toml"
TEXT = """format = 1
title = "Pond"
[fabric.sand]
label = "Sand"
[fabric.sea]
[backing]
fabric = "sea"
[top]
layout = "squares"
patch = 5
columns = 6
rows = 7
fabrics = ["sand", "sea"]
[border]
width = 2
[size.large]
top.columns = 8
border.width = 3
[size.wide.top]
columns = 9
[colorway.dusk]
fabric.sand.label = "Plum"
border.width = "2 1/2"
"""


def test_names_are_listed() -> None:
    """Sizes and colorways are listed in the order of the file."""
    found = variants_of(source.read(TEXT, "pond.toml"))
    assert found == Variants(("large", "wide"), ("dusk",))
    plain = TEXT[: TEXT.index("[size.large]")]
    assert variants_of(source.read(plain, "pond.toml")) == Variants((), ())


def test_overrides_replace_single_keys() -> None:
    """What a table gives takes the place of the file's; all else stays."""
    plain, large = read(TEXT), read(TEXT, size="large")
    assert plain.finished_top == (27 * INCH, 63 * INCH / 2)
    assert large.finished_top == (36 * INCH, 63 * INCH / 2)
    assert (large.borders[0], large.size, large.colorway) == (3 * INCH, "large", "")
    assert plain.fabrics == large.fabrics


def test_colorway_wins_over_size() -> None:
    """Both together: the colorway's border, the size's columns."""
    both = read(TEXT, size="large", colorway="dusk")
    assert (both.borders[0], both.fabrics[0].label) == (5 * INCH / 2, "Plum")
    assert both.finished_top == (36 * INCH, 63 * INCH / 2)


def test_each_has_its_own_digest() -> None:
    """Files of one size are never taken for those of another."""
    sizes, colorways = (None, "large", "wide"), (None, "dusk")
    digests = {read(TEXT, size=s, colorway=c).digest for s in sizes for c in colorways}
    assert len(digests) == 6
    assert read(TEXT).digest == source.read(TEXT, "pond.toml").digest


def test_all_are_loaded_together() -> None:
    """The example as it stands, then its sizes, then its colorways."""
    found = load_variants(LIGHTHOUSE)
    assert [(each.size, each.colorway) for each in found] == [("", ""), ("large", ""), ("", "dusk")]
    assert found[1] == load(LIGHTHOUSE, size="large")
    assert found[1].finished_top == (38 * INCH, 38 * INCH)


@pytest.mark.parametrize(
    ("text", "size", "colorway", "message"),
    [
        (
            TEXT,
            "small",
            None,
            "pond.toml:16: `size` must be a declared one, got 'small'. Declared are large, wide",
        ),
        (
            TEXT[: TEXT.index("[size.large]")],
            None,
            "dawn",
            "pond.toml:1: `colorway` must be a declared one, got 'dawn'. "
            "Declare it in a table such as [colorway.large]",
        ),
        (
            TEXT.replace("top.columns = 8", "top.columns = 0"),
            "large",
            None,
            "pond.toml:17: `top.columns` must be a whole number from 1 to 250,000, got '0' "
            "(with size large)",
        ),
        (
            TEXT.replace("top.columns = 8", "tops.columns = 8"),
            None,
            None,
            "pond.toml:17: `size.large.tops` is not a known key. Write `top`",
        ),
        (
            TEXT.replace("top.columns = 8", 'units = "mm"'),
            None,
            None,
            "pond.toml:17: `size.large.units` must be the same for the whole file. Leave it out",
        ),
        (
            TEXT.replace("size.large", "size.Large"),
            None,
            None,
            "pond.toml:16: `size.Large` must be named in lower-case letters, such as `large`, "
            "got 'Large'",
        ),
        (
            TEXT.replace("[size.large]\ntop.columns = 8\n", "[size]\nlarge = 8\n[size.deep]\n"),
            None,
            None,
            "pond.toml:17: `size.large` must be a table of keys to override. "
            "Write a table such as [size.large]",
        ),
    ],
)
def test_bad_variants(text: str, size: str | None, colorway: str | None, message: str) -> None:
    """Each fault is one line with the key and the line where it stands, in the override too."""
    with pytest.raises(InputError) as caught:
        read(text, name="pond.toml", size=size, colorway=colorway)
    assert str(caught.value) == message


def test_a_fault_names_the_size_and_the_colorway(tmp_path: Path) -> None:
    """What is wrong only in one of them is told as such, at the line that makes it so."""
    text = TEXT.replace("columns = 9", "fabrics = []").replace('"2 1/2"', '"1/8"')
    with pytest.raises(InputError) as caught:
        read(text, name="pond.toml", size="large", colorway="dusk")
    assert str(caught.value) == (
        "pond.toml:23: `border.width` must be at least 1/4 in to hide the seam allowance, got "
        "1/8 in (with size large, colorway dusk). Make the border wider"
    )
    path = tmp_path / "pond.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(InputError) as caught:
        load_variants(path)
    assert str(caught.value) == (
        "pond.toml:20: `top.fabrics` must name at least one fabric, got an empty list "
        "(with size wide)"
    )


def test_a_fault_of_the_pieces_names_the_size(tmp_path: Path) -> None:
    """So does what is found only when pieces are made."""
    path = tmp_path / "pond.toml"
    path.write_text(TEXT.replace("top.columns = 8", "opening.length = 40"), encoding="utf-8")
    with pytest.raises(InputError) as caught:
        build(load(path, size="large"))
    assert str(located(caught.value, path, size="large")) == (
        "pond.toml:17: `opening.length` must leave 2 in sewn at each dot of side C, got 40 in "
        "(with size large). The longest opening there is 23 in"
    )


def test_a_size_may_have_another_layout() -> None:
    """Its table [top] takes the place of the whole other one, whose keys have no place in it."""
    top = 'top = { layout = "panel", cut = { width = 20, height = 30 }, fabric = "sea" }'
    found = read(TEXT.replace("top.columns = 8", top), size="large", colorway="dusk")
    width, height = 39 * INCH / 2, 59 * INCH / 2
    assert found.top == Panel(width=width, height=height, fabric="sea")
    with pytest.raises(InputError) as caught:
        read(TEXT.replace("top.columns = 8", 'top.layout = "panel"'), name="p.toml", size="large")
    assert str(caught.value).splitlines() == [
        "p.toml:17: `top.fabric` is missing (with size large). Name one of sand, sea",
        "p.toml:17: `top` must have `cut` or `seen` (with size large). "
        "Write for example `cut = { width = 30, height = 36 }`",
    ]


def test_a_variant_that_cannot_be_used_is_left_out(tmp_path: Path) -> None:
    """Its first finding says why; the others, and the file as it stands, are there."""
    path = tmp_path / "pond.toml"
    path.write_text(TEXT.replace("top.columns = 8", "top.columns = 0"), encoding="utf-8")
    found, notes = load_sound_variants(path)
    assert [(each.size, each.colorway) for each in found] == [("", ""), ("wide", ""), ("", "dusk")]
    assert notes == (
        "The table has no size large: pond.toml:17: `top.columns` must be a whole number from 1 to "
        "250,000, got '0' (with size large).",
    )
    assert load_sound_variants(LIGHTHOUSE) == (load_variants(LIGHTHOUSE), ())
    path.write_text(TEXT.replace("patch = 5", "patch = 0"), encoding="utf-8")
    with pytest.raises(
        InputError, match=r"pond\.toml:10: `top\.patch` must be more than 0, got '0'"
    ):
        load_sound_variants(path)
