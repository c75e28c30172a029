"""A figure of some of a review's studies typed for all. Wordings: common practice of reviews, no source."""

from __future__ import annotations

import pytest

from .conftest import STUDY, Asked

REVIEW = STUDY.replace("design: cohort", "design: systematic review")
CLAIM = "events: not reported\ntotal: not reported\nsuccess_rate: "
PASSAGES = (
    "In 12 trials (1,204 teeth) 85% healed; the subgroup of 5 trials at low risk of bias gave 79%.",
    "Twelve trials gave a pooled success of 85%; the subgroup of 5 trials gave 79%.",
    "Across all 12 trials 85% healed; in the 5 trials with blinded assessors 79% did.",
    "The pooled rate of healing over 12 studies was 85% (95% CI 80 to 90). A subgroup of 5 studies gave 79%.",
    "Pooled healing was 85% (12 trials). Restricting the analysis to the 5 trials at low risk of bias gave 79%.",
    "Pooled healing was 85% (12 trials). Leaving out the 7 trials at high risk of bias, it was 79%.",
    "Pooled healing: 85% over 12 trials; 79% over the subgroup of 5 randomised trials.",
    "Healing was pooled from 12 trials at 85%. In a sensitivity analysis of 5 trials at low risk it was 79%.",
    "Healing was 85% in all twelve trials and 79% in the subgroup of five trials.",
)


@pytest.mark.parametrize("passage", PASSAGES)
def test_a_figure_of_fewer_studies_is_asked_about(open_problems: Asked, passage: str) -> None:
    assert open_problems(passage, f"{CLAIM}85%", REVIEW) == []
    assert open_problems(passage, f"{CLAIM}79%", REVIEW) != []


SILENT = (
    "Pain was pooled from 12 trials at 8%. Healing was reported in 5 trials (79%).",
    "Twelve trials were found. The 5 trials that reported healing gave 79%.",
    "Of 12 trials, the 5 with data on healing gave 79%.",
)


@pytest.mark.parametrize("passage", SILENT)
def test_all_that_report_an_outcome_are_no_part(open_problems: Asked, passage: str) -> None:
    assert open_problems(passage, f"{CLAIM}79%", REVIEW) == []
