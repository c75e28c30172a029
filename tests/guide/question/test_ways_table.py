"""The ways side by side: a row each, only what is known of everybody who went that way, blanks said aloud."""

from __future__ import annotations

import pytest
from guide.cohorts import at, cohort, last_seen
from guide.compendium import catalogue_of, nothing_named, report, said
from passageproof.guide.question.ways_table import ways_side_by_side
from passageproof.results.values.document import Details, Table, walk

OPTIONS = """\
options:
  - id: cap
    title: Cap it
    is: {factor: way, level: cap}
    asks: [{words: A pulp that stops bleeding., basis: {kind: common practice}}]
    visits: [{words: "This one, then the recalls.", basis: {kind: common practice}}]
  - id: full
    title: Take the pulp of the crown
    is: {factor: way, level: full}
  - {id: out, title: Take it out}
"""
HEAD = "id: hole\ntitle: There is a hole\nsearched: {on: 2026-09-12, where: [x], by: IM}\n"


def table_of(files: dict[str, str], options: str = OPTIONS, more: str = "") -> Table:
    catalogue = catalogue_of({"questions/hole.yaml": HEAD + options + more} | files)
    found = ways_side_by_side(catalogue, catalogue.evidence.questions["hole"], nothing_named)
    assert isinstance(found, Details)
    return next(block for block in walk(found.blocks) if isinstance(block, Table))


def cell(table: Table, way: str, column: str) -> str:
    names = [said(name) for name in table.header]
    row = next(row for row in table.rows if said(row[0]) == way)
    return said(row[names.index(column)])


def arms(key: str, *levels: tuple[str, int, int], outcome: str = "healed", more: str = "") -> dict[str, str]:
    """One report with a table by way."""
    follow_up, passage = at()
    rows = "\n".join(f"        - {{level: {name}, events: {events}, total: {total}}}" for name, events, total in levels)
    printed = "; ".join(f"{name}: {events} of {total} teeth" for name, events, total in levels)
    claim = f"""
    - id: by-way
      question: hole
      factor: way
      known_at: before
      outcome: {outcome}
      reference: direct cap
      levels:
{rows}
      where: p. 3
      follow_up: {follow_up}{more}
    """
    return report(
        key, claim, passage, f"[p. 3] {outcome}: {printed}", study=key, treatment="direct cap or full pulpotomy"
    )


def test_each_way_is_a_row_and_each_thing_that_is_asked_of_it_a_column():
    table = table_of(arms("marlow2019", ("direct cap", 30, 40), ("full pulpotomy", 33, 41)))
    assert [said(row[0]) for row in table.rows] == ["Cap it", "Take the pulp of the crown", "Take it out"]
    assert [said(name) for name in table.header] == [
        "Way", "What it asks", "Healed", "Kept", "What can go wrong", "How sure", "Visits",
    ]  # fmt: skip
    assert "30 of 40 teeth" in cell(table, "Cap it", "Healed")
    assert "24 months" in cell(table, "Cap it", "Healed")
    assert "33 of 41 teeth" in cell(table, "Take the pulp of the crown", "Healed")


def test_what_nobody_knows_of_a_way_is_said_in_every_cell():
    table = table_of(arms("marlow2019", ("direct cap", 30, 40), ("full pulpotomy", 33, 41)))
    row = next(row for row in table.rows if said(row[0]) == "Take it out")
    assert [said(part) for part in row[1:]] == ["not known"] * 6
    assert cell(table, "Cap it", "Kept") == "not known"


def test_a_question_without_two_ways_has_no_table():
    catalogue = catalogue_of({"questions/hole.yaml": HEAD + "options: [{id: now, title: Now}]\n"})
    assert ways_side_by_side(catalogue, catalogue.evidence.questions["hole"], nothing_named) is None


def test_a_study_in_which_all_were_treated_so_counts_and_one_with_a_mixture_does_not():
    table = table_of(
        cohort("arden2011", 39, 47, treatment="direct cap") | cohort("baker2012", 20, 40, treatment="initial")
    )
    assert "39 of 47 teeth" in cell(table, "Cap it", "Healed")
    assert "20 of 40" not in said(table.rows)


def test_several_studies_at_one_time_are_a_range_and_how_many():
    files = cohort("arden2011", 39, 47, treatment="direct cap") | cohort("baker2012", 20, 40, treatment="direct cap")
    found = cell(table_of(files), "Cap it", "Healed")
    assert "20 of 40 teeth and 39 of 47 teeth, 24 months, 2 studies" in found


