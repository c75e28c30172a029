"""The words in which papers of every trade say what befell a unit: healed, failed, in pain, swollen,
still in place."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from ..numerals.late import in_small

EVENTS: Mapping[str, tuple[str, str]] = MappingProxyType({
    word: (kind, side)
    for kind, side, words in (
        ("healing", "good", (
            "healed", "heal", "heals", "healing", "cured", "cure", "cures", "recovered", "recovery", "resolved",
            "resolves", "resolution", "success", "successes", "successful", "successfully", "succeeded", "favourable",
            "favorable", "favourably", "favorably", "remission", "disease-free", "restitution", "failure-free",
        )),
        ("healing", "bad", (
            "failed", "failure", "failures", "fail", "fails", "failing", "unsuccessful", "unsuccessfully", "unhealed",
            "non-healing", "non-healed", "nonhealing", "nonhealed", "unfavourable", "unfavorable", "unfavourably",
            "unfavorably", "disease", "diseased", "persistent disease", "unresolved", "relapse", "relapses",
            "relapsed", "reversal", "reversals", "recurrence", "recurrences", "recurred", "non-success", "nonsuccess",
            "unsatisfactory", "unsatisfactory healing", "unsatisfactory result", "unsatisfactory outcome",
            "increased in size", "unchanged or enlarged", "unchanged or larger", "lesion was unchanged",
            "lesions were unchanged", "lesion had enlarged", "lesions had enlarged", "unchanged in size",
            "non-healers", "nonhealers", "missed its aim", "missed their aim", "larger lesion",
            "larger lesions", "enlarged lesion", "enlarged lesions",
        )),
        ("healing", "bad", tuple(
            f"{what} {grew}" for what in ("lesion", "lesions", "defect", "defects", "ulcer", "ulcers")
            for grew in (
                "had grown", "grew", "became larger", "had become larger", "became bigger", "was larger", "were larger",
            )
        )),
        ("healing", "bad", tuple(
            f"{still} {what}" for still in ("persistent", "persisting", "residual", "remaining")
            for what in ("lesion", "lesions", "defect", "defects", "ulcer", "ulcers", "inflammation")
        )),
        ("healing", "bad", tuple(
            f"signs of {what} {verb}" for what in ("disease", "inflammation", "infection")
            for verb in ("remained", "persisted", "were still present", "were still seen", "were left")
        )),
        ("healing", "bad", tuple(
            f"{criteria} {were} not {met}" for criteria in (
                "criteria of success", "criteria for success", "success criteria", "criteria of healing",
                "criteria for healing", "healing criteria",
            ) for were in ("were", "had") for met in (
                "met", "fulfilled", "satisfied", "reached", "been met", "been fulfilled",
            )
        )),
        ("healing", "bad", tuple(
            f"{what} {verb}" for what in ("lesion", "lesions", "disease", "defect", "defects", "ulcer", "ulcers")
            for verb in (
                "persisted", "had persisted", "still persisted", "persists", "persist", "remained", "had remained",
                "were still present", "was still present", "were still seen", "was still seen",
            )
        )),
        ("healing", "bad", tuple(
            f"{what} {verb} {needed}" for what in ("treatment", "retreatment", "re-treatment")
            for verb in ("was", "were", "became") for needed in ("needed", "required", "necessary")
        )),
        ("healing", "bad", tuple(
            f"{needed} {what}" for needed in ("needed", "required") for what in (
                "retreatment", "re-treatment", "further treatment", "another operation", "a second operation",
                "re-operation", "reoperation",
            )
        )),
        ("healing", "good", tuple(
            f"{met} {what}" for met in ("meet", "met", "meeting", "fulfilled", "fulfil", "fulfill", "satisfied")
            for what in (
                "the criteria of success", "the criteria for success", "the success criteria", "criteria of success",
                "the criteria of healing", "the criteria for healing", "the healing criteria",
            )
        )),
        ("attendance", "", (
            "recall rate", "rate of recall", "attendance rate", "response rate", "follow-up rate", "rate of follow-up",
            "drop-out rate", "dropout rate", "attrition rate", "rate of attrition", "loss to follow-up",
            "lost to follow-up", "lost from follow-up", "lost for follow-up", "lost to recall", "lost from view",
            "lost to view", "lost sight of", "lost from sight",
        )),
        ("result", "bad", (
            "did badly", "did poorly", "fared badly", "fared poorly", "worsened", "worsening",
            "deteriorated", "deterioration", "became worse", "got worse", "grew worse", "had become worse",
        )),
        ("result", "good", ("did well", "fared well", "did very well", "fared very well")),
        ("improving", "good", (
            "reduced in size", "decreased in size", "become smaller", "became smaller", "smaller lesion",
            "smaller lesions", "reduced lesion", "reduced lesions", "reduction of the lesion",
            "reduction in lesion size",
            "partial healing", "incomplete healing", "partially healed", "partly healed", "incompletely healed",
            "improved",
            "improving", "improvement", "healing in progress", "incomplete resolution", "partial resolution",
            "shrunk",
        )),
        ("keeping", "good", (
            "survived", "survive", "survives", "survival", "surviving", "retained", "retention", "still in place",
            "in situ", "still there", "still present", "in function",
            "remained present",
        )),
        ("keeping", "bad", tuple(
            f"no longer {where}" for where in ("present", "in place", "in situ", "in function", "there")
        )),
        ("keeping", "bad", ("died", "death", "deaths", "mortality")),
        ("pain", "bad", (
            "pain", "pains", "painful", "ache", "aches", "aching", "sore", "soreness", "discomfort", "symptom",
            "symptoms", "symptomatic", "analgesic", "analgesics",
        )),
        ("pain", "good", (
            "painless", "pain-free", "painfree", "asymptomatic", "symptomless", "symptom-free", "pain free",
            "symptom free", "comfortable",
        )),
        ("tenderness", "bad", ("tender", "tenderness")),
        ("swelling", "bad", ("swelling", "swellings", "swollen", "oedema", "edema")),
        ("fever", "bad", ("fever", "febrile", "pyrexia")),
        ("infection", "bad", ("infection", "infections", "infected", "abscess", "abscesses", "suppuration")),
        ("bleeding", "bad", ("bleeding", "bled", "haemorrhage", "hemorrhage")),
        ("satisfaction", "good", ("satisfied", "satisfaction")),
        ("satisfaction", "bad", ("dissatisfied", "dissatisfaction", "unsatisfied")),
        ("technique", "good", (
            "technical success", "technically successful", "procedural success", "procedurally successful",
            "successful completion", "successfully completed", "technical success rate", "successfully placed",
            "technically satisfactory", "technically adequate", "technically acceptable", "technical quality",
        )),
        ("technique", "bad", ("technical failure", "technical failures", "procedural failure")),
        ("complication", "bad", (
            "complication", "complications", "adverse event", "adverse events", "adverse effect", "adverse effects",
            "side effect", "side effects",
        )),
        ("fracture", "bad", ("fracture", "fractures", "fractured")),
        ("fistula", "bad", ("fistula", "fistulas", "fistulae")),
        ("doubt", "", ("uncertain", "doubtful", "questionable", "equivocal", "indeterminate")),
        ("doubt", "", tuple(
            f"healing {was} {how}" for was in ("was", "remained", "is")
            for how in ("doubtful", "uncertain", "questionable", "equivocal", "unclear")
        )),
        ("description", "", tuple(
            f"{who}agreed {on} {what}"
            for who in ("", "observers ", "examiners ", "readers ", "raters ")
            for on in ("on", "about") for what in ("healing", "success", "failure", "survival")
        )),
        ("size", "", ("reduction in size", "size reduction", "percentage reduction", "volume reduction")),
        ("description", "", (
            "observers agreed", "examiners agreed", "readers agreed", "raters agreed", "agreed in", "were available",
            "was available",
        )),
        # No event: the words of a method, or of what was said of the study.
        ("", "", (
            "survival analysis", "survival analyses", "survival curve", "survival curves", "survival time",
            "survival function", "failure time", "pain score", "pain scores", "pain scale",
            "pain intensity", "pain relief", "bleeding time", "bleeding settled", "infection control",
            "failure analysis", "success criteria", "criteria for success", "criteria of success", "healing time",
            "sample size",
        )),
    )
    for word in words
})  # fmt: skip
"""By word or words in lower case: the kind of event, one name for all its forms,
and which way it goes for the patient:
good, bad, or "" where it may be either."""

LENIENT = in_small(
    r"\b(?:heal(?:ed|ing)(?:\W+(?:or|and|plus)\W+| ?/ ?)(?:(?!not\b)\w+\W+){0,2}?(?:heal(?:ed|ing)\b|improv\w+)|"
    r"(?:complete(?:ly)?|full|fully|whole)\W+(?:or|and|plus)\W+(?:incomplete|partial|partly)(?:ly)?|"
    r"(?:or|and) (?:\w+ ){0,2}?(?:reduced|smaller|improved|improving|shrunken|reduction)\b|"
    r"(?:incomplete|partial|questionable|uncertain|doubtful)(?:ly)? (?:heal|resol)\w+|partly healed|"
    r"healing in progress|improv(?:ed|ing|ement)|(?:reduced|decreased|reduction|decrease) in size|bec[oa]me smaller|"
    r"(?:reduced|smaller) (?:lesions?|radiolucenc\w+)|lenient(?:ly)?|loose(?:ly)?(?= criteria| success)|some healing|"
    r"(?:signs?|evidence) of healing|still healing)\b"
)
"""Says that less than whole healing was counted too."""
STRICT = in_small(
    r"\b(?:complete(?:ly)? (?:heal|resol)\w+|(?:full|total)(?:ly)? heal\w+|complete resolution|strict(?:ly)?|"
    r"(?:healed|resolved) (?:completely|fully))\b"
)
"""Says that only whole healing was counted."""
STEMS_OF_STRICTNESS = (
    "healing", "complete", "full", "whole", "total", "strict", "partial", "partly", "reduc", "decrease", "smaller",
    "improv", "shrunken", "questionable", "uncertain", "doubtful", "lenient", "loose",
)  # fmt: skip
"""One of them stands in whatever either says, or "heal" twice."""
