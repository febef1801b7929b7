"""Sizes and colorways: tables that override parts of a project."""

from __future__ import annotations

from pathlib import Path

import pytest

from cutpaths import source
from cutpaths.errors import InputError
from cutpaths.lengths import INCH
from cutpaths.project import load, load_variants, read
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
            "pond.toml:17: `top.columns` must be a whole number from 1 to 250,000, got '0'",
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
