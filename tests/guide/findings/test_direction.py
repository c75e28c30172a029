"""Which way a study points: the side of its point estimate, one a study, beside one reference."""

from __future__ import annotations

import pytest
from guide.cohorts import at, by_size, catalogue, ratio
from guide.compendium import report
from passageproof.results.findings.direction import compared
from passageproof.results.findings.findings import Catalogue

WAYS = """\
factors:
  way:
    title: What was done
    role: treatment
    levels: [{id: cap, title: direct cap}, {id: part, title: partial}, {id: full, title: full}]
outcomes:
  healed: {title: healed, construct: success, strictness: strict, basis: film, threshold: normal space, good: yes}
  lost: {title: lost, construct: reversal, strictness: strict, basis: film, threshold: new shadow, good: no}
"""


def large(made: Catalogue):
    (found,) = compared(made, "hole", "size", "large")
    return found


@pytest.mark.parametrize(
    ("own", "other", "direction"),
    [((7, 12), (32, 35), "worse"), ((32, 35), (7, 12), "better"), ((79, 100), (80, 101), "no clear difference")],
    ids=["lower", "higher", "alike-at-whole-per-cent"],
)
def test_the_direction_is_the_side_of_the_rate(own, other, direction):
    (side,) = large(catalogue(by_size("arden2011", own, other))).sides
    assert side.direction == direction


def test_of_a_bad_outcome_the_higher_rate_is_the_worse_side():
    (side,) = large(catalogue(by_size("arden2011", (7, 12), (5, 35), outcome="lost"))).sides
    assert side.direction == "worse"


@pytest.mark.parametrize(
    ("measure", "event", "value", "direction"),
    [
        ("odds ratio", "healed, good", "0.4", "worse"),
        ("odds ratio", "failed, bad", "0.4", "better"),
        ("hazard ratio", "failed, bad", "1.04", "no clear difference"),
        ("risk difference", "healed, good", "-0.12", "worse"),
        ("prevented fraction", "failed, bad", "20%", "better"),
    ],
    ids=["good-event-rarer", "bad-event-rarer", "prints-as-one", "difference", "prevented"],
)
def test_a_ratio_is_read_by_its_event(measure, event, value, direction):
    (side,) = large(catalogue(ratio("arden2011", measure, event, value))).sides
    assert side.direction == direction


def test_p_values_decide_nothing():
    made = catalogue(ratio("arden2011", "odds ratio", "healed, good", "0.8", more=", p: .62", printed=" (P = .62)"))
    (side,) = large(made).sides
    assert side.direction == "worse"


def test_adjustment_that_is_not_reported_is_no_adjustment():
    made = catalogue(ratio("arden2011", "odds ratio", "healed, good", "0.4", adjusted="not reported"))
    assert [side.is_adjusted for side in large(made).sides] == [False]


def test_a_study_counts_once_by_its_adjusted_ratio():
    later = ratio(
        "bexley2015", "odds ratio", "healed, good", "1.6", adjusted="[age]", study="arden2011", described=False
    )
    found = large(catalogue(by_size("arden2011", (7, 12), (32, 35)), later))
    assert [(side.finding.key, side.direction) for side in found.sides] == [("bexley2015", "better")]


def test_a_study_whose_tables_point_both_ways_is_reported():
    later = ratio(
        "bexley2015", "odds ratio", "healed, good", "1.6", adjusted="[age]", study="arden2011", described=False
    )
    found = large(catalogue(by_size("arden2011", (7, 12), (32, 35)), later))
    assert found.mixed == {"arden2011"}


def test_only_words_are_a_direction_without_numbers():
    claim = """
    - id: words
      question: hole
      factor: size
      known_at: before
      outcome: healed
      reference: up to 3 mm
      levels:
        - {level: over 3 mm, direction: worse, stated: words only}
      where: p. 5
      follow_up: not reported
    """
    made = catalogue(report("arden2011", claim, "[p. 5] over 3 mm did worse than up to 3 mm"))
    assert [side.direction for side in large(made).in_words] == ["worse"]
    assert large(made).verdict == "worse"
    assert large(made).count("worse") == 0


