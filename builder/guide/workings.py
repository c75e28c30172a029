"""Workings on the page that shows their figures, and the numbers behind them as one table a page."""

from __future__ import annotations

from collections.abc import Iterable, Set

from .values.document import Page, Section, WorkingsSection, walk
from .values.figures import Figure, FigureBook, Working
from .values.guide import Rows, WrittenPage

_HEADER = ("row", "workings", "part", "what", "value", "unit", "figure", "computed_from")


def with_workings(page: Page, workings: tuple[Working, ...]) -> Page:
    """The page with a section for these workings at its end; as it was where there are none."""
    if not workings:
        return page
    section = Section("Workings", "workings", (WorkingsSection(workings),), "workings-section")
    return page._replace(blocks=(*page.blocks, section))


def shown_workings(figures: Iterable[Figure], book: FigureBook, folder: str) -> tuple[Working, ...]:
    """The workings of every computed figure of a page, and of what those were computed from, each with its download:
    a table of its own where it has one, else that of its page, in which its name finds it.

    folder: where the page's own table stands below data/workings/, "" or "some-question/size/".
    """
    told = {figure.id: figure for figure in figures}
    # The page of a question is opened beside a chair: its further pages list the numbers behind its own.
    is_first = folder.count("/") == 1
    return tuple(
        _without_repeats(item._replace(download=item.download or _numbers(folder)), told.keys(), is_first=is_first)
        for item in workings_behind(told.values(), book)
    )


# House rule: so many numbers in one section of workings, and those that stand above it are not sent to a phone again.
_MANY_INPUTS, _MANY_RESULTS = 9, 5


def _without_repeats(working: Working, told: Set[str], *, is_first: bool) -> Working:
    """told: ids of the figures that the page shows without its workings; their download has them all."""
    inputs, results = working.inputs, working.results
    if len(inputs) >= _MANY_INPUTS:
        inputs = () if working.table or is_first else tuple(figure for figure in inputs if figure.id not in told)
    if working.is_each_told or is_first:
        results = tuple(pair for pair in results if pair[1].is_only_worked and not is_first)
    elif len(results) >= _MANY_RESULTS:
        results = tuple(pair for pair in results if pair[1].id not in told)
    return working._replace(
        inputs=inputs,
        results=results,
        are_inputs_above=len(inputs) < len(working.inputs),
        are_results_above=len(results) < len(working.results),
    )


def tables_of(figures: Iterable[Figure], book: FigureBook, folder: str) -> dict[str, Rows]:
    """The rows of each download that `shown_workings` names."""
    found = workings_behind(figures, book)
    out = {item.download: item.table for item in found if item.download}
    if any(not item.download for item in found):
        out[_numbers(folder)] = numbers_table(found)
    return out


def _numbers(folder: str) -> str:
    return f"data/workings/{folder}numbers.csv"


def written_with_workings(page: WrittenPage, book: FigureBook) -> WrittenPage:
    """A page that people wrote, with the same workings and their tables."""
    figures = [item for item in walk(page.parts) if isinstance(item, Figure)]
    folder = f"{page.path.removesuffix('.md')}/"
    tables = tables_of(figures, book, folder)
    shown = shown_workings(figures, book, folder)
    return page._replace(workings=tuple(item._replace(table=tables[item.download]) for item in shown))


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


def numbers_table(workings: Iterable[Working]) -> Rows:
    """Each number once, at full precision, with the number of its row: what went in, then how, and what came out.

    `computed_from` names rows: of a formula all that went into it, of a result those it needs; one that names none
    comes from all of them.
    """
    made = tuple(workings)
    results = {figure.id: figure for item in made for _, figure in item.results}
    inputs = {figure.id: figure for item in made for figure in item.inputs if figure.id not in results}
    numbers = {name: str(row) for row, name in enumerate((*inputs, *results), start=1)}

    def named(ids: Iterable[str]) -> str:
        return " ".join(numbers.get(name, name) for name in ids)

    rows: list[tuple[str, ...]] = [_HEADER]
    for figure in inputs.values():
        what = figure.id.rpartition("/")[2]
        rows.append((numbers[figure.id], "", "input", what, _in_full(figure), figure.unit, figure.id, ""))
    for item in made:
        every = tuple(figure.id for figure in item.inputs)
        rows.append(("", item.name, "formula", item.formula, "", "", "", named(every)))
        for part in ("convention", "published"):
            if text := getattr(item, part):
                rows.append(("", item.name, part, text, "", "", "", ""))
        for says, figure in item.results:
            needs = "" if figure.derived_from == every else named(figure.derived_from)
            rows.append(
                (
                    numbers[figure.id],
                    item.name,
                    "result",
                    says or item.title,
                    _in_full(figure),
                    figure.unit,
                    figure.id,
                    needs,
                )
            )
    return tuple(rows)


def _in_full(figure: Figure) -> str:
    return figure.unrounded or figure.value
