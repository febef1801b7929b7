"""The page for a projector: one HTML file that needs nothing beside itself.

HTML 5. Style and script stand in the file and are named by their SHA-256 in the page's
Content-Security-Policy (CSP Level 3, 2.3.1 hash sources), which forbids all else: no network, no
other script, no frames, no forms that go anywhere. The marks are a block of JSON, in mm with six
decimals. The script is put together from the modules of `projector/page/` in their order: their
`import` lines go, `export` goes, and they share one scope.

Left out: other pages, fonts, pictures.
"""

from __future__ import annotations

import re
from base64 import b64encode
from hashlib import sha256
from importlib.resources import files

from cutpaths.drawing import Document
from cutpaths.errors import DrawingError
from cutpaths.sheets.page import PageDocument
from cutpaths.writers.html import Markup, data_block, filled

# Each imports only from those before it; a test holds them to it.
MODULES = (
    "homography.js",
    "equations.js",
    "fit.js",
    "crosses.js",
    "lengths.js",
    "toml_line.js",
    "rig_rules.js",
    "rig_file.js",
    "store.js",
    "state.js",
    "svg.js",
    "wrong_unit.js",
    "misread.js",
    "precision.js",
    "calibrate.js",
    "lens.js",
    "marks.js",
    "target.js",
    "aside.js",
    "readings.js",
    "forms.js",
    "verdict.js",
    "panel.js",
    "keys.js",
    "main.js",
)
_IMPORT = re.compile(r"^import \{[^}]*\} from \"\./[a-z_]+\.js\";\n", re.MULTILINE)
_EXPORT = re.compile(r"^export (?=(async )?(function|const|class) )", re.MULTILINE)


def render(document: Document) -> bytes:
    """The bytes of the page.

    Raises:
        DrawingError: the document is no page.
    """
    if not isinstance(document, PageDocument):
        raise DrawingError(f"HTML holds the projector's page, and {document.name} is none")
    style, script = page_file("page.css"), joined()
    policy = (
        f"default-src 'none'; script-src '{_hash(script)}'; style-src '{_hash(style)}'; "
        "base-uri 'none'; form-action 'none'"
    )
    values = {
        "title": document.content.title,
        "policy": policy,
        "style": Markup(style),
        "script": Markup(script),
        "data": data_block(document.content.as_data()),
    }
    return filled(page_file("page.html"), values).encode()


def joined() -> str:
    """All modules as one script."""
    parts = (_EXPORT.sub("", _IMPORT.sub("", page_file(name))) for name in MODULES)
    return '"use strict";\n' + "\n".join(parts)


def page_file(name: str) -> str:
    """A file of the page, as it stands in the package."""
    return (files("cutpaths.projector") / "page" / name).read_text(encoding="utf-8")


def _hash(text: str) -> str:
    return f"sha256-{b64encode(sha256(text.encode()).digest()).decode()}"
