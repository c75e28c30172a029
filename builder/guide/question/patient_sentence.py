"""A number for a patient as a sentence: how many had the ending and how many had not, both in one breath."""

from __future__ import annotations

from ...results.findings.findings import Finding
from ...results.saying.speech import when
from ...results.saying.whose_age import of_age
from ...results.saying.wording import few_followed, main_part, n_of_n, unit_word
from ...results.values.line import Line, line, typed
from .patient_numbers import HUNDRED, TEN, PatientNumbers, competing, is_well


def sentence(item: PatientNumbers, before: Finding | None = None) -> Line:
    """The true counts, the same of a hundred, and both frames in one breath: how many had the ending, how many not.

    Behind "94 of 110" a bare "15 not" reads as a count. before: the number just above, of the same study; an estimate
    that takes it back is told in its words, those who were lost behind those who still had it, and says of whom it is.
    """
    finding = item.finding
    title = typed(finding.outcome.title.text, "definition")
    given = finding.claim.given
    of_whom = line(" (", typed(given.text), ")") if given is not None else ()
    aged = line(of_age(finding), item.cause)
    takes_back = before is not None and finding.outcome.reverses is not None
    if item.counted is None or item.others is None:
        opposite = "here those are counted who lost it again, " if takes_back and not is_well(finding) else None
        said = line(opposite, title, ": ", main_part(finding))
        return line("In one study", aged, ", ", when(finding), ": ", said, ".")
    if before is not None and takes_back:
        return _taken_back(item, before, of_whom)
    did, did_not = _endings(finding)
    if item.format == "counts":
        return line(
            n_of_n(finding), of_whom, " in one study", aged, did, "; ", item.others, did_not, ".", _in_ten(item)
        )
    if finding.kind != "estimate":
        counted = line(
            n_of_n(finding), of_whom, " in one study", aged, did, ". That is ", item.counted, " of every ", HUNDRED
        )
        return line(counted, "; ", item.others, " of every ", HUNDRED, did_not, ".")
    whose = line(
        _whose(finding, is_same_study=before is not None), of_whom, ", about ", item.counted, " of every ", HUNDRED
    )
    if finding.figure("estimate/starting") is None:
        whose = line(whose, f" {finding.counted.many}")
    return line(whose, did, "; ", item.others, " of every ", HUNDRED, did_not, ".", _left_early(finding))


def _endings(finding: Finding) -> tuple[Line, str]:
    """What became of those counted, in the outcome's own words, and what is said of the others."""
    outcome = finding.outcome
    if outcome.good and outcome.construct.text == "survival":
        return line(" were still there"), " were not"
    # A survival of something bad counts those whom it spared.
    spared = is_well(finding) and not outcome.good
    title = typed(outcome.title.text, "definition")
    return line(": without ", title) if spared else line(": ", title), " with it" if spared else " not so"


def _taken_back(item: PatientNumbers, before: Finding, of_whom: Line) -> Line:
    """ "of these 97 eyes about 87 of every 100 still so: kept healthy; 13 of every 100 no longer: lost again"."""
    finding = item.finding
    still, gone = (item.counted, item.others) if is_well(finding) else (item.others, item.counted)
    title = typed(before.outcome.title.text, "definition")
    why = None if finding.outcome.good else line(": ", typed(finding.outcome.title.text, "definition"))
    return line(
        _base(finding, before), of_whom, ", about ", still, " of every ", HUNDRED, " still so: ", title, "; ", gone,
        " of every ", HUNDRED, " no longer", why, ".", _left_early(finding),
    )  # fmt: skip


def _base(finding: Finding, before: Finding) -> Line:
    """Of whom an estimate is that takes a number back: those of the number above that had the ending, or others."""
    starting, had = finding.figure("estimate/starting"), before.figure("events")
    if starting is None:
        return line("of those who had it (how many is not reported)")
    unit = f" {unit_word(finding.counted, starting)}"
    if had is None or before.kind != "rate" or before.level is not None:
        return line("of ", starting, unit, ", counted anew")
    if had.number == starting.number:
        return line("of these ", starting, unit)
    return line("of ", starting, unit, ", which are not the ", had, " above")


def _in_ten(item: PatientNumbers) -> Line:
    if item.of_ten is None:
        return ()
    is_whole = item.finding.events in (0, item.finding.total)
    about = "about " if item.of_ten.text == item.of_ten.value and not is_whole else None
    return line(" That is ", about, item.of_ten, " of every ", TEN, ".")


def _left_early(finding: Finding) -> Line:
    """That not all were watched to the end; why is for who asks, one tap away."""
    starting, at_risk = finding.figure("estimate/starting"), finding.figure("estimate/at_risk")
    if not competing(finding) and (starting is None or at_risk is None or at_risk.number >= starting.number):
        return ()
    still = line("; ", at_risk, " were still followed by then") if at_risk is not None else None
    return line(f" Some {finding.counted.many} could not be watched to the end", still, ".")


def _whose(finding: Finding, *, is_same_study: bool) -> Line:
    starting = finding.figure("estimate/starting")
    if starting is None:
        return line("in it" if is_same_study else "In one study")
    of_them = line("of ", starting, f" {unit_word(finding.counted, starting)}")
    return of_them if is_same_study else line("In one study ", of_them)


def few(item: PatientNumbers) -> str:
    """Said beside a number that stands on fewer than ten who were still followed; else ""."""
    if item.format != "hundred" or not few_followed(item.finding):
        return ""
    return " Fewer than ten: this number may be far off."
