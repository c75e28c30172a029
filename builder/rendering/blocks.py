"""Blocks of a page become HTML, one function a kind of block; nothing is chosen or computed here."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from html import escape
from typing import Any

from ..numerals import FORMAT_1, Unit as CountedUnit
from ..reading.slugs import slug
from ..results.values.document import (
    AdviceList,
    Blocks,
    Details,
    Facts,
    Filter,
    Items,
    Paragraph,
    PassageText,
    Raw,
    RecallForm,
    Section,
    Sheet,
    Situation,
    StudyRows,
    Table,
    WorkingsSection,
    walk,
)
from ..results.values.drawings import Icons, TimePlot
from ..results.values.figures import Figure
from ..results.values.line import Line, Span, above_and_below, joined, plain_text
from .advice import advice_html
from .icons import icons_html
from .inline import Place, line_html, marked_html, typed_html
from .passages import passage_html
from .recall import recall_html
from .situation import situation_html
from .study_rows import study_rows_html
from .time_plot import time_plot_html
from .workings import workings_html

INVENTED = "invented for demonstration"


class Setting:
    """What all blocks of one page share."""

    def __init__(
        self,
        place: Place,
        is_demonstration: bool,
        decode: Callable[[str], str],
        units: Mapping[str, CountedUnit] = FORMAT_1.units,
    ) -> None:
        self.place = place
        self.is_demonstration = is_demonstration
        self.decode = decode
        """Turns BibTeX's own notation into readable text; handed in, because nothing here knows BibTeX."""
        self.units = units
        """What is counted, by id: the words behind a number."""
        self.depth = 2
        """The level of the next heading."""
        self.is_marked = False
        """True inside something that carries the mark of a demonstration once for all it holds."""

    def invented(self) -> str:
        """The mark that travels with every answer, table, plot and sheet of a demonstration."""
        return f' <span class="invented">{INVENTED}</span>' if self.is_demonstration else ""

    def invented_line(self) -> str:
        """The same as a line of its own."""
        return f'\n<p class="mark invented">{INVENTED}</p>' if self.is_demonstration else ""


def blocks_html(blocks: Blocks, setting: Setting) -> str:
    """All blocks, one below the other."""
    return "\n".join(_PRINTERS[type(block)](block, setting) for block in blocks)


def _class(kind: str) -> str:
    return f' class="{kind}"' if kind else ""


def _paragraph(block: Paragraph, setting: Setting) -> str:
    mark = setting.invented() if block.kind == "answer" else ""
    said, below = above_and_below(block.line)
    inner = f"{line_html(said, setting.place)}{mark}{line_html(below, setting.place)}"
    if block.kind == "if-answered":
        return f'<p data-of="{escape(block.of)}" hidden>{inner}</p>'
    own = f' data-own="{escape(block.of)}"' if block.of else ""
    return f"<p{_class(block.kind)}{own}>{inner}</p>"


def _is_blocks(item: Any) -> bool:
    return bool(item) and all(type(part) in _PRINTERS for part in item)


def _items(block: Items, setting: Setting) -> str:
    tag = "ol" if block.ordered else "ul"
    rows = []
    for item in block.items:
        if _is_blocks(item):
            rows.append(f"<li>{blocks_html(item, setting)}</li>")  # type: ignore[arg-type]
        else:
            rows.append(f"<li>{line_html(item, setting.place)}</li>")  # type: ignore[arg-type]
    return f"<{tag}{_class(block.kind)}>\n" + "\n".join(rows) + f"\n</{tag}>"


def _facts(block: Facts, setting: Setting) -> str:
    anchors = [f' id="{escape(anchor)}"' for anchor in block.anchors] or [""] * len(block.rows)
    rows = "\n".join(
        f"<dt{anchor}>{line_html(term, setting.place)}</dt><dd>{line_html(said, setting.place)}</dd>"
        for anchor, (term, said) in zip(anchors, block.rows, strict=True)
    )
    return f"<dl{_class(block.kind)}>\n{rows}\n</dl>"


