"""A ratio becomes absolute only at a baseline of its reference level, at its time, of its event."""

from __future__ import annotations

import pytest
from guide.cohorts import at, by_size, catalogue, last_seen, ratio
from guide.compendium import report, said
from passageproof.results.findings.findings import Catalogue
from passageproof.results.numbers.absolute import AbsoluteRisk, absolute_line, absolutes

SPLIT = """\
factors:
  size:
    title: Size of the hole
    role: prognostic
    unit: mm
    levels: [{id: small, title: up to 3 mm, range: up to 3 mm}, {id: large, title: over 3 mm, range: over 3 mm}]
outcomes:
  healed: {title: healed, construct: success, strictness: strict, basis: film, threshold: normal space, good: yes}
  split: {title: root split, construct: complication, strictness: not applicable, basis: film, threshold: any, good: no}
"""
BASELINE = "arden2011/by-size/up-to-3-mm"


def question(baseline: str = BASELINE) -> str:
    return f"id: hole\ntitle: A hole\nabsolute:\n  - {{ratio: bexley2012/ratio, baseline: {baseline}}}\n"


def risk(made: Catalogue) -> AbsoluteRisk:
    (found,) = absolutes(made, made.evidence.questions["hole"], "size")
    return found


def with_ratio(measure: str, event: str, value: str, **fields: object) -> AbsoluteRisk:
    """A ratio beside a table whose reference level has the outcome in 30 of 100."""
    outcome = str(fields.pop("outcome", "split"))
    time = fields.pop("time", at())
    table = by_size("arden2011", (50, 100), (30, 100), outcome="split", time=at())
    made = catalogue(
        {"vocabulary.yaml": SPLIT},
        table,
        ratio("bexley2012", measure, event, value, outcome=outcome, time=time, **fields),
        question=question(),
    )  # type: ignore[arg-type]
    return risk(made)


@pytest.mark.parametrize(
    ("measure", "value", "percent"),
    [
        # Cochrane Handbook 5.1, section 12.5.4: OR 0.73 at a control risk of 0.3 is 62 fewer in 1000 (exactly 61.697).
        ("odds ratio", "0.73", 23.8303),
        # The same section: RR 0.92 at 0.3 is 24 fewer in 1000.
        ("risk ratio", "0.92", 27.6),
        # 1 - (1 - p) ^ HR: 0.6918 (recomputed).
        ("hazard ratio", "3.3", 69.18),
    ],
)
def test_a_ratio_at_a_baseline_gives_the_handbooks_risk(measure, value, percent):
    found = with_ratio(measure, "split, bad", value)
    assert found.reason == ""
    full = found.figures["level"]
    assert float(full.value) == pytest.approx(percent, abs=0.06)


def test_the_sentence_says_that_the_baseline_is_uncertain_too():
    made = catalogue(
        {"vocabulary.yaml": SPLIT},
        by_size("arden2011", (50, 100), (30, 100), outcome="split"),
        ratio("bexley2012", "odds ratio", "split, bad", "0.73", outcome="split", time=at()),
        question=question(),
    )
    line = said(absolute_line(made, risk(made)))
    assert "split in 23.8% against 30.0% of the reference. That reference is up to 3 mm: 30 of 100 teeth" in line
    assert "leaves out that the baseline is itself uncertain" in line


def test_a_hazard_ratio_of_unreported_proportionality_says_what_it_assumes():
    made = catalogue(
        {"vocabulary.yaml": SPLIT},
        by_size("arden2011", (50, 100), (30, 100), outcome="split"),
        ratio("bexley2012", "hazard ratio", "split, bad", "1.5", outcome="split", time=at()),
        question=question(),
    )
    assert "Proportional hazards are assumed" in said(absolute_line(made, risk(made)))


def test_a_hazard_ratio_that_is_not_proportional_is_refused():
    found = with_ratio("hazard ratio", "split, bad", "1.5", more=", proportional: 'no'")
    assert "hazards were not proportional" in found.reason


def test_a_ratio_at_another_time_is_refused():
    found = with_ratio("odds ratio", "split, bad", "1.5", time=at(12, 3))
    assert "ratio and baseline are for different times" in found.reason


def test_a_ratio_of_another_outcome_is_refused():
    found = with_ratio("odds ratio", "healed, good", "1.5", outcome="healed")
    assert "different outcomes" in found.reason


def test_an_event_counted_the_other_way_round_is_refused():
    found = with_ratio("odds ratio", "whole, good", "1.5")
    assert "the other way round" in found.reason


def test_a_risk_above_one_is_refused():
    found = with_ratio("risk ratio", "split, bad", "3.9")
    assert "above 1" in found.reason


def test_a_whole_cohort_is_no_baseline():
    claim = f"""
    - id: all
      question: hole
      outcome: split
      events: 30
      total: 100
      where: p. 3
      follow_up: {at()[0]}
    """
    whole = report("arden2011", claim, at()[1], "[p. 3] 30 of 100 teeth")
    made = catalogue(
        {"vocabulary.yaml": SPLIT},
        whole, ratio("bexley2012", "odds ratio", "split, bad", "1.5", outcome="split", time=at()),
        question=question("arden2011/all"),
    )  # fmt: skip
    assert "whole cohort" in risk(made).reason


