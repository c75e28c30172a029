"""Every rule of the audit with its paragraph for contributors."""

from __future__ import annotations

from ..proof.proving.figure_messages import FIGURE_RULES
from ..proof.proving.interval_level import INTERVAL_LEVEL_RULES
from ..proof.ties.tying import TIE_RULES
from . import (
    absolute_risks,
    acknowledgements,
    addresses,
    agreement,
    cohorts,
    example,
    factor_levels,
    hard_sentences,
    intervals,
    outcome_wordings,
    over_time,
    own_words,
    patient_sheet,
    percents,
    prose,
    question_references,
    references,
    standing,
    studies,
    tables,
    upkeep,
)

AUDIT_RULES: dict[str, str] = {
    rule: paragraph
    for subject in (
        FIGURE_RULES,
        INTERVAL_LEVEL_RULES,
        own_words.RULES,
        TIE_RULES,
        percents.RULES,
        intervals.RULES,
        tables.RULES,
        absolute_risks.RULES,
        over_time.RULES,
        agreement.RULES,
        studies.RULES,
        cohorts.RULES,
        references.RULES,
        factor_levels.RULES,
        outcome_wordings.RULES,
        question_references.RULES,
        patient_sheet.RULES,
        hard_sentences.RULES,
        standing.RULES,
        upkeep.RULES,
        prose.RULES,
        addresses.RULES,
        example.RULES,
        acknowledgements.RULES,
    )
    for rule, paragraph in subject.items()
}
"""By rule name: what it found, why it matters, how to mend or answer it, and its published basis."""
