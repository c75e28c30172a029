"""What is known for this case: how such units do over time, and each factor by itself; never two of them at once."""

from __future__ import annotations

from collections.abc import Iterator

from ...reading.model import Question
from ...results.findings.direction import Compared, compared
from ...results.findings.findings import Catalogue
from ...results.findings.outcomes import is_occurrence
from ...results.saying.reversals import reversal_line, reversals
from ...results.saying.titles import factor_title, levels_of
from ...results.saying.wording import definition
from ...results.values.document import StudyRows
from ...results.values.line import Line, line, typed
from ...results.values.talk import Group, Plot, Said, Slide
from ..question.over_time import first_drawing, overall_line, rates_by_outcome
from ..question.situation import factors_asked
from ..question.time_rows import rates_rows
from ..sections.compared_levels import comparisons, leading
from ..sections.comparison import answer_line, comparison_blocks, figures_lines
from ..sections.level_summary import comparison_summary, level_summary, not_known
from .paragraphs import groups_of, passages_of, rows_said, said_of, with_below

_OTHERS = Said(line("Say: these are other patients than ours, and what went together need not be a cause."))


def over_time(catalogue: Catalogue, question: Question) -> Slide:
    """How such units do over time, by the definition that the guide leads with; what was lost again stands with it."""
    rows = rates_by_outcome(catalogue, question)
    title = line(f"How such {catalogue.main_unit(question.id).many} do over time")
    if not rows:
        return Slide("over-time", "Text", title, (Group((Said(not_known(question)),)),))
    first = rows[0]
    counted = first.comparability.counted
    drawing = first_drawing(catalogue, question)
    read = [Said(line("How the plot is read: ", drawing.finding))] if drawing is not None else []
    why: list[Said] = []
    found = reversals(catalogue, question.id, counted)
    back = [Said(reversal_line(catalogue, item)) for item in found]
    overall, *below = with_below(overall_line(catalogue, first))
    if not first.pools[0].is_shown:
        # Why nothing was put together is for whoever asks.
        why, below = below, [Said(definition(first.outcome), "quiet")]
    # A rate never stands without what takes it back; the latest is told with it, all of them behind the end.
    last = max(found, key=lambda item: item.window or 0, default=None)
    latest = [Said(line("Early is not lasting: ", reversal_line(catalogue, last)), "quiet")] if last is not None else []
    body = [Group((overall, *latest, *below))]
    if len(back) > 1:
        body.append(Group((Said(line("What the same studies found later:"), "lead"), *back)))
    lists = (
        rates_rows(catalogue, question.id, first.outcome, counted, first.comparability.superseded, is_timed=timed)
        for timed in (True, False)
    )
    every = [said for found in lists if found is not None for said in rows_said(found)]
    notes = (
        _OTHERS, *why, *read, Said(line("Every study of the plot:"), "lead"), *every, *passages_of(catalogue, body),
    )  # fmt: skip
    plot: Plot | None = drawing
    return Slide("over-time", "Text with plot" if plot else "Text", title, tuple(body), notes, plot)


def factors_of_case(catalogue: Catalogue, question: Question) -> Slide:
    """Each answer of the case in turn; without any, what the guide's own comparisons of the first factors say."""
    body = [
        *_answers(catalogue, question),
        *(
            group._replace(of="none")
            for factor in factors_asked(catalogue, question)
            for group in _leading(catalogue, question, factor)
        ),
    ]
    if not body:
        body = [Group((Said(not_known(question)),))]
    notes = (
        Said(line("Say: one factor at a time. What several come to together nobody has shown; nothing is added up.")),
        _OTHERS,
        Said(line("Each answer has a slide of its own behind the end, with its studies.")),
    )
    return Slide(
        "factors",
        "Text",
        line("What is known of this case, one factor at a time"),
        tuple(body),
        notes,
        has_rest_elsewhere=True,
    )


