"""Numbers of a table typed as rows, each in its own row or in another. Layouts by common practice, no source; figures
are invented."""

from __future__ import annotations

import pytest

from .conftest import Asked
from .test_levels import FILES, TWO, claim, swapped

ROWS = [
    "Healed after 2 years:\nMTA: {}/47\ncalcium hydroxide: {}/45",
    "Healed/seen\nMTA – {}/47\ncalcium hydroxide – {}/45",
    "Seen after 2 years: 92\nMTA .... {}/47\ncalcium hydroxide .... {}/45\nThe others were lost.",
    "Healing (n=92)\nMTA (n=47): healed, n={} (83%)\ncalcium hydroxide (n=45): healed, n={} (67%)\np=0.08",
    "MTA: healed {}, failed 8 (n = 47)\ncalcium hydroxide: healed {}, failed 15 (n = 45)\n2 years",
    "Seen (n = 92)\n MTA (n = 47)\n  lost 3\n  analysed 47\n  healed {}\n calcium hydroxide (n = 45)\n  lost 5\n"
    "  analysed 45\n  healed {}",
    "| MTA | | calcium hydroxide |\n| n | of | n | of\nHealed | {} | 47 | {} | 45",
]


@pytest.mark.parametrize("passage", ROWS)
def test_a_value_behind_its_label_is_of_that_label(passage: str, open_problems: Asked) -> None:
    printed = passage.format(39, 30)
    assert open_problems(printed, claim("material", *TWO), files=FILES) == []
    found = open_problems(printed, claim("material", *swapped(TWO)), files=FILES)
    assert {problem.rule for problem in found} == {"other-level"}
