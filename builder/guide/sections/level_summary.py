"""What is known of one factor level beside its reference: one line an outcome, never joined over factors."""

from __future__ import annotations

from ...reading.model import Question
from ..findings.direction import Compared, Side, compared, sides_of
from ..findings.findings import Catalogue, Finding
from ..findings.which_way import Direction
from ..saying.certainty import how_sure, ledger
from ..saying.source_reference import source_link
from ..saying.wording import adjustment, contrast, cut, main_part, rate, timing
from ..values.document import Block, Blocks, Items, Line, Link, Paragraph, Span, date, joined, line, typed

_SAID: dict[str, str] = {
    "better": "did better",
    "worse": "did worse",
    "no clear difference": "no clear difference",
    "not stated": "not stated",
}


def not_known(question: Question) -> Line:
    """The answer where nothing is known: never "no study exists"."""
    if question.searched is None:
        return line("none in people in this guide, search not recorded")
    return line("none in people in this guide, searched ", date(question.searched.on.value))


def level_summary(catalogue: Catalogue, question: Question, factor: str, level: str) -> Blocks:
    """What a reader is told for one answer of the situation."""
    results = [item for item in compared(catalogue, question.id, factor, level) if item.sides]
    blocks: list[Block] = []
    if results:
        blocks.append(
            Items(tuple(comparison_summary(catalogue, question, item) for item in results), kind="known-lines")
        )
    elif is_reference(catalogue, question, factor, level):
        blocks.append(Paragraph(line("The other answers are compared with this one."), "quiet"))
        rows = reference_rates(catalogue, question, factor, level)
        if rows:
            blocks.append(Items(rows, kind="known-lines"))
    else:
        blocks.append(Paragraph(not_known(question), "not-known"))
    blocks.append(Paragraph(line(Link(f"{question.id}/{factor}/", ("Studies, numbers and how sure",))), "more"))
    return tuple(blocks)


def comparison_summary(catalogue: Catalogue, question: Question, item: Compared) -> Line:
    """One outcome of one level: which way, in how many studies, the rates of both, when, how sure."""
    sure = how_sure(ledger(question, item.outcome.id, item.factor, item.level))
    verdict = item.verdict
    examples = [side for side in item.sides if side.direction == verdict] if verdict in _SAID else list(item.sides)
    shown = sorted(examples or item.sides, key=lambda side: (-side.units, side.finding.base))[:1]
    if verdict == "mixed":
        shown = [
            min(
                (side for side in item.sides if side.direction == way),
                key=lambda side: (-side.units, side.finding.base),
            )
            for way in ("better", "worse", "no clear difference")
            if item.count(way)
        ]
    return line(
        Span(
            "strong",
            line(typed(item.outcome.title.text, "definition"), ": ", direction_counts(catalogue, question, item)),
        ),
        ". ",
        joined([side_line(catalogue, side) for side in shown]),
        ". ",
        Span("sure", sure),
    )


def directions_workings(question: Question, item: Compared) -> str:
    """The workings that all comparisons of a factor share, opened by `direction_counts`."""
    return f"{question.id}-{item.factor}-directions"


def direction_counts(catalogue: Catalogue, question: Question, item: Compared) -> Line:
    """How many studies point each way within one factor and outcome, and how many do not say."""
    names: dict[Direction, str] = {
        "better": "better", "worse": "worse", "no clear difference": "level", "not stated": "not-stated",
    }  # fmt: skip
    inputs = tuple(dict.fromkeys(figure for side in item.sides for figure in side.figures))
    workings = catalogue.book.explain(
        directions_workings(question, item),
        "Studies by direction",
        "each study counted once, on the side of its own point estimate; equal at whole per cent, or a ratio that "
        "prints as 1.0, is no clear difference; the interval and the P value decide nothing",
        published="McKenzie & Brennan, Cochrane Handbook for Systematic Reviews of Interventions, chapter 12",
        inputs=inputs,
    )
    known = catalogue.evidence.vocabulary.factors.get(item.factor)
    titles = {level.id.text: level.title.text for level in known.levels} if known is not None else {}
    what = f"{titles.get(item.level, item.level)}, {item.outcome.title.text}"
    parts: list[Line] = []
    for way, name in names.items():
        count = item.count(way)
        if not count:
            continue
        figure = catalogue.book.computed(
            f"{question.id}/{item.factor}/{name}-{item.name}", str(count), count, "study", workings,
            inputs=inputs, says=f"{what}: {_SAID[way]}",
        )  # fmt: skip
        parts.append(line(f"{_SAID[way]} in ", figure, " study" if count == 1 else " studies"))
    counted = joined(parts, ", ")
    return line("the studies do not agree: ", counted) if item.verdict == "mixed" else counted


def side_line(catalogue: Catalogue, side: Side) -> Line:
    """One study's numbers of both levels, its time, and where they stand."""
    link = source_link(side.finding.key, catalogue)
    if side.finding.kind == "contrast":
        return line(contrast(side.finding), " (", link, ")")
    if side.finding.kind == "words":
        return line("in words only", cut(side.finding), " (", link, ")")
    if side.finding.kind == "test":
        return line("a test without numbers", cut(side.finding), " (", link, ")")
    wording = side.finding.level.level.text if side.finding.level else ""
    own = line(typed(wording, "definition"), ": " if wording else None, main_part(side.finding))
    other: Line = ()
    if side.reference is not None and side.reference.level is not None:
        other = line("; ", typed(side.reference.level.level.text, "definition"), ": ", rate(side.reference))
    return line(
        own, other, ", ", timing(side.finding), ", ", adjustment(side.finding), cut(side.finding), " (", link, ")"
    )


def is_reference(catalogue: Catalogue, question: Question, factor: str, level: str) -> bool:
    """True where other levels were compared with this one."""
    return any(level in side.reference_ids for side in sides_of(catalogue, question.id, factor))


def reference_rates(catalogue: Catalogue, question: Question, factor: str, level: str) -> tuple[Line, ...]:
    """Rates of a reference level, the largest study of each outcome."""
    best: dict[str, Finding] = {}
    for side in sides_of(catalogue, question.id, factor):
        row = side.reference
        if row is None or level not in row.level_ids or not row.is_human or row.is_withdrawn or row.events is None:
            continue
        held = best.get(row.outcome.id)
        if held is None or _fit(row) > _fit(held):
            best[row.outcome.id] = row
    return tuple(
        line(
            typed(row.outcome.title.text, "definition"), ": ",
            typed(row.level.level.text if row.level is not None else "", "definition"), ": ",
            rate(row), ", ", timing(row),
            " (", source_link(row.key, catalogue), ")",
        )
        for _, row in sorted(best.items())
    )  # fmt: skip


def _fit(row: Finding) -> tuple[int, int, str]:
    """Rows that speak of one level alone come first, then the larger; the paper's own wording always stands beside."""
    return -len(row.level_ids), row.total or 0, row.base
