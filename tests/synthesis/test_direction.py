"""The sign test."""

import pytest
from hypothesis import given, strategies as st
from passageproof.synthesis import sign_test
from scipy.stats import binomtest


@pytest.mark.parametrize(
    ("favouring", "stated", "p"),
    [
        # a published re-analysis prints P = 0.0039 and 0.2188 (counts inferred)
        (9, 9, 0.0039),
        (5, 6, 0.2188),
        # 6 of 8 is .1445 one-sided, a textbook example
        (6, 8, 0.2891),
        # by hand
        (5, 5, 0.0625),
        (6, 7, 0.1250),
        (7, 10, 0.3438),
        (8, 10, 0.1094),
        (10, 10, 0.00195),
    ],
)
def test_worked_values(favouring: int, stated: int, p: float) -> None:
    assert sign_test(favouring, stated) == pytest.approx(p, abs=5.1e-5)


@given(st.integers(1, 80).flatmap(lambda stated: st.tuples(st.integers(0, stated), st.just(stated))))
def test_p_agrees_with_scipy(counts: tuple[int, int]) -> None:
    assert sign_test(*counts) == pytest.approx(binomtest(*counts, 0.5).pvalue, rel=1e-9)


@given(st.integers(1, 80).flatmap(lambda stated: st.tuples(st.integers(0, stated), st.just(stated))))
def test_direction_does_not_matter(counts: tuple[int, int]) -> None:
    favouring, stated = counts
    assert sign_test(favouring, stated) == sign_test(stated - favouring, stated)


@pytest.mark.parametrize("stated", range(1, 6))
def test_five_studies_cannot_fall_below_five_percent(stated: int) -> None:
    # Cochrane Handbook, chapter 12 (from memory)
    assert sign_test(stated, stated) >= 0.0625


@pytest.mark.parametrize("counts", [(4, 3), (-1, 3), (0, 0), (1.5, 3)])
def test_impossible_counts_are_named(counts) -> None:
    with pytest.raises(ValueError, match=r"favouring|stated"):
        sign_test(*counts)
