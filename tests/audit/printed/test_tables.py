"""The one reading of a table typed into a passage. Layouts by common practice, no source; figures are invented."""

from __future__ import annotations

import pytest
from passageproof.numerals import FORMAT_1, read_numerals
from passageproof.printed.tables import table_of


def around(text: str, number: str) -> dict[str, list[str]]:
    """What stands in the row of a number, over its column and over its rows."""
    tokens = read_numerals(text, FORMAT_1)
    at = next(index for index, token in enumerate(tokens) if token.text == number)
    place = table_of(text, tokens).places[at]
    if place is None:
        return {}
    return {
        name: [text[start:end] for start, end in spans]
        for name, spans in (("row", place.others), ("column", place.headings), ("above", place.above))
        if spans
    }


@pytest.mark.parametrize(
    ("text", "number", "expected"),
    [
        (
            "Healed:\nMolars: 48/63\nPremolars: 39/44\nAll teeth were seen.",
            "39",
            {"row": ["Premolars"], "above": ["Healed:"]},
        ),
        (
            "Molars\nhealed: 48\nfailed: 15\nPremolars\nhealed: 39\nfailed: 5",
            "39",
            {"row": ["healed"], "above": ["Premolars", "Molars"]},
        ),
        (
            "| A | | B |\n| n | % | n | %\nHealed | 48 | 76 | 39 | 89",
            "89",
            {"row": ["39", "76", "48", "Healed"], "column": ["%", "B"]},
        ),
        ("| A | B |\n| 48 | 39 |", "39", {"row": ["48"], "column": ["B"]}),
        ("| A | B\nHealed | 48 | 39", "39", {"row": ["48", "Healed"], "column": ["B"]}),
        ("Months | 6 | 12 | 24\nHealed | 48 | 39 | 30", "30", {"row": ["39", "48", "Healed"], "column": ["24"]}),
        ("Of the molars 48 healed:\nthat is most.", "48", {}),
    ],
)
def test_where_a_number_stands(text: str, number: str, expected: dict[str, list[str]]) -> None:
    assert around(text, number) == expected
