"""The page of one factor, read as a resident reads it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from demo import demo_built
from guide.cohorts import at, by_size, catalogue, ratio
from guide.compendium import figures, html_of, nothing_named, report, said
from passageproof.guide.factor.factor_page import factor_page
from passageproof.guide.sections.one_study import CLEAR, UNCLEAR
from passageproof.results.findings.findings import Catalogue
from passageproof.results.values.document import Details, Page, Section, StudyRow, StudyRows, Table, walk
from passageproof.results.values.figures import Figure
from passageproof.synthesis import TwoByTwo, contrast, pooled_effect

ROOT = Path(__file__).resolve().parents[3]

CERTAIN = """\
id: hole
title: There is a hole
searched: {on: 2026-09-12, where: [x], by: IM}
certainty:
  - outcome: healed
    at: 24 months
    factor: size
    level: large
    start: high
    steps:
      - {for: exploratory study, down: 1, reason: looked for after the fact, by: IM}
    final: FINAL
"""


def page(made: Catalogue, factor: str = "size") -> Page:
    return factor_page(made, made.evidence.questions["hole"], factor, nothing_named)


def section(found: Page, anchor: str) -> Section | Details:
    return next(item for item in walk(found.blocks) if isinstance(item, (Section, Details)) and item.anchor == anchor)


def answer(found: Page) -> str:
    return said(found.blocks[0])


FIVE = [
    by_size(f"arden{2011 + index}", own, other)
    for index, (own, other) in enumerate(
        (((13, 20), (47, 52)), ((12, 16), (38, 42)), ((20, 28), (74, 82)), ((14, 25), (60, 69)), ((12, 17), (43, 49)))
    )
]


def test_an_unjudged_association_says_so():
    found = page(catalogue(*FIVE))
    assert [said(block) for block in found.blocks[:3]] == [
        "Size of the hole, over 3 mm against up to 3 mm: the studies point to fewer healed. How sure: not judged yet.",
        "By study: the typical study, crude: odds ratio 0.25 (95% CI 0.11 to 0.54), 5 studies; fewer healed in 5 of 5 "
        "studies that state a side; 3 of them clear by themselves.",
        "Counted: healed; clear means more than chance alone usually gives; a small true difference is often not "
        "clear in a small study.",
    ]


def test_a_single_study_that_nobody_judged_tells_its_side_and_how_clear_it_is():
    found = page(catalogue(by_size("arden2011", (33, 41), (64, 79))))
    assert answer(found).endswith(f"up to 3 mm: one study, fewer healed; {UNCLEAR}. How sure: not judged yet.")


def test_what_an_answer_says_first_is_short_and_holds_no_figure():
    # House rule: a tired reader takes in one sentence of some thirty words and how sure; the longest of the demo has 37.
    built = demo_built()
    assert built.guide is not None
    told = [found.blocks[0] for found in built.guide.pages if found.kind == "factor"]
    assert told
    assert [said(block) for block in told if len(said(block).split()) > 37] == []
    long = [said(block) for block in told if sum(isinstance(part, Figure) for part in walk(block)) > 2]
    assert long == []


def test_the_first_comparison_stands_open_and_everything_else_is_one_tap_away():
    found = page(catalogue(*FIVE, question=CERTAIN.replace("FINAL", "moderate")))
    top = [block for block in found.blocks if isinstance(block, Section)]
    assert [block.anchor for block in top] == ["directions"]
    assert isinstance(section(found, "way-large-healed"), Section)
    closed = {item.anchor: item for item in found.blocks if isinstance(item, Details)}
    assert {"levels", "ratios", "how-sure", "would-change", "methods"} <= closed.keys()
    assert not any(item.is_open for item in closed.values())


@pytest.mark.parametrize(
    ("final", "down", "words"),
    [("moderate", 1, "probably goes with fewer healed"), ("low", 2, "may go with fewer healed")],
)
def test_the_ledger_words_the_sentence(final, down, words):
    # GRADE guidelines 26, Santesso et al. 2020, J Clin Epidemiol 119:126-135: probably at moderate, may at low.
    asked = CERTAIN.replace("FINAL", final).replace("down: 1", f"down: {down}")
    assert f"{words}. Certainty: {final}, judged at 24 months." in answer(page(catalogue(*FIVE, question=asked)))


def test_nothing_is_said_to_cause_or_improve():
    text = said(page(catalogue(*FIVE)))
    assert not re.search(r"\b(cause[sd]?|improves?|increases|reduces|leads to)\b", text)


def test_no_evidence_is_an_answer_with_the_day_of_the_search():
    assert answer(page(catalogue(), "tooth-type")) == "none in people in this guide, searched 2026-09-12"


def rows_of(found: Page | Section) -> tuple[StudyRow, ...]:
    """The rows of the first list of studies."""
    return next(item for item in walk(found.blocks) if isinstance(item, StudyRows)).rows


def test_a_row_says_in_words_what_its_drawing_shows():
    rows = rows_of(section(page(catalogue(*FIVE)), "way-large-healed"))
    assert sorted(said(row.said) for row in rows) == ["fewer, clear"] * 3 + ["fewer; too few to tell"] * 2
    for row in rows:
        assert row.point is not None
        assert row.point < 0
        assert (row.high < 0) == said(row.said).endswith("clear")
        assert row.shape == "open"
        assert not row.is_broken


def test_what_a_row_opens_says_all_that_is_known_of_the_study():
    rows = rows_of(section(page(catalogue(*FIVE)), "way-large-healed"))
    opened = [said(block) for block in next(row for row in rows if row.name == "Arden 2011").opened]
    assert opened == [
        "Report: Arden 2011",
        f"Which way: fewer healed, {CLEAR} (5 to 48 points fewer)",
        "Counted: teeth",
        "How and when: crude; at 24 months after repair, give or take 6 months; whether it was planned beforehand: not "
        "reported",
        "Groups differed in: not reported",
    ]


def test_what_a_row_opens_has_the_printed_shares_of_the_counts_above_and_tells_no_count_again():
    claim = """
    - id: by-size
      question: hole
      outcome: healed
      factor: size
      known_at: before
      cut: chosen from the data
      reference: up to 3 mm
      levels:
        - {level: up to 3 mm, events: 16, total: 16, success_rate: 100%}
        - {level: over 3 mm, events: 13, total: 20, success_rate: 65%}
      where: p. 4
      follow_up: {from: repair, timing: at, at: 24 months, tolerance: 6 months, where: "p. 2"}
    """
    passages = (
        "[p. 2] at 24 months, give or take 6 months",
        "[p. 4] up to 3 mm: 16 of 16 (100%); over 3 mm: 13 of 20 (65%)",
    )
    (row,) = rows_of(page(catalogue(report("arden2011", claim, *passages))))
    assert said(row.first) == "24 months · 13 of 20 | 16 of 16"
    # What all had needs no share, as everywhere.
    assert "Of these teeth: over 3 mm: 65%; cut chosen from the data" in [said(block) for block in row.opened]


def test_the_most_exact_study_comes_first():
    widths = [row.high - row.low for row in rows_of(section(page(catalogue(*FIVE)), "way-large-healed"))]
    assert widths == sorted(widths)


def test_the_difference_is_drawn_with_its_interval_in_points_of_a_hundred():
    # Newcombe 1998, Stat Med 17:873-890, method 10; recomputed with statsmodels (method="newcomb"): -50.83 to -10.98.
    (row,) = rows_of(page(catalogue(by_size("arden2011", (14, 25), (60, 69)))))
    assert row.point == pytest.approx(100 * (14 / 25 - 60 / 69))
    assert (row.low, row.high) == (pytest.approx(-50.83, abs=0.005), pytest.approx(-10.98, abs=0.005))
    assert said(row.first) == "24 months · 14 of 25 | 60 of 69"


def test_an_adjusted_ratio_is_a_filled_mark_on_a_scale_of_its_own():
    made = catalogue(
        by_size("bexley2012", (14, 25), (60, 69)),
        ratio("arden2011", "odds ratio", "healed, good", "0.4", adjusted="[age]"),
    )
    lists = [item for item in walk(page(made).blocks) if isinstance(item, StudyRows)][:2]
    found = {item.scale.is_log: item.rows for item in lists}
    assert {is_log: [row.shape for row in rows] for is_log, rows in found.items()} == {
        False: ["open"],
        True: ["filled"],
    }
    assert said(found[True][0].said).endswith("adjusted")


def test_all_lists_of_one_kind_share_their_scale():
    made = catalogue(by_size("arden2011", (5, 10), (9, 10)), by_size("bexley2012", (40, 60), (10, 60), outcome="lost"))
    scales = {
        (item.scale.low, item.scale.high)
        for item in walk(section(page(made), "directions").blocks)
        if isinstance(item, StudyRows)
    }
    assert len(scales) == 1


def test_counts_beside_an_adjusted_ratio_say_which_of_them_counts():
    crude = by_size(
        "arden2011",
        (14, 25),
        (60, 69),
        more=ADJUSTED,
        passages=("[p. 8] over 3 mm against up to 3 mm: adjusted OR for healed 0.3 (95% CI 0.1 to 0.9)",),
    )
    rows = [row for item in walk(page(catalogue(crude)).blocks) if isinstance(item, StudyRows) for row in item.rows]
    told = {said(row.said) for row in rows}
    assert "fewer, clear; its adjusted ratio counts" in told
    assert "fewer, clear, adjusted" in told


ADJUSTED = """
    - id: adjusted
      question: hole
      factor: size
      known_at: before
      outcome: healed
      reference: up to 3 mm
      contrast: {measure: odds ratio, event: healed, event_is: good, level: over 3 mm, reference: up to 3 mm, value: 0.3,
        interval: 0.1 to 0.9, adjusted_for: [age]}
      where: p. 8
      follow_up: not reported
