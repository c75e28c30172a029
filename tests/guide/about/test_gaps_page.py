"""The gaps page: what this guide does not hold, said as such and never as "no study exists"."""

from __future__ import annotations

from guide.compendium import catalogue_of, nothing_named, report, said
from passageproof.guide.about.gaps_page import gaps_page
from passageproof.results.values.document import Table, walk


def rows_of(files: dict[str, str]) -> dict[str, str]:
    """What the page says of each answer, by the answer's title."""
    page = gaps_page(catalogue_of(files), nothing_named)
    tables = [block for block in walk(page.blocks) if isinstance(block, Table)]
    return {
        answer: said(held)
        for table in tables
        for _, answers, held in table.rows
        for answer in said(answers).split("; ")
    }


def page_text(files: dict[str, str]) -> str:
    return said(gaps_page(catalogue_of(files), nothing_named).blocks)


def question(*lines: str) -> dict[str, str]:
    return {"questions/hole.yaml": "\n".join(["id: hole", "title: There is a hole", "factors: [size]", *lines]) + "\n"}


SEARCHED = "searched: {on: 2026-09-12, where: [two databases], by: IM}"


def by_size(months: int) -> str:
    return (
        "- {id: by-size, question: hole, outcome: healed, factor: size, known_at: before, reference: up to 3 mm, "
        f"where: 'p. 3', follow_up: {{from: repair, timing: at, at: {months} months, tolerance: 1 month, "
        "where: 'p. 2'}, "
        "levels: [{level: up to 3 mm, events: 11, total: 12}, {level: over 3 mm, events: 6, total: 8}]}"
    )


def passages(months: int) -> tuple[str, str]:
    return (
        f"[p. 2] at {months} months, give or take 1 month",
        "[p. 3] up to 3 mm: 11 of 12 healed; over 3 mm: 6 of 8",
    )


NONE = "none in people in this guide, searched 2026-09-12"


def test_level_without_a_finding_has_none_in_people_and_the_day_of_the_search():
    assert rows_of(question(SEARCHED)) == {"up to 3 mm": NONE, "over 3 mm": NONE}


def test_answers_of_a_factor_about_which_the_same_is_held_share_a_row():
    page = gaps_page(catalogue_of(question(SEARCHED)), nothing_named)
    (table,) = [block for block in walk(page.blocks) if isinstance(block, Table)]
    assert [said(row) for row in table.rows] == [f"Size of the hole up to 3 mm; over 3 mm {NONE}"]


def test_search_that_nobody_recorded_is_said():
    assert rows_of(question())["over 3 mm"] == "none in people in this guide, search not recorded"


def test_level_and_its_reference_are_no_gap_once_compared_late():
    assert rows_of(question(SEARCHED) | report("marlow2019", by_size(36), *passages(36))) == {}


def test_only_early_evidence_is_a_gap():
    rows = rows_of(question(SEARCHED) | report("marlow2019", by_size(12), *passages(12)))
    assert rows["over 3 mm"] == "only early evidence"


def test_early_is_said_of_the_answer_and_not_of_all_that_was_ever_counted():
    # A study of one answer alone may be late; nothing late then stands by answer (house rule, no published source).
    text = page_text(question(SEARCHED) | report("marlow2019", by_size(12), *passages(12)))
    assert "no result in people by this answer stands at one stated time of 24 months or later" in text


def test_only_animals_are_named_beside_none_in_people():
    files = report("marlow2019", by_size(36), *passages(36), species="animal")
    assert rows_of(question(SEARCHED) | files)["over 3 mm"] == f"{NONE} (only animals)"


def test_withdrawn_report_leaves_a_gap_and_no_number():
    status = {"status.yaml": "marlow2019: {state: retracted, on: 2026-10-20, by: hand}\n"}
    files = question(SEARCHED) | report("marlow2019", by_size(36), *passages(36)) | status
    assert rows_of(files)["over 3 mm"] == f"{NONE} (one report was withdrawn)"


def test_direction_that_is_not_stated_is_a_gap():
    claims = (
        "- {id: by-size, question: hole, outcome: healed, factor: size, known_at: before, reference: up to 3 mm, "
        "where: 'p. 3', follow_up: not reported, "
        "levels: [{level: over 3 mm, direction: not stated, stated: words only}]}"
    )
    files = question(SEARCHED) | report("marlow2019", claims, "[p. 3] over 3 mm and up to 3 mm: not significant")
    assert rows_of(files)["over 3 mm"] == "studied in people, but which way it goes is not stated"


def test_papers_seen_and_not_read_are_listed_by_title():
    paper = {"sources/seen.bib": "@article{vale2024, author = {Vale, Ida}, title = {Unread holes}, year = 2024}\n"}
    shown = page_text(question(SEARCHED, "seen_not_read: [vale2024]") | paper)
    assert "Seen and not read yet Vale 2024, Unread holes" in shown


def test_time_of_a_threshold_at_which_nothing_was_counted_is_a_gap():
    threshold = "thresholds: [{outcome: healed, at: 5 years, at_least: 80%, agreed: 2026-09-01, by: IM}]"
    assert f"normal space, by film, at 5 years: {NONE}" in page_text(question(SEARCHED, threshold))


def test_share_of_those_healed_does_not_answer_for_all():
    # Stayed healed is conditional on having healed: common practice of survival analysis, no source.
    claims = (
        "- {id: stayed, question: hole, outcome: healed, where: 'p. 3', follow_up: not applicable, estimate: "
        "{kind: survival, at: 5 years, value: 71%, starting: 39, at_risk: 21, from: healing}}"
    )
    threshold = "thresholds: [{outcome: healed, at: 5 years, at_least: 80%, agreed: 2026-09-01, by: IM}]"
    files = report("marlow2019", claims, "[p. 3] of 39 healed teeth 71% at 5 years, 21 at risk")
    assert f"at 5 years: {NONE}" in page_text(question(SEARCHED, threshold) | files)


def test_page_never_says_that_no_study_exists():
    assert "no study" not in page_text(question(SEARCHED)).lower()


def test_guide_without_questions_has_a_page():
    assert "No question has been written yet." in page_text({})
