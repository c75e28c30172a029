"""How such units do over time, by definition: rates at their times, what supersedes them, where nothing is known."""

from __future__ import annotations

from collections.abc import Sequence

from ...reading.model import Outcome, Question
from ...records import NamedTuple
from ...results.findings.comparable import Comparability, comparability_of, people_of
from ...results.findings.findings import Catalogue, Finding
from ...results.findings.outcomes import in_order, is_occurrence, main_outcome
from ...results.numbers.clustering import clustering_block
from ...results.numbers.pooling import RatePool, further_line, pool_line, pool_told, range_line, rate_pool
from ...results.numbers.sensitivity import rate_sensitivity
from ...results.saying.people import person_name
from ...results.saying.reasons_once import told_once
from ...results.saying.reversals import reversal_line, reversals
from ...results.saying.speech import counted_as, when
from ...results.saying.wording import FEW_FOLLOWED, definition, length
from ...results.values.document import Block, Blocks, Details, Items, Page, Paragraph, Section
from ...results.values.drawings import TimePlot
from ...results.values.line import Line, Marked, Part, Span, above_and_below, date, joined, line, typed
from ..sections.closed import closed
from ..sections.how_sure import ledgers_section
from ..sections.level_summary import not_known
from ..sections.not_counted import animals_and_bench_section, not_counted_section, reviews_section, superseded_lines
from ..sections.stated_times import latest
from ..sentences.named_figures import below, in_sentence
from ..sentences.prose import NamedResult
from .time_drawing import at_one_time, list_anchor, starts_of, time_drawings, together_line
from .time_rows import rates_rows


class OutcomeRates(NamedTuple):
    """All overall rates of one outcome."""

    outcome: Outcome
    comparability: Comparability
    pools: tuple[RatePool, ...]
    """Every pool that is shown, else the one that says why none is."""


def overall_findings(catalogue: Catalogue, question: str) -> list[Finding]:
    """Rates and estimates of all who were examined: no factor, no level, no subgroup."""
    return catalogue.once(("overall", question), lambda: _overall_findings(catalogue, question))


def _overall_findings(catalogue: Catalogue, question: str) -> list[Finding]:
    return [
        finding
        for finding in catalogue.of_question(question)
        if not finding.factor
        and finding.level is None
        and not finding.claim.within
        and finding.kind in ("rate", "grade", "estimate", "pooled")
        and (finding.kind != "rate" or not _is_only_a_total(finding))
    ]


def _is_only_a_total(finding: Finding) -> bool:
    """True for the bare total beside grades that say what became of it."""
    return bool(finding.claim.grades) and finding.figure("events", "success_rate", "rate") is None


def rates_by_outcome(catalogue: Catalogue, question: Question) -> list[OutcomeRates]:
    """Every outcome that people have an overall rate for, in the page's order."""
    return catalogue.once(("overall rates", question.id), lambda: _rates_by_outcome(catalogue, question))


def _rates_by_outcome(catalogue: Catalogue, question: Question) -> list[OutcomeRates]:
    groups: dict[str, list[Finding]] = {}
    for finding in overall_findings(catalogue, question.id):
        groups.setdefault(finding.outcome.id, []).append(finding)
    main = main_outcome(catalogue, question)
    out = []
    for outcome in in_order(catalogue, question, groups):
        comparability = comparability_of(groups[outcome.id])
        if comparability.counted:
            is_main = main is not None and outcome.id == main.id
            out.append(
                OutcomeRates(outcome, comparability, _pools(catalogue, question, outcome, comparability, is_main))
            )
    return out


def _pools(
    catalogue: Catalogue, question: Question, outcome: Outcome, comparability: Comparability, is_main: bool
) -> tuple[RatePool, ...]:
    place, shown = f"{question.id}/overall", [group for group in comparability.groups if group.shows_pool]
    out = []
    for index, group in enumerate(shown or [None]):
        suffix = "" if is_main and index == 0 else outcome.id
        if index > 0:
            suffix = f"{outcome.id}-{index + 1}"
        title = f"All examined: {outcome.title.text}"
        out.append(rate_pool(catalogue, place, suffix, title, comparability, group))
    return tuple(out)


