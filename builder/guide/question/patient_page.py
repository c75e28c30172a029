"""Numbers and words for the talk with a patient: before treatment, during it, afterwards."""

from __future__ import annotations

from decimal import Decimal

from ...reading.model import Certainty, Question
from ...reading.prose import reports_named_in
from ...reading.slugs import slug
from ...reading.values import Words
from ..findings.findings import Catalogue, Finding
from ..saying.certainty import NOT_JUDGED, how_sure, ledger
from ..saying.prose import NamedResult, prose, withdrawn
from ..saying.reversals import replaced_by_estimate, reversals
from ..saying.review_date import review_due
from ..saying.source_reference import source_link
from ..saying.wording import definition, n_of_n, timing
from ..sections.sheet_footer import sheet_footer
from ..values.document import (
    Block,
    Blocks,
    Facts,
    Items,
    Line,
    Link,
    Page,
    Paragraph,
    Section,
    Sheet,
    Span,
    joined,
    line,
    typed,
)
from .patient_beside import is_of_others, levels_apart, stacked
from .patient_numbers import (
    Format,
    drawing,
    format_of,
    patient_numbers,
    probable,
    refusal,
    seen_again,
    sentence,
    start_line,
)
from .patient_ways import treated, ways_section

NOT_A_FORM = (
    "This is no consent form. Local law and the indemnifier decide what a form must say and who may explain it."
)

# Our own plain words for the four grades; the grades are those of GRADE.
_PLAIN = {
    "high": "we can lean on this number",
    "moderate": "it is probably near the truth, and could still move",
    "low": "it may be some way off",
    "very low": "we are very uncertain about this number",
}
_ORDER = ("very low", "low", "moderate", "high")


def patient_page(catalogue: Catalogue, question: Question, named: NamedResult) -> Page:
    """Three sheets to print. Numbers come from the claims that the question file chose for the patient alone.

    Where large and small studies were chosen, the first sheet comes in two, so that each keeps to one format.
    """
    shown, left_out = _chosen(catalogue, question)
    blocks: list[Block] = [
        Paragraph(line(NOT_A_FORM), "caution"),
        Paragraph(
            line(
                "Numbers say what became of groups of people in studies. They are no forecast for one person, and what "
                "goes with a result need not be its cause."
            ),
            "caution",
        ),
    ]
    blocks.extend(_before(catalogue, question, shown))
    words = question.patient
    blocks.append(_said("During treatment", "chair", words.chair if words else (), catalogue, named))
    blocks.append(_said("Afterwards", "afterwards", words.afterwards if words else (), catalogue, named))
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


def _before(catalogue: Catalogue, question: Question, shown: list[list[Finding]]) -> list[Sheet]:
    """One sheet, or two where one format would not do for all."""
    form, beside = ways_section(catalogue, question, shown)
    end = (Paragraph(line(NOT_A_FORM), "quiet"), sheet_footer(catalogue))
    if not shown:
        why = (
            "No number chosen for it may be told."
            if question.patient and question.patient.show
            else "None has been chosen for patients."
        )
        empty = Paragraph(
            line(f"This sheet has no number. {why} Say so, and do not borrow one from elsewhere."), "answer"
        )
        return [Sheet("Before treatment", "before", (empty, beside, *end))]
    large = [findings for findings in shown if format_of(findings) == "hundred"]
    small = [findings for findings in shown if format_of(findings) != "hundred"]
    parts: list[tuple[str, Format, list[list[Finding]]]] = []
    if large:
        parts.append(("Before treatment", "hundred", large))
    if small:
        title = "Before treatment: counted in small groups" if large else "Before treatment"
        parts.append((title, "counts", small))
    holder = form if form in {part[1] for part in parts} else parts[0][1]
    return [
        Sheet(
            title, "before",
            (*_numbers(catalogue, question, chosen, kind), *((beside,) if kind == holder else ()), *end),
        )
        for title, kind, chosen in parts
    ]  # fmt: skip


def _numbers(catalogue: Catalogue, question: Question, shown: list[list[Finding]], form: Format) -> Blocks:
    standing = {finding.base for findings in shown for finding in findings}
    titles = [findings[0].outcome.title.text for findings in shown if not findings[0].factor]
    twice = {title for title in titles if titles.count(title) > 1}
    sections = []
    before: list[Finding] = []
    for findings in shown:
        section = _claim(catalogue, question, findings, form, standing, twice)
        if is_of_others(before, findings):
            said = Paragraph(line("These are other patients than those of the number above."), "quiet")
            section = section._replace(blocks=(said, *section.blocks))
        before = findings
        sections.append(section)
    return tuple(sections)


