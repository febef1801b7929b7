"""The proof as a whole: what it says, in which order, and where it stops."""

from __future__ import annotations

import math
import re

import pytest
from builders import panel, project
from damage import all_of, backing, marks, mirrored, move, top
from damaged_kits import checkers, folded, paired, square_panel

from cutpaths.errors import ProofError
from cutpaths.geometry.marks import MarkKind
from cutpaths.pieces import build
from cutpaths.proof import Check, Proof, prove, require

SEWN = [
    "shapes-sound",
    "marks-complete",
    "marks-mated",
    "faces-up",
    "letters-turn",
    "top-placed",
    "grain-kept",
    "patches-tile",
    "patch-allowance",
    "patch-seams",
    "top-size",
    "top-allowance",
    "top-over-patches",
    "basting-line",
    "ticks-at-seams",
    "seams-equal",
    "stitching-whole",
    "dots-meet",
    "matches-meet",
    "centers-in-middle",
    "signs-on-seams",
    "opening-asked",
    "opening-clear",
    "opening-meets",
    "border-width",
    "front-covered",
    "backing-outline",
    "backing-allowance",
    "miter-halves",
    "miter-crease",
    "miter-angle",
    "miter-allowance",
    "trim-line",
    "waste-sides",
    "waste-region",
    "waste-and-kept",
    "templates-serve",
    "template-cut-outs",
    "template-holes",
    "template-slots",
    "template-edges",
    "marks-inside",
]

FOLDED = [
    "shapes-sound",
    "marks-complete",
    "marks-mated",
    "faces-up",
    "letters-turn",
    "top-placed",
    "grain-kept",
    "patches-tile",
    "patch-allowance",
    "patch-seams",
    "top-size",
    "top-allowance",
    "backing-outline",
    "folds-in-place",
    "centers-meet",
    "finished-as-top",
    "border-covered",
    "middle-bare",
    "tip-hidden",
    "miter-one-line",
    "trim-line",
    "waste-sides",
    "waste-region",
    "waste-and-kept",
    "templates-serve",
    "template-cut-outs",
    "template-holes",
    "template-slots",
    "template-edges",
    "marks-inside",
]


def test_turned_has_each_fact_once() -> None:
    """A turned blanket's proof names each of its facts once, in the order of the work."""
    assert [check.name for check in prove(checkers()).checks] == SEWN


def test_folded_over_has_a_list_of_its_own() -> None:
    """A folded-over blanket has no dots, miters or opening to prove, but folds."""
    assert [check.name for check in prove(folded()).checks] == FOLDED


def test_one_cloth_has_no_patches_to_prove() -> None:
    """A top of one cloth has all facts but those of patches."""
    found = {check.name for check in prove(square_panel()).checks}
    assert found == set(SEWN) - {"patches-tile", "patch-allowance", "patch-seams"}


def test_pairs_are_proved_after_the_patches() -> None:
    """Triangles sewn in pairs before cutting add one fact after those of the patches."""
    after = SEWN.index("patch-seams") + 1
    found = [check.name for check in prove(paired()).checks]
    assert found == [*SEWN[:after], "pairs-serve", *SEWN[after:]]


def test_card_is_read_in_millimetres() -> None:
    """What must be left between the cut-outs of a template is no size on a sewing ruler."""
    found = {check.name: check for check in prove(checkers()).checks}
    assert found["template-cut-outs"].expected == "at least 3 mm"


def test_names_are_kebab_case_and_claims_are_sentences() -> None:
    """Names can stand in a file or a link; claims and texts can be read."""
    for check in (*prove(checkers()).checks, *prove(folded()).checks):
        assert re.fullmatch(r"[a-z]+(-[a-z]+)+", check.name)
        assert re.fullmatch(r"[A-Z].*\.", check.claim)
        assert check.expected
        assert check.found


def test_same_kit_reads_the_same() -> None:
    """Two proofs of one kit are equal."""
    assert prove(checkers()) == prove(checkers())


def test_lengths_are_read_in_the_projects_unit() -> None:
    """What was expected and found is said as the ruler shows it."""
    found = {check.name: check for check in prove(square_panel()).checks}
    assert found["seams-equal"] == Check(
        name="seams-equal",
        at="",
        claim="Each seam of the backing is as long as that of the top, dot to dot.",
        expected="20 in",
        found="20 in",
        passed=True,
    )
    assert found["waste-sides"].expected == "3 sides"
    assert found["miter-angle"].expected == "90 degrees"


def test_worst_place_is_named() -> None:
    """Of two seams that are off, the one that is off more is told."""
    spoil = all_of(
        backing(marks(MarkKind.STITCH, "A", move(-3, 0, only=1))),
        backing(marks(MarkKind.STITCH, "C", move(5, 0, only=1))),
    )
    (failed,) = prove(spoil(checkers())).failed
    assert (failed.name, failed.at, failed.found) == ("stitching-whole", "C", "5 mm apart")


def test_shapes_that_cannot_be_measured_end_the_proof() -> None:
    """Where a coordinate is no number, nothing else is judged."""
    spoiled = backing(marks(MarkKind.CENTER, "B", move(math.inf, 0)))(checkers())
    assert [check.name for check in prove(spoiled).checks] == ["shapes-sound"]


def test_mirrored_top_ends_the_proof() -> None:
    """Where the letters run the wrong way the proof says that, and not all that follows from it."""
    proof = prove(top(mirrored)(square_panel()))
    assert [check.name for check in proof.checks] == SEWN[:5]
    assert [check.name for check in proof.failed] == ["letters-turn"]
    assert proof.failed[0].found == "the letters run round it the wrong way"


def test_require_passes_a_proof_that_holds() -> None:
    """A proof without a failed check stops nothing."""
    require(prove(checkers()))


def test_require_names_every_failed_check() -> None:
    """The error has one line for each failed check, with what was expected and found."""
    proof = Proof(
        (
            Check(name="a-b", at="A", claim="It is.", expected="1 in", found="2 in", passed=False),
            Check(name="c-d", at="", claim="It does.", expected="3", found="3", passed=True),
            Check(name="e-f", at="", claim="So be it.", expected="4", found="5", passed=False),
        )
    )
    with pytest.raises(ProofError) as caught:
        require(proof)
    assert str(caught.value) == (
        "a-b at A: expected 1 in, found 2 in. It is.\ne-f: expected 4, found 5. So be it."
    )


def test_side_of_exactly_two_feet() -> None:
    """A side on the limit of quarter marks has them on both pieces or on neither."""
    for borders in ((2, 2, 2, 2), (1, 2, 3, 2)):
        assert prove(build(project(panel(24, 24), borders))).failed == ()
