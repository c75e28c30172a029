"""Ids of figures: the format's own example, and evidence with every shape of a claim, as `figures` prints them."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).parent.parent
Rows = dict[str, dict[str, Any]]

# The format, "Ids of figures": nested fields are further steps; two numbers in one field add low and high, candidates
# 1 and 2; an item of levels, grades or parts is named by its slug, one of shares by its `what`.
SHAPES = {
    "compendium.yaml": """
format: 1
title: Shapes
programme: Nowhere Clinic
demonstration: yes
evidence: {date: 2026-10-30, release: 0.1.0}
licences: {text: CC-BY-4.0, data: CC0-1.0}
repository: https://example.org/nowhere/guide
people: {IM: {name: Ines Marlow, interests: none declared}}
review: {questions: 24 months, status: 1 month}
""",
    "vocabulary.yaml": """
factors:
  arch: {title: Arch, role: prognostic, levels: [{id: upper, title: maxillary}, {id: lower, title: mandibular}]}
  paste: {title: Paste, role: treatment, levels: [{id: a, title: paste A}, {id: b, title: paste B}]}
outcomes:
  healed: {title: healed, construct: success, strictness: strict, basis: film, threshold: normal space, good: yes}
  kept: {title: kept, construct: survival, strictness: not applicable, basis: film, threshold: not lost, good: yes}
  pain: {title: pain, construct: complication, strictness: not applicable, basis: diary, threshold: any, good: no}
""",
    "questions/shapes.yaml": """
id: shapes
title: Every shape of figure
about: {species: human, dentition: permanent}
searched: not recorded
factors: [arch, paste]
""",
    "sources/all.bib": r"""
@article{first2010shapes,
  author = {Alder, Ann}, title = {Shapes}, journal = {Annals of Imagined Endodontics}, year = 2010, pages = {1--20},
  annotation = {
    [p. 2] 1{,}300 eligible; 1,234 teeth treated in 1,100 patients; 1200 due; 1034 examined;
      6 months plus or minus 2 weeks
    [p. 3] of 1034 teeth: maxillary 600 (58.0\%), mandibular 434 (42.0\%)
    [p. 5] maxillary: 550 of 600 teeth (91.7%); mandibular: 380 of 434 teeth (87.6%); P = .03
    [p. 7] of 1034 teeth: healed 930 (89.9%), healing 60 (5.8%), not healed 44 (4.3%)
    [p. 8] kept: 96.5% at 3 years 5 months (95% CI 95.0 to 97.6), of 1034 teeth 310 at risk
    [p. 10] paste A against paste B, P > .9; film against scan, P < .001
    [p. 11] pain, paste B against paste A: mean difference $-3.58$ days (95% CI -8.78 to 1.62)
  }
}
@article{second2015review,
  author = {Birch, Bo}, title = {A review}, journal = {Imagined Reviews in Dentistry}, year = 2015, pages = {30--60},
  annotation = {
    [p. 33] odds ratio 0.62 (95% CI 0.40 to 0.95) for healed, mandibular against maxillary, 5 studies of 430 teeth, I2
      58%; per 1000: 880 maxillary, 820 mandibular (95% CI 746 to 874)
  }
}
""",
    "claims/first2010shapes.yaml": """
source: first2010shapes
read: {by: IM, on: 2026-02-03, depth: full text}
studies:
  - id: nowhere-2000
    species: human
    design: cohort
    selection: consecutive
    population: {dentition: permanent}
    setting: {operators: residents}
    unit: tooth
    flow: {eligible: "1,300", treated: "1,234", due: 1200, examined: 1034}
    patients: {treated: "1,100"}
    shares:
      - of: 1034
        what: arch
        parts: [{level: maxillary, count: 600, share: 58.0%}, {level: mandibular, count: 434, share: 42.0%}]
        where: p. 3
    where: p. 2
claims:
  - id: by-arch
    question: shapes
    factor: arch
    known_at: before
    outcome: healed
    reference: maxillary
    levels:
      - {level: maxillary, events: 550, total: 600, success_rate: 91.7%}
      - {level: mandibular, events: 380, total: 434, success_rate: 87.6%}
    test: {between: [maxillary, mandibular], p: .03}
    where: p. 5
    follow_up: {from: treatment, timing: at, at: 6 months, tolerance: 2 weeks, where: p. 2}
  - id: grades
    question: shapes
    outcome: healed
    total: 1034
    grades:
      - {outcome: healed, events: 930, rate: 89.9%}
      - {words: healing, events: 60, rate: 5.8%}
      - {words: not healed, events: 44, rate: 4.3%}
    where: p. 7
    follow_up: by-arch
  - id: kept
    question: shapes
    outcome: kept
    estimate: {kind: survival, at: 3 years 5 months, value: 96.5%, interval: 95.0% to 97.6%, starting: 1034,
               at_risk: 310, from: treatment}
    where: p. 8
    follow_up: not applicable
  - id: tests
    question: shapes
    outcome: pain
    test: [{between: [paste A, paste B], p: ">.9"}, {between: [film, scan], p: <.001}]
    where: p. 10
    follow_up: not reported
  - id: days
    question: shapes
    factor: paste
    known_at: during
    outcome: pain
    reference: paste A
    contrast: {measure: mean difference, value: -3.58, interval: -8.78 to 1.62, level: paste B, reference: paste A,
               adjusted_for: none, unit: day}
    where: p. 11
    follow_up: not reported
""",
    "claims/second2015review.yaml": """
source: second2015review
read: {by: IM, on: 2026-02-03, depth: full text}
studies:
  - {id: a-review, species: human, design: systematic review, selection: not applicable,
     population: {dentition: permanent}, setting: not reported, unit: tooth}