def test_five_studies_tell_the_typical_one_first():
    counts = ((39, 47), (20, 40), (30, 41), (28, 39), (25, 38))
    files: dict[str, str] = {}
    for index, (events, total) in enumerate(counts):
        files |= cohort(f"arden20{11 + index}", events, total)
    options = "options: [{id: now, title: Now, overall: [healed]}, {id: out, title: Out}]\n"
    found = cell(table_of(files, options), "Now", "Healed")
    assert found.startswith("healed (stricter definition): the typical study ")
    assert "; from 20 of 40 teeth to 39 of 47 teeth, 24 months, 5 studies" in found
    assert cell(table_of(files, options), "Out", "Healed") == "not known"


def test_the_second_number_of_other_patients_says_so_and_that_of_the_same_does_not():
    files = cohort("arden2011", 39, 47, treatment="direct cap") | cohort(
        "baker2012", 30, 40, treatment="direct cap", time=last_seen()
    )
    found = cell(table_of(files), "Cap it", "Healed")
    assert "other patients: 30 of 40 teeth" in found
    same = cohort("arden2011", 39, 47, treatment="direct cap") | cohort(
        "arden2013", 30, 47, treatment="direct cap", time=at(48), study="arden2011", described=False
    )
    found = cell(table_of(same), "Cap it", "Healed")
    assert "30 of 47 teeth" in found
    assert "other patients" not in found


def test_success_and_what_was_kept_never_share_a_column():
    files = cohort("arden2011", 39, 47, treatment="direct cap") | cohort(
        "baker2012", 44, 46, treatment="direct cap", outcome="kept"
    )
    table = table_of(files)
    assert "44 of 46 teeth" in cell(table, "Cap it", "Kept")
    assert "44 of 46" not in cell(table, "Cap it", "Healed")


def test_how_the_groups_differed_stands_in_each_row_of_the_comparison():
    more = "\n      differ_in: [the residents had the easier teeth]"
    levels = (("direct cap", 30, 40), ("full pulpotomy", 33, 41))
    files = arms("marlow2019", *levels, more=more)
    bib = "sources/marlow2019.bib"
    files[bib] = files[bib].replace("[p. 3] ", "[p. 3] the residents had the easier teeth; ")
    table = table_of(files)
    for way in ("Cap it", "Take the pulp of the crown"):
        assert "the groups differed: the residents had the easier teeth" in cell(table, way, "Healed")


JUDGED = """\
certainty:
  - {outcome: healed, at: 24 months, start: high, steps: [{for: bias, down: 1, reason: r, by: IM}], final: moderate}
  - {outcome: healed, at: 24 months, factor: way, level: full, start: high,
     steps: [{for: bias, down: 2, reason: r, by: IM}], final: low}
"""


def test_what_was_judged_for_all_is_not_lent_to_one_arm_nor_that_of_a_time_to_another():
    table = table_of(arms("marlow2019", ("direct cap", 30, 40), ("full pulpotomy", 33, 41)), more=JUDGED)
    assert cell(table, "Cap it", "How sure") == "not judged yet"
    assert cell(table, "Take the pulp of the crown", "How sure") == "healed, compared: low"
    whole = cohort("arden2011", 39, 47, treatment="direct cap")
    assert cell(table_of(whole, more=JUDGED), "Cap it", "How sure") == "healed: moderate"
    later = cohort("arden2011", 39, 47, treatment="direct cap", time=last_seen())
    assert cell(table_of(later, more=JUDGED), "Cap it", "How sure") == "not judged yet"


def test_a_withdrawn_report_leaves_its_row():
    files = arms("marlow2019", ("direct cap", 30, 40), ("full pulpotomy", 33, 41))
    status = {"status.yaml": "marlow2019: {state: retracted, on: 2026-10-20, by: hand}\n"}
    table = table_of(files | status)
    assert {cell(table, way, "Healed") for way in ("Cap it", "Take the pulp of the crown")} == {"not known"}


@pytest.mark.parametrize(
    ("entry", "shown"), [("{kind: common practice}", ""), ("{kind: local protocol}", "(local protocol)")]
)
def test_what_a_way_asks_says_what_it_rests_on_where_that_is_not_the_usual(entry: str, shown: str):
    options = (
        f"options:\n  - {{id: a, title: A, asks: [{{words: Dry it., basis: {entry}}}]}}\n  - {{id: b, title: B}}\n"
    )
    assert cell(table_of({}, options), "A", "What it asks") == f"Dry it. {shown}".strip()
