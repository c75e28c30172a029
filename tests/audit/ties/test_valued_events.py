"""Outcomes told in words put together: a poor outcome is no success, the loss of 8 teeth no survival of theirs."""

from __future__ import annotations

from collections.abc import Callable

import pytest

POOR = [
    "A poor outcome was seen in {9 of 50} teeth.",
    "The outcome was poor in {9 of 50} teeth.",
    "Poor results: {9 of 50} teeth.",
    "The outcome was unfavourable in {9 of 50} teeth.",
    "Outcome was unsatisfactory in {9 of 50} teeth.",
    "A bad result was recorded for {9 of 50} teeth.",
    "The result was judged inadequate in {9 of 50} teeth.",
    "In {9 of 50} teeth the outcome was not favourable.",
    "A negative outcome was recorded in {9 of 50} teeth.",
    "Undesirable outcomes: {9 of 50} teeth.",
    "Unacceptable results were found in {9 of 50} teeth.",
    "There were {9 of 50} poor outcomes.",
    "{9 of 50} teeth did badly.",
    "{9 of 50} teeth fared poorly.",
    "Deterioration was seen in {9 of 50} teeth.",
    "{9 of 50} teeth had worsened.",
    "The outcome was good in 41 of 50, and poor in {9 of 50} teeth.",
    "The result of treatment turned out to be poor in {9 of 50} teeth.",
]
GOOD = [
    "Of 50 teeth with a poor restoration {9 of 50} healed.",
    "Poor hygiene notwithstanding, {9 of 50} teeth healed.",
    "Healing was seen in {9 of 50} teeth, a poor result.",
    "A favourable outcome was seen in {9 of 50} teeth.",
    "A good outcome was seen in {9 of 50} teeth.",
    "A positive outcome was recorded in {9 of 50} teeth.",
    "The outcome was good in {9 of 50} teeth.",
    "The outcome was good in {9 of 50}, and poor in 41 of 50 teeth.",
    "Satisfactory results: {9 of 50} teeth.",
    "In poorly filled canals {9 of 50} teeth healed.",
    "Adequate healing was seen in {9 of 50} teeth.",
    "The test gave a negative result in {9 of 50} teeth.",
]


@pytest.mark.parametrize("passage", POOR)
def test_poor_outcome_is_no_success_and_a_failure(rules: Callable[..., list[str]], passage: str):
    assert set(rules("healed", passage)) & {"event-opposite", "event-denied"}
    assert rules("failed", passage) == []


@pytest.mark.parametrize("passage", GOOD)
def test_good_outcome_is_a_success(rules: Callable[..., list[str]], passage: str):
    assert rules("healed", passage) == []


LOSS = [
    "Treatment ended in the loss of {8 of 50} teeth.",
    "There was loss of {8 of 50} teeth.",
    "{8 of 50} teeth had to be taken out.",
    "Losses: {8 of 50} teeth.",
    "Loss occurred in {8 of 50} teeth.",
    "{8 of 50} teeth were no longer in the mouth.",
    "The loss of {8 of 50} teeth was recorded.",
    "{8 of 50} teeth were removed.",
]
NO_LOSS = [
    "{8 of 50} teeth survived, despite loss of bone.",
    "{8 of 50} teeth with bone loss were retained.",
    "{8 of 50} teeth with loss of attachment survived.",
    "{8 of 50} teeth survived; loss to follow-up was 3 teeth.",
    "After loss of the crown {8 of 50} teeth were kept.",
    "{8 of 50} teeth survived without any loss of bone.",
]


@pytest.mark.parametrize("passage", LOSS)
def test_loss_of_what_is_counted_is_no_survival(rules: Callable[..., list[str]], passage: str):
    assert rules("kept", passage) == ["event-opposite"]
    assert rules("lost", passage) == []


@pytest.mark.parametrize("passage", NO_LOSS)
def test_loss_of_something_else_says_nothing_against_survival(rules: Callable[..., list[str]], passage: str):
    assert rules("kept", passage) == []