def test_a_test_without_numbers_is_not_stated():
    claim = """
    - id: tested
      question: hole
      factor: size
      known_at: before
      outcome: healed
      reference: up to 3 mm
      test: {between: [over 3 mm, up to 3 mm], p: .62, method: chi-square}
      where: p. 5
      follow_up: not reported
    """
    made = catalogue(report("arden2011", claim, "[p. 5] over 3 mm, up to 3 mm: P = .62, chi-square"))
    found = large(made)
    assert found.count("not stated") == 1
    assert found.verdict == "not known"


def test_pairs_point_to_the_level_that_alone_did_well_more_often():
    claim = f"""
    - id: pairs
      question: hole
      factor: way
      known_at: during
      outcome: healed
      reference: direct cap
      pairs: {{a: partial, b: direct cap, both: 18, only_a: 6, only_b: 2, neither: 4}}
      where: p. 5
      follow_up: {at()[0]}
    """
    passages = (at()[1], "[p. 5] partial and direct cap: both 18, only partial 6, only direct cap 2, neither 4")
    made = catalogue(report("arden2011", claim, *passages), {"vocabulary.yaml": WAYS})
    (found,) = compared(made, "hole", "way", "part")
    assert [side.direction for side in found.sides] == ["better"]


def levels(key: str, table: tuple[tuple[str, int, int], ...]) -> dict[str, str]:
    """One table by what was done; the first row is the reference."""
    rows = "\n".join(f"        - {{level: {name}, events: {events}, total: {total}}}" for name, events, total in table)
    claim = f"""
    - id: by-way
      question: hole
      factor: way
      known_at: during
      outcome: healed
      reference: {table[0][0]}
      levels:
{rows}
      where: p. 3
      follow_up: {at()[0]}
    """
    words = "; ".join(f"{name}: {events} of {total} teeth" for name, events, total in table)
    return report(key, claim, at()[1], f"[p. 3] {words}")


def test_a_level_is_compared_with_one_reference_at_a_time():
    first = levels("arden2011", (("direct cap", 30, 50), ("partial", 40, 50)))
    second = levels("bexley2012", (("full", 45, 50), ("partial", 40, 50)))
    found = compared(catalogue(first, second, {"vocabulary.yaml": WAYS}), "hole", "way", "part")
    assert [item.verdict for item in found] == ["better", "worse"]
    assert [item.name for item in found] == ["part-healed", "part-healed-beside-full"]


BANDS = """\
factors:
  size:
    title: Size
    role: prognostic
    unit: mm
    levels:
      - {id: small, title: up to 1 mm, range: up to 1 mm}
      - {id: middle, title: 1 mm to 3 mm, range: 1 mm to 3 mm}
      - {id: large, title: over 3 mm, range: over 3 mm}
outcomes:
  healed: {title: healed, construct: success, strictness: strict, basis: film, threshold: normal space, good: yes}
"""


def test_a_reference_that_meets_a_band_in_one_point_is_not_that_band():
    claim = f"""
    - id: by-size
      question: hole
      factor: size
      known_at: before
      outcome: healed
      reference: up to 1 mm
      levels:
        - {{level: up to 1 mm, events: 36, total: 38}}
        - {{level: 1 mm to 3 mm, events: 33, total: 37}}
      where: p. 3
      follow_up: {at()[0]}
    """
    passages = (at()[1], "[p. 3] up to 1 mm: 36 of 38 teeth; 1 mm to 3 mm: 33 of 37 teeth")
    made = catalogue(report("arden2011", claim, *passages), {"vocabulary.yaml": BANDS})
    assert [item.verdict for item in compared(made, "hole", "size", "middle")] == ["worse"]
    assert compared(made, "hole", "size", "small") == ()


def test_levels_of_the_tooth_need_no_vocabulary():
    claim = f"""
    - id: by-tooth
      question: hole
      factor: tooth-type
      known_at: before
      outcome: healed
      reference: incisor
      levels:
        - {{level: incisor, events: 20, total: 22}}
        - {{level: molar, events: 30, total: 45}}
      where: p. 3
      follow_up: {at()[0]}
    """
    passages = (at()[1], "[p. 3] incisor: 20 of 22 teeth; molar: 30 of 45 teeth")
    (found,) = compared(catalogue(report("arden2011", claim, *passages)), "hole", "tooth-type", "molar")
    assert found.verdict == "worse"


def test_animals_are_in_no_count():
    assert large(catalogue(by_size("arden2011", (5, 12), (11, 12), species="animal"))).sides == ()
