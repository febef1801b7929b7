"""Kits by the dozen."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path

import pytest
from cloths import kit
from hypothesis import given, settings
from hypothesis import strategies as st

from cutpaths.cloth.bolts import bolt_plans, kept
from cutpaths.cloth.kits import KitBacking, cost_each, kit_runs, kits_per_bolt, length_each
from cutpaths.cloth.kits_report import kits_json, kits_lines
from cutpaths.cloth.packing.effort import Effort
from cutpaths.cloth.packing.items import Item
from cutpaths.cloth.packing.patterns import pack_patterns
from cutpaths.cloth.searched_strips import Search
from cutpaths.errors import CutpathsError, InputError
from cutpaths.lengths import INCH, YARD
from cutpaths.pieces import build
from cutpaths.project import load
from cutpaths.values import replace

FIXTURES = Path(__file__).parent.parent / "fixtures"
SEARCH = Search(Effort(seconds=1.0))
BOLTS = "[fabric.sand.stock]\nprice = 9\nbolt = '15 yd'\n"


def test_squares_of_a_hundred_kits() -> None:
    """4,200 squares of 5 in, 7 a strip: 600 strips, 107 to a bolt of 15 yd, 6 bolts."""
    run = kit_runs([kit(BOLTS)], 100, KitBacking.YARDAGE, SEARCH)[0]
    assert [(plan.strips[0].times, plan.bolts) for plan in run.bolts] == [(107, 5), (65, 1)]
    assert run.count == 6
    assert run.strips_length == 3000 * INCH
    assert run.gap == 0
    assert length_each(run, 100) == Fraction(3012, 100) * INCH
    assert kits_per_bolt(run, 100) == Fraction(100, 6)
    assert cost_each(run, 100) == Fraction(9 * 15 * 6, 100)
    assert kept(run.bolts, YARD) == ((213 * INCH, 1),)


def test_layers_are_stacked() -> None:
    """Five bolts cut alike are two stacks of at most four flannel layers."""
    text = BOLTS.replace("price", "flannel = true\nprice")
    run = kit_runs([kit(text)], 100, KitBacking.YARDAGE, SEARCH)[0]
    assert [plan.lays(run.stock.plies) for plan in run.bolts] == [2, 1]
    told = "\n".join(kits_lines(["Tarn"], 100, KitBacking.YARDAGE, [run]))
    assert "5 bolts in 2 stacks of up to 4 layers" in told
    assert "never folded and never face to face" in told


def test_kits_per_bolt_and_lengths_of_backings_in_words() -> None:
    """100 kits from 6 bolts are 16.67 for each that is ordered; a full width is not crosscut."""
    runs = kit_runs([kit(BOLTS)], 100, KitBacking.YARDAGE, SEARCH)
    told = list(kits_lines(["Tarn"], 100, KitBacking.YARDAGE, runs))
    assert "  kits          16.67 per bolt ordered" in told
    assert "    107 strips 5 in: crosscut 7 squares of 5 in from each" in told
    assert "    cut 13 lengths of 40 in, full width, for BACKING" in told
    rough = kit_runs([kit(BOLTS)], 100, KitBacking.ROUGH, SEARCH)
    told = list(kits_lines(["Tarn"], 100, KitBacking.ROUGH, rough))
    words = "crosscut the BACKING (37 1/2 x 42 in) from each"
    assert next(line for line in told if "BACKING" in line).endswith(words)


@pytest.mark.parametrize(
    ("backing", "size"),
    [(KitBacking.YARDAGE, (39, Fraction(71, 2))), (KitBacking.ROUGH, (Fraction(75, 2), 42))],
)
def test_backings_of_a_kit(backing: KitBacking, size: tuple[Fraction, Fraction]) -> None:
    """A backing of 35 1/2 x 40 in: a full width, or two inches more each way."""
    text = "[fabric.sea.stock]\nwidth = 42\nstrip_ends = 0\n"
    run = kit_runs([kit(text)], 2, backing, SEARCH)[1]
    found = run.needs[0].size
    wanted = (42, Fraction(71, 2)) if backing is KitBacking.YARDAGE else size
    assert found == (wanted[0] * INCH, wanted[1] * INCH)


def test_exact_backings_are_for_tops_of_one_cloth() -> None:
    """A pieced top's backing is not cut to size for a kit."""
    with pytest.raises(InputError) as caught:
        kit_runs([kit()], 2, KitBacking.EXACT, SEARCH)
    assert str(caught.value) == (
        "`top` must not be exact for a pieced top, which seldom comes out to size. "
        "Ask for yardage or rough backings"
    )


def test_more_kits_than_bolts() -> None:
    """Too few bolts: how many are needed, and how many kits there can be."""
    with pytest.raises(InputError) as caught:
        kit_runs([kit(f"{BOLTS}bolts = 5\n")], 100, KitBacking.YARDAGE, SEARCH)
    assert str(caught.value) == (
        "`fabric.sand.stock.bolts` must be at least 6 for 100 kits, got 5. "
        "They are enough for about 83 kits"
    )


