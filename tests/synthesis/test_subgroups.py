"""Tests between groups of studies."""

import pytest
from hypothesis import given, strategies as st
from passageproof.synthesis import Refusal, pooled_effect, subgroup_difference
from scipy import stats

EFFECTS, ERRORS = [0.2, 0.9, -0.1, 0.4, 0.7], [0.2, 0.3, 0.25, 0.4, 0.15]
GROUPS = ["small", "large", "small", "large", "large"]
TAUS = ("separate", "shared", "none")


def test_common_effect_test_is_what_q_loses_within_groups() -> None:
    within = sum(
        pooled_effect([EFFECTS[i] for i in rows], [ERRORS[i] for i in rows], model="common").q
        for rows in ((0, 2), (1, 3, 4))
    )
    whole = pooled_effect(EFFECTS, ERRORS, model="common").q
    found = subgroup_difference(EFFECTS, ERRORS, GROUPS, tau="none")
    assert found.q == pytest.approx(whole - within)
    assert found.p_value == pytest.approx(stats.chi2.sf(whole - within, 1))


def test_two_groups_of_one_are_a_z_test() -> None:
    found = subgroup_difference([0.2, 0.9], [0.3, 0.4], ["a", "b"])
    assert found.q == pytest.approx(0.7**2 / 0.25)
    assert found.degrees_of_freedom == 1


@given(st.permutations(range(5)), st.sampled_from(TAUS))
def test_order_and_names_do_not_matter(order: list[int], tau: str) -> None:
    one = subgroup_difference(EFFECTS, ERRORS, GROUPS, tau=tau)
    names = {"small": 7, "large": 3}
    rows = ([values[i] for i in order] for values in (EFFECTS, ERRORS, [names[group] for group in GROUPS]))
    assert subgroup_difference(*rows, tau=tau) == pytest.approx(one, rel=1e-6)


@pytest.mark.parametrize(
    ("groups", "tau", "reason"), [(["a"] * 5, "none", "one group"), (list("abcde"), "shared", "single study")]
)
def test_what_cannot_be_compared_is_refused(groups, tau: str, reason: str) -> None:
    refused = subgroup_difference(EFFECTS, ERRORS, groups, tau=tau)
    assert isinstance(refused, Refusal)
    assert reason in refused.reason


def test_impossible_arguments_are_named() -> None:
    with pytest.raises(ValueError, match="tau"):
        subgroup_difference(EFFECTS, ERRORS, GROUPS, tau="common")
    with pytest.raises(ValueError, match="groups"):
        subgroup_difference(EFFECTS, ERRORS, GROUPS[:4])
