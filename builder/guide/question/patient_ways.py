"""The ways to go on beside each other, as far as the numbers chosen for the patient were counted alike."""

from __future__ import annotations

from ...reading.model import Option, Question
from ...results.findings.comparable import people_of
from ...results.findings.findings import Catalogue, Finding
from ...results.findings.treatment import treated
from ...results.saying.speech import when
from ...results.values.document import Block, Blocks, Details, Items, Paragraph, Section
from ...results.values.line import Line, joined, line, typed
from .patient_numbers import Format, PatientNumbers, format_of, patient_numbers
from .patient_sentence import few, sentence
from .patient_sure import sure_of

_NONE = "no such number on this sheet"
_DIFFERENT_STUDIES = "These are different studies of different people: the difference may lie in who was treated."
_OTHER_PATIENTS = "Of other patients, so not to be compared with those above:"
_OTHERWISE = "counted at another time or by another ending, above"


def ways_section(
    catalogue: Catalogue, question: Question, shown: list[list[Finding]]
) -> tuple[Format, Section | Details]:
    """The ways to go on beside each other, only where they were counted alike at the same time; and in which format.

    What is compared repeats numbers of the sheet, and is one tap away; that nothing on the sheet is comparable stands.
    """
    by_option = [(option, _of_option(catalogue, option, shown)) for option in question.options]
    kinds = [{_horizon(finding) for finding in findings} for _, findings in by_option if findings]
    # The one ending and time that most of the ways share.
    shared = max(
        (horizon for kind in kinds for horizon in kind),
        key=lambda horizon: (sum(horizon in kind for kind in kinds), str(horizon)),
        default=None,
    )
    alike = [
        (option, [finding for finding in findings if _horizon(finding) == shared]) for option, findings in by_option
    ]
    compared = [finding for _, findings in alike for finding in findings]
    form: Format = format_of(compared) if compared else "hundred"
    compared_alike = sum(bool(findings) for _, findings in alike) > 1
    title = "The ways beside each other"
    if compared_alike:
        told = _side_by_side(catalogue, question, alike, form)
        rest = [option for option, findings in alike if not findings]
        others = {option.id for option, findings in by_option if findings}
        missing = [
            line(typed(option.title.text), ": ", _OTHERWISE if option.id in others else _NONE) for option in rest
        ]
        ends = (Items(tuple(missing), kind="ways"),) if missing else ()
        return form, Details(title, (*told, *ends), anchor="ways")
    return form, Section(title, "ways", (Paragraph(_not_comparable(question)),), "told")


def _side_by_side(
    catalogue: Catalogue, question: Question, alike: list[tuple[Option, list[Finding]]], form: Format
) -> Blocks:
    """What one study laid side by side stands together; numbers of other patients stand below it, as such."""
    together: dict[frozenset[str], list[Line]] = {}
    for option, findings in alike:
        for item in findings:
            said = _with_how_sure(question, patient_numbers(catalogue, question.id, item, form))
            together.setdefault(people_of(item), []).append(line(typed(option.title.text), ": ", said))
    compared = [rows for rows in together.values() if len(rows) > 1]
    apart = [row for rows in together.values() if len(rows) == 1 for row in rows]
    out: list[Block] = []
    for rows in compared:
        which = "another study, of other patients" if out else "one study"
        out.append(Paragraph(line(f"Side by side in {which}:"), "lead"))
        out.append(Items(tuple(rows), kind="ways"))
    if apart:
        lead = _OTHER_PATIENTS if compared else _DIFFERENT_STUDIES
        out.append(Paragraph(line(lead), "lead"))
        out.append(Items(tuple(apart), kind="ways"))
    return tuple(out)


def _with_how_sure(question: Question, item: PatientNumbers) -> Line:
    finding = item.finding
    sure = sure_of(question, finding)
    return line(when(finding), ": ", sentence(item), few(item), " How sure: ", sure, ".")


def _not_comparable(question: Question) -> Line:
    ways = joined([line(typed(option.title.text)) for option in question.options])
    said = "side by side, at the same time and by the same criteria: no numbers on this sheet."
    return line(ways, ". " if ways else None, said[:1].upper() if ways else said[:1], said[1:])


def _of_option(catalogue: Catalogue, option: Option, shown: list[list[Finding]]) -> list[Finding]:
    """Chosen numbers of one way: a level of its factor, or a study in which everybody was treated so."""
    if option.is_factor is None or option.is_level is None:
        return []
    name, level = option.is_factor.text, option.is_level.text
    wording = catalogue.declared.factors.get(name)
    out = []
    for finding in (finding for findings in shown for finding in findings):
        ids: tuple[str, ...] = finding.level_ids if finding.factor == name else ()
        if not finding.factor and not finding.claim.within and wording is not None:
            wanted = treated(finding)
            ids = tuple(item.id.text for item in wording.matches(wanted)) if wanted else ()
        if level in ids:
            out.append(finding)
    return out


def _horizon(finding: Finding) -> tuple[object, ...]:
    """What two numbers must share to stand side by side: what is counted, how strictly, and when."""
    outcome = finding.outcome
    when = finding.window if finding.window is not None else f"{finding.key}/{finding.claim.id.text}"
    return (outcome.construct.text, outcome.strictness.text, outcome.good, finding.kind, when)
