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
