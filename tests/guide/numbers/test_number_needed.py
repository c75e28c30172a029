"""Numbers needed to treat: for one treatment beside another, and for nothing else."""

from __future__ import annotations

import pytest
from guide.cohorts import at, by_size, catalogue
from guide.compendium import nothing_named, report, said
from passageproof.guide.factor.factor_page import factor_page
from passageproof.results.findings.findings import Catalogue
from passageproof.results.values.document import Details, Page, Table, walk


def arms(
    full: tuple[int, int],
    cap: tuple[int, int],
    outcome: str = "healed",
    more: str = "",
    design: str = "randomised trial",
) -> dict[str, str]:
    """One report of a full pulpotomy beside a direct cap: events and total of each."""
    claim = f"""
    - id: arms
      question: hole
      factor: way
      known_at: before
      outcome: {outcome}
      reference: direct cap
      levels:
        - {{level: direct cap, events: {cap[0]}, total: {cap[1]}}}
        - {{level: full pulpotomy, events: {full[0]}, total: {full[1]}}}
      where: p. 3
      follow_up: {at()[0]}
    """
    table = f"[p. 3] direct cap: {cap[0]} of {cap[1]} teeth; full pulpotomy: {full[0]} of {full[1]} teeth"
    files = report("arden2011", claim + more, at()[1], table, *(_TOLD if more else ()))
    return {name: text.replace("design: cohort", f"design: {design}") for name, text in files.items()}


_TOLD = ("[p. 5] odds ratio for healed, full pulpotomy against direct cap: 0.73 (95% CI 0.59 to 0.90)",)
RATIO = f"""
    - id: ratio
      question: hole
      factor: way
      known_at: before
      outcome: healed
      reference: direct cap
      where: p. 5
      follow_up: {at()[0]}
      contrast:
        measure: odds ratio
        event: healed
        event_is: good
        level: full pulpotomy
        reference: direct cap
        value: 0.73
        interval: 0.59 to 0.90
        adjusted_for: [age]
"""


def page(made: Catalogue, factor: str = "way") -> Page:
    return factor_page(made, made.evidence.questions["hole"], factor, nothing_named)


def needed(found: Page) -> list[str]:
    """The cells that say how many, one a row."""
    for item in walk(found.blocks):
        if isinstance(item, Table) and item.kind == "number-needed":
            return [said(row[3]) for row in item.rows]
    return []


def test_twenty_five_against_twenty_percent_is_one_in_twenty():
    # The rounding trap of a published page: 1 / (.25 - .20) is 20, never 21 and never from rounded parts.
    (told,) = needed(page(catalogue(arms((25, 100), (20, 100)))))
    assert told.startswith("20 teeth treated for one more: healed")


def test_a_number_needed_is_rounded_up():
    # 1 / (62/100 - 50/100) = 8.33.
    (told,) = needed(page(catalogue(arms((62, 100), (50, 100)))))
    assert told.startswith("9 teeth treated")


def test_limits_run_through_infinity_where_the_difference_may_go_either_way():
    # Altman 1998, BMJ 317:1309-1312; Newcombe 1998, Stat Med 17:873-890, method 10 (worked by hand). 25/100 against
    # 20/100: -6.60 to 16.44 points, so 1/.1644 and 1/.0660, rounded up.
    (told,) = needed(page(catalogue(arms((25, 100), (20, 100)))))
    assert told.endswith("95% CI from benefit in one of 7 through infinitely many to harm in one of 16")


def test_both_limits_stand_where_the_difference_goes_one_way():
    # 80/100 against 50/100: 30 points (16.97 to 41.62 by Newcombe), so 4 (3 to 6) (recomputed by hand).
    (told,) = needed(page(catalogue(arms((80, 100), (50, 100)))))
    assert told == "4 teeth treated for one more: healed; 95% CI 3 to 6"


def test_fewer_good_ends_are_said_to_be_harm():
    (told,) = needed(page(catalogue(arms((20, 100), (25, 100)))))
    assert told.startswith("20 teeth treated for one fewer: healed (harm)")


