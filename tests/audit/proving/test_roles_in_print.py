"""Sixty honest ways of saying that somebody was treated, followed, examined or measured cost no question.

The phrasings are common practice of clinical papers, no source; all figures are invented.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from meaning.cases import answer, read_cases
from passageproof.problems import as_text

CASES = read_cases(Path(__file__).parent / "roles_in_print.yaml")


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["case"])
def test_honest_phrasing_is_neither_refused_nor_asked_about(case: dict[str, str]) -> None:
    found = answer(case)
    assert [as_text(problem) for problem in (*found.errors, *found.asks)] == []


def test_every_kind_of_print_has_ten() -> None:
    kinds = [case["case"].partition(",")[0] for case in CASES]
    assert {kind: kinds.count(kind) for kind in kinds} == dict.fromkeys(
        ("prose", "abstract", "table", "flow", "survival", "model"), 10
    )


CLAIM = """\
- id: c
  outcome: healed
  events: {}
  total: {}
  where: p. 7
  follow_up: not reported
"""


@pytest.mark.parametrize(
    ("passage", "events", "total"),
    [
        ("71 were treated and 62 examined; 59 healed", 62, 71),
        ("Treated 71, examined 62, healed 59", 62, 71),
        ("39 of 47 were examined again", 39, 47),
        ("12 women and 59 men took part; of the 71 teeth 59 healed", 12, 71),
    ],
)
def test_number_to_which_another_role_is_bound_is_asked_about(passage: str, events: int, total: int) -> None:
    found = answer({**CASES[0], "passages": f"[p. 7] {passage}", "claims": CLAIM.format(events, total)})
    assert {"figure-means-something-else", "event-other"} & {problem.rule for problem in found.asks}
    assert not found.errors