def _table(block: Table, setting: Setting) -> str:
    place = setting.place
    block = _said_once(block)
    head = "".join(f'<th scope="col">{line_html(cell, place)}</th>' for cell in block.header)
    names = [_column_name(cell) for cell in block.header]
    rows = []
    for row in block.rows:
        first = f'<th scope="row">{line_html(row[0], place)}</th>'
        rest = "".join(
            f'<td{span} data-column="{escape(", ".join(names[start : start + wide]))}">{line_html(cell, place)}</td>'
            for start, wide, cell in _cells(block, row)
            for span in (f' colspan="{wide}"' if wide > 1 else "",)
        )
        rows.append(f"<tr>{first}{rest}</tr>")
    label = escape(block.label)
    return (
        f'<div class="table-box" role="region" aria-label="{label}" tabindex="0">'
        f'<table class="{block.kind or "plain"}">\n'
        f"<caption>{line_html(block.caption, place)}{setting.invented()}</caption>\n"
        f"<thead><tr>{head}</tr></thead>\n<tbody>\n" + "\n".join(rows) + "\n</tbody></table></div>"
    )


def _cells(block: Table, row: tuple[Line, ...]) -> list[tuple[int, int, Line]]:
    """The cells behind the first: under which column each begins, over how many it stands, and what it says."""
    out: list[tuple[int, int, Line]] = []
    for index, cell in enumerate(row[1:], start=1):
        if block.joins and out and out[-1][2] == cell and _is_said(cell):
            start, wide, _ = out.pop()
            out.append((start, wide + 1, cell))
        else:
            out.append((index, 1, cell))
    return out


# House rule: in so many rows or more, what every one of them says stands above the table, and not in each.
_MANY_ROWS = 3


def _said_once(block: Table) -> Table:
    """The table without the columns that say the same in every row: its caption says them, after their names.

    A figure stays in its row: the time of a rate is never read apart from it.
    """
    if len(block.rows) < _MANY_ROWS:
        return block
    columns = range(len(block.header))
    first, *others = block.rows
    same = [
        index for index in columns[1:] if all(row[index] == first[index] for row in others) and _is_said(first[index])
    ]
    kept = [index for index in columns if index not in same]
    if not same or len(kept) < 2:
        return block
    said = joined([(*block.header[index], ": ", *block.rows[0][index]) for index in same])
    return block._replace(
        caption=(*block.caption, Span("in-each", (". In each row: ", *said))),
        header=tuple(block.header[index] for index in kept),
        rows=tuple(tuple(row[index] for index in kept) for row in block.rows),
    )


def _is_said(cell: Line) -> bool:
    return bool(plain_text(cell).strip()) and not any(isinstance(item, Figure) for item in walk(cell))


def _column_name(cell: Line) -> str:
    return "".join(part for part in cell if isinstance(part, str))


def _section(block: Section, setting: Setting) -> str:
    level = min(setting.depth, 6)
    setting.depth += 1
    inner = blocks_html(block.blocks, setting)
    setting.depth -= 1
    kind = _class(block.kind)
    heading = f'<h{level} id="{escape(block.anchor)}">{typed_html(block.title)}</h{level}>'
    return f"<section{kind}>\n{heading}\n{inner}\n</section>"


# What is closed and yet heads a part of its page.
_HEADED = frozenset({"way", "to-print", "part", "danger", "claim", "screen"})


# Of these one picture of the screen shows no more than the thing itself.
_MARKED_BELOW = frozenset({"way", "danger", "claim"})


