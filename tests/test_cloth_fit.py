"""What can be made of the cloth on hand."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from cloths import TEXT, kit

from cutpaths import source as project_source
from cutpaths.cloth.fit import Option, options
from cutpaths.cloth.fit_file import project_text
from cutpaths.cloth.fit_report import fit_lines
from cutpaths.errors import InputError
from cutpaths.lengths import INCH
from cutpaths.project import load
from cutpaths.project.model import Project
from cutpaths.values import replace

ON_HAND = (
    "[fabric.sand.stock]\non_hand = [{ length = 18 }]\n"
    "[fabric.sea.stock]\non_hand = [{ length = 36 }]\n"
)


def project(stock: str = ON_HAND) -> Project:
    """Squares of 5 in from half a yard, 21 of them, and a yard for the backing."""
    return kit(stock).project


def to_the_end(_done: int, _of: int) -> bool:
    """Lets every size be tried."""
    return True


def test_sizes_of_half_a_yard() -> None:
    """21 squares: 4 x 5 is the largest near square; its border is what a yard of 39 in allows."""
    found = options(project(), to_the_end)
    assert max(each.columns * each.rows for each in found) <= 21
    first = found[0]
    # 34 in of length are left of a yard: (34 - 18 1/2) / 4 and (39 - 23) / 4, on the ruler.
    by_size = {(each.columns, each.rows, each.seams): each.border for each in found}
    assert by_size[5, 4, 0] == Fraction(31, 8) * INCH
    assert first.area == max(each.area for each in found)


def test_all_that_is_listed_is_cut_from_what_is_on_hand() -> None:
    """No plan of any size listed buys cloth."""
    found = options(project(), to_the_end)
    assert found
    assert [plan.bought for each in found for plan in each.plans] == [()] * (2 * len(found))


def test_no_size_beats_another() -> None:
    """Of any two sizes listed neither is as good on every count."""
    found = options(project(), to_the_end)
    assert not any(one.beats(other) for one in found for other in found)


def test_beating() -> None:
    """Less waste at the same size beats; less waste at a smaller size does not."""
    one = options(project(), to_the_end)[0]
    thrifty = replace(one, waste=one.waste - 1)
    smaller = replace(thrifty, finished=(one.finished[0] - 1, one.finished[1]))
    assert thrifty.beats(one)
    assert not smaller.beats(one)
    assert not one.beats(one)


def test_ending_early_keeps_what_was_tried() -> None:
    """A watch that stops at once gives nothing, later the largest first."""
    assert options(project(), lambda *_: False) == ()
    some: tuple[Option, ...] = options(project(), lambda done, _: done < 2)
    assert {each.columns * each.rows for each in some} == {20}


def test_a_size_is_written_as_a_project(tmp_path: Path) -> None:
    """A size's file stands on its own and reads back as that size."""
    source = tmp_path / "tarn.toml"
    source.write_text(TEXT + ON_HAND, encoding="utf-8")
    made = load(source)
    best = options(made, to_the_end)[0]
    file = tmp_path / "best.toml"
    text = project_text(project_source.load(source).table, best, "tarn.toml")
    file.write_text(text, encoding="utf-8")
    source.unlink()
    again = load(file)
    assert again.borders == (best.border,) * 4
    assert (again.top.columns, again.top.rows) == (best.columns, best.rows)  # type: ignore[union-attr]


def test_the_table() -> None:
    """The table has a heading, the columns' names and one line for each size."""
    made = project()
    found = options(made, lambda done, _: done < 2)
    lines = list(fit_lines(made, found))
    assert lines[0] == "Tarn: what the cloth on hand makes"
    assert lines[2].split() == ["columns", "x", "rows", "finished", "border", "backing", "waste"]
    assert len(lines) == 3 + len(found)


def test_nothing_on_hand_is_told() -> None:
    """A fabric without cloth on hand is named."""
    with pytest.raises(InputError) as caught:
        options(project("[fabric.sand.stock]\non_hand = [{ length = 18 }]\n"), to_the_end)
    assert str(caught.value) == (
        '`fabric.sea.stock.on_hand` is missing. Write for example on_hand = [{ length = "2 yd" }]'
    )


def test_the_example_of_a_cupboard() -> None:
    """18 in and 14 x 20 in of plum make 21 and 8 squares, 27 in of oat make 35: at most 58."""
    made = load(Path(__file__).parent.parent / "fixtures" / "on-hand" / "cupboard.toml")
    found = options(made, to_the_end)
    assert max(each.columns * each.rows for each in found) <= 58
    assert [plan.bought for each in found for plan in each.plans] == [()] * (3 * len(found))
    lines = list(fit_lines(made, found))
    # 6 x 4 1/2 and 8 x 4 1/2 in of patches, and a border of 2 3/4 in on all sides.
    words = " ".join(lines[5].split())
    assert words == "3. 6 x 8 32 1/2 x 41 1/2 in 2 3/4 in in one 751 sq in"
