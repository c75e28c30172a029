"""Each claim chosen for the patient is on the sheet, or the check says why not: never both, never neither."""

from __future__ import annotations

import itertools
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from guide.compendium import VOCABULARY, nothing_named, written
from passageproof.audit.whole import audit, check
from passageproof.guide.question.patient_page import patient_page
from passageproof.problems import Problem
from passageproof.reading.evidence import read_evidence
from passageproof.reading.slugs import slug
from passageproof.results.findings.findings import Catalogue
from passageproof.results.values.document import Section, walk

VOCABULARY_TOO = VOCABULARY + (
    "  failed: {title: failed, construct: success, strictness: strict, basis: film, threshold: shadow, good: no}\n"
)

TABLE = "factor: size, known_at: before, reference: up to 3 mm"
ESTIMATE = "at: 5 years, value: 71%, interval: 55% to 85%"
PRINTED = "[p. 3] 71% at 5 years (95% CI 55 to 85), 39 at the start, 21 at risk"
RATIO = (
    "contrast: {measure: odds ratio, value: 2.4, interval: 1.1 to 5.2, event: healed, event_is: good, "
    "level: over 3 mm, reference: up to 3 mm, adjusted_for: not reported}"
)
RATIO_PRINTED = "[p. 3] healed, over 3 mm against up to 3 mm: odds ratio 2.4 (95% CI 1.1 to 5.2)"

# Fields of a claim, and the passage that proves them.
SHAPES = {
    "a rate": ("outcome: healed, events: 39, total: 47", "[p. 3] 39 of 47 teeth healed"),
    "a bad ending": ("outcome: failed, events: 8, total: 47", "[p. 3] 8 of 47 teeth failed"),
    "a rate in per cent": ("outcome: healed, success_rate: 83%, events: 39, total: 47", "[p. 3] 39 of 47 teeth (83%)"),
    "a rate without its counts": (
        "outcome: healed, success_rate: 83%, events: not reported, total: not reported", "[p. 3] 83% of teeth healed"
    ),
    "a rate without its total": (
        "outcome: healed, events: 39, total: not reported", "[p. 3] 39 teeth healed"
    ),
    "two totals": (
        "outcome: healed, events: 31, total: {candidates: [41, 44], reason: two places}",
        "[p. 3] 31 healed; 41 (Methods) or 44 (Discussion) had been examined",
    ),
    "of part of them": (
        "outcome: healed, events: 39, total: 47, given: teeth still in place", "[p. 3] 39 of 47 teeth still in place"
    ),
    "levels": (
        f"outcome: healed, {TABLE}, levels: [{{level: up to 3 mm, events: 32, total: 35}}, "
        "{level: over 3 mm, events: 7, total: 12}]",
        "[p. 3] up to 3 mm: 32 of 35 healed; over 3 mm: 7 of 12 healed",
    ),
    "levels, one in words": (
        f"outcome: healed, {TABLE}, levels: [{{level: up to 3 mm, events: 32, total: 35}}, "
        "{level: over 3 mm, direction: worse, stated: words only}]",
        "[p. 3] up to 3 mm: 32 of 35 healed; over 3 mm did worse",
    ),
    "words": (
        f"outcome: healed, {TABLE}, levels: [{{level: over 3 mm, direction: worse, stated: words only}}]",
        "[p. 3] over 3 mm did worse",
    ),
    "levels without counts": (
        f"outcome: healed, {TABLE}, levels: [{{level: up to 3 mm, success_rate: 91%, events: not reported, total: not "
        "reported}, {level: over 3 mm, success_rate: 58%, events: not reported, total: not reported}]",
        "[p. 3] up to 3 mm: 91% healed; over 3 mm: 58% healed",
    ),
    "an estimate of a level": (
        f"outcome: kept, {TABLE}, levels: [{{level: over 3 mm, estimate: {{kind: survival, {ESTIMATE}, starting: 39}}}}]",
        "[p. 3] over 3 mm: 71% at 5 years (95% CI 55 to 85), 39 at the start",
    ),
    "a ratio alone": (f"outcome: healed, {TABLE}, {RATIO}", RATIO_PRINTED),
    "a ratio beside its table": (
        f"outcome: healed, {TABLE}, levels: [{{level: up to 3 mm, events: 24, total: 42}}, "
        f"{{level: over 3 mm, events: 32, total: 42}}], {RATIO.replace('not reported}', 'none}')}",
        f"{RATIO_PRINTED}; up to 3 mm: 24 of 42 healed; over 3 mm: 32 of 42 healed",
    ),
    "a test": ("outcome: healed, test: {between: [film, volume], p: .02}", "[p. 3] film against volume: P = .02"),
    "pairs": (
        "outcome: healed, pairs: {a: film, b: volume, both: 28, only_a: 8, only_b: 1, neither: 3}",
        "[p. 3] healed on film and volume 28, on film only 8, on volume only 1, on neither 3",
    ),
    "pairs not reported": ("outcome: healed, pairs: not reported", "[p. 3] film and volume were compared"),
    "grades": (
        "outcome: healed, grades: [{outcome: healed, events: 30}, {words: healing, events: 10}, {outcome: failed, "
        "events: 7}], total: 47",
        "[p. 3] of 47 teeth 30 healed, 10 were healing, 7 failed",
    ),
    "an estimate": (f"outcome: kept, estimate: {{kind: survival, {ESTIMATE}, starting: 39, at_risk: 21}}", PRINTED),
    "an estimate of nobody knows how many": (f"outcome: kept, estimate: {{kind: survival, {ESTIMATE}}}", PRINTED),
    "an incidence of something bad": (
        f"outcome: failed, estimate: {{kind: cumulative incidence, {ESTIMATE}, at_risk: 21}}", PRINTED
    ),
    "an incidence of something good": (
        f"outcome: healed, estimate: {{kind: cumulative incidence, {ESTIMATE}, at_risk: 21}}", PRINTED
    ),
    "an estimate without its value": (
        "outcome: kept, estimate: {kind: survival, at: 5 years, value: not reported, starting: 39}", PRINTED
    ),
    "a yearly rate": (
        "outcome: failed, estimate: {kind: yearly rate, value: 2.1%, starting: 39}", "[p. 3] 2.1% a year of 39 teeth"
    ),
    "a pooled rate": (
        "outcome: healed, success_rate: 83%, pooled: {studies: 6, of: 431}", "[p. 3] 83% of 431 teeth healed, pooled from 6 studies"
    ),
    "a pooled ratio": (
        f"outcome: healed, {TABLE}, {RATIO}, pooled: {{studies: 6}}", f"{RATIO_PRINTED}, 6 studies"
    ),
    "a pooled estimate": (
        f"outcome: kept, estimate: {{kind: survival, {ESTIMATE}, starting: 39}}, pooled: {{studies: 6}}",
        f"{PRINTED}, 6 studies",
    ),
}  # fmt: skip

