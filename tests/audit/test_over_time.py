"""Times, and what may happen to a rate as time goes on."""

from __future__ import annotations

import pytest


def followed(block: str, figures: str = "events: 40\n  total: 47") -> str:
    return (
        f"- id: a\n  question: hole\n  outcome: healed\n  {figures}\n  where: p. 2\n  follow_up: {{from: "
        f"repair, {block}}}\n"
    )


@pytest.mark.parametrize(
    ("block", "found"),
    [
        ("timing: last recall, minimum: 12 months, median: 33 months, maximum: 65 months", []),
        ("timing: last recall, minimum: 1 year, mean: 3.4 years, maximum: 10 years", []),
        ("timing: last recall, minimum: 12 months, maximum: 1 year", []),
        ("timing: last recall, minimum: 65 months, maximum: 12 months", ["times-out-of-order: 65 months to 12 months"]),
        ("timing: last recall, median: 33 years, maximum: 65 months", ["times-out-of-order: median 33 years"]),
        ("timing: last recall, minimum: 12 months, mean: 11 months", ["times-out-of-order: mean 11 months"]),
        ("timing: at, at: 5 years, maximum: 48 months", ["timing-against-range: at 5 years"]),
        ("timing: at, at: 48 months, tolerance: 3 months, maximum: 50 months", []),
        ("timing: at, at: 6 months, minimum: 12 months", ["timing-against-range: at 6 months"]),
        ("timing: at, at: 12 months, tolerance: 3 months, minimum: 10 months", []),
        (
            "timing: last recall, minimum: 12 months, maximum: 24 months, mean: 18 months, sd: 20 months",
            ["sd-over-range: SD 20 months"],
        ),
        ("timing: last recall, minimum: 12 months, maximum: 65 months, mean: 33 months, sd: 14 months", []),
    ],
)
def test_times_stand_in_order_and_inside_their_range(asked, block, found):
    assert asked(followed(block)) == found


def curve(*points: str, kind: str = "survival", outcome: str = "kept") -> str:
    return "".join(
        f"- id: p{number}\n  question: hole\n  outcome: {outcome}\n  estimate: {{kind: {kind}, {point}}}\n  "
        f"where: p. 2\n"
        "  follow_up: not applicable\n"
        for number, point in enumerate(points)
    )


def test_survival_that_rises_is_asked(asked):
    # A review of transplanted teeth printed 97.4 % at one year and 97.8 % at five (abstract seen).
    found = asked(curve("at: 1 year, value: 97.4%", "at: 5 years, value: 97.8%", "at: 10 years, value: 96.3%"))
    assert found == ["survival-rises: 97.4% at 1 year, 97.8% at 5 years"]


def test_incidence_that_grows_is_honest(asked):
    # Gorni et al. 2022, J Endod, from the abstract.
    points = ("at: 14 years, value: 62%", "at: 5 years, value: 6%", "at: 10 years, value: 30%")
    assert asked(curve(*points, kind="cumulative incidence")) == []
    (found,) = asked(curve(*points, kind="survival"))[:1]
    assert found.startswith("survival-rises")


def test_number_at_risk_that_grows_is_asked(asked):
    points = ("at: 1 year, value: 98%, starting: 60, at_risk: 30", "at: 5 years, value: 90%, starting: 60, at_risk: 35")
    assert asked(curve(*points)) == ["survival-rises: 30 at risk at 1 year, 35 at 5 years"]


def test_more_at_risk_than_at_the_start_is_asked(asked):
    assert asked(curve("at: 1 year, value: 98%, starting: 30, at_risk: 31")) == [
        "at-risk-over-starting: 31 at risk of 30"
    ]


def test_crude_rate_may_rise_when_those_who_fail_stay_away(asked):
    # Chong et al. 2003, Int Endod J 36:520-526: 84 % of 64 at 12 months, 92 % of 61 at 24.
    claims = followed("timing: at, at: 12 months", "events: 54\n  total: 64\n  rate: 84%") + followed(
        "timing: at, at: 24 months", "events: 56\n  total: 61\n  rate: 92%"
    ).replace("id: a", "id: b")
    assert asked(claims) == []


def survived(at_risk: str, value: str = "58%") -> str:
    return (
        "- id: a\n  question: hole\n  outcome: healed\n  events: 67\n  total: 115\n"
        f"  estimate: {{kind: survival, at: 14 years, value: {value}, starting: 115{at_risk}}}\n"
        "  where: p. 2\n  follow_up: not applicable\n"
    )


def test_plain_share_shown_as_an_estimate_is_asked(asked):
    # Gorni et al. 2022: 48 of 115 reversed, 42 %; the estimate at 14 years is 62 %.
    assert asked(survived(", at_risk: 9")) == ["crude-as-survival: 58% at 14 years"]
    assert asked(survived(", at_risk: 9", "38%")) == []


def test_estimate_without_anybody_censored_is_the_plain_share(asked):
    assert asked(survived(", at_risk: 67")) == []


def test_estimate_is_not_doubted_where_nobody_tells_who_was_at_risk(asked):
    assert asked(survived("")) == []
