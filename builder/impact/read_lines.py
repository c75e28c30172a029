"""The lines that a reader meets on a page, from its markup: each paragraph, entry, row or heading one line."""

from __future__ import annotations

from html.parser import HTMLParser

# Elements of a sentence (HTML Standard, section 4.5, "text-level semantics"); whatever is none of them ends a line.
_IN_A_LINE = frozenset(
    ("a", "abbr", "b", "cite", "code", "data", "em", "i", "mark", "q", "small", "span", "strong", "sub", "sup", "time")
)
_UNSEEN = frozenset(("script", "style", "title", "desc"))


def read_lines(markup: str) -> tuple[str, ...]:
    """Every line in order, blanks as one; the words of a drawing are left out, as what it shows stands beside it."""
    reader = _Lines()
    reader.feed(markup)
    reader.close()
    reader.end_line()
    return tuple(reader.lines)


class _Lines(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.lines: list[str] = []
        self._open: list[str] = []
        self._unseen = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in _IN_A_LINE:
            self.end_line()
        self._unseen += tag in _UNSEEN

    def handle_endtag(self, tag: str) -> None:
        if tag not in _IN_A_LINE:
            self.end_line()
        self._unseen -= tag in _UNSEEN

    def handle_data(self, data: str) -> None:
        if not self._unseen:
            self._open.append(data)

    def end_line(self) -> None:
        text = " ".join("".join(self._open).split())
        self._open = []
        if text:
            self.lines.append(text)
