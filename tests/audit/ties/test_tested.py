"""A P value of another test. Wordings: common practice of reports, no source."""

from __future__ import annotations

import pytest

from .conftest import Asked
from .words_for_ratios import FILES, HYDROXIDE, SILICATE, ratio

TEST = (
    f"factor: material\nknown_at: during\nreference: {HYDROXIDE}\nlevels:\n"
    f"  - {{level: {SILICATE}, direction: not stated, stated: words only}}\n"
    f"test: {{between: [{SILICATE}, {HYDROXIDE}], p: .03}}"
)
OTHER = (
    "Healing did not differ between silicate cement and calcium hydroxide (P = .41) but fell with age (P = .03).",
    "Material, silicate cement or calcium hydroxide: P = .41; age: P = .03.",
    "Factor | P\n silicate cement versus calcium hydroxide | .41\n age | .03",
    "The silicate cement and calcium hydroxide groups were of like age (P = .03). Healing was more frequent after "
    "silicate cement than after calcium hydroxide (P = .41).",
    "Healing, silicate cement against calcium hydroxide: P = .41; pain, P = .03.",
    "Healing, silicate cement against calcium hydroxide, P = .41; silicate cement against glass ionomer, P = .03.",
    "Silicate cement and calcium hydroxide teeth did not differ in age (P = .03), nor in healing (P = .41).",
    "P = .41 for silicate cement against calcium hydroxide and P = .03 for age.",
    "Silicate cement or calcium hydroxide; interaction with age, P = .03.",
)
OWN = (
    "Healing differed between silicate cement and calcium hydroxide (P = .03) but not by age (P = .41).",
    "Factor | P\n silicate cement versus calcium hydroxide | .03\n age | .41",
    "The silicate cement and calcium hydroxide groups were of like age (P = .41); healing differed (P = .03).",
    "Silicate cement healed in 83%, calcium hydroxide in 71% (P = .03).",
    "P = .03 for silicate cement against calcium hydroxide and P = .41 for age.",
    "Healing by repair material, P = .03; by age, P = .41.",
)


@pytest.mark.parametrize("passage", OTHER)
def test_the_p_value_of_another_test_is_asked_about(open_problems: Asked, passage: str) -> None:
    (problem,) = open_problems(passage, TEST, files=FILES)
    assert (problem.rule, problem.place) == ("other-test", "x/c")


@pytest.mark.parametrize("passage", OWN)
def test_the_claims_own_p_value_is_silent(open_problems: Asked, passage: str) -> None:
    assert open_problems(passage, TEST, files=FILES) == []


def test_a_ratio_has_the_p_value_that_stands_beside_it(open_problems: Asked) -> None:
    passage = "silicate cement against calcium hydroxide: OR 1.7 (P = .077); interaction with sex, P = .19"
    assert open_problems(passage, ratio(value="1.7", more=", p: .077"), files=FILES) == []
    (problem,) = open_problems(passage, ratio(value="1.7", more=", p: .19"), files=FILES)
    assert problem.rule == "other-test"
    assert "whose own P is .077" in problem.message
    assert problem.hint.startswith("p: .077\n")


VOCABULARY = FILES["vocabulary.yaml"].replace(
    "outcomes:\n",
    "  sex: {title: Sex, role: prognostic, levels: [{id: women, title: women}, {id: men, title: men}]}\n"
    "  lesion: {title: Lesion at the start, role: prognostic, levels: [{id: with, title: lesion}, "
    "{id: without, title: no lesion}]}\noutcomes:\n",
)
TWO_FACTORS = (
    "Healing by lesion (P = .002) and by sex (P = .61).",
    "Healing: lesion, P = .002; sex, P = .61.",
    "Healing depended on a lesion (P = .002) but not on sex (P = .61).",
    "Factor | P\n Lesion | .002\n Sex | .61",
    "Factor\tP\nLesion\t.002\nSex\t.61",
    "P = .002 for lesion and P = .61 for sex.",
    "Healing was rarer with a lesion (P = .002). Sex had no bearing (P = .61).",
    "Predictors of healing: lesion (P = .002), sex (P = .61).",
)
NO_FACTOR_OF_OURS = (
    "Smoking was associated with healing (P = .002); sex was not (P = .61).",
    "Factor\tP\nSmoking\t.002\nSex\t.61",
    "Healing fell with age (P = .002) and did not differ by sex (P = .61).",
)
IN_TURN = (
    "Lesion and sex: P = .002 and P = .61, respectively.",
    "P values of lesion, sex: P = .002, P = .61.",
    "Women and men of similar age healed alike (P = .61).",
)


