"""The conference page: every study once, what overlaps, what was refused, withdrawn ones as a reference alone."""

from __future__ import annotations

import re
from pathlib import Path

from demo import demo_built, demo_evidence
from guide.compendium import catalogue_of, figures, html_of, nothing_named, report, said
from passageproof.guide.question.conference_page import conference_page
from passageproof.results.values.document import Details, Page, Raw, Section, StudyRows, walk
from passageproof.results.values.line import Link

ROOT = Path(__file__).parents[3]

AT = "{from: repair, timing: at, at: 24 months, tolerance: 6 months, where: 'p. 2'}"
TIME = "[p. 2] at 24 months, give or take 6 months"
QUESTION = {"questions/hole.yaml": "id: hole\ntitle: There is a hole\nfactors: [size]\n"}
RATE = f"- {{id: all, question: hole, outcome: healed, events: 39, total: 47, where: 'p. 3', follow_up: {AT}}}"
BY_SIZE = (
    f"- {{id: by-size, question: hole, outcome: healed, factor: size, known_at: before, reference: up to 3 mm, "
    f"planned: no, where: 'p. 4', follow_up: {AT}, differ_in: [wide holes were older], "
    "levels: [{level: up to 3 mm, events: 32, total: 35}, {level: over 3 mm, events: 7, total: 12}]}"
)
PASSAGES = (
    TIME,
    "[p. 3] 39 of 47 teeth",
    "[p. 4] up to 3 mm: 32 of 35 healed; over 3 mm: 7 of 12; wide holes were older",
)
MARLOW = report("marlow2019", f"{RATE}\n{BY_SIZE}", *PASSAGES)


def page_of(files: dict[str, str]) -> Page:
    catalogue = catalogue_of(QUESTION | files)
    return conference_page(catalogue, catalogue.evidence.questions["hole"], nothing_named)


def section(page: Page, anchor: str) -> Section | Details:
    return next(item for item in walk(page.blocks) if isinstance(item, (Section, Details)) and item.anchor == anchor)


def test_study_has_design_setting_readers_depth_and_standing():
    shown = said(section(page_of(MARLOW), "studies"))
    for wanted in ("cohort, consecutive", "operators: residents", "full text, read by Ines Marlow on 2026-02-03",
                   "re-read by nobody yet", "not checked"):  # fmt: skip
        assert wanted in shown


def test_finding_has_numbers_time_and_definition():
    shown = said(section(page_of(MARLOW), "findings"))
    for wanted in ("39 of 47 teeth", "at 24 months after repair, give or take 6 months", "normal space, by film"):
        assert wanted in shown


def test_when_is_said_once_a_report_and_short_in_every_row():
    (first,), (second,) = (
        item.rows for item in walk(section(page_of(MARLOW), "findings").blocks) if isinstance(item, StudyRows)
    )
    assert "When: at 24 months after repair, give or take 6 months" in said(first.opened)
    assert "When" in said(second.opened)  # typed by the claim itself, so its own number
    shared = {name: text.replace(f"{AT}, differ_in", "all, differ_in") for name, text in MARLOW.items()}
    (first,), (second,) = (
        item.rows for item in walk(section(page_of(shared), "findings").blocks) if isinstance(item, StudyRows)
    )
    assert "When" in said(first.opened)
    assert "When" not in said(second.opened)
    assert said(second.first) == "healed, 24 months"


def test_levels_of_one_claim_stand_in_one_row_crude_with_how_the_groups_differed():
    shown = said(section(page_of(MARLOW), "findings"))
    assert "up to 3 mm: 32 of 35 teeth; over 3 mm: 7 of 12 teeth" in shown
    assert "at the start the groups differed: wide holes were older; crude" in shown


def test_what_was_found_stands_by_factor_a_tap_away_and_how_it_was_counted_once():
    lists = [item for item in section(page_of(MARLOW), "findings").blocks if isinstance(item, Details)]
    assert [(item.summary, item.anchor) for item in lists] == [
        ("all of them", "found-all"), ("Size of the hole", "found-size"), ("How each was counted", ""),
    ]  # fmt: skip
    assert said(lists[-1]).count("healed") == said(page_of(MARLOW).blocks).count("normal space, by film") == 1
    assert not any(item.is_open for item in lists)


def test_success_and_survival_never_share_a_list():
    page = page_of(
        report("marlow2019", f"{RATE}\n{RATE.replace('id: all', 'id: kept').replace('healed', 'kept')}", *PASSAGES)
    )
    lists = [item for item in walk(section(page, "found-all").blocks) if isinstance(item, StudyRows)]
    assert [item.label for item in lists] == ["Findings: all of them", "Teeth kept: all of them"]
    assert all(len(item.rows) == 1 for item in lists)


