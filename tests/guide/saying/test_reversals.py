"""A reversal stands wherever the rate it reverses does; a crude share gives way to an estimate at a time."""

from __future__ import annotations

from guide.cohorts import catalogue, cohort, last_seen
from guide.compendium import report
from passageproof.results.saying.reversals import replaced_by_estimate, reversals


def curve(
    key: str,
    outcome: str,
    kind: str,
    start: str,
    *,
    study: str = "arden2011",
    more: str = "",
    passage: str = "",
) -> dict[str, str]:
    """One estimate at five years, and further claims of the same report."""
    claim = (
        f"- {{id: curve, question: hole, outcome: {outcome}, where: 'p. 3', follow_up: not applicable, "
        f"estimate: {{kind: {kind}, at: 5 years, value: 30%, from: {start}}}}}\n{more}"
    )
    passages = ["[p. 3] 30% at 5 years", *([passage] if passage else [])]
    return report(key, claim, *passages, study=study, described=False)


RATE = cohort("arden2011", 40, 50, time=last_seen())


def bases(made, *claims: str) -> list[str]:
    shown = [finding for claim in claims for finding in made.of_claim(claim)]
    return [finding.base for finding in reversals(made, "hole", shown)]


def test_an_outcome_that_reverses_stands_with_the_rate_of_the_same_study():
    made = catalogue(RATE, curve("bexley2019", "lost", "cumulative incidence", "healing"))
    assert bases(made, "arden2011/all") == ["bexley2019/curve"]


def test_the_same_outcome_counted_from_healing_reverses_too():
    made = catalogue(RATE, curve("bexley2019", "healed", "survival", "healing"))
    assert bases(made, "arden2011/all") == ["bexley2019/curve"]


def test_another_study_reverses_nothing():
    other = cohort("bexley2012", 30, 40)
    made = catalogue(RATE, other, curve("corwen2019", "lost", "cumulative incidence", "healing", study="bexley2012"))
    assert bases(made, "arden2011/all") == []


def test_a_withdrawn_reversal_stands_nowhere():
    status = {"status.yaml": "bexley2019: {state: retracted, on: 2026-10-20, by: hand}\n"}
    made = catalogue(RATE, curve("bexley2019", "lost", "cumulative incidence", "healing"), status)
    assert bases(made, "arden2011/all") == []


LAST = (
    "- {id: last, question: hole, outcome: healed, events: 31, total: 41, where: 'p. 9', "
    "follow_up: {from: repair, timing: last recall, minimum: 60 months, maximum: 90 months}}"
)


def test_a_crude_share_beside_an_estimate_of_its_own_report_is_replaced():
    later = curve(
        "bexley2019", "lost", "cumulative incidence", "healing", more=LAST,
        passage="[p. 9] 31 of 41 teeth, last recall 60 to 90 months",
    )  # fmt: skip
    made = catalogue(RATE, later)
    found = replaced_by_estimate(made, "hole", made.of_claim("bexley2019/last")[0])
    assert found is not None
    assert found.base == "bexley2019/curve"


def test_a_rate_of_the_first_report_is_not_replaced_by_what_followed_healing():
    made = catalogue(RATE, curve("bexley2019", "lost", "cumulative incidence", "healing"))
    assert replaced_by_estimate(made, "hole", made.of_claim("arden2011/all")[0]) is None


def test_a_rate_when_last_seen_gives_way_to_an_estimate_from_the_same_moment():
    made = catalogue(RATE, curve("bexley2019", "healed", "survival", "repair"))
    found = replaced_by_estimate(made, "hole", made.of_claim("arden2011/all")[0])
    assert found is not None


def test_a_rate_at_a_time_gives_way_to_nothing():
    made = catalogue(cohort("arden2011", 40, 50), curve("bexley2019", "healed", "survival", "repair"))
    assert replaced_by_estimate(made, "hole", made.of_claim("arden2011/all")[0]) is None
