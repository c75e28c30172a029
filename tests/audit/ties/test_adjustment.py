"""A crude ratio typed as adjusted, an adjusted one as crude. Wordings: common practice of reports, no source."""

from __future__ import annotations

import pytest

from .conftest import Asked
from .words_for_ratios import FILES, ratio

AGAINST = "silicate cement against calcium hydroxide"
ADJUSTED = (
    "After controlling for age, {}: OR 2.4 (1.3 to 4.3)",
    "{}: OR 2.4 (95% CI 1.3 to 4.3), adjusted for age",
    "{}: aOR 2.4 (1.3 to 4.3)",
    "{}, OR adjusted for age 2.4 (1.3 to 4.3)",
    "{}: OR 3.9 (2.0 to 7.6), and after adjustment for age 2.4 (1.3 to 4.3)",
    "{}: crude OR 3.9 (95% CI 2.0 to 7.6), adjusted 2.4 (1.3 to 4.3)",
    "{}: the odds ratio was 3.9 (2.0 to 7.6) unadjusted and 2.4 (1.3 to 4.3) adjusted",
    "{}: the unadjusted and adjusted odds ratios were 3.9 (2.0 to 7.6) and 2.4 (1.3 to 4.3), respectively",
    "Healing | Crude OR (95% CI) | Adjusted OR (95% CI)\n {} | 3.9 (2.0 to 7.6) | 2.4 (1.3 to 4.3)",
    "{} | univariable 3.9 (2.0 to 7.6) | multivariable 2.4 (1.3 to 4.3)",
    "Multivariable logistic regression. {}, OR 2.4 (1.3 to 4.3)",
    "{}: OR 2.4 (1.3 to 4.3). All odds ratios are adjusted for age",
    "When age was taken into account, {}: OR 2.4 (1.3 to 4.3)",
    "Independent of age, {}: OR 2.4 (1.3 to 4.3)",
    "Net of age, {}: OR 2.4 (1.3 to 4.3)",
    "Allowing for age, {}: OR 2.4 (1.3 to 4.3)",
    "Corrected for age, {}: OR 2.4 (1.3 to 4.3)",
    "Adjusting for age made little difference ({}: OR 2.4)",
    "Age-adjusted OR, {}: 2.4 (1.3 to 4.3)",
    "{}: OR 2.4 (1.3 to 4.3), standardised for age",
    "With age as a covariate, {}: OR 2.4 (1.3 to 4.3)",
    "{}: OR 2.4 (1.3 to 4.3), other factors being equal",
    "In a regression on age and material, {}: OR 2.4 (1.3 to 4.3)",
    "In a Cox model with age, {}: OR 2.4 (1.3 to 4.3)",
)
CRUDE = (
    "{}: crude OR 2.4 (1.3 to 4.3)",
    "{}: OR 2.4 (1.3 to 4.3; unadjusted)",
    "In univariable analysis, {}: OR 2.4 (1.3 to 4.3). With age in the model the OR was 1.9 (1.0 to 3.6)",
    "The raw odds ratio, {}, was 2.4 (1.3 to 4.3)",
    "Before adjustment, {}: OR 2.4 (1.3 to 4.3), afterwards 1.9 (1.0 to 3.6)",
    "Simple logistic regression, {}: OR 2.4 (1.3 to 4.3)",
    "No adjustment was made; {}: OR 2.4 (1.3 to 4.3)",
    "{}: OR 2.4 (1.3 to 4.3), ignoring age",
    "{}: OR 2.4 (1.3 to 4.3), without taking age into account",
    "From the 2 x 2 table, {}: OR 2.4 (1.3 to 4.3)",
    "Bivariate analysis, {}: OR 2.4 (1.3 to 4.3)",
    "{}: the odds ratio was 2.4 (1.3 to 4.3) unadjusted and 1.9 (1.0 to 3.6) adjusted",
    "Adjusting made little difference: {}, OR 2.4 (1.3 to 4.3) crude",
    "Adjusting for age made little difference: {}, OR 2.4 crude and 2.2 adjusted for age",
    "Adjustment did not change the result ({}: OR 2.4 crude)",
)
SAYS_NEITHER = (
    "{}: OR 2.4 (1.3 to 4.3; P adjusted for multiple comparisons = .01)",
    "Accounting for clustering of teeth within patients, {}: OR 2.4 (1.3 to 4.3)",
    "What had P < .2 in univariable analysis entered the multivariable model. {}: OR 2.4 (1.3 to 4.3)",
    "The Bonferroni-adjusted limit was .01; {}: OR 2.4 (1.3 to 4.3)",
)


def rules(open_problems: Asked, passage: str, adjusted_for: str) -> list[str]:
    """What is asked about the claim with this list."""
    claim = ratio(adjusted_for=adjusted_for)
    return [problem.rule for problem in open_problems(passage.format(AGAINST), claim, files=FILES)]


@pytest.mark.parametrize("passage", ADJUSTED)
def test_an_adjusted_ratio_typed_as_crude_is_asked_about(open_problems: Asked, passage: str) -> None:
    assert rules(open_problems, passage, "[age]") == []
    assert rules(open_problems, passage, "none") == ["other-adjustment"]


@pytest.mark.parametrize("passage", CRUDE)
def test_a_crude_ratio_typed_as_adjusted_is_asked_about(open_problems: Asked, passage: str) -> None:
    assert rules(open_problems, passage, "none") == []
    assert rules(open_problems, passage, "[age]") == ["other-adjustment"]


@pytest.mark.parametrize("passage", SAYS_NEITHER)
@pytest.mark.parametrize("adjusted_for", ["none", "[age]", "not reported"])
def test_words_about_a_test_say_neither(open_problems: Asked, passage: str, adjusted_for: str) -> None:
    assert rules(open_problems, passage, adjusted_for) == []


def test_the_bracket_of_a_passage_may_say_it(open_problems: Asked) -> None:
    passage = f"[p. 2, unadjusted] {AGAINST}: OR 2.4 (1.3 to 4.3)"
    claim = f'{ratio(adjusted_for="[age]")}\nwhere: "p. 2, unadjusted"'
    (problem,) = open_problems(passage, claim, files=FILES)
    assert problem.rule == "other-adjustment"


def test_other_things_than_the_claim_has_are_asked_about(open_problems: Asked) -> None:
    passage = f"{AGAINST}: OR 2.4 (1.3 to 4.3), adjusted for age and sex"
    assert rules(open_problems, passage, "[age, sex]") == []
    assert rules(open_problems, passage, "[age, gender]") == []
    assert rules(open_problems, passage, "[smoking]") == ["other-adjustment"]


def test_the_question_has_the_list_to_paste(open_problems: Asked) -> None:
    passage = f"After controlling for age and sex, {AGAINST}: OR 2.4 (1.3 to 4.3)"
    (problem,) = open_problems(passage, ratio(adjusted_for="none"), files=FILES)
    assert 'calls it adjusted ("controlling for age and sex"), the claim calls it crude' in problem.message
    assert problem.hint.startswith("adjusted_for: [age, sex]\n")