def test_files_to_take_along_come_first_and_every_study_is_one_row():
    page = page_of(MARLOW | ARDEN)
    assert isinstance(page.blocks[1], Section)
    assert page.blocks[1].anchor == "take-along"
    targets = [item.target for item in walk(page.blocks[1].blocks) if isinstance(item, Link)]
    assert targets[:4] == ["hole/talk/slides.pptx", "hole/talk/handout.pdf", "data/sources.bib", "data/claims.csv"]
    (studies,) = (item for item in walk(section(page, "studies").blocks) if isinstance(item, StudyRows))
    (row,) = studies.rows
    assert row.name == "Arden 2023"
    assert said(row.said) == "also Marlow 2019"


def test_a_row_says_of_a_report_that_it_was_corrected_or_read_as_an_abstract():
    files = {name: text.replace("depth: full text", "depth: abstract") for name, text in MARLOW.items()}
    status = {"status.yaml": "marlow2019: {state: corrected, on: 2026-10-20, by: hand, notice: {on: 2025-05-04}}\n"}
    (studies,) = (
        item for item in walk(section(page_of(files | status), "studies").blocks) if isinstance(item, StudyRows)
    )
    assert said(studies.rows[0].said) == "report corrected; abstract only"


def test_closed_the_page_is_short():
    page = page_of(MARLOW)
    open_blocks = {type(item).__name__ for item in page.blocks}
    assert open_blocks == {"Paragraph", "Section", "Details"}
    assert [item.anchor for item in page.blocks if isinstance(item, Section)] == ["take-along", "studies", "findings"]


ARDEN = report(
    "arden2023",
    RATE.replace("39", "36"),
    TIME,
    "[p. 3] 36 of 47 teeth",
    described=False,
)


def test_reports_that_share_patients_are_named_with_their_study():
    assert "Arden 2023, Marlow 2019: the same patients (Fenwick)" in said(
        section(page_of(MARLOW | ARDEN), "same-patients")
    )


def test_whose_number_counts_is_said_once():
    shown = said(section(page_of(MARLOW | ARDEN), "same-patients"))
    assert shown.count("counts in place of") == 1


def test_refused_pool_says_why_and_leads_to_the_page():
    page = page_of(MARLOW | report("vale2020", BY_SIZE, *PASSAGES, study="southquay"))
    assert "not pooled: " in said(section(page, "pooled"))
    assert 'href="../../hole/size/"' in html_of(page)


WITHDRAWN = {"status.yaml": "marlow2019: {state: retracted, on: 2026-10-20, by: hand, notice: {on: 2025-05-04}}\n"}


def test_withdrawn_report_is_a_reference_without_figures():
    page = page_of(MARLOW | WITHDRAWN)
    assert not figures(page.blocks)
    shown = said(section(page, "withdrawn"))
    assert "Report of fenwick" in shown
    assert "retracted on 2025-05-04" in shown


def test_animals_stand_in_a_lane_of_their_own():
    page = page_of(MARLOW | report("vale2020", RATE, *PASSAGES, study="dogs", species="animal"))
    assert "Vale 2020" not in said(section(page, "findings"))
    assert "they may explain, they do not count" in said(section(page, "not-people"))


def test_pairs_stay_pairs():
    pairs = (
        "- {id: twice, question: hole, outcome: healed, where: 'p. 5', follow_up: not reported, "
        "pairs: {a: film, b: volume, both: 28, only_a: 8, only_b: 1, neither: 3}}"
    )
    passage = "[p. 5] healed on both film and volume 28, on film only 8, on volume only 1, on neither 3"
    page = page_of(report("marlow2019", pairs, passage))
    assert [figure.value for figure in figures(section(page, "pairs")).values()] == ["28", "8", "1", "3"]


def test_percentage_without_its_counts_stays_in_its_passage():
    claims = (
        f"- {{id: all, question: hole, outcome: healed, rate: 84%, events: not reported, total: not reported, "
        f"where: 'p. 3', follow_up: {AT}}}"
    )
    page = page_of(report("marlow2019", claims, TIME, "[p. 3] 84% healed"))
    assert "84%" not in said(page.blocks)


def test_share_when_last_seen_gives_way_to_an_estimate_of_the_same_study():
    last = (
        "- {id: last, question: hole, outcome: kept, events: 39, total: 47, where: 'p. 3', follow_up: "
        "{from: repair, timing: last recall}}\n"
        "- {id: ten, question: hole, outcome: kept, where: 'p. 4', follow_up: not applicable, estimate: "
        "{kind: survival, at: 10 years, value: 71%, starting: 58, at_risk: 21, from: repair}}"
    )
    passages = ("[p. 3] 39 of 47 teeth", "[p. 4] of 58 teeth 71% at 10 years, 21 at risk")
    shown = said(section(page_of(report("marlow2019", last, *passages)), "findings"))
    assert "39 of 47" not in shown
    assert "71%" in shown