def _details(block: Details, setting: Setting) -> str:
    is_open = " open" if block.is_open else ""
    anchor = f' id="{escape(block.anchor)}"' if block.anchor else ""
    if block.group:
        anchor += f' name="{escape(block.group)}"'
    summary = typed_html(block.summary)
    mark = ""
    if block.kind in _HEADED:
        level = min(setting.depth, 6)
        summary = f"<h{level}>{summary}</h{level}>"
        setting.depth += 1
    if block.locator:
        summary += f" ({marked_html('locator', block.locator)})"
    if block.kind in _MARKED_BELOW:
        mark = setting.invented_line()
    inner = _marked_once(block.blocks, setting) if mark else blocks_html(block.blocks, setting)
    if block.kind in _HEADED:
        setting.depth -= 1
    return f"<details{_class(block.kind)}{anchor}{is_open}><summary>{summary}</summary>\n{inner}{mark}\n</details>"


def _marked_once(blocks: Blocks, setting: Setting) -> str:
    """Blocks of something that says itself that it is invented."""
    before, setting.is_marked = setting.is_marked, True
    inner = blocks_html(blocks, setting)
    setting.is_marked = before
    return inner


def _advice(block: AdviceList, setting: Setting) -> str:
    return advice_html(block, setting.place, "" if setting.is_marked else setting.invented())


def _passage(block: PassageText, setting: Setting) -> str:
    return passage_html(block, setting.decode)


def _icons(block: Icons, setting: Setting) -> str:
    return icons_html(block, setting.place, INVENTED if setting.is_demonstration else "")


def _time_plot(block: TimePlot, setting: Setting) -> str:
    return time_plot_html(block, setting.place, INVENTED if setting.is_demonstration else "")


def _study_rows(block: StudyRows, setting: Setting) -> str:
    return study_rows_html(block, setting.place, setting.invented(), lambda opened: blocks_html(opened, setting))


def _workings(block: WorkingsSection, setting: Setting) -> str:
    return workings_html(block, setting.place, setting.units)


def _raw(block: Raw, setting: Setting) -> str:
    # Python-Markdown ends a block of HTML at nothing but its closing tag, so blank lines may stay in a <pre>.
    text = escape(block.text, quote=False)
    return (
        f'<div class="raw" role="region" aria-label="{escape(block.label)}" tabindex="0">'
        f'<pre class="reference">{text}</pre></div>'
    )


_FOR_PATIENTS = frozenset({"before", "chair", "afterwards"})


def _sheet(block: Sheet, setting: Setting) -> str:
    setting.depth += 1
    inner = _marked_once(block.blocks, setting)
    setting.depth -= 1
    level = min(setting.depth, 6)
    label = re.sub(r"\d", "", block.title)
    anchor = f' id="{slug(block.title)}"' if block.kind in _FOR_PATIENTS else ""
    is_invented = setting.is_demonstration and block.kind in _FOR_PATIENTS
    across = '<p class="across">not for use with a patient</p>' if is_invented else ""
    return (
        f'<article class="sheet {block.kind}"{anchor} aria-label="{escape(label)}">\n'
        f"<h{level}>{typed_html(block.title)}</h{level}>\n{across}{inner}{setting.invented_line()}\n</article>"
    )


def _filter(block: Filter, setting: Setting) -> str:
    words = "".join(
        f'<button type="button" data-word="{escape(word)}" aria-pressed="false">{typed_html(word)}</button>'
        for word in block.words
    )
    return f'<div class="filter" role="group" aria-label="{escape(block.label)}" hidden>{words}</div>'


def _situation(block: Situation, setting: Setting) -> str:
    return situation_html(block, setting.invented(), min(setting.depth, 6), lambda known: blocks_html(known, setting))


def _recall(block: RecallForm, setting: Setting) -> str:
    return recall_html(block, INVENTED if setting.is_demonstration else "", min(setting.depth, 6))


_PRINTERS: dict[type, Callable[[Any, Setting], str]] = {
    Paragraph: _paragraph,
    Items: _items,
    Facts: _facts,
    Table: _table,
    Section: _section,
    Details: _details,
    AdviceList: _advice,
    PassageText: _passage,
    Icons: _icons,
    TimePlot: _time_plot,
    StudyRows: _study_rows,
    WorkingsSection: _workings,
    Raw: _raw,
    Sheet: _sheet,
    Filter: _filter,
    Situation: _situation,
    RecallForm: _recall,
}
