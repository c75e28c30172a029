"""A reader with a phone, who wants one thing at a time: python tests/browser/reader.py SITE FOLDER says how.

Every tap counts, and every pixel that the page has to be moved before what is tapped or wanted is in view.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import NamedTuple

from playwright.sync_api import Locator, Page, sync_playwright

sys.path.insert(0, str(Path(__file__).parent.parent))

from look import CHROMIUM, FLAGS
from site_server import serving

WIDTH, HEIGHT = 360, 740
AT_MOST_TAPS, AT_MOST_SCREENS = 3, 2.0
AT_MOST_LONG = 7.0
"""Screens of a question page with everything closed."""


class Cost(NamedTuple):
    """What one wanted thing cost on one question page."""

    question: str
    wanted: str
    taps: int
    screens: float
    """Heights of the screen that the page was moved, all moves added."""
    found: str
    """The first words of what came into view."""


class Reader:
    """Somebody who opens one page, taps with one thumb and moves the page no further than needed."""

    def __init__(self, page: Page, address: str) -> None:
        self.page = page
        page.goto("about:blank")
        page.goto(address, wait_until="load")
        self.taps = 0
        self.moved = 0.0

    def finds(self, target: Locator) -> str:
        """Moves the page until it stands between the top and the bar. Returns its words."""
        box = target.bounding_box()
        bar = self.page.locator("nav.urgent").bounding_box()
        assert box is not None, f"{target} is not on the page"
        assert bar is not None
        if not target.evaluate("(part) => part.closest('nav.urgent') !== null"):
            below = box["y"] + min(box["height"], bar["y"]) - bar["y"]
            move = below if below > 0 else min(box["y"], 0)
            if move:
                self.page.evaluate("(move) => scrollBy(0, move)", move)
                self.moved += abs(move)
        # A shape of a drawing has a name in place of a text.
        said: str = target.evaluate("(part) => part.innerText ?? part.getAttribute('aria-label') ?? ''")
        return " ".join(said.split())

    def taps_on(self, target: Locator) -> None:
        self.finds(target)
        target.click()
        self.page.wait_for_load_state("load")
        self.taps += 1

    def opens_case(self, leads_to: str) -> None:
        """By the bar, which is in reach of the thumb wherever the page stands."""
        self.taps_on(self.page.get_by_role("button", name="My case"))
        self.taps_on(self.page.get_by_role("region", name="My case").get_by_role("link", name=leads_to))

    def cost(self, question: str, wanted: str, found: str) -> Cost:
        return Cost(question, wanted, self.taps, self.moved / HEIGHT, found[:60])


def costs(page: Page, site: str, question: str) -> list[Cost]:
    """What each thing costs that somebody beside the chair wants of a question. site: address of the guide."""
    address = f"{site}{question}/"
    out: list[Cost] = []

    def reader() -> Reader:
        return Reader(page, address)

    one = reader()
    out.append(one.cost(question, "do not", one.finds(page.locator("ul.stop").first)))

    one = reader()
    one.taps_on(page.get_by_role("link", name="Do now"))
    for step in page.locator("ol.now > li").all():
        said = one.finds(step)
    out.append(one.cost(question, "do now, to the last step", said))

    one = reader()
    one.taps_on(page.get_by_role("link", name="Call", exact=True))
    out.append(one.cost(question, "whom to call", one.finds(page.locator("#call ~ p").first)))

    one = reader()
    one.opens_case("Answer what you see")
    ask = page.locator("section.ask").first
    one.taps_on(ask.get_by_role("button").nth(-2))
    out.append(one.cost(question, "what goes with the first answer", one.finds(ask.locator(".known:visible li").first)))

    for drawn in page.locator("section.ask:has(.drawn)").all():
        one = reader()
        one.opens_case("Answer what you see")
        one.taps_on(drawn.locator(".drawn a").last)
        asked = " ".join(drawn.locator("h3").inner_text().split())
        out.append(one.cost(question, f"on a drawing: {asked}", one.finds(drawn.locator(".known:visible li").first)))

    for name in [part.get_attribute("id") or "" for part in page.locator("details.way").all()]:
        one = reader()
        way = page.locator(f"#{name}")
        title = " ".join(way.locator("summary").inner_text().split())
        one.opens_case("Ways to go on")
        one.taps_on(way.locator("summary"))
        numbers = way.locator("li:has(data.figure)")
        found = one.finds(numbers.first) if numbers.count() else "no number in this guide"
        out.append(one.cost(question, f"numbers of: {title}", found))

    one = reader()
    one.opens_case("Words for the patient")
    out.append(one.cost(question, "words for the patient", one.finds(page.locator(".sheet.chair li").first)))

    one = reader()
    one.opens_case("Recall")
    out.append(one.cost(question, "next recall", one.finds(page.locator(".visits li").first)))
    return out


def length(page: Page, site: str, question: str) -> float:
    """Screens of the page with everything closed."""
    page.goto(f"{site}{question}/", wait_until="load")
    return float(page.evaluate("document.documentElement.scrollHeight")) / HEIGHT


def questions_of(site: Path) -> list[str]:
    """Ids of the questions that the site answers."""
    pages = sorted(site.glob("*/index.html"))
    return [page.parent.name for page in pages if 'data-page="question"' in page.read_text("utf-8")]


def table(rows: list[Cost], lengths: dict[str, float]) -> str:
    """The costs as Markdown."""
    head = (
        f"A reader at {WIDTH} by {HEIGHT} pixels; at most {AT_MOST_TAPS} taps and {AT_MOST_SCREENS:g} screens each.\n\n"
    )
    long = "".join(f"- {name}: {screens:.1f} screens with everything closed\n" for name, screens in lengths.items())
    lines = ["| question | wanted | taps | screens | found |", "|---|---|--:|--:|---|"]
    lines += [f"| {row.question} | {row.wanted} | {row.taps} | {row.screens:.1f} | {row.found} |" for row in rows]
    return head + long + "\n" + "\n".join(lines) + "\n"


def write_table(site: Path, folder: Path) -> None:
    """READER.md below the folder."""
    folder.mkdir(parents=True, exist_ok=True)
    with serving(site) as server, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        page = browser.new_page(viewport={"width": WIDTH, "height": HEIGHT}, service_workers="block")
        names = questions_of(site)
        rows = [row for name in names for row in costs(page, server.url, name)]
        # A page of its own: what this reader answered before is offered again, which nobody who comes first reads.
        other = browser.new_page(viewport={"width": WIDTH, "height": HEIGHT}, service_workers="block")
        lengths = {name: length(other, server.url, name) for name in names}
        browser.close()
    (folder / "READER.md").write_text(table(rows, lengths), "utf-8")


if __name__ == "__main__":
    write_table(Path(sys.argv[1]), Path(sys.argv[2]))
    print(f"what a reader needs stands in {sys.argv[2]}/READER.md")
