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
    is_table = sum("|" in row for row in block.text.split("\n")) > 1
    typed = block.text.translate(_BOUNDS) if is_table else block.text
    pieces = around(typed, [(mark.start, mark.end) for mark in block.marks], decode)
    out = [escape(piece, quote=False) for piece in pieces]
    out[1::2] = [_mark_html(mark) for mark in block.marks]
    text = _table_html("".join(out)) if is_table else " ".join("".join(out).split("\n"))
    return (
        f'<div id="{escape(block.anchor)}">'
        f'<b class="locator">{escape(block.bracket, quote=False)}</b> '
        f'<blockquote class="passage">{text}</blockquote></div>'
    )


_ROW, _CELL = "\ufdd2", "\ufdd3"  # characters that no text may hold: Unicode 15, section 23.7 (from memory)
_BOUNDS = str.maketrans({"\n": _ROW, "|": _CELL})


def _table_html(text: str) -> str:
    """Rows with bars between their cells, as the desk lays them out; the first one names the columns."""
    rows = [[cell.strip() for cell in row.split(_CELL)] for row in text.split(_ROW) if row.strip()]
    names = ["th"] + ["td"] * len(rows)
    made = ["".join(f"<{name}>{cell}</{name}> " for cell in row) for name, row in zip(names, rows, strict=False)]
    return f"<table>{''.join(f'<tr>{row}</tr>' for row in made)}</table>"


def _mark_html(mark: Marks) -> str:
    """One printed number, which the style sheet marks; where several claims quote it, each has its own element around
    the same text."""
    html = escape(mark.figures[0].text, quote=False)
    for figure in mark.figures:
        html = f'<data class="figure" data-figure="{escape(figure.id)}" value="{figure.value}">{html}</data>'
    return html
