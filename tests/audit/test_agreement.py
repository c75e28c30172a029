"""Claims of one report, and claims that quote another, against each other."""

from __future__ import annotations

import pytest
from passageproof.audit.agreement import find_quoted

LAST = "{from: repair, timing: last recall, minimum: 12 months, maximum: 65 months}"


def claim(name: str, figures: str, follow_up: str = LAST, outcome: str = "healed", more: str = "") -> str:
    return (
        f"- id: {name}\n  question: hole\n  outcome: {outcome}\n  {figures}\n  where: p. 2\n  follow_up: {follow_up}\n"
        + (f"  {more}\n" if more else "")
    )


def test_one_figure_with_two_values_is_asked(asked):
    claims = claim("a", "events: 39\n  total: 47") + claim("b", "events: 38\n  total: 47")
    assert asked(claims) == ["one-figure-two-values: 38 of 47, 39 of 47"]


def test_one_figure_at_two_precisions_is_one_value(asked):
    claims = claim("a", "events: 39\n  total: 47\n  rate: 83%") + claim("b", "events: 39\n  total: 47\n  rate: 83.0%")
    assert asked(claims) == []


@pytest.mark.parametrize(
    ("follow_up", "more", "outcome"),
    [
        ("{from: repair, timing: at, at: 24 months}", "", "healed"),
        (LAST, "given: teeth still in the mouth", "healed"),
        (LAST, "within: [{factor: roots, level: one}]", "healed"),
        (LAST, "", "kept"),
        ("not reported", "", "healed"),
    ],
    ids=["another time", "other units", "a subgroup", "another outcome", "unknown time"],
)
def test_figures_of_different_things_may_differ(asked, follow_up, more, outcome):
    claims = claim("a", "events: 39\n  total: 47") + claim("b", "events: 38\n  total: 46", follow_up, outcome, more)
    assert asked(claims) == []


def test_other_follow_up_of_the_same_teeth_is_asked(asked):
    other = LAST.replace("65 months", "56 months")
    claims = claim("a", "events: 39\n  total: 47") + claim("b", "events: 40\n  total: 47", other)
    assert asked(claims) == ["follow-up-disagrees: maximum 56 months, 65 months"]


def test_two_endings_come_to_the_whole(asked):
    claims = claim("a", "events: 36\n  total: 42\n  rate: 86%") + claim(
        "b", "events: 6\n  total: 42\n  rate: 14%", outcome="diseased"
    )
    assert asked(claims) == []


def test_two_endings_that_do_not_come_to_the_whole_are_asked(asked):
    claims = claim("a", "events: 36\n  total: 42") + claim("b", "events: 7\n  total: 42", outcome="diseased")
    assert asked(claims) == ["complement-disagrees: 7 + 36 of 42"]


def test_rates_of_two_endings_that_do_not_come_to_100_are_asked(asked):
    # Pisano et al. 2023 print 85.57 % kept and 14.28 % lost of 42 (abstract seen).
    one = claim("a", "events: not reported\n  total: 42\n  rate: 85.71%")
    other = claim("b", "events: not reported\n  total: 42\n  rate: 14.28%", outcome="diseased")
    assert "complement-disagrees: 14.28% + 85.71% of 42" not in asked(one + other)
    found = asked(one.replace("85.71", "85.57") + other)
    assert "complement-disagrees: 14.28% + 85.57% of 42" in found


def test_reversal_among_those_healed_is_no_other_ending(asked):
    vocabulary = "reversed"  # an outcome that reverses healed, counted among the healed
    claims = claim("a", "events: 20\n  total: 20") + claim("b", "events: 2\n  total: 20", outcome=vocabulary)
    assert asked(claims) == []
    claims = claim("a", "events: 18\n  total: 20") + claim("b", "events: 4\n  total: 20", outcome=vocabulary)
    assert asked(claims) == ["complement-disagrees: 4 + 18 of 20"]


def test_percentages_of_studies_cannot_spread_further_than_0_to_100(asked):
    sd = pooled("random effects").replace("model", "sd: 71%, model")
    assert asked(sd) == ["sd-over-range: SD 71%"]
    assert asked(sd.replace("71%", "22%")) == []


def pooled(model: str, rate: str = "86.7%") -> str:
    return claim("a", f"events: 75\n  total: 86\n  rate: {rate}\n  pooled: {{studies: 9, of: 86, model: {model}}}")


def test_rate_pooled_by_adding_up_is_recomputed(asked):
    # Pisano et al. 2023: 75 of 86 printed as 86.7 %, which is 87.2 % (abstract seen).
    assert asked(pooled("counts simply added up")) == ["pooled-disagrees: 86.7% of 86"]
    assert asked(pooled("summed", "87.2%")) == []


def test_rate_pooled_by_a_model_is_never_recomputed(asked):
    assert asked(pooled("random effects")) == []


def test_pooled_rate_out_of_another_number_is_asked(asked):
    assert asked(pooled("random effects").replace("of: 86", "of: 88")) == ["pooled-disagrees: 88 pooled, 86"]


@pytest.mark.parametrize(
    ("figures", "found"),
    [
        ("events: 39\n  total: 47\n  rate: 83%", []),
        ("events: 38\n  total: 47", ["quote-disagrees: 38 events, 39"]),
        ("rate: 85%", ["quote-disagrees: 85%, 83.0%"]),
        ("rate: 83%", []),
    ],
)
def test_figure_taken_over_is_compared_with_its_report(evidence_of, report_text, figures, found):
    original = claim("overall", "events: 39\n  total: 47\n  rate: 83.0%")
    quoting = claim("b", figures, more="quotes: first/overall")
    evidence = evidence_of(
        {
            "claims/first.yaml": report_text("first", original),
            "claims/later.yaml": report_text("later", quoting, "- {id: fenwick, where: p. 1}"),
        }
    )
    problems = find_quoted(evidence.reports["later"].claims[0], "later/b", evidence.reports)
    assert [f"{each.rule}: {each.printed}" for each in problems] == found
