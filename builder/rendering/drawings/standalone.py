"""A plot by itself as SVG of a fixed width, which needs no page around it; for a slide the same without its caption."""

from __future__ import annotations

from html import escape

from ...records import NamedTuple
from ...results.values.document import StudyRow, StudyRows
from ...results.values.drawings import TimePlot
from ...results.values.line import line, plain_text, typed
from ...results.values.plots import PlotToTake
from ..faces import SCREEN, SIZE, Face
from ..study_rows import ends_inside, row_inside, ticks_inside
from ..time_plot import time_plot_inside
from .set_lines import Run, broken, runs_of, set_svg

# The light colours of theme/stylesheets/tokens.css; a test compares them.
PAPER, TINT, LINE, INK, SOFT = "#fbfaf5", "#efece0", "#bdb9ab", "#20242e", "#555b68"


class Layout(NamedTuple):
    """How large a drawing and its words are; a unit is a pixel of a screen, or a point of a slide."""

    width: float
    title: float
    """Font size of the title; 0 where it has none."""
    text: float
    small: float
    """Font size of the caption, and of the words below each row; 0 where no row has any."""
    is_captioned: bool
    """True where caption and citation stand below."""
    paper: str
    """Colour behind it; "" for none."""
    edge: float


ALONE = Layout(760, 20, 15, 13, True, PAPER, 20)
"""A file to take along."""
SLIDE = Layout(880, 0, 20, 18, False, "", 4)
"""A picture on a slide, its letters in points of 880 across: no smaller than 18 points."""
SHEET = Layout(504, 0, 9, 0, False, "", 1)
"""A picture on a sheet of paper (A4) as wide as its text, in points; the words of each row stand in a table there."""

MARK = "invented for demonstration"


class Drawing(NamedTuple):
    """A drawing by itself."""

    svg: str
    width: float
    height: float
    says: str
    """What it shows, in words: for whoever does not see it."""


def drawing(
    plot: PlotToTake, mark: str, layout: Layout = ALONE, face: Face = SCREEN, at_most: int | None = None
) -> Drawing:
    """The whole drawing.

    mark: of a demonstration, "" without. at_most: so many rows are drawn, where there are more.
    """
    drawn = plot.drawn
    if isinstance(drawn, StudyRows) and at_most is not None:
        drawn = drawn._replace(rows=drawn.rows[:at_most])
    sheet = _Sheet(layout, face)
    if layout.title:
        sheet.write(runs_of(plot.title, is_bold=True), layout.title)
        sheet.skip(4)
    if isinstance(drawn, StudyRows):
        _rows(sheet, drawn)
    else:
        _over_time(sheet, drawn)
    if layout.is_captioned:
        sheet.skip(10)
        for said in filter(None, (*plot.caption, plot.read)):
            sheet.write(runs_of(said), layout.small)
            sheet.skip(3)
        sheet.skip(3)
        sheet.write(runs_of(plot.citation), layout.small, "quiet")
    if mark:
        sheet.skip(2)
        sheet.write((Run(mark),), layout.small or layout.text, "invented")
    says = f"{plain_text(plot.title)}. {words_of(drawn)}" + (f" ({mark})" if mark else "")
    return Drawing(_whole(sheet, says, plain_text(plot.title)), layout.width, sheet.y + layout.edge, says)


def words_of(drawn: StudyRows | TimePlot) -> str:
    """What a plot shows, row by row."""
    if isinstance(drawn, StudyRows):
        rows = (f"{row.name}, {plain_text(row.first)}: {plain_text(row.said)}" for row in drawn.rows)
        return f"{plain_text(drawn.caption)}. " + "; ".join(rows) + "."
    said = [plain_text(drawn.finding)]
    said.extend(f"{plain_text(span.label)} when last seen." for span in drawn.spans)
    return " ".join(said)


class _Sheet:
    """What is drawn so far, from the top."""

    def __init__(self, layout: Layout, face: Face) -> None:
        self.layout, self.face = layout, face
        self.y = layout.edge
        self.parts: list[str] = []

    @property
    def inner(self) -> float:
        """Width between the edges."""
        return self.layout.width - 2 * self.layout.edge

    def skip(self, height: float) -> None:
        self.y += height

    def write(self, runs: tuple[Run, ...], size: float, kind: str = "", width: float = 0) -> None:
        """A paragraph from the left edge, in as many lines as it needs."""
        for set_line in broken(runs, width or self.inner, size, self.face):
            self.y += 1.3 * size
            self.parts.append(set_svg(set_line, self.layout.edge, self.y - 0.3 * size, size, self.face, kind))

    def place(self, inside: str, x: float, width: float, height: float) -> float:
        """Marks made for a page, whose words have `SIZE`, at the size of the words here; gives how high they are.

        height: in units of a page.
        """
        scale = self.layout.text / SIZE
        self.parts.append(
            f'<svg x="{x:g}" y="{self.y:g}" width="{width:g}" height="{height * scale:g}" '
            f'viewBox="0 0 {width / scale:g} {height:g}" font-size="{SIZE:g}">{inside}</svg>'
        )
        return height * scale


