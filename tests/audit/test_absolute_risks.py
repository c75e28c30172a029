"""Absolute risks beside a ratio follow from it over all roundings of what is printed, and over no more."""

from __future__ import annotations

import math
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal

import pytest
from hypothesis import HealthCheck, given, settings, strategies as st


def ratio(measure: str, value: str, absolute: str, interval: str = "") -> str:
    """One claim of a review: a ratio, and the absolute risks it prints beside."""
    ends = f", interval: {interval}" if interval else ""
    event_is = ", event: failed, event_is: bad" if "ratio" in measure else ""
    return (
        "- {id: a, question: hole, outcome: healed, factor: roots, known_at: before, reference: one, where: p. 2,\n"
        f"   follow_up: not reported, contrast: {{measure: {measure}, value: {value}{ends}{event_is}, level: more than "
        f"one, reference: one, adjusted_for: not reported, absolute: {{{absolute}}}}}}}\n"
    )


# Seen: Cochrane Handbook 5.1, Figure 11.5.a (a table of findings, risk ratios), section 11.5.5 (risk ratio 0.75 at 80%
# and at 20%) and section 12.5.4 (RR 0.92 and OR 0.73 at 300 per 1000: 24 and 62 fewer).
@pytest.mark.parametrize(
    ("measure", "value", "interval", "absolute"),
    [
        ("risk ratio", "0.10", "0.04 to 0.26", "per: 1000, reference: 10, level: 1, interval: 0 to 3"),
        ("risk ratio", "0.10", "0.04 to 0.26", "per: 1000, reference: 30, level: 3, interval: 1 to 8"),
        ("risk ratio", "0.45", "0.18 to 1.13", "per: 1000, reference: 13, level: 6, interval: 2 to 15"),
        ("risk ratio", "0.75", "", "per: 100, reference: 80, level: 60"),
        ("risk ratio", "0.75", "", "per: 100, reference: 20, level: 15"),
        ("risk ratio", "0.92", "", "per: 1000, reference: 300, level: 276"),
        ("odds ratio", "0.73", "", "per: 1000, reference: 300, level: 238"),
    ],
)
def test_what_the_handbook_prints_is_honest(asked, measure, value, interval, absolute):
    assert asked(ratio(measure, value, absolute, interval)) == []


# Invented figures, reckoned by hand with the formulas that the rule names.
@pytest.mark.parametrize(
    ("measure", "value", "interval", "absolute"),
    [
        # 880 of 1000 are odds of 7.333; times 0.46, 0.29 and 0.73 they are 771, 680 and 843 of 1000.
        ("odds ratio", "0.46", "0.29 to 0.73", "per: 1000, reference: 880, level: 771, interval: 680 to 843"),
        # 1 - 0.8 ^ 1.5 = 0.2845; 1 - 0.8 ^ 1.1 = 0.2177; 1 - 0.8 ^ 2 = 0.36.
        ("hazard ratio", "1.5", "1.1 to 2.0", "per: 100, reference: 20, level: 28.4, interval: 22 to 36"),
        ("risk difference", "-0.06", "-0.10 to -0.02", "per: 100, reference: 20, level: 14, interval: 10 to 18"),
        ("risk difference", "-6%", "-10% to -2%", "per: 100, reference: 20, level: 14, interval: 10 to 18"),
        # A fraction of a quarter is prevented; its upper limit leaves the lower risk.
        ("prevented fraction", "25%", "10% to 40%", "per: 100, reference: 40, level: 30, interval: 24 to 36"),
        # 14.5 x 0.045 is still more than half of 1, and prints as 1; nothing below all is more than all.
        ("risk ratio", "0.04", "", "per: 1000, reference: 14, level: 1"),
        ("risk ratio", "3.9", "", "per: 1000, reference: 300, level: 1000"),
        ("risk ratio", "0.04", "", "per: 1000, reference: 14, level: not reported"),
        ("risk ratio", "not reported", "", "per: 1000, reference: 14, level: 3"),
        ("odds ratio", "2.0", "", "per: 100, reference: 0, level: 0"),
        ("odds ratio", "2.0", "", "per: 100, reference: 100, level: 100"),
        ("hazard ratio", "2.0", "", "per: 100, reference: 100, level: 100"),
    ],
)
def test_risks_that_follow_are_honest(asked, measure, value, interval, absolute):
    assert asked(ratio(measure, value, absolute, interval)) == []


