"""Whether a ratio stands in the row, or behind the comparison, of something else than its claim compares."""

from __future__ import annotations

from collections.abc import Sequence

from ...printed.row_heads import Head, RowHeads
from ...printed.wordings import COUNTING, Mention, Name, Names
from ...reading.report_model import Claim, Contrast
from ...reading.values import Words
from ..asking import collapsed
from ..proving.level_names import key_of, names_within
from ..proving.printed_passage import Reading, surroundings_in
from .tie import Known, Stands, Ties, ratio_of

RULES: dict[str, str] = {
    "other-row": (
        "The passage has a ratio in the row, or beside the comparison, of something else than the claim compares, and "
        "another ratio in its own: of several factors in one model each has its own ratio, and one factor's says "
        "nothing of another. Type the ratio that stands in the claim's own row. Where the row has another name for the "
        "same thing, add that name in vocabulary.yaml to the synonyms of the level or the factor."
    ),
}


def find_rows(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """The ratio or difference of a claim."""
    claim = ties.scope.claim
    contrast = claim.contrast if claim is not None else None
    if claim is None or contrast is None:
        return
    stands = ratio_of(standing)
    if stands is None or stands.row.id in ties.asked:
        return
    names: _Named | None = None
    for own, others in stands.reading.told(_heads).of(stands.at):
        names = names or _Named(stands, contrast, claim, ties, known)
        its_own = next((head for head in others if names.claims(head)), None)
        if its_own is not None and not names.may_be_meant(own, its_own):
            _ask(stands, ties, contrast, names.factor, own, its_own)
            return


def _ask(stands: Stands, ties: Ties, contrast: Contrast, factor: str, own: Head, its_own: Head) -> None:
    said, instead = (_shown(stands, head) for head in (own, its_own))
    compares = " against ".join(
        f'"{words.text}"' for words in (contrast.level, contrast.reference) if type(words) is Words
    )
    ties.ask(
        stands, "other-row", f'has it beside "{said}"', f'the claim for {compares or factor}',
        f'type the ratio beside "{instead}"; where "{said}" means the same, add it to the synonyms in '
        "evidence/vocabulary.yaml",
    )  # fmt: skip


def _heads(reading: Reading) -> RowHeads:
    return RowHeads(reading.passage.text, reading.tokens, reading.told(surroundings_in), reading.table)


_FACTOR, _OUTCOME = "\nfactor", "\noutcome"
"""Keys of names that no level has."""


class _Named:
    """Where a passage names what a claim compares."""

    def __init__(self, stands: Stands, contrast: Contrast, claim: Claim, ties: Ties, known: Known) -> None:
        wording = known.factors.get(claim.factor.text) if claim.factor is not None else None
        titles = (wording.factor.title, *wording.factor.synonyms) if wording is not None else ()
        outcome = known.outcomes.get(claim.outcome.text)
        ends = (outcome.title, *outcome.synonyms) if outcome is not None else ()
        self.factor = f'"{titles[0].text}"' if titles else "another factor"
        levels = ties.scope.names if contrast.per is None else ()
        self.level = _FACTOR
        if contrast.level is not None and contrast.per is None:
            self.level = key_of(contrast.level.text, levels) or contrast.level.text
        self.text = stands.reading.passage.text
        names: Names = (
            Name(_FACTOR, tuple(words.text for words in titles)),
            *levels,
            Name(_OUTCOME, tuple(words.text for words in ends)),
        )
        parts = tuple(name for within in claim.within for name in names_within(within, known.factors, known.lexicon))
        self.mentions = stands.reading.mentions(names)
        self.of_parts = stands.reading.mentions(parts) if parts else []
        given = getattr(claim.given, "text", "").lower()
        self.given = {word for word in given.split() if len(word) > 3}

    def claims(self, head: Head) -> bool:
        """Whether a head names what the claim's ratio is for."""
        own = self._in(head.words)
        is_level = any(mention.key.casefold() == self.level.casefold() for mention in own)
        return self.names_factor(head) or (is_level and not all(map(self._is_general, own)))

    def names_factor(self, head: Head) -> bool:
        return any(mention.key == _FACTOR for mention in self._in(head.words))

    def may_be_meant(self, head: Head, other: Head) -> bool:
        """Whether a head, or what stands over it and not over another, names something of the claim's own. "Yes" is a
        level of every factor: where the other names the factor, it says nothing."""
        is_factor_named = self.names_factor(other)
        spans = [span for span in head.around if span not in other.words or span in head.words]
        around = [each for each in self._in(spans) if each.key != _OUTCOME]
        if any(not is_factor_named or not self._is_general(mention) for mention in around):
            return True
        if head.is_row and any(mention.key == _OUTCOME for mention in self._in(head.words)):
            return True
        words = " ".join(self.text[start:end] for start, end in head.words).lower()
        is_part = any(start <= each.start < end for start, end in head.words for each in self.of_parts)
        return is_part or any(word in words for word in self.given)

    def _in(self, spans: Sequence[tuple[int, int]]) -> list[Mention]:
        return [mention for mention in self.mentions for start, end in spans if start <= mention.start < end]

    def _is_general(self, mention: Mention) -> bool:
        return self.text[mention.start : mention.end].lower() in COUNTING


def _shown(stands: Stands, head: Head) -> str:
    """The words of a head as questions quote them, the last of a long sentence."""
    text = stands.reading.passage.text
    words = collapsed(": ".join(text[start:end] for start, end in reversed(head.words))).strip(" ,;:.=(|")
    if len(words) <= _LONGEST:
        return words
    return words[-_LONGEST:].partition(" ")[2]


_LONGEST = 70
"""Characters of a head in a question."""
