"""A compendium of any size: more questions, not more studies a factor; every printed figure honest."""

from __future__ import annotations

import math
import random
from pathlib import Path

from passageproof.synthesis import wilson_interval

REPORTS_PER_QUESTION = 12
PEOPLE = "people: {AA: {name: Anna Arrow, interests: none declared}, BB: {name: Bo Birk, interests: none declared}}"


def write_compendium(root: Path, reports: int, seed: int = 1, *, is_pooled: bool = False) -> None:
    """Write evidence/ below root: `reports` reports of as many studies, four claims each.

    is_pooled: every rate at one stated time, so that each question earns pools; else when last seen.
    """
    chance = random.Random(seed)
    evidence = root / "evidence"
    for folder in ("sources", "claims", "questions"):
        (evidence / folder).mkdir(parents=True, exist_ok=True)
    questions = math.ceil(reports / REPORTS_PER_QUESTION)
    (evidence / "compendium.yaml").write_text(
        "format: 1\ntitle: Generated guide\nprogramme: A programme that does not exist\ndemonstration: yes\n"
        "evidence: {date: 2026-10-30, release: 1.0.0}\nlicences: {text: CC-BY-4.0, data: CC0-1.0}\n"
        f"repository: https://example.org/generated\n{PEOPLE}\n"
        "review: {questions: 24 months, status: 1 month}\n",
        "utf-8",
    )
    (evidence / "vocabulary.yaml").write_text(_vocabulary(questions), "utf-8")
    (evidence / "status.yaml").write_text(
        "".join(f"{key(number)}: {{state: none found, on: 2026-10-20, by: hand}}\n" for number in range(reports)),
        "utf-8",
    )
    for question in range(questions):
        numbers = range(question * REPORTS_PER_QUESTION, min(reports, (question + 1) * REPORTS_PER_QUESTION))
        entries = []
        for number in numbers:
            entry, claims = _report(number, question, chance, is_pooled=is_pooled)
            entries.append(entry)
            (evidence / "claims" / f"{key(number)}.yaml").write_text(claims, "utf-8")
        (evidence / "sources" / f"question-{letters(question)}.bib").write_text("\n".join(entries), "utf-8")
        (evidence / "questions" / f"question-{letters(question)}.yaml").write_text(
            _question(question, numbers), "utf-8"
        )


def letters(number: int) -> str:
    """A number as letters, so that names hold no digit: 0 is "a", 26 is "ba"."""
    out = ""
    while True:
        out = chr(ord("a") + number % 26) + out
        number //= 26
        if not number:
            return out


def key(number: int) -> str:
    """The BibTeX key of a generated report."""
    return f"author{letters(number)}2019"


def _vocabulary(questions: int) -> str:
    out = ["factors:"]
    for question in range(questions):
        name = letters(question)
        out.append(
            f"  size-{name}:\n    title: Size in question {name}\n    definition: widest diameter seen\n    role: prognostic\n"
            "    unit: mm\n    levels: [{id: small, title: up to 3 mm, range: up to 3 mm}, "
            "{id: large, title: over 3 mm, range: over 3 mm}]"
        )
    out.append(
        "outcomes:\n"
        "  healed: {title: healed, construct: success, strictness: strict, basis: examination and film, "
        "threshold: normal space, good: yes}\n"
        "  kept: {title: still there, construct: survival, strictness: not applicable, basis: examination, "
        "threshold: not extracted, good: yes}"
    )
    return "\n".join(out) + "\n"


def _percent(events: int, total: int) -> int:
    # Half up, in whole numbers.
    return (200 * events + total) // (2 * total)


