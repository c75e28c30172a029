"""What a phone pays: bytes of a first visit, time to the largest paint, the kept copy, the search index."""

from __future__ import annotations

import gzip
import json
import re
import statistics
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parent.parent))

from site_server import serving  # type: ignore[import-not-found]

FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run"]
PAGES = ("", "root-perforation/", "root-perforation/hole-size/", "root-perforation/patient/")
RUNS = 5

# A slow fourth-generation network and a middling phone, the values that page-speed tools have settled on (common
# practice, no source): 150 ms there and back, 1.6 Mbit/s down, 750 kbit/s up, a processor four times slower.
NETWORK = {"offline": False, "latency": 150, "downloadThroughput": 1.6e6 / 8, "uploadThroughput": 750e3 / 8}
SLOWER = 4

# What somebody would write by hand for the same text: one file, no script, only the rules without which it looks raw.
BY_HAND = """<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>By hand</title><style>body{font:17px/1.5 system-ui,sans-serif;max-width:46rem;margin:auto;padding:0 1rem}
table{border-collapse:collapse}td,th{border-bottom:1px solid;text-align:left}</style>%s</html>"""


@contextmanager
def phone() -> Iterator[Any]:
    """Debian's Chromium."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path="/usr/bin/chromium", args=FLAGS)
        yield browser
        browser.close()


def bench_first_visit(browser: Any, site: Path) -> None:
    """Bytes and requests of the first visit of some of the demo's pages, as the server counts them until load."""
    for address in PAGES:
        with serving(site) as server:
            page = browser.new_context(service_workers="block").new_page()
            page.goto(server.url + address, wait_until="load")
            asked = [entry for entry in server.asked if not entry.path.endswith((".svg", ".webmanifest", "kept.js"))]
        size = sum(entry.size for entry in asked) / 1024
        print(f"first visit of /{address}: {len(asked)} requests, {size:.1f} KB compressed (aims: 4 and 25)")


def written_by_hand(site: Path, address: str) -> None:
    """The same content as one file beside the page: its text and tags, without classes, marks and scripts."""
    text = (site / address / "index.html").read_text("utf-8")
    content = text[text.index("<body") : text.index("</body>")].partition(">")[2]
    content = re.sub(r' (?:class|id|data-[\w-]+|aria-[\w-]+|role|tabindex|value)="[^"]*"', "", content)
    content = re.sub(r"</?(?:data|span|section|div|article)>", "", content)
    (site / address / "by-hand.html").write_text(BY_HAND % content, "utf-8")


def largest_paint(browser: Any, url: str) -> float:
    """Milliseconds to the largest paint of a cold visit on a slow phone."""
    context = browser.new_context(viewport={"width": 360, "height": 740}, service_workers="block")
    page = context.new_page()
    session = context.new_cdp_session(page)
    session.send("Network.enable")
    session.send("Network.emulateNetworkConditions", NETWORK)
    session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    painted: list[float] = []
    session.on("PerformanceTimeline.timelineEventAdded", lambda told: painted.append(told["event"]["time"]))
    session.send("PerformanceTimeline.enable", {"eventTypes": ["largest-contentful-paint"]})
    page.goto(url, wait_until="load")
    page.wait_for_timeout(300)  # whatever is painted last
    began = float(page.evaluate("performance.timeOrigin"))
    context.close()
    return 1000 * painted[-1] - began


def bench_largest_paint(browser: Any, site: Path) -> None:
    """The largest paint beside that of the same content in one file, in turns, median of five each."""
    for address in PAGES:
        written_by_hand(site, address)
        with serving(site) as server:
            pairs = [
                (
                    largest_paint(browser, server.url + address),
                    largest_paint(browser, f"{server.url}{address}by-hand.html"),
                )
                for _ in range(RUNS)
            ]
        ours, floor = (statistics.median(column) for column in zip(*pairs, strict=True))
        print(f"largest paint of /{address}: {ours:.0f} ms, by hand {floor:.0f} ms, {ours / floor:.2f} x (aim 1.3 x)")


def kept_bytes(site: Path) -> tuple[int, int]:
    """Files that the worker keeps after a first visit, and their bytes compressed."""
    found = re.search(r"const KEPT = (\[.*\]);", (site / "service-worker.js").read_text("utf-8"))
    assert found is not None
    paths = json.loads(found[1])
    files = [site / path / "index.html" if path.endswith("/") or not path else site / path for path in paths]
    return len(files), sum(len(gzip.compress(file.read_bytes(), 6)) for file in files)


def bench_search_index(name: str, site: Path) -> None:
    """The search index as a host sends it."""
    content = (site / "search" / "search_index.json").read_bytes()
    entries = len(json.loads(content)["docs"])
    print(
        f"search index, {name}: {entries} entries, {len(gzip.compress(content, 6)) / 1024:.1f} KB compressed (aim 300)"
    )


def bench_phone(site: Path) -> None:
    """Everything of the demo that a phone pays for. site: the demo's, which gains a few files."""
    count, size = kept_bytes(site)
    print(f"kept for offline: {count} files, {size / 1024:.0f} KB compressed (aim 1024)")
    bench_search_index("demo", site)
    with phone() as browser:
        bench_first_visit(browser, site)
        bench_largest_paint(browser, site)


if __name__ == "__main__":
    bench_phone(Path(sys.argv[1]))