TIMES = {
    "at": ("{from: repair, timing: at, at: 24 months, tolerance: 6 months, where: p. 2}", "24 months, within 6 months"),
    "by": ("{from: repair, timing: by, at: 24 months, where: p. 2}", "by 24 months"),
    "last": ("{from: repair, timing: last recall, minimum: 24 months, where: p. 2}", "last seen after 24 months"),
    "least": ("{from: repair, timing: at least, minimum: 24 months, where: p. 2}", "at least 24 months"),
    "no timing": ("{from: repair, timing: not reported, median: 24 months, where: p. 2}", "a median of 24 months"),
    "nothing": ("not reported", "followed up"),
}

WHO = {
    "people": "species: human, design: cohort, selection: consecutive, unit: tooth",
    "people, chosen": "species: human, design: cohort, selection: selected, unit: tooth",
    "people, perhaps chosen": "species: human, design: cohort, selection: unclear, unit: tooth",
    "dogs": "species: animal, design: experiment, unit: tooth",
    "bench": "species: bench, design: experiment, unit: tooth",
}


def one_report(
    key: str, shape: str, time: str, who: str = "people", more: str = "", study: str = "", described: bool = True
) -> dict[str, str]:
    """One report with one claim, "key/it". more: further fields of the claim."""
    fields, printed = SHAPES[shape]
    follow_up, seen = TIMES[time]
    human = ", population: {dentition: permanent}, setting: {operators: residents}" if who.startswith("people") else ""
    study = study or f"study-{key.lower()}"
    facts = f"{{id: {study}, {WHO[who]}{human}, where: p. 1}}" if described else f"{{id: {study}}}"
    return {
        f"sources/{key}.bib": (
            f"@article{{{key}, author = {{{key}, Ada}}, title = {{Report {key}}}, journal = {{Annals}}, year = 2019,\n"
            f" annotation = {{\n[p. 1] residents\n[p. 2] {seen}\n{printed}\n}}}}\n"
        ),
        f"claims/{key}.yaml": (
            f"source: {key}\nread: {{by: IM, on: 2026-02-03, depth: full text}}\nstudies:\n  - {facts}\nclaims:\n"
            f"  - {{id: it, question: hole, where: p. 3, follow_up: {follow_up}, {fields}{more}}}\n"
        ),
    }


