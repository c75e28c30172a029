"""Plots as inline SVG in a look of our own: rails with bands and notches, shapes that speak without colour."""

from __future__ import annotations

import math
import re
from html import escape

from ..guide.values.document import Line, Marked, Plot, PlotRow, plain_text
from ..guide.values.figures import Figure
from .inline import Place, figure_target, href

WIDTH = 320
_LEFT, _RIGHT = 10, 310
_FONT = 13

# Advance widths of a common sans serif in thousandths of the font size; `textLength` makes the estimate exact.
_NARROW = dict.fromkeys("iljI.,:;'| ", 290) | dict.fromkeys("rtf()[]-", 380)
_WIDE = dict.fromkeys("mwMW%", 860) | dict.fromkeys("ABCDEFGHKLNOPQRSTUVXYZ", 690)


def text_width(text: str, size: float = _FONT) -> float:
    """Width that a text is given, in the drawing's units."""
    return sum(_NARROW.get(char) or _WIDE.get(char) or 560 for char in text) * size / 1000


class Scale:
    """Values of a plot to places across the drawing."""

    def __init__(self, plot: Plot) -> None:
        self._is_log = plot.is_log
        self._low = self._inner(plot.scale_low)
        self._high = self._inner(plot.scale_high)

    def _inner(self, value: float) -> float:
        return math.log(value) if self._is_log else value

    def x(self, value: float) -> float:
        """The place of a value, kept inside the rail."""
        span = self._high - self._low or 1.0
        share = (self._inner(value) - self._low) / span
        return round(_LEFT + (_RIGHT - _LEFT) * min(1.0, max(0.0, share)), 1)

    def is_inside(self, value: float) -> bool:
        """False where the band runs off the rail."""
        inner = self._inner(value)
        return self._low - 1e-9 <= inner <= self._high + 1e-9


def plot_svg(plot: Plot, place: Place, mark: str) -> str:
    """The drawing with title and description; the mark of a demonstration stands in it, since pictures travel alone."""
    if plot.kind == "icons":
        return _icons(plot, mark)
    scale = Scale(plot)
    rows: list[str] = []
    rails, same = "", ""
    y = 6 + _BASELINE
    for row in plot.rows:
        drawn, rail = _row(row, plot, scale, place)
        kind = "row faded" if row.is_faded else "row"
        # Each row counts from its first line of text: equal rows are equal text, which a host compresses away.
        rows.append(f'<g class="{kind}" transform="translate(0 {y})">{drawn}</g>')
        rails += f"M{_LEFT} {y + rail}H{_RIGHT}"
        if plot.reference is not None:
            # Beside the rails alone: a line through the whole drawing would strike out numbers.
            same += f"M{scale.x(plot.reference)} {y + rail - 8}v20"
        y += rail + 14 + _BASELINE
    rows.insert(0, f'<path class="rail" d="{rails}"/>' + (f'<path class="same" d="{same}"/>' if same else ""))
    bottom = y - _BASELINE + 4
    axis, height = _axis(plot, scale, bottom)
    total = bottom + height
    if mark:
        axis += f'<text class="invented" x="{_LEFT}" y="{total + 10:g}">{escape(mark)}</text>'
        total += 16
    return f"{_opening(plot, total)}\n" + "\n".join(rows) + f"\n{axis}\n</svg>"


def _opening(plot: Plot, height: float) -> str:
    """The drawing's first lines. Where rows hold links it is a group: inside one picture nothing can be reached."""
    role = "img" if plot.kind == "icons" else "group"
    return (
        f'<svg viewBox="0 0 {WIDTH} {height:g}" role="{role}" aria-labelledby="{plot.anchor}-title" '
        f'aria-describedby="{plot.anchor}-says" xmlns="http://www.w3.org/2000/svg">\n'
        f'<title id="{plot.anchor}-title">{escape(plot.title)}</title>'
    )


_BASELINE = 13
"""Of the first line of text, below the top of its row."""


