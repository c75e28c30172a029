"""Two readers."""

import pytest
from passageproof.synthesis import Refusal, cohen_kappa


def test_cohens_two_by_two_example() -> None:
    # recomputed; the table is from memory
    assert cohen_kappa([[20, 5], [10, 15]]) == pytest.approx((0.70, 0.50, 0.40))


def test_published_kappa_follows_from_its_own_agreement() -> None:
    # a published table prints 92.86 % observed, 56.38 % expected, kappa .8363: (po - pe) / (1 - pe)
    assert pytest.approx(0.8363, abs=5e-5) == (0.9286 - 0.5638) / (1 - 0.5638)
    # and prints .4367 beside 71.91 % and 55.31 %, which give .3714
    assert pytest.approx(0.3714, abs=5e-5) == (0.7191 - 0.5531) / (1 - 0.5531)


def test_agreement_agrees_with_statsmodels() -> None:
    from statsmodels.stats.inter_rater import cohens_kappa

    table = [[12, 3, 0], [2, 9, 4], [1, 1, 18]]
    assert cohen_kappa(table).kappa == pytest.approx(cohens_kappa(table).kappa)


def test_one_category_is_refused_with_a_reason() -> None:
    refused = cohen_kappa([[10, 0], [0, 0]])
    assert isinstance(refused, Refusal)
    assert "one category" in refused.reason


@pytest.mark.parametrize("table", [[[1, 2]], [[1, 2], [3]], [[0, 0], [0, 0]], [[1, -2], [3, 4]]])
def test_impossible_tables_are_named(table) -> None:
    with pytest.raises(ValueError, match=r"square|empty|count"):
        cohen_kappa(table)