def test_fewer_bad_ends_are_a_benefit():
    (told,) = needed(page(catalogue(arms((20, 100), (25, 100), "lost"))))
    assert told.startswith("20 teeth treated for one fewer: healing lost;")


def test_equal_risks_have_no_number():
    (told,) = needed(page(catalogue(arms((20, 100), (20, 100)))))
    assert told == "none: the risks are equal, so no number of them makes a difference"


def test_a_ratio_at_its_named_baseline_gives_the_handbooks_number():
    # Cochrane Handbook 5.1, section 12.5.4: OR 0.73 at a risk of 0.3 is 16.208, so 17.
    asked = (
        "id: hole\ntitle: A hole\nabsolute:\n  - {ratio: arden2011/ratio, baseline: arden2011/arms/direct-cap}\n"
    )  # fmt: skip
    told = needed(page(catalogue(arms((40, 100), (30, 100), more=RATIO), question=asked)))
    assert told[-1].startswith("17 teeth treated for one fewer: healed (harm); 95% CI 11 to 47")


def test_a_ratio_without_a_named_baseline_gives_none():
    assert len(needed(page(catalogue(arms((40, 100), (30, 100), more=RATIO))))) == 1


def test_limits_are_those_of_the_difference_that_the_row_shows():
    # Newcombe 1998, Stat Med 17:873-890, method 10, Table II (a): 56/70 against 48/80 is 20 points, .0524 to .3339, so
    # 5 (3 to 20); by Wald (.0575 to .3425) it would be 5 (3 to 18). Altman 1998, BMJ 317:1309-1312.
    (told,) = needed(page(catalogue(arms((56, 70), (48, 80)))))
    assert told == "5 teeth treated for one more: healed; 95% CI 3 to 20"


@pytest.mark.parametrize(("full", "rows"), [((25, 100), 0), ((80, 100), 1)])
def test_groups_that_chance_did_not_make_have_one_where_the_study_is_clear(full, rows):
    # House rule: of groups that may differ in anything, too few to tell is no number of patients.
    assert len(needed(page(catalogue(arms(full, (20, 100), design="cohort"))))) == rows


def test_what_is_known_only_afterwards_has_none():
    files = arms((80, 100), (20, 100), design="cohort")
    files["claims/arden2011.yaml"] = files["claims/arden2011.yaml"].replace("known_at: before", "known_at: after")
    assert needed(page(catalogue(files))) == []


def test_counts_of_pairs_whose_pairing_is_not_told_decide_nothing():
    # Two counts of the same units are no two independent groups: Newcombe 1998, Stat Med 17:2635-2650 (paired data).
    files = arms((80, 100), (50, 100))
    files["claims/arden2011.yaml"] = files["claims/arden2011.yaml"].replace(
        "known_at: before", "known_at: before\n    pairs: not reported"
    )
    found = page(catalogue(files))
    told = said(found)
    assert needed(found) == []
    assert "decides nothing: the same were counted in both, and how they pair is not reported" in told
    assert "Crude, from counts" not in told
    assert "points more" not in told


def test_it_is_said_to_be_no_number_for_patients():
    found = page(catalogue(arms((80, 100), (50, 100), design="cohort")))
    section = next(item for item in walk(found.blocks) if isinstance(item, Details) and item.anchor == "number-needed")
    assert "not for patients" in said(section)
    assert "cohort" in said(section)


def test_a_prognostic_factor_has_none():
    found = page(catalogue(by_size("arden2011", (7, 12), (32, 35))), "size")
    assert needed(found) == []
    assert "needed to treat" not in said(found)


@pytest.mark.parametrize("text", ["given: teeth still in the mouth"])
def test_a_rate_of_part_of_those_treated_has_none(text):
    files = arms((80, 100), (50, 100))
    files["claims/arden2011.yaml"] = files["claims/arden2011.yaml"].replace(
        "known_at: before", f"known_at: before\n    {text}"
    )
    assert needed(page(catalogue(files))) == []
