"""An edited talk beside the demo: what is right is let through, what was changed by hand is told as what it is."""

from __future__ import annotations

from functools import cache

import pytest
from demo import demo_built
from passageproof.recheck.compared import Checked, checked_numbers
from passageproof.recheck.documents import Document, WrittenLine
from passageproof.recheck.known import Record


@cache
def record() -> Record:
    guide = demo_built().guide
    assert guide is not None
    return Record(guide)


def checked(text: str, given: dict[str, str] | None = None) -> list[Checked]:
    lines = tuple(WrittenLine(f"line {at}", line) for at, line in enumerate(text.splitlines(), start=1))
    return list(checked_numbers(Document(lines, given or {}), record()))


def verdicts(text: str, given: dict[str, str] | None = None) -> list[tuple[str, str]]:
    return [(item.text, item.verdict) for item in checked(text, given)]


def test_counts_and_their_share_are_one_thing_and_lead_to_their_report() -> None:
    (first, *others) = checked("Dovrell 2017: 94 of 110 teeth (85%) healed at the site, 24 months, 95% CI 79% to 92%.")
    assert first.text == "94 of 110 teeth (85%)"
    assert (first.verdict, first.page) == ("in this guide", "sources/dovrell2017crest/")
    assert first.ids == ("dovrell2017crest/overall/events", "dovrell2017crest/overall/total")
    assert [item.text for item in others] == ["24", "79%", "92%"]
    assert {item.verdict for item in others} == {"in this guide"}


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("Dovrell 2017: 110 of 94 teeth healed.", "turned round: the guide has 94 of 110"),
        ("Ehlvik 2019: 94 of 110 teeth healed.", "these counts are of Dovrell 2017, whom this line does not name"),
        ("Dovrell 2017: 94 of 110 teeth (91%) healed.", "91% is not the share of these counts; the report prints 85%"),
        ("stays healed once healed: 94 of 110 (Dovrell 2017)", 'in the guide it is of "healed at the site"'),
    ],
    ids=["swapped", "another study", "another share", "another outcome"],
)
def test_a_number_of_something_else_is_told_as_such(text: str, says: str) -> None:
    found = [item for item in checked(text) if item.verdict == "words differ"]
    assert len(found) == 1, checked(text)
    assert says in found[0].says


def test_counts_that_nobody_reported_are_not_in_the_guide() -> None:
    (found,) = checked("Dovrell 2017: 94 of 120 teeth healed.")
    assert (found.verdict, found.says) == ("not in this guide", "Dovrell 2017 has 94 of 110")
    assert verdicts("In our own clinic 7 of 9 teeth healed.") == [("7 of 9", "not in this guide")]


@pytest.mark.parametrize(
    "text",
    [
        "Case conference of 2026-11-30",
        "1. What we saw",
        "As others found before [1, 4-6].",
        "Guide of this programme, release 1.0.0",
        "Tooth 36, seen in 2019 and again in 2021",
        "One visit, two films",
        "Dovrell H, Gravnes S. The bone crest. Annals. 2017;9(1):33-48. doi: 10.5555/aie.2017.33",
        "See https://example.org/tarnholm/guide/12/",
        "Dovrell 2017 and Ehlvik 2019 do not agree.",
    ],
)
def test_years_dates_references_and_numbers_of_things_are_no_results(text: str) -> None:
    assert checked(text) == []


def test_a_number_that_nothing_ties_is_not_called_right() -> None:
    (found,) = checked("41 people came back.")
    assert found.verdict == "not tied"


def test_a_computed_number_is_known() -> None:
    assert verdicts("The typical study: 83.3% healed.") == [("83.3%", "in this guide")]


def test_a_percentage_without_its_counts_is_told_them() -> None:
    (found,) = checked("In Dovrell 2017 85% healed.")
    assert found.verdict == "in this guide"
    assert "say of how many: 94 of 110" in found.says


def test_what_changed_since_the_slides_were_made_is_told_with_what_it_is_now() -> None:
    given = {"dovrell2017crest/overall/events": "93", "dovrell2017crest/overall/total": "111"}
    (found,) = checked("Dovrell 2017: 93 of 111 teeth healed.", given)
    assert (found.verdict, found.says) == ("changed since", "now 94 of 110")
    gone = {"somebody2001/overall/events": "93", "somebody2001/overall/total": "111"}
    (found,) = checked("93 of 111 teeth healed.", gone)
    assert (found.verdict, found.says) == ("changed since", "it stands in the guide no longer")


def test_every_line_of_the_guides_own_sheet_is_in_the_guide() -> None:
    from passageproof.results.values.line import plain_text

    guide = demo_built().guide
    assert guide is not None
    told = []
    for sheet in guide.handouts.values():
        for table in sheet.tables:
            told.extend(" ".join(plain_text(cell) for cell in row) for row in table.rows)
    found = checked("\n".join(told))
    assert len(found) > 60
    wrong = [(item.text, item.verdict, item.says, item.line) for item in found if item.verdict != "in this guide"]
    assert wrong == []
