"""Intervals against their estimate, their counts and their P."""

from __future__ import annotations

import pytest


def rate(interval: str, figures: str = "rate: 86%\n  events: 18\n  total: 21") -> str:
    return (
        f"- id: a\n  question: hole\n  outcome: healed\n  {figures}\n  interval: {interval}\n"
        "  where: p. 2\n  follow_up: not reported\n"
    )


def pooled(value: str, interval: str) -> str:
    return rate(interval, f"rate: {value}\n  pooled: {{studies: 11, model: random effects}}")


def contrast(figures: str) -> str:
    return (
        "- id: a\n  question: hole\n  outcome: healed\n  factor: roots\n  known_at: before\n  reference: one\n"
        f"  contrast: {{adjusted_for: not reported, event_is: good, {figures}}}\n  where: p. 2\n  follow_up: not "
        f"reported\n"
    )


# 18 of 21 by the usual methods: Wilson, exact, Jeffreys, Wald cut at 100 % or not, Agresti-Coull, computed with scipy.
@pytest.mark.parametrize(
    "interval",
    ["65.4% to 95.0%", "63.7% to 97.0%", "66.6% to 95.8%", "71% to 100%", "64% to 96%"],
    ids=["Wilson", "exact", "Jeffreys", "Wald", "Agresti-Coull"],
)
def test_interval_by_any_usual_method_is_honest(asked, interval):
    assert asked(rate(interval)) == []


def test_exact_interval_is_honest_where_the_count_is_not_printed(asked):
    # Clopper-Pearson for 66 of 90, Krupp et al. 2013: 62.97 to 82.11 (computed with R).
    assert asked(rate("63.0% to 82.1%", "rate: 73.3%\n  events: not reported\n  total: 90")) == []
    assert asked(rate("63.0% to 82.1%", "rate: 73.3%\n  events: not reported\n  total: not reported")) == []


def test_interval_that_no_method_gives_and_that_is_off_its_centre_is_asked(asked):
    assert asked(rate("40% to 88%")) == ["interval-not-from-counts: 86% (40% to 88%)"]


def test_interval_from_a_clustered_analysis_is_honest_while_it_is_centred(asked):
    # Wider than 18 of 21 alone allows, and in the middle on the raw scale: teeth of one patient are alike.
    assert asked(rate("72% to 100%", "rate: 86%\n  events: 180\n  total: 210")) == []


# From the abstracts of the reports named, each "silent" or "ask" by arithmetic done by hand.
@pytest.mark.parametrize(
    ("value", "interval", "found"),
    [
        ("86%", "76% to 92%", []),  # Ather et al. 2022: logit alone
        ("91.867%", "85.058% to 96.741%", []),  # Swiss Dent J 2025: arcsine alone
        ("69.6%", "64.5% to 74.8%", []),  # second canals in upper molars 2020: raw alone
        ("90.49%", "88.49% to 92.34%", []),  # Nawal et al. 2023
        ("72.5%", "61.9% to 81.0%", []),  # Siew et al. 2015, recalled
        ("52%", "42% to 56%", ["interval-off-centre: 52% (42% to 56%)"]),  # Tiburcio-Machado et al. 2021
    ],
)
def test_pooled_rate_is_in_the_middle_of_its_interval_on_some_scale(asked, value, interval, found):
    assert asked(pooled(value, interval)) == found


def test_interval_that_misses_its_estimate_is_asked(asked):
    assert asked(pooled("86%", "88% to 92%")) == ["interval-misses-estimate: 86% (88% to 92%)"]


def test_estimate_at_the_end_of_its_interval_is_inside(asked):
    assert asked(rate("83% to 100%", "rate: 100%\n  events: 20\n  total: 20")) == []


