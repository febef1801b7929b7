"""Square roots to forty decimals, as fractions, for sizes that lie on a diagonal.

A root that is a fraction comes out exactly; any other is a fraction that lies below the root by
less than 1e-40 of the unit, so rounding it up to a ruler's step gives what the root itself would.
"""

from __future__ import annotations

from fractions import Fraction
from math import isqrt

DECIMALS = 40
_SCALE = 10**DECIMALS


def root(number: Fraction) -> Fraction:
    """Square root of a number that is not negative.

    >>> root(Fraction(25, 4))
    Fraction(5, 2)
    """
    over, under = number.numerator, number.denominator
    return Fraction(isqrt(over * under * _SCALE**2), under * _SCALE)


ROOT2 = root(Fraction(2))
