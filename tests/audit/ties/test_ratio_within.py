"""A ratio of one subgroup typed for another. The ways of print are common practice of reports, no source."""

from __future__ import annotations

import pytest

from .conftest import Asked
from .test_parts_of_a_whole import FILES, RATIO

MOLARS, PREMOLARS = (f"within: [{{factor: tooth, level: {level}}}]\n" for level in ("molars", "premolars"))
OF_MOLARS, OF_PREMOLARS = RATIO.format("3.9", "1.7 to 8.9"), RATIO.format("1.2", "0.6 to 2.4")

OF_TWO = {
    "sentences": "In molars the odds ratio of healing was 3.9 (95% CI 1.7 to 8.9), MTA against calcium hydroxide. In "
    "premolars it was 1.2 (95% CI 0.6 to 2.4), MTA against calcium hydroxide.",
    "semicolon": "Healed, MTA versus calcium hydroxide: molars, OR 3.9 (95% CI 1.7 to 8.9); premolars, OR 1.2 (95% CI "
    "0.6 to 2.4)",
    "did not": "In molars MTA, compared with calcium hydroxide, raised the odds of healing (OR 3.9, 95% CI 1.7 to "
    "8.9); in premolars it did not (OR 1.2, 95% CI 0.6 to 2.4).",
    "rows": "Odds ratio of healing, MTA versus calcium hydroxide\n Teeth | n | OR (95% CI)\n Molars | 92 | 3.9 (1.7 to "
    "8.9)\n Premolars | 88 | 1.2 (0.6 to 2.4)",
    "list": "Odds ratio of healing (95% CI), MTA versus calcium hydroxide\n Molars: 3.9 (1.7 to 8.9)\n Premolars: 1.2 "
    "(0.6 to 2.4)",
    "columns": "MTA versus calcium hydroxide | Molars | Premolars\n Healed, OR (95% CI) | 3.9 (1.7 to 8.9) | 1.2 (0.6 "
    "to 2.4)",
    "brackets": "The odds ratio of healing for MTA against calcium hydroxide differed: 3.9 (molars; 95% CI 1.7 to 8.9) "
    "and 1.2 (premolars; 95% CI 0.6 to 2.4).",
    "in turn": "The odds ratios of healing for MTA versus calcium hydroxide in molars and premolars were 3.9 (95% CI "
    "1.7 to 8.9) and 1.2 (95% CI 0.6 to 2.4), respectively.",
}  # fmt: skip


@pytest.mark.parametrize("passage", OF_TWO.values(), ids=OF_TWO)
def test_a_ratio_of_another_subgroup_is_asked_about(open_problems: Asked, passage: str) -> None:
    for wrong in (PREMOLARS + OF_MOLARS, MOLARS + OF_PREMOLARS):
        asked = open_problems(passage, wrong, files=FILES)
        assert "other-level" in {each.rule for each in asked}, wrong
    for right in (MOLARS + OF_MOLARS, PREMOLARS + OF_PREMOLARS):
        assert not open_problems(passage, right, files=FILES)


TURNED = {
    "than": "MTA did better against calcium hydroxide in molars than in premolars (OR in molars 3.9, 95% CI 1.7 to "
    "8.9).",
    "unlike": "In molars, unlike in premolars, MTA did better than calcium hydroxide (OR 3.9, 95% CI 1.7 to 8.9).",
    "only": "No difference was seen in premolars, but in molars MTA healed more often than calcium hydroxide (OR 3.9, "
    "95% CI 1.7 to 8.9).",
    "set aside": "With premolars set aside, MTA healed more often than calcium hydroxide (OR 3.9, 95% CI 1.7 to 8.9).",
    "not": "In contrast to premolars, MTA healed molars more often than calcium hydroxide (OR 3.9, 95% CI 1.7 to 8.9).",
    "interaction": "The odds ratio for MTA against calcium hydroxide was larger among molars, 3.9 (95% CI 1.7 to 8.9), "
    "than among premolars.",
}  # fmt: skip


@pytest.mark.parametrize("passage", TURNED.values(), ids=TURNED)
def test_a_subgroup_that_is_only_compared_with_is_none(open_problems: Asked, passage: str) -> None:
    assert not open_problems(passage, MOLARS + OF_MOLARS, files=FILES)
