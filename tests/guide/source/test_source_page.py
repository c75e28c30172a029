"""The page of a source: what was printed, what is proved in it, who read it, and what a withdrawal leaves."""

from __future__ import annotations

import re
from html import unescape

import pytest
from guide.cohorts import catalogue, cohort, joint
from guide.compendium import catalogue_of, figures, html_of, nothing_named, report, said
from passageproof.guide.source.source_page import source_page
from passageproof.guide.source.sources_index import UNUSED, sources_page
from passageproof.results.findings.authors import names_of
from passageproof.results.findings.findings import Catalogue
from passageproof.results.saying.titles import study_name
from passageproof.results.values.document import Details, Filter, Marks, Page, PassageText, walk

QUESTION = {"questions/hole.yaml": "id: hole\ntitle: There is a hole\n"}
SEEN = "{from: repair, timing: last recall, minimum: 12 months, median: 31 months, maximum: 60 months, where: 'p. 2'}"
TIMES = "[p. 2] last recall 12 to 60 months (median 31)"
OVERALL = f"""
- {{id: all, question: hole, outcome: healed, events: 39, total: 47, success_rate: 83%, where: 'p. 3',
   follow_up: {SEEN}}}
"""
MARLOW = report("marlow2019", OVERALL, TIMES, "[p. 3] healed: 39 of 47 teeth (83%)")


def page_of(files: dict[str, str], key: str = "marlow2019") -> Page:
    return source_page(catalogue_of(files | QUESTION), key, nothing_named)


def text_of(page: Page) -> str:
    """The page as it is read: cells and lines apart by a blank, links and marks within their words."""
    parted = re.sub(r"</(td|th|dt|dd|p|li|caption|h\d)>", " ", html_of(page))
    return " ".join(unescape(re.sub(r"<[^>]+>", "", parted)).split())


def marks_of(page: Page) -> list[Marks]:
    return [item for item in walk(page.blocks) if isinstance(item, Marks)]


def test_every_proved_figure_of_the_report_stands_on_its_page() -> None:
    catalogue = catalogue_of(MARLOW | QUESTION)
    shown = figures(source_page(catalogue, "marlow2019", nothing_named).blocks)
    assert set(shown) == set(catalogue.audit.proofs)


def test_proved_number_is_marked_where_it_stands_in_the_passage() -> None:
    passage = next(
        item for item in walk(page_of(MARLOW).blocks) if isinstance(item, PassageText) and item.anchor == "p-3"
    )
    assert [passage.text[mark.start : mark.end] for mark in passage.marks] == ["39", "47", "83%"]


def test_two_claims_that_quote_one_number_share_one_mark() -> None:
    again = OVERALL + OVERALL.replace("id: all", "id: again").replace(SEEN, "all")
    page = page_of(report("marlow2019", again, TIMES, "[p. 3] healed: 39 of 47 teeth (83%)"))
    shared = [mark for mark in marks_of(page) if len(mark.figures) == 2]
    assert {figure.id for mark in shared for figure in mark.figures} >= {
        "marlow2019/all/events",
        "marlow2019/again/events",
    }


def test_words_that_hold_a_number_stand_beside_who_read_it_so() -> None:
    assert "Read in these words" not in text_of(page_of(MARLOW))
    quoted = OVERALL.replace("events: 39", "in_words: ['healed: 39 of', '47 teeth (83%)'], as: healed, events: 39")
    shown = text_of(page_of(report("marlow2019", quoted, TIMES, "[p. 3] healed: 39 of 47 teeth (83%)")))
    assert "In the paper's words “healed”" in shown
    assert (
        "Read in these words “healed: 39 of ... 47 teeth (83%)”, so read by Ines Marlow, re-read by nobody yet" in shown
    )


def test_marked_number_of_a_passage_leads_nowhere() -> None:
    html = html_of(page_of(MARLOW))
    block = html[html.index('<div id="p-3">') :]
    assert "<a " not in block[: block.index("</div>")]


