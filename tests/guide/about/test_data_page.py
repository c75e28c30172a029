"""The page of downloads: it explains the columns that are written, and the citation holds release and day."""

from __future__ import annotations

import csv
import datetime
import io
import json

import pytest
from guide.compendium import COMPENDIUM, catalogue_of, html_of, nothing_named, report
from passageproof.guide.about.data_page import (
    CLAIM_COLUMNS,
    FIGURE_COLUMNS,
    FILES,
    NUMBER_COLUMNS,
    WORD_COLUMNS,
    citation,
    data_page,
)
from passageproof.guide.downloads_rows import claim_rows, outcome_rows, source_entries, study_rows
from passageproof.guide.source.source_page import source_page
from passageproof.guide.workings import numbers_table
from passageproof.ledger import ledger_lines
from passageproof.numerals import FORMAT_1
from passageproof.rendering.downloads import downloads
from passageproof.results.findings.findings import Catalogue
from passageproof.results.values.guide import Guide, Pages

CLAIM = "- {id: all, question: hole, outcome: healed, events: 39, total: 47, where: 'p. 3', follow_up: not reported}"
FILES_OF_ONE = report("marlow2019", CLAIM, "[p. 3] healed: 39 of 47 teeth") | {
    "questions/hole.yaml": "id: hole\ntitle: There is a hole\n"
}


def guide_of(catalogue: Catalogue) -> Guide:
    pages = Pages(source_page(catalogue, key, nothing_named) for key in catalogue.evidence.sources)
    return Guide(
        "Hard questions", "Fenwick", True, datetime.date(2026, 10, 30), "1.2.0", "", "", "", "", None, (), (), pages,
        catalogue.book.all(), (), source_entries(catalogue), tuple(claim_rows(catalogue)), outcome_rows(catalogue), study_rows(catalogue),
        FORMAT_1.units, (), {},
    )  # fmt: skip


@pytest.mark.parametrize(
    ("path", "explained"), [("data/claims.csv", CLAIM_COLUMNS), ("data/claim-words.csv", WORD_COLUMNS)]
)
def test_columns_of_a_file_of_claims_are_those_explained(path: str, explained: tuple[tuple[str, str], ...]) -> None:
    text = "".join(downloads(guide_of(catalogue_of(FILES_OF_ONE)))[path]())
    assert next(csv.reader(io.StringIO(text))) == [name for name, _ in explained]


def test_columns_behind_workings_are_those_explained() -> None:
    assert list(numbers_table(())[0]) == [name for name, _ in NUMBER_COLUMNS]


def test_fields_of_the_figures_file_are_those_explained() -> None:
    first = next(ledger_lines(guide_of(catalogue_of(FILES_OF_ONE))))
    assert list(json.loads(first)) == [name for name, _ in FIGURE_COLUMNS]


def test_every_file_is_linked() -> None:
    html = html_of(data_page(catalogue_of({}), nothing_named))
    for name, _ in FILES:
        assert f'href="../data/{name}"' in html


def test_licence_leads_to_its_text() -> None:
    # SPDX License List: each short name has an address at spdx.org/licenses.
    assert 'href="https://spdx.org/licenses/CC-BY-4.0.html"' in html_of(data_page(catalogue_of({}), nothing_named))


def test_licence_that_is_not_stated_is_said() -> None:
    bare = COMPENDIUM.replace("licences: {text: CC-BY-4.0, data: CC0-1.0}\n", "")
    assert "licence not stated" in html_of(data_page(catalogue_of({"compendium.yaml": bare}), nothing_named))


def test_citation_holds_release_and_evidence_date() -> None:
    compendium = catalogue_of({}).evidence.compendium
    assert compendium is not None
    assert citation(compendium) == (
        "Fenwick Graduate Endodontics. Hard questions. Release 1.2.0, evidence to 2026-10-30. "
        "https://example.org/fenwick/guide"
    )
