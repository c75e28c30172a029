"""Who stands behind which entries of one list."""

from __future__ import annotations

import pytest
from guide.compendium import said
from passageproof.results.saying.people import NOT_RATIFIED, who_ratified
from passageproof.results.values.line import line

ONE, OTHER = line("ratified by Ines Marlow"), line("ratified by Tam Okafor")


@pytest.mark.parametrize(
    ("most", "others", "expected"),
    [
        (ONE, [], "All: ratified by Ines Marlow."),
        (NOT_RATIFIED, [], "All: not yet ratified."),
        (ONE, [NOT_RATIFIED], "Ratified by Ines Marlow: all but what is marked “not yet ratified”."),
        (NOT_RATIFIED, [ONE, ONE], "Not yet ratified: all but what is marked “ratified”."),
        (ONE, [OTHER], "Ratified by Ines Marlow: all but what is marked otherwise."),
        (ONE, [OTHER, NOT_RATIFIED], "Ratified by Ines Marlow: all but what is marked otherwise."),
        (NOT_RATIFIED, [ONE, OTHER], "Not yet ratified: all but what is marked “ratified”."),
    ],
)
def test_one_line_says_what_is_ratified_and_what_is_not(most, others, expected) -> None:
    assert said(who_ratified(most, others)) == expected
