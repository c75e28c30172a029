"""Which event was counted: another outcome, the other side, a denial and another strictness are asked about."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from passageproof.audit.proof import Audit

VOCABULARY = """\
outcomes:
  healed:
    {title: healed, construct: success, strictness: strict, basis: film, threshold: normal space, good: yes,
     synonyms: [success, complete healing, successful]}
  healing:
    {title: healed or healing, construct: success, strictness: lenient, basis: film, threshold: smaller, good: yes,
     lenient_of: healed, synonyms: [healed/healing]}
  unhealed: {title: not healed, construct: success, strictness: strict, basis: film, threshold: normal, good: no}
  failed:
    {title: failed, construct: success, strictness: lenient, basis: film, threshold: larger, good: no,
     synonyms: [failure, failures]}
  kept:
    {title: tooth kept, construct: survival, strictness: not applicable, basis: seen, threshold: in place, good: yes,
     synonyms: [survival, survived, retained]}
  lost:
    {title: tooth lost, construct: tooth loss, strictness: not applicable, basis: seen, threshold: gone, good: no,
     synonyms: [extraction, extracted]}
  pain: {title: pain, construct: told, strictness: not applicable, basis: asked, threshold: any, good: no}
  extruded:
    {title: material extruded, construct: mishap, strictness: not applicable, basis: film, threshold: any, good: no}
  fracture: {title: root fracture, construct: mishap, strictness: not applicable, basis: film, threshold: any, good: no}
"""

Case = tuple[str, str]
"""The outcome that the claim names, and a passage with the numbers of the claim in braces."""

WRONG: list[Case] = [
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
]

RIGHT: list[Case] = [
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
]


@pytest.fixture
def rules(audited: Callable[..., Audit], report_text: Callable[..., str]) -> Callable[..., list[str]]:
    """The rules that one claim breaks: rules(outcome, passage, more), numbers of the claim in braces."""

    def found(outcome: str, passage: str, more: str = "") -> list[str]:
        return [problem.rule for problem in audited(files(outcome, passage, report_text, more)).problems]

    return found


def files(outcome: str, passage: str, report_text: Callable[..., str], more: str = "") -> dict[str, str]:
    """A compendium of one claim and its passage."""
    marked = re.search(r"\{(?:(\d+) of (\d+)|([\d.]+%))\}", passage)
    assert marked is not None
    events, total, rate = marked.groups()
    rate_line = f"rate: {rate}" if rate else f"events: {events}\n  total: {total}"
    if rate:
        rate_line += "\n  events: not reported\n  total: not reported"
    text = passage.replace("{", "").replace("}", "")
    return {
        "vocabulary.yaml": VOCABULARY,
        "claims/x.yaml": report_text(
            "x",
            f"- id: a\n  question: hole\n  outcome: {outcome}\n  {rate_line}\n  where: p. 1\n"
            f"  follow_up: not reported\n{more}",
        ),
        "sources/x.bib": f"@article{{x,\n  author = {{Marlow, Ines}}, title = {{T}}, journal = {{J}}, year = 2019,\n"
        f"  annotation = {{\n    [p. 1] {text}\n  }}\n}}\n",
    }


@pytest.mark.parametrize(("outcome", "passage"), WRONG)
def test_number_of_another_event_is_asked_about(rules: Callable[..., list[str]], outcome: str, passage: str):
    found = rules(outcome, passage)
    assert any(rule.startswith("event-") for rule in found), found


@pytest.mark.parametrize(("outcome", "passage"), RIGHT)
def test_number_of_the_event_itself_is_not(rules: Callable[..., list[str]], outcome: str, passage: str):
    assert rules(outcome, passage) == []
