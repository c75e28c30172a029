"""Plots as pictures of a slide: as large as their place, their letters as large as its text, and crisp."""

from __future__ import annotations

from ...records import NamedTuple
from ...results.values.document import StudyRows
from ...results.values.drawings import TimePlot
from ...results.values.plots import PlotToTake
from ...results.values.talk import Plot
from ..drawings.png import png
from ..drawings.standalone import MARK, Drawing, Layout, drawing, words_of
from ..faces import PRINT
from .fitting import SIZES, SMALLEST, Box

# A slide of 960 points is shown on 1280 pixels or more: half as many again as points are sharp there.
_PIXELS_A_POINT = 1.5

# Studies that may have room at their least height, and pictures of one plot (house rule).
_ROWS = 6
_MOST = 4


class Picture(NamedTuple):
    """A drawing as PNG."""

    png: bytes
    width: float
    height: float
    """Points."""
    plot: Plot
    """What is drawn."""
    is_whole: bool
    """False where some studies found no room on it, nor on another; the notes have them all."""


def pictures_of(plot: Plot, box: Box, *, is_demonstration: bool) -> list[Picture]:
    """The plot at the size of its place, in as many pictures as its studies need; none where not one has room."""
    if not isinstance(plot, StudyRows):
        # How its marks are read is told to whoever does not see it, and in the notes.
        shown: TimePlot | None = plot._replace(finding=())
        while shown is not None:
            made = _drawing(shown, box.width, is_demonstration)
            if made.height <= box.height:
                return [_picture(made, plot, is_whole=len(shown.spans) == len(plot.spans))]
            shown = shown._replace(spans=shown.spans[:-1]) if shown.spans else None
        return []
    out: list[Picture] = []
    rows = plot.rows
    while rows and len(out) < _MOST:
        number = min(len(rows), _ROWS)
        while number:
            part = plot._replace(rows=rows[:number])
            made = _drawing(part, box.width, is_demonstration)
            if made.height <= box.height:
                break
            number -= 1
        if not number:
            break
        rows = rows[number:]
        out.append(_picture(made, part, is_whole=len(out) + 1 < _MOST or not rows))
    return out


def _picture(made: Drawing, plot: Plot, *, is_whole: bool) -> Picture:
    return Picture(png(made.svg, round(_PIXELS_A_POINT * made.width)), made.width, made.height, plot, is_whole)


def _drawing(plot: Plot, width: float, is_demonstration: bool) -> Drawing:
    text = SIZES[""][0] if isinstance(plot, StudyRows) else SMALLEST
    layout = Layout(width, 0, text, SMALLEST, False, "", 4)
    return drawing(PlotToTake("", (), plot, (), (), ""), MARK if is_demonstration else "", layout, PRINT)


def says_of(plot: Plot, title: str) -> str:
    """What a plot shows, for whoever hears the slide."""
    lead = title if isinstance(plot, StudyRows) else plot.title
    return f"{lead}. {words_of(plot)}"
