"""A level beside its reference for one outcome: the sentence, which way each study points, and where they conflict."""

from __future__ import annotations

from collections.abc import Iterable

from ...reading.model import Question
from ...reading.values import Missing
from ..findings.direction import PAIRS, Compared, Side
from ..findings.findings import Catalogue, Finding
from ..findings.margins import margin_verdict
from ..findings.which_way import Direction
from ..numbers.mean_differences import difference_line
from ..saying.certainty import NOT_JUDGED, associated, how_sure, ledger
from ..saying.event_words import is_measured, way_words_of
from ..saying.labels import without_digits
from ..saying.source_reference import source_link
from ..saying.titles import factor_title, levels_of
from ..saying.wording import adjustment, contrast, cut, definition, estimate, rate, timing
from ..values.document import Block, Line, Paragraph, Section, Table, joined, line, typed
from .compared_levels import compared_title, reference_words
from .one_study import which_way
from .plots import direction_plot
from .several_studies import directions_workings, several

# House rule: below six clear directions the exact two-sided P cannot fall under .05, so none is computed.
SIGN_TEST_FROM = 6


def answer_line(catalogue: Catalogue, question: Question, item: Compared) -> Line:
    """Which level goes with what, beside which reference, by which definition, how sure; then the studies' sides."""
    title = dict(levels_of(catalogue, item.factor)).get(item.level, item.level)
    judged = ledger(question, item.outcome.id, item.factor, item.level)
    verdict = item.verdict
    if not item.sides:
        said = line("no study of this level alone")
    elif verdict == "mixed":
        said = line("the studies do not agree on which way it goes")
    elif verdict == "not known":
        said = line("which way it goes is not stated")
    else:
        said = associated(judged, _goes_with(question, item, verdict))
    at = line(", judged at ", typed(judged.at.text, "threshold")) if judged is not None and judged.at else None
    unjudged = judged is None and not said
    sure = line("; " if said else None, f"how sure is {NOT_JUDGED}" if unjudged else how_sure(judged), at)
    by_study = ". By study: " if len(item.sides) > 1 else ". "
    return line(
        typed(factor_title(catalogue, item.factor)), ": ", typed(title, "definition"), ", beside ",
        reference_words(item), " (",
        typed(item.outcome.title.text, "definition"), "): ", said, sure, by_study,
        several(catalogue, question, item), ".",
    )  # fmt: skip


def _goes_with(question: Question, item: Compared, verdict: Direction) -> Line:
    """The side in the event's words; of one trial with a margin also where it lies beside that."""
    side = item.sides[0]
    has_margin = margin_verdict(side.ratio if side.ratio is not None else side.finding) is not None
    if len(item.sides) == 1 and has_margin:
        return which_way(side, f"{question.id}/{item.factor}")
    measured = all(is_measured(each.finding) for each in item.sides)
    return way_words_of(item.outcome, verdict, is_measured=measured)


def comparison_section(catalogue: Catalogue, question: Question, item: Compared, anchor: str) -> Section:
    """The drawing, the counts, the conflicts and the table of one comparison."""
    sign_test(catalogue, question, item)
    name = f"Which way: {compared_title(catalogue, item)}"
    blocks: list[Block] = [
        Paragraph(answer_line(catalogue, question, item), "finding"),
        direction_plot(catalogue, item.sides, f"{anchor}-plot", without_digits(name), line(_READING)),
        _table(catalogue, question, item, name),
    ]
    blocks.extend(Paragraph(conflict, "warning") for conflict in _own_conflicts(item))
    return Section(compared_title(catalogue, item), anchor, tuple(blocks), "comparison")


_READING = (
    "Only the side of each point estimate; how clear it is stands in the table. Above the line: better for the "
    "patient; below it: worse; a bar on it: no clear difference; a bare line: not stated. "
    "Filled: adjusted; open: crude. The larger the mark, the more units."
)


def _table(catalogue: Catalogue, question: Question, item: Compared, name: str) -> Table:
    header = ("Report", "Which way", "Numbers", "Crude or adjusted", "When", "Planned", "Groups differed in")
    rows = tuple(
        (
            (source_link(side.finding.key, catalogue),),
            line(which_way(side, f"{question.id}/{item.factor}"), _over(side)),
            numbers_line(side),
            line(adjustment(side.finding)),
            timing(side.finding),
            line(side.finding.claim.planned.text if side.finding.claim.planned else "not reported"),
            baseline_differences(side.finding),
        )
        for side in (*item.sides, *item.reaching)
    )
    return Table(
        line("One row a study; ", definition(item.outcome)), tuple(line(cell) for cell in header), rows,
        without_digits(name), "directions",
    )  # fmt: skip


