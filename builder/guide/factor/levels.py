"""Levels side by side: the rates that people report for each level, their intervals, and the pools they earn."""

from __future__ import annotations

from collections.abc import Sequence, Set

from ...results.findings.comparable import DEFINITIONS, axes, reasons_against_pooling
from ...results.findings.findings import Catalogue, Finding
from ...results.numbers.pooling import RatePool, not_pooled_line, pool_line
from ...results.numbers.rate_intervals import shown_interval
from ...results.saying.labels import without_digits
from ...results.saying.short_words import opened_timing, row_counts, row_timing
from ...results.saying.source_reference import source_link
from ...results.saying.wording import cut, definition, differed, interval, rate, timing
from ...results.values.document import StudyRow, StudyRows
from ...results.values.line import Line, joined, line, typed
from ..sections.level_rates import LevelRates
from ..sections.one_study import answers_covered, level_wording
from ..sections.study_rows import SHARES, Values, drawn_rate, exactness, row_name, standing_marks, told


def reasons_across(rows: Sequence[LevelRates]) -> tuple[str, ...]:
    """Why rates that stand in different tables are not put together: other definitions, or other limits of a level."""
    counted = [finding for row in rows for finding in row.comparability.counted]
    out = [reason for reason in reasons_against_pooling([axes(item) for item in counted]) if reason in DEFINITIONS]
    drawn: dict[tuple[str, str], set[str]] = {}
    for row in rows:
        for finding in row.comparability.counted:
            for level in finding.level_ids:
                drawn.setdefault((row.outcome.id, level), set()).add(row.suffix)
    if any(len(found) > 1 for found in drawn.values()):
        out.append("they place the limit of a level elsewhere")
    return tuple(out)


def rates_rows(
    catalogue: Catalogue, place: str, rows: list[LevelRates], told: Set[tuple[str, Line]] = frozenset()
) -> StudyRows:
    """One row a study and level of one outcome, by level; a further and the typical study first, then the most exact.

    place: "question/factor", under which computed figures stand. told: by report what else on the page says when in
    full.
    """
    outcome = rows[0].outcome
    made: list[StudyRow] = []
    for row in rows:
        made.extend(_pool_rows(row.pool, row.wording))
        found = [(finding, drawn_rate(finding)) for finding in row.comparability.counted]
        made.extend(
            _row(catalogue, place, finding, drawn, told)
            for finding, drawn in sorted(found, key=lambda pair: exactness(pair[1], pair[0].total, pair[0].base))
        )
    label = without_digits(f"Levels side by side: {outcome.title.text}")
    return StudyRows(line("Counted as ", definition(outcome)), label, tuple(made), SHARES)


def pools_said(rows: Sequence[LevelRates], told_why: set[tuple[str, ...]]) -> list[Line]:
    """What is pooled of each level; levels that are not, for the same reasons, in one line.

    told_why: reasons that the page has told, as for `not_pooled_line`.
    """
    out: list[Line] = []
    alike: dict[tuple[str, ...], list[Line]] = {}
    for row in rows:
        wording = line(typed(row.wording, "definition"))
        if row.pool.is_shown or row.pool.ends:
            out.append(line(wording, ": ", pool_line(row.pool, told_why), "."))
        else:
            alike.setdefault(row.pool.reasons, []).append(wording)
    return [
        *out,
        *(line(joined(words), ": ", not_pooled_line(why, told_why), ".") for why, words in alike.items()),
    ]


def _row(
    catalogue: Catalogue, place: str, finding: Finding, drawn: Values, told_when: Set[tuple[str, Line]]
) -> StudyRow:
    is_estimate = finding.kind == "estimate"
    said = joined([part for part in reversed(row_counts(finding)) if part], ", ") if is_estimate else rate(finding)
    limits = interval(finding, "estimate/interval") if is_estimate else shown_interval(finding, place)
    limits = limits or line("not reported" if is_estimate else "not computable")
    opened = [("Report", line(source_link(finding.key, catalogue))), ("Interval", limits)]
    of_whom = _given(finding)
    if of_whom or (finding.key, timing(finding)) not in told_when:
        opened.append(("When", line(opened_timing(finding), of_whom)))
    wording, given = line(typed(level_wording(finding), "definition")), finding.claim.given
    # Two rows of one report and time differ in whom they are of: that is said before they are opened.
    of = line(", of ", typed(given.text)) if given is not None else line()
    marks = [line(word) for word in standing_marks(finding)]
    return StudyRow(
        row_name(catalogue, finding.key), joined([part for part in (wording, row_timing(finding)) if part], " · ") + of,
        joined([said, *marks], ", "),
        told(opened), *drawn, "dot",
        of=" ".join(answers_covered(catalogue, finding)),
    )  # fmt: skip


def _given(finding: Finding) -> Line:
    given = finding.claim.given
    return line(
        line(", of ", typed(given.text)) if given is not None else None, differed(finding), cut(finding)
    )  # fmt: skip


def _pool_rows(pool: RatePool, wording: str) -> list[StudyRow]:
    """The typical study of a shown pool, and where a further one may lie."""
    span = pool.span
    if not pool.is_shown or span is None:
        return []
    found, out = pool.figures, []
    about = line(typed(wording, "definition"))
    if span.prediction is not None and "prediction/low" in found:
        low, high = (100 * end for end in span.prediction)
        numbers = line(found["prediction/low"], " to ", found["prediction/high"], " (prediction interval)")
        out.append(StudyRow("a further study", about, numbers, (), None, low, high, "dot", is_broken=True))
    numbers = line(found["rate"], ", ", found["studies"], " studies")
    ends = (100 * span.point, 100 * span.low, 100 * span.high)
    out.append(StudyRow("the typical study", about, numbers, (), *ends, "dot"))
    return out
