"""Text inside a drawing and below it; inside, figures are linked elements in places that `textLength` makes true."""

from __future__ import annotations

from html import escape

from ..results.values.figures import Figure
from ..results.values.line import Line, Marked, plain_text
from .faces import SCREEN, Face
from .inline import Place, figure_target, href


def figure_box(anchor: str, drawing: str, says: str) -> str:
    """A drawing with what is said of it. says: HTML, which also describes it to whoever hears it."""
    name = escape(anchor)
    return f'<figure class="plot" id="{name}">\n{drawing}\n<figcaption id="{name}-says">{says}</figcaption>\n</figure>'


def line_svg(
    line: Line, place: Place | None, x: float = 0, y: float = 0, *, is_before: bool = False, face: Face = SCREEN
) -> str:
    """A line of text beginning at x, or ending there where it stands before what it names. Figures of one passage that
    follow one another share a link, with the words between them.

    place: None in a drawing that is taken along, from which nothing leads anywhere.
    """
    if is_before:
        x -= face.width(plain_text(line))
    out = []
    parts = _flat(line)
    is_linked = place is not None
    targets = [figure_target(part) if isinstance(part, Figure) and is_linked else "" for part in parts]
    for index, part in enumerate(parts):
        text = part.text if isinstance(part, Figure) else part
        width = face.width(text)
        place_of = _placed(x, y, width)
        if isinstance(part, Figure):
            target = targets[index]
            if place is not None and target != _beside(targets[:index][::-1]):
                out.append(f'<a href="{escape(href(target, place))}">')
            out.append(
                f'<text class="figure" data-figure="{escape(part.id)}" {place_of}>{escape(text, quote=False)}</text>'
            )
            if target != _beside(targets[index + 1 :]):
                out.append("</a>")
        elif text.strip():
            kind = ' class="words"' if any(char.isdigit() for char in text) else ""
            # Blanks at the ends count for the places of what stands beside them, and not for the words.
            before = face.width(text[: len(text) - len(text.lstrip())])
            place_of = _placed(x + before, y, face.width(text.strip()))
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
