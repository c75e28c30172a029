"""Pictures of each kind of page, in each width and scheme and as printed: python tests/browser/look.py SITE FOLDER."""

from __future__ import annotations

import re
import sys
from pathlib import Path

from playwright.sync_api import sync_playwright

sys.path.insert(0, str(Path(__file__).parent.parent))

from site_server import serving

CHROMIUM = "/usr/bin/chromium"
FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--disable-sync",
    "--no-first-run",
]  # fmt: skip
WIDTHS = (320, 360, 768, 1280)


def one_of_each_kind(site: Path) -> dict[str, str]:
    """The longest page of each kind, by its kind: address below the site."""
    found: dict[str, tuple[int, str]] = {}
    for file in sorted(site.rglob("*.html")):
        text = file.read_text(encoding="utf-8")
        kind = re.search(r'<body[^>]*data-page="([a-z-]+)"', text)
        if kind is None:
            continue
        address = file.relative_to(site).as_posix().removesuffix("index.html")
        found[kind[1]] = max(found.get(kind[1], (0, "")), (len(text), address))
    return {kind: address for kind, (_, address) in found.items()}


def look(site: Path, folder: Path, kinds: tuple[str, ...] = (), widths: tuple[int, ...] = WIDTHS) -> None:
    """Writes KIND-WIDTH-SCHEME.png and KIND-print.pdf below the folder."""
    folder.mkdir(parents=True, exist_ok=True)
    with serving(site) as server, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        for kind, address in one_of_each_kind(site).items():
            if kinds and kind not in kinds:
                continue
            for scheme in ("light", "dark"):
                for width in widths:
                    page = browser.new_page(
                        viewport={"width": width, "height": 740}, color_scheme=scheme, service_workers="block"
                    )
                    page.goto(server.url + address, wait_until="load")
                    page.screenshot(path=folder / f"{kind}-{width}-{scheme}.png", full_page=True)
                    if scheme == "light" and width == widths[-1]:
                        page.pdf(path=folder / f"{kind}-print.pdf", format="A4", prefer_css_page_size=True)
                    page.close()
        browser.close()


if __name__ == "__main__":
    look(Path(sys.argv[1]), Path(sys.argv[2]), tuple(sys.argv[3:]))
    print(f"pictures stand in {sys.argv[2]}")
