"""A ratio of one ending at a baseline of the other: applied to all others, and what it gives taken from the whole."""

from __future__ import annotations

import json
import math
from pathlib import Path

import pytest
from guide.cohorts import at, by_size, catalogue, last_seen, ratio
from guide.compendium import nothing_named, said
from passageproof.guide.factor.factor_page import factor_page
from passageproof.problems import Position
from passageproof.reading.model import Outcome
from passageproof.reading.values import Words
from passageproof.results.findings.findings import Catalogue
from passageproof.results.findings.opposite_event import is_opposite
from passageproof.results.numbers.absolute import AbsoluteRisk, absolute_line, absolutes

QUESTION = "id: hole\ntitle: A hole\nabsolute:\n  - {ratio: bexley2012/ratio, baseline: arden2011/by-size/up-to-3-mm}\n"
REFERENCE = Path(__file__).parents[2] / "synthesis" / "reference" / "two_arm_pooling.json"
BAD = """\
factors:
  size:
    title: Size of the hole
    role: ROLE
    unit: mm
    levels: [{id: small, title: up to 3 mm, range: up to 3 mm}, {id: large, title: over 3 mm, range: over 3 mm}]
outcomes:
  split: {title: root split, construct: complication, strictness: not applicable, basis: film, threshold: any, good: no}
  healed: {title: healed, construct: success, strictness: strict, basis: film, threshold: normal, good: yes}
"""


def made_of(
    measure: str, event: str, value: str, *, healed: tuple[int, int] = (80, 100), outcome: str = "healed",
    time: tuple[str, str] | None = None, role: str = "prognostic", **fields: str,
) -> Catalogue:  # fmt: skip
    """A ratio of the other ending beside a table whose reference level has the outcome in so many of all."""
    return catalogue(
        {"vocabulary.yaml": BAD.replace("ROLE", role)},
        by_size("arden2011", (50, 100), healed, outcome=outcome, time=at()),
        ratio("bexley2012", measure, event, value, outcome=outcome, time=time or at(), **fields),  # type: ignore[arg-type]
        question=QUESTION,
    )


def risk_of(made: Catalogue) -> AbsoluteRisk:
    (found,) = absolutes(made, made.evidence.questions["hole"], "size")
    return found


# Reckoned by hand: of 100, 80 are healed at the reference and 20 are not.
@pytest.mark.parametrize(
    ("measure", "value", "interval", "percent"),
    [
        # Odds of 0.25, times 2.0, 1.3 and 3.1: 33.333, 24.528 and 43.662 are not healed.
        ("odds ratio", "2.0", (1.3, 3.1), (66.667, 56.338, 75.472)),
        ("risk ratio", "0.5", (0.4, 0.7), (90, 86, 92)),
        # 0.8 ^ 2 = 0.64, 0.8 ^ 1 and 0.8 ^ 4 = 0.4096.
        ("hazard ratio", "2.0", (1.0, 4.0), (64, 40.96, 80)),
    ],
)
def test_a_ratio_of_not_healing_is_turned_at_a_baseline_of_healing(measure, value, interval, percent):
    low, high = interval
    found = risk_of(
        made_of(measure, "not healed, bad", value, more=f", interval: {low} to {high}",
                printed=f" (95% CI {low} to {high})")
    )  # fmt: skip
    assert found.reason == ""
    assert found.is_turned
    names = ("baseline", "level", "interval/low", "interval/high")
    assert [100 * found.risks[name] for name in names] == pytest.approx([80, *percent], abs=5e-4)


def test_a_ratio_of_a_good_ending_is_turned_at_a_baseline_of_the_bad_one():
    # 30 of 100 split, 70 do not: 70 x 0.9 = 63, so 37 split.
    found = risk_of(made_of("risk ratio", "not split, good", "0.9", healed=(30, 100), outcome="split"))
    assert 100 * found.risks["level"] == pytest.approx(37)


# Chong et al. 2003, Int Endod J 36:520-526: risk ratio of failure 0.65 beside 54 of 64 and 44 of 58 successes (R
# metafor 3.8-1). 1 - 0.65 x 14 / 58 = 84.3 %, which is 54 of 64 within the rounding of the ratio.
def test_a_printed_trial_comes_back_within_the_rounding_of_its_ratio():
    found = risk_of(made_of("risk ratio", "failure, bad", "0.65", healed=(44, 58)))
    assert found.risks["level"] == pytest.approx(54 / 64, abs=0.005 * 14 / 58)


TRIALS = json.loads(REFERENCE.read_text("utf-8"))["datasets"][0]


@pytest.mark.parametrize(("scale", "measure"), [("OR", "odds ratio"), ("RR", "risk ratio")])
@pytest.mark.parametrize("row", range(13), ids=TRIALS["studies"]["label"])
def test_each_trial_of_a_published_set_comes_back_whole(row, scale, measure):
    """Colditz et al. 1994, JAMA 271:698-702, ratios by R metafor 3.8-1: the share of the level is that of its counts."""
    a, n1, c, n2 = (TRIALS["studies"][name][row] for name in ("a", "n1", "c", "n2"))
    value = f"{math.exp(TRIALS[scale]['yi'][row]):.6f}"
    found = risk_of(made_of(measure, "not healed, bad", value, healed=(n2 - c, n2)))
    assert found.risks["level"] == pytest.approx((n1 - a) / n1, abs=1e-6)


