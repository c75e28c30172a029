"""One patient counted once, and what pooling asks for."""

from __future__ import annotations

import random

import pytest
from guide.cohorts import at, by_size, catalogue, cohort, five, joint, last_seen
from guide.compendium import report, said
from passageproof.guide.sections.not_counted import superseded_lines
from passageproof.results.findings.comparable import (
    comparability_of,
    count_patients_once,
    reason_not_compared,
    why_not_pooled,
)
from passageproof.results.findings.findings import Catalogue, Finding


def bases(findings: object) -> list[str]:
    return [finding.base for finding in findings]  # type: ignore[attr-defined]


def of(catalogue: Catalogue, *claims: str) -> list[Finding]:
    return [finding for claim in claims for finding in catalogue.of_claim(claim)]


def again(key: str, events: int, total: int, **fields: object) -> dict[str, str]:
    """A second report about the people of arden2011."""
    return cohort(key, events, total, study="arden2011", described=False, **fields)  # type: ignore[arg-type]


def estimate(key: str, passage: str, fields: str, study: str = "arden2011") -> dict[str, str]:
    start = "- {id: all, question: hole, outcome: healed, where: 'p. 3', follow_up: not applicable, estimate: {"
    claim = f"{start}{fields}}}}}"
    return report(key, claim, f"[p. 3] {passage}", study=study, described=False)


def test_of_two_reports_of_a_study_the_one_that_examined_the_larger_share_counts():
    files = cohort("arden2011", 40, 50, flow=(80, 50)) | again("bexley2015", 30, 40, flow=(44, 40))
    counted, superseded = count_patients_once(of(catalogue(files), "arden2011/all", "bexley2015/all"))
    assert bases(counted) == ["bexley2015/all"]
    assert [(pair.finding.base, pair.by.base) for pair in superseded] == [("arden2011/all", "bexley2015/all")]


def test_with_equal_shares_the_larger_report_counts():
    files = cohort("arden2011", 40, 50, flow=(100, 50)) | again("bexley2015", 45, 60, flow=(120, 60))
    counted, _ = count_patients_once(of(catalogue(files), "arden2011/all", "bexley2015/all"))
    assert bases(counted) == ["bexley2015/all"]


def test_with_equal_numbers_the_later_report_counts():
    files = cohort("bexley2015", 40, 50, study="arden2011") | again("aston2019", 41, 50)
    counted, _ = count_patients_once(of(catalogue(files), "bexley2015/all", "aston2019/all"))
    assert bases(counted) == ["aston2019/all"]


def test_an_estimate_at_the_window_counts_before_a_larger_rate():
    kaplan = estimate(
        "bexley2015", "71% at 24 months after repair, 30 at the start",
        "kind: survival, at: 24 months, value: 71%, starting: 30, from: repair",
    )  # fmt: skip
    made = catalogue(cohort("arden2011", 40, 50, flow=(50, 50)), kaplan)
    counted, _ = count_patients_once(of(made, "arden2011/all", "bexley2015/all"))
    assert bases(counted) == ["bexley2015/all"]


def test_an_estimate_counted_from_healing_takes_no_place_of_a_rate_counted_from_repair():
    kaplan = estimate(
        "bexley2015", "71% at 24 months, 30 at the start",
        "kind: survival, at: 24 months, value: 71%, starting: 30, from: healing",
    )  # fmt: skip
    made = catalogue(cohort("arden2011", 40, 50), kaplan)
    counted, superseded = count_patients_once(of(made, "arden2011/all", "bexley2015/all"))
    assert len(counted) == 2
    assert superseded == []


def test_another_time_stays_what_only_its_report_holds():
    files = cohort("arden2011", 40, 50) | again("bexley2015", 30, 40, time=at(60, 12))
    counted, _ = count_patients_once(of(catalogue(files), "arden2011/all", "bexley2015/all"))
    assert len(counted) == 2


def test_a_rate_by_a_time_is_not_the_rate_when_last_seen():
    by = ("{from: repair, timing: by, at: 12 months, where: 'p. 2'}", "[p. 2] by 12 months")
    files = cohort("arden2011", 40, 50, time=last_seen()) | again("bexley2015", 30, 40, time=by)
    counted, _ = count_patients_once(of(catalogue(files), "arden2011/all", "bexley2015/all"))
    assert len(counted) == 2


def test_the_answer_hangs_neither_on_order_nor_on_a_report_given_twice():
    made = catalogue(*five(), again("fowey2019", 66, 80, flow=(90, 80)))
    findings = [finding for finding in made.findings if finding.claim.id.text == "all"]
    expected = comparability_of(findings)
    for seed in range(5):
        mixed = findings + findings[:3]
        random.Random(seed).shuffle(mixed)
        assert comparability_of(mixed) == expected


def test_a_report_that_joins_two_studies_counts_nobody_twice():
    joint = report(
        "fowey2019",
        f"- {{id: all, question: hole, outcome: healed, events: 130, total: 160, where: 'p. 3', follow_up: {at()[0]}}}",
        at()[1], "[p. 3] 130 of 160 teeth", study="arden2011", described=False,
    )  # fmt: skip
    joint["claims/fowey2019.yaml"] = joint["claims/fowey2019.yaml"].replace(
        "  - id: arden2011\n", "  - id: arden2011\n  - id: bexley2012\n"
    )
    made = catalogue(cohort("arden2011", 60, 72), cohort("bexley2012", 50, 58), joint)
    counted, superseded = count_patients_once(of(made, "arden2011/all", "bexley2012/all", "fowey2019/all"))
    assert bases(counted) == ["fowey2019/all"]
    assert len(superseded) == 2