# An upright as rows.css has it, for whoever reads no style sheet.
_BOX = ' width="6" height="100%" transform="translate(-3)"'
# Of the width, what the names and counts have.
_NAMES = 0.54


def _rows(sheet: _Sheet, block: StudyRows) -> None:
    layout, scale = sheet.layout, block.scale
    sheet.write(runs_of(block.caption), layout.text, "quiet")
    left = sheet.inner * (_NAMES if scale is not None else 1)
    x, width = layout.edge + left + 12, sheet.inner - left - 24
    if scale is not None and any(scale.ends):
        sheet.skip(4)
        sheet.skip(sheet.place(ends_inside(scale, _BOX), x, width, 18))
    for row in block.rows:
        at = f'y1="{sheet.y:g}" x2="{layout.width - layout.edge:g}" y2="{sheet.y:g}"'
        sheet.parts.append(f'<line class="axis" x1="{layout.edge:g}" {at}/>')
        sheet.skip(3)
        top = sheet.y
        _words_of_row(sheet, row, left)
        sheet.skip(5)
        inside = row_inside(row, scale, _BOX) if scale is not None else ""
        if inside:
            bottom = sheet.y
            sheet.y = top + (bottom - top - 17 * layout.text / SIZE) / 2 - 1
            sheet.place(inside, x, width, 17)
            sheet.y = bottom
    if scale is not None and scale.ticks:
        margins = tuple(dict.fromkeys(margin for row in block.rows for margin in row.margins))
        axis = f'<text class="scale" x="100%" y="30" text-anchor="end">{escape(scale.axis, quote=False)}</text>'
        sheet.skip(sheet.place(ticks_inside(scale, margins) + axis, x, width, 36))


def _words_of_row(sheet: _Sheet, row: StudyRow, width: float) -> None:
    name = runs_of(line(typed(row.name, "reference")), is_bold=True)
    sheet.write((*name, Run("  "), *runs_of(row.first)), sheet.layout.text, width=width)
    if sheet.layout.small:
        sheet.write(runs_of(row.said), sheet.layout.small, "said", width)


def _over_time(sheet: _Sheet, plot: TimePlot) -> None:
    inside, height = time_plot_inside(plot, None, "", sheet.face)
    sheet.skip(6)
    sheet.skip(sheet.place(inside, sheet.layout.edge, sheet.inner, height))
    sheet.write(runs_of(plot.finding), sheet.layout.small or sheet.layout.text, "quiet")


def _whole(sheet: _Sheet, says: str, title: str) -> str:
    layout = sheet.layout
    width, height = f"{layout.width:g}", f"{sheet.y + layout.edge:g}"
    paper = f'<rect width="{width}" height="{height}" fill="{layout.paper}"/>\n' if layout.paper else ""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" viewBox="0 0 {width} {height}" '
        f'role="img" aria-labelledby="title says" font-family="{escape(sheet.face.family)}">\n'
        f'<title id="title">{escape(title)}</title>\n<desc id="says">{escape(says)}</desc>\n'
        f"<style>{_style(layout.paper or '#fff')}</style>\n{paper}" + "\n".join(sheet.parts) + "\n</svg>\n"
    )


def _style(paper: str) -> str:
    return (
        f"svg{{overflow:visible}}text{{fill:{INK}}}.quiet,.scale,.invented{{fill:{SOFT}}}.invented{{font-style:italic}}"
        f".strong{{font-weight:bold}}line{{stroke:{INK};stroke-width:3}}.axis{{stroke:{LINE};stroke-width:1}}"
        f".broken{{stroke-dasharray:3}}.notch,.beyond{{fill:{paper};stroke:{INK};stroke-width:2}}"
        f".beyond{{fill:none}}.filled,circle{{fill:{INK}}}.unknown{{fill:{TINT}}}.same{{fill:{TINT};stroke:{SOFT}}}"
    )
