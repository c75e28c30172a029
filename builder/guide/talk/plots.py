"""The plots of a question that are taken along: one of each factor's leading comparison, and rates over time."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import cached_property, partial

from ...reading.model import Certainty, Question
from ...results.findings.direction import Compared
from ...results.findings.findings import Catalogue
from ...results.saying.certainty import NOT_JUDGED, ledger
from ...results.saying.titles import factor_title
from ...results.saying.wording import definition
from ...results.values.document import StudyRows
from ...results.values.line import Line, Marked, Span, above_and_below, date, line, typed
from ...results.values.plots import PlotToTake
from ..question.over_time import first_drawing, overall_line, rates_by_outcome
from ..sections.compared_levels import comparisons, leading
from ..sections.comparison import answer_line, comparison_blocks

OVER_TIME = "over-time"


class PlotsToTake(Mapping[str, PlotToTake]):
    """Every plot of a guide by name, each made when it is asked for; its numbers are all on the page it is from."""

    def __init__(self, catalogue: Catalogue, factors: Callable[[Question], list[str]]) -> None:
        """factors: gives those of a question that have a page."""
        self._catalogue, self._factors = catalogue, factors

    @cached_property
    def _makers(self) -> dict[str, Callable[[], PlotToTake | None]]:
        # Found when somebody asks first: whoever composes one page takes no plot along.
        found: dict[str, Callable[[], PlotToTake | None]] = {}
        for name, question in sorted(self._catalogue.evidence.questions.items()):
            makers = {OVER_TIME: partial(over_time_plot, self._catalogue, question)} | {
                factor: partial(factor_plot, self._catalogue, question, factor) for factor in self._factors(question)
            }
            found.update((f"{name}.{of}", make) for of, make in makers.items() if make() is not None)
        return found

    def __getitem__(self, name: str) -> PlotToTake:
        plot = self._makers[name]()
        assert plot is not None, f"{name}: a plot that was there when the guide was composed"
        return plot

    def __iter__(self) -> Iterator[str]:
        return iter(self._makers)

    def __len__(self) -> int:
        return len(self._makers)


def factor_plot(catalogue: Catalogue, question: Question, factor: str) -> PlotToTake | None:
    """One row a study of the comparison that heads the factor's page; None where nothing of it is drawn."""
    lead = leading(question, comparisons(catalogue, question, factor))
    return comparison_plot(catalogue, question, lead) if lead is not None else None


def comparison_plot(catalogue: Catalogue, question: Question, lead: Compared) -> PlotToTake | None:
    """The same of any comparison, named after the factor."""
    factor = lead.factor
    lists = (block for block in comparison_blocks(catalogue, question, lead) if isinstance(block, StudyRows))
    rows = next((block for block in lists if block.scale is not None), None)
    if rows is None:
        return None
    address = f"{question.id}/{factor}/"
    return PlotToTake(
        name=f"{question.id}.{factor}",
        title=line(typed(question.title.text), ": ", typed(factor_title(catalogue, factor))),
        drawn=rows._replace(rows=tuple(row._replace(opened=()) for row in rows.rows)),
        caption=(
            answer_line(catalogue, question, lead),
            line("Counted: ", definition(lead.outcome), "."),
            line("These things went together; that does not prove that one brings about the other."),
        ),
        read=_read(rows),
        citation=citation(catalogue, question, address),
        page=address,
    )


def _read(rows: StudyRows) -> Line:
    """How the marks that are there are read."""
    shapes = {row.shape for row in rows.rows if row.point is not None}
    out: list[Line] = []
    if any(row.low is not None for row in rows.rows):
        out.append(line("Bar: where the difference may lie (", Marked("convention", "95%"), " CI). "))
    if rows.scale is not None and rows.scale.none is not None:
        out.append(line("Ruled strip: no difference. "))
    found = {"open": "open where crude", "filled": "filled where adjusted"}
    said = ", ".join(words for shape, words in found.items() if shape in shapes)
    out.append(line(f"Upright: what the study found{', ' if said else ''}{said}. "))
    if any(row.is_broken and row.low is not None for row in rows.rows):
        out.append(line("A broken bar decides nothing. "))
    if any(row.margins for row in rows.rows):
        out.append(line("A broken upright is a margin fixed beforehand. "))
    return line(*out)


def over_time_plot(catalogue: Catalogue, question: Question) -> PlotToTake | None:
    """Rates over time by the definition that heads the page; None where none has a time."""
    drawn = first_drawing(catalogue, question)
    if drawn is None:
        return None
    row = rates_by_outcome(catalogue, question)[0]
    said, more = above_and_below(overall_line(catalogue, row))
    judged = ledger(question, row.outcome.id)
    address = f"{question.id}/{OVER_TIME}/"
    # Why nothing was pooled is long, and stands on the page.
    below = [part.line for part in more if isinstance(part, Span)] if any(pool.is_shown for pool in row.pools) else []
    return PlotToTake(
        name=f"{question.id}.{OVER_TIME}",
        title=line(typed(question.title.text), ": over time"),
        drawn=drawn,
        caption=(
            line(said, ". ", _sure(judged)),
            *(line(told, ".") for told in below),
            line("Counted: ", definition(row.outcome), ". An early rate promises no late one."),
        ),
        read=(),
        citation=citation(catalogue, question, address),
        page=address,
    )


def _sure(judged: Certainty | None) -> Line:
    """ "Certainty: low, judged at 24 months."."""
    at = line(", judged at ", typed(judged.at.text, "threshold")) if judged is not None and judged.at else None
    return line("Certainty: ", judged.final.text if judged is not None else NOT_JUDGED, at, ".")


def citation(catalogue: Catalogue, question: Question, address: str) -> Line:
    """Programme, title, release and day of the evidence, and the page: how something taken along is cited."""
    compendium = catalogue.evidence.compendium
    if compendium is None:
        return line("release not recorded")
    where = f" of {compendium.repository.text}" if compendium.repository else ""
    return line(
        typed(f"{compendium.programme.text}. {compendium.title.text}: {question.title.text}. ", "reference"),
        Marked("identifier", f"Release {compendium.release.text}"), ", evidence to ",
        date(compendium.evidence_date.value), ". ", typed(f"Page {address}{where}.", "identifier"),
    )  # fmt: skip
