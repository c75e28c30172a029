"""The form of one claim: what it needs, what goes together, and what each field takes."""

from __future__ import annotations

from collections.abc import Callable

import pytest

ProblemsOfText = Callable[[str], list[str]]

COUNTS = "events: 1\ntotal: 2\n"
COMPARED = "factor: size\nknown_at: before\nreference: small\n"


@pytest.mark.parametrize(
    "lines",
    [
        pytest.param('events: "42,300"\ntotal: 50000', id="thousands"),
        pytest.param(
            "events: not reported\ntotal: 47\nsuccess_rate: 83%\ninterval: 69% to 92%\nconfidence: 95%", id="rate"
        ),
        pytest.param("rate: 88%\npooled: {studies: 9, of: 400, model: random effects, i2: 40%}", id="pooled"),
        pytest.param("rate: 88%\nquotes: other2000word/overall", id="quoted"),
        pytest.param("events: 31\ntotal: {candidates: [41, 44], reason: both are printed}", id="candidates"),
        pytest.param(COMPARED + "levels:\n  - {level: large, direction: worse, stated: words only}", id="words only"),
        pytest.param("estimate: {kind: yearly rate, value: 2.1%}", id="yearly rate"),
        pytest.param(
            COMPARED + "contrast: {measure: odds ratio, event_is: bad, value: 2.9, interval: 1.2 to 7.1, p: .02, "
            "adjusted_for: [age], absolute: {per: 1000, reference: 120, level: 300, interval: 150 to 500}}",
            id="ratio",
        ),
        pytest.param(
            COMPARED + "contrast: {measure: risk difference, value: -3.5%, interval: -9% to 2%, adjusted_for: none}",
            id="difference below zero",
        ),
        pytest.param('test: {between: [film, volume], p: "<=.05", method: Fisher}', id="test"),
        pytest.param(
            "test:\n  - {between: not reported, p: not reported}\n  - {between: [a, b], p: <.001}", id="tests"
        ),
        pytest.param("pairs: not reported", id="pairs not reported"),
        pytest.param(
            "total: 40\ngrades: [{outcome: healed, events: 30}, {words: better, events: 6, rate: 15%}]", id="grades"
        ),
        pytest.param(
            COUNTS + "within: [{factor: roots, level: more than one}]\ngiven: teeth still there", id="subgroup"
        ),
        pytest.param(COUNTS + "flow: {due: 5, recall: {rate: 80%, where: p. 2}}", id="flow of its own"),
    ],
)
def test_shape_of_the_form_is_read(of_claim: ProblemsOfText, lines: str) -> None:
    assert of_claim(lines) == []


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        pytest.param(
            "note: only words",
            [
                "6:5: a claim needs a result: events and total, levels, an estimate, "
                "a contrast, a test, pairs or grades [missing-field]"
                "\n    type what the passage says, or delete the claim"
            ],
            id="no shape",
        ),
        pytest.param(
            "success_rate: 83%\nevents: 39",
            [
                "6:5: a claim has a rate without the number that it is out of (`total`): type it, or not reported "
                "[missing-field]"
                "\n    total: not reported"
            ],
            id="rate without total",
        ),
        pytest.param(
            "rate: 83%\nsuccess_rate: 83%\n" + COUNTS,
            [
                "6:5: a claim has both `rate` and `success_rate`: keep one of the two [field-not-here]"
                "\n    delete the one that the paper does not print"
            ],
            id="two rates",
        ),
        pytest.param(
            "pairs: not reported\ninterval: 5% to 8%",
            [
                "6:5: a claim has an `interval` without the rate it belongs to [field-not-here]"
                "\n    type the rate, or move the interval into the estimate or contrast it belongs to"
            ],
            id="interval alone",
        ),
        pytest.param(
            COUNTS + "confidence: 90%",
            [
                "6:5: a claim has `confidence` without the `interval` it belongs to [field-not-here]"
                "\n    delete it, or type the interval"
            ],
            id="confidence alone",
        ),
        pytest.param(
            "levels: [{level: a, events: 1, total: 2}]",
            [
                "6:5: a claim with levels or a contrast needs `factor` [missing-field]"
                "\n    factor: the id of a factor in vocabulary.yaml",
                "6:5: a claim with levels or a contrast needs `known_at` [missing-field]"
                "\n    known_at: before, during or after (when it is known beside the treatment)",
                "6:5: a claim with levels or a contrast needs `reference`, or not reported [missing-field]"
                "\n    reference: the wording of the level that the others are compared with",
            ],
            id="levels alone",
        ),
        pytest.param(
            COMPARED + "levels: [{level: a}]",
            [
                '14:14: the level "a" has no result: it needs counts, a mean, a median, an estimate, '
                "grades or a `direction` [missing-field]"
                "\n    events: ..., total: ... (or not reported)"
            ],
            id="level that says nothing",
        ),
        pytest.param(
            COMPARED + "levels: [{level: a, direction: worse}]",
            [
                '14:14: the level "a" has a direction but no figures: it needs `stated: words only` [missing-field]'
                "\n    stated: words only"
            ],
            id="direction without figures",
        ),
        pytest.param(
            COMPARED + "levels: [{level: a, rate: 5%, events: 1}]",
            [
                '14:14: the level "a" has a rate without the number that it is out of (`total`): type it, or not '
                "reported [missing-field]"
                "\n    total: not reported"
            ],
            id="level without total",
        ),
        pytest.param(
            COMPARED + "levels: [{level: ≤ 3, events: 1, total: 2}, {level: up to 3, events: 1, total: 2}]",
            [
                '14:57: "up to 3" and "≤ 3" (line 14) have the same short name "up-to-3" in this claim '
                "[same-short-name]"
                "\n    add a word to one of the two that tells it from the other"
            ],
            id="two levels of one slug",
        ),
        pytest.param(
            COMPARED + "levels: [{level: Total, events: 1, total: 2}]",
            ['14:22: "Total" is also the name of a field [same-short-name]\n    word it differently, or add a word'],
            id="level named like a field",
        ),
        pytest.param(
            COMPARED + "contrast: {measure: hazard ratio, value: 2.9, adjusted_for: none}",
            [
                "14:15: a contrast with a hazard ratio needs `event_is`: good or bad [missing-field]"
                "\n    event_is: good, where it is good for whom it befalls, else bad"
            ],
            id="ratio without event_is",
        ),
        pytest.param(
            COMPARED
            + "contrast: {measure: risk ratio, event_is: bad, value: 1.1, adjusted_for: none, margin: {value: 0.8}}",
            [
                '14:100: "0.8" cannot be the margin of a risk ratio: of bad events harm lies above 1 [margin-side]\n'
                "    type the limit on the side of harm, or `sides: two` where it was fixed for both"
            ],
            id="margin on the side of benefit",
        ),
        pytest.param(
            COMPARED
            + "contrast: {measure: risk ratio, event_is: bad, value: 1.1, adjusted_for: none, margin: {value: 10%}}",
            [
                '14:100: "10%" cannot be the margin of a risk ratio: a ratio is a number above zero [margin-side]'
                "\n    type the limit that was fixed beforehand, as the paper prints it"
            ],
            id="margin of a ratio in per cent",
        ),
        pytest.param(
            COMPARED
            + "contrast: {measure: risk ratio, event_is: bad, value: 1.1, adjusted_for: none, margin: {by: us}}",
            [
                "14:92: `margin` needs the margin that was fixed beforehand (`value`) [missing-field]"
                "\n    value: a number or a percentage, or not reported"
            ],
            id="margin without a value",
        ),
        pytest.param(
            COMPARED + "cut: by eye\nlevels: [{level: a, events: 1, total: 2}]",
            [
                '14:10: "by eye" is not one of: fixed beforehand, chosen from the data, not reported [not-in-list]'
                "\n    type one of them, letter for letter"
            ],
            id="cut of another kind",
        ),
        pytest.param(
            COMPARED + "contrast: {measure: odds ratio, event_is: bad, value: 2.9, adjusted_for: age}",
            [
                '14:78: "age" is given where none, not reported, or a list such as [age, size] is expected '
                "[wrong-shape]"
                "\n    type none, not reported, or a list such as [age, size]"
            ],
            id="one covariate",
        ),
        pytest.param(
            "estimate: {kind: survival, value: 71%}",
            [
                '11:15: an estimate of the kind "survival" needs the time that it is for (`at`) [missing-field]'
                "\n    at: 5 years"
            ],
            id="estimate without time",
        ),
        pytest.param(
            "pairs: {a: film, b: volume, both: 1, only_a: 2, only_b: 3}",
            [
                "11:12: `pairs` needs the number with the outcome neither way (`neither`) [missing-field]"
                "\n    neither: a whole number such as 39 or 42,300, or not reported"
            ],
            id="pairs with three cells",
        ),
        pytest.param(
            "events: 5\ntotal: {candidates: [90], reason: x}",
            [
                "12:12: `candidates` needs two numbers or more [missing-field]"
                "\n    if there is only one, type it as the total: total: 41"
            ],
            id="one candidate",
        ),
        pytest.param(
            "total: 9\ngrades: [{events: 5}]",
            [
                "12:14: a grade needs either `outcome` or `words`, not both [missing-field]"
                "\n    outcome: the id of an outcome, or words: as the paper has it"
            ],
            id="grade without name",
        ),
        pytest.param(
            "grades: [{words: healed, events: 5}]",
            [
                "6:5: a claim has `grades` without the number that they add up to (`total`): type it, or not "
                "reported [missing-field]"
                "\n    total: not reported"
            ],
            id="grades without total",
        ),
        pytest.param(
            COUNTS + "pooled: {studies: 3}",
            [
                "6:5: `pooled` is given only together with a rate, an estimate, levels or a contrast [field-not-here]"
                "\n    type the result that was pooled beside it, or delete it"
            ],
            id="pooled alone",
        ),
        pytest.param(
            "evnts: 39\ntotal: 47",
            ['11:5: "evnts" is not a field of a claim [unknown-field]\n    did you mean events?'],
            id="unknown field",
        ),
        pytest.param(
            COMPARED + "levels: [{level: a, direction: worse, stated: words only, ratio: 0.88}]",
            [
                '14:63: "ratio" is not a field of a level [unknown-field]\n'
                "    its fields are: level, range, events, total, rate, success_rate, interval, confidence, estimate, "
                "grades, mean, sd, median, iqr, direction, stated, as, where, in_words"
            ],
            id="unknown field, none near",
        ),
    ],
)
def test_what_does_not_go_together_is_reported(of_claim: ProblemsOfText, lines: str, expected: list[str]) -> None:
    assert of_claim(lines) == expected


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        (
            "events: 39.5\ntotal: 47",
            '11:13: "39.5" is not a whole number such as 39 or 42,300 [not-a-count]'
            "\n    where the paper gives none, type not reported",
        ),
        (
            "events: -3\ntotal: 47",
            '11:13: "-3" is not a whole number such as 39 or 42,300 [not-a-count]'
            "\n    where the paper gives none, type not reported",
        ),
        (
            "events: 4 2\ntotal: 47",
            '11:13: "4 2" is not a whole number such as 39 or 42,300 [not-a-count]'
            "\n    where the paper gives none, type not reported",
        ),
        (
            "events: NR\ntotal: 47",
            '11:13: "NR" is not a whole number such as 39 or 42,300 [not-a-count]\n    did you mean not reported?',
        ),
        (
            COUNTS + "rate: 83",
            '13:11: "83" is not a percentage from 0% to 100% such as 83% or 5.40% [not-a-percentage]\n'
            "    did you mean 83%?",
        ),
        (
            COUNTS + "rate: 82,9%",
            '13:11: "82,9%" is not a percentage from 0% to 100% such as 83% or 5.40% [not-a-percentage]\n'
            "    did you mean 82.9%?",
        ),
        (
            COUNTS + "rate: 120%",
            '13:11: "120%" is not a percentage from 0% to 100% such as 83% or 5.40% [not-a-percentage]'
            "\n    where the paper gives none, type not reported",
        ),
        (
            COUNTS + "interval: 62 to 80%",
            '13:15: "62 to 80%" is not an interval such as 62% to 80% [not-an-interval]\n    did you mean 62% to 80%?',
        ),
        (
            COUNTS + "interval: 80% to 62%",
            '13:15: "80% to 62%": the lower end comes first [interval-reversed]'
            "\n    look at the paper again; did you mean 62% to 80%?",
        ),
        (
            "test: {between: [a, b], p: 1.2}",
            '11:32: "1.2" is not a P value such as .02, <.05 or ">.9" [not-a-p]'
            "\n    where the paper gives none, type not reported",
        ),
        (
            COUNTS + "planned: maybe",
            '13:14: "maybe" is not one of: yes, no, unclear [not-in-list]\n    type one of them, letter for letter',
        ),
        (
            COUNTS + "study: Size",
            '13:12: "Size" cannot be an id of a study: use lower-case letters, digits and hyphens only [not-an-id]'
            "\n    write it size",
        ),
        (
            COUNTS + "quotes: other",
            '13:13: "other" should be written key/claim [not-a-path]'
            "\n    key: that of the report; claim: its `id` there",
        ),
        (
            COUNTS + "flow: 58",
            '13:11: "58" is given where a flow with its fields is expected [wrong-shape]'
            "\n    type a block: {eligible: …, treated: …, due: …}",
        ),
        (
            COUNTS + "note:",
            "13:10: the value is missing: type a text, or leave the field out [empty-field]"
            "\n    where there is nothing to type, delete the line",
        ),
    ],
)
def test_value_of_another_kind_is_reported_at_its_place(of_claim: ProblemsOfText, lines: str, expected: str) -> None:
    assert of_claim(lines) == [expected]


