"""One small mark a unit, ten in a row, those with the outcome first and filled."""

from __future__ import annotations

import math
import re
from html import escape

from ..guide.values.drawings import Icons
from .drawn_text import figure_box
from .inline import Place, line_html, typed_html

WIDTH = 320


def icons_html(plot: Icons, place: Place, mark: str) -> str:
    """The drawing below its title and what it shows."""
    title = typed_html(plot.title) + ("" if plot.title.endswith((".", "?", "!")) else ".")
    return figure_box(plot.anchor, icons_svg(plot, mark), f"<b>{title}</b> {line_html(plot.finding, place)}")


def icons_svg(plot: Icons, mark: str) -> str:
    """The drawing with title and description; the mark of a demonstration stands in it, since pictures travel alone."""
    step = 28
    rows = math.ceil(plot.total / 10)
    name = f"{plot.anchor}-unit"
    out = []
    for kind, numbers in (("unit filled", range(plot.filled)), ("unit", range(plot.filled, plot.total))):
        places = ((14 + (index % 10) * step, 8 + (index // 10) * step) for index in numbers)
        uses = "".join(f'<use href="#{name}" x="{x}" y="{y}"/>' for x, y in places)
        if uses:
            out.append(f'<g class="{kind}">{uses}</g>')
    height = 8 + rows * step
    said = ""
    if mark:
        said = f'<text class="invented" x="14" y="{height + 12}">{escape(mark)}</text>'
        height += 18
    opening = (
        f'<svg viewBox="0 0 {WIDTH} {height:g}" role="img" aria-labelledby="{plot.anchor}-title" '
        f'aria-describedby="{plot.anchor}-says" xmlns="http://www.w3.org/2000/svg">\n'
        f'<title id="{plot.anchor}-title">{escape(plot.title)}</title>'
    )
    return f"{opening}\n{_symbol(plot, name)}\n" + "\n".join(out) + f"\n{said}</svg>"


_MARK_WIDTH, _MARK_HEIGHT = 18, 21


def _symbol(plot: Icons, name: str) -> str:
    """What is drawn of one unit, once for all of them: the evidence's own drawing, or a plain shape."""
    size = f'width="{_MARK_WIDTH}" height="{_MARK_HEIGHT}"'
    if plot.mark is None:
        return f'<defs><rect id="{name}" {size} rx="5"/></defs>'
    shapes = re.sub(r' id="[^"]*"', "", plot.mark.shapes)
    frame = f'viewBox="{escape(plot.mark.view_box)}" {size} overflow="visible"'
    return f'<defs><symbol id="{name}" {frame}>{shapes}</symbol></defs>'
