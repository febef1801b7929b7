"""The browser and the page that the tests share; modules of tests/ are at hand here too."""

from __future__ import annotations

import http.server
import sys
import threading
from collections.abc import Iterator
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

sys.path.insert(0, str(Path(__file__).parent.parent))

from test_writers_page import page

from browser.driver import browser
from browser.tabs import ROOT, opened

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page


@pytest.fixture(scope="module")
def context() -> Iterator[BrowserContext]:
    """A browser as large as the simulated picture."""
    with browser(1920, 1080) as opened:
        yield opened


class _Quiet(http.server.SimpleHTTPRequestHandler):
    """Serves the modules to this machine alone."""

    def log_message(self, *_: object) -> None:
        """Says nothing."""


@pytest.fixture(scope="module")
def modules(context: BrowserContext) -> Iterator[Page]:
    """A tab that can import the page's modules, each on its own: `import("/fit.js")`."""
    handler = partial(_Quiet, directory=str(ROOT / "cutpaths" / "projector" / "page"))
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        tab = context.new_page()
        tab.goto(f"http://127.0.0.1:{server.server_address[1]}/fit.js")
        yield tab
        tab.close()
        server.shutdown()


@pytest.fixture
def shown(context: BrowserContext, tmp_path: Path) -> Iterator[Page]:
    """The page without a rig, nothing kept from other tests."""
    tab = opened(context, tmp_path, page())
    yield tab
    assert tab.failures == []  # type: ignore[attr-defined]  # hung on it by `opened`
    tab.close()
