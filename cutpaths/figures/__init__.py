"""Figures: every printed number of a project comes from here, exact or marked as rounded."""

from cutpaths.figures.collect import figures_of
from cutpaths.figures.model import Figure, Figures, Group
from cutpaths.figures.sizes import Sizes, sizes
from cutpaths.figures.variants import variant_groups

__all__ = ["Figure", "Figures", "Group", "Sizes", "figures_of", "sizes", "variant_groups"]
