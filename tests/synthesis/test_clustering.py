"""Teeth in patients."""

import pytest
from passageproof.synthesis import design_effect, effective_total


@pytest.mark.parametrize(
    ("units", "clusters", "correlation", "effect"),
    [
        # 759 teeth in 572 patients, 116 perforations in 101 patients (counts of published series), by 1 + (m - 1) rho
        (759, 572, 0.1, 1.0327),
        (116, 101, 0.1, 1.0149),
        (100, 100, 0.5, 1.0),
        (100, 25, 1.0, 4.0),
    ],
)
def test_design_effect_of_a_mean_cluster(units: int, clusters: int, correlation: float, effect: float) -> None:
    assert design_effect(units, clusters, correlation) == pytest.approx(effect, abs=5e-5)


def test_fully_alike_teeth_say_as_much_as_their_patients() -> None:
    assert effective_total(100, 25, 1.0) == 25
    assert effective_total(100, 25, 0.0) == 100


@pytest.mark.parametrize("arguments", [(5, 6, 0.1), (0, 0, 0.1), (5, 5, 1.1), (5, 5, -0.1)])
def test_impossible_arguments_are_named(arguments) -> None:
    with pytest.raises(ValueError, match=r"units|clusters|intraclass_correlation"):
        design_effect(*arguments)
