"""What numbers on one sheet are to each other: of other patients, by another definition, apart by more than chance."""

from __future__ import annotations

from fractions import Fraction

from ...reading.folded import folded
from ...reading.model import Question
from ...reading.values import Words
from ...results.findings.comparable import count_patients_once, people_of, reason_not_compared
from ...results.findings.direction import side_of_row
from ...results.findings.findings import Catalogue, Finding
from ...results.findings.margins import margin_verdict
from ...results.saying.reversals import reversals
from ...results.saying.whose_age import of_age
from ...results.saying.wording import n_of_n, rate
from ...results.values.document import Paragraph
from ...results.values.line import Line, Link, joined, line, typed
from ..sections.level_rates import level_findings
from ..sections.one_study import answers_covered, level_wording, which_way


def is_of_others(before: list[Finding], findings: list[Finding]) -> bool:
    """True where nobody stands behind both numbers; False without a number before."""
    return bool(before) and people_of(before[0]).isdisjoint(people_of(findings[0]))


def whose(above: list[tuple[str, list[Finding]]], findings: list[Finding]) -> Line:
    """Of whom a number speaks beside all those above it on its sheet; empty where it is of those just above.

    above: heading and findings of each number, in order.
    """
    if not above or not is_of_others(above[-1][1], findings):
        return ()
    same = next((title for title, other in reversed(above) if not is_of_others(other, findings)), None)
    if same is None:
        return line("These are other patients than above.")
    return line("The study of “", typed(same, "definition"), "” again, and not the one just above.")


def stacked(findings: list[Finding], shown: list[list[Finding]]) -> str:
    """Why a count stands on no sheet with those shown: strict and lenient ones of other patients are not stacked.

    "" where it may stand there.
    """
    first = findings[0]
    for others in shown:
        other = others[0]
        kinds = {first.outcome.strictness.text, other.outcome.strictness.text}
        if kinds != {"strict", "lenient"} or first.outcome.construct.text != other.outcome.construct.text:
            continue
        own_too = [
            item for held in shown for item in held
            if item.outcome.id == other.outcome.id and not people_of(item).isdisjoint(people_of(first))
        ]  # fmt: skip
        if people_of(first).isdisjoint(people_of(other)) and not own_too:
            return "it counts other patients by another definition than a number already on the sheet"
    return ""


def levels_apart(catalogue: Catalogue, question: Question, findings: list[Finding]) -> list[Paragraph]:
    """Of levels side by side, whether they differ by more than chance alone usually gives, in plain words."""
    reference = next((row for row in findings if _is_reference(row)), None)
    out = []
    for row in findings:
        side = side_of_row(row, reference) if row.level is not None and reference is not None else None
        if side is None or row is reference or row.level is None:
            continue
        claim = f"{row.key}/{row.claim.id.text}"
        # A study that fixed a margin is told by it, as on every other page; a margin is of its own outcome alone.
        for ratio in catalogue.of_claim(claim):
            is_of_row = ratio.outcome.id == row.outcome.id and ratio.level_ids == row.level_ids
            if ratio.kind == "contrast" and is_of_row and margin_verdict(ratio) is not None:
                side = side._replace(ratio=ratio)
        said = which_way(side, f"{question.id}/{row.factor}", is_for_patient=True)
        other = reference.level.level.text if reference is not None and reference.level is not None else ""
        against = line(" beside ", typed(other, "definition")) if other else None
        out.append(Paragraph(line(typed(row.level.level.text, "definition"), against, ": ", said, "."), "quiet"))
    return out


