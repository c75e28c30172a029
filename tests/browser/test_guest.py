"""The guide in a site of somebody else, as a reader of that site meets it."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from offline import visited
from passageproof.publishing import publish
from playwright.sync_api import Error, Page, expect
from site_server import SiteServer, serving

pytestmark = pytest.mark.browser

ROOT = Path(__file__).parents[2]
HANDBOOK = """\
site_name: Fenwick handbook
site_url: URL
docs_dir: handbook
theme: {name: material, font: false, features: [navigation.instant, navigation.instant.prefetch]}
plugins: [search, evidence]
"""


@pytest.fixture(scope="module")
def handbook(tmp_path_factory: pytest.TempPathFactory) -> Iterator[SiteServer]:
    """A site with pages of its own and the guide in it, at the address that its configuration names."""
    root = tmp_path_factory.mktemp("handbook")
    shutil.copytree(ROOT / "tests" / "example" / "evidence", root / "evidence")
    (root / "handbook").mkdir()
    (root / "handbook" / "index.md").write_text("# Welcome\n\n[What we stand on](evidence/index.md)\n", "utf-8")
    (root / "handbook" / "rota.md").write_text("# Rota\n\nWho is on call.\n", "utf-8")
    with serving(root / "site") as server:
        (root / "mkdocs.yml").write_text(HANDBOOK.replace("URL", server.url), "utf-8")
        publish(root, root / "site")
        yield server


def test_tap_on_the_way_to_the_guide_shows_the_guide(handbook: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    faults: list[str] = []
    page.on("pageerror", lambda fault: faults.append(str(fault)))
    # The theme's script has read the sitemap by then, and swaps parts of pages that stand in it.
    page.goto(handbook.url, wait_until="networkidle")
    page.get_by_role("link", name="What we stand on").click()
    expect(page).to_have_url(f"{handbook.url}evidence/")
    expect(page.locator("body")).to_have_attribute("data-page", "front")
    expect(page.get_by_role("heading", name="Welcome")).to_have_count(0)
    assert faults == []


def test_search_of_the_site_finds_a_page_of_the_guide(handbook: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened(viewport={"width": 1280, "height": 800})
    page.goto(handbook.url, wait_until="networkidle")
    # The theme waits for keys.
    page.get_by_role("textbox", name="Search").click()
    page.get_by_role("textbox", name="Search").press_sequentially("Marlow")
    page.locator(".md-search-result__link").filter(has_text="Furcal repairs in a teaching clinic").first.click()
    expect(page).to_have_url(re.compile(re.escape(f"{handbook.url}evidence/sources/marlow2019furcal/")))
    expect(page.locator("body")).to_have_attribute("data-page", "source")


def test_guide_is_kept_for_bad_wifi_and_the_rest_of_the_site_is_left_alone(
    handbook: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened(service_workers="allow")
    visited(page, f"{handbook.url}evidence/root-perforation/")
    scope = page.evaluate("navigator.serviceWorker.ready.then((registration) => registration.scope)")
    assert scope == f"{handbook.url}evidence/"
    page.context.set_offline(True)
    page.goto(f"{handbook.url}evidence/urgent/", wait_until="load")
    expect(page.locator("body")).to_have_attribute("data-page", "urgent")
    with pytest.raises(Error, match="ERR_INTERNET_DISCONNECTED"):
        page.goto(f"{handbook.url}rota/")
