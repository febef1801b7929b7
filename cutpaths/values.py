"""What every value of this package is made of.

A `Value` is frozen, equal and hashed by its fields, copied with changes by `replace`, and checked
by a type checker as a data class is. It is a msgspec struct, since a data class takes thirty times
as long to define, and a command defines some fifty of them before it has read its project.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, dataclass_transform

from msgspec import Struct, field
from msgspec.structs import astuple, force_setattr

if TYPE_CHECKING:  # a type checker knows which changes this one takes
    from dataclasses import replace
else:
    from msgspec.structs import replace

__all__ = ["State", "Value", "field", "force_setattr", "replace"]


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
class Value(Struct, frozen=True):
    """Base of all frozen values; `kw_only=True` for fields that are given by name."""

    def __hash__(self) -> int:
        # msgspec's own depends on where in memory the class lies: no set would keep its order.
        return hash(astuple(self))


@dataclass_transform(field_specifiers=(field,))
class State(Struct):
    """Base of the few things that change while something is worked out."""