def outcome_of(files: dict[str, str], *shown: str) -> tuple[set[str], list[Problem]]:
    """Which of the chosen claims have a part of the sheet, and what the check says of the others."""
    question = f"id: hole\ntitle: A hole\npatient:\n  show: [{', '.join(shown)}]\n"
    files = {"vocabulary.yaml": VOCABULARY_TOO, "questions/hole.yaml": question} | files
    with tempfile.TemporaryDirectory() as folder:
        written(files, Path(folder))
        evidence = read_evidence(Path(folder))
    found = audit(evidence)
    others = [problem for problem in found.problems if problem.rule != "patient-claim-not-told"]
    assert [problem for problem in others if problem.severity == "error"] == []
    told_by_check = check(evidence).problems
    assert told_by_check == found.problems
    page = patient_page(Catalogue(evidence, found), evidence.questions["hole"], nothing_named)
    anchors = {block.anchor for block in walk(page.blocks) if isinstance(block, Section)}
    told = {name for name in shown if f"told-{slug(name)}" in anchors}
    return told, [problem for problem in found.problems if problem.rule == "patient-claim-not-told"]


def combinations() -> Iterator[tuple[str, str, str]]:
    """Every shape at every time of people in turn; every shape of everybody else at one."""
    yield from itertools.product(SHAPES, TIMES, ["people"])
    yield from itertools.product(SHAPES, ["at"], [who for who in WHO if who != "people"])


def test_every_shape_at_every_time_of_everybody_is_told_or_asked_about() -> None:
    rows = list(combinations())
    keys = [f"Arden{number}" for number in range(len(rows))]
    files: dict[str, str] = {}
    for key, row in zip(keys, rows, strict=True):
        files |= one_report(key, *row)
    shown = [f"{key}/it" for key in keys]
    told, problems = outcome_of(files, *shown)
    asked = {problem.message.split("cannot tell ")[1].split(":")[0] for problem in problems}
    assert len(asked) == len(problems)
    both_or_neither = [row for row, name in zip(rows, shown, strict=True) if (name in told) == (name in asked)]
    assert both_or_neither == []
    # Neither answer is rare: the test would see a rule that always, or never, asks.
    assert len(told) > 40
    assert len(asked) > 100


def both_ways(told: set[str], problems: list[Problem], name: str) -> str:
    """ "told", or what the check says of this claim; never both."""
    asked = [problem.message for problem in problems if f"cannot tell {name}:" in problem.message]
    assert (name in told) + len(asked) == 1
    return asked[0].split(": ", 1)[1] if asked else "told"


# What a writer reads who chose it: each reason in the words of the form.
@pytest.mark.parametrize(
    ("row", "why"),
    [
        # A technical success without its follow-up: nobody can say when it was counted.
        (("a rate", "nothing", "people"), "when it was counted is not reported (`follow_up` without its `timing`)"),
        (("a rate without its total", "at", "people"), "`events` and `total` are not both reported"),
        (("words", "at", "people"), "it is stated in words only"),
        (("a rate", "at", "dogs"), "it is not about people"),
        (("a rate", "at", "people, chosen"), "a selected series carries no rate"),
        (("a ratio alone", "at", "people"), "a ratio or difference alone tells a patient nothing"),
        (("a pooled rate", "at", "people"), "it was pooled by a review"),
        (("pairs", "at", "people"), "it compares two ways of looking, not two endings"),
        (("a yearly rate", "at", "people"), "a yearly rate is not a number at a time"),
        (("a rate", "last", "people"), "told"),
        (("levels, one in words", "at", "people"), "told"),
    ],
)
def test_the_reason_is_said_in_the_words_of_the_form(row: tuple[str, str, str], why: str) -> None:
    assert both_ways(*outcome_of(one_report("Arden", *row), "Arden/it"), "Arden/it") == why


def test_the_problem_stands_where_the_claim_was_chosen_and_says_what_to_do() -> None:
    _, (problem,) = outcome_of(one_report("Arden", "a ratio alone", "at"), "Arden/it")
    assert str(problem.position) == "evidence/questions/hole.yaml:4:10"
    assert problem.severity == "error"
    assert "or take this one out of `show`" in problem.hint


def test_a_claim_of_another_question_is_told_all_the_same() -> None:
    files = one_report("Arden", "a rate", "at")
    files["claims/Arden.yaml"] = files["claims/Arden.yaml"].replace("question: hole", "question: post")
    files["questions/post.yaml"] = "id: post\ntitle: A post\n"
    assert both_ways(*outcome_of(files, "Arden/it"), "Arden/it") == "told"


