"""A ratio or difference beside the table it is of, and on which side a level stands."""

from __future__ import annotations

from collections.abc import Iterator

from ..problems import Problem
from ..proof.asking import ask
from ..proof.clear_sides import clear_side, is_clear
from ..proof.figures_of import count
from ..reading.contrasts import RATIOS
from ..reading.folded import folded
from ..reading.model import Outcome
from ..reading.report_model import Claim, Contrast, Level
from ..reading.values import Ends, Missing, Number, Percentage, Words
from ..synthesis.consistency import ratio_from_table_agrees
from ..synthesis.contrast import TwoByTwo
from .means import find_difference, side_of_measured

RULES = {
    "ratio-against-table": (
        "An unadjusted ratio or difference does not follow from the counts or means beside it, at its printed "
        "precision. It "
        "may be adjusted after all, or belong to another visit or another pair of levels. Basis: Cochrane Handbook "
        "chapter 6 (from memory); both rules of rounding and the usual 0.5 added to an empty cell are accepted."
    ),
    "event-direction": (
        "The counts give this ratio for the opposite event: the claim says that it counts a bad ending, and the table "
        "gives it for the good one, or the other way round. A ratio on the wrong side turns a finding around, so the "
        "question is asked in words: which ending does the paper count? Correct `event` and `event_is`, or answer. "
        "Basis: inverting the event inverts an odds ratio exactly (arithmetic)."
    ),
    "direction-disagrees": (
        "A typed `direction` is not the side on which the printed estimate lies. The direction here is always the "
        "side of the point estimate, for the patient; only rates that print alike at whole per cent, or a ratio that "
        "prints as 1.0, show no clear difference. Basis: definition of this guide; McKenzie and Brennan, Cochrane "
        "Handbook chapter 12, on why significance must not decide it (from memory)."
    ),
}

SHARES = ("risk difference", "prevented fraction")
_FROM_COUNTS = frozenset(("odds ratio", "risk ratio", "risk difference", "prevented fraction"))


def find_in_claim(claim: Claim, outcome: Outcome | None, place: str) -> Iterator[Problem]:
    """Levels and ratio of one claim. outcome: None where the vocabulary lacks it; no side can be told then."""
    contrast = claim.contrast
    if claim.levels and outcome is not None:
        rows = {folded(level.level.text): level for level in claim.levels}
        reference = rows.get(folded(claim.reference.text)) if isinstance(claim.reference, Words) else None
        for level in claim.levels:
            if level.direction is not None and level is not reference:
                yield from _direction(level, reference, contrast, outcome, place)
        if contrast is not None and contrast.measure.text in _FROM_COUNTS and _is_crude(contrast):
            yield from _ratio(contrast, claim, rows, outcome, place)
        elif contrast is not None and contrast.measure.text == "mean difference" and _is_crude(contrast):
            yield from find_difference(contrast, _pair(contrast, claim, rows), place)
        elif contrast is not None and contrast.measure.text in RATIOS:
            yield from _other_side(contrast, claim, rows, outcome, place)


def in_percent(contrast: Contrast) -> bool:
    """True where a difference of shares is typed as a number of percentage points: `unit` says so in words, or it
    stands where no two shares differ so far."""
    if contrast.measure.text not in SHARES:
        return False
    if not isinstance(contrast.unit, Words):
        return contrast.measure.text == "risk difference" and _is_beyond_shares(contrast)
    unit = contrast.unit.text.casefold()
    return "percent" in unit or "per cent" in unit or "point" in unit or "%" in unit


def _is_beyond_shares(contrast: Contrast) -> bool:
    """Whether a difference is more than all, or an end of its interval so far that Wald's does not reach it."""
    value, ends = contrast.value, contrast.interval
    is_far = type(value) is Number and abs(value.value) > 1
    return is_far or (
        type(ends) is Ends and any(type(end) is Number and abs(end.value) > 2 for end in (ends.low, ends.high))
    )


def is_possible(contrast: Contrast, value: Number | Percentage) -> bool:
    """False where no counts can give this value of its measure."""
    measure = contrast.measure.text
    if measure in RATIOS:
        return value.value >= 0
    if measure in SHARES:
        most = 100 if type(value) is Percentage or in_percent(contrast) else 1
        return value.value <= most and (measure != "risk difference" or value.value >= -most)
    return True


def _is_crude(contrast: Contrast) -> bool:
    return isinstance(contrast.adjusted_for, Words) and contrast.adjusted_for.text == "none"


def _direction(
    level: Level, reference: Level | None, contrast: Contrast | None, outcome: Outcome, place: str
) -> Iterator[Problem]:
    typed = level.direction
    if typed is None or typed.text == "not stated":
        return
    found = None
    if reference is not None:
        found = side_of_measured(level, reference, outcome) or _side(level, reference, outcome)
    if found is None and contrast is not None:
        found = _side_of_ratio(level, contrast)
    if found is None:
        return
    derived, shown = found
    if derived != typed.text:
        tells = f'these figures lie on the side "{derived}", but "{typed.text}" is typed'
        yield ask(typed.position, "direction-disagrees", shown, tells, place)