def _answers(catalogue: Catalogue, question: Question) -> Iterator[Group]:
    for factor in factors_asked(catalogue, question):
        for level, title in levels_of(catalogue, factor):
            head = Said(
                line(typed(factor_title(catalogue, factor), "definition"), ": ", typed(title, "definition")), "lead"
            )
            items = [item for item in _told(catalogue, question, factor, level) if item.sides]
            if items:
                lead = leading(question, items) or items[0]
                said = said_of(comparison_summary(catalogue, question, lead))
            else:
                said = said_of(level_summary(catalogue, question, factor, level))
            first, *others = groups_of(said)
            yield Group((head, *first.said), f"{factor}={level}")
            yield from (group._replace(of=f"{factor}={level}") for group in others)


def _leading(catalogue: Catalogue, question: Question, factor: str) -> Iterator[Group]:
    lead = leading(question, comparisons(catalogue, question, factor))
    if lead is not None and lead.sides:
        told = [Said(answer_line(catalogue, question, lead)), *said_of(tuple(figures_lines(catalogue, question, lead)))]
        yield Group(tuple(told))


def _told(catalogue: Catalogue, question: Question, factor: str, level: str) -> list[Compared]:
    found = compared(catalogue, question.id, factor, level)
    return [item for item in found if (item.sides or item.reaching) and not is_occurrence(item.outcome)]


def of_answers(catalogue: Catalogue, question: Question) -> Iterator[Slide]:
    """A spare of each answer: all that the guide's page says of it, the studies of its leading comparison drawn."""
    for factor in factors_asked(catalogue, question):
        for level, title in levels_of(catalogue, factor):
            said = said_of(level_summary(catalogue, question, factor, level))
            items = [item for item in _told(catalogue, question, factor, level) if item.sides]
            plot = _drawn(catalogue, question, leading(question, items)) if items else None
            name = line(typed(factor_title(catalogue, factor), "definition"), ": ", typed(title, "definition"))
            yield from _spares(catalogue, f"answer-{factor}-{level}", name, said, plot, f"{factor}={level}")


def of_other_factors(catalogue: Catalogue, question: Question) -> Iterator[Slide]:
    """A spare of each factor that the situation does not ask for."""
    asked = factors_asked(catalogue, question)
    for word in question.factors:
        factor = word.text
        lead = leading(question, comparisons(catalogue, question, factor)) if factor not in asked else None
        if lead is None:
            continue
        blocks = figures_lines(catalogue, question, lead)
        said = [Said(answer_line(catalogue, question, lead)), *said_of(tuple(blocks))]
        name = line(typed(factor_title(catalogue, factor), "definition"))
        yield from _spares(catalogue, f"factor-{factor}", name, said, _drawn(catalogue, question, lead), "")


# Of one study alone the text says all that a plot would.
_DRAWN_FROM = 2


def _spares(
    catalogue: Catalogue, name: str, title: Line, said: list[Said], plot: StudyRows | None, of: str
) -> Iterator[Slide]:
    """What is said, and on a slide of its own what is drawn of it."""
    body = groups_of(said) or (Group((Said(line("Nothing is counted here.")),)),)
    yield Slide(name, "Text", title, body, (_OTHERS, *passages_of(catalogue, body)), of=of, is_spare=True)
    if plot is not None and len(plot.rows) >= _DRAWN_FROM:
        rows = rows_said(plot)
        notes = (_OTHERS, Said(line("Every study of the plot:"), "lead"), *rows, *passages_of(catalogue, rows))
        yield Slide(f"{name}-plot", "Plot", line(title, ", its studies"), (), notes, plot, of, is_spare=True)


def _drawn(catalogue: Catalogue, question: Question, item: Compared | None) -> StudyRows | None:
    """The list of a comparison that has most studies, where something of it is drawn."""
    if item is None:
        return None
    for block in comparison_blocks(catalogue, question, item):
        if (
            isinstance(block, StudyRows)
            and block.scale is not None
            and any(row.point is not None for row in block.rows)
        ):
            return block
    return None