@pytest.mark.parametrize(
    ("status", "expected", "kind"),
    [
        ("{state: none found, on: 2026-10-20, by: hand}", "none found on 2026-10-20", "clean"),
        (
            "{state: corrected, on: 2026-10-20, by: hand, notice: {doi: 10.5555/x.1, on: 2020-01-02}}",
            "corrected",
            "flagged",
        ),
        ("{state: concern, on: 2026-10-20, by: hand}", "expression of concern", "flagged"),
        ("{state: unknown, on: 2026-10-20, by: hand}", "not checked", "unchecked"),
        ("", "not checked", "unchecked"),
    ],
    ids=["none found", "corrected", "concern", "unknown", "no status"],
)
def test_standing_is_one_of_three_states(status: str, expected: str, kind: str) -> None:
    files = MARLOW | ({"status.yaml": f"marlow2019: {status}\n"} if status else {})
    html = html_of(page_of(files))
    assert re.search(rf'<p class="standing {kind}">', html)
    assert expected in re.sub(r"<[^>]+>", "", html)


def test_what_nobody_checked_never_reads_as_clean() -> None:
    assert "none found" not in text_of(page_of(MARLOW))


def test_notice_of_a_correction_is_linked_by_its_doi() -> None:
    status = "marlow2019: {state: corrected, on: 2026-10-20, by: hand, notice: {doi: 10.5555/x.1, on: 2020-01-02}}\n"
    assert 'href="https://doi.org/10.5555/x.1"' in html_of(page_of(MARLOW | {"status.yaml": status}))


RETRACTED = {
    "status.yaml": "marlow2019: {state: retracted, on: 2026-10-20, by: hand, "
    "notice: {doi: 10.5555/x.9, on: 2024-05-06, words: lists were missing}}\n"
}


def test_retracted_report_stays_as_a_notice_without_passages_and_numbers() -> None:
    page = page_of(MARLOW | RETRACTED)
    assert not figures(page.blocks)
    assert not [item for item in walk(page.blocks) if isinstance(item, PassageText)]
    text = text_of(page)
    assert "retracted on 2024-05-06" in text
    assert "83" not in text


def test_title_of_a_retracted_report_says_so_first() -> None:
    # NISO RP-45-2024 (CREC): the title shown for a retracted publication begins with the word.
    assert page_of(MARLOW | RETRACTED).title.startswith("Retracted: ")


def test_retracted_page_names_what_leaned_on_it() -> None:
    question = "id: hole\ntitle: There is a hole\nanswer: Most had healed ($marlow2019/all).\n"
    catalogue = catalogue_of(MARLOW | RETRACTED | {"questions/hole.yaml": question})
    text = text_of(source_page(catalogue, "marlow2019", nothing_named))
    assert "There is a hole: the answer (evidence/questions/hole.yaml:3)" in text


def test_source_without_a_claim_file_is_not_read_yet() -> None:
    files = {"sources/tove2020.bib": MARLOW["sources/marlow2019.bib"].replace("marlow2019", "tove2020")}
    page = page_of(MARLOW | files, "tove2020")
    assert "Not read yet" in text_of(page)
    assert [item.anchor for item in walk(page.blocks) if isinstance(item, PassageText)] == ["p-1-methods", "p-2", "p-3"]
    assert not figures(page.blocks)


def test_report_that_one_person_read_says_so_once_and_what_a_mark_is() -> None:
    said = text_of(page_of(report("marlow2019", OVERALL + LEVELS, TIMES, "[p. 3] healed: 39 of 47 teeth (83%)", SIZES)))
    assert said.count("read by Ines Marlow on 2026-02-03, re-read by nobody yet") == 1
    assert said.count("Ines Marlow") == 2, "who read it, and the interests"
    assert said.count("agrees with the passage typed from the place in bold") == 1


def test_what_all_claims_share_is_said_once_above_them() -> None:
    page = page_of(report("marlow2019", OVERALL + LEVELS, TIMES, "[p. 3] healed: 39 of 47 teeth (83%)", SIZES))
    said = text_of(page)
    assert said.count("when last seen, 12 to 60 months (median 31 months) after repair") == 1
    assert said.count("For the question There is a hole") == 1
    assert said.count("normal space, by film, by the stricter definition; good for the patient") == 1
    claims = [item for item in walk(page.blocks) if isinstance(item, Details) and item.kind == "claim"]
    assert [(item.summary, item.locator, item.anchor) for item in claims] == [
        ("healed", "p. 3", "claim-all"),
        ("healed, by Size of the hole", "p. 5", "claim-by-size"),
    ]


