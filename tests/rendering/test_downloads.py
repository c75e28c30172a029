"""What can be taken along: tables that no spreadsheet runs, entries without what is not ours."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import bibtexparser
import pytest
from guide.compendium import written
from passageproof.build import build_files
from passageproof.rendering.downloads import bibtex_entry, downloads
from passageproof.results.values.guide import ClaimRow, Guide, SourceEntry
from rendering.sample_guide import sample_guide

ENTRY = """\
@article{x2020,
  title = {A title with {braces, and a comma}},
  annotation = {
    [p. 4] 3 of 8 {healed}
  },
  file = {/home/somebody/x.pdf},
  abstract = "words, more words",
  year = 2020
}"""


def taken_along(path: str, guide: Guide | None = None) -> str:
    """One file to take along, whole; of the guide made by hand where none is named."""
    return "".join(downloads(guide or sample_guide())[path]())


def test_an_entry_loses_paths_and_abstracts_and_nothing_else() -> None:
    text = bibtex_entry(SourceEntry("x2020", ENTRY, is_retracted=False))
    assert text == (
        "@article{x2020,\n  title = {A title with {braces, and a comma}},\n  annotation = {\n"
        "    [p. 4] 3 of 8 {healed}\n  },\n  year = 2020\n}\n"
    )


def test_a_retracted_report_keeps_its_entry_without_the_passages() -> None:
    text = bibtex_entry(SourceEntry("x2020", ENTRY, is_retracted=True))
    assert "healed" not in text
    assert "year = 2020" in text


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("=1+1", "'=1+1"),
        ("@cmd", "'@cmd"),
        ("+plus", "'+plus"),
        ("-minus", "'-minus"),
        ("-3.58", "-3.58"),
        ("words", "words"),
    ],
)
def test_no_cell_is_a_formula(typed: str, shown: str) -> None:
    # CWE-1236, improper neutralization of formula elements in a CSV file.
    row = ClaimRow("k", "c", "", ("q",), "none found", (("note", typed),), ())
    text = taken_along("data/claim-words.csv", sample_guide()._replace(claims=(row,)))
    assert next(csv.DictReader(io.StringIO(text)))["claim note"] == shown


@pytest.mark.parametrize("path", ["outcomes.csv", "studies.csv"])
def test_the_mark_of_a_demonstration_stands_in_the_first_row(path: str) -> None:
    rows = list(csv.DictReader(io.StringIO(taken_along(f"data/{path}"))))
    assert [row["note"] for row in rows] == ["invented for demonstration", *[""] * (len(rows) - 1)]


@pytest.mark.parametrize("path", ["claims.csv", "claim-words.csv"])
def test_of_claims_the_mark_stands_in_the_first_row_of_every_report(path: str) -> None:
    sample = sample_guide()
    claims = tuple(row._replace(key=key) for key in ("a2019", "b2020") for row in (*sample.claims, *sample.claims))
    rows = list(csv.DictReader(io.StringIO(taken_along(f"data/{path}", sample._replace(claims=claims)))))
    before = [{"report": ""}, *rows]
    first = [row for row, last in zip(rows, before, strict=False) if row["report"] != last["report"]]
    assert len(first) == 2
    assert [row for row in rows if row["note"]] == first
    assert {row["note"] for row in first} == {"invented for demonstration"}


@pytest.mark.parametrize("path", ["claims.csv", "claim-words.csv", "outcomes.csv", "studies.csv"])
def test_real_evidence_has_no_mark(path: str) -> None:
    assert "invented" not in taken_along(f"data/{path}", sample_guide()._replace(is_demonstration=False))


def test_a_claim_without_numbers_keeps_a_row_with_its_standing() -> None:
    row = ClaimRow("k", "c", "", ("q",), "retracted", (("where", "Methods"),), ())
    text = taken_along("data/claims.csv", sample_guide()._replace(claims=(row,)))
    (only,) = csv.DictReader(io.StringIO(text))
    assert (only["report"], only["state"], only["name"], only["value"]) == ("k", "retracted", "", "")


def test_claims_as_json_hold_each_outcome_and_study_once() -> None:
    claims = json.loads(taken_along("data/claims.json"))
    assert claims["outcomes"]["healed"]["strictness"] == "strict"
    assert claims["studies"]["marlow-clinic"]["species"] == "human"
    assert claims["note"] == "invented for demonstration"


def test_claims_as_json_name_release_licence_and_every_figure() -> None:
    claims = json.loads(taken_along("data/claims.json"))
    assert (claims["release"], claims["licence"]) == ("1.2.0", "CC0-1.0")
    assert claims["claims"][0]["figures"]["events"] == ["39", "tooth"]


def test_claims_as_json_say_what_was_printed_where_it_is_more_than_the_value() -> None:
    sample = sample_guide()
    events = dict(sample.claims[0].figures)["events"]
    share = events._replace(text="83%", value="83", unit="%")
    rows = (sample.claims[0]._replace(figures=(("events", events), ("success_rate", share))),)
    claims = json.loads(taken_along("data/claims.json", sample._replace(claims=rows)))
    assert claims["claims"][0]["figures"] == {"events": ["39", "tooth"], "success_rate": ["83", "%", "83%"]}


def test_the_numbers_behind_a_computed_figure_can_be_taken_along() -> None:
    assert taken_along("data/workings/root-perforation-wilson.csv") == (
        "events,total,note\n39,47,invented for demonstration\n"
    )


def test_a_lasting_copy_can_ask_what_was_withdrawn() -> None:
    guide = sample_guide()._replace(withdrawn=(("marlow2019furcal", "2026-11-02"),))
    standing = json.loads(taken_along("data/standing.json", guide))
    assert standing["withdrawn"] == {"marlow2019furcal": "2026-11-02"}
    assert standing["release"] == "1.2.0"


def test_sources_carry_the_strings_that_their_entries_need(tmp_path: Path) -> None:
    """Two files may give one abbreviation two meanings; whoever reads the download gets each where it holds."""
    plain = "@article{c2020, title = {T}, journal = {C}, year = 2020}\n"
    own = "@string{{j = {{{journal}}}}}\n@article{{{name}2020, title = {{T}}, journal = j, year = 2020}}\n"
    entries = {
        "sources/a.bib": own.format(name="a", journal="Annals of A"),
        "sources/b.bib": own.format(name="b", journal="Bulletin of B"),
        "sources/c.bib": "@string{k = {K}}\n" + plain,
    }
    written(entries, tmp_path)
    text = build_files(tmp_path).files["data/sources.bib"]
    order = ("Annals of A", "@article{a2020", "Bulletin of B", "@article{b2020")
    assert [text.index(each) for each in order] == sorted(text.index(each) for each in order)
    assert "@string{k" not in text
    assert plain in text
    one = bibtexparser.parse_string(text.split("@string{j = {Bulletin")[0])
    assert one.entries_dict["a2020"]["journal"] == "Annals of A"