def _row(row: PlotRow, plot: Plot, scale: Scale, place: Place) -> tuple[str, int]:
    """What is drawn of one row beside its rail, and where that lies below the row's first line of text."""
    label = plain_text(row.label)
    figures = plain_text(row.figures)
    fits = text_width(label) + text_width(figures) + 12 <= _RIGHT - _LEFT
    lines = _wrapped(label) if text_width(label) > _RIGHT - _LEFT else [row.label]
    out = [_text(text, _LEFT, 17 * index, place) for index, text in enumerate(lines)]
    text_end = 17 * (len(lines) - 1)
    if figures:
        if not fits:
            text_end += 17
        out.append(_text(row.figures, _RIGHT - text_width(figures), text_end, place))
    rail = text_end + 15
    out.append(_direction_mark(row, rail) if plot.kind == "direction" else _mark(row, scale, rail))
    return "".join(out), rail


def _wrapped(label: str) -> list[Line]:
    """A label longer than the drawing is wide, in as many lines as its words need."""
    lines = [""]
    for word in label.split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and text_width(longer) > _RIGHT - _LEFT:
            lines.append(word)
        else:
            lines[-1] = longer
    return [(text,) for text in lines]


def _text(line: Line, x: float, y: float, place: Place) -> str:
    """A line of text, each figure an element of its own, placed by widths that `textLength` makes true. Figures of one
    passage that follow one another share a link, with the words between them."""
    out = []
    parts = _flat(line)
    targets = [figure_target(part) if isinstance(part, Figure) else "" for part in parts]
    for index, part in enumerate(parts):
        text = part.text if isinstance(part, Figure) else part
        width = text_width(text)
        place_of = _placed(x, y, width)
        if isinstance(part, Figure):
            target = targets[index]
            if target != _beside(targets[:index][::-1]):
                out.append(f'<a href="{escape(href(target, place))}">')
            out.append(
                f'<text class="figure" data-figure="{escape(part.id)}" {place_of}>{escape(text, quote=False)}</text>'
            )
            if target != _beside(targets[index + 1 :]):
                out.append("</a>")
        elif text.strip():
            kind = ' class="words"' if any(char.isdigit() for char in text) else ""
            # Blanks at the ends count for the places of what stands beside them, and not for the words.
            before = text_width(text[: len(text) - len(text.lstrip())])
            place_of = _placed(x + before, y, text_width(text.strip()))
            out.append(f"<text{kind} {place_of}>{escape(text.strip(), quote=False)}</text>")
        x += width
    return "".join(out)


def _beside(targets: list[str]) -> str:
    """Where the next figure leads, from its side of the line; "" where there is none."""
    return next((target for target in targets[:2] if target), "")


def _placed(x: float, y: float, width: float) -> str:
    down = f' y="{y:g}"' if y else ""
    return f'x="{x:.0f}"{down} textLength="{width:.0f}"'


def _flat(line: Line) -> list[str | Figure]:
    """Figures, and the words between them as one text each."""
    out: list[str | Figure] = []
    for part in line:
        inner: list[str | Figure]
        if isinstance(part, (str, Figure)):
            inner = [part]
        else:
            inner = [part.text] if isinstance(part, Marked) else _flat(part.line)
        for item in inner:
            if isinstance(item, str) and out and isinstance(out[-1], str):
                out[-1] += item
            else:
                out.append(item)
    return out


def _mark(row: PlotRow, scale: Scale, rail: float) -> str:
    """A band for the interval or span, a notch for the point; open ends run off the rail."""
    out = []
    if row.low is not None and row.high is not None:
        low, high = scale.x(row.low), scale.x(row.high)
        if row.shape == "gap":
            return f'<path class="unstated" d="M{low} {rail}H{high}"/>'
        if row.shape == "prediction":
            # Lines with ends and no band: where a further study may lie is told from an interval by its shape.
            out.append(f'<path class="beyond" d="M{low} {rail - 5}v10m0-5H{high}m0-5v10"/>')
        else:
            width = max(high - low, 8.0 if row.shape == "span" else 1.5)
            left = min(low, high - width) if high - low < width else low
            kind = f"band {row.shape or 'point'}"
            out.append(f'<rect class="{kind}" x="{left:g}" y="{rail - 4}" width="{width:.1f}" height="8" rx="4"/>')
        if not scale.is_inside(row.high):
            out.append(f'<path class="beyond" d="M{_RIGHT} {rail - 6:g}l6 6l-6 6"/>')
        if not scale.is_inside(row.low):
            out.append(f'<path class="beyond" d="M{_LEFT} {rail - 6:g}l-6 6l6 6"/>')
    if row.point is not None:
        x = scale.x(row.point)
        fill = "notch filled" if row.is_filled else "notch"
        half = 2 + row.size * 0.7
        out.append(
            f'<rect class="{fill}" x="{x - half:.1f}" y="{rail - 9:g}" width="{2 * half:.1f}" height="18" rx="1.5"/>'
        )
    if row.tick is not None:
        x = scale.x(row.tick)
        out.append(f'<line class="tick" x1="{x}" x2="{x}" y1="{rail - 7:g}" y2="{rail + 7:g}"/>')
    return "".join(out)


