"""Facts of a study that are words: who treated, with what, which kind of people, its design, as the report has them."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from functools import partial

from ...numerals.late import late
from ...printed.clauses import Span
from ...printed.facts_told import (
    is_denied,
    may_mention,
    may_tell_design,
    may_tell_selection,
    may_tell_who_treats,
    mentions_in,
    only_looked,
    opposite_in,
    other_design,
    other_selection,
    says_who_treated,
    treated_by_others,
    unaided,
)
from ...reading.report_model import Passage, Study
from ...reading.values import Words
from ..asking import collapsed
from .tie import Known, Stands, Ties

RULES: dict[str, str] = {
    "fact-otherwise": (
        "A passage of the report says otherwise than a typed fact of the study: the microscope was not used, residents "
        "read the films and specialists treated, people were drawn by lot in what is called a cohort. Readers judge by "
        "these facts whether a study is like their case. Correct the fact, or answer why the passage means the same."
    ),
}

_is_of_some = late(r"\b(?:some|most|many|few|part|mixed|or|and|both|rarely|naked|unaided|half)\b", re.IGNORECASE).search
_NO_FACT = frozenset({"not reported", "none", "mixed", "any", "all", "unclear", "not applicable", "both"})


def find_facts(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """The facts of a study that a report types, each against all that the report's passages say."""
    study = ties.scope.study
    if study is None or not ties.source.passages:
        return
    # Most facts are named by no passage, which one look at all of them together tells.
    small = "\n".join([passage.text for passage in ties.source.passages]).lower()
    for key, fact in _facts(study):
        found = _against(key, fact.text, ties.source.passages, small)
        if found is not None:
            passage, span = found
            said = collapsed(passage.text[slice(*span)])
            ties.ask_at(
                fact.position, "fact-otherwise", said, passage, "says otherwise", f'the study has {key}: "{fact.text}"'
            )


def _facts(study: Study) -> Iterator[tuple[str, Words]]:
    if study.design is not None:
        yield "design", study.design
    if study.selection is not None:
        yield "selection", study.selection
    blocks = (study.population, study.setting if isinstance(study.setting, dict) else {})
    for block in blocks:
        for key, words in block.items():
            if key != "recruited" and words.text.lower() not in _NO_FACT and len(words.text) > 3:
                yield key, words


def _against(key: str, typed: str, passages: Sequence[Passage], small: str) -> tuple[Passage, Span] | None:
    """The passage that says otherwise, and where; None where none does. small: all passages, in small letters."""
    if key in ("design", "selection"):
        may_tell, other = _BY_KEY[key]
        return _first(passages, partial(other, typed=typed)) if may_tell(small) else None
    named: list[tuple[Passage, Span]] = []
    if may_mention(small, typed):
        named = [(each, span) for each in passages for span in mentions_in(each.text, typed)]
        if named and all(is_denied(each.text, span) for each, span in named):
            return named[0]
    if key == "operators":
        return _treated(typed, passages, named) if named or may_tell_who_treats(small) else None
    if named:
        return None
    if key == "magnification" and not _is_of_some(typed):
        return _first(passages, unaided)
    return _first(passages, partial(opposite_in, words=typed))


def _first(passages: Sequence[Passage], find: Callable[[str], Span | None]) -> tuple[Passage, Span] | None:
    """The first passage in which something is found, and where."""
    return next(((each, span) for each in passages if (span := find(each.text)) is not None), None)


_BY_KEY = {"design": (may_tell_design, other_design), "selection": (may_tell_selection, other_selection)}


def _treated(
    typed: str, passages: Sequence[Passage], named: Sequence[tuple[Passage, Span]]
) -> tuple[Passage, Span] | None:
    """Where somebody else treated, or those who are typed only read films and supervised."""
    if not named:
        return _first(passages, partial(treated_by_others, typed=typed))
    is_of_others = all(only_looked(each.text, span) for each, span in named)
    return named[0] if is_of_others and any(says_who_treated(each.text) for each in passages) else None
