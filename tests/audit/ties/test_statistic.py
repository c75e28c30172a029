"""A number typed as another kind of statistic than the passage prints. Wordings: common practice, no source."""

from __future__ import annotations

import pytest

from .conftest import Asked
from .words_for_ratios import FILES, ratio

FOLLOWED = "events: 77\ntotal: 92\nfollow_up: {from: treatment, timing: last recall, mean: 32.5 months, sd: 1.1 months}"
KEPT = "outcome: kept\nfollow_up: {from: treatment, timing: at, at: 5 years, tolerance: not reported}"
SHARE = f"{KEPT}\nevents: not reported\ntotal: 150\nrate: 84%"
SURVIVAL = (
    "outcome: kept\nestimate: {kind: survival, at: 5 years, value: 84%, from: treatment}\nfollow_up: not applicable"
)
INCIDENCE = (
    "outcome: diseased\nestimate: {kind: cumulative incidence, at: 5 years, value: 2.4%, from: treatment}\n"
    "follow_up: not applicable"
)
YEARLY = "outcome: diseased\nestimate: {kind: yearly rate, value: 9.5%, from: treatment}\nfollow_up: not applicable"


def rules(problems: list) -> list[str]:  # type: ignore[type-arg]
    """The rule of each."""
    return [problem.rule for problem in problems]


APART = (
    "Of 150 teeth examined at 5 years, 126 (84%) were still in place.",
    "At 5 years 150 teeth were examined, of which 126, or 84%, were in place.",
    "At 5 years 84% (126) of the 150 teeth examined were in place.",
    "A total of 150 teeth were seen at 5 years. Of these, 126 (84%) were still in place.",
)
NOT_APART = (
    "The Kaplan-Meier survival of the 150 teeth was 84% at 5 years, when 126 were at risk.",
    "Of 150 teeth 126 were examined at 5 years; cumulative survival was 84% (life table).",
    "Of 150 teeth, 84% were estimated to be in place at 5 years (Kaplan-Meier).",
)


@pytest.mark.parametrize("passage", APART)
def test_a_share_of_counts_that_stand_apart_is_no_estimate(open_problems: Asked, passage: str) -> None:
    assert [problem.rule for problem in open_problems(passage, SURVIVAL)] == ["other-statistic"]


@pytest.mark.parametrize("passage", NOT_APART)
def test_an_estimate_beside_counts_is_one(open_problems: Asked, passage: str) -> None:
    assert open_problems(passage, SURVIVAL) == []


@pytest.mark.parametrize(
    "passage",
    [
        "mean follow-up 32.5 months (standard error 1.1 months); 77 of 92 healed",
        "mean follow-up 32.5 months (SE 1.1 months); 77 of 92 healed",
        "mean follow-up 32.5 months (SEM, 1.1 months); 77 of 92 healed",
        "mean follow-up 32.5 months ± 1.1 months (SE); 77 of 92 healed",
        "mean (SE) follow-up 32.5 months (1.1 months); 77 of 92 healed",
        "77 of 92 healed; follow-up (mean ± SEM) 32.5 months ± 1.1 months",
        "Values are means and standard errors. Follow-up 32.5 months (1.1 months); 77 of 92 healed",
    ],
)
def test_a_standard_error_typed_as_a_standard_deviation_is_asked_about(open_problems: Asked, passage: str) -> None:
    found = [problem for problem in open_problems(passage, FOLLOWED) if problem.rule == "other-statistic"]
    assert len(found) == 1
    assert "standard error" in found[0].message


@pytest.mark.parametrize(
    "passage",
    [
        "mean follow-up 32.5 months (SD 1.1 months); 77 of 92 healed",
        "mean follow-up 32.5 months (SD 1.1 months); 77 of 92 healed (84%, SE 4%)",
        "mean (SD) follow-up 32.5 months (1.1 months); 77 of 92 healed",
    ],
)
def test_a_standard_deviation_is_not(open_problems: Asked, passage: str) -> None:
    assert open_problems(passage, FOLLOWED) == []


@pytest.mark.parametrize(
    "passage",
    [
        "The Kaplan-Meier estimate of survival at 5 years was 84% (150 teeth)",
        "Life table: 150 teeth, cumulative survival at 5 years 84%",
        "Actuarial survival at 5 years: 84% of 150 teeth",
        "Product-limit survival at 5 years was 84% (n = 150)",
        "Estimated survival at 5 years 84%, 150 teeth",
        "150 teeth; the probability of survival was 84% at 5 years",
        "At 5 years the cumulative survival rate was 84%; 150 teeth had been treated",
        "With censored teeth left in, 84% of 150 teeth survived 5 years",
        "The chance of surviving 5 years was estimated at 84% (150 teeth)",
        "Time | At risk | Cumulative survival\n 5 years | 150 teeth | 84%",
    ],
)
def test_an_estimate_typed_as_a_counted_share_is_asked_about(open_problems: Asked, passage: str) -> None:
    assert rules(open_problems(passage, SHARE)) == ["other-statistic"]
    assert open_problems(passage, SURVIVAL) == []


