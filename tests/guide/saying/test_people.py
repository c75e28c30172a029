"""Who stands behind which entries of one list."""

from __future__ import annotations

import pytest
from guide.compendium import said
from passageproof.results.saying.people import who_ratified
from passageproof.results.values.line import line

ONE, OTHER, NOT_RATIFIED = (
    line(said) for said in ("ratified by Ines Marlow", "ratified by Tam Okafor", "not yet ratified")
)


@pytest.mark.parametrize(
    ("most", "others", "expected"),
    [
        (ONE, [], "All: ratified by Ines Marlow."),
        (NOT_RATIFIED, [], "All: not yet ratified."),
        (ONE, [NOT_RATIFIED], "Ratified by Ines Marlow, except where noted."),
        (NOT_RATIFIED, [ONE, ONE], "Not yet ratified, except where noted."),
        (ONE, [OTHER], "Ratified by Ines Marlow, except where noted."),
        (ONE, [OTHER, NOT_RATIFIED], "Ratified by Ines Marlow, except where noted."),
        (NOT_RATIFIED, [ONE, OTHER], "Not yet ratified, except where noted."),
    ],
)
def test_one_line_says_what_is_ratified_and_what_is_not(most, others, expected) -> None:
    assert said(who_ratified(most, others)) == expected
