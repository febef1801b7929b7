"""Times the writers against bare library loops that write the same entities.

Run by hand: `python tests/bench/bench_writers.py [outlines]`. Prints the ratio of the times (limit
1.5) and of the memory for twice as many outlines (limit 2.2), and exits 1 where one is over.
"""

from __future__ import annotations

import io
import sys
import time
import tracemalloc
from collections.abc import Callable

import svgwrite
from ezdxf.filemanagement import new

from cutpaths.drawing import About, Document, Drawing, Item
from cutpaths.lengths import Unit
from cutpaths.roles import Role
from cutpaths.shapes import Path, Point
from cutpaths.writers import dxf, svg

OUTLINES = 100_000
MEASURED = 10_000  # outlines for memory, which is slow to trace
ROUNDS = 3
TIME_LIMIT = 1.5
MEMORY_LIMIT = 2.2

Ring = tuple[Point, ...]


def rings(count: int) -> list[Ring]:
    """Pentagons side by side, with six decimals."""
    made = []
    for number in range(count):
        x, y = (number % 300) * 10.123457, (number // 300) * 10.654321
        ring = ((0.0, 0.0), (8.5, 0.0), (9.25, 4.125), (8.5, 8.5), (0.0, 8.5))
        made.append(tuple((round(x + a, 6), round(y + b, 6)) for a, b in ring))
    return made


def document(outlines: list[Ring], unit: Unit) -> Document:
    """The pentagons as outlines to cut."""
    about = About(project="Bench", digest="0" * 64, piece="patch-1", face="", unit=unit)
    items = tuple(Item(Role.CUT, "patch-1", Path(ring, closed=True)) for ring in outlines)
    return Document("bench", (Drawing(name="bench", size=(4e3, 2e4), about=about, items=items),))


def bare_svg(outlines: list[Ring]) -> bytes:
    """The loop that svgwrite's manual teaches, debugging off, one path an outline."""
    canvas = svgwrite.Drawing(size=("4000mm", "20000mm"), viewBox="0 0 4000 20000", debug=False)
    for ring in outlines:
        route = " L ".join(f"{x:.6f},{y:.6f}" for x, y in ring)
        canvas.add(canvas.path(d=f"M {route} Z"))
    text: str = canvas.tostring()
    return text.encode()


def bare_dxf(outlines: list[Ring]) -> bytes:
    """The loop that ezdxf's manual teaches, one LWPOLYLINE an outline."""
    doc = new("R2010", units=4)
    doc.layers.add("CUT")
    space = doc.modelspace()
    for ring in outlines:
        space.add_lwpolyline(ring, close=True, dxfattribs={"layer": "CUT"})
    stream = io.StringIO()
    doc.write(stream)
    return stream.getvalue().encode()


def seconds(action: Callable[[], bytes]) -> float:
    """How long an action takes."""
    start = time.perf_counter()
    action()
    return time.perf_counter() - start


def time_ratio(bare: Callable[[], bytes], ours: Callable[[], bytes]) -> float:
    """Ours over bare, each the best of some rounds taken in turn."""
    rounds = [(seconds(bare), seconds(ours)) for _ in range(ROUNDS)]
    return min(own for _, own in rounds) / min(base for base, _ in rounds)


def peak(render: Callable[[Document], bytes], count: int) -> int:
    """Bytes of Python's memory that rendering some outlines takes at most."""
    made = document(rings(count), Unit.MILLIMETRE)
    tracemalloc.start()
    render(made)
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    return most


def main(count: int) -> int:
    """Measures both writers."""
    outlines = rings(count)
    made = document(outlines, Unit.MILLIMETRE)
    times = {
        "svg": time_ratio(lambda: bare_svg(outlines), lambda: svg.render(made)),
        "dxf": time_ratio(lambda: bare_dxf(outlines), lambda: dxf.render(made)),
    }
    renders = {"svg": svg.render, "dxf": dxf.render}
    memory = {
        form: peak(render, MEASURED) / peak(render, MEASURED // 2)
        for form, render in renders.items()
    }
    for form in times:
        sys.stdout.write(f"{form}: {times[form]:.2f} x bare, {memory[form]:.2f} x memory of half\n")
    over = max(times.values()) > TIME_LIMIT or max(memory.values()) > MEMORY_LIMIT
    return int(over)


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if sys.argv[1:] else OUTLINES))