# Ratios as printed: Tang et al. 2010 (risk ratios of failure), Nawal et al. 2023, Wang et al. 2022 (retracted; every
# number of it fits), Cabanillas-Balsera et al. 2020.
@pytest.mark.parametrize(
    "figures",
    [
        "measure: risk ratio, value: 0.62, interval: 0.34 to 1.16",
        "measure: risk ratio, value: 0.35, interval: 0.13 to 0.94",
        "measure: risk ratio, value: 0.08, interval: 0.01 to 0.57",
        "measure: odds ratio, value: 2.15, interval: 1.57 to 2.96",
        "measure: odds ratio, value: 1.87, interval: 1.28 to 2.73, p: .001",
        "measure: odds ratio, value: 1.77, interval: 1.14 to 2.73, p: .01",
        "measure: odds ratio, value: 3.43, interval: 1.17 to 10.05, p: .02",
        "measure: odds ratio, value: 2.88, interval: 1.86 to 4.44, p: <.00001",
        "measure: mean difference, value: -1.25, interval: -1.65 to -0.851",
    ],
)
def test_published_ratios_with_interval_and_p_are_honest(asked, figures):
    assert asked(contrast(figures)) == []


def test_ratio_that_is_not_in_the_middle_on_the_log_scale_is_asked(asked):
    found = asked(contrast("measure: odds ratio, value: 2.9, interval: 1.2 to 4.6"))
    assert found == ["interval-off-centre: 2.9 (1.2 to 4.6)"]


@pytest.mark.parametrize("p", [".2", ">.5", ".0001"])
def test_p_that_cannot_belong_to_its_interval_is_asked(asked, p):
    # Nawal et al. 2023 print P = .433 beside 2.15 (1.57 to 2.96): it belongs to heterogeneity.
    found = asked(contrast(f'measure: odds ratio, value: 2.9, interval: 1.2 to 7.1, p: "{p}"'))
    assert found == [f"interval-against-p: 2.9 (1.2 to 7.1), P {p}"]


def test_p_of_another_test_than_walds_is_honest(asked):
    # Likelihood ratio and exact P of a small table differ from Wald's without anybody being at fault.
    assert asked(contrast("measure: odds ratio, value: 6.0, interval: 1.0 to 36, p: .04")) == []
    assert asked(contrast("measure: odds ratio, value: 6.0, interval: 1.0 to 36, p: .06")) == []


def test_p_below_a_limit_is_honest(asked):
    assert asked(contrast('measure: hazard ratio, value: 2.9, interval: 1.2 to 7.1, p: "<=.05"')) == []


@pytest.mark.parametrize(
    "figures",
    [
        "measure: risk difference, value: -1.2, unit: share",
        "measure: risk difference, value: -120, unit: percentage points",
        "measure: prevented fraction, value: 1.3",
    ],
)
def test_share_beyond_all_is_asked(asked, figures):
    (found,) = asked(contrast(figures))
    assert found.startswith("proportion-out-of-range: ")


def test_difference_in_percentage_points_is_a_hundred_times_larger(asked):
    figures = "measure: risk difference, value: -2.0, interval: -9.6 to 5.6"
    assert asked(contrast(f"{figures}, unit: percentage points")) == []
    assert asked(contrast(figures)) == []  # no two shares differ by two
    assert asked(contrast("measure: risk difference, value: -0.4, interval: -9.6 to 8.8")) == []


def estimate(kind: str, value: str, interval: str) -> str:
    return (
        f"- id: a\n  question: hole\n  outcome: healed\n  estimate: {{kind: {kind}, at: 5 years, value: {value}, "
        f"interval: {interval}}}\n  where: p. 2\n  follow_up: not applicable\n"
    )


# Gorni et al. 2022, J Endod: probability of reversal at 5, 10 and 14 years, from the abstract.
@pytest.mark.parametrize(("value", "interval"), [("6%", "2% to 10%"), ("30%", "20% to 38%"), ("62%", "46% to 73%")])
def test_published_incidences_are_honest(asked, value, interval):
    assert asked(estimate("cumulative incidence", value, interval)) == []


def test_incidence_may_be_centred_on_the_scale_of_survival(asked):
    # log(-log) of the survival of 0.70: standard error 0.30 on that scale gives 0.526 to 0.820 (computed by hand).
    assert asked(estimate("survival", "70.0%", "52.6% to 82.0%")) == []
    assert asked(estimate("cumulative incidence", "30.0%", "18.0% to 47.4%")) == []
