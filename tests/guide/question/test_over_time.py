"""The time line of a question's rates: by definition, at their times, with what supersedes and what is not known."""

from __future__ import annotations

import pytest
from guide.cohorts import at, catalogue, cohort, five, last_seen
from guide.compendium import html_of, nothing_named, report, said
from passageproof.guide.question.over_time import over_time_page
from passageproof.results.findings.findings import Catalogue
from passageproof.results.values.document import Details, Page, Section, StudyRow, StudyRows, Table, walk
from passageproof.results.values.drawings import TimePlot


def page(made: Catalogue) -> Page:
    return over_time_page(made, made.evidence.questions["hole"], nothing_named)


def section(found: Page, anchor: str) -> Section | Details:
    return next(item for item in walk(found.blocks) if isinstance(item, (Section, Details)) and item.anchor == anchor)


def plot(found: Page) -> TimePlot:
    return next(item for item in walk(found.blocks) if isinstance(item, TimePlot))


def rows(found: Page, label: str) -> tuple[StudyRow, ...]:
    """The rows of all lists whose label begins so."""
    lists = [item for item in walk(found.blocks) if isinstance(item, StudyRows) and item.label.startswith(label)]
    return tuple(row for item in lists for row in item.rows)


def curve(
    key: str, months: int, at_risk: int, *, study: str, outcome: str = "healed", start: str = "repair"
) -> dict[str, str]:
    """One estimate at a time."""
    claim = (
        f"- {{id: curve, question: hole, outcome: {outcome}, where: 'p. 3', follow_up: not applicable, "
        f"estimate: {{kind: survival, at: {months} months, value: 71%, starting: 85, at_risk: {at_risk}, from: {start}}}}}"
    )
    passage = f"[p. 3] 71% at {months} months, 85 at the start, {at_risk} at risk"
    return report(key, claim, passage, study=study, described=study == key)


def test_one_drawing_a_definition_the_first_open_each_other_one_a_tap_away():
    made = catalogue(cohort("arden2011", 40, 50), cohort("bexley2012", 48, 50, outcome="kept"))
    found = page(made)
    assert isinstance(section(found, "by-healed"), Section)
    kept = section(found, "by-kept")
    assert isinstance(kept, Details)
    assert not kept.is_open
    for anchor in ("by-healed", "by-kept"):
        inner = section(found, anchor).blocks
        assert sum(isinstance(item, TimePlot) for item in inner) == 1
        assert not any(isinstance(item, (StudyRows, Table)) for item in inner)


def test_a_rate_at_a_time_is_a_dot_with_its_interval():
    # Wilson 1927, as in Newcombe 1998, Stat Med 17:857-872, method 3; recomputed with statsmodels: 40/50 0.6696 to 0.8876.
    found = plot(page(catalogue(cohort("arden2011", 40, 50))))
    (point,) = found.points
    assert (point.at, point.share) == (24.0, 80.0)
    assert (point.low, point.high) == (pytest.approx(66.96, abs=0.005), pytest.approx(88.76, abs=0.005))
    assert not (found.brackets)
    assert not (found.spans)
    assert not (found.steps)


def test_a_bad_event_is_drawn_by_those_still_without_it():
    (point,) = plot(page(catalogue(cohort("arden2011", 10, 50, outcome="lost")))).points
    assert point.share == 80.0
    assert point.low is not None
    assert point.low < 80


def test_several_at_one_time_are_a_bracket_that_says_how_many():
    found = page(catalogue(*five()))
    (bracket,) = plot(found).brackets
    assert not plot(found).points
    assert (bracket.at, said(bracket.label)) == (24.0, "5 studies")
    assert (bracket.low, bracket.high) == (pytest.approx(7400 / 94), pytest.approx(5000 / 58))
    text = said(section(found, "by-healed"))
    assert "At 24 months: 5 studies, from 74 of 94 teeth to 50 of 58 teeth." in text
    assert len(rows(found, "Over time")) == 5


def test_a_rate_when_last_seen_is_a_span_below_the_axis_with_its_median():
    time = (
        "{from: repair, timing: last recall, minimum: 12 months, median: 31 months, maximum: 60 months, where: 'p. 2'}",
        "[p. 2] last recall 12 to 60 months (median 31 months)",
    )
    found = plot(page(catalogue(cohort("arden2011", 40, 50, time=time))))
    (span,) = found.spans
    assert (span.low, span.middle, span.high) == (12.0, 31.0, 60.0)
    assert said(span.label) == "Arden 2011: 40 of 50"
    assert not found.points


def test_a_long_name_is_cut_in_drawing_and_list_and_whole_where_the_row_is_opened():
    files = cohort("arden2011", 40, 50, time=last_seen())
    name = "{Society for the Keeping of Teeth}"
    files["sources/arden2011.bib"] = files["sources/arden2011.bib"].replace("{Arden, Ada}", "{" + name + "}")
    found = page(catalogue(files))
    assert said(plot(found).spans[0].label) == "Society for the Keeping…: 40 of 50"
    (row,) = rows(found, "Over time")
    assert row.name == "Society for … 2011"
    assert "Report: Society for the Keeping of Teeth 2011" in said(row.opened)