def test_what_claims_do_not_share_stands_at_each() -> None:
    levels = LEVELS.replace(SEEN, "not reported").replace("question: hole", "question: other")
    files = report("marlow2019", OVERALL + levels, TIMES, "[p. 3] healed: 39 of 47 teeth (83%)", SIZES)
    said = text_of(page_of(files | {"questions/other.yaml": "id: other\ntitle: There is another\n"}))
    assert "When when last seen, 12 to 60 months (median 31 months) after repair" in said
    assert "When not reported" in said
    assert "For the question There is a hole" in said
    assert "For the question There is another" in said


def test_each_number_stands_in_its_passage_and_in_its_claim_and_in_no_list_of_its_own() -> None:
    shown = re.findall(r'data-figure="marlow2019/all/events"', html_of(page_of(MARLOW)))
    assert len(shown) == 2


def test_second_reader_is_named_with_the_day() -> None:
    claim_file = MARLOW["claims/marlow2019.yaml"].replace("studies:", "checked: {by: TO, on: 2026-02-10}\nstudies:")
    text = text_of(page_of(MARLOW | {"claims/marlow2019.yaml": claim_file}))
    assert "re-read by Tam Okafor on 2026-02-10" in text
    assert "nobody yet" not in text


def test_percentage_without_counts_stays_in_its_passage() -> None:
    claims = (
        "- {id: few, question: hole, outcome: healed, events: not reported, total: not reported, success_rate: 86%, "
    )
    page = page_of(report("marlow2019", claims + "where: 'p. 4', follow_up: not reported}", "[p. 4] 86% had healed"))
    finding = next(block for block in walk(page.blocks) if getattr(block, "kind", "") == "finding")
    assert "86" not in said(finding)
    assert "counts not reported" in said(finding)


def test_all_of_all_is_printed_as_counts_alone() -> None:
    claims = "- {id: all, question: hole, outcome: healed, events: 16, total: 16, success_rate: 100%, where: 'p. 4', "
    page = page_of(report("marlow2019", claims + "follow_up: not reported}", "[p. 4] 16 of 16 teeth healed (100%)"))
    finding = next(block for block in walk(page.blocks) if getattr(block, "kind", "") == "finding")
    assert "16 of 16 teeth" in said(finding)
    assert "100" not in said(finding)


LEVELS = f"""
- id: by-size
  question: hole
  factor: size
  known_at: before
  outcome: healed
  reference: up to 3 mm
  differ_in: [age]
  levels:
    - {{level: up to 3 mm, events: 32, total: 35, success_rate: 91%}}
    - {{level: over 3 mm, events: 7, total: 12, success_rate: 58%, direction: worse}}
  where: p. 5
  follow_up: {SEEN}
"""
SIZES = "[p. 5] age differed; up to 3 mm: 32 of 35 healed (91%); over 3 mm: 7 of 12 (58%)"


def test_levels_stand_with_their_reference_and_the_page_of_the_factor_says_which_way() -> None:
    text = text_of(page_of(report("marlow2019", LEVELS, TIMES, SIZES)))
    assert "up to 3 mm, the reference 32 of 35 teeth (91%) over 3 mm 7 of 12 teeth (58%)" in text
    assert "Groups differed at the start in age" in text
    assert "Compared by Size of the hole, known before treatment" in text
    assert "counts by level are crude" in text
    assert "fewer" not in text


def test_a_level_in_words_only_says_which_way() -> None:
    claims = """
    - id: words
      question: hole
      factor: size
      known_at: before
      outcome: healed
      reference: up to 3 mm
      levels: [{level: over 3 mm, direction: worse, stated: words only}]
      where: p. 6
      follow_up: not reported
    """
    passage = "[p. 6] holes over 3 mm did worse than those up to 3 mm"
    assert "over 3 mm worse, in words only" in text_of(page_of(report("marlow2019", claims, passage)))


def test_claim_by_a_factor_leads_to_the_factor_page() -> None:
    html = html_of(page_of(report("marlow2019", LEVELS, TIMES, SIZES)))
    assert 'href="../../hole/size/"' in html


def test_p_value_stands_on_the_page_of_its_report() -> None:
    claims = """
    - id: ratio
      question: hole
      factor: size
      known_at: before
      outcome: healed
      reference: up to 3 mm
      contrast: {measure: odds ratio, event: healed, event_is: good, level: over 3 mm, reference: up to 3 mm,
        value: 0.31, interval: 0.12 to 0.83, p: .02, adjusted_for: [age]}
      where: p. 6
      follow_up: not reported
    """
    passage = "[p. 6] healed, over 3 mm against up to 3 mm: adjusted OR 0.31 (95% CI 0.12 to 0.83; P = .02)"
    text = text_of(page_of(report("marlow2019", claims, passage)))
    assert "; P = .02." in text


