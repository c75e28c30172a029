"""One row a study: its name and figures, below them words and a thin bar with an upright on one scale for all.

Places are shares of the width and heights those of the text, so that a row grows with what its reader sets.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from html import escape

from ..results.values.document import Blocks, StudyRow, StudyRows
from ..results.values.drawings import StudyScale
from .inline import Place, line_html, typed_html


def study_rows_html(block: StudyRows, place: Place, mark: str, blocks_html: Callable[[Blocks], str]) -> str:
    """The list with its caption, which carries the mark of a demonstration. blocks_html: prints what a tap opens."""
    scale = block.scale
    head = _ends(scale) if scale is not None and any(scale.ends) else ""
    margins = dict.fromkeys(margin for row in block.rows for margin in row.margins)
    foot = _ticks(scale, tuple(margins)) if scale is not None and scale.ticks else ""
    rows = "\n".join(_row(row, scale, place, blocks_html) for row in block.rows)
    caption = f'<p class="quiet">{line_html(block.caption, place)}{mark}</p>'
    return (
        f'<div class="studies">\n{caption}\n{head}<ul aria-label="{escape(block.label)}">\n{rows}\n</ul>{foot}\n</div>'
    )


def _row(row: StudyRow, scale: StudyScale | None, place: Place, blocks_html: Callable[[Blocks], str]) -> str:
    inside = row_inside(row, scale) if scale is not None else ""
    drawn = f'<svg aria-hidden="true">{inside}</svg>' if inside else ""
    if not row.opened:
        head = f"<b>{typed_html(row.name, 'reference')}</b>"
    else:
        summary = f'<summary class="reference">{escape(row.name, quote=False)}</summary>'
        head = f"<details>{summary}\n{blocks_html(row.opened)}\n</details>"
    second = drawn + line_html(row.said, place)
    below = f"<div>{second}</div>" if second else ""
    levels = f' data-levels="{escape(row.of)}"' if row.of else ""
    return f"<li{levels}>{head}<div>{line_html(row.first, place)}</div>{below}</li>"


def _share(value: float, scale: StudyScale) -> float:
    """A place on the scale as a share of its width, in per cent; below 0 or above 100 where it lies beyond."""
    low, high, at = scale.low, scale.high, value
    if scale.is_log:
        low, high, at = math.log(low), math.log(high), math.log(max(value, 1e-9))
    return 100 * (at - low) / ((high - low) or 1.0)


def _percent(share: float) -> str:
    return f"{min(100.0, max(0.0, share)):.1f}".removesuffix(".0") + "%"


def _none(scale: StudyScale, box: str = "") -> str:
    """The ruled strip of no difference, as high as its row."""
    return f'<rect class="same" x="{_percent(_share(scale.none, scale))}"{box}/>' if scale.none is not None else ""


def row_inside(row: StudyRow, scale: StudyScale, box: str = "") -> str:
    """The bar and the upright of one row. Its words and figures say the same, so that it is not heard.

    box: attributes of an upright where no style sheet says how wide and high it is.
    """
    out = [_none(scale, box)]
    if row.low is not None and row.high is not None:
        low, high = _share(row.low, scale), _share(row.high, scale)
        kind = ' class="broken"' if row.is_broken else ""
        out.append(f'<line{kind} x1="{_percent(low)}" y1="50%" x2="{_percent(high)}" y2="50%"/>')
        out.extend(
            f'<svg x="{at}"><path class="beyond" d="{way}"/></svg>'
            for at, way, is_beyond in (("0", "M7 3 2 8l5 5", low < -0.05), ("100%", "M-7 3-2 8l-5 5", high > 100.05))
            if is_beyond
        )
    out.extend(
        f'<svg x="{_percent(_share(margin, scale))}"><path class="beyond broken" d="M0 0v17"/></svg>'
        for margin in row.margins
    )
    if row.point is not None and -0.05 <= (at := _share(row.point, scale)) <= 100.05:
        out.append(_mark(row, _percent(at), box))
    return "".join(out)


def _mark(row: StudyRow, at: str, box: str) -> str:
    if row.shape == "dot":
        return f'<circle cx="{at}" cy="50%" r="4"/>'
    kind = "notch filled" if row.shape == "filled" else "notch"
    return f'<rect class="{kind}" x="{at}"{box}/>'


def _ends(scale: StudyScale) -> str:
    return f'<svg class="ends" aria-hidden="true">{ends_inside(scale)}</svg>\n'


def ends_inside(scale: StudyScale, box: str = "") -> str:
    """The words for either side, beside the strip. box: as for a row."""
    at = _percent(_share(scale.none, scale)) if scale.none is not None else "50%"
    less, more = (escape(word, quote=False) for word in scale.ends)
    return (
        f'{_none(scale, box)}<text x="{at}" y="13" dx="-8" text-anchor="end">{less}</text>'
        f'<text x="{at}" y="13" dx="8">{more}</text>'
    )


# Shares of the width in which the word of a margin has room, and in which the next tick has none.
_BESIDE, _NEAR = 30, 14


def _ticks(scale: StudyScale, margins: tuple[float, ...]) -> str:
    """The scale below the last row, with what it counts."""
    inside = ticks_inside(scale, margins)
    return f'\n<svg class="ends" aria-hidden="true">{inside}</svg><p class="ends">{escape(scale.axis)}</p>'


def ticks_inside(scale: StudyScale, margins: tuple[float, ...] = ()) -> str:
    """The labels of the scale; where a margin is drawn in a row, its word."""
    out = []
    none = _share(scale.none, scale) if scale.none is not None else 0.0
    held = sorted({round(_share(margin, scale), 3) for margin in margins})
    for share in held:
        anchor = "end" if share < none else "start"
        out.append(f'<text class="scale" x="{_percent(share)}" y="13" text-anchor="{anchor}">margin</text>')
    for value, label in scale.ticks:
        share = _share(value, scale)
        anchor = "start" if share < 4 else "end" if share > 96 else "middle"
        if share == none:
            # The word of a margin ends, or begins, where it lies; that of no difference gives way to the other side.
            near = [margin for margin in held if abs(margin - none) < _NEAR]
            anchor = anchor if len(near) != 1 else "start" if near[0] < none else "end"
        elif any(0 <= (margin - share if margin < none else share - margin) < _BESIDE for margin in held):
            continue
        out.append(f'<text class="scale" x="{_percent(share)}" y="13" text-anchor="{anchor}">{escape(label)}</text>')
    return "".join(out)