# A ratio of failing beside risks of healing: of 100, 80 heal and 20 fail at the reference.
@pytest.mark.parametrize(
    ("measure", "value", "interval", "absolute"),
    [
        # 20 x 0.5 = 10 fail, so 90 heal; 20 x 0.4 = 8 and 20 x 0.7 = 14: 86 to 92.
        ("risk ratio", "0.5", "0.4 to 0.7", "per: 100, reference: 80, level: 90, interval: 86 to 92"),
        # Odds of 0.25 times 2 are 0.5: 33.3 fail; times 1.3 it is 24.5, times 3.1 43.7.
        ("odds ratio", "2.0", "1.3 to 3.1", "per: 100, reference: 80, level: 66.7, interval: 56 to 75"),
        # 0.8 ^ 2 = 0.64 heal, 0.8 ^ 4 = 0.41.
        ("hazard ratio", "2.0", "1.0 to 4.0", "per: 100, reference: 80, level: 64, interval: 41 to 80"),
        ("risk difference", "0.06", "0.02 to 0.10", "per: 100, reference: 80, level: 74, interval: 70 to 78"),
        ("prevented fraction", "50%", "20% to 70%", "per: 100, reference: 80, level: 90, interval: 84 to 94"),
    ],
)
def test_a_ratio_of_the_opposite_ending_is_honest(asked, measure, value, interval, absolute):
    assert asked(ratio(measure, value, absolute, interval)) == []


@pytest.mark.parametrize(
    ("measure", "value", "interval", "absolute", "printed"),
    [
        ("risk ratio", "0.04", "", "per: 1000, reference: 14, level: 0.02", "0.02 against 14 per 1000 by 0.04"),
        ("risk ratio", "0.92", "", "per: 1000, reference: 300, level: 226", "226 against 300 per 1000 by 0.92"),
        # The next whole number beyond what the roundings reach: 300.5 x 0.925 is 277.96.
        ("risk ratio", "0.92", "", "per: 1000, reference: 300, level: 279", "279 against 300 per 1000 by 0.92"),
        # An odds ratio taken for one of risks: 880 x 0.46 = 405.
        ("odds ratio", "0.46", "", "per: 1000, reference: 880, level: 405", "405 against 880 per 1000 by 0.46"),
        # 1 - 0.795 ^ 1.55 is 29.9: 30 would follow.
        ("hazard ratio", "1.5", "", "per: 100, reference: 20, level: 32", "32 against 20 per 100 by 1.5"),
        ("risk difference", "-0.06", "", "per: 100, reference: 20, level: 17", "17 against 20 per 100 by -0.06"),
        ("prevented fraction", "25%", "", "per: 100, reference: 40, level: 34", "34 against 40 per 100 by 25%"),
        # The level follows, one end of its interval does not.
        (
            "risk ratio", "0.49", "0.35 to 0.69", "per: 1000, reference: 210, level: 103, interval: 74 to 154",
            "74 to 154 against 210 per 1000 by 0.35 to 0.69",
        ),
        # Ends of one ending beside a level of the other.
        (
            "risk ratio", "0.5", "0.4 to 0.7", "per: 100, reference: 80, level: 90, interval: 32 to 56",
            "90 against 80 per 100 by 0.5",
        ),
        # A ratio that touches: 10.5 x 2.5 = 26.25, which no smaller reference or ratio reaches.
        ("risk ratio", "2", "", "per: 100, reference: 10, level: 26.3", "26.3 against 10 per 100 by 2"),
    ],
)  # fmt: skip
def test_risks_that_do_not_follow_are_asked_about(asked, measure, value, interval, absolute, printed):
    assert asked(ratio(measure, value, absolute, interval)) == [f"absolute-against-ratio: {printed}"]


