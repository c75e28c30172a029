"""One number chosen for the patient: a line of plain words that stands, and all that explains it one tap away."""

from __future__ import annotations

from ...reading.model import Certainty, Question
from ...reading.slugs import slug
from ...results.findings.findings import Catalogue, Finding
from ...results.findings.treatment import treated, way_of
from ...results.saying.reversals import reversals
from ...results.saying.source_reference import source_link
from ...results.saying.speech import when
from ...results.saying.wording import n_of_n
from ...results.values.document import Block, Details, Facts, Items, Paragraph, Section
from ...results.values.line import Line, Span, joined, line, typed
from .patient_answers import answers_beside, levels_meant
from .patient_beside import divided_elsewhere, in_all_studies, levels_apart
from .patient_numbers import (
    Format,
    PatientNumbers,
    competing,
    drawing,
    format_of,
    patient_numbers,
    probable,
    refusal,
    seen_again,
    start_line,
)
from .patient_sentence import few, sentence
from .patient_sure import in_words, ledger_of, sure_of


def told(
    catalogue: Catalogue,
    question: Question,
    findings: list[Finding],
    form: Format,
    standing: set[str],
    twice: set[str],
) -> Section:
    """One chosen claim: its number, or those of its levels side by side, then what takes it back later.

    standing: the findings that have a place of their own on the page; twice: titles of more than one of them.
    """
    first = findings[0]
    blocks: list[Block] = []
    title = first.outcome.title.text
    factor = catalogue.evidence.vocabulary.factors.get(first.factor)
    if first.factor:
        name = factor.title.text if factor else first.factor
        title = f"{title}, by {name[:1].lower()}{name[1:]}"
        blocks.append(Paragraph(_by_one(catalogue, first, name), "quiet"))
    elif way := way_of(catalogue, question.id, first) or (treated(first) if title in twice else ""):
        title = f"{title}: {way}"
    if first.claim.within and not first.factor:
        blocks.append(Paragraph(_within(catalogue, first), "quiet"))
    items = [patient_numbers(catalogue, question.id, finding, form) for finding in findings]
    *above, last = (line(_level(item.finding), sentence(item), few(item)) for item in items)
    *of_above, of_last = (levels_meant(catalogue, finding) for finding in findings)
    blocks.extend(Paragraph(said, "answer", of) for said, of in zip(above, of_above, strict=True))
    of_all = "The same for each of these: " if len(items) > 1 else None
    beside = Span("below", line(of_all, _beside(catalogue, first, ledger_of(question, findings))))
    blocks.append(Paragraph(line(last, beside), "answer", of_last))
    blocks.extend(answers_beside(catalogue, question, findings))
    blocks.extend(levels_apart(catalogue, question, findings))
    blocks.extend(in_all_studies(catalogue, question, findings))
    blocks.extend(divided_elsewhere(catalogue, question, findings))
    later = [
        patient_numbers(catalogue, question.id, item, _form_of_later(item, form))
        for item in reversals(catalogue, question.id, findings)
        if item.base not in standing
    ]
    if later:
        blocks.append(Paragraph(line("Later, in the same study:"), "lead"))
        blocks.append(Items(tuple(_later(question, item, first) for item in later), kind="later"))
    blocks.append(Details("What this rests on", tuple(_behind(catalogue, items, later))))
    return Section(
        title,
        f"told-{slug(f'{first.key}/{first.claim.id.text}')}",
        tuple(blocks),
        f"told by-{first.factor}" if first.factor else "told",
    )


def _level(finding: Finding) -> Line:
    return line(Span("strong", (typed(finding.level.level.text, "definition"),)), ": ") if finding.level else ()