def test_two_projects_in_one_run() -> None:
    """Blankets of the same cloth are cut together: 42 and 20 squares a kit."""
    run = kit_runs([kit(BOLTS), kit(BOLTS, columns=4, rows=5)], 10, KitBacking.YARDAGE, SEARCH)[0]
    assert sum(need.count for need in run.needs) == 620


def test_one_name_is_one_cloth() -> None:
    """Two projects with different stock under one name are refused."""
    with pytest.raises(InputError, match=r"fabric\.sand\.stock. must be the same cloth"):
        kit_runs([kit(BOLTS), kit()], 10, KitBacking.YARDAGE, SEARCH)


def test_ten_thousand_kits_near_the_bound() -> None:
    """10,000 kits of four sizes of patches: within 0.1 % of the best plan of strips."""
    made = kit(f"{BOLTS}bolt = 600\n".replace("bolt = '15 yd'\n", ""))
    run = kit_runs([made], 10_000, KitBacking.ROUGH, SEARCH)[0]
    assert sum(need.count for need in run.needs) == 420_000
    assert 0 <= run.strip_gap <= Fraction(1, 1000)
    assert run.strips_length >= run.bound


@settings(max_examples=20, deadline=None)
@given(
    sizes=st.lists(
        st.tuples(st.integers(4, 40), st.integers(4, 40), st.integers(1, 60), st.booleans()),
        min_size=1,
        max_size=6,
    )
)
def test_strips_hold_all_pieces(sizes: list[tuple[int, int, int, bool]]) -> None:
    """Whatever is cut, strips on bolts hold every piece and no bolt is over-full."""
    items = [Item(width=w, height=h, count=n, turn=t) for w, h, n, t in sizes]
    plan = pack_patterns(items, Fraction(40), effort=Effort(seconds=0.5))
    bolts = bolt_plans(plan.runs, Fraction(100), Fraction(1))
    made = [0] * len(items)
    for bolt in bolts:
        length = sum(strip.times * strip.strip.height for strip in bolt.strips)
        assert length + 2 == bolt.used
        assert bolt.used + bolt.left == 100
        for strip in bolt.strips:
            for item, count in strip.makes.items():
                made[item] += count * strip.times * bolt.bolts
    assert made == [item.count for item in items]
    assert plan.height >= plan.bound


def test_the_same_run_twice() -> None:
    """Tries end the work and not the clock, so the strips are the same; and that is said."""
    made = [kit(BOLTS), kit(BOLTS, columns=4, rows=5)]
    steady = Search(Effort(seconds=None, tries=50))
    first, second = (kit_runs(made, 70, KitBacking.ROUGH, steady) for _ in range(2))
    assert [run.plan for run in first] == [run.plan for run in second]
    assert not any(run.plan.late for run in first)


def test_a_run_that_the_clock_ends_says_so() -> None:
    """No time at all: there is a plan, and it is told that another run may come to another."""
    made = build(load(FIXTURES / "lighthouse.toml"))
    runs = kit_runs([made], 7, KitBacking.ROUGH, Search(Effort(seconds=0.0)))
    told = "\n".join(kits_lines(["Lighthouse"], 7, KitBacking.ROUGH, runs))
    assert any(run.plan.late for run in runs)
    assert "by the time limit: another run may come to another plan" in told


def test_one_size_is_soon_planned() -> None:
    """Squares of one size are proved in no time, so the clock ends nothing."""
    run = kit_runs([kit(BOLTS)], 70, KitBacking.ROUGH, Search(Effort(seconds=0.0)))[0]
    assert not run.plan.late
    assert run.gap == 0


def test_backings_off_the_ruler_are_cut_up_to_it() -> None:
    """A length at full width is measured with the ruler, so it ends on one of its marks."""
    made = kit("[fabric.sea.stock]\nwidth = 60\n", backing="")
    odd = replace(made.project, borders=(Fraction(1000, 19),) * 4)
    run = kit_runs([build(odd)], 3, KitBacking.YARDAGE, SEARCH)[1]
    assert run.needs[0].size[1] % made.project.ruler.step == 0


def test_json_of_a_run() -> None:
    """Programs get bolts, cloth and cost of a kit."""
    runs = kit_runs([kit(BOLTS)], 100, KitBacking.YARDAGE, SEARCH)
    data = json.loads(kits_json(["Tarn"], 100, KitBacking.YARDAGE, runs))
    sand = data["fabrics"]["sand"]
    assert (data["kits"], sand["bolts"], sand["cost_of_a_kit"]) == (100, 6, 8.1)


def test_without_the_extra(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without HiGHS one line says what to install."""
    monkeypatch.setattr("cutpaths.cloth.kits.is_installed", lambda: False)
    with pytest.raises(CutpathsError) as caught:
        kit_runs([kit(BOLTS)], 2, KitBacking.YARDAGE, SEARCH)
    assert str(caught.value) == (
        "planning kits needs the extra `kits`: run .venv/bin/pip install '.[kits]' in the folder "
        "of cutpaths"
    )
