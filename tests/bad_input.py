"""What the tables of bad input share: a sound project, its damage, and what is told about it."""

from __future__ import annotations

import pytest

from cutpaths.errors import InputError
from cutpaths.project import read

SQUARES = 'layout = "squares"\npatch = 5\ncolumns = 6\nrows = 7'
SOUND = f'format = 1\ntitle = "Pond"\n\n[top]\n{SQUARES}\n\n[border]\nwidth = 2\n'
TITLE = 'title = "Pond"'
FOLDED = f'{TITLE}\nconstruction = "folded-over"'
LIKE = 'a length such as 4 1/2, 4.5, "4 1/2 in", "57 mm" or "1 1/4 yd"'
XS = "x" * 121
# What stands before the tables of a layout, which begin at line 10.
BEFORE_LAYOUT = """format = 1
title = "Pond"
[border]
width = 2
[backing]
fabric = "sea"
[fabric.sand]
[fabric.sea]
[fabric.moss]
"""

Row = tuple[dict[str, str], str]


def told(changes: dict[str, str]) -> str:
    """What is told about the sound project with some of its text replaced."""
    text = SOUND
    for old, new in changes.items():
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return _told(text)


def told_of_layout(tables: str) -> str:
    """What is told about a project with the tables of a layout."""
    return _told(BEFORE_LAYOUT + tables)


def _told(text: str) -> str:
    with pytest.raises(InputError) as caught:
        read(text, name="pond.toml")
    return str(caught.value)
