"""The kits that the pictures show: examples, and small blankets whose edges lie close together."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from cutpaths.pieces import Kit, build
from cutpaths.project import load, read

FIXTURES = Path(__file__).parent.parent / "fixtures"

# A doll's blanket with a wide seam allowance, so that its outlines can be told apart.
DOLL = """
top = { layout = "squares", patch = { finished = 2 }, columns = 4, rows = 3 }
border = { width = "1 1/2" }
seams = { allowance = "1/2" }
opening = { length = 2 }
"""

# Four different borders, so that no two sides or corners can be taken for one another.
FOUR_BORDERS = """
top = { layout = "panel", seen = { width = 6, height = 5 } }
border = { width = { A = "1 1/2", B = 1, C = "3/4", D = "1/2" } }
opening = { length = 1 }
"""

# A wide border at the left and a narrow one at the right.
TWO_BORDERS = """
top = { layout = "panel", seen = { width = 8, height = 8 } }
border = { width = { A = "1 1/2", B = 1, C = "1 1/2", D = "2 1/2" } }
"""

UNEQUAL_CORNER = """
top = { layout = "panel", seen = { width = 20, height = 20 } }
border = { width = { A = 2, B = 2, C = 2, D = 4 } }
"""

HEXAGON = """
top = { layout = "outline", regular = { sides = 6, side = 5 } }
border = { width = "3/4" }
opening = { length = 1 }
"""

FOLDED = """
construction = "folded-over"
top = { layout = "panel", cut = { width = 20, height = 20 } }
border = { width = "1 1/2" }
"""

# Sides long enough for the opening to lie between the center and a dot.
LONG_SIDES = """
top = { layout = "squares", patch = { finished = "4 1/2" }, columns = 5, rows = 5 }
border = { width = 1 }
"""

# No allowance for the turn of cloth, and a large one so that the difference can be seen.
TURNS = tuple(
    f"""
turn_of_cloth = "{size}"
top = {{ layout = "panel", cut = {{ width = 10, height = 10 }} }}
border = {{ width = "1 1/2" }}
seams = {{ allowance = "1/2" }}
"""
    for size in ("0", "1/2")
)


@cache
def kit_of(text: str) -> Kit:
    """The kit of a project given as text without its head."""
    return build(read(f'format = 1\ntitle = "Picture"\n{text}'))


@cache
def example(name: str) -> Kit:
    """The kit of one of the example projects."""
    return build(load(FIXTURES / f"{name}.toml"))
