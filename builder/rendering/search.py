"""The page that finds things: a box for a script, and without one every page of the guide by its name."""

from __future__ import annotations

import json
import re
import zlib
from collections import Counter
from collections.abc import Iterator
from html import escape
from itertools import groupby

from ..reading.page_kinds import PAGES
from ..reading.published import published_address
from ..results.values.document import Page
from ..results.values.guide import Guide
from ..results.values.page_lines import GAP, LOOKED_THROUGH, PageLine
from .inline import Place, href, typed_html
from .pages import written_title

PLACE = Place("search/")

LINES = "search/lines.json"
"""What stands on the pages, line by line. The index itself holds titles, authors, answers and synonyms, and nothing
else: it is also what the search of a site around the guide is handed."""

ROOM = 280 * 1024
"""Bytes that the index and the lines may take together, compressed: somebody waits for them on bad wi-fi."""

_OFTEN = 6
"""House rule: a line that stands on more pages than this says nothing of any one of them."""

_GROUPS = {page.kind: page.group for page in PAGES if page.group}
_FIRST = next(iter(_GROUPS.values()))


def search_markdown(guide: Guide) -> str:
    """The page as Markdown, in one block of HTML like every other; left out of the index itself."""
    heads = guide.pages.heads.values()
    questions = {page.address: page.title for page in heads if page.kind == "question"}
    parts = []
    for title in dict.fromkeys(_GROUPS.values()):
        pages = [page for page in heads if _GROUPS.get(page.kind) == title]
        if pages:
            anchor = title.lower().replace(" ", "-")
            rows = _rows(pages, questions)
            # Where there is no script these lists are the search; questions are few, and stand open.
            is_open = " open" if title == _FIRST else ""
            parts.append(
                f'<details class="part" id="{anchor}"{is_open}><summary><h2>{title}</h2></summary>\n'
                f"<ul>\n{rows}\n</ul>\n</details>"
            )
    lists = "\n".join(parts)
    return (
        '---\ntitle: "Search"\nkind: "written"\ntemplate: "reading.html"\nsearch:\n  exclude: true\n---\n\n'
        '<div class="guide" data-search-exclude>\n<h1>Search</h1>\n'
        '<div role="search" data-search hidden>'
        '<p><label for="find">A word of any page, a material, an author</label></p>\n'
        '<input id="find" type="search" autocomplete="off" autocapitalize="none" spellcheck="false">\n'
        '<div class="results" aria-live="polite"></div></div>\n'
        f"{lists}\n</div>\n"
    )


def search_entries(guide: Guide) -> list[dict[str, str]]:
    """What the search knows: titles, authors, answers and synonyms, one entry a page, and nothing else of it."""
    entries = []
    for page in guide.pages.heads.values():
        text = "; ".join(" ".join(words.split()) for words in page.search if words != page.title)
        entries.append({"location": page.address, "title": page.title, "text": text})
    for written in guide.written:
        typed = "".join(part for part in written.parts if isinstance(part, str))
        entries.append(
            {"location": published_address(written.path), "title": written_title(typed, written.path), "text": ""}
        )
    return entries


def search_lines(guide: Guide) -> str:
    """What stands on reading pages, as JSON.

    pages: of each its address, then for each anchor a list of the anchor and the lines that stand there.
    left_out: kinds of page of which there are too many to be looked through line by line.
    """
    room = ROOM - _weight(search_entries(guide))
    pages: dict[str, list[list[object]]] = {kind: [] for kind in LOOKED_THROUGH}
    lines = {head.address: guide.pages.lines(head.address) for head in guide.pages.heads.values()}
    often = Counter(text for found in lines.values() for text in {text for _, text in found})
    for head in guide.pages.heads.values():
        told = [(anchor, text) for anchor, text in lines[head.address] if often[text] <= _OFTEN]
        if told:
            pages[head.kind].append([head.address, *_by_anchor(told)])
    kept: list[list[object]] = [[page, ["", *found]] for page, found in _written_lines(guide)]
    left_out = []
    for kind, found in pages.items():
        room -= _weight(found)
        if room < 0:
            left_out.append(kind)
        else:
            kept += found
    return json.dumps({"pages": kept, "left_out": left_out}, ensure_ascii=False, separators=(",", ":"))


def _by_anchor(lines: list[PageLine]) -> Iterator[list[str]]:
    for anchor, group in groupby(lines, lambda line: line[0]):
        yield [anchor, *(text for _, text in group)]


def _weight(value: object) -> int:
    """Bytes of it as a host sends it."""
    return len(zlib.compress(json.dumps(value, ensure_ascii=False).encode(), 6))


# What Markdown means by its signs, and what a line cannot be without them.
_MARKUP = re.compile(r"^\s*(?:[-+*]|\d+[.)])\s|!?\[([^\]]*)\]\([^)]*\)|[*_`#>|]+|<[^>]*>|\{[^}]*\}")


def _written_lines(guide: Guide) -> Iterator[tuple[str, list[str]]]:
    """Paragraphs of the hand-written pages as they are read, by the address of each page that has any."""
    for page in guide.written:
        text = "".join(part if isinstance(part, str) else GAP for part in page.parts)
        text = re.sub(r"\A---\n.*?\n---\n", "", text, flags=re.DOTALL)
        plain = (
            " ".join(_MARKUP.sub(r"\1", part).split())
            for part in re.split(r"\n\s*\n|\n(?=\s*(?:[-+*#|]|\d+[.)]))", text)
        )
        found = [part for part in plain if len(part.split()) > 2]
        if found:
            yield published_address(page.path), found


def _rows(pages: list[Page], questions: dict[str, str]) -> str:
    """Pages by their names; those below a question stand together under its name."""
    out = []
    for above, group in groupby(pages, lambda page: page.trail[0][0] if page.trail else ""):
        rows = "\n".join(
            f'<li><a href="{escape(href(page.address, PLACE))}">{typed_html(page.title)}</a></li>' for page in group
        )
        title = questions.get(above)
        out.append(rows if title is None else f"<li>{typed_html(title)}<ul>\n{rows}\n</ul></li>")
    return "\n".join(out)
