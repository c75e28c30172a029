"""The product-limit share."""

import pytest
from passageproof.synthesis import product_limit


def test_two_steps_by_hand() -> None:
    # 10 at risk, 1 event; then 7 at risk, 2 events: 9/10 x 5/7
    assert product_limit([(10, 1), (7, 2)]) == pytest.approx(0.6429, abs=5e-5)


def test_crude_share_is_another_number() -> None:
    # Gorni 2022, J Endod 48:1092-1099: 48 of 115 healed teeth reversed, yet the printed risk at 14 years is 62 %
    assert pytest.approx(0.417, abs=5e-4) == 48 / 115
    # a third lost to sight before the second event is enough to part the two
    assert product_limit([(9, 1), (4, 2)]) != pytest.approx(1 - 3 / 9)


def test_share_without_losses_is_the_crude_share() -> None:
    assert product_limit([(10, 1), (9, 2), (7, 3)]) == pytest.approx(0.4)


def test_share_agrees_with_statsmodels() -> None:
    from statsmodels.duration.survfunc import SurvfuncRight

    months, event = [6, 12, 12, 18, 24, 30, 36, 36, 48, 60], [1, 0, 1, 0, 1, 0, 1, 1, 0, 0]
    steps = [
        (sum(m >= time for m in months), sum(e for m, e in zip(months, event, strict=True) if m == time))
        for time in sorted({m for m, e in zip(months, event, strict=True) if e})
    ]
    assert product_limit(steps) == pytest.approx(SurvfuncRight(months, event).surv_prob[-1])


def test_no_step_is_everybody() -> None:
    assert product_limit([]) == 1


@pytest.mark.parametrize("steps", [[(0, 0)], [(5, 6)], [(5, 1), (5, 1)]])
def test_impossible_steps_are_named(steps) -> None:
    with pytest.raises(ValueError, match=r"at_risk|events"):
        product_limit(steps)
