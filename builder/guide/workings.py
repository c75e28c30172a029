"""Workings on the page that shows their figures, and the numbers behind them as one table a question."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from ..results.values.document import Block, Details, Page, Section, WorkingsSection, walk
from ..results.values.figures import Figure, FigureBook, Working
from ..results.values.guide import Rows, WrittenPage

_HEADER = ("row", "workings", "part", "what", "value", "unit", "figure", "computed_from")


def with_workings(page: Page, workings: tuple[Working, ...]) -> Page:
    """The page with a section for these workings at its end; as it was where there are none."""
    if not workings:
        return page
    inner = WorkingsSection(workings, _is_first(page.address))
    # Where they are many the whole of it is one tap away.
    if len(workings) < _MANY_WORKINGS:
        section: Block = Section("Workings", "workings", (inner,), "screen" if inner.names_methods else "")
    else:
        section = Details("Workings", (inner,), "screen" if inner.names_methods else "part", anchor="workings")
    return page._replace(blocks=(*page.blocks, section))


def shown_workings(figures: Iterable[Figure], book: FigureBook, address: str) -> tuple[Working, ...]:
    """The workings of every computed figure of a page, and of what those were computed from, each with its download:
    a table of its own where it has one, else that of its question, in which its name finds it.

    address: of the page, "" or "some-question/size/".
    """
    told = {figure.id: figure for figure in figures}
    is_first = _is_first(address)
    return tuple(
        _without_repeats(item._replace(download=item.download or _numbers_file(item)), told, is_first=is_first)
        for item in workings_behind(told.values(), book)
    )


def _is_first(address: str) -> bool:
    """True for the page of a question, opened in a hurry: its further pages list the numbers behind its own."""
    return address.count("/") == 1


_MANY_WORKINGS = 4
# House rule: so many numbers in one section of workings, and those that stand above it are not sent to a phone again.
_MANY_INPUTS, _MANY_RESULTS = 9, 5


def _without_repeats(working: Working, told: Mapping[str, Figure], *, is_first: bool) -> Working:
    """told: by id the figures that the page shows without its workings; their download has them all."""
    behind = _own_inputs(working, told) if working.is_each_told else working.inputs
    inputs, results = _listed(behind, working, told, is_first=is_first), working.results
    if working.is_each_told or is_first:
        results = tuple(pair for pair in results if pair[1].is_only_worked and not is_first)
    elif len(results) >= _MANY_RESULTS:
        results = tuple(pair for pair in results if pair[1].id not in told)
    return working._replace(
        published="" if is_first else working.published,
        inputs=inputs,
        results=results,
        are_inputs_above=len(inputs) < len(behind),
        are_results_above=working.is_each_told or len(results) < len(working.results),
    )


def _own_inputs(working: Working, told: Mapping[str, Figure]) -> tuple[Figure, ...]:
    """What the results that a page tells were computed from: other pages add numbers of theirs to the same workings."""
    results = {figure.id: figure for _, figure in working.results}
    needed: set[str] = set()
    waiting = [name for item in told.values() if item.workings == working.name for name in item.derived_from]
    while waiting:
        name = waiting.pop()
        if name not in needed:
            needed.add(name)
            waiting.extend(results[name].derived_from if name in results else ())
    return tuple(figure for figure in working.inputs if figure.id in needed)


def _listed(
    behind: tuple[Figure, ...], working: Working, told: Mapping[str, Figure], *, is_first: bool
) -> tuple[Figure, ...]:
    """Of the inputs behind a page's results all where they are few, else those that it does not tell above; of results
    that stand beside their inputs, those alone."""
    is_many = len(behind) >= _MANY_INPUTS
    if is_many and (working.table or is_first):
        return ()
    return tuple(figure for figure in behind if figure.id not in told) if is_many or working.is_each_told else behind


class WorkingsTables(Mapping[str, Rows]):
    """The table behind each workings, its own or that of its question, by path; rows are made when somebody asks."""

    def __init__(self, shown: Iterable[Iterable[Working]], book: FigureBook) -> None:
        """shown: the workings of every page."""
        self._book = book
        self._names: dict[str, dict[str, None]] = {}
        for workings in shown:
            for item in workings:
                self._names.setdefault(item.download, {})[item.name] = None

    def __getitem__(self, path: str) -> Rows:
        workings = [self._book.working(name) for name in self._names[path]]
        return workings[0].table or numbers_table(workings)

    def __iter__(self) -> Iterator[str]:
        return iter(self._names)

    def __len__(self) -> int:
        return len(self._names)


def _numbers_file(working: Working) -> str:
    """What is computed belongs to a question, or to a page of its own: the first step of its results' ids."""
    _, first = working.results[0]
    return f"data/workings/{first.id.partition('/')[0]}/numbers.csv"


def written_with_workings(page: WrittenPage, book: FigureBook) -> WrittenPage:
    """A page that people wrote, with the same workings."""
    figures = [item for item in walk(page.parts) if isinstance(item, Figure)]
    return page._replace(workings=shown_workings(figures, book, f"{page.path.removesuffix('.md')}/"))


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

    The name of the workings stands with its formula, above its results. `computed_from` names rows: of a result those
    it needs; one that names none comes from all that its formula names.
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
        formula = f"{item.called}: {item.formula}" if item.called else item.formula
        # Where every result names the rows that it needs, the formula need not name them all.
        is_by_each = all(figure.derived_from != every for _, figure in item.results)
        rows.append(("", item.name, "formula", formula, "", "", "", "" if is_by_each else named(every)))
        for part in ("convention", "published"):
            if text := getattr(item, part):
                rows.append(("", item.name, part, text, "", "", "", ""))
        for says, (_, figure) in zip(item.said, item.results, strict=True):
            needs = "" if figure.derived_from == every else named(figure.derived_from)
            rows.append(
                (
                    numbers[figure.id],
                    "",
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