def _claim(
    catalogue: Catalogue,
    question: Question,
    findings: list[Finding],
    form: Format,
    standing: set[str],
    twice: set[str],
) -> Section:
    """One chosen claim: its number, or those of its levels side by side, then what takes it back later."""
    first = findings[0]
    blocks: list[Block] = []
    title = first.outcome.title.text
    factor = catalogue.evidence.vocabulary.factors.get(first.factor)
    if first.factor:
        name = factor.title.text if factor else first.factor
        title = f"{title}, by one thing only: {name}"
        blocks.append(Paragraph(_by_one(catalogue, first, name), "quiet"))
    elif title in twice and treated(first):
        title = f"{title}: {treated(first)}"
    if first.claim.within and not first.factor:
        blocks.append(Paragraph(_within(catalogue, first), "quiet"))
    sure = _sure_of(question, findings)
    for finding in findings:
        item = patient_numbers(catalogue, question.id, finding, form)
        lead: Line = ()
        if finding.level is not None:
            lead = line(Span("strong", (typed(finding.level.level.text, "definition"),)), ": ")
        blocks.append(Paragraph(line(lead, sentence(item), " ", probable(item)), "answer"))
        picture = drawing(item, catalogue.evidence.pictures.get(item.finding.counted.mark))
        if picture is not None:
            blocks.append(picture)
        blocks.append(Facts(_facts(finding, sure), "small"))
    blocks.extend(levels_apart(question, findings))
    blocks.append(Facts(_shared_facts(catalogue, first), "small"))
    taken_back = [item for item in reversals(catalogue, question.id, findings) if item.base not in standing]
    if taken_back:
        blocks.append(Paragraph(line("Later, in the same study:"), "lead"))
        blocks.append(Items(tuple(_later(catalogue, question, item, form) for item in taken_back), kind="later"))
    return Section(title, f"told-{slug(f'{first.key}/{first.claim.id.text}')}", tuple(blocks), "told")


def _by_one(catalogue: Catalogue, first: Finding, name: str) -> Line:
    differ = joined([line(typed(word.text)) for word in first.claim.differ_in])
    return line(
        "By ", typed(name), " only: nothing else about the ", first.counted.one, " was taken into account",
        line(". The groups also differed at the start: ", differ) if differ else None,
        ". The groups were divided where the data fitted best"
        if first.claim.cut is not None and first.claim.cut.text == "chosen from the data"
        else None,
        ". It says what went together, not why. ",
        _within(catalogue, first),
    )  # fmt: skip


def _within(catalogue: Catalogue, finding: Finding) -> Line:
    """A subgroup that the study itself reported, named as such."""
    parts = []
    for item in finding.claim.within:
        factor = catalogue.evidence.vocabulary.factors.get(item.factor.text)
        name = factor.title.text if factor else item.factor.text
        parts.append(line(typed(name), ": ", typed(item.level.text, "definition")))
    return line("Counted by the study itself among a part of its people: ", joined(parts), ".") if parts else ()


def _facts(finding: Finding, sure: Certainty | None) -> tuple[tuple[Line, Line], ...]:
    """What stands below a number: the count it comes from and how sure it is."""
    counted = start_line(finding) if finding.kind == "estimate" else n_of_n(finding)
    rows = [(line("Counted"), counted)]
    again = seen_again(finding)
    if again:
        rows.append((line("Seen again"), line(again, "; how the others did is not known")))
    rows.append((line("How sure"), _plain(sure)))
    return tuple(rows)


def _shared_facts(catalogue: Catalogue, finding: Finding) -> tuple[tuple[Line, Line], ...]:
    return (
        (line("Who"), who_line(finding)),
        (line("When"), timing(finding)),
        (line("What counts"), definition(finding.outcome)),
        (line("Where"), setting_line(finding)),
        (line("Report"), line(source_link(finding.key, catalogue), _flag(catalogue, finding.key))),
    )


def _flag(catalogue: Catalogue, key: str) -> Line:
    """A standing that is not clean is said beside the number; what nobody checked never looks clean."""
    said = {
        "none found": "",
        "corrected": ", corrected by its journal",
        "concern": ", under an expression of concern",
    }.get(catalogue.standing(key), ", not checked for a retraction")
    return line(said)


