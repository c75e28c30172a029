"""A vocabulary with two materials, and claims of one ratio between them."""

from __future__ import annotations

VOCABULARY = """\
factors:
  material:
    title: Repair material
    role: treatment
    levels:
      - {id: silicate, title: silicate cement, synonyms: [bioceramic]}
      - {id: hydroxide, title: calcium hydroxide}
      - {id: ionomer, title: glass ionomer}
  age: {title: Age, role: prognostic, unit: year, levels: [{id: old, title: from 60 years, range: from 60 years}]}
  size:
    title: Size of the hole
    role: prognostic
    unit: mm
    levels: [{id: small, title: up to 3 mm, range: up to 3 mm}, {id: large, title: over 3 mm, range: over 3 mm}]
outcomes:
  healed:
    {title: healed, construct: success, strictness: strict, basis: film, threshold: normal space, good: yes,
     synonyms: [success, healing]}
  failed:
    {title: failed, construct: success, strictness: strict, basis: film, threshold: lesion, good: no,
     synonyms: [failure, failures]}
  kept: {title: kept, construct: survival, strictness: not applicable, basis: seen, threshold: in place, good: yes}
  pain: {title: pain, construct: pain, strictness: not applicable, basis: asked, threshold: any, good: no}
"""
FILES = {"vocabulary.yaml": VOCABULARY}
SILICATE, HYDROXIDE = "silicate cement", "calcium hydroxide"


def ratio(
    level: str = SILICATE, reference: str = HYDROXIDE, value: str = "2.4", *, outcome: str = "healed",
    event_is: str = "good", measure: str = "odds ratio", adjusted_for: str = "not reported", more: str = "",
    factor: str = "material",
) -> str:  # fmt: skip
    """The fields of a claim with one ratio."""
    event = "" if measure == "mean difference" else f", event: {outcome}, event_is: {event_is}"
    unit = ", unit: points" if measure == "mean difference" else ""
    return (
        f"factor: {factor}\nknown_at: during\noutcome: {outcome}\nreference: {reference}\n"
        f"contrast: {{measure: {measure}{event}, level: {level}, reference: {reference}, value: {value}, "
        f"adjusted_for: {adjusted_for}{unit}{more}}}"
    )
