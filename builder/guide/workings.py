"""Workings on the page that shows their figures, and the numbers behind them as one CSV a page."""

from __future__ import annotations

from collections.abc import Iterable

from .values.document import Page, Section, WorkingsSection, figures_of, walk
from .values.figures import Figure, FigureBook, Working
from .values.guide import WrittenPage

INVENTED = "invented for demonstration"

_HEADER = ("workings", "part", "what", "value", "unit", "figure", "computed_from")
Rows = tuple[tuple[str, ...], ...]


def with_workings(page: Page, book: FigureBook, note: str = "") -> Page:
    """The page with a section for the workings of every computed figure on it, and of what those were computed from.

    note: the mark of a demonstration, which goes into every CSV.
    """
    found = workings_behind(figures_of(page), book)
    if not found:
        return page
    shown = _with_numbers(found, f"data/workings/{page.address}numbers.csv", note)
    section = Section("Workings", "workings", (WorkingsSection(shown),), "workings-section")
    return page._replace(blocks=(*page.blocks, section))


def written_with_workings(page: WrittenPage, book: FigureBook, note: str = "") -> WrittenPage:
    """The same for a page that people wrote."""
    found = workings_behind((item for item in walk(page.parts) if isinstance(item, Figure)), book)
    address = page.path.removesuffix(".md")
    return page._replace(workings=_with_numbers(found, f"data/workings/{address}/numbers.csv", note))


def workings_behind(figures: Iterable[Figure], book: FigureBook) -> tuple[Working, ...]:
    """The workings of these figures, and of those they were computed from, each once."""
    found: dict[str, Working] = {}
    waiting = [figure.workings for figure in figures if not figure.is_quoted]
    while waiting:
        name = waiting.pop(0)
        if name in found:
            continue
        found[name] = book.working(name)
        shown = [*found[name].inputs, *(figure for _, figure in found[name].results)]
        waiting.extend(figure.workings for figure in shown if not figure.is_quoted)
    return tuple(found.values())


def _with_numbers(workings: tuple[Working, ...], download: str, note: str) -> tuple[Working, ...]:
    """Each with a CSV: a table of its own where it has one, else that of its page, in which its name finds it."""
    table = _noted(numbers_table(workings), note)
    return tuple(
        item._replace(
            results=_at_full_precision(item.results),
            table=_noted(item.table, note) if item.download else table,
            download=item.download or download,
        )
        for item in workings
    )


def _at_full_precision(results: tuple[tuple[str, Figure], ...]) -> tuple[tuple[str, Figure], ...]:
    """Without the rounded ones whose unrounded twin stands here too: the page shows those, and the CSV holds both."""
    held = {figure.id for _, figure in results}
    return tuple(item for item in results if f"{item[1].id}-unrounded" not in held)


def numbers_table(workings: Iterable[Working]) -> Rows:
    """Inputs, formula and results of each, one a row.

    A result that was computed from some of the inputs alone names their figures; one without names comes from all.
    """
    rows: list[tuple[str, ...]] = [_HEADER]
    for item in workings:
        every = tuple(figure.id for figure in item.inputs)
        for figure in item.inputs:
            rows.append((item.name, "input", figure.id.rpartition("/")[2], figure.value, figure.unit, figure.id, ""))
        for part in ("formula", "convention", "published"):
            text = getattr(item, part)
            if text:
                rows.append((item.name, part, text, "", "", "", ""))
        for says, figure in item.results:
            named = "" if figure.derived_from == every else " ".join(figure.derived_from)
            rows.append((item.name, "result", says or item.title, figure.value, figure.unit, figure.id, named))
    return tuple(rows)


def _noted(table: Rows, note: str) -> Rows:
    if not note or not table:
        return table
    return ((*table[0], "note"), *((*row, note) for row in table[1:]))
