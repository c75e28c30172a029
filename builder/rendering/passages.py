"""A passage as its typist typed it, readable, with the proved numbers marked in their place."""

from __future__ import annotations

from collections.abc import Callable
from html import escape

from ..numerals.shown import around
from ..results.values.document import Marks, PassageText


def passage_html(block: PassageText, decode: Callable[[str], str]) -> str:
    """The passage behind its locator; a mark stands where the number stands, unlinked.

    decode: turns BibTeX's own notation into readable text.
    """
    pieces = around(block.text, [(mark.start, mark.end) for mark in block.marks], decode)
    out = [escape(piece, quote=False) for piece in pieces]
    out[1::2] = [_mark_html(mark) for mark in block.marks]
    text = " ".join("".join(out).split("\n"))
    return (
        f'<div id="{escape(block.anchor)}">'
        f'<b class="locator">{escape(block.bracket, quote=False)}</b> '
        f'<blockquote class="passage">{text}</blockquote></div>'
    )


def _mark_html(mark: Marks) -> str:
    """One printed number, which the style sheet marks; where several claims quote it, each has its own element around
    the same text."""
    html = escape(mark.figures[0].text, quote=False)
    for figure in mark.figures:
        html = f'<data class="figure" data-figure="{escape(figure.id)}" value="{figure.value}">{html}</data>'
    return html
