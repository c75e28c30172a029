"""Absolute risks that a review prints beside its ratio: they follow from it at the printed risk of the reference."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Context, Decimal, localcontext

from ..problems import Position, Problem, with_article
from ..proof.asking import ask
from ..reading.contrasts import RATIOS
from ..reading.report_model import Absolute, Claim, Contrast
from ..reading.values import Ends, Missing, Number, Percentage
from ..records import NamedTuple
from ..synthesis.rounding import round_half_up
from .tables import SHARES, in_percent, is_possible

RULES = {
    "absolute-against-ratio": (
        "A review prints absolute risks beside a ratio or difference, and they do not follow from it: the risk at the "
        "level, or an end of its interval, lies outside all that the printed reference risk and ratio can give, "
        "however each of them was rounded. Risks of the opposite ending are accepted where they follow from it. "
        "Usually a digit was misread, a row of the table was missed, or the ratio is one of odds and not of risks. "
        "Correct it, or answer with what the review says. Basis: Cochrane Handbook 5.1, sections 11.5.5 and 12.5.4 "
        "(risk and odds ratio); 1 - (1 - p) ^ HR follows from proportional hazards (Altman and Andersen 1999, BMJ "
        "319:1492-1495, from memory). Example: of 14 per 1000 a risk ratio of 0.04 makes 0.5 to 0.7, never 0.02."
    ),
}

# More digits than a product of printed numbers has: a quotient that ends within them is exact, so that ends that touch
# are told from ends that cross.
_EXACT = Context(prec=60)


class _Rounded(NamedTuple):
    """The values that print as one number: `low` and above, below `high`."""

    low: Decimal
    high: Decimal

    def meets(self, other: _Rounded) -> bool:
        """True where a value can lie in both."""
        return self.low < other.high and other.low < self.high


class _Beside(NamedTuple):
    """Absolute risks as printed, and what they follow from: the level's by the ratio, an interval's by its ends."""

    position: Position
    text: str
    risks: tuple[Number | Percentage, ...]
    by_text: str
    by: tuple[Number | Percentage, ...]


def find_in_claim(claim: Claim, place: str) -> Iterator[Problem]:
    """The absolute risks beside the ratio or difference of one claim."""
    contrast = claim.contrast
    if contrast is None or contrast.absolute is None:
        return
    absolute = contrast.absolute
    per, reference = absolute.per, absolute.reference
    if type(per) is not Number or per.value <= 0:
        return
    for risk in (absolute.level, reference):
        if type(risk) is Number and not 0 <= risk.value <= per.value:
            printed = f"{risk.text} per {per.text}"
            yield ask(risk.position, "proportion-out-of-range", printed, "a share lies between none and all", place)
            return
    if contrast.measure.text in RATIOS + SHARES and type(reference) is Number:
        with localcontext(_EXACT):
            # All of them now: a generator that waits would leave its precision to whoever asked.
            found = list(_against_ratio(contrast, absolute, reference, per, place))
        yield from found


def _against_ratio(
    contrast: Contrast, absolute: Absolute, reference: Number, per: Number, place: str
) -> Iterator[Problem]:
    printed = tuple(_printed(contrast, absolute))
    # A review may print risks of one ending beside a ratio of the other: asked about only where neither way fits.
    misfits = [
        [each for each in printed if not _fits(each, _given(each, contrast, reference, per, is_turned))]
        for is_turned in (False, True)
    ]
    if not all(misfits):
        return
    for each in min(misfits, key=len):
        straight, turned = (
            _shown(_given(each, contrast, reference, per, is_turned), each.risks) for is_turned in (False, True)
        )
        measure = with_article(contrast.measure.text)
        tells = (
            f"the review prints {each.text} per {per.text}, while at {reference.text} per {per.text} {measure} of "
            f"{each.by_text} gives {straight}, however the figures were rounded, and {turned} where it counts the "
            "opposite ending"
        )
        about = f"{each.text} against {reference.text} per {per.text} by {each.by_text}"
        yield ask(each.position, "absolute-against-ratio", about, tells, place)


def _printed(contrast: Contrast, absolute: Absolute) -> Iterator[_Beside]:
    """What a review prints of the risk at the level beside what it follows from."""
    level, ratio = absolute.level, contrast.value
    if type(level) is Number and not isinstance(ratio, Missing) and is_possible(contrast, ratio):
        yield _Beside(level.position, level.text, (level,), ratio.text, (ratio,))
    ends, by = absolute.interval, contrast.interval
    if type(ends) is Ends and type(by) is Ends:
        yield _Beside(ends.position, ends.text, (ends.low, ends.high), by.text, (by.low, by.high))


def _fits(printed: _Beside, given: list[_Rounded]) -> bool:
    return all(_rounded(risk).meets(each) for risk, each in zip(printed.risks, given, strict=True))


def _given(printed: _Beside, contrast: Contrast, reference: Number, per: Number, is_turned: bool) -> list[_Rounded]:
    """The risks that follow, the lower first: of a ratio of the other ending the upper limit gives the lower risk."""
    found = []
    for ratio in printed.by:
        low, high = _rounded(ratio)
        if type(ratio) is Percentage or in_percent(contrast):
            low, high = low / 100, high / 100
        if contrast.measure.text in RATIOS:
            low = max(low, Decimal(0))
        whole = per.value
        start, end = _rounded(reference)
        # Each formula only rises, or only falls, with the reference risk and with the ratio.
        risks = [
            _risk(contrast.measure.text, each, min(max(risk, Decimal(0)), whole), whole, is_turned)
            for each in (low, high)
            for risk in (start, end)
        ]
        found.append(_Rounded(min(risks), max(risks)))
    return sorted(found)


def _risk(measure: str, ratio: Decimal, reference: Decimal, per: Decimal, is_turned: bool) -> Decimal:
    """The risk at the level, in units of `per`, never below none or above all.

    is_turned: the ratio counts those who have not the ending that the risks count.
    """
    if is_turned:
        return per - _risk(measure, ratio, per - reference, per, False)
    if measure == "risk ratio":
        found = reference * ratio
    elif measure == "odds ratio":
        odds = reference * ratio
        found = per * odds / (per - reference + odds) if odds else Decimal(0)
    elif measure == "hazard ratio":
        without = (per - reference) / per
        found = per - per * without**ratio if without else per
    elif measure == "risk difference":
        found = reference + ratio * per
    else:
        found = reference * (1 - ratio)
    return min(max(found, Decimal(0)), per)


def _rounded(printed: Number | Percentage) -> _Rounded:
    half = Decimal(5).scaleb(-printed.decimals - 1)
    return _Rounded(printed.value - half, printed.value + half)


def _shown(given: list[_Rounded], printed: tuple[Number | Percentage, ...]) -> str:
    """What would be printed of these risks, at the precision of those that are."""
    parts = []
    for each, beside in zip(given, printed, strict=True):
        low, high = (f"{round_half_up(end, beside.decimals):f}" for end in each)
        parts.append(low if low == high else f"{low} to {high}")
    return parts[0] if len(parts) == 1 else f"a lower end of {parts[0]} and an upper end of {parts[1]}"
