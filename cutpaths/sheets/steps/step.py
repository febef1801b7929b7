"""A step of the making: what is done, in words and as a picture; mm."""

from __future__ import annotations

from enum import Enum

from cutpaths.drawing import Drawing
from cutpaths.values import Value


class Stage(Enum):
    """The chapters of the making, in order."""

    TOP = "sewing the top"
    MARKING = "marking"
    JOINING = "sewing top to backing"
    MITER = "mitering the corners"
    FINISHING = "trimming, turning, pressing, closing"


class Hand(Enum):
    """The hand that holds scissors and needle."""

    RIGHT = "right"
    LEFT = "left"

    @property
    def other(self) -> Hand:
        """The hand that holds the cloth."""
        return Hand.LEFT if self is Hand.RIGHT else Hand.RIGHT


class Step(Value, kw_only=True):
    """One step.

    Attributes:
        key: its name, lower case, which stays: `pin-centers`.
        stage: the chapter that it belongs to.
        title: a few words, such as `Pin the centers`.
        words: what to do, as short sentences in order; every number is one of the figures.
        check: what must be seen when it is right; empty where nothing can be checked.
        drawing: the picture at reading size.
    """

    key: str
    stage: Stage
    title: str
    words: tuple[str, ...]
    check: str
    drawing: Drawing
