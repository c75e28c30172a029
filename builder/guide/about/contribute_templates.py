"""Files to copy beside the claim: the vocabulary and the question that it speaks to, and who publishes."""

from __future__ import annotations

VOCABULARY_TEMPLATE = """\
factors:
  your-factor:
    title: Size of the hole
    definition: widest diameter seen
    role: prognostic
    unit: mm
    levels:
      - {id: small, title: up to 3 mm, range: up to 3 mm}
      - {id: large, title: over 3 mm, range: over 3 mm, synonyms: [large]}
    synonyms: [diameter, width]
outcomes:
  your-outcome:
    title: healed
    construct: success
    strictness: strict
    basis: examination and film
    threshold: normal space
    good: yes
    synonyms: [healed completely]
"""

QUESTION_TEMPLATE = """\
id: your-question
title: There is a hole. Can it be closed?
about: {species: human}
searched: {on: 2026-01-15, where: [two databases, reference lists], by: XX}
ratified: {by: [XX, YY], on: 2026-02-20}
answer: In one report most repaired ones were healed at one year ($sampler2021repairs/overall).
stop:
  - {words: Put no pressure on the hole., basis: {kind: local protocol, state: not set}}
is_it_this:
  - {words: Fresh blood on a paper point that did not reach the end., basis: {kind: common practice}}
medical:
  - {words: Ask about medicines that make bleeding last longer., basis: {kind: common practice}}
situation:
  - {factor: your-factor, ask: How wide is it?}
options:
  - id: repair
    title: Repair now
    for:
      - {words: Small ones healed more often., basis: {kind: study, claim: sampler2021repairs/by-size}}
    against:
      - {words: It takes the rest of the visit., basis: {kind: common practice}}
    ready: [a dry field, the cement of local protocol]
  - id: refer
    title: Refer
    against:
      - {words: The hole stays open until then., basis: {kind: common practice}, caution: Close it for the time being.}
steps:
  - {words: Isolate and dry the field., basis: {kind: common practice}, when: now}
  - {words: Write down where it is and how wide., basis: {kind: common practice}, when: this visit}
call:
  - {words: The bleeding does not stop., basis: {kind: local protocol, state: not set}}
factors: [your-factor]
certainty:
  - outcome: your-outcome
    factor: your-factor
    level: large
    start: low
    steps:
      - {for: exploratory study, down: 1, reason: nobody planned this comparison, by: XX}
    final: very low
patient:
  show: [sampler2021repairs/overall]
  afterwards:
    - Tell when and how it was found.
recall: {from: treatment, visits: [6 months, 12 months, 24 months], record: [pain, film], failing: [new swelling]}
seen_not_read: []
"""

COMPENDIUM_TEMPLATE = """\
format: 1
title: Questions we keep asking
programme: Our programme
demonstration: yes
evidence: {date: 2026-10-30, release: 0.1.0}
licences: {text: CC-BY-4.0, data: CC0-1.0}
people:
  XX: {name: Edda Reader, interests: none declared}
  YY: {name: Paul Again, interests: none declared}
review: {questions: 24 months, status: 1 month}
"""

URGENT_TEMPLATE = """\
somebody-is-unwell:
  title: Somebody is unwell
  signs: [short of breath, pain in the chest]
  stop:
    - {words: Do not leave them alone., basis: {kind: common practice}}
  until_help:
    - {words: Stop and stay with them., basis: {kind: local protocol, state: not set}}
  call:
    - {words: Emergency services., basis: {kind: local protocol, state: not set}}
  say:
    - {words: "I stay with you, and help is coming.", basis: {kind: common practice}}
  afterwards:
    - {words: Ring them the next day., basis: {kind: common practice}}
"""

LOCAL_TEMPLATE = """\
call: {name: not set, number: not set}
kit: not set
protocols:
  - {title: Emergencies, link: not set}
"""

STATUS_TEMPLATE = """\
sampler2021repairs: {state: none found, on: 2026-10-20, by: hand}
"""

TEMPLATES = {
    "vocabulary": VOCABULARY_TEMPLATE,
    "question": QUESTION_TEMPLATE,
    "compendium": COMPENDIUM_TEMPLATE,
    "urgent": URGENT_TEMPLATE,
    "local": LOCAL_TEMPLATE,
    "status": STATUS_TEMPLATE,
}
"""By the kind of file; the claim file stands on the page by itself. Together with it they pass the check."""
