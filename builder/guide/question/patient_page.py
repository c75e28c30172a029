"""Numbers and words for the talk with a patient: before treatment, during it, afterwards."""

from __future__ import annotations

from ...reading.model import Question
from ...reading.prose import reports_named_in
from ...reading.slugs import slug
from ...reading.values import Words
from ...results.findings.findings import Catalogue, Finding
from ...results.saying.reversals import replaced_by_estimate, reversals
from ...results.saying.review_date import review_due
from ...results.saying.source_reference import source_link
from ...results.values.document import Block, Blocks, Details, Items, Page, Paragraph, Section, Sheet
from ...results.values.line import Line, Link, line, typed
from ..sections.sheet_footer import sheet_footer
from ..sentences.prose import NamedResult, prose, withdrawn
from .patient_beside import is_of_others, stacked, whose, without_later
from .patient_numbers import Format, format_of, refusal
from .patient_told import told
from .patient_ways import ways_section
from .ways_advised import ways_advised

NOT_A_FORM = "This is no consent form. Local law and the indemnifier decide what a form must say."

_OF_GROUPS = (
    "These numbers tell of groups of people in studies. They are no forecast for one person. Another clinic may do "
    "better or worse."
)


def patient_page(catalogue: Catalogue, question: Question, named: NamedResult) -> Page:
    """Three sheets to print. Numbers come from the claims that the question file chose for the patient alone.

    Where large and small studies were chosen, that of numbers comes in two, so that each keeps to one format.
    """
    shown, left_out = _chosen(catalogue, question)
    words = question.patient
    # The words come first: whoever sits beside the patient has no time to pass the numbers.
    advised = ways_advised(catalogue, question, named)
    sheets = [
        _said("During treatment", "chair", words.chair if words else (), catalogue, named, advised),
        _said("Afterwards", "afterwards", words.afterwards if words else (), catalogue, named),
        *_before(catalogue, question, shown, advised),
    ]
    doors = tuple(line(Link(f"#{slug(sheet.title)}", (sheet.title,), "target")) for sheet in sheets)
    first, *others = sheets
    blocks: list[Block] = [Items(doors, kind="choices"), first]
    blocks.extend(Details(sheet.title, (sheet,), "part") for sheet in others)
    blocks.append(_for_the_clinician(catalogue, question, left_out))
    return Page(
        address=f"{question.id}/patient/",
        kind="patient",
        title="Words for the patient",
        blocks=tuple(blocks),
        description="Numbers for the talk with a patient, each with its period, its criteria and how sure it is.",
        edit=question.position.file,
        trail=((f"{question.id}/", question.title.text),),
        review_due=review_due(catalogue, question),
        touched_by=_touched(catalogue, question, shown),
    )


def _chosen(catalogue: Catalogue, question: Question) -> tuple[list[list[Finding]], list[Line]]:
    """The chosen claims that may be told, each with its levels; and what was left out, with the reason."""
    shown: list[list[Finding]] = []
    left_out: list[Line] = []
    for word in question.patient.show if question.patient else ():
        key = word.text.partition("/")[0]
        if catalogue.standing(key) == "retracted":
            left_out.append(line("one report chosen for this page was ", withdrawn(key, catalogue)))
            continue
        kept: list[Finding] = []
        for finding in catalogue.of_claim(word.text):
            reason = refusal(finding)
            if not reason and replaced_by_estimate(catalogue, question.id, finding) is not None:
                reason = "a share when last seen, where the study has an estimate at a time"
            if not reason:
                kept.append(finding)
            # A ratio beside its own table is no number left out: the table tells it.
            elif finding.kind not in ("contrast", "test", "grade") or not finding.claim.levels:
                left_out.append(line(source_link(key, catalogue), ", ", _about(finding), ": ", reason))
        if kept and (reason := stacked(kept, shown)):
            left_out.append(line(source_link(key, catalogue), ", ", _about(kept[0]), ": ", reason))
        elif kept:
            shown.append(kept)
    return shown, left_out


def _about(finding: Finding) -> Line:
    level = finding.level.level.text if finding.level else ""
    return line(
        typed(finding.outcome.title.text, "definition"), line(", ", typed(level, "definition")) if level else None
    )


def _before(
    catalogue: Catalogue, question: Question, shown: list[list[Finding]], advised: tuple[Paragraph, ...]
) -> list[Sheet]:
    """One sheet, or two where one format would not do for all. advised: what answers have against the ways."""
    form, beside = ways_section(catalogue, question, shown)
    end = (Paragraph(line(NOT_A_FORM), "quiet ours"), sheet_footer(catalogue))
    if not shown:
        why = (
            "No number chosen for it may be told."
            if question.patient and question.patient.show
            else "None has been chosen for patients."
        )
        empty = Paragraph(
            line(f"This sheet has no number. {why} Say so, and do not borrow one from elsewhere."), "answer"
        )
        return [Sheet("Before treatment", "before", (empty, beside, *advised, *end))]
    large = [findings for findings in shown if format_of(findings) == "hundred"]
    small = [findings for findings in shown if format_of(findings) != "hundred"]
    parts: list[tuple[str, Format, list[list[Finding]]]] = [
        *_parts(question, "Before treatment", "hundred", large),
        *_parts(question, "Before treatment: small groups" if large else "Before treatment", "counts", small),
    ]
    careful = Paragraph(line(_OF_GROUPS), "caution")
    early = without_later(catalogue, question, shown)
    holder = next((title for title, kind, _ in parts if kind == form), parts[0][0])
    sheets: list[Sheet] = []
    for title, kind, chosen in parts:
        numbers = _numbers(catalogue, question, chosen, kind, early)
        ways = (beside, *advised) if title == holder else ()
        sheets.append(Sheet(title, "before", (careful, *numbers, *ways, *end)))
    return sheets


