"""The recall planner: when to see the unit again, what to write down, how a visit may end, when it may be failing."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ...audit.question_references import advice_of
from ...numerals import Unit as CountedUnit
from ...reading.model import Question, RecallPlan
from ...reading.values import Length
from ...results.findings.findings import Catalogue
from ...results.saying.review_date import review_due
from ...results.saying.source_reference import source_link
from ...results.saying.wording import definition
from ...results.values.document import Block, Details, Facts, Items, Page, Paragraph, RecallForm, Section, Sheet, Table
from ...results.values.line import Line, Link, Marked, joined, line, typed
from ..sections.sheet_footer import sheet_footer
from ..sentences.advice import ratified_line
from ..sentences.prose import NamedResult

_TWO_SCORES = re.compile(
    r"(?:a score for |scores for )?(?P<one>.+?) and (?P<other>.+?),? (?:are )?(?:judged |scored |read )?"
    r"(?:apart|separately|each on its own\b.*)",
    re.IGNORECASE,
)

_BLANK: Line = ("\N{NO-BREAK SPACE}",)


def recall_page(catalogue: Catalogue, question: Question, named: NamedResult) -> Page:
    """Visits, findings and failing signs as the question file has them; the states a visit may end in are ours."""
    plan = question.recall
    unit = catalogue.main_unit(question.id)
    blocks: list[Block] = []
    if plan is None:
        blocks.append(Paragraph(line("No recall plan has been written for this question; ask locally."), "warning"))
    else:
        blocks.extend(_plan(question, plan, catalogue))
    blocks.append(Section("How a visit may end", "states", (_states(plan, unit), _bound()), "states"))
    counted = _definitions(catalogue, question)
    if counted:
        lead = Paragraph(line("Judge by the criteria you will quote. This guide counts by these:"), "quiet")
        blocks.append(Details("What counts as what", (lead, Items(counted)), "part", anchor="criteria"))
    if plan is not None:
        # On a phone the sheet says what stands above: it is there to be printed.
        blocks.append(Details("A sheet to print", (_sheet(catalogue, question, plan),), "part", anchor="sheet"))
    blocks.append(
        Paragraph(
            line(
                "Healing seen early can be lost again: ",
                Link(f"{question.id}/over-time/", (f"how such {unit.many} do over time",)),
                ". If you see signs of something worse: ",
                Link("urgent/", ("something worse is happening",)),
                ".",
            )
        )
    )
    return Page(
        address=f"{question.id}/recall/",
        kind="recall",
        title=f"Recall: when to see the {unit.one} again",
        blocks=tuple(blocks),
        description=f"When to see the {unit.one} again, what to write down, and when it may be failing.",
        edit=question.position.file,
        trail=((f"{question.id}/", question.title.text),),
        review_due=review_due(catalogue, question),
    )


def _plan(question: Question, plan: RecallPlan, catalogue: Catalogue) -> list[Block]:
    start = plan.start.text if plan.start else "treatment"
    out: list[Block] = [
        Paragraph(
            line("Not finished today? The next visit is within days; these visits count from the day it is finished."),
            "lead",
        ),
        *_whose(question, catalogue),
        Paragraph(
            line(
                "Visits counted from ", typed(start), ". The day you type stays on this device; the calendar file "
                "names no patient, and you should not add one.",
            )
        )
    ]  # fmt: skip
    dated, by_hand = _visits(plan)
    out.append(
        RecallForm(
            question.id,
            dated,
            tuple(word.text for word in plan.record),
            tuple(word.text for word in plan.failing),
            tuple(word.text for word in catalogue.evidence.local.closed),
        )
    )
    if by_hand:
        words = joined([line(Marked("visit", text)) for text in by_hand], ", ")
        out.append(Paragraph(line("Without a day from the planner, count these by hand: ", words, "."), "quiet"))
    if not plan.visits:
        out.append(Paragraph(line("No visit has been set."), "warning"))
    if not plan.failing:
        out.append(Paragraph(line("No sign of failing has been written down."), "warning"))
    return out


def _whose(question: Question, catalogue: Catalogue) -> Iterator[Block]:
    """Whose plan it is and which guideline may ask for another, before anybody books by it."""
    yield Paragraph(
        line("The plan is this programme's own; ", ratified_line(question.ratified, catalogue), "."), "basis"
    )
    if cited := _guidelines_cited(question, catalogue):
        said = line("A guideline that this question rests on may ask for other visits: ", joined(cited, "; "), ".")
        yield Paragraph(line(said, " Compare before you book."), "basis")


def _guidelines_cited(question: Question, catalogue: Catalogue) -> list[Line]:
    """Each guideline that a line of advice of the question rests on, once; no withdrawn one."""
    bases = [item.basis for item in advice_of(question) if item.basis.kind.text == "guideline"]
    keys = dict.fromkeys(basis.source.text for basis in bases if basis.source is not None)
    return [line(source_link(key, catalogue)) for key in keys if catalogue.standing(key) != "retracted"]


def _visits(plan: RecallPlan) -> tuple[tuple[tuple[int, str], ...], tuple[str, ...]]:
    """Visits that a calendar can count in months, and those in days or weeks, which it would misplace."""
    dated = [(int(visit.months), visit.text) for visit in plan.visits if _is_whole(visit)]
    return tuple(sorted(dated, key=lambda visit: visit[0])), tuple(
        visit.text for visit in plan.visits if not _is_whole(visit)
    )


def _is_whole(visit: Length) -> bool:
    return visit.months == int(visit.months)


def _states(plan: RecallPlan | None, unit: CountedUnit) -> Facts:
    """States of our own, the same for every question; the sentence with a bound follows them."""
    gone = unit.says("extracted")
    rows: list[tuple[Line, Line]] = [
        (line("as wanted"), line("the criteria you quote are met today; it says nothing about the years to come")),
        (line("failing"), line("one of the signs of failing is there; write which")),
        (
            line("too early to say"),
            line(
                "allowed, if the day by which it must be decided is written beside it: the next visit of "
                "this plan at the latest"
            ),
        ),
        (line("not seen"), line("did not come; never counted as well and never as failed; write what you tried")),
        (line(f"{gone}, related"), line("lost because of this; counts against the treatment")),
        (line(f"{gone}, other"), line("lost for another reason; write which, and count it separately")),
    ]
    two = next(filter(None, (separate_scores(word.text) for word in plan.record)), None) if plan is not None else None
    if two is not None:
        says = " are judged separately: a score for one says nothing about the other"
        rows.append((line("two scores"), line(typed(f"{two[0]} and {two[1]}"), says)))
    return Facts(tuple(rows), "states")


def _bound() -> Paragraph:
    return Paragraph(
        line(
            "House rule: too early to say ends with the next visit. There it is said again with a new day, or it "
            "becomes one of the other states; it is never the last entry of a record."
        ),
        "quiet",
    )


def separate_scores(text: str) -> tuple[str, str] | None:
    """The two things that a finding to record asks for each on its own: "graft and lens judged apart"; else None."""
    found = _TWO_SCORES.fullmatch(" ".join(text.split()))
    return (found["one"], found["other"]) if found else None


def _definitions(catalogue: Catalogue, question: Question) -> tuple[Line, ...]:
    """The outcomes that faculty set a threshold or a certainty for, or chose for patients."""
    ids = [item.outcome.text for item in question.thresholds]
    ids += [item.outcome.text for item in question.certainty]
    for word in question.patient.show if question.patient else ():
        ids += [finding.outcome.id for finding in catalogue.of_claim(word.text) if not finding.is_withdrawn]
    outcomes = catalogue.evidence.vocabulary.outcomes
    return tuple(definition(outcomes[name]) for name in dict.fromkeys(ids) if name in outcomes)


def _sheet(catalogue: Catalogue, question: Question, plan: RecallPlan) -> Sheet:
    """One row a visit, to be filled in by hand."""
    header = (line("Visit"), line("Day"), line("State"), line("To be said by"))
    visits = [line(Marked("visit", visit.text)) for visit in plan.visits]
    rows = tuple((words, _BLANK, _BLANK, _BLANK) for words in (line("if not finished: within days"), *visits))
    blocks: list[Block] = []
    if visits:
        blocks.append(
            Table(line("Visits, without any name on this sheet"), header, rows, "Visits to fill in", "blanks")
        )
    gone = catalogue.main_unit(question.id).says("extracted")
    found: list[Line] = []
    for word in plan.record:
        two = separate_scores(word.text)
        if two is not None:
            found.append(line(typed(word.text), ": at ", typed(two[0]), " ____, at ", typed(two[1]), " ____"))
        else:
            found.append(line(typed(word.text), ": ____"))
    if found:
        blocks.append(Paragraph(line("Record at each visit"), "lead"))
        blocks.append(Items(tuple(found), kind="record"))
    if plan.failing:
        blocks.append(Paragraph(line("It may be failing"), "lead"))
        blocks.append(Items(tuple(line(typed(word.text)) for word in plan.failing), kind="failing"))
    blocks.append(
        Paragraph(
            line(f"State: as wanted; failing; too early to say; not seen; {gone}, related; {gone}, other."),
            "quiet",
        )
    )
    blocks.append(sheet_footer(catalogue))
    return Sheet("Recall sheet", "recall", tuple(blocks))