def test_a_level_told_by_grades_alone_points_to_them_and_not_to_what_is_missing() -> None:
    claims = """
    - id: graded
      question: hole
      factor: size
      known_at: before
      outcome: healed
      reference: up to 3 mm
      levels:
        - {level: up to 3 mm, total: 30, grades: [{outcome: healed, events: 20}, {words: uncertain, events: 10}]}
        - {level: over 3 mm, total: 25, grades: [{outcome: healed, events: 11}, {words: uncertain, events: 14}]}
      where: p. 6
      follow_up: not reported
    """
    passage = "[p. 6] up to 3 mm, 30 teeth: healed 20, uncertain 10; over 3 mm, 25 teeth: healed 11, uncertain 14"
    text = text_of(page_of(report("marlow2019", claims, passage)))
    assert "over 3 mm by grade, in the table below, of 25 teeth" in text
    assert "how many not reported" not in text


def test_pairs_are_shown_as_they_pair() -> None:
    claims = """
    - id: film-and-volume
      question: hole
      outcome: healed
      pairs: {a: film, b: volume, both: 28, only_a: 8, only_b: 1, neither: 3}
      where: p. 7
      follow_up: not reported
    """
    passage = "[p. 7] film and volume in 40 teeth: on both 28, on film only 8, on volume only 1, on neither 3"
    text = text_of(page_of(report("marlow2019", claims, passage)))
    assert re.search(r"film: yes\s+28\s+8", text)
    assert re.search(r"film: no\s+1\s+3", text)


def test_names_in_the_files_stand_in_one_closed_part_at_the_foot_and_nowhere_else() -> None:
    page = page_of(report("marlow2019", OVERALL, TIMES, "[p. 3] healed: 39 of 47 teeth (83%)"))
    last = page.blocks[-1]
    assert isinstance(last, Details)
    assert (last.anchor, last.is_open) == ("names", False)
    shown = "".join(map(said, page.blocks[:-1]))
    for name in ("$marlow2019/all", "fenwick"):
        assert name in said(last)
        assert name not in shown.replace("Report of fenwick", "")


@pytest.mark.parametrize(("centre", "name"), [("Fenwick clinic", "Fenwick clinic"), ("not reported", "Marlow")])
def test_a_study_is_called_by_where_it_was_done_else_by_who_describes_it(centre: str, name: str) -> None:
    made = report("marlow2019", OVERALL, TIMES, "[p. 3] healed: 39 of 47 teeth (83%)")
    setting = f"setting: {{operators: staff, centre: {centre}}}"
    made["claims/marlow2019.yaml"] = re.sub(r"setting: .*", setting, made["claims/marlow2019.yaml"])
    assert study_name(catalogue_of(made | QUESTION), "fenwick") == name


def test_reports_of_the_same_people_name_each_other() -> None:
    later = report("okafor2023", OVERALL.replace("id: all", "id: later"), TIMES, "[p. 3] healed: 39 of 47 teeth (83%)",
                   described=False)  # fmt: skip
    catalogue = catalogue_of(MARLOW | later | QUESTION)
    first = text_of(source_page(catalogue, "marlow2019", nothing_named))
    second = text_of(source_page(catalogue, "okafor2023", nothing_named))
    assert "Okafor 2023: the same people, counted once." in first
    assert "counted from Okafor 2023 instead" in first
    assert "counts in place of healed of Marlow 2019" in second


def test_rate_that_was_taken_back_names_the_report_that_does() -> None:
    # As in print: healed at one or two years, and 62% of it lost again at 14 (Gorni et al. 2022, J Endod).
    claims = """
    - id: lost
      question: hole
      outcome: lost
      estimate: {kind: cumulative incidence, at: 5 years, value: 29%, interval: 15% to 45%, starting: 39,
        from: healing}
      where: p. 8
      follow_up: not applicable
    """
    passage = "[p. 8] of 39 healed teeth 29% lost it at 5 years (95% CI 15% to 45%)"
    later = report("okafor2023", claims, passage, described=False)
    page = source_page(catalogue_of(MARLOW | later | QUESTION), "marlow2019", nothing_named)
    assert "What became of it later healing lost in Okafor 2023" in text_of(page)
    assert 'href="../../sources/okafor2023/#claim-lost"' in html_of(page)


