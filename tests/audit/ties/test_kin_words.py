"""Levels by the noun of an adjective, levels that a "no" is part of, and P values behind the claim's own counts.

The ways of print are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

import pytest

from .conftest import Asked
from .test_levels import FILES, claim, swapped

VOCABULARY = FILES["vocabulary.yaml"].replace(
    "outcomes:\n",
    "  arch: {title: Arch, role: prognostic, levels: [{id: upper, title: maxillary}, {id: lower, title: mandibular}]}\n"
    "  liver: {title: Liver, role: prognostic, levels: [{id: ill, title: cirrhotic}, {id: well, title: not cirrhotic, "
    "synonyms: [healthy]}]}\noutcomes:\n",
)
ARCHES = [("maxillary", "40", "49"), ("mandibular", "25", "35")]
LIVERS = [("cirrhotic", "40", "49"), ("healthy", "25", "35")]
KIN = [
    ("arch", ARCHES, "40 of 49 in the maxilla and 25 of 35 in the mandible healed."),
    ("arch", ARCHES, "Maxilla: 40 of 49 healed. Mandible: 25 of 35."),
    ("arch", ARCHES, "Arch\tn\tHealed\nMaxilla\t49\t40\nMandible\t35\t25"),
    ("arch", ARCHES, "Maxilla and mandible: 40 of 49 and 25 of 35 healed."),
    ("liver", LIVERS, "40 of 49 with cirrhosis and 25 of 35 healthy patients healed."),
]


@pytest.mark.parametrize(("factor", "levels", "passage"), KIN)
def test_a_noun_names_the_level_of_its_adjective(
    open_problems: Asked, factor: str, levels: list[tuple[str, str, str]], passage: str
) -> None:
    files = {"vocabulary.yaml": VOCABULARY}
    assert open_problems(passage, claim(factor, *levels), files=files) == []
    problems = open_problems(passage, claim(factor, *swapped(levels)), files=files)
    assert "other-level" in {problem.rule for problem in problems}


LESIONS = [("no lesion", "84", "91"), ("lesion", "57", "79")]
WITHOUT = (
    "84 of 91 teeth with no lesion were healed (92.3%), whereas of the 79 teeth with a lesion 57 were (72.2%).",
    "Teeth that had no lesion were healed in 84 of 91, teeth with a lesion in 57 of 79.",
    "Of 91 teeth with no lesion 84 were healed, of 79 with a lesion 57 were.",
)


@pytest.mark.parametrize("passage", WITHOUT)
def test_those_without_something_may_have_healed(open_problems: Asked, passage: str) -> None:
    assert open_problems(passage, claim("lesion", *LESIONS), files=FILES) == []


def test_that_none_healed_is_still_heard(open_problems: Asked) -> None:
    passage = "Teeth with no lesion did not heal in 84 of 91, teeth with a lesion did not heal in 57 of 79."
    rules = {problem.rule for problem in open_problems(passage, claim("lesion", *LESIONS), files=FILES)}
    assert "event-denied" in rules


def with_test(factor: str, levels: list[tuple[str, str, str]], p: str) -> str:
    names = ", ".join(level for level, _, _ in levels)
    return claim(factor, *levels, more=f'test: {{between: [{names}], p: "{p}"}}')


SEXES = [("women", "97", "120"), ("men", "91", "111")]
BY_LESION = [("lesion", "92", "126"), ("no lesion", "96", "105")]
TWO_TESTS = (
    "Healing (188 of 231 teeth) was related to the lesion (92 of 126 teeth with a lesion, 96 of 105 without a lesion; "
    "P < .001) but not to sex (97 of 120 in women, 91 of 111 in men; P = .82) or age (P = .34)."
)


@pytest.mark.parametrize(("factor", "levels", "p"), [("sex", SEXES, ".82"), ("lesion", BY_LESION, "<.001")])
def test_a_p_value_behind_the_claims_own_counts_is_its_own(
    open_problems: Asked, factor: str, levels: list[tuple[str, str, str]], p: str
) -> None:
    assert open_problems(TWO_TESTS, with_test(factor, levels, p), files=FILES) == []


@pytest.mark.parametrize(("factor", "levels", "p"), [("sex", SEXES, "<.001"), ("lesion", BY_LESION, ".82")])
def test_a_p_value_behind_other_counts_is_another(
    open_problems: Asked, factor: str, levels: list[tuple[str, str, str]], p: str
) -> None:
    assert "other-test" in {
        problem.rule for problem in open_problems(TWO_TESTS, with_test(factor, levels, p), files=FILES)
    }
