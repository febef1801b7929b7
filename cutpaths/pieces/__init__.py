"""Pieces: from a project to everything that is cut and marked."""

from cutpaths.pieces.corners import CornerTemplate
from cutpaths.pieces.kit import Kit, build

__all__ = ["CornerTemplate", "Kit", "build"]
