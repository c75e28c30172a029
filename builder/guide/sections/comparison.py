"""A level beside its reference for one outcome: sentence, figures, which way each study points, where they conflict."""

from __future__ import annotations

from collections.abc import Iterable

from ...reading.model import Certainty, Question
from ...reading.values import Missing
from ...results.findings.direction import Compared
from ...results.findings.findings import Catalogue, Finding
from ...results.findings.margins import margin_places, margin_verdict
from ...results.findings.side import PAIRS, Side
from ...results.findings.spoken_outcomes import DEFINITIONS
from ...results.findings.which_way import Direction
from ...results.numbers.clearness import clearness
from ...results.numbers.mean_differences import difference_line
from ...results.saying.certainty import NOT_JUDGED, associated, judged_so, ledger
from ...results.saying.event_words import is_measured, said_of, way_words_of
from ...results.saying.labels import without_digits
from ...results.saying.margin_words import margin_told
from ...results.saying.short_words import opened_timing
from ...results.saying.source_reference import source_link, source_links
from ...results.saying.titles import factor_title, levels_of
from ...results.saying.wording import adjustment, contrast, cut, estimate, percent, rate
from ...results.values.document import Block, Blocks, Details, Items, Paragraph, StudyRow
from ...results.values.line import Line, joined, line, typed
from ..sentences.prose import withdrawn
from .compared_levels import compared_title, comparisons, reference_wording, reference_words
from .one_study import level_wording, short_way, which_way
from .several_studies import by_direction, directions_workings, told_apart, unplanned_words
from .study_rows import SideRow, comparison_rows, is_of_several, row_name, told

# House rule: below six clear directions the exact two-sided P cannot fall under .05, so none is computed.
SIGN_TEST_FROM = 6


def answer_line(catalogue: Catalogue, question: Question, item: Compared) -> Line:
    """One short sentence of which level goes with what beside which reference; and how sure, and judged when."""
    title = dict(levels_of(catalogue, item.factor)).get(item.level, item.level)
    judged = ledger(question, item.outcome.id, item.factor, item.level)
    verdict = item.verdict
    is_named = verdict not in ("better", "worse") or all(is_measured(side.finding) for side in item.sides)
    named = line(" (", typed(item.outcome.title.text, "definition"), ")") if is_named else None
    if judged is not None and _is_within_alone(question, item):
        # What was judged is that it is not worse by more than the margin, and no side: the interval shows none.
        (side,) = item.sides
        held = margin_told(side.ratio if side.ratio is not None else side.finding)
        said = line(typed(item.outcome.title.text, "definition"), " ", judged_so(judged, held))
    elif not item.sides:
        said = line("no study of this level alone")
    elif verdict == "mixed":
        said = line("the studies do not agree on which way it goes")
    elif verdict == "not known":
        said = line("which way it goes is not stated")
    else:
        said = _association(question, item, verdict, judged)
        named = named if is_named else _by_definition(catalogue, question, item) or None
    at = line(", judged at ", typed(judged.at.text, "threshold")) if judged is not None and judged.at else None
    sure = line("Certainty: ", judged.final.text) if judged is not None else line(f"How sure: {NOT_JUDGED}")
    return line(
        typed(factor_title(catalogue, item.factor)), ", ", typed(title, "definition"), " against ",
        reference_words(item), named, ": ", said, ". ", sure, at, ".",
    )  # fmt: skip


def _is_within_alone(question: Question, item: Compared) -> bool:
    """True of a single study within a margin on one side of no difference, whose interval shows neither side."""
    if len(item.sides) != 1:
        return False
    (side,) = item.sides
    printed = side.ratio if side.ratio is not None else side.finding
    is_one_sided = len(margin_places(printed)) == 1
    is_within = is_one_sided and margin_verdict(printed) == "within"
    return is_within and not clearness(side, f"{question.id}/{item.factor}").is_clear


def _by_definition(catalogue: Catalogue, question: Question, item: Compared) -> Line:
    """Which outcome is meant, where the same words are said of two."""
    words = said_of(item.outcome)
    for other in comparisons(catalogue, question, item.factor):
        if other.level == item.level and other.outcome.id != item.outcome.id and said_of(other.outcome) == words:
            if item.outcome.strictness.text in DEFINITIONS:
                return line(f", {DEFINITIONS[item.outcome.strictness.text]}")
            return line(" (", typed(item.outcome.title.text, "definition"), ")")
    return ()


def figures_lines(catalogue: Catalogue, question: Question, item: Compared) -> list[Block]:
    """Behind the sentence: the figures in one paragraph, and in a quiet one what one must know to read them."""
    figures, notes = told_apart(catalogue, question, item)
    by_study = "By study: " if len(item.sides) > 1 else None
    counted = line("Counted: ", typed(item.outcome.title.text, "definition"))
    known: list[Block] = [Paragraph(line(joined([counted, *notes]), "."), "quiet")]
    if len(item.sides) == 1 and item.verdict == "not known" and not item.reaching:
        # Its sentence has said all of it.
        return known
    return [Paragraph(line(by_study, figures, "."), "finding"), *known]


