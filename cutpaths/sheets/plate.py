"""Plates: a picture with its heading above and the key of its cloths below; mm, front view.

A plate is laid out to be read at 800 pixels across, whatever the true size of what it shows: line
widths and text heights are given in those pixels. What is shown is at true scale all the same.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from cutpaths.drawing import About, Drawing, Item, Pen, move
from cutpaths.geometry.outlines import rectangle
from cutpaths.geometry.polygons import Ring
from cutpaths.paint import Colour, Paint
from cutpaths.roles import STYLES, Role
from cutpaths.shapes import Path, Text, shift
from cutpaths.sheets.cloths import WHITE
from cutpaths.sheets.wrap import wrapped
from cutpaths.strokes import text_width
from cutpaths.writers_edge import EDGE_MM

WIDTH = 800  # pixels
HEIGHT_MOST = 1200  # of what is shown
MARGIN = 16
BESIDE = 44  # room at either side of what is shown, for letters and names of rows
# Heights of capitals.
TITLE, TEXT = 15.0, 8.5
_LEADING = 1.9  # from line to line, as a multiple of the height
_CHIP = 14.0
_GAP = 8.0  # between a chip and its words
_APART = 20.0  # between two columns of the key
_COLUMNS = 3
PAPER = "paper"
