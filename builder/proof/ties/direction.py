"""Which level a ratio or difference is for, which it is against, and on which side of no difference it must lie."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache, partial
from typing import Literal

from ...numerals.late import late
from ...printed.aliases import with_aliases
from ...printed.changes import Change
from ...printed.clauses import Span
from ...printed.comparisons import COMPARES, JUDGED, Compared, Comparisons, Region, Side, names_states_turned
from ...printed.reference_cells import against_row, announced_reference, compared_in_row
from ...printed.tables import InCell
from ...printed.wordings import Mention, Names
from ...reading.contrasts import RATIOS
from ...reading.report_model import Claim, Contrast
from ...reading.values import Words
from ..asking import in_quotes, in_yaml
from ..proving.level_names import key_of
from ..proving.printed_passage import Reading, surroundings_in
from .measured import MEASURED, is_difference, is_more_of, turned_by_change
from .ratio_event import contradicts_itself, event_said, is_of_opposite_event
from .sides import PREVENTED, Shares, reckoned_from_means, shares_beside, side_of
from .tie import Known, Stands, Ties, ratio_of

RULES: dict[str, str] = {
    "ratio-direction": (
        "The passage says that a ratio or difference is the other way round than the claim has it: for the claim's "
        "reference and against its level, or of the opposite event, or the counts of both levels lie on the other "
        "side. An odds ratio of 2.4 for A against B is one of 0.42 for B against A: turned round, worse reads as "
        "better. Type `level`, `reference` and `event_is` as the passage has them."
    ),
    "ratio-direction-unsaid": (
        "Nothing in the passage says which level a ratio is for and which it is against: no word of comparison, no "
        "counts or rates of both levels, and its level is not named alone beside it. Type the words of the report that "
        "say so into the passage, or quote in `in_words` those that mean it."
    ),
}


def find_direction(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """The ratio or difference of a claim."""
    claim = ties.scope.claim
    contrast = claim.contrast if claim is not None else None
    if claim is None or contrast is None:
        return
    stands = ratio_of(standing)
    if stands is None or stands.row.id in ties.asked or contradicts_itself(stands, ties, contrast, claim, known):
        return
    ratio = _Ratio(stands, ties, claim, contrast, known)
    if stands.row.id not in ties.settled and is_of_opposite_event(stands, ties, contrast, claim, known, ratio.regions):
        return
    if contrast.level is not None and contrast.per is None:
        ratio.find()


@lru_cache(maxsize=512)
def _reader(names: Names) -> partial[Comparisons]:
    """One and the same reader for the same names, so that a passage is read once for them."""
    return partial(_comparisons, names)


def _comparisons(names: Names, reading: Reading) -> Comparisons:
    text = reading.passage.text
    mentions = reading.mentions(names)
    mentions = with_aliases(text, mentions, names) if reading.table.lines and mentions else mentions
    return Comparisons(text, reading.tokens, reading.told(surroundings_in), mentions)


class _Ratio:
    """The ratio or difference of one claim, with all that its direction is read from."""

    def __init__(self, stands: Stands, ties: Ties, claim: Claim, contrast: Contrast, known: Known) -> None:
        self.stands, self.ties, self.claim, self.contrast, self.known = stands, ties, claim, contrast, known
        self.names = ties.scope.names
        self.text = stands.reading.passage.text
        self.level = key_of(contrast.level.text, self.names) if contrast.level is not None else ""
        reference = contrast.reference if type(contrast.reference) is Words else claim.reference
        self.reference = key_of(reference.text, self.names) if type(reference) is Words else ""
        self.reference = "" if self.reference == self.level else self.reference
        """Keys of the names; "" where the claim does not tell."""
        none = 1 if contrast.measure.text in RATIOS else 0
        value = stands.row.value
        is_turned = contrast.measure.text == PREVENTED  # it counts the events that did not come
        self.is_above_none = None if value == none else (value > none) != is_turned
        """On which side of no difference it lies; None on neither."""
        self.event = contrast.event_is.text if contrast.event_is is not None else ""
        """good, bad, or "" where the claim does not tell."""
        self.cell: InCell | None = stands.reading.cells()[stands.at]
        self.comparisons = stands.reading.told(_reader(self.names))
        self.regions = self.comparisons.regions(stands.at, self.cell)

    def find(self) -> None:
        """Its ties and questions."""
        is_found = self._find_in_words()
        if self.stands.row.id in self.ties.asked:
            return
        is_found = self._find_in_figures(is_tied=is_found) or is_found
        is_told = bool(self.contrast.in_words or self.claim.in_words)
        if not is_found and not is_told and self.contrast.measure.text in RATIOS:
            self._find_silence()

    @property
    def as_typed(self) -> str:
        return f"{self.level} against {self.reference}" if self.reference else self.level

    @property
    def as_asked(self) -> str:
        return f'"{self.level}" against "{self.reference}"' if self.reference else f'"{self.level}"'

    def _tie(self, by: Literal["words", "position"], *words: Span) -> None:
        self.ties.tie(self.stands, "direction", self.as_typed, by, *words)

    def _ask(self, passage_says: str, claim_says: str, mend: str) -> None:
        self.ties.ask(self.stands, "ratio-direction", passage_says, claim_says, mend)

    # By words

    def _find_in_words(self) -> bool:
        """Whether words say what the ratio compares; a question where they say otherwise."""
        if self._is_against_a_row():
            return True
        for region in self.regions:
            favoured = self.comparisons.favoured(region)
            if favoured is not None and self.event and self.is_above_none is not None:
                self._answer_favoured(favoured)
                return True
            compared = self.comparisons.compared(region, is_above_none=self.is_above_none)
            if compared is not None:
                turned = self._turned(compared, region)
                return turned is None or self._answer(turned)
        return self._is_against_another() or self._is_named_alone() or self._is_told_by_row()

    def _is_against_a_row(self) -> bool:
        """Whether another row is marked as the reference of the ratio's own, "Yes | 1 (reference)"; a question where
        the claim compares otherwise."""
        if self.cell is None:
            return False
        table = self.stands.reading.table
        compared = against_row(self.text, table, self.cell, self.comparisons.mentions)
        if compared is None or compared.level not in (self.level, self.reference) or not self.reference:
            return False
        return self._answer(compared)

    def _is_against_another(self) -> bool:
        """A question where an earlier sentence announces another reference than the claim's for all ratios."""
        announced = announced_reference(self.text, self.comparisons.mentions, self.stands.token.start)
        if announced is None or not self.reference or announced.key in ("", self.reference):
            return False
        return self._answer(Compared("", announced.key, ((announced.start, announced.end),)))

    def _is_told_by_row(self) -> bool:
        """Whether the head of the ratio's row is the claim's level; a question where it is the reference."""
        if self.cell is None:
            return False
        compared = compared_in_row(self.text, self.stands.reading.table, self.cell, self.comparisons.mentions)
        if compared is None or not {compared.level, compared.reference} <= {self.level, self.reference, ""}:
            return False
        return self._answer(compared)

    def _turned(self, compared: Compared, region: Region) -> Compared | None:
        """What is compared, where the words "shortened by 6.5" and "higher in A than in B" are heard; None where that
        leaves it open."""
        is_measured = self.contrast.measure.text == MEASURED
        is_by_change = is_difference(self.contrast) and (not compared.is_by_side or is_measured)
        if is_by_change and self.is_above_none is not None:
            is_more = partial(self._is_more, region)
            return turned_by_change(self.text, compared, region, self.is_above_none, is_more)
        return self._turned_by_side(compared, region) if compared.is_by_side else compared

    def _is_more(self, region: Region, change: Change) -> bool | None:
        if self.contrast.measure.text == MEASURED:
            return is_more_of(change, self.text, self.contrast, self.claim, self.known)
        if change.kind in ("speed", "length"):
            return None
        return self._expected(Side("", "", change.is_more, change.start, change.end), region)

    def _answer_favoured(self, favoured: Mention) -> None:
        """ "favouring A", where the claim makes A, or B, the better one."""
        is_better = self.is_above_none == (self.event == "good")
        if (favoured.key == self.level) == is_better or favoured.key not in (self.level, self.reference):
            self._tie("words", (favoured.start, favoured.end))
            return
        better = self.level if is_better else self.reference
        self._ask(
            f'says that it favours "{favoured.key}"', f'the claim makes "{better}" the better one',
            "see `level`, `reference` and `event_is`",
        )  # fmt: skip

    def _is_named_alone(self) -> bool:
        """ "residents: RR 2.1": the ratio is for the one level that is named beside it."""
        region = next((region for region in self.regions if region.mentions), None)
        alone = self.comparisons.named_alone(region) if region is not None else None
        if region is None or alone is None:
            return False
        words = (alone.start, alone.end)
        if self._is_behind_versus(alone):
            return self._answer(Compared("", alone.key, (words,)))
        if self.is_above_none and is_difference(self.contrast):
            as_named = Compared(alone.key, "", (words,))
            is_more = partial(self._is_more, region)
            turned = turned_by_change(self.text, as_named, region, is_above_none=True, is_more=is_more)
            if turned is None or not turned.level:
                return turned is None or self._answer(turned)
        if alone.key == self.level:
            if not self._goes_against(region):
                self._tie("words", words)
            return True
        if alone.key == self.reference and region.value >= 0 and not self._is_behind_the_last_arm():
            return self._answer(Compared(alone.key, "", (words,)))
        return False

    def _is_behind_versus(self, alone: Mention) -> bool:
        """ "Late v. early repair", where late alone is no name; "lesion (absent v. present)"."""
        is_last = _ends_in_versus(self.text[max(alone.start - _BEFORE, 0) : alone.start]) is not None
        return is_last or names_states_turned(self.text, alone.end) is not None

    def _is_behind_the_last_arm(self) -> bool:
        """ "74 of 86 healed with A; 60 of 84 did with B, a difference of 14.6%": the clause names B for the 60 of 84,
        and the figures of both put the difference on the claim's side."""
        if self.cell is not None or not self.level or not self.reference:
            return False
        keys = (self.level, self.reference)
        if self.contrast.measure.text == MEASURED:
            return reckoned_from_means(self.stands, self.names, keys) == "own"
        shares = shares_beside(self.stands, self.claim, self.ties, self.known, self.names, keys)
        return shares is not None and side_of(shares, self.contrast, self.stands.row) == "own"

    def _answer(self, compared: Compared) -> bool:
        """A tie where a comparison is the claim's own, a question where it is another."""
        level, reference = compared.level, compared.reference
        is_level = not level or level == self.level
        is_reference = (
            not reference or reference == self.reference or (not self.reference and reference != self.level)
        )  # fmt: skip
        if is_level and is_reference:
            self._tie("words", *compared.words)
            return True
        said = self.stands.printed(*compared.words)
        if level and reference:
            says = f'gives it for "{level}" against "{reference}" ("{said}")'
        elif level:
            says = f'gives it for "{level}"'
        else:
            says = f'gives it against "{reference}", its reference ("{said}")'
        level = level or (self.reference if reference == self.level else self.level)
        reference = reference or (self.level if level == self.reference else self.reference)
        mend = f"level: {in_yaml(level)}" + (f", reference: {in_yaml(reference)}" if reference else "")
        self._ask(says, f"the claim for {self.as_asked}", mend)
        return True

    def _turned_by_side(self, compared: Compared, region: Region) -> Compared | None:
        """ "lower in A than in B (HR 0.55)" is for A; "higher in A than in B (HR 0.55)" for B. None where that depends
        on an event that nobody can tell."""
        sides = [side for side in self.comparisons.sides(region) if side.other]
        sides = [side for side in sides if {side.subject, side.other} == {compared.level, compared.reference}]
        if len({(side.subject, side.is_more) for side in sides}) != 1:
            return None
        side = sides[0]
        is_above = self._expected(side, region)
        if is_above is None:
            return None
        if is_above == self.is_above_none:
            return Compared(side.subject, side.other, compared.words)
        return Compared(side.other, side.subject, compared.words)

    def _expected(self, side: Side, region: Region) -> bool | None:
        """Whether a ratio for the subject of a side must lie above no difference; None where the event is not clear."""
        judged = JUDGED.get(self.text[side.start : side.end].lower())
        if judged is not None:
            return judged == self.event if self.event else None
        if not self.event:
            return side.is_more
        said = self._event_of(side, region)
        if said == "both":
            return None
        return side.is_more if not said or said == self.event else not side.is_more

    def _event_of(self, side: Side, region: Region) -> str:
        """The event that there is more or less of: in the words straight behind "more", before it, else in the
        region."""
        before = max(region.start, side.start - _BEFORE)
        for low, high in ((side.end, min(side.end + _BEHIND, region.end)), (before, side.start), region[:2]):
            said = event_said(self.stands, low, high, self.contrast, self.claim, self.known)
            if said:
                return said
        return ""

    def _goes_against(self, region: Region) -> bool:
        """ "failure was more frequent in A (OR 2.4)", where the claim makes it a ratio of healing."""
        if not self.event or self.is_above_none is None or region.value < 0:
            return False
        sides = [side for side in self.comparisons.sides(region) if side.subject == self.level]
        if len(sides) != 1:
            return False
        word = self.text[sides[0].start : sides[0].end]
        if JUDGED.get(word.lower()) is None and self._event_of(sides[0], region) not in ("good", "bad"):
            return False
        expected = self._expected(sides[0], region)
        if expected is None or expected == self.is_above_none:
            return False
        self._ask(
            f'says "{word}" of "{self.level}" beside it',
            f"the claim makes it a ratio of the {self.event} event for {self.as_asked}",
            f"event_is: {self._other_event}, or `level` and `reference` exchanged",
        )
        return True

    @property
    def _other_event(self) -> str:
        return "bad" if self.event == "good" else "good"

    # By counts

    def _find_in_figures(self, *, is_tied: bool) -> bool:
        """Whether shares of both levels stand beside the ratio, or two means beside the difference; a question where
        they speak against it."""
        keys = (self.level, self.reference)
        shares = shares_beside(self.stands, self.claim, self.ties, self.known, self.names, keys)
        if shares is not None:
            self._find_in_counts(shares, is_tied=is_tied)
        if self.contrast.measure.text == MEASURED:
            self._find_in_means(is_tied=is_tied)
        return shares is not None

    def _find_in_counts(self, shares: Shares, *, is_tied: bool) -> None:
        """A tie where the shares of both levels agree with the ratio, a question where they lie on its other side."""
        found = side_of(shares, self.contrast, self.stands.row)
        if found == "own" and not is_tied:
            self._tie("words", *shares.words)
        if found not in ("turned", "opposite"):
            return
        holders = " and claim ".join(shares.claims)
        has = f"has it, while claim {holders} has" if holders else "has"
        level, reference, other = self.level, self.reference, self._other_event
        self._ask(
            f'{has} {shares.level} for "{level}" and {shares.reference} for "{reference}" with the {shares.of} event: '
            f'by these it is a ratio of the {other} event, or one for "{reference}" against "{level}"',
            f"the claim makes it one of the {self.event} event for {self.as_asked}",
            f"event_is: {other}, or level: {in_yaml(reference)}, reference: {in_yaml(level)}",
        )

    def _find_in_means(self, *, is_tied: bool) -> None:
        """A difference of the two means that the passage prints, one less the other."""
        if not self.level or not self.reference:
            return
        found = reckoned_from_means(self.stands, self.names, (self.level, self.reference))
        if found == "own" and not is_tied:
            self._tie("position")
        elif found == "turned":
            self._ask(
                f'has it as the mean of "{self.reference}" less that of "{self.level}"',
                f"the claim for {self.as_asked}",
                f"level: {in_yaml(self.reference)}, reference: {in_yaml(self.level)}",
            )

    # Silence

    def _find_silence(self) -> None:
        """A question where no word compares either."""
        if self._has_words_of_comparison():
            return
        low, high = self.comparisons.around.clause(self.stands.token.start)
        words = self.stands.printed((low, high))
        self.ties.ask(
            self.stands, "ratio-direction-unsaid", "does not say which level it is for",
            f"the claim for {self.as_asked}",
            "type into the passage the words of comparison that the report prints; where these words mean it, quote "
            f"them in the contrast:\nin_words: {in_quotes(words)}",
        )  # fmt: skip

    def _has_words_of_comparison(self) -> bool:
        reading = self.stands.reading
        if self.cell is not None and any(
            other is not None and other.row != self.cell.row and token.value == 1
            and self.text[slice(*other.cell)] == token.text
            for other, token in zip(reading.cells(), reading.tokens, strict=True)
        ):  # fmt: skip
            return True  # the row of the reference
        return any(COMPARES.search(self.text, region.start, region.end) for region in self.regions) or bool(
            COMPARES.search(reading.passage.bracket)
        )


_ends_in_versus = late(r"[a-z]\s+(?:v\.?|vs\.?|versus|against)\s+$", re.IGNORECASE).search
_BEHIND, _BEFORE = 20, 60
"""Characters beside "more" and "less" in which what there is more of is looked for."""
