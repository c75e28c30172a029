"""A number of before the treatment is asked about where a claim has it as a result; one of afterwards is not."""

from __future__ import annotations

from collections.abc import Callable

import pytest

Case = tuple[str, str]
"""The outcome that the claim names, and a passage with the numbers of the claim in braces."""

BEFORE: list[Case] = [
    ("vital", "Prior to surgery, {39 of 47} pulps were vital."),
    ("vital", "{39 of 47} pulps were vital prior to endodontic treatment."),
    ("vital", "Before pulp capping {39 of 47} pulps were vital."),
    ("vital", "Before the capping, cold testing found {39 of 47} vital."),
    ("vital", "{39 of 47} pulps were vital before capping."),
    ("vital", "Vital before capping: {39 of 47}."),
    ("pain", "When first seen, pain was felt by {8 of 47}."),
    ("pain", "{8 of 47} had pain when first examined."),
    ("vital", "On the day of surgery {39 of 47} pulps were vital."),
    ("vital", "Immediately after capping, {39 of 47} pulps were vital."),
    ("pain", "Pain was felt by {8 of 47} before and by 2 of 47 after treatment."),
    ("pain", "Pain (before: {8 of 47}; after: 2 of 47)."),
    ("pain", "Pain | Before | After\n    all | {8 of 47} | 2 of 47"),
    ("pain", "Pain | Pre-op | Post-op\n    all | {8 of 47} | 2 of 47"),
    ("vital", "In {39 of 47} teeth the pulp was vital before drilling."),
    ("vital", "Ahead of capping, {39 of 47} pulps were vital."),
    ("pain", "Pain fell from {8 of 47} to 2 of 47."),
    ("pain", "Pain was felt by {8 of 47} before capping in the 47 patients and by 2 of 47 when it was done."),
    ("pain", "The number in pain dropped from {8 of 47} (17%) to 2 of 47."),
    ("pain", "Pain before treatment -> after: {8 of 47} -> 2 of 47"),
    ("pain", "Probing and pain, n (n = 47): baseline {8 of 47}; 6 months 2 of 47"),
]

