"""Tables typed with other signs than bars: what is read, and what is shown of them.

The ways of typing are common practice, no source; all figures are invented.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from passageproof.printed.typed_rows import with_bars
from passageproof.proof.proof import Audit

TABLES = {
    "as TeX": (r"Status & n \\ Healed & 39 \\ Not healed & 8 \\", r"Status | n .  Healed | 39 .  Not healed | 8 . "),
    "lines with commas": ("Status,n\nHealed,39\nNot healed,8", "Status|n\nHealed|39\nNot healed|8"),
    "lists with commas": ("Year: 2, 5, 8. At risk: 79, 41, 18.", "Year: 2; 5; 8. At risk: 79; 41; 18."),
    "run into one line": ("Status n % Healed 39 83 Not healed 8 17", "Status|n|%;Healed|39|83;Not healed|8|17"),
}


@pytest.mark.parametrize(("typed", "barred"), TABLES.values(), ids=TABLES)
def test_other_signs_become_bars_where_they_stand(typed: str, barred: str) -> None:
    assert with_bars(typed) == barred
    assert len(barred) == len(typed)


@pytest.mark.parametrize("typed", ["39 of 47 healed, 8 did not.", "Smith & Jones saw 39 of 47.", "a | b\n39 | 47"])
def test_prose_and_bars_stay_as_they_are(typed: str) -> None:
    assert with_bars(typed) == typed


TABLE = "Status,n\nHealed,39\nNot healed,8\nTotal,47"
ENTRY = f"""\
@article{{x,
  author = {{Marlow, Ines}}, title = {{T}}, journal = {{J}}, year = 2019,
  annotation = {{
[p. 2] {TABLE}
  }}
}}
"""
CLAIM = """\
- id: c
  question: hole
  outcome: OUTCOME
  follow_up: not reported
  where: p. 2
  events: 39
  total: 47
"""


@pytest.mark.parametrize("outcome", ["healed", "diseased"])
def test_a_proof_shows_its_passage_as_somebody_typed_it(
    audited: Callable[..., Audit], report_text: Callable[..., str], outcome: str
) -> None:
    report = report_text("x", CLAIM.replace("OUTCOME", outcome))
    found = audited({"claims/x.yaml": report, "sources/x.bib": ENTRY})
    assert {proof.passage.text for proof in found.proofs.values()} == {TABLE}
    asked = [problem.message for problem in found.problems if problem.is_open]
    assert bool(asked) == (outcome == "diseased")
    assert not any("|" in said for said in asked)