def _by_one(catalogue: Catalogue, first: Finding, name: str) -> Line:
    differ = joined([line(typed(word.text)) for word in first.claim.differ_in])
    return line(
        "This looks at ", typed(f"{name[:1].lower()}{name[1:]}"), " alone, and at nothing else about the ",
        first.counted.one,
        line(". The groups also differed at the start: ", differ) if differ else None,
        ". Nobody had planned beforehand to compare these groups"
        if first.claim.planned is not None and first.claim.planned.text == "no"
        else None,
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


def _beside(catalogue: Catalogue, finding: Finding, sure: Certainty | None) -> Line:
    """What no number goes without: when it was counted, in whose hands, how sure it is."""
    return line(
        "When: ", when(finding), ". Where: ", _setting(finding, ("operators",)), ". How sure: ", in_words(sure), ".",
        _flag(catalogue, finding.key),
    )  # fmt: skip


def _behind(catalogue: Catalogue, items: list[PatientNumbers], later: list[PatientNumbers]) -> list[Block]:
    """The picture, the count, how far off it may be, who, what counts, where and whose report."""
    blocks: list[Block] = []
    for item in items:
        finding = item.finding
        if finding.level is not None:
            blocks.append(Paragraph(_level(finding)[:1]))
        picture = drawing(item, catalogue.evidence.pictures.get(finding.counted.mark))
        if picture is not None:
            blocks.append(picture)
        rows = [(line("Counted"), start_line(finding) if finding.kind == "estimate" else n_of_n(finding))]
        if again := seen_again(finding):
            rows.append((line("Seen again"), line(again, "; the others are not in the number")))
        if reason := competing(finding):
            rows.append((line("Not watched to the end"), line("because of ", typed(reason))))
        if limits := probable(item):
            rows.append((line("How far off"), limits))
        blocks.append(Facts(tuple(rows), "small"))
    first = items[0].finding
    shared: list[tuple[Line, Line]] = [
        (line("Who"), _who(first)),
        (line("What counts"), _criteria(first)),
        (line("Where"), _setting(first, ("operators", "magnification", "centre"))),
        (line("Report"), line(source_link(first.key, catalogue))),
    ]
    for item in later:
        reason = competing(item.finding)
        left = line(" Not watched to the end: because of ", typed(reason), ".") if reason else None
        said = line(probable(item), " Counted: ", start_line(item.finding), ".", left)
        shared.append((line("Later, ", when(item.finding)), said))
    blocks.append(Facts(tuple(shared), "small"))
    return blocks


def _criteria(finding: Finding) -> Line:
    """What had to be seen, and how it was looked for."""
    outcome = finding.outcome
    return line(
        typed(outcome.title.text, "definition"), ": ", typed(outcome.threshold.text, "definition"), ", by ",
        typed(outcome.basis.text, "definition"),
    )  # fmt: skip


def _flag(catalogue: Catalogue, key: str) -> Line:
    """A standing that is not clean is said beside the number; what nobody checked never looks clean."""
    said = {
        "none found": "",
        "corrected": "corrected by its journal",
        "concern": "under an expression of concern",
    }.get(catalogue.standing(key), "not checked for a retraction")
    return line(" Report: ", source_link(key, catalogue), f", {said}.") if said else ()


_SETTING = {"operators": "treated by ", "magnification": "magnification: ", "centre": "centre: "}


def _setting(finding: Finding, names: tuple[str, ...]) -> Line:
    """Who treated them, with what, and where."""
    parts: list[Line] = []
    for name in names:
        said = []
        for facts in finding.studies:
            setting = facts.study.setting if facts.study else None
            value = setting.get(name) if isinstance(setting, dict) else None
            said.append(value.text if value is not None else "not reported")
        for text in dict.fromkeys(said):
            parts.append(line(_SETTING[name], typed(text)))
    return joined(parts)


def _who(finding: Finding) -> Line:
    """Whom the study treated, as typed."""
    said = []
    for facts in finding.studies:
        population = facts.study.population if facts.study else {}
        words = ", ".join(f"{name}: {value.text}" for name, value in population.items())
        said.append(line(typed(words or "not reported")))
    return joined(list(dict.fromkeys(said)))


def _form_of_later(finding: Finding, form: Format) -> Format:
    """The sheet's own format where an estimate that takes a rate back has it, else words."""
    return form if form == "hundred" and not refusal(finding) and format_of([finding]) == form else "words"


def _later(question: Question, item: PatientNumbers, before: Finding) -> Line:
    is_told = item.format != "words"
    time = line(when(item.finding), ": ") if is_told else ()
    sure = sure_of(question, item.finding)
    return line(time, sentence(item, before), few(item), " How sure: ", sure, ".")
