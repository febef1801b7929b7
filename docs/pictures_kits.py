"""The kits that the pictures show: examples, and small blankets whose edges lie close together."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from cutpaths.pieces import Kit, build
from cutpaths.project import load, read

FIXTURES = Path(__file__).parent.parent / "fixtures"

_HEAD = 'format = 1\ntitle = "{title}"\n'

# A doll's blanket: 4 by 3 squares that finish at 2 in.
DOLL = """
[top]
layout = "squares"
patch = { finished = 2 }
columns = 4
rows = 3

[border]
width = 1

[opening]
length = 2
"""

# Four different borders, so that no two sides or corners can be taken for one another.
FOUR_BORDERS = """
[top]
layout = "panel"
seen = { width = 6, height = 5 }

[border]
width = { A = "1 1/2", B = 1, C = "3/4", D = "1/2" }

[opening]
length = 1
"""

# One wide border and one narrow one, left and right.
TWO_BORDERS = """
[top]
layout = "panel"
seen = { width = 10, height = 10 }

[border]
width = { A = "1 1/2", B = 1, C = "1 1/2", D = 3 }
"""

UNEQUAL_CORNER = """
[top]
layout = "panel"
seen = { width = 20, height = 20 }

[border]
width = { A = 1, B = 1, C = 1, D = 2 }
"""

HEXAGON = """
[top]
layout = "outline"
regular = { sides = 6, side = 5 }

[border]
width = "3/4"

[opening]
length = 1
"""

FOLDED = """
[top]
layout = "panel"
cut = { width = 20, height = 20 }

[border]
width = "1 1/2"
"""

# A side long enough for the opening to lie between its center and a dot.
LONG_SIDE = """
[top]
layout = "squares"
patch = { finished = "4 1/2" }
columns = 5
rows = 5

[border]
width = 1
"""


def turn_of_cloth(size: str) -> str:
    """A square with a border of 1 1/2 in, sewn of cloth that eats some size at the fold."""
    return f"""
turn_of_cloth = "{size}"

[top]
layout = "panel"
cut = {{ width = 10, height = 10 }}

[border]
width = "1 1/2"
"""


@cache
def kit_of(title: str, text: str) -> Kit:
    """The kit of a project given as text without its head."""
    return build(read(_HEAD.format(title=title) + text))


@cache
def example(name: str) -> Kit:
    """The kit of one of the example projects."""
    return build(load(FIXTURES / f"{name}.toml"))


def folded_kit() -> Kit:
    """A folded-over blanket."""
    return kit_of("Folded over", 'construction = "folded-over"\n' + FOLDED)