def _association(question: Question, item: Compared, verdict: Direction, judged: Certainty | None) -> Line:
    """The side in the event's words, as strong as people judged it; unjudged it is no more than what studies found."""
    side = item.sides[0]
    measured = all(is_measured(each.finding) for each in item.sides)
    way = way_words_of(item.outcome, verdict, is_measured=measured)
    if judged is not None:
        held = margin_told(side.ratio if side.ratio is not None else side.finding) if len(item.sides) == 1 else ()
        return line(associated(judged, way), line("; ", held) if held else None)
    if len(item.sides) == 1:
        way = which_way(side, f"{question.id}/{item.factor}", is_brief=True)
    lead = "the studies point to "
    if len(item.sides) == 1:
        lead = "one report of several studies together, " if is_of_several(side.finding) else "one study, "
    return line(lead, way or "no clear difference")


def comparison_blocks(catalogue: Catalogue, question: Question, item: Compared) -> list[Block]:
    """One row a study and the conflicts of one comparison; its sentence and figures stand before it."""
    sign_test(catalogue, question, item)
    place = f"{question.id}/{item.factor}"
    counted = [
        SideRow(side, short_way(side, place), _all_of(catalogue, place, side)) for side in (*item.sides, *item.reaching)
    ]
    gone = dict.fromkeys(side.finding.key for side, _ in item.not_counted if side.finding.is_withdrawn)
    withdrawn_rows = tuple(_withdrawn_row(catalogue, key) for key in gone)
    others = [*_given_way(catalogue, place, item), *_limit_elsewhere(catalogue, place, item)]
    blocks = comparison_rows(catalogue, question, item, [*counted, *others], withdrawn_rows)
    blocks.extend(Paragraph(conflict, "warning") for conflict in _own_conflicts(catalogue, item))
    return blocks


def _given_way(catalogue: Catalogue, place: str, item: Compared) -> list[SideRow]:
    """Sides of patients whom another row counts: what they found, and which row it is."""
    shown = [*item.sides, *item.reaching]
    taken = {id(side) for side in shown}
    out = []
    for side in item.every:
        by = next((other for other in shown if other.people & side.people), None)
        # The crude ratio of a table only says its counts once more.
        if id(side) in taken or by is None or (side.finding.kind == "contrast" and not side.is_adjusted):
            continue
        if side.finding.key != by.finding.key:
            said = _counted_by(catalogue, side, by, shown)
        elif by.is_adjusted and not side.is_adjusted:
            said = line(short_way(side, place), "; its adjusted ratio counts")
        elif side.is_adjusted and not by.is_adjusted:
            said = line(short_way(side, place), f"; {unplanned_words(side)}, so its counts count")
        elif side.finding.claim.given is not None and by.finding.claim.given is None:
            given = typed(side.finding.claim.given.text)
            said = line(short_way(side, place), ", of ", given, " alone; all examined count")
        else:
            said = line("the same patients count by another table of this report")
        out.append(SideRow(side, said, _all_of(catalogue, place, side, is_counted=False), is_counted=False))
    return out


def _limit_elsewhere(catalogue: Catalogue, place: str, item: Compared) -> list[SideRow]:
    """Studies that part the levels at another limit: what they found, and that neither level has them."""
    return [
        SideRow(
            side,
            line(
                short_way(side, place), ", ", typed(reference_wording(side), "definition"),
                ": over both levels, counts in neither",
            ),
            _all_of(catalogue, place, side, is_counted=False), is_counted=False,
        )
        for side in item.elsewhere
    ]  # fmt: skip


def _counted_by(catalogue: Catalogue, side: Side, by: Side, shown: Iterable[Side]) -> Line:
    """The reports that count the patients of a side, that of `by` first."""
    keys = dict.fromkeys((by.finding.key, *(other.finding.key for other in shown if other.people & side.people)))
    links = source_links(catalogue, keys, " and ")
    adjusted = ", by its adjusted ratio" if by.is_adjusted and not side.is_adjusted else None
    return line("superseded: counted by ", links, adjusted)


def _withdrawn_row(catalogue: Catalogue, key: str) -> StudyRow:
    opened = Paragraph(line(source_link(key, catalogue), ": ", withdrawn(key, catalogue), "."))
    return StudyRow(row_name(catalogue, key), line("withdrawn"), line("no number of it stands here"), (opened,))


def how_to_read() -> Details:
    """What the marks of the rows mean, once a page."""
    said = (
        "The ruled strip is no difference; left of it fewer had what is counted, right of it more.",
        "A thin bar is where the difference may lie: where it stays clear of the strip the study is clear by itself, "
        "that is more than chance alone usually gives; where it meets it, too few to tell.",
        "The upright is what the study found: open where crude, filled where adjusted.",
        "A broken bar decides nothing; the row says why when it is opened.",
        "A broken upright is a margin fixed beforehand. A bar that ends before it: not worse by more than the margin.",
        "The most exact study comes first. Crude and adjusted, counts and ratios never share a scale.",
    )
    return Details("How the rows are read", (Items(tuple(line(text) for text in said)),))


