"""What is used of ezdxf, and its only runtime import: nothing of it loads before it is hushed."""

from __future__ import annotations

import logging

from cutpaths.writers.no_settings import no_settings

# ezdxf warns of homes that it cannot write its font list to; that is not for a person to read.
logging.getLogger("ezdxf").addHandler(logging.NullHandler())
with no_settings():
    from ezdxf._options import options  # documented as `ezdxf.options`, which has no type
    from ezdxf.colors import rgb2int
    from ezdxf.document import Drawing as DxfDocument
    from ezdxf.entities.dxfgfx import DXFGraphic
    from ezdxf.entities.dxfobj import DXFObject
    from ezdxf.enums import InsertUnits
    from ezdxf.filemanagement import new
    from ezdxf.layouts.base import BaseLayout
    from ezdxf.lldxf.const import VALID_DXF_LINEWEIGHTS
    from ezdxf.lldxf.tagwriter import AbstractTagWriter, TagWriter

__all__ = [
    "VALID_DXF_LINEWEIGHTS",
    "AbstractTagWriter",
    "BaseLayout",
    "DXFGraphic",
    "DXFObject",
    "DxfDocument",
    "InsertUnits",
    "TagWriter",
    "new",
    "options",
    "rgb2int",
]
