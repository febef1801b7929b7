"""The browser and the page that the tests share; modules of tests/ are at hand here too."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

sys.path.insert(0, str(Path(__file__).parent.parent))

from test_writers_page import page

from browser.driver import browser
from browser.tabs import opened

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page


@pytest.fixture(scope="module")
def context() -> Iterator[BrowserContext]:
    """A browser as large as the simulated picture."""
    with browser(1920, 1080) as opened:
        yield opened


@pytest.fixture
def shown(context: BrowserContext, tmp_path: Path) -> Iterator[Page]:
    """The page without a rig, nothing kept from other tests."""
    tab = opened(context, tmp_path, page())
    yield tab
    assert tab.failures == []  # type: ignore[attr-defined]  # hung on it by `opened`
    tab.close()