def over_time_page(catalogue: Catalogue, question: Question, named: NamedResult) -> Page:
    """The time line of a question's rates, one section a definition."""
    del named  # no sentence of people stands on this page
    rows = rates_by_outcome(catalogue, question)
    findings = overall_findings(catalogue, question.id)
    blocks: list[Block] = [_answer(catalogue, question, rows)]
    blocks.extend(_panels(catalogue, question, rows))
    counted = [finding for row in rows for finding in row.comparability.counted]
    clusters = clustering_block(catalogue, f"{question.id}/overall", counted)
    hints = {(row.outcome.id, ""): _hint(question, row) for row in rows}
    behind: list[Block] = [ledgers_section(catalogue, question, "", hints, clusters)]
    behind.extend(reviews_section(catalogue, findings))
    behind.extend(animals_and_bench_section(catalogue, findings, catalogue.main_unit(question.id)))
    behind.extend(not_counted_section(catalogue, findings, (), are_drawn=True))
    blocks.extend(closed(behind))
    return Page(
        address=f"{question.id}/over-time/",
        kind="over-time",
        title=f"Over time: {question.title.text}",
        blocks=told_once(tuple(blocks)),
        description="Rates at the times they were counted, by definition, with those at risk and those not seen.",
        edit=question.position.file,
        trail=((f"{question.id}/", question.title.text),),
        touched_by=tuple(sorted({finding.key for finding in findings})),
    )


def _hint(question: Question, row: OutcomeRates) -> Line:
    """What can be counted of a rate beside its ledger: spread, chance, the threshold, and who is counted twice."""
    parts: list[Line] = []
    pool = row.pools[0]
    found = pool.figures
    if pool.is_shown:
        level = Marked("convention", "95%")
        parts.append(line(level, " CI ", found["interval/low"], " to ", found["interval/high"], further_line(pool)))
        parts.extend(_beside_threshold(question, row.outcome, pool))
    else:
        spread = range_line(pool)
        parts.append(spread or line("a single study, or none with its counts"))
    if row.comparability.superseded:
        parts.append(line("some reports are about the same patients, who count once"))
    return joined(parts)


def _beside_threshold(question: Question, outcome: Outcome, pool: RatePool) -> list[Line]:
    """Where the interval of a pool lies beside what faculty fixed beforehand for that outcome and time."""
    span = pool.span
    if span is None or pool.group is None:
        return []
    window = pool.group.findings[0].window
    mine = [item for item in question.thresholds if item.outcome.text == outcome.id and item.at.months == window]
    if not mine:
        return [line("no threshold was fixed for this time, so nothing is said about good enough")]
    out = []
    for item in mine:
        share = float(item.at_least.value) / 100
        low, high = (span.low, span.high) if outcome.good else (1 - span.high, 1 - span.low)
        where = "lies above" if low >= share else "lies below" if high < share else "crosses"
        out.append(line(f"the interval {where} the threshold of ", typed(item.at_least.text, "threshold")))
    return out


def _answer(catalogue: Catalogue, question: Question, rows: Sequence[OutcomeRates]) -> Paragraph:
    if not rows:
        return Paragraph(not_known(question), "answer")
    said, more = above_and_below(overall_line(catalogue, rows[0], is_told_below=True))
    return Paragraph(line(said, ".", more), "answer")


def overall_line(catalogue: Catalogue, row: OutcomeRates, *, is_told_below: bool = False) -> Line:
    """What all who were examined came to, by one outcome: the pool with its time, a single study, or why not.

    Below it what these numbers count, how far they may lie off, or why nothing was pooled, unless the page tells that
    further down.
    """
    title = typed(row.outcome.title.text, "definition")
    counted = row.comparability.counted
    if len({study for finding in counted for study in people_of(finding)}) == 1:
        ordered = sorted(counted, key=lambda item: item.kind == "estimate")
        said = joined([_told_alone(finding, title, has_time=len(counted) > 1) for finding in ordered])
        return line(said, *(Span("below", more) for more in below(ordered, catalogue)))
    said, rest = pool_told(row.pools[0])
    if is_told_below and not row.pools[0].is_shown:
        rest = line("why it is not pooled stands below, one tap away")
    return line(title, ": ", window_line(row.pools[0]), said, Span("below", line(counted_as(row.outcome), ": ", rest)))


