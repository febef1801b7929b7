"""Sizes of a blanket along one axis, exact, and the borders that give them.

Across, the two borders are left and right; down, they are head and foot. All lengths have one
unit, whichever it is. A turned blanket has the top sewn to the backing and turned out; a
folded-over one has the backing's edge folded twice onto the top, so it finishes at the top's size.
"""

from __future__ import annotations

from fractions import Fraction


def raw_top(seen: Fraction, allowance: Fraction) -> Fraction:
    """Raw edge to raw edge, of a top that measures `seen` between its stitching lines."""
    return seen + 2 * allowance


def backing(top: Fraction, borders: Fraction, turn: Fraction) -> Fraction:
    """Cut backing for a raw top and the sum of its two borders, either construction.

    >>> backing(Fraction(30), Fraction(5), Fraction(1, 8))
    Fraction(161, 4)
    """
    return top + 2 * borders + 2 * turn


def finished(top: Fraction, borders: Fraction, allowance: Fraction) -> Fraction:
    """Finished size of a turned blanket; what the cloth's turn eats is cut larger, so it is lost.

    >>> finished(Fraction(30), Fraction(5), Fraction(1, 4))
    Fraction(69, 2)
    """
    return top - 2 * allowance + borders


def border_of_backing(size: Fraction, top: Fraction, turn: Fraction) -> Fraction:
    """Border, equal at both ends, that a cut backing leaves round a raw top in its middle."""
    return (size - top - 2 * turn) / 4


def border_of_finished(size: Fraction, top: Fraction, allowance: Fraction) -> Fraction:
    """Border, equal at both ends, that brings a turned blanket to a finished size."""
    return (size - top + 2 * allowance) / 2


def trim_fits(trim: Fraction, first: Fraction, second: Fraction) -> bool:
    """Whether the tip of a folded-over corner hides a trim between two borders.

    The trim may be 2 b1 b2 / sqrt(b1^2 + b2^2) at most; compared by squares, so exactly.
    """
    return trim**2 * (first**2 + second**2) <= (2 * first * second) ** 2
