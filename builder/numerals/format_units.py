"""The units that format 1 names, and the words that papers on teeth print beside them.

This is the one place of the readers of print that knows a trade. Claim files may count these units without declaring
them; what another trade counts is declared in the vocabulary and added with `Lexicon.with_units`.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from .lexicon import Lexicon, Unit

_SHOWN = (
    ("group", "dentition"),
    ("removed", "extracted"),
    ("removed_related", "extracted for the treated root"),
    ("removed_other", "extracted for other reasons"),
)
_NEEDS = ("dentition",)

_OF_THE_TRADE = (
    Unit("tooth", "tooth", "teeth", of="patient", is_numbered=True, shown=_SHOWN, needs=_NEEDS),
    Unit("root", "root", "roots", of="tooth", shown=_SHOWN, needs=_NEEDS),
    Unit("canal", "canal", "canals", of="tooth", shown=_SHOWN, needs=_NEEDS),
    Unit("lesion", "lesion", "lesions", of="tooth", shown=_SHOWN, is_finding=True),
)
_OF_EVERY_TRADE = (
    Unit("patient", "patient", "patients", ("people", "persons", "participants", "subjects", "individuals")),
    Unit("arm", "arm", "arms"),
    Unit("specimen", "specimen", "specimens"),
    Unit("study", "study", "studies", ("trials", "reports", "articles")),
)

_ADJECTIVES = frozenset({
    "permanent", "primary", "immature", "mature", "rooted", "posterior", "anterior", "maxillary", "mandibular",
    "molar", "premolar", "incisor", "canine", "repaired", "perforated", "endodontic",
})  # fmt: skip

_LABELS = frozenset({"pai"})

_ROLES = {
    "extracted": "extracted", "extraction": "extracted", "extractions": "extracted", "repaired": "treated",
    "retained": "good", "kept": "good", "sound": "good", "vital": "good", "removed": "good", "fractured": "bad",
}  # fmt: skip

_DONE_TO_CANALS = (
    "treated", "treatment", "treatments", "filled", "filling", "fillings", "therapy", "surgery",
)  # fmt: skip
_PHRASES = frozenset({
    *(f"root {canal} {done}" for canal in ("canal", "canals") for done in _DONE_TO_CANALS),
    "root end", "root filled", "root treated", "root resected",
})  # fmt: skip

_NOT_VITAL = (
    "necrotic", "necrosis", "pulp necrosis", "necrotic pulp", "necrotic pulps", "non-vital", "nonvital", "devital",
    "loss of vitality",
)  # fmt: skip
_EVENTS = MappingProxyType({
    word: (kind, side)
    for kind, side, words in (
        ("keeping", "bad", ("extracted", "extraction", "extractions", "tooth loss", "loss of the tooth", "teeth lost")),
        ("keeping", "bad", tuple(
            f"loss of {the}{described}{tooth}" for the, tooth in (
                ("the ", "tooth"), ("a ", "tooth"), ("the ", "teeth"), ("", "teeth"),
            ) for described in (
                "", "replanted ", "transplanted ", "treated ", "repaired ", "restored ", "affected ", "root-filled ",
            ) if the or described
        )),
        ("keeping", "bad", tuple(
            f"{tooth} {were} lost" for tooth, verbs in (
                ("teeth", ("were", "had been", "have been", "are")), ("tooth", ("was", "had been", "has been")),
            ) for were in verbs
        )),
        ("keeping", "bad", tuple(
            f"{were} {gone}" for were in (
                "teeth were", "teeth had been", "tooth was", "tooth had been", "teeth had to be", "tooth had to be",
            ) for gone in ("removed", "taken out", "pulled")
        )),
        ("keeping", "bad", (
            "replaced by an implant", "replaced by implants", "replaced with an implant", "replaced with implants",
            "teeth had gone", "tooth had gone", "teeth were gone", "tooth was gone", "no longer in the mouth",
            "no longer present in the mouth",
        )),
        ("", "", tuple(
            f"{tooth} lost to" for tooth in (
                "teeth were", "teeth had been", "teeth have been", "tooth was", "tooth had been", "tooth has been",
            )
        )),
        ("attendance", "", tuple(
            f"{tooth} lost {away}" for tooth in (
                "teeth were", "teeth had been", "teeth have been", "tooth was", "tooth had been", "tooth has been",
            ) for away in ("to follow-up", "to recall", "to view", "from view", "from follow-up", "sight of")
        )),
        ("description", "", (
            "were maxillary", "were mandibular", "restored with a crown were", "crowned were",
        )),
        ("healing", "bad", (
            "radiolucency", "radiolucencies", "radiolucent", "rarefaction", "apical periodontitis",
            "periapical disease", "periapical lesion", "periapical lesions", "pathosis", "periapical pathosis",
            "periapical pathology", "periradicular pathosis", "periradicular pathology", "apical pathosis",
        )),
        ("healing", "good", ("normal periapical", "periapical health", "periapically healthy")),
        ("discolouration", "bad", (
            "discoloration", "discolorations", "discolouration", "discolored", "discoloured", "staining", "stained",
        )),
        ("fistula", "bad", ("sinus tract", "sinus tracts")),
        ("tenderness", "bad", ("percussion", "tender to percussion", "tenderness to percussion")),
        ("mobility", "bad", ("mobility", "mobile")),
        ("extrusion", "bad", ("extrusion", "extruded", "overfilled", "overfill", "overfilling")),
        ("vitality", "good", ("vital", "vitality")),
        ("vitality", "good", tuple(
            f"{verb} to {what}" for verb in (
                "answered", "answer", "responded", "respond", "reacted", "react", "responsive",
            ) for what in (
                "cold", "heat", "cold testing", "the cold test", "sensibility testing", "pulp testing",
                "electric testing",
                "electric pulp testing", "testing",
            )
        )),
        ("vitality", "bad", ("pulp had died", "pulp has died", "pulps had died", "pulps have died")),
        ("vitality", "bad", tuple(
            f"{verb} {what}" for verb in ("became", "become", "turned", "gone") for what in ("necrotic", "non-vital")
        )),
        ("vitality", "bad", tuple(
            f"necrosis {verb}" for verb in ("occurred", "developed", "was seen", "was found", "was noted", "set in")
        )),
        ("vitality", "bad", ("developed necrosis", "lost vitality", "lost their vitality", "lost its vitality")),
        ("vitality", "bad", _NOT_VITAL),
        ("resorption", "bad", ("root resorption", "external resorption", "inflammatory resorption")),
        ("ankylosis", "bad", ("ankylosis", "ankylosed", "replacement resorption")),
        ("size", "", ("lesion size", "size of the lesion", "lesion volume", "volume of the lesion")),
    )
    for word in words
})  # fmt: skip

_GROUPINGS = (
    (
        ("molars", "molar teeth"), ("premolars", "premolar teeth"),
        ("anterior teeth", "anteriors", "front teeth", "incisors", "canines"), ("posterior teeth", "posteriors"),
    ),
    (("single-rooted teeth", "single-rooted"), ("multi-rooted teeth", "multirooted teeth", "multi-rooted")),
    (("maxillary teeth", "upper teeth"), ("mandibular teeth", "lower teeth")),
    (
        ("initial treatments", "initial treatment", "primary treatments", "first treatments"),
        ("retreatments", "retreatment", "retreated teeth", "secondary treatments"),
    ),
    (
        ("permanent teeth", "permanent molars", "permanent dentition"),
        ("primary teeth", "primary molars", "primary dentition", "deciduous teeth", "deciduous molars", "milk teeth"),
    ),
    (("immature teeth",), ("mature teeth",)),
)  # fmt: skip

_TREATMENTS = frozenset({
    "obturation", "instrumentation", "irrigation", "retreatment", "re-treatment", "canal preparation", "disinfection",
    "debridement", "root filling", "root canal treatment", "apical surgery", "cementation", "canal medication",
    "extraction", "restoration", "pulp therapy", "access preparation", "anaesthesia", "anesthesia",
})  # fmt: skip

FORMAT_1 = Lexicon(
    units=MappingProxyType({unit.id: unit for unit in (*_OF_THE_TRADE, *_OF_EVERY_TRADE)}),
    adjectives=_ADJECTIVES,
    labels=_LABELS,
    roles=MappingProxyType(_ROLES),
    participles=frozenset({"extracted"}),
    phrases=_PHRASES,
    good_outcomes=frozenset({"kept", "retained", "sound", "vital", "removed"}),
    bad_outcomes=frozenset({"extracted", "extraction", "fracture", "fractured"}),
    groupings=_GROUPINGS,
    treatments=_TREATMENTS,
    events=_EVENTS,
    states=frozenset(_NOT_VITAL),
)
"""What is read where a compendium declares nothing of its own."""

OTHER_TRADE = Lexicon(
    units=MappingProxyType(
        {unit.id: unit for unit in (Unit("lesion", "lesion", "lesions", of="patient"), *_OF_EVERY_TRADE)}
    )
)
"""What is read beside the units that a compendium of another trade declares."""

COUNTED_IN_A_STUDY = tuple(unit for unit in FORMAT_1.units if unit != "study")
"""What `unit` of a study may name without a declaration, in the order in which messages list it."""

COUNTED_NAMES = MappingProxyType({"teeth": "units"})
"""Names that format 1 gave computed results in the words of one trade, with the name that every trade has for them."""


def lexicon_of(declared: Mapping[str, Unit]) -> Lexicon:
    """The words of a compendium that declares these units.

    Those of the format's own trade are among them where nothing is declared, or one of its units, or a part of one:
    a filling `of: tooth`.
    """
    own = {unit.id: unit.one for unit in _OF_THE_TRADE}
    is_of_the_trade = not declared or any(
        own.get(name) == unit.one or (unit.of in own and unit.of not in declared) for name, unit in declared.items()
    )
    return (FORMAT_1 if is_of_the_trade else OTHER_TRADE).with_units(declared.values()) if declared else FORMAT_1
