"""Figures and proof as data, as a use: for programs, and to keep beside the files."""

from __future__ import annotations

from cutpaths.figures import figures_of
from cutpaths.figures.show import as_data
from cutpaths.pieces import Kit
from cutpaths.proof import prove
from cutpaths.proof.check import Proof
from cutpaths.sheets.data import DataDocument, TableDocument
from cutpaths.sheets.sheet import Output, Wishes

COLUMNS = ("check", "at", "claim", "expected", "found", "holds")


def records(kit: Kit, wishes: Wishes) -> tuple[Output, ...]:
    """Every figure, and every check of the proof with what was expected and found."""
    return (
        Output(
            name="figures",
            document=DataDocument("figures", (), as_data(figures_of(kit))),
            formats=("json",),
            says="every size, for programs",
        ),
        Output(
            name="proof",
            document=proof_table(wishes.proof or prove(kit)),
            formats=("csv",),
            says="each check of the proof, for a spreadsheet",
        ),
    )


def proof_table(proof: Proof) -> TableDocument:
    """A row for each check, in the order of the proof."""
    rows = tuple(
        (c.name, c.at, c.claim, c.expected, c.found, "yes" if c.passed else "no")
        for c in proof.checks
    )
    return TableDocument("proof", (), COLUMNS, rows)