def in_all_studies(catalogue: Catalogue, question: Question, findings: list[Finding]) -> list[Paragraph]:
    """Of levels that several studies counted alike the lowest and the highest: the one chosen is not their example."""
    first = findings[0]
    if not first.factor or first.window is None:
        return []
    told: list[Line] = []
    for row in findings:
        alike = [
            other
            for other in level_findings(catalogue, question.id, row.factor)
            if (other.outcome.id, other.window, other.unit) == (row.outcome.id, row.window, row.unit)
            and other.kind == "rate" and folded(level_wording(other)) == folded(level_wording(row))
            and _is_told_whole(other)
        ]  # fmt: skip
        counted, _ = count_patients_once(alike)
        if len(counted) > 1:
            ordered = sorted(counted, key=lambda item: (Fraction(item.events or 0, item.total or 1), item.base))
            told.append(
                line(
                    typed(level_wording(row), "definition"), ": ", rate(ordered[0]), of_age(ordered[0]), " to ",
                    rate(ordered[-1]), of_age(ordered[-1]),
                )
            )  # fmt: skip
    if not told:
        return []
    page = Link(f"{question.id}/{first.factor}/", ("all studies that counted so",))
    return [Paragraph(line("From the lowest to the highest of ", page, ": ", joined(told), "."))]


def divided_elsewhere(catalogue: Catalogue, question: Question, findings: list[Finding]) -> list[Paragraph]:
    """A study of other patients that drew its line through a level of the sheet, and so says something else of it.

    What it found would be kept from whoever stands between the two lines. The largest such study alone.
    """
    first = findings[0]
    studies: dict[str, list[Finding]] = {}
    for row in catalogue.of_question(question.id):
        alike = (row.factor, row.outcome.id, row.kind) == (first.factor, first.outcome.id, "rate")
        if alike and people_of(row).isdisjoint(people_of(first)) and _is_told_whole(row):
            studies.setdefault(f"{row.key}/{row.claim.id.text}", []).append(row)
    shown = [frozenset(answers_covered(catalogue, row)) for row in findings]
    across = [
        rows for rows in studies.values()
        if any(sum(not level.isdisjoint(answers_covered(catalogue, row)) for level in shown) > 1 for row in rows)
    ]  # fmt: skip
    if not first.factor or not across:
        return []
    rows = max(across, key=lambda rows: (sum(row.total or 0 for row in rows), rows[0].base))
    told = [
        line(typed(row.level.level.text, "definition"), " ", n_of_n(row), of_age(row))
        for row in sorted(rows, key=_is_reference) if row.level is not None
    ]  # fmt: skip
    said = line(
        "Another study drew the line elsewhere, ", typed(first.outcome.title.text, "definition"), ": ", joined(told),
    )  # fmt: skip
    return [Paragraph(line(said, ". For whoever stands between the two lines it is not known which number fits."))]


def _is_told_whole(row: Finding) -> bool:
    return not reason_not_compared(row) and bool(row.level and row.total) and not (row.claim.given or row.claim.within)


def without_later(catalogue: Catalogue, question: Question, shown: list[list[Finding]]) -> set[str]:
    """Bases of numbers of success beside which stands a later one, while nothing later is known of their own people.

    A way that was watched for a year alone looks better than one that was watched for ten. Once a study.
    """
    everything = [row for row in catalogue.of_question(question.id) if not row.is_withdrawn]
    stands = [row for findings in shown for row in (*findings, *reversals(catalogue, question.id, findings))]
    latest = max((row.window for row in stands if row.window is not None), default=None)
    out: set[str] = set()
    said: set[str] = set()
    for findings in shown:
        first = findings[0]
        own = people_of(first)
        if (
            first.outcome.construct.text != "success"
            or first.window is None
            or latest is None
            or first.window >= latest
            or not said.isdisjoint(own)
        ):
            continue
        later = (row for row in everything if row.window is None or row.window > first.window)
        # A count when last seen has no time of its own: it may be later, and then something is known.
        if any(not own.isdisjoint(people_of(row)) and (row.window or row.outcome == first.outcome) for row in later):
            continue
        said |= own
        out.add(first.base)
    return out


def _is_reference(row: Finding) -> bool:
    reference = row.claim.reference
    return isinstance(reference, Words) and row.level is not None and row.level.level.text == reference.text
