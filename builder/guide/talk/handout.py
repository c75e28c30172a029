"""The sheet that is handed out: a question's answer, one line a study, one plot, what to say and what not."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from functools import partial

from ...reading.model import Question
from ...results.findings.direction import Compared, compared
from ...results.findings.findings import Catalogue, Finding
from ...results.findings.outcomes import is_occurrence
from ...results.findings.side import Side
from ...results.numbers.rate_intervals import interval_alone
from ...results.numbers.shown_numbers import count
from ...results.saying.certainty import NOT_JUDGED, ledger
from ...results.saying.labels import without_digits
from ...results.saying.reversals import reversal_line, reversals
from ...results.saying.short_words import row_timing, short_counts
from ...results.saying.titles import factor_title, levels_of
from ...results.saying.wording import contrast_alone, definition, n_of_n, unit_word
from ...results.values.document import StudyRows
from ...results.values.handout import Evidence, Handout, Handouts
from ...results.values.line import Line, Marked, Span, above_and_below, joined, line, plain_text, typed
from ...results.values.plots import PlotToTake
from ..question.over_time import overall_line, rates_by_outcome
from ..question.situation import factors_asked
from ..sections.compared_levels import comparisons, leading, level_title, reference_words
from ..sections.comparison import answer_line
from ..sections.level_summary import not_known
from ..sections.one_study import which_way
from ..sections.stated_times import latest
from ..sections.study_rows import row_marks, row_name
from ..sentences.prose import NamedResult, prose
from .plots import citation, comparison_plot, over_time_plot

# House rule: so many lines of a table, sentences, sentences of what was lost again, and comparisons of a case have room
# on two sides of paper; of a question as a whole one comparison stands for how it is done.
_ROWS, _SENTENCES, _LATER, _COMPARED = 7, 6, 2, 2
# Letters of what was typed that have room in a cell, in a heading and in a sentence.
_CELL, _HEADING, _SENTENCE = 44, 120, 260


def handouts(catalogue: Catalogue, named: NamedResult) -> Handouts:
    """The sheet of each question as a whole, in the order of their ids."""
    questions = sorted(catalogue.evidence.questions.items())
    return Handouts({name: partial(handout, catalogue, question, named) for name, question in questions})


def handout(catalogue: Catalogue, question: Question, named: NamedResult, answers: Collection[str] = ()) -> Handout:
    """One sheet of a question, or of a case of it.

    answers: "field=level" of each field that was answered; what is known of others stands on its page.
    """
    compares = _comparisons(catalogue, question, answers)[: _COMPARED if answers else 1]
    keys: dict[str, int] = {}
    tables = [
        *_over_time(catalogue, question, keys),
        *(_compared(catalogue, question, item, keys) for item in compares),
    ]
    return Handout(
        question=question.id,
        title=line(_cut(question.title.text, _HEADING)),
        case=_case(catalogue, question, answers),
        answer=_answer(catalogue, question, named),
        tables=tuple(tables),
        plot=_plot(catalogue, question, compares),
        say=_say(catalogue, question, compares),
        not_say=_not_say(catalogue, question, compares),
        references=tuple(keys),
        citation=citation(catalogue, question, f"{question.id}/conference/"),
        foot=(
            line("These are counts of other patients. Local protocol and whoever is licensed to treat decide."),
            line("Every number stands, with the passage it was quoted from, on the page named above."),
        ),
    )  # fmt: skip


def _comparisons(catalogue: Catalogue, question: Question, answers: Collection[str]) -> list[Compared]:
    """That which leads of each answer; without answers, of the first factors that are asked for."""
    found: list[Compared | None] = []
    for factor in factors_asked(catalogue, question):
        if not answers:
            items = [item for item in comparisons(catalogue, question, factor) if item.sides]
            found.append(leading(question, items))
            continue
        for level, _ in levels_of(catalogue, factor):
            if f"{factor}={level}" in answers:
                items = [
                    item for item in compared(catalogue, question.id, factor, level)
                    if item.sides and not is_occurrence(item.outcome)
                ]  # fmt: skip
                found.append(leading(question, items))
    known = [item for item in found if item is not None]
    # What most studies looked at has the room, and of as many the first that is asked for.
    return sorted(known, key=lambda item: -len(item.sides)) if not answers else known


def _case(catalogue: Catalogue, question: Question, answers: Collection[str]) -> Line:
    said = [
        line(typed(factor_title(catalogue, factor), "definition"), ": ", typed(title, "definition"))
        for factor in factors_asked(catalogue, question)
        for level, title in levels_of(catalogue, factor)
        if f"{factor}={level}" in answers
    ]
    return joined(said)


def _answer(catalogue: Catalogue, question: Question, named: NamedResult) -> tuple[Line, ...]:
    if question.answer is None or not question.answer.text:
        return (line(not_known(question), "."),)
    said, more = above_and_below(prose(question.answer.text, catalogue, named, is_always_sure=True))
    return (said, *(line(part.line) for part in more if isinstance(part, Span)))


def _over_time(catalogue: Catalogue, question: Question, keys: dict[str, int]) -> list[Evidence]:
    """The rates of all who were examined, by the definition that the guide leads with, the largest first."""
    found = rates_by_outcome(catalogue, question)
    if not found:
        return []
    row = found[0]
    ordered = sorted(row.comparability.counted, key=lambda item: (-(item.total or 0), item.base))
    ordered = _once_a_study(ordered)
    shown = ordered[:_ROWS]
    rows = tuple(
        (
            _name(catalogue, item, keys), _design(item), _counted(item),
            row_timing(item) or line("at no particular time"), interval_alone(item) or line("not told"),
        )
        for item in shown
    )  # fmt: skip
    many = catalogue.main_unit(question.id).many
    return [
        Evidence(
            line(f"How such {without_digits(many)} do: ", typed(row.outcome.title.text, "definition")),
            ("Study", "Design", "How many", "When", "May lie between"),
            rows,
            (
                line("By which definition: ", definition(row.outcome), "."),
                _sure(question, row.outcome.id, "", ""),
                *_more(catalogue, question, "overall", row.outcome.id, ordered, len(shown)),
            ),
        )
    ]


def _once_a_study(findings: Iterable[Finding]) -> list[Finding]:
    """One row a cohort."""
    seen: set[str] = set()
    out = []
    for item in findings:
        people = {facts.id for facts in item.studies}
        if not people & seen:
            out.append(item)
        seen |= people
    return out


def _compared(catalogue: Catalogue, question: Question, item: Compared, keys: dict[str, int]) -> Evidence:
    """The studies of one comparison: both counts, and which way that is; the largest first."""
    place = f"{question.id}/{item.factor}"
    sides = sorted(item.sides, key=lambda side: (-(side.units or 0), side.finding.base))
    shown = sides[:_ROWS]
    rows = tuple(
        (
            _name(catalogue, side.finding, keys), _design(side.finding),
            contrast_alone(side.finding) if side.finding.kind == "contrast"
            else short_counts(side.finding, side.reference),
            row_timing(side.finding) or line("at no particular time"),
            joined([which_way(side, place, is_brief=True), *row_marks(side)], ", "),
        )
        for side in shown
    )  # fmt: skip
    findings = [side.finding for side in sides]
    return Evidence(
        line(
            typed(factor_title(catalogue, item.factor), "definition"), ", ",
            typed(level_title(catalogue, item), "definition"), " | ", reference_words(item), ": ",
            typed(item.outcome.title.text, "definition"),
        ),
        ("Study", "Design", "How many", "When", "Which way"),
        rows,
        (
            line("By which definition: ", definition(item.outcome), "."),
            _sure(question, item.outcome.id, item.factor, item.level),
            *_more(catalogue, question, item.factor, item.name, findings, len(shown)),
        ),
    )  # fmt: skip


def _name(catalogue: Catalogue, finding: Finding, keys: dict[str, int]) -> Line:
    """ "Ehlvik 2019 [2]": the number is that of the reference."""
    number = keys.setdefault(finding.key, len(keys) + 1)
    return line(typed(row_name(catalogue, finding.key), "reference"), " ", Marked("reference", f"[{number}]"))


def _design(finding: Finding) -> Line:
    study = finding.studies[0].study if finding.studies else None
    text = study.design.text if study is not None and study.design is not None else "not reported"
    return line(_cut(text, _CELL))


def _counted(finding: Finding) -> Line:
    if finding.kind == "estimate":
        unit = unit_word(finding.counted, finding.figure("estimate/starting"))
        return line(short_counts(finding, None), f" {unit}")
    return n_of_n(finding)


def _sure(question: Question, outcome: str, factor: str, level: str) -> Line:
    judged = ledger(question, outcome, factor, level)
    at = line(", judged at ", typed(judged.at.text, "threshold")) if judged is not None and judged.at else None
    return line("How sure: ", f"{judged.final.text} certainty" if judged is not None else NOT_JUDGED, at, ".")


def _more(
    catalogue: Catalogue, question: Question, factor: str, name: str, findings: Sequence[Finding], shown: int
) -> list[Line]:
    """How many studies found no room; empty where all did."""
    left = findings[shown:]
    if not left:
        return []
    book = catalogue.book
    inputs = tuple(dict.fromkeys(found for item in left if (found := item.figure("total", "contrast/value"))))
    workings = book.explain(
        f"{question.id}-{factor}-not-on-the-sheet", "Studies that found no room on the sheet",
        "studies of the page less those of the sheet", inputs=inputs, is_each_told=True,
    )  # fmt: skip
    figure_id = f"{question.id}/{factor}/not-on-the-sheet-{name}"
    figure = count(book, figure_id, len(left), "study", workings, says=name, inputs=inputs)
    return [line("The largest stand here; ", figure, " more on the page.")]


def _plot(catalogue: Catalogue, question: Question, compares: Sequence[Compared]) -> PlotToTake | None:
    """The first that can be drawn; what its caption says elsewhere stands in the tables here."""
    drawn = (comparison_plot(catalogue, question, item) for item in compares)
    found = next((plot for plot in drawn if plot is not None), None) or over_time_plot(catalogue, question)
    if found is None:
        return None
    shown = found.drawn
    if isinstance(shown, StudyRows):
        shown = shown._replace(rows=shown.rows[:_ROWS])
    of = compares[0].factor if compares else ""
    title = typed(factor_title(catalogue, of), "definition") if of and isinstance(shown, StudyRows) else "over time"
    return found._replace(title=line("Drawn: ", title), drawn=shown, caption=(), citation=())


def _say(catalogue: Catalogue, question: Question, compares: Sequence[Compared]) -> tuple[Line, ...]:
    """Sentences that the numbers bear."""
    out: list[Line] = []
    rows = rates_by_outcome(catalogue, question)
    if rows:
        out.append(line(above_and_below(overall_line(catalogue, rows[0]))[0], "."))
        back = reversals(catalogue, question.id, rows[0].comparability.counted)
        out.extend(line("Early is not lasting: ", reversal_line(catalogue, item), ".") for item in back[:_LATER])
    out.extend(answer_line(catalogue, question, item) for item in compares)
    return tuple(_fitting(out))


def _not_say(catalogue: Catalogue, question: Question, compares: Sequence[Compared]) -> tuple[Line, ...]:
    """What the same numbers do not bear."""
    out = [
        line("Not that one thing brings about the other: they went together."),
        line("Not a percentage for this patient, nor factors added up or multiplied: nobody has shown that."),
    ]
    sides = [side for item in compares for side in item.sides]
    if any(not side.is_adjusted for side in sides):
        out.append(line("Not that all else was equal: where nothing else is said these counts are crude."))
    rows = rates_by_outcome(catalogue, question)
    found = latest(rows[0].comparability.counted) if rows else None
    if found is not None:
        said = line("Not that it lasts: the latest stated time is ", found[1], "; of all who were treated, later: ")
        out.append(line(said, not_known(question), "."))
    out.extend(_differed(catalogue, sides))
    return tuple(_fitting(out))


def _differed(catalogue: Catalogue, sides: Sequence[Side]) -> list[Line]:
    rows = {
        side.finding.key: line(
            "In ", typed(row_name(catalogue, side.finding.key), "reference"), " the groups differed at the start: ",
            _cut("; ".join(word.text for word in side.finding.claim.differ_in), _HEADING), ".",
        )
        for side in sides
        if side.finding.claim.differ_in
    }  # fmt: skip
    return list(rows.values())


def _fitting(lines: Iterable[Line]) -> list[Line]:
    """Those that have room, links left out: nobody taps on paper."""
    return [found for found in lines if len(plain_text(found)) <= _SENTENCE][:_SENTENCES]


def _cut(text: str, letters: int) -> Line:
    """What somebody typed, no longer than it has room."""
    kept = text if len(text) <= letters else f"{text[: letters - 1].rstrip()}…"
    return line(typed(kept))
