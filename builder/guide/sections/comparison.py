"""A level beside its reference for one outcome: sentence, figures, which way each study points, where they conflict."""

from __future__ import annotations

from collections.abc import Iterable

from ...reading.model import Certainty, Question
from ...reading.values import Missing
from ..findings.direction import PAIRS, Compared, Side
from ..findings.findings import Catalogue, Finding
from ..findings.margins import margin_verdict
from ..findings.which_way import Direction
from ..numbers.mean_differences import difference_line
from ..saying.certainty import NOT_JUDGED, associated, ledger
from ..saying.event_words import is_measured, said_of, way_words_of
from ..saying.labels import without_digits
from ..saying.source_reference import source_link
from ..saying.titles import factor_title, levels_of
from ..saying.wording import adjustment, contrast, cut, definition, estimate, rate, timing
from ..values.document import Block, Line, Paragraph, Table, joined, line, typed
from .compared_levels import compared_title, comparisons, reference_words
from .one_study import which_way
from .plots import direction_plot
from .several_studies import by_direction, directions_workings, told_apart

# House rule: below six clear directions the exact two-sided P cannot fall under .05, so none is computed.
SIGN_TEST_FROM = 6


def answer_line(catalogue: Catalogue, question: Question, item: Compared) -> Line:
    """One short sentence of which level goes with what beside which reference; and how sure, and judged when."""
    title = dict(levels_of(catalogue, item.factor)).get(item.level, item.level)
    judged = ledger(question, item.outcome.id, item.factor, item.level)
    verdict = item.verdict
    is_named = verdict not in ("better", "worse") or all(is_measured(side.finding) for side in item.sides)
    named = line(" (", typed(item.outcome.title.text, "definition"), ")") if is_named else None
    if not item.sides:
        said = line("no study of this level alone")
    elif verdict == "mixed":
        said = line("the studies do not agree on which way it goes")
    elif verdict == "not known":
        said = line("which way it goes is not stated")
    else:
        said = _association(question, item, verdict, judged)
        said = said if is_named else line(said, _by_definition(catalogue, question, item))
    at = line(", judged at ", typed(judged.at.text, "threshold")) if judged is not None and judged.at else None
    sure = line("Certainty: ", judged.final.text) if judged is not None else line(f"How sure is {NOT_JUDGED}")
    return line(
        typed(factor_title(catalogue, item.factor)), ", ", typed(title, "definition"), " against ",
        reference_words(item), named, ": ", said, ". ", sure, at, ".",
    )  # fmt: skip


def _by_definition(catalogue: Catalogue, question: Question, item: Compared) -> Line:
    """Which outcome is meant, where the same words are said of two."""
    words = said_of(item.outcome)
    for other in comparisons(catalogue, question, item.factor):
        if other.level == item.level and other.outcome.id != item.outcome.id and said_of(other.outcome) == words:
            strictness = item.outcome.strictness.text
            if strictness in ("strict", "lenient"):
                return line(f", by the {strictness} definition")
            return line(" (", typed(item.outcome.title.text, "definition"), ")")
    return ()


def figures_lines(catalogue: Catalogue, question: Question, item: Compared) -> list[Block]:
    """Behind the sentence: the figures in one paragraph, and in a quiet one what one must know to read them."""
    figures, notes = told_apart(catalogue, question, item)
    by_study = "By study: " if len(item.sides) > 1 else None
    counted = line("Counted: ", typed(item.outcome.title.text, "definition"))
    return [
        Paragraph(line(by_study, figures, "."), "finding"),
        Paragraph(line(joined([counted, *notes]), "."), "quiet"),
    ]


def _association(question: Question, item: Compared, verdict: Direction, judged: Certainty | None) -> Line:
    """The side in the event's words, as strong as people judged it; unjudged it is no more than what studies found."""
    side = item.sides[0]
    has_margin = margin_verdict(side.ratio if side.ratio is not None else side.finding) is not None
    measured = all(is_measured(each.finding) for each in item.sides)
    way = way_words_of(item.outcome, verdict, is_measured=measured)
    if len(item.sides) == 1 and (has_margin or judged is None):
        way = which_way(side, f"{question.id}/{item.factor}", is_brief=True)
    if judged is not None:
        return associated(judged, way)
    return line("one study, " if len(item.sides) == 1 else "the studies point to ", way or "no clear difference")


def comparison_blocks(catalogue: Catalogue, question: Question, item: Compared, anchor: str) -> list[Block]:
    """The drawing, the table and the conflicts of one comparison; its sentence and figures stand before it."""
    sign_test(catalogue, question, item)
    name = f"Which way: {compared_title(catalogue, item)}"
    blocks: list[Block] = [
        direction_plot(catalogue, item.sides, f"{anchor}-plot", without_digits(name), line(_reading(item))),
        _table(catalogue, question, item, name),
    ]
    blocks.extend(Paragraph(conflict, "warning") for conflict in _own_conflicts(item))
    return blocks


def _reading(item: Compared) -> str:
    """How the drawing is read; of marks that are not in it nothing is said."""
    said = ["above the line: better for the patient", "below it: worse"]
    if item.count("no clear difference"):
        said.append("a bar on it: no clear difference")
    if item.count("not stated"):
        said.append("a bare line: not stated")
    said.extend(("filled: adjusted", "open: crude", "the larger, the more units"))
    return f"Only the side of each point estimate, {'; '.join(said)}. How clear it is stands in the table."


def _table(catalogue: Catalogue, question: Question, item: Compared, name: str) -> Table:
    header = ("Report", "Which way", "Numbers", "How and when", "Groups differed in")
    rows = tuple(
        (
            (source_link(side.finding.key, catalogue),),
            line(which_way(side, f"{question.id}/{item.factor}"), _over(side)),
            numbers_line(side),
            line(joined([*_adjusted(side.finding), timing(side.finding), line(_planned(side.finding))])),
            baseline_differences(side.finding),
        )
        for side in (*item.sides, *item.reaching)
    )
    return Table(
        line("One row a study; ", definition(item.outcome)), tuple(line(cell) for cell in header), rows,
        without_digits(name), "directions",
    )  # fmt: skip


def _adjusted(finding: Finding) -> list[Line]:
    """Adjusted or crude, where the numbers do not say so themselves."""
    return [] if finding.kind == "contrast" else [line(adjustment(finding))]


def _planned(finding: Finding) -> str:
    said = finding.claim.planned
    return f"planned: {said.text if said else 'not reported'}"


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


_SIDES = ("better", "worse")


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
        inputs=tuple(figure for way, figure in by_direction(catalogue, question, item).items() if way in _SIDES),
        says=f"{compared_title(catalogue, item)}: "
        "exact two-sided sign test at one half, ties left out (it decides nothing and says nothing about size), P",
        is_only_worked=True,
    )  # fmt: skip
    return line(figure)
