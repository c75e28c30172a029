"""What a row or page has said already is not said again: times, and ratios that a report prints as its counts give them."""

from __future__ import annotations

import re

from guide.cohorts import by_size, catalogue
from guide.compendium import figures, html_of, nothing_named, said
from passageproof.guide.factor.factor_page import factor_page
from passageproof.results.findings.findings import Catalogue
from passageproof.results.values.document import Page, StudyRow, StudyRows, walk

MIDDLE = (
    "{from: repair, timing: last recall, minimum: 12 months, median: 31 months, maximum: 60 months, where: 'p. 2'}",
    "[p. 2] last recall 12 to 60 months (median 31 months)",
)


def page(made: Catalogue) -> Page:
    return factor_page(made, made.evidence.questions["hole"], "size", nothing_named)


def rows(found: Page, label: str) -> list[StudyRow]:
    lists = [item for item in walk(found.blocks) if isinstance(item, StudyRows) and item.label.startswith(label)]
    return [row for item in lists for row in item.rows]


def printed(ratio: str, adjusted: str = "none") -> str:
    return f"""
    - id: printed
      question: hole
      factor: size
      known_at: before
      outcome: healed
      reference: up to 3 mm
      contrast: {{measure: odds ratio, event: healed, event_is: good, level: over 3 mm, reference: up to 3 mm,
        value: {ratio}, interval: 0.07 to 0.55, adjusted_for: {adjusted}}}
      where: p. 8
      follow_up: not reported
"""


def both(ratio: str) -> Page:
    """14 of 25 against 60 of 69: by hand (14 x 9) / (11 x 60) = 0.191, and after Woolf from 0.066 to 0.549."""
    told = f"[p. 8] crude odds ratio for healed, over 3 mm against up to 3 mm: {ratio} (95% CI 0.07 to 0.55)"
    return page(catalogue(by_size("arden2011", (14, 25), (60, 69), more=printed(ratio), passages=(told,))))


def test_a_ratio_printed_as_the_counts_give_it_stands_once_as_printed():
    found = both("0.19")
    (row,) = rows(found, "Crude ratios")
    assert said(row.said) == "0.19 (95% CI 0.07 to 0.55)"
    assert set(figures(row.said)) == {
        "arden2011/printed/contrast/value",
        "arden2011/printed/contrast/interval/low",
        "arden2011/printed/contrast/interval/high",
    }
    assert rows(found, "Ratios as reported") == []
    assert "as printed where the report prints the same" in said(found.blocks)
    assert "odds-ratio" not in html_of(found)


def test_a_ratio_printed_otherwise_than_the_counts_give_it_stands_beside_that_of_the_counts():
    found = both("0.20")
    (own,) = rows(found, "Crude ratios")
    assert said(own.said) == "0.19 (95% CI 0.07 to 0.55)"
    assert not any(figure.is_quoted for figure in figures(own.said).values())
    (other,) = rows(found, "Ratios as reported")
    assert said(other.said).startswith("odds ratio 0.20 (95% CI 0.07 to 0.55)")


def test_the_middle_time_stands_above_what_a_row_opens_and_not_in_it():
    (row,) = rows(page(catalogue(by_size("arden2011", (14, 25), (60, 69), time=MIDDLE))), "Studies of")
    assert said(row.first) == "median 31 months · 14 of 25 | 60 of 69"
    assert "when last seen, 12 to 60 months after repair" in said(row.opened)
    assert "median" not in said(row.opened)


def test_a_middle_time_that_is_all_there_is_to_tell_is_told():
    median = tuple(text.replace("minimum: 12 months, ", "").replace("maximum: 60 months, ", "") for text in MIDDLE)
    time = (median[0], "[p. 2] last recall at a median of 31 months")
    (row,) = rows(page(catalogue(by_size("arden2011", (14, 25), (60, 69), time=time))), "Studies of")
    assert "when last seen, median 31 months after repair" in said(row.opened)


def test_when_the_levels_were_counted_stands_with_the_comparison_of_the_same_report():
    found = page(catalogue(by_size("arden2011", (14, 25), (60, 69), time=MIDDLE)))
    levels = rows(found, "Levels side by side")
    assert [said(row.first) for row in levels] == [
        "up to 3 mm · median 31 months",
        "over 3 mm · median 31 months",
    ]
    assert not any("When" in said(row.opened) for row in levels)
    assert len(re.findall("12 to 60 months after repair", said(found.blocks))) == 1


def test_a_level_that_nothing_is_compared_with_says_when_itself():
    files = by_size("arden2011", (14, 25), (60, 69), time=MIDDLE)
    name = "claims/arden2011.yaml"
    alone = files | {name: re.sub(r"\n *- \{level: over 3 mm[^\n]*", "", files[name])}
    (level,) = rows(page(catalogue(alone)), "Levels side by side")
    assert "When: when last seen, 12 to 60 months after repair" in said(level.opened)
