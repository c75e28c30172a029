"""The two pictures of README.md, made from its own blocks: python tests/browser/pictures.py FOLDER."""

from __future__ import annotations

import html
import subprocess
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

sys.path.insert(0, str(Path(__file__).parent.parent))

from look import CHROMIUM, FLAGS
from readme.written import write_shown
from site_server import serving

ANSWER = """<!doctype html><meta charset="utf-8"><style>
body{{margin:0;padding:20px 24px;background:#fbfaf5;color:#20202a;width:712px}}
*{{font:15px/1.55 "DejaVu Sans Mono",monospace}}
p{{margin:0 0 10px;color:#6b2a4d}}pre{{margin:0;white-space:pre-wrap;overflow-wrap:anywhere}}
</style><p>python -m passageproof check</p><pre>{}</pre>"""


def run(*words: str, folder: Path) -> str:
    """What a verb prints about the compendium of a folder."""
    command = [sys.executable, "-m", "passageproof", *words]
    return subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False).stdout


def picture_of_page(browser: Browser, folder: Path, to: Path) -> None:
    """The question page on a phone, down to the answer."""
    write_shown(folder)
    run("build", folder=folder)
    with serving(folder / "site") as server:
        page = browser.new_page(viewport={"width": 360, "height": 740}, device_scale_factor=2, service_workers="block")
        page.goto(server.url + "hole/", wait_until="load")
        page.evaluate("document.querySelector('#in-short').parentElement.scrollIntoView({block: 'end'})")
        page.screenshot(path=to)
        page.close()


def picture_of_answer(browser: Browser, folder: Path, to: Path) -> None:
    """What the check says of a slip."""
    write_shown(folder, mistyped=True)
    page = browser.new_page(viewport={"width": 760, "height": 100}, device_scale_factor=2)
    page.set_content(ANSWER.format(html.escape(run("check", folder=folder))))
    page.screenshot(path=to, full_page=True)
    page.close()


def main(folder: Path) -> None:
    """Writes page.png and answer.png."""
    folder.mkdir(parents=True, exist_ok=True)
    with sync_playwright() as playwright, tempfile.TemporaryDirectory() as work:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        for name, make in (("page", picture_of_page), ("answer", picture_of_answer)):
            place = Path(work) / name
            place.mkdir()
            make(browser, place, folder / f"{name}.png")
        browser.close()


if __name__ == "__main__":
    main(Path(sys.argv[1]))
