"""The words in which papers of every trade say what befell a unit: healed, failed, in pain, swollen, still in place."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

EVENTS: Mapping[str, tuple[str, str]] = MappingProxyType({
    word: (kind, side)
    for kind, side, words in (
        ("healing", "good", (
            "healed", "heal", "heals", "healing", "cured", "cure", "cures", "recovered", "recovery", "resolved",
            "resolves", "resolution", "success", "successes", "successful", "successfully", "succeeded", "favourable",
            "favorable", "favourably", "favorably", "remission", "disease-free", "restitution",
        )),
        ("healing", "bad", (
            "failed", "failure", "failures", "fail", "fails", "failing", "unsuccessful", "unsuccessfully", "unhealed",
            "non-healing", "non-healed", "nonhealing", "nonhealed", "unfavourable", "unfavorable", "unfavourably",
            "unfavorably", "disease", "diseased", "persistent disease", "unresolved", "relapse", "relapses",
            "relapsed", "reversal", "reversals", "recurrence", "recurrences", "recurred", "non-success", "nonsuccess",
        )),
        ("keeping", "good", (
            "survived", "survive", "survives", "survival", "surviving", "retained", "retention", "still in place",
            "in situ", "still there", "still present",
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
        )),
        ("technique", "bad", ("technical failure", "technical failures", "procedural failure")),
        ("complication", "bad", (
            "complication", "complications", "adverse event", "adverse events", "adverse effect", "adverse effects",
            "side effect", "side effects",
        )),
        ("fracture", "bad", ("fracture", "fractures", "fractured")),
        ("fistula", "bad", ("fistula", "fistulas", "fistulae")),
        ("doubt", "", ("uncertain", "doubtful", "questionable", "equivocal", "indeterminate")),
        ("size", "", ("reduction in size", "size reduction", "percentage reduction", "volume reduction")),
        # No event: the words of a method, or of what was said of the study.
        ("", "", (
            "survival analysis", "survival analyses", "survival curve", "survival curves", "survival time",
            "survival function", "lost to follow-up", "failure time", "pain score", "pain scores", "pain scale",
            "pain intensity", "pain relief", "bleeding time", "bleeding settled", "infection control",
            "failure analysis", "success criteria", "criteria for success", "criteria of success", "healing time",
            "sample size",
        )),
    )
    for word in words
})  # fmt: skip
"""By word or words in lower case: the kind of event, one name for all its forms, and which way it goes for the patient:
good, bad, or "" where it may be either."""

LENIENT = (
    "healed or healing", "healed/healing", "healed and healing", "healing or healed", "healed or improved",
    "healed and improved", "complete or incomplete", "complete and incomplete", "complete or partial",
    "complete and partial", "complete plus incomplete", "incomplete healing", "incompletely healed",
    "partial healing", "partially healed", "partly healed", "healing in progress", "improved", "improving",
    "improvement", "reduced in size", "decreased in size", "became smaller", "become smaller", "reduced lesion",
    "smaller lesion", "lenient", "leniently", "loose criteria", "loosely", "uncertain healing", "healing or improved",
    "questionable healing", "some healing", "signs of healing", "evidence of healing", "incomplete resolution",
    "partial resolution", "partially resolved", "reduced radiolucency", "smaller radiolucency", "healed plus healing",
    "either healed or healing", "still healing", "fully or partly", "completely or partially",
)  # fmt: skip
"""Say that less than whole healing was counted too."""
STRICT = (
    "complete healing", "completely healed", "fully healed", "complete resolution", "completely resolved", "strict",
    "strictly", "total healing", "healed completely", "healed fully", "resolved completely", "full healing",
    "strict criteria",
)  # fmt: skip
"""Say that only whole healing was counted."""