def test_a_joint_report_gives_way_to_all_that_count_its_patients():
    # One patient counted once is our rule (no published source); who counts them stands by name, the last included.
    made = catalogue(cohort("arden2011", 60, 72, flow=(75, 72)), cohort("bexley2012", 50, 58, flow=(80, 58)), joint())
    counted, superseded = count_patients_once(of(made, "arden2011/all", "bexley2012/all", "fowey2019/all"))
    assert bases(counted) == ["arden2011/all", "bexley2012/all"]
    ((finding, by, also),) = superseded
    assert [finding.key, by.key, *(other.key for other in also)] == ["fowey2019", "arden2011", "bexley2012"]
    (told,) = superseded_lines(made, superseded)
    assert "the same patients are counted now by Arden 2011 and Bexley 2012" in said(told)


def test_five_cohorts_that_agree_are_one_pool():
    comparability = comparability_of(catalogue(*five()).findings)
    assert [len(group.findings) for group in comparability.groups] == [5]
    assert comparability.groups[0].shows_pool
    assert why_not_pooled(comparability) == ()


@pytest.mark.parametrize(
    ("change", "reason"),
    [
        ({"time": at(12, 3)}, "they speak of different times, or count from different moments"),
        ({"time": last_seen()}, "not every rate belongs to one time"),
        ({"time": at(24, 8)}, "not every rate belongs to one time"),
        ({"treatment": "retreatment"}, "the people treated differ"),
        ({"treatment": "not reported"}, "the people treated are not fully reported in all"),
        ({"more": ", given: teeth still there"}, "some speak only of part of those treated"),
    ],
    ids=["time", "last-seen", "tolerance-over-a-quarter", "people", "people-not-reported", "given"],
)
def test_what_differs_is_reported_as_the_reason(change, reason):
    files = [*five()[:4], cohort("elgin2015", 55, 66, **change)]
    comparability = comparability_of(catalogue(*files).findings)
    assert len(comparability.groups[0].findings) == 4
    assert reason in why_not_pooled(comparability)


def test_two_that_do_not_report_their_operators_are_not_alike():
    files = [
        {name: text.replace("operators: residents", "operators: not reported") for name, text in each.items()}
        for each in five()
    ]
    comparability = comparability_of(catalogue(*files).findings)
    assert comparability.groups == ()
    assert "the operators are not reported in all" in why_not_pooled(comparability)


def test_five_studies_with_nine_failures_show_no_pool():
    counts = ((38, 40), (39, 41), (28, 30), (29, 31), (29, 30))
    files = [cohort(f"arden201{index}", *each) for index, each in enumerate(counts)]
    comparability = comparability_of(catalogue(*files).findings)
    assert comparability.groups[0].failures == 9
    assert why_not_pooled(comparability) == ("fewer than ten failures",)


def test_a_retracted_report_leaves_and_the_pool_with_it():
    status = {"status.yaml": "elgin2015: {state: retracted, on: 2026-10-20, by: hand}\n"}
    comparability = comparability_of(catalogue(*five(), status).findings)
    assert [item.reason for item in comparability.not_compared] == ["the report was withdrawn"]
    assert len(comparability.groups[0].findings) == 4


def test_animals_stand_apart():
    made = catalogue(by_size("arden2011", (5, 12), (11, 12), species="animal"))
    assert reason_not_compared(made.findings[0]) == "not people: it may explain, it does not count"


def test_a_selected_series_carries_no_rate():
    files = {name: text.replace("consecutive", "selected") for name, text in cohort("arden2011", 40, 50).items()}
    assert reason_not_compared(catalogue(files).findings[0]) == "a selected series carries no rate"


def test_a_figure_quoted_from_a_report_of_this_guide_does_not_count_again():
    quoting = again("bexley2015", 40, 50, more=", quotes: arden2011/all")
    made = catalogue(cohort("arden2011", 40, 50), quoting)
    assert reason_not_compared(made.of_claim("bexley2015/all")[0]) == "quoted from another report"


def test_a_figure_quoted_from_a_report_outside_this_guide_counts_once():
    outside = {"sources/zennor1990.bib": "@article{zennor1990, title = {Not read}, year = 1990}\n"}
    made = catalogue(cohort("bexley2015", 40, 50, more=", quotes: zennor1990/all"), outside)
    assert reason_not_compared(made.of_claim("bexley2015/all")[0]) == ""


def test_two_complications_are_never_one():
    vocabulary = {
        "vocabulary.yaml": "outcomes:\n"
        + "".join(
            f"  {name}: {{title: {name}, construct: complication, strictness: not applicable, basis: film, "
            f"threshold: any, good: no}}\n"
            for name in ("split", "hole-made")
        )
    }
    first = cohort("arden2011", 3, 50, outcome="split")
    second = again("bexley2015", 4, 50, outcome="hole-made")
    made = catalogue(first, second, vocabulary)
    counted, _ = count_patients_once(made.findings)
    assert len(counted) == 2
