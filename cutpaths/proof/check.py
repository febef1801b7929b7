"""The lines of a proof: each a fact that must hold, with what was expected and what was found."""

from __future__ import annotations

from cutpaths.errors import ProofError
from cutpaths.values import Value


class Check(Value, kw_only=True):
    """One fact.

    Attributes:
        name: stable short name, such as `dots-meet`.
        at: the side, corner or piece that it is about, the worst one where it holds for many;
            empty for all alike.
        claim: what must hold, in one plain sentence.
        expected, found: what it comes to, as text with its unit.
        passed: whether it holds.
    """

    name: str
    at: str
    claim: str
    expected: str
    found: str
    passed: bool

    def __str__(self) -> str:
        place = f" at {self.at}" if self.at else ""
        return f"{self.name}{place}: expected {self.expected}, found {self.found}. {self.claim}"


class Proof(Value):
    """All the facts of one kit, in the order of making it."""

    checks: tuple[Check, ...]

    @property
    def passed(self) -> bool:
        """Whether every fact holds."""
        return not self.failed

    @property
    def failed(self) -> tuple[Check, ...]:
        """The facts that do not hold."""
        return tuple(check for check in self.checks if not check.passed)


def require(proof: Proof) -> None:
    """Stops where a proof failed.

    Raises:
        ProofError: names every failed check, one line each.
    """
    if proof.failed:
        raise ProofError("\n".join(str(check) for check in proof.failed))
