"""A number for a patient as a sentence: how many had the ending and how many had not, both in one breath."""

from __future__ import annotations

from ...results.findings.findings import Finding
from ...results.saying.speech import when
from ...results.saying.wording import few_followed, main_part, n_of_n, unit_word
from ...results.values.line import Line, line, typed
from .patient_numbers import HUNDRED, TEN, PatientNumbers, competing, is_well


def sentence(item: PatientNumbers, *, is_same_study: bool = False) -> Line:
    """The true counts, the same of a hundred, and both frames in one breath: how many had the ending, how many not.

    Behind "94 of 110" a bare "15 did not" reads as a count. is_same_study: the words before say whose number it is.
    """
    finding = item.finding
    title = typed(finding.outcome.title.text, "definition")
    if item.counted is None or item.others is None:
        said = line(title, ": ", main_part(finding))
        return line("In one study, ", when(finding), ": ", said, ".")
    well = is_well(finding)
    # A survival of something bad counts those whom it spared.
    spared = "without: " if well and not finding.outcome.good else ""
    did = line(" did well (" if well else " did badly (", spared, title, ")")
    given = finding.claim.given
    of_whom = line(" (", typed(given.text), ")") if given is not None else None
    if item.format == "counts":
        return line(n_of_n(finding), of_whom, " in one study", did, "; ", item.others, " did not.", _in_ten(item))
    if finding.kind != "estimate":
        counted = line(
            n_of_n(finding), of_whom, " in one study", did, ". That is ", item.counted, " of every ", HUNDRED
        )
        return line(counted, "; ", item.others, " of every ", HUNDRED, " did not.")
    whose = line(_whose(finding, is_same_study), of_whom, ", about ", item.counted, " of every ", HUNDRED)
    if finding.figure("estimate/starting") is None:
        whose = line(whose, f" {finding.counted.many}")
    return line(whose, did, "; ", item.others, " of every ", HUNDRED, " did not.", _left_early(finding))


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


def _whose(finding: Finding, is_same_study: bool) -> Line:
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
