"""Sewn on paper: the proof that the pieces of a kit fit together."""

from cutpaths.proof.check import Check, Proof, require
from cutpaths.proof.prove import prove

__all__ = ["Check", "Proof", "prove", "require"]
