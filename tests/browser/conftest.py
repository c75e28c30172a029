"""One browser for all tests of this folder, Debian's own."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from browser.desk_pages import ROOT, with_desk
from look import CHROMIUM, FLAGS
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright
from site_server import SiteServer, serving


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield browser
        browser.close()


@pytest.fixture
def opened(browser: Browser) -> Iterator[Callable[..., Page]]:
    """Makes a page of a phone, with whatever else a context takes; closed behind the test."""
    contexts: list[BrowserContext] = []

    def make(**options: Any) -> Page:
        options.setdefault("viewport", {"width": 360, "height": 740})
        options.setdefault("service_workers", "block")
        context = browser.new_context(**options)
        contexts.append(context)
        return context.new_page()

    yield make
    for context in contexts:
        context.close()


@pytest.fixture(scope="session")
def desk_demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demonstration with its desk, below a folder of its own."""
    return with_desk(ROOT / "evidence", tmp_path_factory.mktemp("desk"), ROOT / "site_src", ROOT / "mkdocs.yml")


@pytest.fixture(scope="session")
def desk_server(desk_demo: Path) -> Iterator[SiteServer]:
    """The same, served."""
    with serving(desk_demo / "site", "/guide/") as server:
        yield server