@pytest.mark.parametrize(
    "passage",
    [
        "Survival at 5 years: 84% of 150 teeth",
        "At 5 years 84% of 150 teeth were in place",
        "kept at 5 years: 84%, n = 150",
    ],
)
def test_a_counted_share_is_not(open_problems: Asked, passage: str) -> None:
    assert open_problems(passage, SHARE) == []


def test_a_share_of_printed_counts_is_a_counted_one_whatever_it_is_called(open_problems: Asked) -> None:
    claim = f"{KEPT}\nevents: 126\ntotal: 150\nrate: 84%"
    assert open_problems("Cumulative survival at 5 years: 126 of 150 teeth (84%)", claim) == []


@pytest.mark.parametrize(
    "passage",
    [
        "Life table. 3 years: 214 at risk, 94.0%. 5 years: 120 at risk, survival 90.0%",
        "At 5 years (number at risk 120) survival was 90.0%",
        "Survival at 5 years | 90.0%\n No. at risk | 120",
    ],
)
def test_a_share_out_of_those_at_risk_is_asked_about(open_problems: Asked, passage: str) -> None:
    claim = "outcome: kept\nevents: not reported\ntotal: 120\nrate: 90.0%\n"
    claim += "follow_up: {from: treatment, timing: at, at: 5 years}"
    (problem,) = open_problems(passage, claim)
    assert problem.rule == "other-statistic"
    assert "at_risk: 120" in problem.hint


def test_a_share_of_a_population_at_risk_of_something_is_not(open_problems: Asked) -> None:
    claim = "outcome: kept\nevents: 108\ntotal: 120\nrate: 90.0%\n"
    claim += "follow_up: {from: treatment, timing: at, at: 5 years}"
    assert open_problems("At 5 years 108 of 120 teeth at risk (90.0%) survived", claim) == []


def test_a_counted_share_typed_as_an_estimate_is_asked_about(open_problems: Asked) -> None:
    passage = "At 5 years 126 of 150 teeth (84%) were in place. The Kaplan-Meier estimate at 5 years was 81%"
    (problem,) = open_problems(passage, SURVIVAL)
    assert problem.rule == "other-statistic"
    assert '"126 of 150"' in problem.message
    assert open_problems(passage, SURVIVAL.replace("84%", "81%")) == []


@pytest.mark.parametrize(
    "passage",
    [
        "Teeth were followed for 5 years; the annual failure rate was 2.4%",
        "Failure at 2.4% per year over 5 years",
        "Mean annual failure rate over 5 years: 2.4%",
        "Each year 2.4% failed, up to 5 years",
        "AFR over 5 years 2.4%",
        "2.4 failures per 100 tooth-years (2.4%) in 5 years",
        "2.4% a year failed, over 5 years",
        "Failure was 2.4%/year during 5 years",
        "An average of 2.4% per annum failed up to 5 years",
        "2.4% failed in every twelve months of the 5 years",
        "In an average year 2.4% failed; follow-up was 5 years",
        "2.4%/y failed over 5 years",
    ],
)
def test_a_yearly_rate_typed_as_one_of_several_years_is_asked_about(open_problems: Asked, passage: str) -> None:
    assert "other-statistic" in rules(open_problems(passage, INCIDENCE))


@pytest.mark.parametrize(
    "passage",
    [
        "The cumulative incidence of failure at 5 years was 2.4%",
        "Teeth were seen at annual recalls; failure at 5 years 2.4%",
        "At 5 years 2.4% had failed (0.5% per year)",
        "Reviewed every year; by 5 years 2.4% had failed",
        "Failure at 5 years was 2.4% in teeth seen every year",
        "At 5 years 2.4% had failed (annual failure 0.5%)",
    ],
)
def test_one_of_several_years_is_not(open_problems: Asked, passage: str) -> None:
    assert open_problems(passage, INCIDENCE) == []