def test_both_readings_are_told_in_words(reckoned):
    (problem,) = reckoned(ratio("risk ratio", "0.04", "per: 1000, reference: 14, level: 0.02"))
    assert problem.message == (
        '"0.02 against 14 per 1000 by 0.04": the review prints 0.02 per 1000, while at 14 per 1000 a risk ratio of '
        "0.04 gives 0.47 to 0.65, however the figures were rounded, and 955.61 to 965.51 where it counts the opposite "
        "ending; these printed figures do not agree, ask"
    )
    assert (
        "- {rule: absolute-against-ratio, printed: 0.02 against 14 per 1000 by 0.04, by: YOUR INITIALS" in problem.hint
    )


def test_ends_are_told_one_by_one(reckoned):
    (problem,) = reckoned(
        ratio("risk ratio", "0.49", "per: 1000, reference: 210, level: 103, interval: 74 to 154", "0.35 to 0.69")
    )
    assert "a lower end of 72 to 75 and an upper end of 144 to 146" in problem.message


@pytest.mark.parametrize("risk", ["level: 1276, reference: 300", "level: 276, reference: 1300"])
def test_a_risk_above_all_is_asked_about_as_such(asked, risk):
    (found,) = asked(ratio("risk ratio", "0.92", f"per: 1000, {risk}"))
    assert found.startswith("proportion-out-of-range: 1")


def at_level(measure: str, effect: float, risk: float) -> float:
    """The textbook formulas once more, in floating point."""
    if measure == "odds ratio":
        odds = effect * risk / (1 - risk)
        return odds / (1 + odds)
    return {
        "risk ratio": risk * effect,
        "hazard ratio": 1 - (1 - risk) ** effect,
        "risk difference": risk + effect,
        "prevented fraction": risk * (1 - effect),
    }[measure]


MEASURES = ("risk ratio", "odds ratio", "hazard ratio", "risk difference", "prevented fraction")


@st.composite
def honest_reviews(draw: st.DrawFn) -> tuple[str, str, str, str]:
    """Measure, ratio, interval and risks, each rounded once from the unrounded."""
    measure = draw(st.sampled_from(MEASURES))
    risk, spread = draw(st.floats(0.01, 0.9)), draw(st.floats(0.05, 0.8))
    if measure in ("risk difference", "prevented fraction"):
        middle = draw(st.floats(-0.05, 0.05))
        limits = (middle - spread / 20, middle, middle + spread / 20)
    else:
        middle = draw(st.floats(-1.5, 1.5))
        limits = tuple(math.exp(middle + step) for step in (-spread, 0, spread))
    rounding = draw(st.sampled_from([ROUND_HALF_UP, ROUND_HALF_EVEN]))
    decimals = draw(st.integers(2, 3))

    def printed(value: float, places: int) -> Decimal:
        return Decimal(repr(value)).quantize(Decimal(1).scaleb(-places), rounding=rounding)

    per, places = draw(st.sampled_from([(100, 0), (100, 1), (1000, 0)]))
    is_turned = draw(st.booleans())
    own = 1 - risk if is_turned else risk
    found = [min(max(at_level(measure, limit, own), 0.0), 1.0) for limit in limits]
    risks = sorted(printed(per * (1 - each if is_turned else each), places) for each in found)
    low, value, high = (f"{printed(limit, decimals):f}" for limit in limits)
    absolute = (
        f"per: {per}, reference: {printed(per * risk, places)}, level: {risks[1]}, interval: {risks[0]} to {risks[2]}"
    )
    return measure, value, f"{low} to {high}", absolute


@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(review=honest_reviews())
def test_what_was_rounded_once_is_never_asked_about(asked, review):
    measure, value, interval, absolute = review
    found = [each for each in asked(ratio(measure, value, absolute, interval)) if "absolute-against-ratio" in each]
    assert found == []