AFTERWARDS: list[Case] = [
    ("pain", "Pain fell from 20 of 47 to {8 of 47}."),
    ("pain", "Pain fell from {8 of 47} at 1 day to 2 of 47 at 7 days."),
    ("pain", "Probing and pain, n (n = 47): baseline 20 of 47; 6 months {8 of 47}"),
    ("pain", "Pain: T0 20 of 47, T6 {8 of 47}"),
    ("pain", "With plates, as opposed to pins, pain fell, and {8 of 47} had it."),
    ("pain", "Before capping, the cavity was rinsed with saline; pain was felt by {8 of 47}."),
    ("pain", "Before capping, the cavity was rinsed and pain was later felt by {8 of 47}."),
    ("pain", "Pain was felt by 20 of 47 when they were enrolled, falling to {8 of 47}."),
    ("pain", "At baseline 20 of 47 had pain, which came down to {8 of 47}."),
    ("pain", "Before healing, {8 of 47} had pain."),
    ("pain", "Pain was felt by 20 of 47 before and by {8 of 47} after treatment."),
    ("pain", "Pain (before: 20 of 47; after: {8 of 47})."),
    ("pain", "Pain | Before | After\n    all | 20 of 47 | {8 of 47}"),
    ("vital", "Before capping, 50 of 52 pulps were vital; {39 of 47} were so when the trial ended."),
    ("vital", "Of teeth that were symptom free before capping {39 of 47} stayed vital."),
    ("vital", "{39 of 47} teeth that had been painful before capping were vital."),
    ("vital", "{39 of 47} teeth with pain before treatment were vital at recall."),
    ("pain", "Teeth with a lesion before treatment gave pain in {8 of 47}."),
    ("extruded", "Immediately after filling, extruded material was seen in {8 of 47}."),
    ("pain", "On the day of treatment {8 of 47} had pain."),
    ("kept", "Before crowning, all teeth were rebuilt; {39 of 47} survived."),
    ("vital", "Never before had so many been seen: {39 of 47} vital after a year."),
    ("vital", "Cavities were dried before capping, and {39 of 47} pulps remained vital."),
    ("vital", "Cavities were dried before capping; {39 of 47} pulps remained vital."),
    ("vital", "After capping {39 of 47} pulps were vital."),
    ("healed", "Before rounding, {39 of 47} healed."),
    ("pain", "Those in pain before treatment had it in {8 of 47} after."),
    ("pain", "Before the appointment, consent was taken; on recall {8 of 47} had pain."),
    ("pain", "Before filling, canals were dried with paper points, and pain was felt by {8 of 47}."),
    ("pain", "Prior to treatment all had pain; {8 of 47} still had it at recall."),
    ("vital", "Pulps that bled before capping were vital in {39 of 47}."),
    ("vital", "With bleeding stopped before capping, {39 of 47} pulps stayed vital."),
    ("vital", "If bleeding stopped before capping, {39 of 47} pulps stayed vital."),
    ("pain", "In teeth without pain before treatment, pain arose in {8 of 47}."),
    ("pain", "Pain before and after treatment: 20 of 47 and {8 of 47}."),
    ("pain", "Taken before treatment, the drug left pain in {8 of 47}."),
    ("pain", "Given an hour before treatment, ibuprofen left {8 of 47} with pain."),
    ("pain", "After ibuprofen before treatment {8 of 47} had pain."),
    ("pain", "Rinsing before sealing left pain in {8 of 47}."),
    ("extruded", "Material extruded immediately after filling: {8 of 47}."),
    ("kept", "Teeth crowned immediately after treatment: {39 of 47} survived."),
    ("vital", "Capped immediately after exposure, {39 of 47} pulps were vital."),
    ("vital", "In teeth restored on the day of treatment, {39 of 47} pulps were vital."),
    ("vital", "{39 of 47} pulps were vital in teeth restored on the day of treatment."),
    ("vital", "Restored immediately after capping, {39 of 47} pulps were vital."),
    ("vital", "{39 of 47} of the teeth restored immediately after capping were vital."),
    ("vital", "With a crown placed directly after capping, {39 of 47} pulps were vital."),
    ("healed", "The sample was 60, as calculated beforehand; {39 of 47} healed."),
]


@pytest.mark.parametrize(("outcome", "passage"), BEFORE)
def test_number_of_before_the_treatment_is_asked_about(rules: Callable[..., list[str]], outcome: str, passage: str):
    assert rules(outcome, passage) == ["result-at-start"]


@pytest.mark.parametrize(("outcome", "passage"), AFTERWARDS)
def test_number_of_afterwards_is_not(rules: Callable[..., list[str]], outcome: str, passage: str):
    assert rules(outcome, passage) == []


AT_A_YEAR = "follow_up: {from: treatment, timing: at, at: 1 year, tolerance: not reported}"


@pytest.mark.parametrize(
    "passage",
    [
        "Immediately after capping, 39 of 47 pulps were vital; at 1 year 30 of 47.",
        "On the day of treatment, 39 of 47 pulps were vital; at 1 year 30 of 47.",
        "Before capping, 39 of 47 pulps were vital; at 1 year, 30 of 47.",
        "Vital pulps: 39 of 47 before capping and 30 of 47 1 year later.",
        "Vital pulps: before 39 of 47, after 1 year 30 of 47.",
    ],
)
def test_number_of_the_treatment_is_none_of_a_year_later(rules_of: Callable[..., list[str]], passage: str):
    claim = f"id: a\nquestion: hole\noutcome: vital\nevents: {{}}\ntotal: 47\nwhere: p. 1\n{AT_A_YEAR}\n"
    assert "result-at-start" in rules_of(passage, claim.replace("{}", "39"))
    assert rules_of(passage, claim.replace("{}", "30")) == []