def test_the_workings_list_each_step_and_where_the_limits_go():
    made = made_of("odds ratio", "not healed, bad", "2.0", more=", interval: 1.3 to 3.1",
                   printed=" (95% CI 1.3 to 3.1)")  # fmt: skip
    found = risk_of(made)
    working = made.book.working(found.figures["level"].workings)
    assert working.formula == (
        "q0 = 1 - p0; q1 = OR × q0 / (1 - q0 + OR × q0); p1 = 1 - q1, the lower limit from the ratio's upper one"
    )
    steps = {says: figure.text for says, figure in working.results if not says.endswith("not rounded")}
    assert steps == {
        "opposite ending, reference level": "20.0%", "reference level": "80.0%",
        "opposite ending, the level": "33.3%", "the level": "66.7%",
        "opposite ending, lower limit": "43.7%", "lower limit": "56.3%",
        "opposite ending, upper limit": "24.5%", "upper limit": "75.5%",
    }  # fmt: skip


def test_the_sentence_counts_what_the_baseline_counts_and_says_what_was_done():
    made = made_of("odds ratio", "not healed, bad", "2.0", more=", interval: 1.3 to 3.1",
                   printed=" (95% CI 1.3 to 3.1)")  # fmt: skip
    told = said(absolute_line(made, risk_of(made)))
    assert "healed in 66.7% (95% CI 56.3% to 75.5%) against 80.0% of the reference" in told
    assert "The ratio counts not healed, the opposite ending: it was applied to all others of the reference" in told


def test_a_number_needed_of_a_turned_ratio_counts_the_same_ending():
    # 80 to 66.7: 13.3 points fewer healed, one in 7.5.
    made = made_of(
        "odds ratio", "not healed, bad", "2.0", role="treatment", more=", interval: 1.3 to 3.1",
        printed=" (95% CI 1.3 to 3.1)",
    )  # fmt: skip
    text = said(factor_page(made, made.evidence.questions["hole"], "size", nothing_named))
    assert "8 teeth treated for one fewer: healed (harm)" in text


def test_a_turned_share_below_none_is_refused():
    # 20 x 6 is more than all who could fail.
    assert "above 1" in risk_of(made_of("risk ratio", "not healed, bad", "6.0")).reason


@pytest.mark.parametrize("event", ["reversal", "no longer healed", "lost again", "whole"])
def test_what_is_more_than_the_opposite_is_refused(event):
    reason = risk_of(made_of("odds ratio", f"{event}, bad", "2.0")).reason
    assert reason == (
        "ratio and baseline count the event the other way round, and nothing says that "
        f'"{event}" is the opposite of "healed"'
    )


def test_every_other_reason_still_refuses():
    assert "different times" in risk_of(made_of("odds ratio", "not healed, bad", "2.0", time=at(12, 3))).reason
    assert "different times" in risk_of(made_of("odds ratio", "not healed, bad", "2.0", time=last_seen())).reason
    not_proportional = made_of("hazard ratio", "not healed, bad", "2.0", more=", proportional: 'no'")
    assert "not proportional" in risk_of(not_proportional).reason
    from_healing = at()[0].replace("from: repair", "from: healing"), at()[1]
    conditional = risk_of(made_of("odds ratio", "not healed, bad", "2.0", time=from_healing)).reason
    assert "conditional on another event" in conditional


def outcome(title: str, *, good: bool = True, reverses: bool = False, threshold: str = "normal", synonym: str = ""):
    """An outcome of the vocabulary, strict unless it is told of the whole."""
    place = Position("vocabulary.yaml", 1, 1)

    def word(text: str) -> Words:
        return Words(text, place)

    synonyms = (word(synonym),) if synonym else ()
    return Outcome(
        place, "x", word(title), word("success"), word("strict"), word("film"), word(threshold), good,
        word("healed") if reverses else None, None, synonyms,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("event", "others", "is_so"),
    [
        ("not healed", [], True),
        ("Non-healing", [], True),
        ("without healing", [], True),
        ("failure", [], True),
        ("treatment failure", [], True),
        ("failure to heal", [], True),
        ("healed", [], False),
        ("not failed", [], False),
        ("failure after healing", [], False),
        ("no longer healed", [], False),
        ("not healed again", [], False),
        ("pain", [], False),
        ("diseased", [], False),
        ("diseased", [outcome("diseased", good=False)], True),
        ("sick", [outcome("diseased", good=False, synonym="Sick")], True),
        ("diseased", [outcome("diseased", good=False, threshold="any shadow")], False),
        ("diseased", [outcome("diseased", good=False, reverses=True)], False),
    ],
)
def test_which_words_are_the_opposite_of_healed(event, others, is_so):
    words = Words(event, Position("claims/x.yaml", 1, 1))
    assert is_opposite(words, outcome("healed"), others) == is_so


def test_an_event_that_nobody_named_is_no_opposite():
    assert not is_opposite(None, outcome("healed"), [])
