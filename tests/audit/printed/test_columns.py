"""Tables as they are typed into a passage. Headings as printed by common practice, no source; figures are invented."""

from __future__ import annotations

import pytest
from passageproof.numerals import FORMAT_1, read_numerals
from passageproof.printed.clauses import clauses
from passageproof.printed.columns import read_columns
from passageproof.printed.tables import table_of


def read(passage: str) -> list[str]:
    """The numbers of a passage as its columns have them: "37 none", "90 %", "118 none (at risk)"."""
    tokens = read_numerals(passage, FORMAT_1)
    read_columns(passage, tokens, table_of(passage, tokens), FORMAT_1)
    said = [(f"{token.text} {token.unit}", " ".join(token.roles)) for token in tokens]
    return [f"{words} ({roles})" if roles else words for words, roles in said]


def read_in(passage: str, *numbers: str) -> list[str]:
    """The same of some numbers alone."""
    return [said for said in read(passage) if said.split()[0] in numbers]


@pytest.mark.parametrize(
    ("passage", "expected"),
    [
        ("Size | Teeth | Healed | % healed\nwide | 41 | 37 | 90", ["90 %"]),
        ("Size | Teeth | Healed (%)\nwide | 41 | 90", ["90 %"]),
        ("Size     Teeth     Success (n)     Success (%)\nwide     41     37     90", ["90 %"]),
        ("Size\tTeeth\tPer cent\nwide\t41\t90", ["90 %"]),
        ("Size | n | healed | %; wide | 41 | 37 | 90; narrow | 22 | 15 | 68", ["90 %"]),
        ("Outcome | A | B\nkept, n (%) | 37 (90) | 15 (68)", ["90 %"]),
        ("Material | Kept, n (%) | Total, n\nA | 37 (90) | 41", ["90 %"]),
        ("Status | % | n\nkept | 90 | 37", ["90 %"]),
        ("Share, % (number at risk)\nYears | A | B\n2 | 90 (31) | 94 (12)", ["90 %"]),
    ],
)
def test_heading_says_per_cent(passage: str, expected: list[str]) -> None:
    assert [said.split(" (")[0] for said in read_in(passage, "90")] == expected


@pytest.mark.parametrize(
    "passage",
    [
        "Outcome | A | B\nkept, n (%) | 37 (90) | 15 (68)",
        "Size | n | kept | %\nwide | 41 | 37 | 90",
        "New bone, per cent of the area\nMembrane | n | New bone\nyes | 37 | 46.3 (3.8)",
        "Status | % | n\nkept | 90 | 37",
        "Ratio | kept | 95% CI\nA | 37 | 30 to 44",
        "A 37 of 41\nB 15 of 22",
    ],
)
def test_count_stays_a_count(passage: str) -> None:
    assert [said.split()[1] for said in read_in(passage, "37")] == ["none"]


def test_survival_table_has_its_years_and_those_at_risk() -> None:
    passage = "Year | At risk | Share (%)\n1 | 280 | 97.9\n5 | 118 | 88.0"
    assert read(passage) == [
        "1 year", "280 none (at risk)", "97.9 %", "5 year", "118 none (at risk)", "88.0 %",
    ]  # fmt: skip


@pytest.mark.parametrize(
    "heading", ["Months", "Time (months)", "Time in months", "Follow-up, months", "Months after repair"]
)
def test_time_stands_at_the_head_of_the_row(heading: str) -> None:
    assert read_in(f"{heading} | At risk | Kept (%)\n24 | 81 | 94", "24") == ["24 month"]


def test_a_heading_with_a_time_of_its_own_makes_no_times() -> None:
    assert read_in("Kind | Kept at 4 years | 5-year share (%)\nA | 37 | 90", "37", "90") == ["37 none", "90 %"]


def test_words_of_another_row_or_column_say_nothing() -> None:
    passage = "Outcome | A | B\nhealed, n (%) | 38 (86.4) | 29 (69.0)\nfailed, n (%) | 2 (4.5) | 6 (14.3)"
    assert all("bad" not in said for said in read_in(passage, "38", "86.4", "29", "69.0"))


def test_cells_tell_the_row_and_the_column_of_each_number() -> None:
    passage = "Table of arms\nOutcome | A | B\nwomen\nhealed | 12 | 9"
    tokens = read_numerals(passage, FORMAT_1)
    first, second = table_of(passage, tokens).places
    assert first is not None
    assert second is not None
    assert [passage[start:end] for start, end in (*first.headings, *first.others)] == ["A", "healed", "9"]
    assert [passage[start:end] for start, end in second.headings] == ["B"]
    assert [passage[start:end] for start, end in second.above] == ["women", "Table of arms"]
    assert (first.row, first.column, second.column) == (3, 1, 2)


def test_rows_parted_by_blanks_are_clauses_of_their_own() -> None:
    assert len(clauses("Year    Kept\n1    97\n5    88")) == 2
    assert clauses("up to\n 3 mm 97\n and more") == []


def test_the_number_of_an_arm_is_no_share() -> None:
    passage = "Choice, n (%)\nChoice | A (n = 142) | B or more (N=203)\nfirst | 71 (50.0) | 62 (30.5)"
    assert read_in(passage, "142", "203", "50.0") == ["142 none (n)", "203 none (n)", "50.0 %"]


def test_every_deviation_of_a_row_is_one() -> None:
    passage = "Score | A | B | P\nMean | 3.1 | 4.2 | .03\nSD | 1.2 | 1.4 |\nSE | 0.19 | 0.22 |"
    said = read_in(passage, "4.2", "1.4", "0.22", ".03")
    assert said == ["4.2 none (mean)", ".03 none", "1.4 none (sd)", "0.22 none (se)"]
