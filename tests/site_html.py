"""Built pages as a reader without a browser sees them: links, anchors, figures, and numbers that nobody marked."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path, PurePosixPath
from typing import NamedTuple
from urllib.parse import unquote, urlsplit

# The kinds of numbers that are no evidence, as the public interface lists them (design, section 5).
KINDS = frozenset(
    (
        "date", "locator", "step", "identifier", "reference", "passage", "words", "definition", "threshold", "visit",
        "scale", "convention", "instruction",
    )
)  # fmt: skip
VOID = frozenset(("area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"))
UNREAD = frozenset(("script", "style", "title"))
NUMBER = re.compile(r"\d+(?:[.,]\d+)*")


class Shown(NamedTuple):
    """A figure as a page shows it."""

    id: str
    text: str
    value: str
    href: str | None
    """Where the nearest link around it leads; None where there is none."""
    inside: frozenset[str]
    """Tags around it."""


class PageText(HTMLParser):
    """One page, read once."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.ids: list[str] = []
        self.links: list[str] = []
        self.inline: list[str] = []
        """Scripts in the page itself, and `style` or `on...` attributes."""
        self.body: dict[str, str] = {}
        self.title = ""
        self.metas: dict[str, str] = {}
        self.attributes: list[str] = []
        """Texts that attributes say to somebody."""
        self.unmarked: list[str] = []
        """Text with a number outside every figure and every marked kind."""
        self.marked: list[str] = []
        self.figures: list[Shown] = []
        self.text = ""
        self._open: list[tuple[str, dict[str, str]]] = []
        self._figure: list[tuple[int, dict[str, str], str]] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        if "id" in given:
            self.ids.append(given["id"])
        self.links.extend(given[name] for name in ("href", "src") if name in given)
        self.inline.extend(f"{tag} {name}" for name in given if name == "style" or name.startswith("on"))
        self.attributes.extend(given[name] for name in ("aria-label", "alt", "title", "data-column") if name in given)
        if tag == "style" or (tag == "script" and "src" not in given and given.get("type") != "application/json"):
            self.inline.append(tag)
        if tag == "body":
            self.body = given
        if tag == "meta":
            self.metas[given.get("name") or given.get("http-equiv") or "charset"] = given.get("content", "")
        if tag not in VOID:
            self._open.append((tag, given))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.handle_endtag(tag)

    def handle_endtag(self, tag: str) -> None:
        while self._open:
            opened, _ = self._open.pop()
            if opened == tag:
                return

    def handle_data(self, data: str) -> None:
        tags = [tag for tag, _ in self._open]
        if "title" in tags and "svg" not in tags:
            self.title += data
            return
        if UNREAD & set(tags):
            return
        self.text += data
        classes = {name for _, given in self._open for name in given.get("class", "").split()}
        shown = [
            given for _, given in self._open if "figure" in given.get("class", "").split() and "data-figure" in given
        ]
        for given in shown:
            hrefs = [other["href"] for tag, other in self._open if tag == "a" and "href" in other]
            href = hrefs[-1] if hrefs else None
            self.figures.append(Shown(given["data-figure"], data, given.get("value", ""), href, frozenset(tags)))
        if not NUMBER.search(data):
            return
        if shown or classes & KINDS:
            self.marked.append(data)
        else:
            self.unmarked.append(f"{' > '.join(tags[-3:])}: {' '.join(data.split())}")


class Site:
    """Every page of a built site by its path below the site."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.pages = {
            file.relative_to(folder).as_posix(): PageText(file.read_text("utf-8"))
            for file in sorted(folder.rglob("*.html"))
        }

    def broken_links(self) -> list[str]:
        """Links of the site to itself whose file or anchor is not there."""
        broken = []
        for path, page in self.pages.items():
            for link in page.links:
                target = urlsplit(link)
                if (
                    target.scheme
                    or target.netloc
                    or not self._leads_somewhere(path, page, target.path, target.fragment)
                ):
                    if target.scheme in ("https", "http", "tel", "mailto", "data"):
                        continue
                    broken.append(f"{path} -> {link}")
        return broken

    def _leads_somewhere(self, path: str, page: PageText, target: str, fragment: str) -> bool:
        if path == "404.html":
            # It answers for any address, so that its links count from the root of the host.
            target = target.lstrip("/") or "index.html"
            path = "index.html"
        if target:
            file = self.resolved(path, unquote(target))
            if not (self.folder / file).is_file():
                return False
            if not file.endswith(".html"):
                return True
            page = self.pages[file]
        return not fragment or "=" in fragment or unquote(fragment) in page.ids

    def resolved(self, path: str, target: str) -> str:
        """The file below the site that a relative link leads to."""
        steps = list(PurePosixPath(path).parent.parts)
        for step in target.split("/"):
            if step == "..":
                if not steps:
                    return "outside the site"
                steps.pop()
            elif step not in ("", "."):
                steps.append(step)
        file = "/".join(steps)
        is_folder = target.endswith(("/", "..", ".")) or (self.folder / file).is_dir()
        return f"{file}/index.html".lstrip("/") if is_folder else file