def _parts(
    question: Question, title: str, form: Format, shown: list[list[Finding]]
) -> list[tuple[str, Format, list[list[Finding]]]]:
    """Ways that one study laid beside each other are no ways of different people: they have a sheet before the rest."""
    ways = {option.is_factor.text for option in question.options if option.is_factor is not None}
    compared = [findings for findings in shown if findings[0].factor in ways]
    others = [findings for findings in shown if findings[0].factor not in ways]
    if not compared or not others:
        return [(title, form, shown)] if shown else []
    first = f"{title}{', ' if ':' in title else ': '}the ways compared"
    return [(first, form, compared), (title, form, others)]


def _numbers(
    catalogue: Catalogue, question: Question, shown: list[list[Finding]], form: Format, ends_early: set[str]
) -> Blocks:
    """ends_early: bases of those after which nothing is known, where of others it is."""
    standing = {finding.base for findings in shown for finding in findings}
    titles = [findings[0].outcome.title.text for findings in shown]
    twice = {title for title in titles if titles.count(title) > 1}
    sections: list[Section] = []
    headed: dict[str, list[list[Finding]]] = {}
    above: list[tuple[str, list[Finding]]] = []
    for findings in shown:
        section = told(catalogue, question, findings, form, standing, twice)
        alike = headed.setdefault(section.title, [])
        section = section._replace(title=f"{section.title}{_told_apart(alike, findings)}")
        alike.append(findings)
        if findings[0].base in ends_early:
            said_later = line(f"What became of these {findings[0].counted.many} later is not known.")
            *stands, behind = section.blocks
            section = section._replace(blocks=(*stands, Paragraph(said_later), behind))
        if said := whose(above, findings):
            section = section._replace(blocks=(Paragraph(said, "quiet"), *section.blocks))
        above.append((section.title, findings))
        sections.append(section)
    return tuple(sections)


_STUDIES = (", another study", ", a third study", ", a fourth study")


def _told_apart(alike: list[list[Finding]], findings: list[Finding]) -> str:
    """What tells a heading from those above it that would read the same; "" where none does."""
    if not alike:
        return ""
    if any(not is_of_others(other, findings) for other in alike):
        return ", counted again" if len(alike) == 1 else ", counted once more"
    return _STUDIES[min(len(alike), len(_STUDIES)) - 1]


# House rule: so many sentences at once during treatment.
_SPOKEN = 3


def _said(
    title: str,
    kind: str,
    words: tuple[Words, ...],
    catalogue: Catalogue,
    named: NamedResult,
    advised: tuple[Paragraph, ...] = (),
) -> Sheet:
    """Sentences as faculty typed them; one that leaned on a withdrawn report is gone.

    advised: what answers have against ways that the sentences may name.
    """
    kept = [word.text for word in words if not _is_withdrawn(word.text, catalogue)]
    if not kept:
        body: Blocks = (Paragraph(line("No words have been written for this sheet."), "quiet"),)
    else:
        lines = tuple(prose(text, catalogue, named, is_always_sure=True) for text in kept)
        # Who is being treated can follow a few sentences; the others wait for a question.
        now = _SPOKEN if kind == "chair" else len(lines)
        body = (Items(lines[:now], kind="say"),)
        if lines[now:]:
            body += (Paragraph(line("If the patient asks more"), "lead ours"), Items(lines[now:], kind="say"))
    return Sheet(title, kind, (*body, *advised, Paragraph(line(NOT_A_FORM), "quiet ours"), sheet_footer(catalogue)))


def _is_withdrawn(text: str, catalogue: Catalogue) -> bool:
    return any(catalogue.standing(key) == "retracted" for key in reports_named_in(text))


def _for_the_clinician(catalogue: Catalogue, question: Question, left_out: list[Line]) -> Details:
    words = question.patient
    many = catalogue.main_unit(question.id).many
    sentences = (*words.chair, *words.afterwards) if words else ()
    rows = list(left_out)
    rows.extend(
        line("a sentence that relied on a withdrawn report was removed from the sheets")
        for word in sentences
        if _is_withdrawn(word.text, catalogue)
    )
    blocks: list[Block] = [
        Items(
            (
                line("Below fifty the sheets give the actual count; from fifty on, so many of a hundred."),
                line("One thing at a time: no number is made for two things together unless a study counted them so."),
                line("Pooled rates are never shown here: nobody was treated in all those clinics at once."),
                line(Link(f"{question.id}/over-time/", (f"How such {many} do over time",)), "; ",
                     Link(f"{question.id}/conference/", ("all studies",))),
            )
        )
    ]  # fmt: skip
    if rows:
        blocks.append(Paragraph(line("Left out of the sheets"), "lead"))
        blocks.append(Items(tuple(dict.fromkeys(rows)), kind="left-out"))
    return Details("For you, not for the patient", tuple(blocks), "part", anchor="for-you")


def _touched(catalogue: Catalogue, question: Question, shown: list[list[Finding]]) -> tuple[str, ...]:
    keys = {finding.key for findings in shown for finding in findings}
    keys |= {item.key for findings in shown for item in reversals(catalogue, question.id, findings)}
    words = question.patient
    for word in (*words.chair, *words.afterwards) if words else ():
        keys |= reports_named_in(word.text)
    return tuple(sorted(keys & set(catalogue.evidence.sources)))
