"""Which comparisons are of groups made at random, as their studies' designs and their claims say."""

from __future__ import annotations

import re
from collections.abc import Iterable

from .findings import Catalogue, Finding

_MADE_AT_RANDOM = frozenset({"randomised", "randomized", "rct", "rcts"})
_UNDONE_BY_THE_WORD_BEFORE = frozenset({"non", "not", "never", "quasi", "pseudo", "partly", "partially"})
# Of these a trial is only where the data come from, or what is imitated: their groups are made by something else.
_UNDONE_ANYWHERE = frozenset(
    {"observational", "cohort", "secondary", "mendelian", "emulated", "emulation", "review", "reviews"}
)


def is_randomised_design(design: str) -> bool:
    """True for "randomised trial", "cluster randomized trial", "RCT"; not for "non-randomised trial".

    design: as typed. Words in doubt are taken for no: a comparison is then told to be what it may be, crude.
    """
    words = re.findall(r"[a-z]+", design.casefold())
    if _UNDONE_ANYWHERE & set(words):
        return False
    pairs = zip(["", *words], words, strict=False)
    return any(word in _MADE_AT_RANDOM and before not in _UNDONE_BY_THE_WORD_BEFORE for before, word in pairs)


def is_randomised(catalogue: Catalogue, finding: Finding) -> bool:
    """True where the levels that a row compares were allotted at random.

    A trial allots treatments: what its groups were found to have, what is known only afterwards, and what the report
    says it had not planned to compare, differ in more than themselves there too.
    """
    factor = catalogue.evidence.vocabulary.factors.get(finding.factor)
    claim = finding.claim
    if factor is None or factor.role is None or factor.role.text != "treatment":
        return False
    if (claim.known_at is not None and claim.known_at.text == "after") or (
        claim.planned is not None and claim.planned.text == "no"
    ):
        return False
    designs = [facts.study.design for facts in finding.studies if facts.study is not None]
    return (
        bool(designs)
        and len(designs) == len(finding.studies)
        and all(design is not None and is_randomised_design(design.text) for design in designs)
    )


def not_randomised(catalogue: Catalogue, findings: Iterable[Finding]) -> tuple[tuple[str, ...], bool]:
    """Keys of the reports whose comparisons were not allotted at random, each once, and whether all are such."""
    known = {finding.base: (finding.key, is_randomised(catalogue, finding)) for finding in findings}
    keys = tuple(dict.fromkeys(key for key, is_random in known.values() if not is_random))
    return keys, not any(is_random for _, is_random in known.values())