def _told_alone(finding: Finding, title: Part, *, has_time: bool) -> Line:
    """ "39 of 47 (83%) healed", with its time among others; a share at a time says itself what it is of."""
    said = in_sentence([finding], in_bracket=False)
    if finding.kind == "estimate":
        return said
    return line(said, " ", title, line(", ", when(finding)) if has_time else None)


_DEFINITION_GROUPS = (
    ("strict", "By the stricter definition"),
    ("lenient", "By the looser definition"),
    ("survival", ""),
    ("other", "Other endings"),
    ("occurrence", "How often it happens: among all, and no ending"),
)


def definition_group(outcome: Outcome) -> str:
    """Which of the five views an outcome belongs to."""
    if outcome.construct.text == "survival":
        return "survival"
    if is_occurrence(outcome):
        return "occurrence"
    return outcome.strictness.text if outcome.strictness.text in ("strict", "lenient") else "other"


def _panels(catalogue: Catalogue, question: Question, rows: Sequence[OutcomeRates]) -> list[Block]:
    """One drawing a definition, the first open, each other one a tap away under the view it belongs to."""
    if not rows:
        return []
    first, *others = rows
    out: list[Block] = [
        Section(first.outcome.title.text, _anchor(first), _panel(catalogue, question, first), _kind(first))
    ]
    if others:
        said = Paragraph(
            line("Success and survival, the stricter definition and the looser, never share a drawing."), "quiet"
        )
        inner: list[Block] = [said]
        for name, title in _DEFINITION_GROUPS:
            mine = [row for row in others if definition_group(row.outcome) == name]
            if mine:
                many = catalogue.main_unit(question.id).many
                inner.append(Paragraph(line(title or f"{many.capitalize()} kept"), "lead"))
            inner.extend(
                Details(row.outcome.title.text, _panel(catalogue, question, row), "part", anchor=_anchor(row))
                for row in mine
            )
        out.append(Section("By another definition", "lens", tuple(inner), "lens"))
    return out


def _anchor(row: OutcomeRates) -> str:
    return f"by-{row.outcome.id}"


def _kind(row: OutcomeRates) -> str:
    return f"by-definition {definition_group(row.outcome)}"


def _panel(catalogue: Catalogue, question: Question, row: OutcomeRates) -> Blocks:
    """The drawing of one definition with where the knowledge ends; its studies and what pools are a tap away."""
    outcome, comparability = row.outcome, row.comparability
    counted, superseded = comparability.counted, comparability.superseded
    blocks: list[Block] = [Paragraph(_counts_from(outcome, counted), "quiet")]
    blocks.extend(Paragraph(said, "threshold") for said in _thresholds(catalogue, question, outcome))
    blocks.extend(_drawings(catalogue, question, row))
    together = [group for group in at_one_time(counted) if len(group) > 1]
    blocks.extend(
        Paragraph(line(together_line(catalogue, question.id, outcome, group), "."), "together") for group in together
    )
    here = {finding.base for finding in counted}
    back = [item for item in reversals(catalogue, question.id, counted) if item.base not in here]
    blocks.append(Paragraph(_gap(question, outcome, counted, has_later=bool(back)), "gap"))
    if back:
        title = "Early is not lasting: what the same studies found later"
        blocks.append(
            Details(title, (Items(tuple(reversal_line(catalogue, item) for item in back), kind="reversals"),))
        )
    lists = (
        rates_rows(catalogue, question.id, outcome, counted, superseded, is_timed=timed) for timed in (True, False)
    )
    rows: list[Block] = [found for found in lists if found is not None]
    gone = superseded_lines(catalogue, [item for item in superseded if item.by.key != item.finding.key])
    if gone:
        rows.append(Items(tuple(gone), kind="superseded"))
    blocks.append(Details("Every study, one by one", tuple(rows), anchor=list_anchor(outcome)))
    pooled: list[Block] = []
    for pool in row.pools:
        pooled.append(Paragraph(line(window_line(pool), pool_line(pool), "."), "pool"))
        moved = rate_sensitivity(
            catalogue, pool, f"{outcome.title.text} {pool.suffix}", _lenient(catalogue, question, row)
        )
        if moved is not None:
            pooled.append(Details("How far it moves", (moved,), "more"))
    blocks.append(Details("Put together, or why not", tuple(pooled)))
    return tuple(blocks)