def setting_line(finding: Finding) -> Line:
    """Who treated them, with what, and where: another clinic may do better or worse."""
    parts: list[Line] = []
    for name, words in (("operators", "treated by "), ("magnification", "magnification: "), ("centre", "centre: ")):
        said = []
        for facts in finding.studies:
            setting = facts.study.setting if facts.study else None
            value = setting.get(name) if isinstance(setting, dict) else None
            said.append(value.text if value is not None else "not reported")
        for text in dict.fromkeys(said):
            parts.append(line(words, typed(text)))
    return line(joined(parts), ". Another clinic may do better or worse.")


def who_line(finding: Finding) -> Line:
    """Whom the study treated, as typed."""
    said = []
    for facts in finding.studies:
        population = facts.study.population if facts.study else {}
        words = ", ".join(f"{name}: {value.text}" for name, value in population.items())
        said.append(line(typed(words or "not reported")))
    return joined(list(dict.fromkeys(said)))


def _later(catalogue: Catalogue, question: Question, finding: Finding, form: Format) -> Line:
    """An estimate that takes a rate back, in the sheet's own format where it has one."""
    own_form: Format = form if form == "hundred" and not refusal(finding) and format_of([finding]) == form else "words"
    item = patient_numbers(catalogue, question.id, finding, own_form)
    if item.format == "words":
        return line(sentence(item), " (", _plain(_sure_of(question, [finding])), ")")
    return line(
        timing(finding), ": ", sentence(item), " ", probable(item), " (", start_line(finding), "; ",
        _plain(_sure_of(question, [finding])), ")",
    )  # fmt: skip


def _sure_of(question: Question, findings: list[Finding]) -> Certainty | None:
    """The ledger people wrote for this outcome and time; of several levels the most cautious one."""
    found: list[Certainty] = []
    for finding in findings:
        # A number without a window of its own is not covered by a ledger that was written for one.
        months = finding.window if finding.window is not None else Decimal(-1)
        for level in finding.level_ids or ("",):
            item = ledger(question, finding.outcome.id, finding.factor if level else "", level, months)
            if item is not None:
                found.append(item)
    return min(found, key=lambda item: _ORDER.index(item.final.text), default=None)


def _plain(item: Certainty | None) -> Line:
    if item is None:
        return line(f"how sure is {NOT_JUDGED}")
    return line(f"{_PLAIN.get(item.final.text, item.final.text)} (", how_sure(item), ")")


# House rule: so many sentences at once during treatment.
_SPOKEN = 3


def _said(title: str, kind: str, words: tuple[Words, ...], catalogue: Catalogue, named: NamedResult) -> Sheet:
    """Sentences as faculty typed them; one that leaned on a withdrawn report is gone."""
    kept = [word.text for word in words if not _is_withdrawn(word.text, catalogue)]
    if not kept:
        body: Blocks = (Paragraph(line("No words have been written for this sheet."), "quiet"),)
    else:
        lines = tuple(prose(text, catalogue, named) for text in kept)
        # Who is being treated can follow a few sentences; the others wait for a question.
        now = _SPOKEN if kind == "chair" else len(lines)
        body = (Items(lines[:now], kind="say"),)
        if lines[now:]:
            body += (Paragraph(line("If the patient asks more"), "lead"), Items(lines[now:], kind="say"))
    return Sheet(title, kind, (*body, Paragraph(line(NOT_A_FORM), "quiet"), sheet_footer(catalogue)))


def _is_withdrawn(text: str, catalogue: Catalogue) -> bool:
    return any(catalogue.standing(key) == "retracted" for key in reports_named_in(text))


def _for_the_clinician(catalogue: Catalogue, question: Question, left_out: list[Line]) -> Section:
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
    return Section("For you, not for the patient", "for-you", tuple(blocks))


def _touched(catalogue: Catalogue, question: Question, shown: list[list[Finding]]) -> tuple[str, ...]:
    keys = {finding.key for findings in shown for finding in findings}
    keys |= {item.key for findings in shown for item in reversals(catalogue, question.id, findings)}
    words = question.patient
    for word in (*words.chair, *words.afterwards) if words else ():
        keys |= reports_named_in(word.text)
    return tuple(sorted(keys & set(catalogue.evidence.sources)))