ESTIMATES = ["an estimate", "an incidence of something bad", "an incidence of something good", "a yearly rate"]
RATES = ["a rate", "a bad ending", "of part of them", "levels", "grades"]


def test_a_share_when_last_seen_gives_way_to_an_estimate_of_the_same_study() -> None:
    """Whichever report has the estimate, from whatever moment it counts, and of whatever it is."""
    files, shown = {}, []
    cases = itertools.product(RATES, ["at", "last", "nothing"], ESTIMATES, ["repair", "healing"], [False, True])
    for number, (rate, time, estimate, start, is_one_report) in enumerate(cases):
        one, other, study = f"Arden{number}", f"Bexley{number}", f"study-{number}"
        made = one_report(one, rate, time, study=study)
        beside = one_report(other, estimate, "nothing", study=study, described=False)
        for name in beside:
            beside[name] = beside[name].replace("at_risk: 21}", f"at_risk: 21, from: {start}}}")
        if is_one_report:
            again = beside[f"claims/{other}.yaml"].split("claims:\n")[1].replace("id: it", "id: later")
            made[f"claims/{one}.yaml"] += again.replace("where: p. 3", "where: p. 9")
            printed = SHAPES[estimate][1].replace("[p. 3]", "[p. 9]")
            made[f"sources/{one}.bib"] = made[f"sources/{one}.bib"].replace("\n}}", f"\n{printed}\n}}}}")
            shown.append(f"{one}/later")
        else:
            made |= beside
            shown.append(f"{other}/it")
        files |= made
        shown.append(f"{one}/it")
    told, problems = outcome_of(files, *shown)
    said = {name: both_ways(told, problems, name) for name in shown}
    replaced = [name for name, why in said.items() if "when last seen" in why]
    assert len(replaced) > 5
    assert len(told) > 60


@pytest.mark.parametrize("state", ["retracted", "concern", "corrected", "none found"])
@pytest.mark.parametrize("retracted", ["Arden", "Bexley"])
@pytest.mark.parametrize("quoting", ["Arden/it", ""])
@pytest.mark.parametrize("shape", ["a rate", "a ratio alone", "levels", "an estimate"])
def test_a_withdrawal_never_fails_the_check(shape: str, quoting: str, retracted: str, state: str) -> None:
    files = one_report("Arden", shape, "last", study="fenwick")
    quotes = f", quotes: {quoting}" if quoting else ""
    files |= one_report("Bexley", shape, "last", more=quotes, study="fenwick", described=False)
    before_told, before = outcome_of(files, "Arden/it", "Bexley/it")
    files["status.yaml"] = f"{retracted}: {{state: {state}, on: 2026-10-20, by: hand}}\n"
    told, problems = outcome_of(files, "Arden/it", "Bexley/it")
    # A withdrawal may answer what was asked, and asks nothing new.
    assert set(problems) <= set(before)
    if state != "retracted":
        assert (told, problems) == (before_told, before)
    for name in ("Arden/it", "Bexley/it"):
        is_withdrawn = state == "retracted" and (name.startswith(retracted) or (quoting and retracted == "Arden"))
        if not is_withdrawn:
            both_ways(told, problems, name)
        else:
            assert name not in told


def test_a_withdrawn_estimate_gives_the_share_when_last_seen_its_place_back() -> None:
    files = one_report("Arden", "a rate", "last", study="fenwick")
    files |= one_report("Bexley", "an estimate", "nothing", study="fenwick", described=False)
    files["claims/Bexley.yaml"] = files["claims/Bexley.yaml"].replace("outcome: kept", "outcome: healed")
    why = both_ways(*outcome_of(files, "Arden/it"), "Arden/it")
    assert why == "it is a share when last seen, while Bexley/it is an estimate at a time of the same study"
    files["status.yaml"] = "Bexley: {state: retracted, on: 2026-10-20, by: hand}\n"
    assert both_ways(*outcome_of(files, "Arden/it"), "Arden/it") == "told"


def test_a_number_without_proof_is_told_of_once() -> None:
    files = one_report("Arden", "a rate", "at")
    files["sources/Arden.bib"] = files["sources/Arden.bib"].replace("39 of 47", "38 of 47")
    files |= {"vocabulary.yaml": VOCABULARY_TOO}
    files["questions/hole.yaml"] = "id: hole\ntitle: A hole\npatient: {show: [Arden/it]}\n"
    with tempfile.TemporaryDirectory() as folder:
        written(files, Path(folder))
        problems = audit(read_evidence(Path(folder))).problems
    assert [problem.rule for problem in problems] == ["figure-not-in-passage"]
