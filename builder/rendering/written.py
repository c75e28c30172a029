"""Hand-written pages after Markdown: every number that no figure carries is marked as the words it was typed in."""

from __future__ import annotations

import re
from html import escape
from html.parser import HTMLParser

# Kinds of number that are marked already, and elements whose text is no text of the page.
_MARKED = frozenset(
    {"figure", "date", "locator", "step", "identifier", "reference", "passage", "words", "definition", "threshold"}
    | {"visit", "scale", "convention", "instruction"}
)
_UNSEEN = frozenset({"script", "style", "title", "svg"})
_VOID = frozenset({"area", "br", "col", "hr", "img", "input", "link", "meta", "source", "wbr"})
_DIGIT = re.compile(r"\d")


class _Marker(HTMLParser):
    """Copies HTML and puts an element of class "words" around each text that holds an unmarked digit."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=False)
        self.out: list[str] = []
        self._open: list[bool] = []
        """For each open element, whether its text is marked or unseen."""

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        self.out.append(self.get_starttag_text() or "")
        if tag in _VOID:
            return
        kinds = (dict(attributes).get("class") or "").split()
        is_done = (bool(self._open) and self._open[-1]) or tag in _UNSEEN or tag == "time"
        self._open.append(is_done or not _MARKED.isdisjoint(kinds))

    def handle_startendtag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        self.out.append(self.get_starttag_text() or "")

    def handle_endtag(self, tag: str) -> None:
        if self._open and tag not in _VOID:
            self._open.pop()
        self.out.append(f"</{tag}>")

    def handle_data(self, data: str) -> None:
        is_done = bool(self._open) and self._open[-1]
        if is_done or not _DIGIT.search(data):
            self.out.append(data)
        else:
            self.out.append(f'<span class="words">{data}</span>')

    def handle_entityref(self, name: str) -> None:
        self.out.append(f"&{name};")

    def handle_charref(self, name: str) -> None:
        self.out.append(f"&#{name};")

    def handle_comment(self, data: str) -> None:
        self.out.append(f"<!--{data}-->")

    def handle_decl(self, decl: str) -> None:
        self.out.append(f"<!{escape(decl, quote=False)}>")


def marked_numbers(html: str) -> str:
    """The same page in which no digit stands outside of a figure or a marked kind of number."""
    marker = _Marker()
    marker.feed(html)
    marker.close()
    return "".join(marker.out)