"""


def test_a_withdrawn_study_keeps_a_row_without_a_number():
    files = (
        by_size("arden2011", (14, 25), (60, 69)),
        by_size("bexley2012", (10, 25), (60, 69)),
        {"status.yaml": "bexley2012: {state: retracted, on: 2026-10-20, by: hand, notice: {on: 2025-05-04}}\n"},
    )
    rows = rows_of(page(catalogue(*files)))
    assert [(row.name, said(row.first)) for row in rows][-1] == ("Bexley 2012", "withdrawn")
    assert rows[-1].point is rows[-1].low is None
    assert "withdrawn (2025-05-04)" in said(rows[-1].opened)


def test_conflict_is_said_plainly():
    made = catalogue(by_size("arden2011", (7, 12), (32, 35)), by_size("bexley2012", (32, 35), (7, 12)))
    text = said(page(made))
    assert "The studies do not agree: some lie on either side." in text
    assert "of 2 studies that state a side, more healed in 1, fewer healed in 1; 2 of them clear by themselves" in text


def test_outcomes_that_point_both_ways_within_a_study_are_told():
    kept = f"""
    - id: kept
      question: hole
      factor: size
      known_at: before
      outcome: kept
      reference: up to 3 mm
      levels:
        - {{level: up to 3 mm, events: 30, total: 35}}
        - {{level: over 3 mm, events: 12, total: 12}}
      where: p. 6
      follow_up: {at()[0]}
    """
    table = "[p. 6] up to 3 mm: 30 of 35 teeth; over 3 mm: 12 of 12 teeth"
    made = catalogue(by_size("arden2011", (7, 12), (32, 35), more=kept, passages=(table,)))
    assert "the outcomes of over 3 mm point both ways: tooth there more often; but fewer healed" in said(page(made))


def test_the_sign_test_stands_in_the_workings_alone_from_six_directions():
    # Exact two-sided binomial at one half: 6 of 6 gives 2 / 64 = .03125.
    made = catalogue(*FIVE, by_size("elgin2019", (7, 12), (32, 35)))
    found = page(made)
    results = dict(made.book.working("hole-size-directions").results)
    tested = next(figure for name, figure in results.items() if "exact two-sided sign test" in name)
    assert (tested.text, tested.value) == ("0.031", "0.03125")
    assert tested.id not in figures(found)


def test_five_directions_have_no_sign_test():
    made = catalogue(*FIVE)
    page(made)
    results = dict(made.book.working("hole-size-directions").results)
    assert not any("sign test" in name for name in results)


def test_pooled_rates_of_both_levels_stand_with_tau_and_a_further_study():
    text = said(section(page(catalogue(*FIVE)), "levels-healed"))
    assert "over 3 mm: the typical study: 67.0%" in text
    assert "a further study would lie between" in text


def test_the_further_study_is_drawn_before_the_typical_one():
    names = [row.name for row in rows_of(section(page(catalogue(*FIVE)), "levels-healed"))]
    assert names.index("a further study") == names.index("the typical study") - 1


def test_a_rate_of_a_level_is_a_dot_with_its_interval_from_nought_to_a_hundred():
    found = section(page(catalogue(*FIVE)), "levels-healed")
    scale = next(item for item in walk(found.blocks) if isinstance(item, StudyRows)).scale
    assert (scale.low, scale.high, scale.none) == (0, 100, None)
    row = next(row for row in rows_of(found) if said(row.first).startswith("over 3 mm · 24 months"))
    assert row.shape == "dot"
    assert 0 <= row.low < row.point < row.high <= 100


def test_sensitivity_leaves_out_each_study_in_turn():
    tables = [
        item for item in walk(page(catalogue(*FIVE)).blocks) if isinstance(item, Table) and item.kind == "sensitivity"
    ]
    left_out = [said(row[0]) for row in tables[0].rows if said(row[0]).startswith("without")]
    assert left_out == [f"without Arden {2011 + index}" for index in range(5)]


def test_a_ratio_without_one_study_has_the_interval_of_the_whole():
    # IntHout, Ioannidis, Borm 2014, BMC Med Res Methodol 14:25: by t with k - 1 degrees of freedom, three for the four
    # that are left, as the whole has four for its five. By the normal curve "without" looks surer than the whole.
    counts = [((12, 16), (38, 42)), ((20, 28), (74, 82)), ((14, 25), (60, 69)), ((12, 17), (43, 49))]
    made = [contrast(TwoByTwo(*own, *other), "odds ratio") for own, other in counts]
    kept = pooled_effect([one.estimate for one in made], [one.standard_error for one in made]).natural()
    table = next(
        item
        for item in walk(section(page(catalogue(*FIVE)), "ratios").blocks)
        if isinstance(item, Table) and item.kind == "sensitivity"
    )
    told = {said(what): said(then) for what, then in table.rows}
    low, high = kept.interval
    assert told["without Arden 2011"] == f"{kept.estimate:.2f} (95% CI {low:.2f} to {high:.2f})"
    assert "one common effect, its interval by the normal curve" in told


def test_single_studies_are_not_pooled_and_say_why():
    text = said(section(page(catalogue(FIVE[0])), "levels"))
    assert "over 3 mm: not pooled: a single study." in text


def test_a_withdrawn_report_is_named_without_a_number():
    status = {"status.yaml": "arden2011: {state: retracted, on: 2026-10-20, by: hand}\n"}
    found = page(catalogue(FIVE[0], status))
    assert "Arden 2011: withdrawn (2026-10-20)" in said(section(found, "not-counted"))
    assert not any(name.startswith("arden2011/") for name in figures(found))


def test_animals_stand_in_a_lane_of_their_own():
    found = page(catalogue(by_size("arden2011", (5, 12), (11, 12), species="animal")))
    assert answer(found).startswith("none in people in this guide")
    assert "may explain; they never count" in said(section(found, "lane"))


def test_a_review_is_not_added_to_the_studies():
    claim = f"""
    - id: pooled
      question: hole
      factor: size
      known_at: before
      outcome: healed
      reference: up to 3 mm
      contrast:
        measure: odds ratio
        event: healed
        event_is: good
        level: over 3 mm
        reference: up to 3 mm
        value: 0.46
        adjusted_for: not reported
      pooled: {{studies: 6, of: 431, model: random effects}}
      where: p. 7
      follow_up: {at()[0]}
    """
    passage = "[p. 7] over 3 mm against up to 3 mm: odds ratio for healed 0.46, 6 studies, 431 teeth, random effects"
    found = page(catalogue(FIVE[0], report("reviewer2020", claim, at()[1], passage)))
    assert "1 study: fewer healed, more than chance alone usually gives (" in said(found)
    assert "0.46" in said(section(found, "reviews"))


def test_a_subgroup_stands_alone():
    claim = f"""
    - id: sub
      question: hole
      factor: size
      known_at: before
      within: [{{factor: way, level: direct cap}}]
      planned: no
      outcome: healed
      reference: up to 3 mm
      levels:
        - {{level: over 3 mm, events: 3, total: 8}}
      where: p. 8
      follow_up: {at()[0]}
    """
    made = catalogue(report("arden2011", claim, at()[1], "[p. 8] direct cap and over 3 mm: 3 of 8 teeth"))
    found = page(made)
    assert "3 of 8 teeth" in said(section(found, "subgroups"))
    assert answer(found).startswith("none in people in this guide")


def test_the_methods_box_has_the_nine_items_of_swim():
    # Campbell et al. 2020, BMJ 368:l6890: nine items.
    box = section(page(catalogue(*FIVE)), "methods")
    assert len(box.blocks[0].rows) == 9  # type: ignore[union-attr]


def test_the_ledger_shows_each_step_with_its_reason():
    text = said(section(page(catalogue(*FIVE, question=CERTAIN.replace("FINAL", "moderate"))), "how-sure"))
    assert "exploratory study down 1 looked for after the fact (Ines Marlow)" in text


def test_what_would_change_the_answer_follows_from_what_is_missing():
    text = said(section(page(catalogue(FIVE[0])), "would-change"))
    assert "A second study: each comparison here rests on one." in text
    assert "every count or ratio here is crude" in text


def test_groups_that_differed_are_printed_with_the_comparison():
    files = by_size("arden2011", (7, 12), (32, 35), passages=("[p. 9] wide holes were mostly in molars",))
    files["claims/arden2011.yaml"] = files["claims/arden2011.yaml"].replace(
        "reference: up to 3 mm\n", "reference: up to 3 mm\n    differ_in: [wide holes were mostly in molars]\n"
    )
    assert "wide holes were mostly in molars" in said(section(page(catalogue(files)), "way-large-healed"))
    # In a picture of the answer alone they stand too.
    assert "at the start the groups differed: wide holes were mostly in molars" in said(
        page(catalogue(files)).blocks[2]
    )


def test_what_is_known_only_afterwards_is_said():
    files = by_size("arden2011", (7, 12), (32, 35))
    files["claims/arden2011.yaml"] = files["claims/arden2011.yaml"].replace("known_at: before", "known_at: after")
    assert "Known only afterwards" in said(page(catalogue(files)))


def test_every_table_names_itself_once_and_without_a_number():
    labels = [item.label for item in walk(page(catalogue(*FIVE)).blocks) if isinstance(item, Table)]
    assert len(labels) == len(set(labels))
    assert not any(re.search(r"\d", label) for label in labels)


def test_the_page_is_printed_with_the_mark_of_the_demonstration():
    assert html_of(page(catalogue(*FIVE))).count("invented for demonstration") >= 5


def test_another_order_of_reports_gives_the_same_page():
    assert html_of(page(catalogue(*FIVE))) == html_of(page(catalogue(*reversed(FIVE))))
