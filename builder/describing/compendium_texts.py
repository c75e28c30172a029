"""What is told of the fields of the files at the top of evidence/."""

from __future__ import annotations

from ..reading import compendium, standing, unit_forms, vocabulary
from .told import Described, Told

_LEVELS = "[{id: small, title: up to 3 mm, range: up to 3 mm}, {id: large, title: over 3 mm, range: over 3 mm}]"
_ENTRY = "{words: Stop., basis: {kind: local protocol, state: not set}}"

COMPENDIUM_BLOCKS = {
    "compendium": Described(
        "compendium.yaml: who publishes, and when",
        compendium.compendium_form(set()),
        {
            "format": Told("the format of these files", "1"),
            "title": Told("the name of the guide", "Questions we keep asking"),
            "programme": Told("who publishes it", "Our programme"),
            "demonstration": Told("yes: all of it is invented, and every page says so", "yes"),
            "evidence": Told("how far it goes", "{date: 2026-10-30, release: 1.0.0}"),
            "licences": Told("terms of use", "{text: CC-BY-4.0, data: CC0-1.0}"),
            "repository": Told("where these files are edited", "https://example.org/programme/guide"),
            "people": Told("who reads, checks and ratifies, by initials",
                           "{XX: {name: Edda Reader, interests: none declared}}"),
            "review": Told("how long what was found may stand before somebody looks again",
                           "{questions: 24 months, status: 1 month}"),
        },
    ),
    "evidence": Described(
        "evidence, of compendium.yaml",
        compendium.EVIDENCE,
        {
            "date": Told("the day up to which a reader may rely on it; nothing typed may be later", "2026-10-30"),
            "release": Told("moved by people whenever something changes", "1.0.0"),
        },
    ),
    "licences": Described(
        "licences",
        compendium.LICENCES,
        {"text": Told("of sentences", "CC-BY-4.0"), "data": Told("of figures", "CC0-1.0")},
    ),
    "person": Described(
        "A person",
        compendium.PERSON,
        {
            "name": Told("in full", "Edda Reader"),
            "interests": Told("what readers should know; a report that the person wrote too", "none declared"),
        },
    ),
    "review": Described(
        "review",
        compendium.REVIEW,
        {
            "questions": Told("how long the answer of a question stands", "24 months"),
            "status": Told("how long a look for retractions stands", "1 month"),
        },
    ),
    "vocabulary": Described(
        "vocabulary.yaml: in which words reports are compared",
        vocabulary.vocabulary_form(set()),
        {
            "units": Told("what is counted, by ids of your own", "{eye: {one: eye, many: eyes, of: patient}}"),
            "factors": Told(
                "what may make a difference, by ids of your own",
                f"{{size: {{title: Size, unit: mm, levels: {_LEVELS}}}}}",
            ),
            "outcomes": Told(
                "what is counted or measured as a result, by ids of your own",
                "{healed: {title: healed, construct: success, strictness: strict, basis: examination and film, "
                "threshold: normal space, good: yes}}",
            ),
        },
    ),
    "unit": Described(
        "A unit",
        unit_forms.UNIT,
        {
            "one": Told("the word for one; with many it is all that a unit needs", "eye"),
            "many": Told("the word for several: how such eyes do over time, 39 of 47 eyes", "eyes"),
            "synonyms": Told("further words that reports print for it", "[globe, globes]"),
            "of": Told("what may hold several of it: another unit, or the patient", "patient"),
            "mark": Told("a drawing under evidence/pictures/ for one of them; without it a plain shape is drawn",
 "eye.svg"),
            "shown": Told(
                "words of this unit for removed, removed_related and removed_other of a flow and for the group of a "
                "population",
                "{removed: taken out}",
            ),
        },
    ),
    "shown": Described(
        "shown, of a unit",
        unit_forms.SHOWN,
        {
            "group": Told("what a study in people tells of whose units these are", "side"),
            "removed": Told("those removed", "taken out"),
            "removed_related": Told("those removed for a reason that has to do with the treatment",
                                    "taken out because it clouded"),
            "removed_other": Told("those removed for another reason", "taken out for another reason"),
        },
    ),
    "factor": Described(
        "A factor",
        vocabulary.FACTOR,
        {
            "title": Told("what pages call it", "Size of the hole"),
            "definition": Told("what exactly is meant", "widest diameter seen"),
            "role": Told("whether it is chosen (treatment) or found (prognostic)", "prognostic"),
            "unit": Told("what a measured factor is measured or counted in", "mm"),
            "levels": Told("its levels, in order", _LEVELS),
            "synonyms": Told("other words of reports for it", "[diameter, width]"),
        },
    ),
    "factor-level": Described(
        "A level of a factor",
        vocabulary.FACTOR_LEVEL,
        {
            "id": Told("its name in addresses", "large"),
            "title": Told("what pages call it; the wording of a claim is matched to it", "over 3 mm"),
            "range": Told("its bounds, where the factor has a unit; bands never overlap", "over 3 mm"),
            "synonyms": Told("other wordings of reports", "[large, more than 3 mm]"),
        },
    ),
    "outcome": Described(
        "An outcome",
        vocabulary.OUTCOME,
        {
            "title": Told("what pages call it", "healed"),
            "construct": Told("what kind of result: success, function, pain; survival is kept for what is still there, "
                              "occurrence for how often what a question is about happens at all",
                              "success"),
            "strictness": Told("how strictly it is judged", "strict"),
            "basis": Told("how it is seen", "examination and film"),
            "threshold": Told("what counts", "normal space"),
            "good": Told("whether it is good for the patient", "yes"),
            "reverses": Told("the outcome that it ends", "healed"),
            "lenient_of": Told("the outcome that it is the lenient form of", "healed"),
            "synonyms": Told("other words of reports for it", "[success, healed completely]"),
        },
    ),
    "urgent-matter": Described(
        "urgent.yaml: what is worse, by ids of your own",
        standing.URGENT,
        {
            "title": Told("what has happened", "Somebody is unwell"),
            "signs": Told("how to know it", "[short of breath, pain in the chest]"),
            "stop": Told("what not to do; each as a whole sentence, since it is read alone",
                         "[{words: Do not leave them alone., basis: {kind: common practice}}]"),
            "until_help": Told("what to do until help is there, in the order in which two hands can do it",
                               f"[{_ENTRY}]"),
            "call": Told("whom to call, and at what", f"[{_ENTRY}]"),
            "say": Told("what is said to whoever it happened to, in their words",
                        '[{words: "I stay with you, and help is coming.", basis: {kind: common practice}}]'),
            "afterwards": Told("who looks again and when, what they take home, what is written down",
                               "[{words: Ring them the next day., basis: {kind: common practice}}]"),
        },
    ),
    "local": Described(
        "local.yaml: whom to call here",
        standing.LOCAL,
        {
            "call": Told("the person or desk", "{name: the supervisor on duty, number: 555 0100}"),
            "kit": Told("what is at hand here, and where", "[repair cement in the second drawer]"),
            "protocols": Told("local protocols", "[{title: Emergencies, link: not set}]"),
            "closed": Told("days of the week on which nobody is seen, so that no recall falls on one",
                           "[Saturday, Sunday]"),
        },
    ),
    "call": Described(
        "call, of local.yaml",
        standing.CALL,
        {
            "name": Told("of the person or desk", "the supervisor on duty"),
            "number": Told("the telephone number", "555 0100"),
        },
    ),
    "protocol": Described(
        "A protocol",
        standing.PROTOCOL,
        {
            "title": Told("its name", "Emergencies"),
            "link": Told("where it is read", "https://example.org/emergencies"),
        },
    ),
    "status": Described(
        "status.yaml: corrections and retractions, by key",
        standing.STATUS,
        {
            "state": Told("what was found; unknown is shown as not checked", "none found"),
            "on": Told("the day of the look; may be later than the evidence date", "2026-10-20"),
            "by": Told("who looked, or how", "hand"),
            "notice": Told("the notice of a correction, concern or retraction",
                           "{doi: 10.5555/jsr.2024.1, on: 2024-05-01, words: counts could not be confirmed}"),
        },
    ),
    "notice": Described(
        "notice",
        standing.NOTICE,
        {
            "doi": Told("its DOI", "10.5555/jsr.2024.1"),
            "on": Told("the day that it appeared", "2024-05-01"),
            "words": Told("what it says", "counts could not be confirmed"),
        },
    ),
}  # fmt: skip