def test_version_can_be_cited_as_a_sentence_and_as_bibtex():
    texts = [block.text for block in walk(page_of(MARLOW).blocks) if isinstance(block, Raw)]
    assert texts[0] == (
        "Fenwick Graduate Endodontics. Hard questions: There is a hole. Release 1.2.0, evidence to 2026-10-30. "
        "Page hole/conference/ of https://example.org/fenwick/guide. [invented for demonstration]"
    )
    assert texts[1].startswith("@misc{fenwick-graduate-endodontics-hole,")


def test_bibtex_of_this_version_is_read_by_a_library():
    import bibtexparser

    text = next(
        block.text for block in walk(page_of(MARLOW).blocks) if isinstance(block, Raw) and "@misc" in block.text
    )
    library = bibtexparser.parse_string(text)
    assert not library.failed_blocks
    assert library.entries[0]["version"] == "1.2.0"


def test_question_without_reports_has_a_page():
    assert "This guide has no report about people for this question." in said(page_of({}).blocks)


def test_no_id_of_a_file_stands_where_a_reader_expects_a_name() -> None:
    built = demo_built()
    assert built.guide is not None
    studies = {study.id.text for made in demo_evidence().reports.values() for study in made.studies}
    for question in ("exposed-pulp", "root-perforation", "broken-instrument"):
        found = said(built.guide.pages[f"{question}/conference/"])
        assert not [name for name in studies if re.search(rf"(?<![\w/-]){re.escape(name)}(?![\w/-])", found)]
        assert not re.search(r"\b[a-z]+\d{4}[a-z]*/[a-z]", found)
    found = said(built.guide.pages["exposed-pulp/conference/"])
    assert "taken over from Jörneby 2019, counted there" in found
    assert "Ilvermark 2014, Ilvermark 2022: the same patients (Brackwater, 2005 to 2009)" in found
    assert "includes the patients of Jörneby 2019" in found


POOLED = """
- id: pooled
  question: hole
  factor: size
  known_at: before
  outcome: healed
  reference: up to 3 mm
  contrast: {measure: risk ratio, event: healed, event_is: good, level: over 3 mm, reference: up to 3 mm, value: 0.61,
    interval: 0.44 to 0.83, adjusted_for: none}
  pooled: {studies: 6, of: 743, model: random effects}
  where: p. 4
  follow_up: not reported
"""
REVIEW = report(
    "tern2023", POOLED, "[p. 4] healed, over 3 mm against up to 3 mm: risk ratio 0.61 (95% CI 0.44 to 0.83), 6 studies,"
    " 743 teeth", study="tern",
)  # fmt: skip
REVIEW["claims/tern2023.yaml"] = (
    REVIEW["claims/tern2023.yaml"]
    .replace("design: cohort", "design: review")
    .replace("selection: consecutive", "selection: not applicable\n    includes: [fenwick]")
)
GONE = {"status.yaml": "marlow2019: {state: retracted, on: 2026-10-20, by: hand}\n"}


def test_pool_of_a_review_that_includes_a_withdrawn_report_decides_nothing_and_says_so():
    shown = said(section(page_of(MARLOW | REVIEW | GONE), "findings"))
    assert "fewer healed; this decides nothing: the review includes a withdrawn report" in shown
    assert "over 6 studies; the review includes a withdrawn report and does not say what it finds without it" in shown
    assert "more than chance" not in shown


def test_pool_of_a_review_whose_reports_all_stand_is_told_by_its_interval():
    shown = said(section(page_of(MARLOW | REVIEW), "findings"))
    assert "fewer healed, more than chance alone usually gives" in shown
    assert "withdrawn" not in shown


def test_demo_leans_on_no_pool_that_may_hold_the_withdrawn_trial():
    built = demo_built()
    assert built.guide is not None
    found = 0
    for address in ("exposed-pulp/conference/", "exposed-pulp/pulp-treatment/", "sources/orvandrup2023review/"):
        text = said(built.guide.pages[address])
        for place in re.finditer("pooled by the review", text, re.IGNORECASE):
            found += 1
            assert "includes a withdrawn report" in text[place.start() : place.start() + 110]
    assert found >= 4
    shown = said(built.guide.pages["exposed-pulp/conference/"])
    assert "pulp not kept healthy less often; this decides nothing: the review includes a withdrawn report" in shown


def test_a_row_says_once_how_far_a_report_was_read():
    built = demo_built()
    assert built.guide is not None
    shown = said(built.guide.pages["exposed-pulp/conference/"])
    assert "read in part; read in part" not in shown
    assert "read in part: part" not in shown
    assert "also Orvandrup 2023, read in part" in shown