def of_factor(open_problems: Asked, passage: str, factor: str, p: str, between: str = "not reported") -> list[str]:
    claim = f"factor: {factor}\nknown_at: before\nreference: not reported\ntest: {{between: {between}, p: {p}}}"
    return [problem.rule for problem in open_problems(passage, claim, files={"vocabulary.yaml": VOCABULARY})]


@pytest.mark.parametrize("passage", TWO_FACTORS)
def test_each_factor_has_the_p_value_beside_its_name(open_problems: Asked, passage: str) -> None:
    assert of_factor(open_problems, passage, "sex", ".61") == []
    assert of_factor(open_problems, passage, "sex", ".61", "[women, men]") == []
    assert of_factor(open_problems, passage, "lesion", ".002") == []
    assert of_factor(open_problems, passage, "sex", ".002") == ["other-test"]
    assert of_factor(open_problems, passage, "sex", ".002", "[women, men]") == ["other-test"]
    assert of_factor(open_problems, passage, "lesion", ".61") == ["other-test"]


@pytest.mark.parametrize("passage", NO_FACTOR_OF_OURS)
def test_a_factor_that_the_vocabulary_has_not_is_another(open_problems: Asked, passage: str) -> None:
    assert of_factor(open_problems, passage, "sex", ".61") == []
    assert of_factor(open_problems, passage, "sex", ".002") == ["other-test"]


@pytest.mark.parametrize("passage", IN_TURN)
def test_a_list_in_turn_and_people_alike_are_silent(open_problems: Asked, passage: str) -> None:
    assert of_factor(open_problems, passage, "sex", ".61") == []


BETWEEN = f"[{SILICATE}, {HYDROXIDE}]"
AT_THE_START = (
    "The arms did not differ in the size of the hole at entry (P = .44). Healing differed.",
    "The groups were alike in age (P = .44). Healing: silicate cement 40 of 50, calcium hydroxide 31 of 50.",
    "Silicate cement and calcium hydroxide teeth were similar in size at the start (P = .44).",
    "The groups were well balanced for age (P = .44); silicate cement 40 of 50, calcium hydroxide 31 of 50 healed.",
    "Mean age did not differ between the groups (P = .44). Silicate cement and calcium hydroxide were used.",
)
NOT_AT_THE_START = (
    "Silicate cement healed in 40 of 50 and calcium hydroxide in 31 of 50; they differed (P = .44).",
    "Healing, silicate cement against calcium hydroxide (matched for age): P = .44.",
    "Among patients of any age, silicate cement healed more often than calcium hydroxide (P = .44).",
    "Healing with silicate cement and calcium hydroxide did not differ by size at entry (P = .44).",
)


@pytest.mark.parametrize("passage", AT_THE_START)
def test_how_the_groups_were_at_the_start_is_no_result(open_problems: Asked, passage: str) -> None:
    assert of_factor(open_problems, passage, "material", ".44", BETWEEN) == ["other-test"]


@pytest.mark.parametrize("passage", NOT_AT_THE_START)
def test_a_result_in_words_of_the_start_is_silent(open_problems: Asked, passage: str) -> None:
    assert of_factor(open_problems, passage, "material", ".44", BETWEEN) == []


@pytest.mark.parametrize(
    "passage",
    [
        "Silicate cement against calcium hydroxide: healing P = .045, pain P = .72.",
        "Silicate cement against calcium hydroxide: P = .045 for healing and P = .72 for pain.",
        "Silicate cement against calcium hydroxide | P\n Healing | .045\n Pain | .72",
        "Healing (P = .045) but not pain (P = .72) differed between silicate cement and calcium hydroxide.",
    ],
)
def test_each_outcome_has_the_p_value_beside_its_name(open_problems: Asked, passage: str) -> None:
    assert of_factor(open_problems, passage, "material", ".045", BETWEEN) == []
    assert of_factor(open_problems, passage, "material", ".72", BETWEEN) == ["other-test"]