def test_a_rate_by_a_time_is_a_span_from_the_start():
    by = ("{from: repair, timing: by, at: 12 months, where: 'p. 2'}", "[p. 2] by 12 months")
    (span,) = plot(page(catalogue(cohort("arden2011", 40, 50, time=by)))).spans
    assert (span.low, span.high) == (0.0, 12.0)


def test_a_time_met_too_loosely_is_no_point():
    found = plot(page(catalogue(cohort("arden2011", 40, 50, time=at(24, 8)))))
    assert (len(found.points), len(found.spans)) == (0, 1)


def test_an_estimate_is_drawn_with_those_at_risk_and_broken_below_ten():
    made = catalogue(curve("arden2011", 60, 10, study="arden2011"), curve("bexley2012", 60, 9, study="bexley2012"))
    steps = plot(page(made)).steps
    assert [(made.name, made.thin_from) for made in steps] == [("Arden", 1), ("Bexley", 0)]
    assert [said(number) for _, number in steps[1].followed] == ["85", "9"]
    assert [point.share for point in steps[0].points] == [71.0]


def test_a_superseded_rate_is_marked_so_and_not_drawn():
    later = cohort("bexley2019", 45, 60, study="arden2011", described=False, flow=(60, 60))
    found = page(catalogue(cohort("arden2011", 40, 50, flow=(80, 50)), later))
    assert [point.share for point in plot(found).points] == [75.0]
    told = {row.name: said(row.said) for row in rows(found, "Over time")}
    assert told["Arden 2011"].endswith("superseded by Bexley 2019")
    assert "superseded" not in told["Bexley 2019"]
    assert "superseded: the same patients are counted by Bexley 2019" in said(section(found, "by-healed"))


def test_a_rate_without_a_time_stands_in_a_list_of_its_own():
    found = page(
        catalogue(cohort("arden2011", 40, 50), cohort("bexley2012", 30, 40, time=("not reported", "[p. 2] no time")))
    )
    assert [row.name for row in rows(found, "Without a time")] == ["Bexley 2012"]
    assert [row.name for row in rows(found, "Over time")] == ["Arden 2011"]


def test_where_knowledge_ends_is_said_in_words():
    text = said(section(page(catalogue(cohort("arden2011", 40, 50))), "by-healed"))
    assert (
        "The latest stated time is 24 months; later than that: none in people in this guide, searched 2026-09-12."
        in text
    )


def test_the_recall_plan_beyond_the_evidence_is_named():
    asked = (
        "id: hole\ntitle: A hole\nrecall: {from: treatment, visits: [12 months, 10 years], record: [a], failing: [b]}\n"
    )
    text = said(section(page(catalogue(cohort("arden2011", 40, 50), question=asked)), "by-healed"))
    assert "The recall plan goes on to 10 years." in text


def test_without_a_stated_time_that_is_said():
    text = said(section(page(catalogue(cohort("arden2011", 40, 50, time=last_seen()))), "by-healed"))
    assert "No rate here belongs to one stated time" in text


def test_a_reversal_stands_beside_the_rate_it_takes_back():
    claim = (
        "- {id: lost, question: hole, outcome: lost, where: 'p. 3', follow_up: not applicable, "
        "estimate: {kind: cumulative incidence, at: 10 years, value: 30%, from: healing}}"
    )
    later = report("bexley2022", claim, "[p. 3] 30% at 10 years", study="arden2011", described=False)
    text = said(section(page(catalogue(cohort("arden2011", 40, 50), later)), "by-healed"))
    assert "Early is not lasting: what the same studies found later" in text
    assert "30%" in text


def test_a_crude_share_of_a_study_with_an_estimate_is_called_crude():
    later = curve("bexley2019", 60, 21, study="arden2011")
    text = said(section(page(catalogue(cohort("arden2011", 40, 50, time=last_seen()), later)), "by-healed"))
    assert "crude share when last seen; the estimate at a time says more" in text


def test_what_the_time_counts_from_is_said():
    assert "Time counts from repair." in said(section(page(catalogue(cohort("arden2011", 40, 50))), "by-healed"))


def test_a_pool_stands_with_its_time():
    text = said(page(catalogue(*five())).blocks[0])
    assert text.startswith("healed: at 24 months, the typical study: 83.3%")


def test_bounds_of_a_pool_take_all_unseen_one_way_and_the_other():
    files = [
        cohort(f"arden{2011 + index}", events, total, flow=(total + 8, total))
        for index, (events, total) in enumerate(((60, 72), (50, 58), (94, 110), (74, 94), (55, 66)))
    ]
    text = said(section(page(catalogue(*files)), "by-healed"))
    assert "nobody who was not seen had it" in text
    assert "everybody who was not seen had it" in text


