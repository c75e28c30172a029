"""One small mark a unit, ten in a row, those with the outcome first and filled."""

from __future__ import annotations

import math
import re
from html import escape

from ..results.values.drawings import Icons
from .drawn_text import figure_box
from .inline import Place, line_html, typed_html

WIDTH = 320


def icons_html(plot: Icons, place: Place, mark: str) -> str:
    """The drawing below its title and what it shows."""
    title = typed_html(plot.title) + ("" if plot.title.endswith((".", "?", "!")) else ".")
    return figure_box(plot.anchor, icons_svg(plot, mark), f"<b>{title}</b> {line_html(plot.finding, place)}")


def icons_svg(plot: Icons, mark: str) -> str:
    """The drawing with title and description; the mark of a demonstration stands in it, since pictures travel alone."""
    name, ten = f"{plot.anchor}-unit", f"{plot.anchor}-ten"
    out = []
    for kind, first, end in (("unit filled", 0, plot.filled), ("unit", plot.filled, plot.total)):
        uses = []
        at = first
        while at < end:
            is_whole = at % _IN_A_ROW == 0 and end - at >= _IN_A_ROW
            uses.append(_use(ten if is_whole else name, at))
            at += _IN_A_ROW if is_whole else 1
        if uses:
            out.append(f'<g class="{kind}">{"".join(uses)}</g>')
    shape = _shape(plot, name)
    if any(f"#{ten}" in group for group in out):
        row = "".join(f'<use href="#{name}" x="{index * _STEP}"/>' for index in range(_IN_A_ROW))
        shape += f'<g id="{ten}">{row}</g>'
    height = _TOP + math.ceil(plot.total / _IN_A_ROW) * _STEP
    said = ""
    if mark:
        said = f'<text class="invented" x="14" y="{height + 12}">{escape(mark)}</text>'
        height += 18
    opening = (
        f'<svg viewBox="0 0 {WIDTH} {height:g}" role="img" aria-labelledby="{plot.anchor}-title" '
        f'aria-describedby="{plot.anchor}-says" xmlns="http://www.w3.org/2000/svg">\n'
        f'<title id="{plot.anchor}-title">{escape(plot.title)}</title>'
    )
    return f"{opening}\n<defs>{shape}</defs>\n" + "\n".join(out) + f"\n{said}</svg>"


_MARK_WIDTH, _MARK_HEIGHT = 18, 21
_IN_A_ROW, _STEP, _LEFT, _TOP = 10, 28, 14, 8


def _use(name: str, index: int) -> str:
    """One unit, or ten of them, in the place of the unit of this number."""
    return f'<use href="#{name}" x="{_LEFT + index % _IN_A_ROW * _STEP}" y="{_TOP + index // _IN_A_ROW * _STEP}"/>'


def _shape(plot: Icons, name: str) -> str:
    """What is drawn of one unit, once for all of them: the evidence's own drawing, or a plain shape."""
    size = f'width="{_MARK_WIDTH}" height="{_MARK_HEIGHT}"'
    if plot.mark is None:
        return f'<rect id="{name}" {size} rx="5"/>'
    shapes = re.sub(r' id="[^"]*"', "", plot.mark.shapes)
    frame = f'viewBox="{escape(plot.mark.view_box)}" {size} overflow="visible"'
    return f'<symbol id="{name}" {frame}>{shapes}</symbol>'
