"""What a margin that was fixed beforehand means for a comparison, in words that are read right the first time."""

from __future__ import annotations

from ...reading.contrasts import RATIOS
from ..findings.findings import Finding
from ..findings.margins import margin_verdict
from ..values.line import Line, Marked, line, plain_text, typed
from .measured import contrast_unit

# One-sided: towards harm alone. Nothing is said of being as good or better, which such a margin does not show.
_ONE_SIDED = {
    "within": "not worse by more than the margin",
    "not shown within": "that it is worse by more than the margin is not ruled out",
    "beyond": "worse by more than the margin",
}
_TWO_SIDED = {
    "within": "similar, neither better nor worse by more than the margin",
    "not shown within": "that it differs by more than the margin is not ruled out",
    "beyond": "it differs by more than the margin",
}


def has_two_sides(finding: Finding) -> bool:
    """True where the margin was fixed on both sides of no difference."""
    margin = finding.contrast.margin if finding.contrast is not None else None
    return margin is not None and margin.sides is not None and margin.sides.text == "two"


def margin_words(finding: Finding) -> str:
    """ "not worse by more than the margin": what the interval shows of it; "" where nothing tells."""
    verdict = margin_verdict(finding)
    if verdict is None:
        return ""
    return (_TWO_SIDED if has_two_sides(finding) else _ONE_SIDED)[verdict]


def margin_told(finding: Finding, *, is_for_patient: bool = False) -> Line:
    """ "not worse by more than the margin of 10 percentage points fixed beforehand"; empty where nothing tells.

    is_for_patient: of every hundred, and not in points.
    """
    before, word, after = margin_words(finding).partition("the margin")
    if not word:
        return ()
    return line(before, "the margin", _size(finding, is_for_patient), " fixed beforehand", after)


def _size(finding: Finding, is_for_patient: bool) -> Line:
    """ " of 10 percentage points", " (odds ratio 1.25)"."""
    item, value = finding.contrast, finding.figure("contrast/margin/value")
    if item is None or value is None:
        return ()
    if item.measure.text in RATIOS:
        return line(" (", typed(item.measure.text), " ", value, ")")
    unit = contrast_unit(finding, value)
    is_of_hundred = is_for_patient and plain_text(unit).strip() == "percentage points"
    return line(" of ", value, line(" of every ", Marked("convention", "100")) if is_of_hundred else unit)