def _over(side: Side) -> str:
    return "; it reaches over two levels of this guide and counts in neither" if side.reaches_over else ""


def baseline_differences(finding: Finding) -> Line:
    """How the groups differed at the start, as typed; printed with every comparison."""
    words = [word.text for word in finding.claim.differ_in]
    return line(typed("; ".join(words))) if words else line("not reported")


def numbers_line(side: Side) -> Line:
    """Both levels' numbers, or the ratio, or that there are only words."""
    finding = side.finding
    if finding.kind == "contrast":
        return contrast(finding)
    if finding.kind == "pairs":
        return _pairs_line(finding)
    if finding.kind in ("words", "test"):
        return line("in words only" if finding.kind == "words" else "a test without numbers", cut(finding))
    parts = [_row_line(finding)]
    if side.reference is not None:
        parts.append(_row_line(side.reference))
    if side.ratio is not None and side.ratio.contrast is not None and side.ratio.contrast.margin is not None:
        parts.append(contrast(side.ratio))
    if finding.kind == "measured" and side.reference is not None:
        place = f"{finding.claim.question[0].text}/{finding.factor}"
        parts.append(line("difference ", difference_line(finding, side.reference, place)))
    return line(joined(parts), cut(finding))


def _pairs_line(finding: Finding) -> Line:
    pairs = finding.claim.pairs
    found = [finding.figure(name) for name in PAIRS]
    if pairs is None or isinstance(pairs, Missing) or any(figure is None for figure in found):
        return line("pairs, their counts not reported")
    names = ("both", f"only {pairs.a.text}", f"only {pairs.b.text}", "neither")
    parts = [line(typed(name, "definition"), " ", figure) for name, figure in zip(names, found, strict=True)]
    return line("the same patients with both: ", joined(parts, ", "))


def _row_line(finding: Finding) -> Line:
    wording = finding.level.level.text if finding.level is not None else ""
    said = estimate(finding) if finding.kind == "estimate" else rate(finding)
    return line(typed(wording, "definition"), ": ", said)


def _own_conflicts(item: Compared) -> list[Line]:
    """What does not agree, in plain words: between the studies, and within one of them."""
    out: list[Line] = []
    if item.count("better") and item.count("worse"):
        out.append(line("The studies do not agree: some lie on either side. Nothing here decides between them."))
    for study in sorted(item.mixed):
        out.append(
            line("Within the study ", typed(study, "identifier"), " one table points to better, another to worse.")
        )
    return out


def outcome_conflicts(items: Iterable[Compared]) -> list[Line]:
    """Studies in which a level did better by one outcome and worse by another."""
    seen: dict[tuple[str, str], dict[str, list[Compared]]] = {}
    for item in items:
        for side in item.sides:
            if side.direction in ("better", "worse"):
                for study in side.people:
                    seen.setdefault((item.level, study), {}).setdefault(side.direction, []).append(item)
    out = []
    for (level, study), ways in sorted(seen.items()):
        if len(ways) == 2:
            better, worse = (
                joined([line(typed(item.outcome.title.text, "definition")) for item in ways[way]], ", ")
                for way in ("better", "worse")
            )
            said = line("Within the study ", typed(study, "identifier"), " outcomes point both ways for ")
            out.append(line(said, typed(level, "definition"), ": better by ", better, ", worse by ", worse, "."))
    return out


def sign_test(catalogue: Catalogue, question: Question, item: Compared) -> Line | None:
    """The exact sign test, for the workings alone; None below six clear directions or with patients in common."""
    from ...synthesis import sign_test as exact_sign_test

    better, worse = item.count("better"), item.count("worse")
    if better + worse < SIGN_TEST_FROM or any(len(side.people) > 1 for side in item.sides):
        return None
    p = exact_sign_test(better, better + worse)
    text = "< .001" if p < 0.001 else f"{p:.3f}"
    figure = catalogue.book.computed(
        f"{question.id}/{item.factor}/sign-test-{item.name}", text, f"{p:.15g}", "P",
        directions_workings(question, item.factor),
        inputs=tuple(dict.fromkeys(figure for side in item.sides for figure in side.figures)),
        says=f"{compared_title(catalogue, item)}: "
        "exact two-sided sign test at one half, ties left out (it decides nothing and says nothing about size), P",
        is_only_worked=True,
    )  # fmt: skip
    return line(figure)