def test_one_of_several_years_typed_as_a_yearly_rate_is_asked_about(open_problems: Asked) -> None:
    assert rules(open_problems("Cumulative incidence of failure at 5 years: 9.5%", YEARLY)) == ["other-statistic"]
    assert open_problems("Annual failure rate 9.5% over 5 years", YEARLY) == []


def test_an_incidence_typed_as_a_survival_is_asked_about(open_problems: Asked) -> None:
    passage = "Cumulative incidence of extraction at 5 years 84%"
    assert open_problems(passage, SURVIVAL)


MEASURES = ("odds ratio", "risk ratio", "hazard ratio")
BARE = (
    ("odds ratio", "The odds of healing were 2.4 times higher with silicate cement than with calcium hydroxide."),
    ("odds ratio", "Logistic regression of healing: silicate cement vs calcium hydroxide 2.4 (1.3 to 4.3)"),
    ("hazard ratio", "The hazard of healing with silicate cement was 2.4 times that of calcium hydroxide."),
    ("hazard ratio", "Cox model of healing, silicate cement vs calcium hydroxide: 2.4 (1.3 to 4.3)"),
    ("hazard ratio", "Hazard ratios of healing (hazards proportional): silicate cement vs calcium hydroxide 2.4"),
    ("risk ratio", "Relative risk of healing | silicate cement vs calcium hydroxide | 2.4"),
    ("risk ratio", "Healing | RR (95% CI)\n silicate cement vs calcium hydroxide | 2.4 (1.3 to 4.3)"),
)


@pytest.mark.parametrize(("measure", "passage"), BARE)
def test_a_ratio_typed_as_another_measure_is_asked_about(open_problems: Asked, measure: str, passage: str) -> None:
    assert open_problems(passage, ratio(measure=measure), files=FILES) == []
    for other in MEASURES:
        if other != measure:
            (problem,) = open_problems(passage, ratio(measure=other), files=FILES)
            assert problem.rule in ("other-statistic", "figure-means-something-else")


def of_interval(open_problems: Asked, passage: str, low: str, high: str, more: str = "") -> list[str]:
    claim = f"events: 52\ntotal: 65\nrate: 80%\ninterval: {low}% to {high}%{more}"
    return rules(open_problems(f"Success {passage}", claim))


PREDICTED = (
    "80% (52/65; 95% prediction interval 70 to 87).",
    "80% (52/65; prediction interval, 70% to 87%).",
    "80% (52/65; 95% PI 70 to 87).",
    "80% (52/65; 70 to 87, 95% prediction limits).",
    "80% (52/65; predictive interval 70 to 87).",
    "80% (52/65; 95% CI 75 to 84; 95% prediction interval 70 to 87).",
)
NOT_PREDICTED = (
    "80% (52/65; 95% CI 70 to 87; 95% prediction interval 58 to 93).",
    "80% (52/65; 95% prediction interval 58 to 93; 95% CI 70 to 87).",
    "80% (52/65; 70 to 87); prediction interval 58 to 93.",
)


@pytest.mark.parametrize("passage", PREDICTED)
def test_a_prediction_interval_is_none_of_confidence(open_problems: Asked, passage: str) -> None:
    assert of_interval(open_problems, passage, "70", "87") == ["other-statistic"]


@pytest.mark.parametrize("passage", NOT_PREDICTED)
def test_an_interval_beside_a_prediction_interval_is_silent(open_problems: Asked, passage: str) -> None:
    assert of_interval(open_problems, passage, "70", "87") == []


AT_NINETY = (
    "80% (52/65; 70 to 87). All intervals in this report have 90% coverage.",
    "80% (52/65; 70 to 87; 90% coverage).",
    "80% (52/65; 70 to 87; coverage 90%).",
    "80% (52/65; 70 to 87). Intervals of 90% were computed.",
    "80% (52/65; 70 to 87). Confidence intervals with a coverage of 90%.",
)
NO_LEVEL = (
    "80% (52/65; 70 to 87). Sheets gave 90% coverage of the field.",
    "80% (52/65; 70 to 87). Recall coverage was 90%.",
    "80% (52/65; 95% coverage 70 to 87).",
)


@pytest.mark.parametrize("passage", AT_NINETY)
def test_the_coverage_of_an_interval_is_its_level(open_problems: Asked, passage: str) -> None:
    assert of_interval(open_problems, passage, "70", "87", "\nconfidence: 90%") == []
    assert of_interval(open_problems, passage, "70", "87") == ["interval-level"]


@pytest.mark.parametrize("passage", NO_LEVEL)
def test_another_coverage_is_no_level(open_problems: Asked, passage: str) -> None:
    assert of_interval(open_problems, passage, "70", "87") == []