def test_the_level_itself_is_no_baseline():
    made = catalogue(
        {"vocabulary.yaml": SPLIT},
        by_size("arden2011", (50, 100), (30, 100), outcome="split"),
        ratio("bexley2012", "odds ratio", "split, bad", "1.5", outcome="split", time=at()),
        question=question("arden2011/by-size/over-3-mm"),
    )
    assert "not of the reference level" in risk(made).reason


def test_a_baseline_when_last_seen_is_refused():
    made = catalogue(
        {"vocabulary.yaml": SPLIT},
        by_size("arden2011", (50, 100), (30, 100), outcome="split", time=last_seen()),
        ratio("bexley2012", "odds ratio", "split, bad", "1.5", outcome="split", time=at()),
        question=question(),
    )
    assert "the baseline is not for one stated time" in risk(made).reason


def test_a_withdrawn_ratio_is_refused():
    made = catalogue(
        {"vocabulary.yaml": SPLIT},
        by_size("arden2011", (50, 100), (30, 100), outcome="split"),
        ratio("bexley2012", "odds ratio", "split, bad", "1.5", outcome="split", time=at()),
        {"status.yaml": "bexley2012: {state: retracted, on: 2026-10-20, by: hand}\n"},
        question=question(),
    )
    assert "the report was withdrawn" in risk(made).reason


def test_a_ratio_of_healing_lost_is_conditional_on_healing():
    vocabulary = {"vocabulary.yaml": SPLIT.replace("good: no}", "good: no, reverses: healed}")}
    made = catalogue(
        {"vocabulary.yaml": SPLIT},
        by_size("arden2011", (50, 100), (30, 100), outcome="split"),
        ratio("bexley2012", "odds ratio", "split, bad", "1.5", outcome="split", time=at()),
        vocabulary,
        question=question(),
    )
    assert "conditional on another event" in risk(made).reason


@pytest.mark.parametrize(
    ("measure", "value", "baseline", "percent"),
    [
        # p1 = OR × p0 / (1 - p0 + OR × p0), Cochrane Handbook, section 15.4.4; values recomputed.
        ("odds ratio", "2.0", (5, 100), 9.524),
        ("odds ratio", "2.0", (14, 100), 24.561),
        ("odds ratio", "2.0", (20, 100), 33.333),
        ("odds ratio", "2.0", (50, 100), 66.667),
        ("odds ratio", "0.5", (20, 100), 11.111),
        # A published pooled odds ratio of 2.15 at a share of 75 %.
        ("odds ratio", "2.15", (75, 100), 86.577),
        # 1 - (1 - p0) ^ HR, Altman and Andersen 1999, BMJ 319:1492-1495.
        ("hazard ratio", "4.1", (30, 100), 76.831),
    ],
)
def test_the_same_ratio_means_another_risk_at_another_baseline(measure, value, baseline, percent):
    made = catalogue(
        {"vocabulary.yaml": SPLIT},
        by_size("arden2011", (50, 100), baseline, outcome="split", time=at()),
        ratio("bexley2012", measure, "split, bad", value, outcome="split", time=at()),
        question=question(),
    )
    found = risk(made)
    assert float(found.figures["level"].unrounded) == pytest.approx(percent, abs=6e-4)


def test_both_limits_of_a_ratio_become_risks():
    # OR 2.15 (1.57 to 2.96) at 75 %: 82.49 to 89.88 % (recomputed).
    made = catalogue(
        {"vocabulary.yaml": SPLIT},
        by_size("arden2011", (90, 100), (75, 100), outcome="split", time=at()),
        ratio("bexley2012", "odds ratio", "split, bad", "2.15", outcome="split", time=at(),
              more=", interval: 1.57 to 2.96", printed=" (95% CI 1.57 to 2.96)"),
        question=question(),
    )  # fmt: skip
    figures = risk(made).figures
    ends = [figures[f"interval/{end}"] for end in ("low", "high")]
    assert [float(end.unrounded) for end in ends] == pytest.approx([82.49, 89.88], abs=5e-3)


def test_two_ratios_are_never_multiplied():
    # HR 3.3 and 4.1 of two models: each at its own baseline or not at all.
    made = catalogue(
        {"vocabulary.yaml": SPLIT},
        by_size("arden2011", (50, 100), (30, 100), outcome="split", time=at()),
        ratio("bexley2012", "hazard ratio", "split, bad", "3.3", outcome="split", time=at()),
        ratio("corwen2013", "hazard ratio", "split, bad", "4.1", outcome="split", time=at()),
        question=question().rstrip() + f"\n  - {{ratio: corwen2013/ratio, baseline: {BASELINE}}}\n",
    )
    found = absolutes(made, made.evidence.questions["hole"], "size")
    shown = [float(item.figures["level"].value) for item in found]
    assert shown == pytest.approx([69.2, 76.8], abs=0.06)