def test_every_report_that_counts_patients_of_a_joint_one_is_named_and_says_so_itself() -> None:
    # One patient counted once is our rule (no published source).
    made = catalogue(cohort("arden2011", 60, 72, flow=(75, 72)), cohort("bexley2012", 50, 58, flow=(80, 58)), joint())
    page = source_page(made, "fowey2019", nothing_named)
    assert ": counted from Arden 2011 and Bexley 2012 instead (" in text_of(page)
    for key in ("arden2011", "bexley2012"):
        assert f'href="../../sources/{key}/#claim-all"' in html_of(page)
        own = text_of(source_page(made, key, nothing_named))
        assert ": counts in place of " in own, key
        assert " of Fowey 2019." in own, key


def test_quoted_figure_names_both_reports() -> None:
    claims = OVERALL.replace("- {", "- {quotes: marlow2019/all, ").replace("id: all", "id: taken")
    review = report("tove2024", claims, TIMES, "[p. 3] healed: 39 of 47 teeth (83%)", described=False)
    catalogue = catalogue_of(MARLOW | review | QUESTION)
    assert "quoted from Marlow 2019 (its own claim) by Tove 2024; counted once" in text_of(
        source_page(catalogue, "tove2024", nothing_named)
    )
    assert "quoted from Marlow 2019 by Tove 2024" in text_of(source_page(catalogue, "marlow2019", nothing_named))


def test_answered_question_stands_with_its_reason_and_name() -> None:
    claims = """
    - id: odd
      question: hole
      outcome: healed
      events: not reported
      total: 26
      success_rate: 29%
      where: p. 9
      follow_up: not reported
      acknowledged: [{rule: percent-impossible, printed: 29% of 26, by: IM, reason: five teeth are left out}]
    """
    html = html_of(page_of(report("marlow2019", claims, "[p. 9] 29% of 26 teeth had healed")))
    assert "five teeth are left out (Ines Marlow)" in re.sub(r"<[^>]+>", "", html)
    assert 'href="../../contribute/#rule-percent-impossible"' in html


def test_animals_are_said_to_be_animals() -> None:
    dogs = report("tove2006", OVERALL, TIMES, "[p. 3] healed: 39 of 47 teeth (83%)", study="dogs", species="animal")
    assert "Not people: it may explain, it does not count." in text_of(page_of(dogs, "tove2006"))


ENTRY = "@article{{bare2020, title = {{A title}}{rest}, annotation = {{[p. 3] nothing}}}}\n"


def entry_page(rest: str) -> Page:
    return page_of({"sources/bare.bib": ENTRY.format(rest=rest)}, "bare2020")


def test_missing_parts_of_a_reference_are_said() -> None:
    text = text_of(entry_page(""))
    assert "author not reported. A title. journal not reported year not reported." in text
    for name in ("DOI", "Volume", "Pages"):
        assert f"{name} not reported" in text


def test_online_first_is_said_where_there_is_no_volume() -> None:
    text = text_of(
        entry_page(", author = {Tove, Ada}, journal = {Annals}, date = {2021-11}, pubstate = {prepublished}")
    )
    assert "Annals 2021 (online first)." in text


def test_doi_leads_to_its_resolver_however_it_was_typed() -> None:
    # DOI Handbook: a DOI is shown and linked as https://doi.org/10....
    for typed in ("10.5555/a.1", "https://doi.org/10.5555/a.1", "doi:10.5555/a.1"):
        assert 'href="https://doi.org/10.5555/a.1"' in html_of(entry_page(f", doi = {{{typed}}}"))


def test_address_that_is_no_web_page_is_not_linked() -> None:
    assert "javascript" not in html_of(entry_page(", url = {javascript:alert(1)}"))


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("Marlow, Ines and Okafor, Tam", ("Marlow, Ines", "Okafor, Tam")),
        ("{Board of Teeth and Bones} and Tove, Ada", ("Board of Teeth and Bones", "Tove, Ada")),
        (r"Ravnh{\o}lt, Sigrun", ("Ravnhølt, Sigrun",)),
        ("von der Tove, Ada\n and others", ("von der Tove, Ada", "and others")),
        ("", ()),
    ],
    ids=["two", "body with an and", "accent", "others", "nobody"],
)
def test_names_of_a_field(typed: str, expected: tuple[str, ...]) -> None:
    # BibTeX: names are parted by "and" outside of braces (Patashnik 1988, BibTeXing, section 4).
    assert names_of(typed) == expected


