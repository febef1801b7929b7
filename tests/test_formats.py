"""The table of formats: loaded when used, read back, one line when something is wrong."""

from __future__ import annotations

import subprocess
import sys
from types import ModuleType

import pytest
from sample_drawings import RING, marked, sheet

from cutpaths.errors import DrawingError
from cutpaths.formats import FORMATS, Format, render_checked
from cutpaths.shapes import Path
from cutpaths.writers import dxf, svg

OUTLINE = sheet(Path(RING, closed=True))
MOVED = sheet(*(Path(tuple((x + n, y) for x, y in RING), closed=True) for n in range(5)))


def test_each_format_has_its_suffix_and_writer() -> None:
    """The table leads to the writers, under the names that people ask for."""
    assert {name: form.suffix for name, form in FORMATS.items()} == {
        "booklet": ".pdf",
        "csv": ".csv",
        "dxf": ".dxf",
        "dxf-r12": "-mm.dxf",
        "hpgl": ".hpgl",
        "hpgl-old": "-old.hpgl",
        "html": ".html",
        "index": ".html",
        "json": ".json",
        "pdf": ".pdf",
        "png": ".png",
        "svg": ".svg",
    }
    assert render_checked(marked(), "svg") == svg.render(marked())
    assert render_checked(marked(), "dxf") == dxf.render(marked())


def test_the_table_loads_no_library() -> None:
    """A command that writes nothing does not wait for ezdxf or svgwrite."""
    program = (
        "import sys, cutpaths.formats\n"
        "print([m for m in sys.modules if m.split('.')[0] in ('ezdxf', 'svgwrite', 'numpy')"
        " or m.startswith(('cutpaths.writers', 'cutpaths.readback'))])"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, check=True)
    assert done.stdout.strip() == b"[]"


def test_an_unknown_format_is_named() -> None:
    """The line lists the formats there are."""
    with pytest.raises(DrawingError) as caught:
        render_checked(OUTLINE, "wax")
    known = (
        "booklet or csv or dxf or dxf-r12 or hpgl or hpgl-old or html or index or json or pdf or "
        "png or svg"
    )
    assert str(caught.value) == f"a format must be {known}, got 'wax'"


def test_a_file_that_reads_back_differently_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    """A writer that loses or moves a line is found out before anything reaches the disk."""
    lying = ModuleType("lying")
    lying.__dict__["render"] = lambda _: svg.render(OUTLINE)
    monkeypatch.setitem(sys.modules, "lying", lying)
    reader = FORMATS["svg"].reader
    monkeypatch.setitem(FORMATS, "svg", Format(suffix=".svg", writer="lying", reader=reader))
    with pytest.raises(DrawingError) as caught:
        render_checked(MOVED, "svg")
    assert str(caught.value) == (
        "sheet as svg reads back differently: CUT: 5 of kind line expected, 1 found"
    )
    assert render_checked(MOVED, "svg", check=False) == svg.render(OUTLINE)


def test_many_differences_become_one_line(monkeypatch: pytest.MonkeyPatch) -> None:
    """The first three are said, the others counted."""
    shifted = sheet(*(Path(tuple((x + 0.5, y) for x, y in RING[n:]), False) for n in range(4)))
    plain = sheet(*(Path(RING[n:], False) for n in range(4)))
    monkeypatch.setattr(svg, "render", lambda _: dxf.render(plain))
    with pytest.raises(DrawingError) as caught:
        render_checked(shifted, "svg")
    assert str(caught.value) == (
        "sheet as svg reads back differently: not XML: syntax error: line 1, column 2"
    )
    monkeypatch.undo()
    found = FORMATS["dxf"].check(shifted, dxf.render(plain))
    monkeypatch.setattr(dxf, "render", lambda _, render=dxf.render: render(plain))
    with pytest.raises(DrawingError) as caught:
        render_checked(shifted, "dxf")
    assert str(caught.value) == (
        f"sheet as dxf reads back differently: {'; '.join(found[:3])}; and 1 more"
    )
