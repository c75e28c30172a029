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
    "{}: OR 2.4 (1.3 to 4.3). Once age and sex had been entered, the odds ratio shrank to 1.9 (1.0 to 3.6).",
    "{}: OR 2.4 (1.3 to 4.3). After adjustment for age it fell to 1.9 (1.0 to 3.6).",
    "{}: OR 2.4 (1.3 to 4.3). With allowance made for age, the ratio dropped to 1.9 (1.0 to 3.6).",
)
SAYS_NEITHER = (
    "{}: OR 2.4 (1.3 to 4.3; P adjusted for multiple comparisons = .01)",
    "Accounting for clustering of teeth within patients, {}: OR 2.4 (1.3 to 4.3)",
    "What had P < .2 in univariable analysis entered the multivariable model. {}: OR 2.4 (1.3 to 4.3)",
    "The Bonferroni-adjusted limit was .01; {}: OR 2.4 (1.3 to 4.3)",
    "{}: OR 2.4 (1.3 to 4.3). After further adjustment for income it fell to 1.9 (1.0 to 3.6)",
)


BOTH = (
    "The odds ratio ({}) was 3.9. It fell to 2.4 after adjustment for age",
    "{}: OR 3.9 crude and 2.4 adjusted for age",
    "{}: OR 3.9 (crude) and 2.4 (adjusted for age)",
    "{}: crude OR 3.9, adjusted for age 2.4",
    "{}: OR 2.4 adjusted for age and 3.9 crude",
    "{}: OR 2.4 (adjusted for age; crude 3.9)",
    "The unadjusted odds ratio, {}, was 3.9 (95% CI 2.0 to 7.6), and 2.4 (1.3 to 4.3) after adjustment for age",
    "The crude odds ratio for {} was 3.9 (95% CI 2.0 to 7.6) and 2.4 (95% CI 1.3 to 4.3) with adjustment for age",
    "{}: OR 2.4 (vs 3.9 before adjustment for age)",
    "{}: OR 2.4, vs 3.9 unadjusted; age was in the model",
    "{}: OR 2.4 after adjustment for age, compared with a crude value of 3.9",
    "{}: the odds ratio was 3.9 (95% CI 2.0 to 7.6) before and 2.4 (95% CI 1.3 to 4.3) after adjustment for age",
    "{}: the odds ratio was 3.9 before adjustment for age and 2.4 after it",
    "{}: the odds ratio fell from 3.9 to 2.4 after adjustment for age",
    "{}: the odds ratio fell from 3.9 to 2.4 when age was added to the model",
    "Adjustment for age lowered the odds ratio, {}, from 3.9 to 2.4",
    "{}: OR 3.9 (2.0 to 7.6); aOR 2.4 (1.3 to 4.3), adjusted for age",
    "{}: OR 3.9 (2.0 to 7.6), adjusted OR 2.4 (1.3 to 4.3)",
    "{}: OR 3.9 (95% CI 2.0 to 7.6; univariable) and 2.4 (95% CI 1.3 to 4.3; multivariable)",
    "Healing, {}. Univariable: 3.9 (2.0 to 7.6). Multivariable, with age: 2.4 (1.3 to 4.3)",
    "Healing, {} | OR\nUnivariable | 3.9\nMultivariable | 2.4",
    "Healing | OR (95% CI) | aOR (95% CI)*\n{} | 3.9 (2.0-7.6) | 2.4 (1.3-4.3)\n* adjusted for age",
    "Healing | OR | 95% CI | Adjusted for age | 95% CI\n{} | 3.9 | 2.0-7.6 | 2.4 | 1.3-4.3",
    "{}\nUnadjusted: 3.9\nAdjusted for age: 2.4",
    "Healing        Unadjusted        Adjusted\n{}        3.9        2.4",
    "Healing | Univariable | | Multivariable |\n | OR | P | OR | P\n{} | 3.9 | .01 | 2.4 | .02",
    "The unadjusted and age-adjusted odds ratios for {} were 3.9 and 2.4",
    "With age in the model the odds ratio ({}) was 2.4; without it, 3.9",
    "The odds ratio ({}) was 2.4 with allowance for age. The unadjusted figure was 3.9",
    "OR 3.9 for {} (unadjusted) and 2.4 (adjusted for age)",
    "{}: the odds ratio was 2.4 after adjustment for age, compared with 3.9 before",
    "{}: the odds ratio was 2.4 (95% CI 1.3 to 4.3) with adjustment for age and 3.9 (95% CI 2.0 to 7.6) without",
    "{}: the odds ratio was 3.9 before adjustment for age, compared with 2.4 after, and did not change the result",
    "Taken alone, {} had an OR of 3.9; together with age, of 2.4",
    "{} (OR 3.9), also after allowance for age (OR 2.4)",
    "{} (OR 3.9, after allowance for age 2.4)",
    "{}: OR 3.9; when age was allowed for, 2.4",
)
FIRST_UNSAID = ("{}: OR 3.9; given age, 2.4 in the model",)


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


@pytest.mark.parametrize("passage", [*BOTH, *FIRST_UNSAID])
def test_of_a_crude_and_an_adjusted_ratio_each_is_what_its_own_words_say(open_problems: Asked, passage: str) -> None:
    assert rules(open_problems, passage, "[age]") == []
    assert rules(open_problems, passage, "none") == ["other-adjustment"]
    crude, turned = (
        ratio(adjusted_for=adjusted).replace("value: 2.4", "value: 3.9") for adjusted in ("none", "[age]")
    )  # fmt: skip
    assert open_problems(passage.format(AGAINST), crude, files=FILES) == []
    asked = [problem.rule for problem in open_problems(passage.format(AGAINST), turned, files=FILES)]
    assert asked == ([] if passage in FIRST_UNSAID else ["other-adjustment"])


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