def _direction_mark(row: PlotRow, rail: float) -> str:
    """A half disc above the rail for better, below for worse, a lozenge-free bar on it for no clear difference."""
    radius = 7 + 2 * row.size
    fill = "side filled" if row.is_filled else "side"
    x = (_LEFT + _RIGHT) / 2
    if row.shape == "better":
        return f'<path class="{fill}" d="M{x - radius:g} {rail:g}a{radius} {radius} 0 0 1 {2 * radius} 0z"/>'
    if row.shape == "worse":
        return f'<path class="{fill}" d="M{x - radius:g} {rail:g}a{radius} {radius} 0 0 0 {2 * radius} 0z"/>'
    if row.shape == "level":
        return f'<rect class="{fill}" x="{x - radius:g}" y="{rail - 3:g}" width="{2 * radius}" height="6" rx="3"/>'
    return f'<line class="unstated" x1="{x - radius:g}" x2="{x + radius:g}" y1="{rail:g}" y2="{rail:g}"/>'


def _axis(plot: Plot, scale: Scale, y: float) -> tuple[str, int]:
    if plot.kind == "direction" or not plot.ticks:
        return "", 0
    out = [f'<line class="axis" x1="{_LEFT}" x2="{_RIGHT}" y1="{y:g}" y2="{y:g}"/>']
    for value, label in plot.ticks:
        x = scale.x(value)
        anchor = "start" if x < _LEFT + 12 else "end" if x > _RIGHT - 12 else "middle"
        out.append(f'<line class="axis" x1="{x}" x2="{x}" y1="{y:g}" y2="{y + 4:g}"/>')
        out.append(f'<text class="scale" x="{x}" y="{y + 17:g}" text-anchor="{anchor}">{escape(label)}</text>')
    out.append(f'<text class="axis-name" x="{_LEFT}" y="{y + 33:g}">{escape(plot.axis)}</text>')
    return "".join(out), 38


def _icons(plot: Plot, mark: str) -> str:
    """One small mark a unit, ten in a row, those with the outcome first and filled."""
    total = round(plot.scale_high)
    filled = round(plot.rows[0].point or 0)
    step = 28
    rows = math.ceil(total / 10)
    name = f"{plot.anchor}-unit"
    out = []
    for kind, numbers in (("unit filled", range(filled)), ("unit", range(filled, total))):
        places = ((14 + (index % 10) * step, 8 + (index // 10) * step) for index in numbers)
        uses = "".join(f'<use href="#{name}" x="{x}" y="{y}"/>' for x, y in places)
        if uses:
            out.append(f'<g class="{kind}">{uses}</g>')
    height = 8 + rows * step
    said = ""
    if mark:
        said = f'<text class="invented" x="14" y="{height + 12}">{escape(mark)}</text>'
        height += 18
    return f"{_opening(plot, height)}\n{_symbol(plot, name)}\n" + "\n".join(out) + f"\n{said}</svg>"


_MARK_WIDTH, _MARK_HEIGHT = 18, 21


def _symbol(plot: Plot, name: str) -> str:
    """What is drawn of one unit, once for all of them: the evidence's own drawing, or a plain shape."""
    size = f'width="{_MARK_WIDTH}" height="{_MARK_HEIGHT}"'
    if plot.mark is None:
        return f'<defs><rect id="{name}" {size} rx="5"/></defs>'
    shapes = re.sub(r' id="[^"]*"', "", plot.mark.shapes)
    frame = f'viewBox="{escape(plot.mark.view_box)}" {size} overflow="visible"'
    return f'<defs><symbol id="{name}" {frame}>{shapes}</symbol></defs>'
