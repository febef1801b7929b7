"""What every DXF document has alike: as ezdxf writes it, whatever was written before."""

from __future__ import annotations

import pytest
from ezdxf.document import Drawing as DxfDocument
from sample_drawings import cad, marked

from cutpaths.writers import dxf, dxf_kept, dxf_setup


def _nothing(doc: DxfDocument) -> None:
    del doc


def test_files_are_the_bytes_of_ezdxf(monkeypatch: pytest.MonkeyPatch) -> None:
    """The same files as without texts that are kept, in whatever order they are written."""
    documents = [cad(), marked()]
    forth = [dxf.render(document) for document in documents]
    monkeypatch.setattr(dxf_kept, "_texts", {})
    back = [dxf.render(document) for document in reversed(documents)]
    monkeypatch.setattr(dxf_setup, "keep_alike", _nothing)
    plain = [dxf.render(document) for document in documents]
    assert forth == back[::-1] == plain


def test_kept_are_objects_alone() -> None:
    """Three materials and the standard styles of multileaders and multilines, each once."""
    dxf.render(cad())
    kept = sorted(name for name, _ in dxf_kept._texts)
    assert kept == ["ACDBPLACEHOLDER", *["MATERIAL"] * 3, "MLEADERSTYLE", "MLINESTYLE"]