def _report(number: int, question: int, chance: random.Random, *, is_pooled: bool) -> tuple[str, str]:
    total = chance.randrange(40, 200)
    due = total + chance.randrange(1, 30)
    treated = due + chance.randrange(1, 30)
    large = chance.randrange(12, total // 2)
    small = total - large
    good_small = chance.randrange(small * 7 // 10, small - 1)
    good_large = chance.randrange(large * 5 // 10, large - 1)
    good = good_small + good_large
    interval = wilson_interval(good, total)
    low, high = round(100 * interval.low), round(100 * interval.high)
    ratio, ratio_low, ratio_high = _odds_ratio(good_large, large, good_small, small)
    kept = chance.randrange(80, 97)
    at_risk = chance.randrange(10, total - 1)
    name, own = key(number), letters(number)
    median = chance.randrange(13, 59)
    timing = f"timing: last recall, minimum: 12 months, median: {median} months, maximum: 60 months"
    told = f"last recall 12 to 60 months (median {median})"
    if is_pooled:
        timing, told = "timing: at, at: 24 months, tolerance: 6 months", "seen at 24 months, give or take 6 months"
    entry = f"""@article{{{name},
  author = {{Author{own}, Ada and Second{own}, Ben}},
  title = {{Repair of {own} in a clinic that does not exist}},
  journal = {{Annals of Imagined Endodontics}}, year = 2019, volume = {1 + number}, pages = {{41--62}},
  doi = {{10.5555/gen.{number}}},
  abstract = {{{"Nothing in this text is true; it stands here because real entries carry an abstract of some length. " * 8}}},
  annotation = {{
    [p. 44, Methods] {treated} teeth treated, {due} due, {total} examined; {told}
    [p. 46, Table 2] healed: {good} of {total} teeth ({_percent(good, total)}%, 95% CI {low}% to {high}%)
    [p. 47, Table 3] up to 3 mm: {good_small} of {small} healed ({_percent(good_small, small)}%)
    [p. 47, Table 4] over 3 mm: {good_large} of {large} healed ({_percent(good_large, large)}%)
    [p. 48] healed, over 3 mm against up to 3 mm: crude OR {ratio} (95% CI {ratio_low} to {ratio_high})
    [p. 49, Table 5] of {total} teeth {kept}% were still there at 5 years, {at_risk} at risk
  }}
}}
"""
    claims = f"""source: {name}
read: {{by: AA, on: 2026-02-03, depth: full text}}
checked: {{by: BB, on: 2026-02-10}}
studies:
  - id: study-{own}
    species: human
    design: cohort
    selection: consecutive
    population: {{dentition: permanent, cause: treatment}}
    setting: {{operators: residents, magnification: microscope, centre: Place {own}, recruited: 2012 to 2016}}
    unit: tooth
    flow: {{treated: {treated}, due: {due}, examined: {total}}}
    where: p. 44, Methods
claims:
  - id: overall
    question: question-{letters(question)}
    outcome: healed
    success_rate: {_percent(good, total)}%
    events: {good}
    total: {total}
    interval: {low}% to {high}%
    where: p. 46, Table 2
    follow_up: {{from: repair, {timing}, where: "p. 44, Methods"}}
  - id: by-size
    question: question-{letters(question)}
    factor: size-{letters(question)}
    known_at: before
    outcome: healed
    reference: up to 3 mm
    levels:
      - {{level: up to 3 mm, events: {good_small}, total: {small}, success_rate: {_percent(good_small, small)}%, where: "p. 47, Table 3"}}
      - {{level: over 3 mm, events: {good_large}, total: {large}, success_rate: {_percent(good_large, large)}%, where: "p. 47, Table 4"}}
    where: p. 47, Table 3
    follow_up: overall
  - id: by-size-ratio
    question: question-{letters(question)}
    factor: size-{letters(question)}
    known_at: before
    outcome: healed
    reference: up to 3 mm
    contrast: {{measure: odds ratio, event: healed, event_is: good, level: over 3 mm, reference: up to 3 mm, value: {ratio}, interval: {ratio_low} to {ratio_high}, adjusted_for: none}}
    where: p. 48
    follow_up: overall
  - id: kept
    question: question-{letters(question)}
    outcome: kept
    estimate: {{kind: survival, at: 5 years, value: {kept}%, starting: {total}, at_risk: {at_risk}, from: repair}}
    where: p. 49, Table 5
    follow_up: not applicable
"""
    return entry, claims


def _odds_ratio(events: int, total: int, reference_events: int, reference_total: int) -> tuple[str, str, str]:
    # Woolf 1955, Ann Hum Genet 19:251-253.
    cells = (events, total - events, reference_events, reference_total - reference_events)
    log_ratio = math.log(cells[0] * cells[3] / (cells[1] * cells[2]))
    error = math.sqrt(sum(1 / cell for cell in cells))
    ends = (log_ratio, log_ratio - 1.959964 * error, log_ratio + 1.959964 * error)
    return tuple(f"{math.exp(end):.2f}" for end in ends)  # type: ignore[return-value]


def _question(question: int, numbers: range) -> str:
    name = letters(question)
    first = key(numbers[0])
    return f"""id: question-{name}
title: What to do about {name}
about: {{species: human, dentition: permanent}}
searched: {{on: 2026-09-12, where: [two bibliographic databases], by: AA}}
ratified: {{by: [AA, BB], on: 2026-10-01}}
answer: Most were healed when last seen (${first}/overall).
stop:
  - {{words: Nothing more through the hole., basis: {{kind: local protocol, state: not set}}}}
is_it_this:
  - {{words: Bleeding from the side and not from the end., basis: {{kind: common practice}}}}
situation:
  - {{factor: size-{name}, ask: "How wide is it?"}}
options:
  - id: repair
    title: Repair now
    for: [{{words: Small ones healed more often., basis: {{kind: study, claim: {first}/by-size}}}}]
    against: []
    ready: [a dry field]
steps:
  - {{words: Isolate and dry the field., basis: {{kind: common practice}}, caution: Stop if it does not settle.}}
call: [{{words: It does not settle., basis: {{kind: local protocol, state: not set}}}}]
factors: [size-{name}]
patient:
  show: [{first}/overall]
  chair: [There is a small hole and we can close it.]
  afterwards: [Tell when and how it was found.]
recall: {{from: treatment, visits: [6 months, 12 months], record: [tenderness], failing: [new swelling]}}
"""
