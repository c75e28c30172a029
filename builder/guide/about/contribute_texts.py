"""What a contributor copies and reads: the steps in the web editor, an invented example, and how values are typed."""

from __future__ import annotations

from ...numerals import Unit as CountedUnit

STEPS = (
    "Open the repository in the browser, go to evidence/sources/, open the file of your question, and choose to edit "
    "it.",
    "Paste the entry that your reference manager exports. Keep its key short: letters, digits, hyphens.",
    "Add the annotation with the passages, each behind its place in the paper. Type what the paper prints, not what "
    "you make of it: 39 of 47 {many} (83%).",
    "Propose the change on a branch of your own; do not merge it yet.",
    "On the same branch add the file evidence/claims/KEY.yaml, where KEY is the key, and fill in the template below.",
    "Open the pull request. After a few minutes it shows what does not agree, on the lines concerned, all at once.",
    "Correct what is our own. Where the paper's own figures do not fit together, paste the block that the message "
    "prints and write the reason.",
    "Ask a second person to read the passages against the paper and to add the line checked.",
    "When nothing is left to correct, merge. The site is built again, whole or not at all.",
)

BIBTEX_TEMPLATE = """\
@article{sampler2021repairs,
  author = {Sampler, Edda and Invent{\\'e}, Paul},
  title = {Repairs in a made-up clinic},
  journal = {Journal of Supposed Results},
  year = 2021, volume = 40, pages = {10--19}, doi = {10.5555/jsr.2021.10},
  annotation = {
    [p. 12, Methods] 64 MANY treated, 60 due, 52 examined; seen at 12 months (within 2 months)
    [p. 14, Table 2] healed: 41 of 52 MANY (79%; 95% CI 66% to 88%)
    [p. 15, Table 3] up to 3 mm: 27 of 31 healed (87%); over 3 mm: 14 of 21 healed (67%)
  }
}
"""

CLAIM_TEMPLATE = """\
source: sampler2021repairs
read: {by: XX, on: 2026-01-31, depth: full text}
studies:
  - id: made-up-clinic-2015
    species: human
    design: cohort
    selection: consecutive
    population: {NEEDEDcause: made during treatment, treatment: first}
    setting: {operators: residents, magnification: not reported, centre: Made-up clinic, recruited: 2015 to 2018}
    unit: UNIT
    flow: {treated: 64, due: 60, examined: 52}
    where: p. 12, Methods
claims:
  - id: overall
    question: your-question
    outcome: your-outcome
    events: 41
    total: 52
    success_rate: 79%
    interval: 66% to 88%
    where: p. 14, Table 2
    follow_up: {from: treatment, timing: at, at: 12 months, tolerance: 2 months, where: "p. 12, Methods"}
  - id: by-size
    question: your-question
    factor: your-factor
    known_at: before
    planned: unclear
    outcome: your-outcome
    reference: up to 3 mm
    levels:
      - {level: up to 3 mm, events: 27, total: 31, success_rate: 87%}
      - {level: over 3 mm, events: 14, total: 21, success_rate: 67%}
    where: p. 15, Table 3
    follow_up: overall
"""

VALUES = (
    ("Number", "39 or .02 or 42,300", "kept as typed; inside { } and [ ] a comma cuts, so quote it there"),
    ("Percentage", "83% or 5.40%", "with the decimals that are printed"),
    ("Interval", "62% to 80%", "a confidence interval; 95 % unless confidence says otherwise"),
    ("P value", '.02 or "<.05"', "quote one that begins with >; it decides nothing"),
    ("Length of time", "12 months or 3 years 5 months", "12 months and 1 year are the same"),
    ("Measured level", "up to 3 mm or over 3 mm", "the bound itself is in the first and not in the second"),
    (
        "Design",
        "randomised trial",
        "any words; of treatments compared in a design called randomised, randomized or RCT no page says that the "
        "groups may differ in more, unless the comparison is typed as not planned",
    ),
    ("Day", "2026-02-03", "year, month, day; not after the evidence date"),
    ("Not in the paper", "not reported", "or not applicable, or could not access; two of them are never equal"),
    (
        "Words of the paper",
        'in_words: "at one year 39 of 47"',
        "where one number stands in a passage twice, or nothing says what it counts: the very words that hold it, or a "
        "list of them in printed order; in any block with numbers",
    ),
    (
        "What was counted",
        'as: "no sign of failure"',
        "the paper's own words for it, whole, in a claim, level or contrast",
    ),
    (
        "Cut",
        "fixed beforehand or chosen from the data",
        "where the bands of a measured factor came from; chosen from the data is said wherever the comparison stands",
    ),
    (
        "Margin",
        "{value: 1.25, by: the protocol, sides: one}",
        "in a contrast: what was fixed beforehand as too small a difference to matter",
    ),
    (
        "When",
        "now, this visit or later",
        "of a step of a question: what is to be done now stands large on the first screens, at most 5 steps; a step "
        "without it is for this visit",
    ),
    (
        "Is",
        "{factor: your-factor, level: large}",
        "of a way to go on: the level that it is; of a reason to call: an answer of the situation, or a list of them, "
        "that is the reason or a part of it; whoever taps it reads first whom to call, and why",
    ),
    ("Sentence", '"Stop: call 112"', "quote it where it holds a colon, or begins with %, @, > or #"),
)

UNITS = (
    ("one", "eye", "the word for one; with many it is all that a unit needs"),
    ("many", "eyes", "the word for several: how such eyes do over time, 39 of 47 eyes"),
    ("synonyms", "[globe, globes]", "further words that reports print for it"),
    ("of", "patient", "what may hold several of it: another unit, or the patient"),
    ("mark", "eye.svg", "a drawing under evidence/pictures/ for one of them; without it a plain shape is drawn"),
    (
        "shown",
        "{removed: taken out}",
        "words of this unit for removed, removed_related and removed_other of a flow and for the group of a population",
    ),
)
"""Fields of a unit, each with an example and what it is for."""


def template(text: str, unit: CountedUnit) -> str:
    """One of the templates in the words of what a compendium counts."""
    needed = "".join(f"{name}: not reported, " for name in unit.needs)
    return text.replace("MANY", unit.many).replace("UNIT", unit.id).replace("NEEDED", needed)
