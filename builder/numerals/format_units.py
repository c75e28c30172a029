"""The units that format 1 names, and the words that papers on teeth print beside them.

This is the one place of the readers of print that knows a trade. Claim files may count these units without declaring
them; what another trade counts is declared in the vocabulary and added with `Lexicon.with_units`.
"""

from __future__ import annotations

from types import MappingProxyType

from .lexicon import Lexicon, Unit

_UNITS = (
    Unit("tooth", "tooth", "teeth", of="patient", is_numbered=True),
    Unit("root", "root", "roots", of="tooth"),
    Unit("canal", "canal", "canals", of="tooth"),
    Unit("lesion", "lesion", "lesions", of="tooth"),
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

FORMAT_1 = Lexicon(
    units=MappingProxyType({unit.id: unit for unit in _UNITS}),
    adjectives=_ADJECTIVES,
    labels=_LABELS,
    roles=MappingProxyType(_ROLES),
    participles=frozenset({"extracted"}),
    phrases=_PHRASES,
    good_outcomes=frozenset({"kept", "retained", "sound", "vital", "removed"}),
    bad_outcomes=frozenset({"extracted", "extraction", "fracture", "fractured"}),
)
"""What is read where a compendium declares nothing of its own."""