@pytest.mark.parametrize(
    "end",
    [
        "; test for heterogeneity P = .10.", " (P for heterogeneity = .10).", "; P = .10 for heterogeneity.",
        "; Q test, P = .10.", "; P for interaction = .10.",
    ],
)  # fmt: skip
def test_a_ratio_has_no_p_value_of_heterogeneity(open_problems: Asked, end: str) -> None:
    passage = "silicate cement against calcium hydroxide, healing: OR 1.7 (95% CI 0.9 to 3.6)"
    (problem,) = open_problems(passage + end, ratio(value="1.7", more=", p: .10"), files=FILES)
    assert problem.rule == "other-test"
    assert open_problems(passage[:-1] + "; P = .09)" + end, ratio(value="1.7", more=", p: .09"), files=FILES) == []


PAIRS = (
    "Silicate cement v glass ionomer, P = .02; silicate cement v calcium hydroxide, P = .03; calcium hydroxide v glass "
    "ionomer, P = .41.",
    "P values: silicate cement v glass ionomer .02, silicate cement v calcium hydroxide .03.",
    "Teeth | Healed\nsilicate cement | 39/47\nPairwise: silicate cement v glass ionomer, P = .02; silicate cement v "
    "calcium hydroxide, P = .03",
    "The three groups differed (P = .02); silicate cement differed from calcium hydroxide (P = .03).",
)


@pytest.mark.parametrize("passage", PAIRS)
def test_of_several_pairs_each_has_its_own_p_value(open_problems: Asked, passage: str) -> None:
    three = TEST.replace("\ntest:", "\n  - {level: glass ionomer, direction: not stated, stated: words only}\ntest:")
    assert open_problems(passage, three, files=FILES) == []
    asked = open_problems(passage, three.replace("p: .03", "p: .02"), files=FILES)
    assert [problem.rule for problem in asked] == ["other-test"]


def test_the_p_value_of_a_trend_is_none_of_the_differences(open_problems: Asked) -> None:
    for passage in (
        "Healing, silicate cement or calcium hydroxide: P = .41; P for trend = .03.",
        "Silicate cement and calcium hydroxide differed (P = .41), as did the linear trend (P = .03).",
    ):
        (problem,) = open_problems(passage, TEST, files=FILES)
        assert problem.rule == "other-test"
        assert open_problems(passage, TEST.replace(".03", ".41"), files=FILES) == []
        of_trend = TEST.replace("p: .03", "p: .03, method: linear trend")
        assert open_problems(passage, of_trend, files=FILES) == []
    assert open_problems("Silicate cement and calcium hydroxide: P for trend = .03.", TEST, files=FILES) == []


TIMES = (
    "Healing was more frequent after silicate cement than after calcium hydroxide at one year (P = .03) but not at two "
    "years (P = .35).",
    "Healing differed between silicate cement and calcium hydroxide at 12 months (P = .03), not at 24 months (P = .35)",
)


@pytest.mark.parametrize("passage", TIMES)
def test_a_p_value_with_a_time_alone_is_of_the_comparison_before_it(open_problems: Asked, passage: str) -> None:
    before, later = ("12 months", "24 months") if "months" in passage else ("1 year", "2 years")
    for value, time, own in ((".03", before, True), (".35", later, True), (".35", before, False)):
        claim = f"{TEST.replace('.03', value)}\nfollow_up: {{from: repair, timing: at, at: {time}}}"
        found = [problem.rule for problem in open_problems(passage, claim, files=FILES)]
        assert found == ([] if own else ["other-time"])


def test_a_p_value_of_another_factor_is_asked_about_beside_one_at_another_time(open_problems: Asked) -> None:
    passage = (
        "Healing differed between silicate cement and calcium hydroxide at one year (P = .41). "
        "It fell with age at one year (P = .2) and at two years (P = .03)."
    )
    (problem,) = open_problems(passage, TEST, files=FILES)
    assert problem.rule == "other-test"
