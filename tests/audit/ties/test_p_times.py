"""A P value of another time than the claim's. Wordings: common practice of reports, no source; figures are invented."""

from __future__ import annotations

import pytest

from .conftest import Asked

FILES = {
    "vocabulary.yaml": """\
factors:
  material:
    {title: Material, role: treatment, levels: [{id: mta, title: MTA}, {id: ca, title: calcium hydroxide}]}
outcomes:
  pain: {title: pain, construct: told, strictness: not applicable, basis: asked, threshold: any, good: no}
"""
}
CLAIM = """\
outcome: pain
factor: material
known_at: during
reference: calcium hydroxide
levels:
  - {{level: MTA, direction: not stated, stated: words only}}
test: {{between: [MTA, calcium hydroxide], p: {0}}}
follow_up: {{from: treatment, timing: at, at: {1}, tolerance: not reported}}
"""
PASSAGES = (
    "Pain was less after MTA than after calcium hydroxide at 24 and 72 hours: P = .004 and P = .31, respectively.",
    "Pain after MTA and calcium hydroxide differed at 24 but not at 72 hours (P = .004 and P = .31, respectively).",
    "MTA against calcium hydroxide, pain at 24 h and 72 h: P = .004 and .31.",
    "Pain was rarer with MTA than with calcium hydroxide at 24 hours (P = .004), and no longer at 72 hours (P = .31).",
    "The P values for pain, MTA against calcium hydroxide, were .004 and .31 at 24 and 72 hours, respectively.",
    "At 24 hours, MTA against calcium hydroxide, P = .004 for pain; at 72 hours P = .31.",
    "Pain with MTA versus calcium hydroxide: P = .004 at 24 hours and P = .31 at 72 hours.",
    "The groups MTA and calcium hydroxide differed in pain at 24 hours, P = .004, not at 72 hours, P = .31.",
    "Time | MTA pain | calcium hydroxide pain | P\n24 h | 9 of 50 | 20 of 50 | .004\n72 h | 4 of 50 | 7 of 50 | .31",
    "Pain (MTA vs calcium hydroxide)\n | 24 h | 72 h\nP | .004 | .31",
)


@pytest.mark.parametrize("passage", PASSAGES)
def test_a_p_value_of_another_time_is_asked_about(open_problems: Asked, passage: str) -> None:
    for p, of in ((".004", "24 hours"), (".31", "72 hours")):
        for typed in ("24 hours", "72 hours"):
            found = [problem.rule for problem in open_problems(passage, CLAIM.format(p, typed), files=FILES)]
            assert found == ([] if of == typed else ["other-time"]), (p, typed)


def test_one_p_value_with_two_times_before_it_is_of_neither(open_problems: Asked) -> None:
    passage = "Pain was rarer after MTA than after calcium hydroxide at 24 and at 72 hours (P = .004)."
    assert open_problems(passage, CLAIM.format(".004", "72 hours"), files=FILES) == []