@pytest.mark.parametrize(
    ("block", "expected"),
    [
        (
            "{from: repair, timing: at}",
            "10:16: `follow_up` with `timing: at` needs the time of the follow-up (`at`) [missing-field]"
            "\n    at: 12 months",
        ),
        (
            "{from: repair, timing: by, at: 5 years, tolerance: 1 year}",
            "10:16: `tolerance` is allowed only with `timing: at` [field-not-here]\n    delete it, or type timing: at",
        ),
        (
            "{from: repair, timing: last recall, at: 5 years}",
            "10:16: `at` is allowed only with `timing: at` or `timing: by`, not with `timing: last recall` "
            "[field-not-here]"
            "\n    type minimum, median, mean or maximum, or another `timing`",
        ),
        ("{timing: last recall}", "10:16: `follow_up` needs `from` [missing-field]\n    from: words, or not reported"),
        (
            "{from: repair, timing: last recall, median: 31}",
            '10:60: "31" is not a length of time such as 12 months, 90 days or 3 years 5 months [not-a-length]\n'
            "    did you mean 31 months?",
        ),
        (
            "at 5 years",
            '10:16: "at 5 years" cannot be an id of a claim: use lower-case letters, digits and hyphens only '
            "[not-an-id]\n"
            "    or type a block: {from: …, timing: …, at: …, tolerance: …, minimum: …, maximum: …, mean: …, "
            "median: …, sd: …, where: …, in_words: …}",
        ),
        (
            "{from: repair, timing: mostly}",
            '10:39: "mostly" is not one of: at, by, last recall, at least [not-in-list]'
            "\n    type one of them, letter for letter",
        ),
    ],
)
def test_follow_up_needs_what_its_timing_asks_for(
    problems_of: Callable[[dict[str, str]], list[str]], block: str, expected: str
) -> None:
    file = f"""\
source: a2001word
read: {{by: IM, on: 2026-02-03, depth: full text}}
studies:
  - id: a-study
claims:
  - id: a-claim
    question: [a-question, another]
    outcome: an-outcome
    where: p. 1
    follow_up: {block}
    events: 1
    total: 2
"""
    assert problems_of({"claims/a2001word.yaml": file}) == [f"evidence/claims/a2001word.yaml:{expected}"]