def _side(level: Level, reference: Level, outcome: Outcome) -> tuple[str, str] | None:
    events, total = count(level.events), count(level.total)
    other_events, other_total = count(reference.events), count(reference.total)
    if events is not None and other_events is not None and total and other_total:
        shown = f"{events} of {total} against {other_events} of {other_total}"
        # Alike only where both print alike at whole per cent, half-up.
        own_percent = (200 * events + total) // (2 * total)
        alike = own_percent == (200 * other_events + other_total) // (2 * other_total)
        more = events * other_total > other_events * total
        more_is_good = outcome.good
    else:
        one, other = level.estimate, reference.estimate
        if one is None or other is None or one.kind.text != other.kind.text:
            return None
        if type(one.value) is not Percentage or type(other.value) is not Percentage:
            return None
        shown = f"{one.value.text} against {other.value.text}"
        alike = round(one.value.value) == round(other.value.value)
        more = one.value.value > other.value.value
        # Survival is the share still good; the other kinds count the outcome's own event.
        more_is_good = one.kind.text == "survival" or outcome.good
    if alike:
        return "no clear difference", shown
    return ("better" if more == more_is_good else "worse"), shown


def _side_of_ratio(level: Level, contrast: Contrast) -> tuple[str, str] | None:
    value = contrast.value
    if contrast.level is None or folded(contrast.level.text) != folded(level.level.text):
        return None
    if contrast.measure.text not in RATIOS or type(value) is not Number or contrast.event_is is None:
        return None
    shown = f"{contrast.measure.text} {value.text}"
    if round(value.value, 1) == 1:
        return "no clear difference", shown
    return ("better" if (value.value > 1) == (contrast.event_is.text == "good") else "worse"), shown


def _ratio(contrast: Contrast, claim: Claim, rows: dict[str, Level], outcome: Outcome, place: str) -> Iterator[Problem]:
    value = contrast.value
    pair = _pair(contrast, claim, rows)
    if isinstance(value, Missing) or pair is None or not is_possible(contrast, value):
        return
    value_text = f"{value.text}%" if type(value) is Number and in_percent(contrast) else value.text
    level, reference = pair
    table = _table(level, reference)
    if table is None:
        return
    measure = contrast.measure.text
    counts_good = outcome.good if contrast.event_is is None else contrast.event_is.text == "good"
    flipped = TwoByTwo(table[1] - table[0], table[1], table[3] - table[2], table[3])
    asked, other = (table, flipped) if counts_good == outcome.good else (flipped, table)
    if ratio_from_table_agrees(measure, value_text, asked):
        return
    printed = (
        f"{value.text} beside {level.level.text} {table[0]} of {table[1]}, "
        f"{reference.level.text} {table[2]} of {table[3]}"
    )
    turned = TwoByTwo(asked[2], asked[3], asked[0], asked[1])
    good, bad = ("good", "bad") if counts_good else ("bad", "good")
    if ratio_from_table_agrees(measure, value_text, other):
        tells = (
            f"the table gives this {measure} for the {bad} ending, but `event_is` is {good}: "
            "which ending does the paper count"
        )
        yield ask(value.position, "event-direction", printed, tells, place)
    elif ratio_from_table_agrees(measure, value_text, turned):
        tells = (
            f'the table gives this {measure} with "{level.level.text}" as the reference: which level does the paper '
            "compare with which"
        )
        yield ask(value.position, "event-direction", printed, tells, place)
    else:
        tells = f"the table does not give this {measure} for the {good} ending, nor for the other ending"
        yield ask(value.position, "ratio-against-table", printed, tells, place)


def _other_side(
    contrast: Contrast, claim: Claim, rows: dict[str, Level], outcome: Outcome, place: str
) -> Iterator[Problem]:
    """An adjusted ratio, or one of hazards, that stands clearly on the other side of 1 than the crude table."""
    value, pair = contrast.value, _pair(contrast, claim, rows)
    # Only where both leave out 1: an adjustment may well move a weak ratio across.
    if type(value) is not Number or pair is None or contrast.event_is is None or not is_clear(contrast):
        return
    table = _table(*pair)
    side = clear_side(table) if table is not None else 0
    if table is None or not side:
        return
    counts_good = contrast.event_is.text == "good"
    is_above = (side > 0) == (counts_good == outcome.good)
    if (value.value > 1) != is_above:
        level, reference = pair
        printed = (
            f"{value.text} beside {level.level.text} {table[0]} of {table[1]}, "
            f"{reference.level.text} {table[2]} of {table[3]}"
        )
        tells = (
            f"for the {contrast.event_is.text} ending the table lies on the other side of no difference: "
            "which ending does the ratio count, and against which reference"
        )
        yield ask(value.position, "event-direction", printed, tells, place)


def _pair(contrast: Contrast, claim: Claim, rows: dict[str, Level]) -> tuple[Level, Level] | None:
    named = contrast.reference if isinstance(contrast.reference, Words) else claim.reference
    reference = rows.get(folded(named.text)) if isinstance(named, Words) else None
    if reference is None:
        return None
    if contrast.level is not None:
        level = rows.get(folded(contrast.level.text))
    else:
        others = [row for row in rows.values() if row is not reference]
        level = others[0] if len(others) == 1 else None
    return None if level is None or level is reference else (level, reference)


def _table(level: Level, reference: Level) -> TwoByTwo | None:
    events, total = count(level.events), count(level.total)
    other_events, other_total = count(reference.events), count(reference.total)
    if events is None or other_events is None or not total or not other_total:
        return None
    if events > total or other_events > other_total:
        return None
    return TwoByTwo(events, total, other_events, other_total)
