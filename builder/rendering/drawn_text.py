"""Text inside a drawing and below it; inside, figures are linked elements in places that `textLength` makes true."""

from __future__ import annotations

from html import escape

from ..results.values.figures import Figure
from ..results.values.line import Line, Marked, plain_text
from .inline import Place, figure_target, href

_FONT = 13

# Advance widths of a common sans serif in thousandths of the font size; `textLength` makes the estimate exact.
_NARROW = dict.fromkeys("iljI.,:;'| ", 290) | dict.fromkeys("rtf()[]-", 380)
_WIDE = dict.fromkeys("mwMW%", 860) | dict.fromkeys("ABCDEFGHKLNOPQRSTUVXYZ", 690)


def text_width(text: str, size: float = _FONT) -> float:
    """Width that a text is given, in the drawing's units."""
    return sum(_NARROW.get(char) or _WIDE.get(char) or 560 for char in text) * size / 1000


def figure_box(anchor: str, drawing: str, says: str) -> str:
    """A drawing with what is said of it. says: HTML, which also describes it to whoever hears it."""
    name = escape(anchor)
    return f'<figure class="plot" id="{name}">\n{drawing}\n<figcaption id="{name}-says">{says}</figcaption>\n</figure>'


def line_svg(line: Line, place: Place, x: float = 0, y: float = 0, *, is_before: bool = False) -> str:
    """A line of text beginning at x, or ending there where it stands before what it names. Figures of one passage that
    follow one another share a link, with the words between them."""
    if is_before:
        x -= text_width(plain_text(line))
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
    return f'x="{x:.0f}" y="{y:g}" textLength="{width:.0f}"'


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
