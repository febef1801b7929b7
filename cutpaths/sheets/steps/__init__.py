"""The making of a blanket as steps, each with its words and its picture."""

from cutpaths.sheets.steps.sequence import steps_of
from cutpaths.sheets.steps.step import Hand, Stage, Step

__all__ = ["Hand", "Stage", "Step", "steps_of"]
