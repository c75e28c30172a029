"""Which event was counted: another outcome, the other side, a denial and another strictness are asked about."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
import yaml
from passageproof.problems import Problem

Case = tuple[str, str]
"""The outcome that the claim names, and a passage with the numbers of the claim in braces."""

WRONG: list[Case] = [
    ("vital", "Pulps became necrotic in {8 of 47} teeth; all others remained vital."),
    ("vital", "Necrosis occurred in {8 of 47} teeth within three years."),
    ("healed", "{8 of 47} teeth judged successful after one year were no longer successful in year five."),
    ("healed", "{8 of 47} teeth considered healed at first could not be regarded as healed later."),
    ("healed", "{8 of 47} teeth classified as healed no longer counted as healed at five years."),
    ("vital", "{8 of 47} teeth had turned necrotic."),
    ("vital", "The pulps of {8 of 47} teeth were nonvital at one year."),
    ("kept", "Loss of the replanted tooth was recorded in {8 of 47} cases."),
    ("healed", "At 2 years {39 of 47} teeth were free of pain."),
    ("healed", "Pain was absent in {39 of 47} teeth."),
    ("healed", "{39 of 47} teeth were painless at recall."),
    ("healed", "Pain 39 of 47. Swelling {47 of 60}. Fever {83%}."),
    ("healed", "The teeth survived in {39 of 47} cases."),
    ("healed", "{39 of 47} teeth were retained and functional at five years; of these 30 had healed."),
    ("kept", "Of the teeth examined {39 of 47} had healed completely."),
    ("kept", "Success was recorded in {39 of 47} teeth."),
    ("healed", "No swelling was seen in {39 of 47} teeth."),
    ("healed", "Technical success was obtained in {39 of 47} teeth."),
    ("healed", "{39 of 47} teeth were satisfied with the outcome."),
    ("healed", "Discolouration was seen in {8 of 47} crowns."),
    ("healed", "{8 of 47} teeth had fractured."),
    ("healed", "A radiolucency remained in {8 of 47} teeth."),
    ("pain", "Swelling was reported by {8 of 47} teeth."),
    ("pain", "Tooth healed: {39 of 47}"),
    ("healed", "Outcome at 2 years | n\n Pain | {39 of 47}\n Healed | 30 of 47"),
    ("healed", "Group | Healed | Pain\n MTA | 30 of 47 | {39 of 47}"),
    ("healed", "Pain (n = 60), fever (n = 2); tooth retention {39 of 47}"),
    ("fracture", "Extrusion occurred in {8 of 47} teeth, root fracture in 3 of 47."),
    ("extruded", "Extrusion occurred in 9 of 47 teeth, root fracture in {3 of 47}."),
    ("lost", "{3 of 47} teeth had a root fracture"),
    ("pain", "Pain, swelling and fever occurred in 12 of 47, {8 of 47} and 2 of 47 patients"),
    ("healed", "{39 of 47} teeth were healed or healing"),
    ("healed", "Healed and improved: {39 of 47} teeth"),
    ("healed", "Complete or incomplete healing was seen in {39 of 47} teeth"),
    ("healed", "{8 of 47} showed incomplete healing"),
    ("healing", "Complete healing was seen in {39 of 47} teeth."),
    ("healing", "Healed: {39 of 47}"),
    ("healed", "By lenient criteria {39 of 47} healed."),
    ("healing", "By strict criteria {39 of 47} had healed."),
    ("healed", "{8 of 47} teeth failed."),
    ("healed", "Failures: {8 of 47}"),
    ("failed", "{39 of 47} healed, the others did not."),
    ("failed", "Success {39 of 47}"),
    ("kept", "{8 of 47} teeth were extracted"),
    ("lost", "Tooth survival was {39 of 47}"),
    ("healed", "failure rate {17%}"),
    ("unhealed", "Healed | {39 of 47}\n Not healed | 8 of 47"),
    ("healed", "Teeth | Healed | Not healed\n 47 | 39 of 47 | {8 of 47}"),
    ("healed", "Success and failure were recorded in 39 of 47 and {8 of 47}, respectively."),
    ("healed", "Healed, uncertain and failed: 39 of 60, 13 of 60 and {8 of 60}"),
    ("healed", "{39 of 47} teeth did not show any healing."),
    ("healed", "{8 of 47} teeth did not show healing."),
    ("healed", "{8 of 47} were without healing"),
    ("healed", "{8 of 47} could no longer be considered healed"),
    ("healed", "{8 of 47} did not achieve complete resolution"),
    ("healed", "{8 of 47} teeth failed to heal."),
    ("failed", "{39 of 47} teeth showed no sign of failure"),
    ("failed", "Not one of the 47 failed at 1 year; {39 of 47} were without failure at 5 years"),
    ("unhealed", "{39 of 47} teeth were free of persistent disease"),
    ("healed", "Absence of healing was noted in {8 of 47}"),
    ("healed", "{8 of 47} neither healed nor improved."),
    ("healed", "{8 of 47} remained unhealed"),
    ("healed", "non-healing in {8 of 47}"),
    ("healed", "{8 of 47} never healed"),
    ("healed", "lack of healing in {8 of 47} teeth"),
    ("healed", "{8 of 47} could not be confirmed as healed"),
    ("failed", "{39 of 47} were free from failure."),
    ("healed", "Healing was not observed in {8 of 47} teeth."),
    ("healed", "Healing had not occurred in {8 of 47}"),
    ("healed", "39 of 47 healed, {8 of 47} did not"),
    ("healed", "Apart from {8 of 47}, all teeth healed"),
    ("pain", "no pain in {39 of 47}"),
    ("pain", "{39 of 47} reported no pain whatsoever"),
    ("pain", "{39 of 47} teeth were pain-free"),
    ("pain", "{39 of 47} denied pain"),
    ("lost", "{39 of 47} teeth had not been extracted"),
    ("kept", "{8 of 47} did not survive"),
    ("unhealed", "{39 of 47} were not without healing"),
    ("healed", "{8 of 47} teeth had not yet healed"),
    ("healed", "{8 of 47} cannot be called healed"),
    ("healed", "{8 of 47} teeth were still unresolved"),
    ("healed", "Healing failed to occur in {8 of 47} teeth."),
    ("healed", "{8 of 47} teeth showed persistence of the lesion without healing."),
    ("healed", "Signs of healing were absent in {8 of 47}."),
    ("healed", "In {8 of 47} teeth no healing whatsoever was visible."),
    ("healed", "{8 of 47} (17%) were not classified as healed."),
    ("healed", "{8 of 47} (17%) were judged as having not healed."),
    ("healed", "The proportion not healed was {17%}."),
    ("healed", "{8 of 47} teeth did not respond with healing."),
    ("healed", "{8 of 47} teeth showed incomplete resolution of the lesion"),
    ("failed", "{39 of 47} teeth were without any sign of failure"),
    ("failed", "no failure was recorded in {39 of 47}"),
    ("failed", "{39 of 47} did not fail"),
    ("failed", "Freedom from failure: {39 of 47}"),
    ("failed", "Failure did not occur in {39 of 47}"),
    ("failed", "failure-free: {39 of 47}"),
    ("lost", "{39 of 47} teeth were still in place"),
    ("lost", "no tooth loss in {39 of 47}"),
    ("lost", "{39 of 47} had been retained"),
    ("fracture", "{44 of 47} teeth showed no fracture"),
    ("extruded", "no extrusion was seen in {44 of 47}"),
    ("pain", "{39 of 47} remained free of pain"),
    ("pain", "{39 of 47} were without symptoms"),
    ("pain", "absence of pain in {39 of 47}"),
    ("pain", "{39 of 47} had neither pain nor swelling"),
    ("pain", "pain was absent in {39 of 47}"),
    ("pain", "pain had ceased in {39 of 47}"),
    ("pain", "{39 of 47} teeth had no longer any pain"),
    ("healed", "{39 of 47} teeth were clinically asymptomatic"),
    ("healed", "{39 of 47} teeth were asymptomatic and in function; 30 of 47 had healed."),
    ("healed", "Vital pulp tissue was present in {39 of 47}"),
    ("healed", "Mobility was normal in {39 of 47}"),
    ("healed", "Patient satisfaction {83%}; healing 60%"),
    ("healed", "Swelling was noted in {8 of 47}, and 39 of 47 healed."),
    ("healed", "{8 of 47} developed an abscess"),
    ("healed", "{8 of 47} teeth were stained"),
    ("healed", "Infection recurred in {8 of 47}"),
    ("healed", "{8 of 47} teeth had relapsed"),
    ("kept", "{8 of 47} teeth were lost to extraction"),
    ("kept", "Failure (extraction) {8 of 47}"),
    ("kept", "{39 of 47} were judged a success"),
    ("healing", "strict success {39 of 47}"),
    ("healing", "Fully healed {39 of 47}"),
    ("healed", "{39 of 47} healed or were healing"),
    ("healed", "Lenient success: {39 of 47}"),
    ("healed", "Healed plus healing {39 of 47}"),
    ("healed", "Successful or improved {39 of 47}"),
    ("healed", "healed and healing teeth together: {39 of 47}"),
    ("healed", 'the combined categories "healed" and "healing" gave {39 of 47}'),
    ("healed", "Success, loose criteria | {39 of 47}\n    Success, strict criteria | 30 of 47"),
    ("unhealed", "Outcome | n of N\n    healed | {39 of 47}\n    not healed | 8 of 47"),
    ("healed", "Outcome | n of N\n    healed | 39 of 47\n    not healed | {8 of 47}"),
    ("healed", "Three years later {39 of 47} were alive with no complaints of pain"),
    ("healed", "Postoperative pain was the most frequent complaint ({8 of 47})"),
    ("healed", "{8 of 47} teeth had to be extracted"),
    ("healed", "Retention of the restoration: {39 of 47}"),
    ("healed", "{39 of 47} teeth remained in function"),
    ("healed", "{39 of 47} teeth were still present at recall"),
    ("healed", "The repair was rated technically satisfactory in {39 of 47}"),
    ("healed", "the lesion had become smaller in {39 of 47} teeth"),
    ("healed", "{39 of 47} teeth were healed or showed reduced lesions"),
    ("healed", "A persistent radiolucency was seen in {8 of 47}"),
    ("pain", "Tenderness to percussion in {8 of 47}"),
    ("failed", "A sinus tract was present in {8 of 47}"),
    ("healed", "analgesics were taken by {8 of 47}"),
    ("healed", "{8 of 47} teeth lacked any evidence of healing"),
    ("healed", "in {8 of 47} there was nothing to suggest healing"),
    ("healed", "{8 of 47} teeth showed hardly any healing"),
    ("healed", "Not healed were {8 of 47}"),
    ("healed", "{8 of 47} were considered not to have healed"),
    ("healed", "Of the 47 teeth, 8 did not meet the criteria of success: {8 of 47}"),
    ("healed", "{8 of 47} fell short of healing"),
    ("healed", "healing was lacking in {8 of 47}"),
    ("healed", "healing was denied to {8 of 47}"),
    ("healed", "in none but {39 of 47} was failure seen"),
    ("pain", "{39 of 47} teeth never became painful"),
    ("healed", "Survival and success were {45 of 47} and 39 of 47, respectively"),
    ("failed", "Healed, strict: {39 of 47}"),
    ("pain", "Healed, lenient: {39 of 47}"),
    ("healing", "Healed, strict: {39 of 47}"),
    ("healed", "Healed, lenient: {39 of 47}"),
    ("healing", "{39 of 47} were healed at last recall"),
    ("kept", "At 10 years {15.8%} of the teeth had been lost."),
    ("kept", "{8 of 47} teeth were no longer present"),
    ("kept", "{8 of 47} were no longer in place"),
    ("healed", "unsatisfactory {7 of 112}"),
    ("healed", "unsatisfactory healing in {7 of 112}"),
    ("healed", "The lesion was unchanged or enlarged in {7 of 112}"),
    ("healed", "The lesion had increased in size in {7 of 112}"),
    ("healed", "Further treatment was needed in {7 of 112}"),
    ("healed", "retreatment was required in {8 of 47}"),
    ("healed", "{8 of 47} needed further treatment"),
    ("healed", "84 and {9 of 104} teeth were healed and failed, respectively"),
    ("healed", "84 were healed, {11 of 104} were healing and 9 had failed"),
    ("healed", "Outcome | n of N\n    Healed | 84 of 104\n    Healing | {11 of 104}"),
    ("healed", "The two observers agreed in {90 of 98}"),
    ("healed", "Radiographs were available for {80 of 98}. Healing was seen in 70."),
    ("healed", "Restored with a crown were {80 of 98}"),
    ("healed", "Most teeth were maxillary ({60 of 98})"),
    # The same words as in RIGHT where they do tell of the number.
    ("healed", "Of 47 teeth that were crowned 39 healed, {8 of 47} did not"),
    ("healed", "39 of 47 healed, the {8 of 47} that did not were treated again"),
    ("healed", "Those that did not heal were {8 of 47}"),
    ("pain", "{46 of 50} were asymptomatic and showed no radiographic evidence of periapical pathosis"),
    ("healed", "{46 of 50} were asymptomatic and healing was seen in 30 of 47"),
    ("healed", "{46 of 50} were asymptomatic, 30 of 47 with normal periapical tissues"),
    ("healed", "{46 of 50} were asymptomatic. Normal periapical tissues were seen in 30."),
    ("healed", "Failure (odds ratio 2.1): {8 of 47}"),
]

RIGHT: list[Case] = [
    ("vital", "Pulps remained vital in {39 of 47} teeth; the others became necrotic."),
    ("lost", "Loss of the replanted tooth was recorded in {8 of 47} cases."),
    ("pain", "Of 47 necrotic teeth {8 of 47} were painful."),
    ("healed", "Healed, strict: {39 of 47}"),
    ("healing", "Healed, lenient: {39 of 47}"),
    ("healed", "{39 of 47} teeth healed"),
    ("healed", "Healing was complete in {39 of 47}"),
    ("healed", "healed: {39 of 47} teeth (83%; 95% CI 73% to 90%)"),
    ("healed", "{39 of 47} teeth showed no sign of failure"),
    ("healed", "{39 of 47} were free of persistent disease"),
    ("healed", "no radiolucency in {39 of 47}"),
    ("unhealed", "39 of 47 healed, {8 of 47} did not"),
    ("unhealed", "{8 of 47} had not healed"),
    ("failed", "{8 of 47} teeth failed to heal."),
    ("unhealed", "39 of 47 teeth healed; {8 of 47} did not heal."),
    ("pain", "{8 of 47} had pain"),
    ("pain", "pain and swelling were reported by {8 of 47}"),
    ("healed", "Teeth with pain before treatment healed in {39 of 47} cases"),
    ("healed", "In {39 of 47} teeth with pain healing was complete"),
    ("healed", "Without pain, {39 of 47} teeth were seen"),
    ("healed", "{39 of 47} teeth, all without pain, healed"),
    ("kept", "{39 of 47} survived; 8 were extracted"),
    ("lost", "39 of 47 survived; {8 of 47} were extracted"),
    ("healed", "Healed (no pain, no radiolucency): {39 of 47}"),
    ("healed", "success was not significantly different: {39 of 47} healed"),
    ("healed", "Teeth restored without a post healed in {39 of 47}"),
    ("healed", "Of teeth not crowned {39 of 47} healed"),
    ("healed", "Of the teeth without a lesion {39 of 47} healed"),
    ("healed", "Success was {39 of 47}, failure 8 of 47."),
    ("failed", "Success was 39 of 47, failure {8 of 47}."),
    ("failed", "Apart from {8 of 47}, all teeth healed"),
    ("healed", "Teeth | Healed | Not healed\n 47 | {39 of 47} | 8"),
    ("failed", "Healed, uncertain and failed: 39 of 60, 13 of 60 and {8 of 60}"),
    ("healing", "{39 of 47} were healed or healing"),
    ("healing", "Healed or healing: {39 of 47}"),
    ("healed", "complete healing {39 of 47}, incomplete healing 5, failure 3"),
    ("fracture", "{3 of 47} teeth had fractured"),
    ("extruded", "Extrusion occurred in {9 of 47} teeth, root fracture in 3 of 47."),
    ("healed", "The 47 asymptomatic teeth were seen again; {39 of 47} had healed"),
    ("failed", "none failed at 1 year; {8 of 47} failed later"),
    ("failed", "{0 of 47} failed, not one"),
    ("failed", "Not one failed ({0 of 47})"),
    ("healed", "Not one failed; {47 of 47} healed"),
    ("unhealed", "{8 of 47} not healed (17%)"),
    ("pain", "Pain persisted in {8 of 47}."),
    ("pain", "no swelling; pain in {8 of 47}"),
    ("healed", "The failure of one root did not matter; {39 of 47} healed"),
    ("healed", "Healing occurred in {39 of 47}, with failures mostly (6 of 8) in molars"),
    ("healed", "Of teeth with apical periodontitis, {39 of 47} healed"),
    ("healed", "apical periodontitis healed in {39 of 47}"),
    ("healed", "Outcome | n of N\n    healed | {39 of 47}\n    not healed | 8 of 47"),
    ("unhealed", "Outcome | n of N\n    healed | 39 of 47\n    not healed | {8 of 47}"),
    ("healed", "Healing took place in {39 of 47} teeth, in contrast to 8 of 47 that failed"),
    ("healed", "{39 of 47} (83%) healed completely"),
    ("healed", "Complete healing: {39 of 47}; partial healing: 4 of 47; no healing: 4 of 47"),
    ("healing", "Success, loose criteria | {39 of 47}\n    Success, strict criteria | 30 of 47"),
    ("healed", "Success, loose criteria | 39 of 47\n    Success, strict criteria | {30 of 47}"),
    ("failed", "Of 47 teeth, 39 healed and {8 of 47} failed to do so"),
    ("failed", "Failures numbered {8 of 47}."),
    ("kept", "{39 of 47} teeth were retained"),
    ("kept", "Retained without failure were {39 of 47}"),
    ("kept", "Extraction was avoided in {39 of 47}; tooth survival 83%"),
    ("healed", "No tooth was extracted and {39 of 47} healed."),
    ("healed", "None of the teeth had pain, and {39 of 47} were healed."),
    ("healed", "Of {39 of 47} healed teeth none had pain."),
    ("pain", "Of the 39 healed teeth, pain was felt in {8 of 47}."),
    ("pain", "Healing was uneventful although {8 of 47} had pain."),
    ("fracture", "Failures were due to root fracture in {3 of 47}."),
    ("lost", "{3 of 47} were extracted because of root fracture"),
    ("lost", "{3 of 47} were extracted because of pain"),
    ("lost", "Pain led to extraction in {3 of 47}"),
    ("healed", "Healing without symptoms: {39 of 47}"),
    ("healed", "Successful outcome {39 of 47}, unsuccessful 8 of 47"),
    ("failed", "Successful 39 of 47, failure {8 of 47}"),
    ("healed", "The tooth was symptomless, functional, and radiographically normal in {39 of 47} (success)."),
    ("healed", "not only did {39 of 47} heal, none failed"),
    ("healed", "There was no difference in healing: {39 of 47} healed with one, 30 of 45 with the other"),
    ("healed", "Age did not influence success ({39 of 47})"),
    ("healed", "Healing was not affected by age ({39 of 47} healed)"),
    ("healed", "Teeth not seen were excluded; {39 of 47} healed"),
    ("healed", "Healed {39 of 47} (83%), not healed 8 of 47 (17%)"),
    ("unhealed", "Healed 39 of 47 (83%), not healed {8 of 47} (17%)"),
    ("healed", "In {39 of 47} cases the lesion resolved."),
    ("healed", "apical periodontitis was absent in {39 of 47}"),
    ("healed", "{39 of 47} teeth had a normal periapical status"),
    ("lost", "{8 of 47} teeth had to be extracted"),
    ("unhealed", "A persistent radiolucency was seen in {8 of 47}"),
    ("lost", "{8 of 47} teeth did not survive"),
    ("kept", "{39 of 47} teeth were not extracted"),
    ("healed", "no fracture, no extraction; success in {39 of 47}"),
    ("healed", "Failure was rare: {39 of 47} healed"),
    ("healed", "Survival and success were 45 of 47 and {39 of 47}, respectively"),
    ("healed", "Success rate (survival of the tooth without signs): {39 of 47}"),
    ("pain", "Complications: pain {8 of 47}, extrusion 3 of 47"),
    ("lost", "Tooth loss (extraction) {8 of 47}"),
    ("failed", "Failures were extracted ({8 of 47})"),
    ("failed", "Failures ({8 of 47}) were due to root fracture"),
    ("failed", "{8 of 47} failed because of persistent pain"),
    ("failed", "In teeth with pain {8 of 47} failed"),
    ("healed", "The healed teeth were {39 of 47}"),
    ("healed", "Neither pain nor swelling was seen in the {39 of 47} teeth that had healed"),
    ("lost", "{8 of 47} teeth could not be kept"),
    (
        "kept",
        "Teeth that were crowned had a survival of 90.3%, whereas those that were not had a survival of {77.5%}",
    ),
    ("healed", "Of the teeth that received MTA 80 of 100 healed, of those that did not {60 of 100}"),
    ("healed", "Of patients who took the drug 80 of 100 healed, and of those who did not {60 of 100}"),
    ("healed", "Success was 80 of 100 in teeth that were crowned and {60 of 100} in those that were not"),
    ("healed", "80 of 100 teeth that were crowned healed, those that were not in {60 of 100}"),
    ("healed", "Healing was seen in 80 of 100 who took it, against {60 of 100} among those who didn't"),
    ("healed", "{46 of 50} were asymptomatic and showed no radiographic evidence of periapical pathosis"),
    ("healed", "{46 of 50} were symptom-free and had no periapical radiolucency"),
    ("healed", "{46 of 50} teeth had no pain, no swelling and a normal periapical appearance"),
    ("healed", "{46 of 50} were asymptomatic, with normal periapical tissues"),
    ("healed", "{46 of 50} teeth were without pain or swelling, and the lesion had resolved"),
    ("healed", "{39 of 47}, crude OR for failure 2.10"),
    ("healed", "{39 of 47}; the odds of failure were twice as high"),
    ("healed", "MTA {39 of 47} (relative risk of failure 0.5)"),
    ("healed", "{39 of 47} (failure OR 2.1)"),
]


@pytest.mark.parametrize(("outcome", "passage"), WRONG)
def test_number_of_another_event_is_asked_about(rules: Callable[..., list[str]], outcome: str, passage: str):
    found = rules(outcome, passage)
    assert any(rule.startswith("event-") for rule in found), found


@pytest.mark.parametrize(("outcome", "passage"), RIGHT)
def test_number_of_the_event_itself_is_not(rules: Callable[..., list[str]], outcome: str, passage: str):
    assert rules(outcome, passage) == []


ADJUSTED = [
    "After adjustment for tooth type, lesion size and operator the odds ratio for MTA compared with hydroxide was 3.4",
    "Controlling for pain, lesion size and operator, the odds ratio for MTA compared with hydroxide was 3.4",
    "The OR, adjusted for swelling and lesion size, of MTA compared with hydroxide was 3.4",
    "Independent of pain, healing was more likely with MTA than with hydroxide (OR 3.4)",
    "After adjusting for age, lesion size and pain, success was likelier with MTA than with hydroxide (OR 3.4)",
    "Holding lesion size constant, the odds ratio for MTA compared with hydroxide was 3.4",
]
RATIO = """\
outcome: healed
factor: material
known_at: during
reference: hydroxide
contrast: {measure: odds ratio, event: %s, event_is: %s, level: MTA, reference: hydroxide, value: 3.4,
  adjusted_for: not reported}