claims:
  - id: pooled
    question: shapes
    factor: arch
    known_at: before
    outcome: healed
    reference: maxillary
    contrast: {measure: odds ratio, event: healed, event_is: good, value: 0.62, interval: 0.40 to 0.95,
               level: mandibular, reference: maxillary, adjusted_for: none,
               absolute: {per: 1000, reference: 880, level: 820, interval: 746 to 874}}
    pooled: {studies: 5, of: 430, i2: 58%}
    where: p. 33
    follow_up: not reported
""",
}
SHAPES_SHOWN = """
first2010shapes/studies/nowhere-2000/flow/eligible                 1,300             1300   tooth
first2010shapes/studies/nowhere-2000/flow/examined                 1034              1034   tooth
first2010shapes/studies/nowhere-2000/patients/treated              1,100             1100   patient
first2010shapes/studies/nowhere-2000/shares/arch/of                1034              1034   tooth
first2010shapes/studies/nowhere-2000/shares/arch/maxillary/share   58.0%             58.0   %
first2010shapes/by-arch/mandibular/events                          380               380    tooth
first2010shapes/by-arch/mandibular/total                           434               434    tooth
first2010shapes/by-arch/mandibular/success_rate                    87.6%             87.6   %
first2010shapes/by-arch/test/p                                     .03               0.03   P
first2010shapes/by-arch/follow_up/at                               6                 6      month
first2010shapes/by-arch/follow_up/tolerance                        2                 2      week
first2010shapes/grades/total                                       1034              1034   tooth
first2010shapes/grades/healed/events                               930               930    tooth
first2010shapes/grades/not-healed/rate                             4.3%              4.3    %
first2010shapes/kept/estimate/at                                   3 years 5 months  41     month
first2010shapes/kept/estimate/value                                96.5%             96.5   %
first2010shapes/kept/estimate/interval/low                         95.0              95.0   %
first2010shapes/kept/estimate/at_risk                              310               310    tooth
first2010shapes/tests/test/1/p                                     > .9              0.9    P
first2010shapes/tests/test/2/p                                     < .001            0.001  P
first2010shapes/days/contrast/value                                -3.58             -3.58  mean difference
first2010shapes/days/contrast/interval/high                        1.62              1.62   mean difference
second2015review/pooled/contrast/value                             0.62              0.62   odds ratio
second2015review/pooled/contrast/interval/low                      0.40              0.40   odds ratio
second2015review/pooled/contrast/absolute/level                    820               820    none
second2015review/pooled/contrast/absolute/interval/high            874               874    none
second2015review/pooled/pooled/of                                  430               430    tooth
second2015review/pooled/pooled/studies                             5                 5      study
second2015review/pooled/pooled/i2                                  58%               58     %
"""
EXAMPLE_QUOTED = """
arden2023recall/film-and-volume/pairs/ both neither only_a only_b
arden2023recall/last-visit/ events total/1 total/2
arden2023recall/size-multirooted/ follow_up/at over-3-mm/events over-3-mm/level over-3-mm/total reference
arden2023recall/size-multirooted/within/roots/ level
arden2023recall/size-reversal/ contrast/interval/high contrast/interval/low contrast/level contrast/p
arden2023recall/size-reversal/ contrast/reference contrast/value reference
arden2023recall/stayed-healed/estimate/ at at_risk interval/high interval/low starting value
marlow2019furcal/by-size/ over-3-mm/events over-3-mm/level over-3-mm/success_rate over-3-mm/total reference
marlow2019furcal/by-size/up-to-3-mm/ events level success_rate total
marlow2019furcal/overall/ events follow_up/maximum follow_up/median follow_up/minimum success_rate total
marlow2019furcal/studies/fenwick-2012/flow/ due examined treated
"""


def figures(root: Path) -> Rows:
    """Every row that `figures` prints for one folder of evidence, by id."""
    done = subprocess.run(
        [sys.executable, "-m", "builder", "figures", "--root", str(root)], cwd=ROOT, capture_output=True, text=True
    )
    assert done.returncode == 0, done.stderr
    return {row["id"]: row for row in map(json.loads, done.stdout.splitlines())}


@pytest.fixture(scope="module")
def shapes(tmp_path_factory: pytest.TempPathFactory) -> Rows:
    root = tmp_path_factory.mktemp("shapes")
    for name, text in SHAPES.items():
        (root / "evidence" / name).parent.mkdir(parents=True, exist_ok=True)
        (root / "evidence" / name).write_text(text.lstrip("\n"), "utf-8")
    return figures(root)


def test_the_example_of_the_format_has_the_ids_that_the_format_defines() -> None:
    expected = set()
    for line in EXAMPLE_QUOTED.strip().splitlines():
        head, *fields = line.split()
        expected.update(head + field for field in fields)
    assert {name for name, row in figures(ROOT / "tests" / "example").items() if row["proof"]} == expected


@pytest.mark.parametrize("shown", SHAPES_SHOWN.strip().splitlines(), ids=lambda line: line.split()[0])
def test_each_shape_of_a_claim_has_its_id_text_value_and_unit(shapes: Rows, shown: str) -> None:
    name, text, value, unit = re.split(r"\s{2,}", shown)
    row = shapes[name]
    assert (row["text"], row["value"], row["unit"]) == (text, value, unit)


def test_an_inherited_follow_up_keeps_the_id_of_the_claim_that_typed_it(shapes: Rows) -> None:
    assert [name for name in shapes if name.startswith("first2010shapes/grades/follow_up")] == []
