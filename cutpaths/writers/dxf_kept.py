"""Objects that every new DXF document has alike, put into text once for all files of a run.

ezdxf gives each document three materials and the styles of multileaders and multilines, the same
under the same handles, before anything of a drawing; nothing here changes them. In text they are a
tenth of a small file, and half of the time that it takes.
"""

from __future__ import annotations

import io

from cutpaths.writers.dxf_library import AbstractTagWriter, DxfDocument, DXFObject, TagWriter

_ALIKE = frozenset({"ACDBPLACEHOLDER", "MATERIAL", "MLEADERSTYLE", "MLINESTYLE"})

# By type and handle, as ezdxf writes them.
_texts: dict[tuple[str, str], str] = {}


def keep_alike(doc: DxfDocument) -> None:
    """Has the objects that are alike in every document write the text that is kept of them."""
    for entity in doc.objects:
        if entity.dxftype() in _ALIKE:
            vars(entity)["export_dxf"] = _Kept(entity)


class _Kept:
    """What an object is exported by, in place of its own method."""

    def __init__(self, entity: DXFObject) -> None:
        self._entity = entity

    def __call__(self, tagwriter: AbstractTagWriter) -> None:
        name = self._entity.dxftype(), self._entity.dxf.handle
        if name not in _texts:
            stream = io.StringIO()
            own = type(self._entity).export_dxf
            own(self._entity, TagWriter(stream, dxfversion=tagwriter.dxfversion))
            _texts[name] = stream.getvalue()
        tagwriter.write_str(_texts[name])