"""


@pytest.mark.parametrize("passage", ADJUSTED)
def test_what_was_adjusted_for_is_no_event(rules_of: Callable[..., list[str]], passage: str):
    found = rules_of(passage, CLAIM + RATIO % ("success", "good"))
    assert not any(rule.startswith("event-") for rule in found), found


def test_event_behind_a_list_of_what_was_adjusted_for_is_the_ratios_own(rules_of: Callable[..., list[str]]):
    passage = "After adjusting for age, lesion size and operator, failure was likelier with MTA than hydroxide (OR 3.4)"
    assert "event-opposite" in rules_of(passage, CLAIM + RATIO % ("success", "good"))


@pytest.mark.parametrize(
    ("outcome", "passage", "quoted"),
    [
        ("healed", "39 of 47 healed, {8 of 47} did not", '"healed, 8 of 47 did not"'),
        ("healed", "{8 of 47} teeth did not heal", '"not heal"'),
        ("healed", "Apart from {8 of 47}, all teeth healed", '"Apart from 8 of 47, all teeth healed"'),
        ("kept", "{8 of 47} teeth had pain", '"pain"'),
        ("kept", "Failures: {8 of 47}", '"Failures"'),
        ("kept", "A sinus tract was seen in {8 of 47}", '"sinus tract"'),
        ("healed", "{8 of 47} showed incomplete healing", '"incomplete healing"'),
        ("healed", "{46 of 50} were asymptomatic", '"asymptomatic"'),
        ("kept", "{39 of 47} teeth were successful", '"successful"'),
        ("healed", "{39 of 47} teeth were vital", '"vital"'),
    ],
)  # fmt: skip
def test_question_quotes_the_denial_and_offers_no_word_of_another_outcome(
    problems: Callable[..., list[Problem]], outcome: str, passage: str, quoted: str
):
    found = next(problem for problem in problems(outcome, passage) if problem.rule.startswith("event-"))
    assert quoted in found.message
    assert "synonyms:" not in found.hint


CLAIM = "id: a\nquestion: hole\nwhere: p. 1\nfollow_up: not reported\n"
TWINS = yaml.load((Path(__file__).parent / "claims_of_events.yaml").read_text("utf-8"), Loader=yaml.CBaseLoader)


@pytest.mark.parametrize("case", TWINS["wrong"], ids=lambda case: case["passage"])
def test_claim_of_another_event_is_asked_about(rules_of: Callable[..., list[str]], case: dict[str, str]):
    found = rules_of(case["passage"], CLAIM + case["claim"])
    assert any(rule.startswith("event-") for rule in found), found


@pytest.mark.parametrize("case", TWINS["right"], ids=lambda case: case["passage"])
def test_claim_of_the_event_itself_is_not(rules_of: Callable[..., list[str]], case: dict[str, str]):
    assert rules_of(case["passage"], CLAIM + case["claim"]) == []


def test_word_that_no_outcome_has_is_offered_as_a_synonym(open_problems: Callable[..., list[Problem]]):
    (found,) = open_problems("39 of 47 teeth were vital.", "events: 39\ntotal: 47")
    assert found.rule == "event-other"
    assert "give them to it in vocabulary.yaml:\nsynonyms: [vital]" in found.hint


def test_a_line_of_complete_and_incomplete_together_is_no_strict_outcome(
    open_problems: Callable[..., list[Problem]],
) -> None:
    passage = "Complete healing 30\nIncomplete healing 9\nComplete and incomplete 39\nTeeth seen 47"
    assert [each.rule for each in open_problems(passage, "events: 39\ntotal: 47")] == ["event-strictness"]
    assert open_problems(passage, "events: 30\ntotal: 47") == []