def _drawings(catalogue: Catalogue, question: Question, row: OutcomeRates) -> list[TimePlot]:
    """Those of one definition, as far as the recall plan goes on."""
    plan = question.recall.visits if question.recall is not None else ()
    asked_to = max((float(visit.months) for visit in plan), default=0.0)
    return time_drawings(catalogue, question.id, row.outcome, row.comparability.counted, asked_to)


def first_drawing(catalogue: Catalogue, question: Question) -> TimePlot | None:
    """The drawing that heads the page; None where nothing has a time."""
    rows = rates_by_outcome(catalogue, question)
    return next(iter(_drawings(catalogue, question, rows[0])), None) if rows else None


def _counts_from(outcome: Outcome, counted: Sequence[Finding]) -> Line:
    starts = joined([line(typed(start)) for start in starts_of(counted)], ", in others from ")
    return line(definition(outcome), ". Time counts from ", starts, ".")


def window_line(pool: RatePool) -> Line:
    """ "at 24 months, ", the one time of a shown pool; empty without."""
    if not pool.is_shown or pool.group is None:
        return ()
    first = pool.group.findings[0]
    at = first.time("at")
    return line("at ", length(at), ", ") if at is not None else ()


def _thresholds(catalogue: Catalogue, question: Question, outcome: Outcome) -> list[Line]:
    out = []
    for item in question.thresholds:
        if item.outcome.text != outcome.id:
            continue
        on = line(", on ", date(item.agreed.value)) if item.agreed is not None else None
        by = line(" by ", typed(person_name(item.by.text, catalogue))) if item.by is not None else None
        out.append(
            line(
                "Fixed beforehand as good enough: at least ", typed(item.at_least.text, "threshold"), " at ",
                typed(item.at.text, "threshold"), on, by, ".",
            )
        )  # fmt: skip
    return out


def _gap(question: Question, outcome: Outcome, counted: Sequence[Finding], *, has_later: bool) -> Line:
    """Where the knowledge ends, in words: early is not durable.

    has_later: estimates of those who had done well follow, which are counted from there and not from the start.
    """
    found = latest(counted)
    plan = question.recall.visits if question.recall is not None else ()
    last = max(plan, key=lambda visit: visit.months, default=None)
    if found is None:
        start = line("No rate here belongs to one stated time")
        later = line("; at any stated time: ", not_known(question), ".")
        return line(start, later)
    finding, at = found
    window = finding.window or 0
    few = finding.figure("estimate/at_risk") if finding.kind == "estimate" else None
    thin = line(", where ", few, " were still at risk") if few is not None and few.number < FEW_FOLLOWED else None
    visits: Line = ()
    if last is not None and last.months > window:
        visits = line(" The recall plan goes on to ", typed(last.text, "visit"), ".")
    whom = ", of all who were treated" if has_later else ""
    those = " What became of those who had done well is counted from there, below." if has_later else ""
    return line(
        "The latest stated time is ", at, thin, f"; later than that{whom}: ", not_known(question),
        f".{those} An early rate promises no late one.", visits,
    )  # fmt: skip


def _lenient(catalogue: Catalogue, question: Question, row: OutcomeRates) -> tuple[tuple[str, RatePool], ...]:
    """The pools of the outcomes that are lenient of this one."""
    out = []
    for other in in_order(catalogue, question, catalogue.evidence.vocabulary.outcomes):
        if other.lenient_of is None or other.lenient_of.text != row.outcome.id:
            continue
        same = [item for item in overall_findings(catalogue, question.id) if item.outcome.id == other.id]
        comparability = comparability_of(same)
        if comparability.counted:
            pool = rate_pool(
                catalogue, f"{question.id}/overall", other.id, f"All examined: {other.title.text}", comparability
            )
            out.append((f"counted as {other.title.text}", pool))
    return tuple(out)
