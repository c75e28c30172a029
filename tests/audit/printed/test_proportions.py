"""A share printed as a proportion is found by its words, and a ratio of the same digits is none."""

from __future__ import annotations

import pytest
from passageproof.numerals import FORMAT_1
from passageproof.printed.proportions import proportions_in
from passageproof.problems import Position
from passageproof.proof.proving.printed_passage import Reading
from passageproof.reading.report_model import Passage


def shares(text: str) -> list[str]:
    """The numbers that are shares, as printed."""
    reading = Reading(Passage("key", "p. 1", "p-1", text, Position("a.bib", 1, 1)), FORMAT_1)
    return [reading.tokens[at].text for at in sorted(proportions_in(text, reading.tokens, reading.cells()))]


# Survival as a proportion with its standard error: common practice of life tables, no source.
@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("the proportion healed was 0.84", ["0.84"]),
        ("survival .93 (95% CI .88 to .96)", [".93", ".88", ".96"]),
        ("survival 0.93 (SE 0.02)", ["0.93"]),
        ("Year | Survival | SE\n1 | 0.97 | 0.02", ["0.97"]),
        ("Year | OR | Survival\n1 | 0.97 | 0.92", ["0.92"]),
        ("success 0·90 at 2 years", ["0·90"]),
    ],
)
def test_share_is_named_before_its_number(text: str, found: list[str]) -> None:
    assert shares(text) == found


@pytest.mark.parametrize(
    "text",
    [
        "OR for healing 0.84", "healed: OR 0.84", "success rate ratio 0.84", "survival by log-rank test 0.02",
        "healed (P = .04)", "healing, kappa 0.84", "difference in healing rates: mean difference 0.12", "0.84",
        "the proportion healed. Then 0.84", "rates: r 0.84", "survival 0.9", "healed 0.84 mm", "healed over 0.84",
        "hazard of failure 0.55, survival not given", "Year | OR\n1 | 0.97",
    ],
)  # fmt: skip
def test_another_statistic_is_no_share(text: str) -> None:
    assert shares(text) == []