def test_a_threshold_fixed_beforehand_is_printed_with_its_day():
    asked = "id: hole\ntitle: A hole\nthresholds: [{outcome: healed, at: 24 months, at_least: 80%, agreed: 2026-09-01, by: IM}]\n"
    text = said(section(page(catalogue(cohort("arden2011", 40, 50), question=asked)), "by-healed"))
    assert "at least 80% at 24 months, on 2026-09-01 by Ines Marlow." in text


def test_a_report_that_prints_two_totals_is_shown_with_its_reason_and_never_pooled():
    claim = (
        "- {id: all, question: hole, outcome: healed, events: 31, total: {candidates: [41, 44], reason: methods and "
        "summary differ}, "
        f"where: 'p. 3', follow_up: {at()[0]}}}"
    )
    made = catalogue(report("arden2011", claim, at()[1], "[p. 3] 31 healed; 41 or 44 examined"))
    text = said(section(page(made), "by-healed"))
    assert "31 of 41 or 44 teeth" in text
    assert "never pooled, since the report prints more than one total: methods and summary differ" in text


def test_nothing_known_is_an_answer():
    assert said(page(catalogue()).blocks[0]) == "none in people in this guide, searched 2026-09-12"


def test_another_order_of_reports_gives_the_same_page():
    assert html_of(page(catalogue(*five()))) == html_of(page(catalogue(*reversed(five()))))


RECALL = """\
id: hole
title: There is a hole
recall: {from: treatment, visits: [6 months, 60 months], record: [film], failing: [swelling]}
"""


def test_early_evidence_alone_leaves_blank_as_far_as_the_recall_plan_goes():
    found = page(catalogue(cohort("arden2011", 40, 50), question=RECALL))
    assert (plot(found).known_to, plot(found).last) == (24.0, 60.0)
    assert "The latest stated time is 24 months; later than that: none in people in this guide" in said(found)
    assert "nothing known" in html_of(found)


def test_a_scale_never_ends_with_what_is_known():
    found = plot(page(catalogue(cohort("arden2011", 40, 50, time=at(60)))))
    assert found.known_to == 60
    # Room for the words that say so.
    assert found.last >= 60 / 0.72


def test_without_any_stated_time_nothing_is_known_on_the_whole_scale():
    assert plot(page(catalogue(cohort("arden2011", 40, 50, time=last_seen())))).known_to == 0


def test_a_last_seen_span_does_not_close_the_gap():
    found = plot(page(catalogue(cohort("arden2011", 40, 50), cohort("bexley2012", 40, 50, time=last_seen(12, 96)))))
    assert (found.known_to, found.last) == (24.0, 96.0)


def test_no_percentage_stands_in_the_drawing_or_its_list_without_its_counts():
    files = cohort("arden2011", 40, 50, time=last_seen())
    claims, source = files["claims/arden2011.yaml"], files["sources/arden2011.bib"]
    files["claims/arden2011.yaml"] = claims.replace(
        "events: 40, total: 50", "events: not reported, total: not reported, success_rate: 80%"
    )
    files["sources/arden2011.bib"] = source.replace("40 of 50 teeth", "80% were healed")
    found = page(catalogue(files))
    assert not any(isinstance(item, TimePlot) for item in walk(found.blocks))
    (row,) = rows(found, "Over time")
    assert (said(row.said), row.point) == ("counts not reported", None)


def test_of_those_not_seen_an_estimate_says_once_for_all():
    found = page(catalogue(curve("arden2011", 24, 50, study="arden2011"), curve("vale2020", 24, 41, study="vale2020")))
    lists = [item for item in walk(found.blocks) if isinstance(item, StudyRows)]
    assert [said(item.caption).count("those not seen count until they were lost") for item in lists] == [1]
    for row in lists[0].rows:
        assert "counted from repair" in said(row.opened)
        assert "not seen" not in said(row.opened)
        assert "Interval: not reported" in said(row.opened)


def test_a_row_has_its_counts_in_the_first_line_and_their_share_in_the_second():
    found = page(catalogue(cohort("arden2011", 40, 50), curve("vale2020", 24, 41, study="vale2020")))
    told = {row.name: (said(row.first), said(row.said)) for row in rows(found, "Over time")}
    assert told["Arden 2011"] == ("24 months · 40 of 50", "teeth")
    assert told["Vale 2020"] == ("24 months · 41 of 85 at risk", "teeth: 71% still so")


def test_a_middle_time_stands_in_the_row_without_the_words_around_it():
    time = (
        "{from: repair, timing: last recall, minimum: 12 months, median: 31 months, maximum: 60 months, where: 'p. 2'}",
        "[p. 2] last recall 12 to 60 months (median 31 months)",
    )
    (row,) = rows(page(catalogue(cohort("arden2011", 40, 50, time=time))), "Over time")
    assert said(row.first) == "median 31 months · 40 of 50"
    assert "When: when last seen, 12 to 60 months after repair" in said(row.opened)