def _all_of(catalogue: Catalogue, place: str, side: Side, *, is_counted: bool = True) -> Blocks:
    """Everything that is told of one study of a comparison; which way it goes is told of what is counted."""
    finding = side.finding
    when = line(joined([*_adjusted(finding), opened_timing(finding), line(_planned(finding))]))
    rows = [("Report", line(source_link(finding.key, catalogue)))]
    if is_counted:
        rows.append(("Which way", line(which_way(side, place), _over(side))))
    rows.extend((_numbers(side), ("How and when", when)))
    rows.append(("Groups differed in", baseline_differences(finding)))
    return told(rows)


def _numbers(side: Side) -> tuple[str, Line]:
    """What the row has not told: of counts, which its first line has, what they are of and the printed shares alone."""
    finding, reference = side.finding, side.reference
    both = [finding] if reference is None else [finding, reference]
    is_counted = all(row.kind == "rate" and row.events is not None and row.total for row in both)
    if not is_counted or (side.ratio is not None and margin_places(side.ratio)):
        return "Numbers", numbers_line(side)
    shares = [
        line(typed(level_wording(row), "definition"), ": ", percent(share))
        for row in both
        if (share := row.figure("success_rate", "rate")) is not None and row.events not in (0, row.total)
    ]
    units = finding.counted.many
    if shares:
        return f"Of these {without_digits(units)}", line(joined(shares), cut(finding))
    return "Counted", line(typed(units), cut(finding))


def _adjusted(finding: Finding) -> list[Line]:
    """Adjusted or crude, where the numbers do not say so themselves."""
    return [] if finding.kind == "contrast" else [line(adjustment(finding))]


def _planned(finding: Finding) -> str:
    said = finding.claim.planned.text if finding.claim.planned is not None else "not reported"
    return PLANNED.get(said, f"whether it was planned beforehand: {said}")


PLANNED = {"yes": "planned beforehand", "no": "not planned beforehand"}


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
    said = estimate(finding) if finding.kind == "estimate" else rate(finding)
    return line(typed(level_wording(finding), "definition"), ": ", said)


def _own_conflicts(catalogue: Catalogue, item: Compared) -> list[Line]:
    """What does not agree, in plain words: between the studies, and within one of them."""
    out: list[Line] = []
    if item.count("better") and item.count("worse"):
        out.append(line("The studies do not agree: some lie on either side. Nothing here decides between them."))
    for study in sorted(item.mixed):
        keys = dict.fromkeys(side.finding.key for side in item.every if study in side.people)
        out.append(line("In ", source_links(catalogue, keys), " one table points to better, another to worse."))
    return out


def outcome_conflicts(catalogue: Catalogue, items: Iterable[Compared]) -> list[Line]:
    """Studies in which a level did better by one outcome and worse by another."""
    seen: dict[tuple[str, str], dict[Direction, list[Compared]]] = {}
    keys: dict[tuple[str, str], dict[str, None]] = {}
    for item in items:
        for side in item.sides:
            if side.direction in ("better", "worse") and not _is_held(side):
                for study in side.people:
                    name = (item.level, study)
                    seen.setdefault(name, {}).setdefault(side.direction, []).append(item)
                    keys.setdefault(name, {})[side.finding.key] = None
    out = []
    for (level, study), ways in sorted(seen.items()):
        if len(ways) == 2:
            better, worse = (joined(_in_event_words(ways[way], way), ", ") for way in _SIDES)
            factor = ways["better"][0].factor
            title = typed(dict(levels_of(catalogue, factor)).get(level, level), "definition")
            who = source_links(catalogue, keys[(level, study)])
            out.append(
                line(
                    "In ", who, " the outcomes of ", title, " point both ways: ", better, "; but ", worse,
                    ". How clear each is stands in its row.",
                )
            )  # fmt: skip
    return out


def _is_held(side: Side) -> bool:
    """True of a side that a study was not made to show: its interval lies within its margin."""
    return margin_verdict(side.ratio if side.ratio is not None else side.finding) == "within"


def _in_event_words(items: list[Compared], way: Direction) -> list[Line]:
    """What went that way, each once however strictly it was counted: "strong pain less often" lies on the good side."""
    measured = ((item, all(is_measured(side.finding) for side in item.sides)) for item in items)
    return list(
        dict.fromkeys(
            line(typed(item.outcome.title.text, "definition"), " ", way_words_of(item.outcome, way, is_measured=True))
            if is_length
            else way_words_of(item.outcome, way)
            for item, is_length in measured
        )
    )


_SIDES: tuple[Direction, ...] = ("better", "worse")


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