def index_of(catalogue: Catalogue) -> str:
    return text_of(sources_page(catalogue))


def test_index_lists_every_entry_with_standing_and_depth() -> None:
    files = {"sources/tove2020.bib": MARLOW["sources/marlow2019.bib"].replace("marlow2019", "tove2020")}
    text = index_of(catalogue_of(MARLOW | files | QUESTION))
    assert "not checked" in text
    assert "full text" in text
    assert "not read yet" in text


def test_index_puts_a_report_under_each_question_that_uses_it_and_the_others_last() -> None:
    files = {"sources/tove2020.bib": MARLOW["sources/marlow2019.bib"].replace("marlow2019", "tove2020")}
    page = sources_page(catalogue_of(MARLOW | files | QUESTION))
    groups = {item.summary: said(item) for item in walk(page.blocks) if isinstance(item, Details)}
    used, unused = groups
    assert unused == UNUSED
    assert "Marlow 2019" in groups[used]
    assert "not read yet" not in groups[used]
    assert groups[unused].count("not read yet") == 1


def test_index_offers_no_word_that_stands_in_a_title_alone() -> None:
    entry = MARLOW["sources/marlow2019.bib"].replace("Report of fenwick", "An abstract concern in part corrected")
    (words,) = [
        block.words
        for block in walk(sources_page(catalogue_of(MARLOW | {"sources/marlow2019.bib": entry} | QUESTION)).blocks)
        if isinstance(block, Filter)
    ]
    assert words == ("not checked",)


def test_index_says_once_how_most_reports_stand_and_of_each_only_what_differs() -> None:
    status = {"status.yaml": "marlow2019: {state: none found, on: 2026-10-20, by: hand}\n"}
    text = index_of(catalogue_of(MARLOW | QUESTION | status))
    assert text.count("none found on") == 1
    assert text.count("full text") == 1
    retracted = (
        status["status.yaml"]
        .replace("none found", "retracted")
        .replace("by: hand", "by: hand, notice: {on: 2025-05-04}")
    )
    assert "withdrawn: this report was retracted" in index_of(
        catalogue_of(MARLOW | QUESTION | {"status.yaml": retracted})
    )


def test_body_as_author_keeps_its_whole_name_in_the_index() -> None:
    entry = ENTRY.format(rest=", author = {{Board of Invented Safety}}, year = 2016")
    assert "Board of Invented Safety 2016" in index_of(catalogue_of({"sources/bare.bib": entry}))


def test_index_of_an_empty_guide_says_so() -> None:
    assert "No report has been entered yet." in index_of(catalogue_of({}))


def test_search_finds_a_source_by_its_authors_and_title() -> None:
    assert page_of(MARLOW).search == ("Marlow, Ada", "Report of fenwick")


EXPORTED = r"""@article{beek2019tags,
  author = {family=Beek, given=Ada, prefix=van der, useprefix=true and Marlow, Ines},
  title = {Growth of <i>Enterococcus</i> in CO<sub>2</sub> &amp; air},
  subtitle = {a study},
  journal = {Annals of A &amp; B}, year = 2019, volume = 7, pages = {1--12},
  url = {https://doi.org/10.5555/aie.2019.41},
}
@misc{marlow2020site,
  author = {Marlow I, Okafor T.},
  title = {A leaflet}, year = 2020, howpublished = {\url{https://example.org/~marlow/a_b}},
  url = {https://example.org/~marlow/a\_b},
}
"""


def test_an_entry_as_exports_write_it_prints_nothing_raw() -> None:
    files = MARLOW | QUESTION | {"sources/exported.bib": EXPORTED}
    first = text_of(source_page(catalogue_of(files), "beek2019tags", nothing_named))
    assert (
        "van der Beek, Ada; Marlow, Ines. Growth of Enterococcus in CO₂ & air: a study. Annals of A & B 2019;7:1–12."
        in first
    )
    assert "DOI 10.5555/aie.2019.41" in first
    second = text_of(source_page(catalogue_of(files), "marlow2020site", nothing_named))
    assert "Marlow I; Okafor T. A leaflet. https://example.org/~marlow/a_b 2020." in second
    assert "address https://example.org/~marlow/a_b" in second
