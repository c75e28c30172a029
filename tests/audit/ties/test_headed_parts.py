"""A part that the title of a passage names. Wordings: common practice of reports, no source; figures are invented."""

from __future__ import annotations

import pytest

from .conftest import Asked

FILES = {
    "vocabulary.yaml": """\
factors:
  kind:
    title: Tooth
    role: prognostic
    levels: [{id: m, title: molar, synonyms: [molars]}, {id: p, title: premolar, synonyms: [premolars]}]
outcomes:
  healed: {title: healed, construct: success, strictness: not reported, basis: film, threshold: normal, good: yes}
"""
}
ALL = "[p. 1, Methods] In all 92 teeth were repaired, of which 69 of 92 healed."
HEADED = (
    f"{ALL}\n[p. 2] Outcome in molars. Healing was complete in 39 of 47.",
    f"{ALL}\n[p. 2] Outcome of repair in molars\nOutcome | n | %\nHealed | 39 of 47 | 83%\nNot healed | 8 of 47 | 17%",
    f"{ALL}\n[p. 2] Women\nOutcome | n | %\nHealed | 39 of 47 | 83%\nNot healed | 8 of 47 | 17%",
    "[p. 1] The records held 47 molars and 45 premolars.\n[p. 2] Table 3. Outcome in molars\nHealed | 39 of 47",
)


@pytest.mark.parametrize("passages", HEADED)
def test_figures_under_the_title_of_a_part_are_asked_about(open_problems: Asked, passages: str) -> None:
    claim = "events: 39\ntotal: 47"
    assert [problem.rule for problem in open_problems(passages, claim, files=FILES)] == ["figure-of-a-part"]
    whom = "women" if "Women" in passages else "molars"
    assert open_problems(passages, f"{claim}\ngiven: {whom}", files=FILES) == []


SILENT = (
    "[p. 2] Outcome in molars. Healing was complete in 39 of 47.",
    "[p. 1] All 47 molars were repaired.\n[p. 2] Outcome in molars. Healing was complete in 39 of 47.",
    "[p. 1] Repairs of molars, 47 of them.\n[p. 2] Repair in molars\nHealed | 39 of 47\nNot healed | 8 of 47",
)


@pytest.mark.parametrize("passages", SILENT)
def test_the_title_of_all_that_there_are_names_no_part(open_problems: Asked, passages: str) -> None:
    assert open_problems(passages, "events: 39\ntotal: 47", files=FILES) == []
