"""Which level a ratio or difference is for, which it is against, and on which side of no difference it must lie."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache, partial
from typing import NamedTuple

from ...reading.contrasts import RATIOS
from ...reading.folded import folded
from ...reading.report_model import Claim, Contrast
from ...reading.values import Missing, Words
from ..asking import in_quotes, in_yaml
from ..printed.changes import Change
from ..printed.comparisons import COMPARES, JUDGED, Compared, Comparisons, Region, Side
from ..printed.tables import InCell
from ..printed.wordings import Mention, Names
from ..proving.printed_passage import Reading, surroundings_in
from .measured import MEASURED, is_difference, is_more_of, turned_by_change
from .ratio_event import contradicts_itself, event_said, is_of_opposite_event
from .sides import Shares, reckoned, reckoned_from_means, shares_beside
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


class _Told(NamedTuple):
    """What a claim says of its ratio."""

    contrast: Contrast
    level: str
    reference: str
    """Keys of the names; "" where the claim does not tell."""
    is_above_none: bool | None
    """On which side of no difference it lies; None on neither."""


def find_direction(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """The ratio or difference of a claim."""
    claim = ties.scope.claim
    contrast = claim.contrast if claim is not None else None
    if claim is None or contrast is None:
        return
    stands = ratio_of(standing)
    if stands is None or stands.row.id in ties.asked or contradicts_itself(stands, ties, contrast, claim, known):
        return
    names = ties.scope.names
    told = _told(contrast, names, stands)
    comparisons = stands.reading.told(_reader(names))
    regions = comparisons.regions(stands.at, _cell(stands))
    if stands.row.id not in ties.settled and is_of_opposite_event(stands, ties, contrast, claim, known, regions):
        return
    if contrast.level is None or contrast.per is not None:
        return
    is_found = _find_in_words(stands, ties, told, comparisons, regions, claim, known)
    if stands.row.id not in ties.asked:
        is_found = _find_in_figures(stands, ties, told, names, claim, known, is_tied=is_found) or is_found
        if not is_found and contrast.measure.text in RATIOS and not _is_told_by_reader(contrast, claim):
            _find_silence(stands, ties, told, comparisons, regions)


@lru_cache(maxsize=512)
def _reader(names: Names) -> partial[Comparisons]:
    """One and the same reader for the same names, so that a passage is read once for them."""
    return partial(_comparisons, names)


def _comparisons(names: Names, reading: Reading) -> Comparisons:
    text = reading.passage.text
    return Comparisons(text, reading.tokens, reading.told(surroundings_in), reading.mentions(names))


def _cell(stands: Stands) -> InCell | None:
    return stands.reading.cells()[stands.at]


def _told(contrast: Contrast, names: Names, stands: Stands) -> _Told:
    keys = {folded(name.key): name.key for name in names}
    level = keys.get(folded(contrast.level.text), "") if contrast.level is not None else ""
    reference = keys.get(folded(contrast.reference.text), "") if type(contrast.reference) is Words else ""
    none = 1 if contrast.measure.text in RATIOS else 0
    value = stands.row.value
    return _Told(contrast, level, reference, None if value == none else value > none)


# By words


def _find_in_words(
    stands: Stands, ties: Ties, told: _Told, comparisons: Comparisons, regions: Sequence[Region], claim: Claim,
    known: Known,
) -> bool:  # fmt: skip
    """Whether words say what the ratio compares; a question where they say otherwise."""
    for region in regions:
        favoured = comparisons.favoured(region)
        if favoured is not None and told.contrast.event_is is not None and told.is_above_none is not None:
            _answer_favoured(stands, ties, told, favoured)
            return True
        compared = comparisons.compared(region, is_above_none=told.is_above_none)
        if compared is not None:
            turned = _turned(compared, comparisons, region, told, claim, known, stands)
            return turned is None or _answer(stands, ties, told, turned)
    return _is_named_alone(stands, ties, told, comparisons, regions, claim, known)


def _turned(
    compared: Compared,
    comparisons: Comparisons,
    region: Region,
    told: _Told,
    claim: Claim,
    known: Known,
    stands: Stands,
) -> Compared | None:
    """What is compared, where the words "shortened by 6.5" and "higher in A than in B" are heard; None where that
    leaves it open."""
    is_by_change = is_difference(told.contrast) and (not compared.is_by_side or told.contrast.measure.text == MEASURED)
    if is_by_change and told.is_above_none is not None:
        is_more = partial(_is_more, region, told, claim, known, stands)
        return turned_by_change(stands.reading.passage.text, compared, region, told.is_above_none, is_more)
    return (
        _turned_by_side(compared, comparisons, region, told, claim, known, stands) if compared.is_by_side else compared
    )


def _is_more(region: Region, told: _Told, claim: Claim, known: Known, stands: Stands, change: Change) -> bool | None:
    if told.contrast.measure.text == MEASURED:
        return is_more_of(change, stands.reading.passage.text, told.contrast, claim, known)
    if change.kind in ("speed", "length"):
        return None
    return _expected(Side("", "", change.is_more, change.start, change.end), region, told, claim, known, stands)


def _answer_favoured(stands: Stands, ties: Ties, told: _Told, favoured: Mention) -> None:
    """ "favouring A", where the claim makes A, or B, the better one."""
    event = told.contrast.event_is
    is_better = told.is_above_none == (event is not None and event.text == "good")
    if (favoured.key == told.level) == is_better or favoured.key not in (told.level, told.reference):
        ties.tie(stands, "direction", _as_typed(told), "words", (favoured.start, favoured.end))
        return
    better = told.level if is_better else told.reference
    ties.ask(
        stands, "ratio-direction", f'says that it favours "{favoured.key}"',
        f'the claim makes "{better}" the better one',
        "see `level`, `reference` and `event_is`",
    )  # fmt: skip


def _is_named_alone(
    stands: Stands, ties: Ties, told: _Told, comparisons: Comparisons, regions: Sequence[Region], claim: Claim,
    known: Known,
) -> bool:  # fmt: skip
    """ "residents: RR 2.1": the ratio is for the one level that is named beside it."""
    region = next((region for region in regions if region.mentions), None)
    alone = comparisons.named_alone(region) if region is not None else None
    if region is None or alone is None:
        return False
    words = (alone.start, alone.end)
    if told.is_above_none and is_difference(told.contrast):
        is_more = partial(_is_more, region, told, claim, known, stands)
        as_named = Compared(alone.key, "", (words,))
        turned = turned_by_change(stands.reading.passage.text, as_named, region, is_above_none=True, is_more=is_more)
        if turned is None or not turned.level:
            return turned is None or _answer(stands, ties, told, turned)
    if alone.key == told.level:
        if not _goes_against(region, comparisons, told, claim, known, stands, ties):
            ties.tie(stands, "direction", _as_typed(told), "words", words)
        return True
    if alone.key == told.reference and region.value >= 0:
        return _answer(stands, ties, told, Compared(alone.key, "", (words,)))
    return False


def _answer(stands: Stands, ties: Ties, told: _Told, compared: Compared) -> bool:
    """A tie where a comparison is the claim's own, a question where it is another."""
    level, reference = compared.level, compared.reference
    is_level = not level or level == told.level
    is_reference = not reference or reference == told.reference or (not told.reference and reference != told.level)
    if is_level and is_reference:
        ties.tie(stands, "direction", _as_typed(told), "words", *compared.words)
        return True
    said = stands.printed(*compared.words)
    if level and reference:
        says = f'gives it for "{level}" against "{reference}" ("{said}")'
    elif level:
        says = f'gives it for "{level}"'
    else:
        says = f'gives it against "{reference}", its reference ("{said}")'
    level = level or (told.reference if reference == told.level else told.level)
    reference = reference or (told.level if level == told.reference else told.reference)
    mend = f"level: {in_yaml(level)}" + (f", reference: {in_yaml(reference)}" if reference else "")
    ties.ask(stands, "ratio-direction", says, f"the claim for {_as_asked(told)}", mend)
    return True


def _as_typed(told: _Told) -> str:
    return f"{told.level} against {told.reference}" if told.reference else told.level


def _as_asked(told: _Told) -> str:
    return f'"{told.level}" against "{told.reference}"' if told.reference else f'"{told.level}"'


def _turned_by_side(
    compared: Compared,
    comparisons: Comparisons,
    region: Region,
    told: _Told,
    claim: Claim,
    known: Known,
    stands: Stands,
) -> Compared | None:
    """ "lower in A than in B (HR 0.55)" is for A; "higher in A than in B (HR 0.55)" for B. None where that depends on
    an event that nobody can tell."""
    sides = [side for side in comparisons.sides(region) if side.other]
    sides = [side for side in sides if {side.subject, side.other} == {compared.level, compared.reference}]
    if len({(side.subject, side.is_more) for side in sides}) != 1:
        return None
    is_above = _expected(sides[0], region, told, claim, known, stands)
    if is_above is None:
        return None
    side = sides[0]
    words = compared.words
    if is_above == told.is_above_none:
        return Compared(side.subject, side.other, words)
    return Compared(side.other, side.subject, words)


def _expected(side: Side, region: Region, told: _Told, claim: Claim, known: Known, stands: Stands) -> bool | None:
    """Whether a ratio for the subject of a side must lie above no difference; None where the event is not clear."""
    word = stands.reading.passage.text[side.start : side.end].lower()
    event = told.contrast.event_is.text if told.contrast.event_is is not None else ""
    judged = JUDGED.get(word)
    if judged is not None:
        return judged == event if event else None
    if not event:
        return side.is_more
    said = _event_of(side, region, told, claim, known, stands)
    if said == "both":
        return None
    return side.is_more if not said or said == event else not side.is_more


def _event_of(side: Side, region: Region, told: _Told, claim: Claim, known: Known, stands: Stands) -> str:
    """The event that there is more or less of: in the words straight behind "more", before it, else in the region."""
    before = max(region.start, side.start - _BEFORE)
    for low, high in ((side.end, min(side.end + _BEHIND, region.end)), (before, side.start), region[:2]):
        said = event_said(stands, low, high, told.contrast, claim, known)
        if said:
            return said
    return ""


_BEHIND, _BEFORE = 20, 60
"""Characters beside "more" and "less" in which what there is more of is looked for."""


def _goes_against(
    region: Region, comparisons: Comparisons, told: _Told, claim: Claim, known: Known, stands: Stands, ties: Ties
) -> bool:
    """ "failure was more frequent in A (OR 2.4)", where the claim makes it a ratio of healing."""
    event = told.contrast.event_is
    if event is None or told.is_above_none is None or region.value < 0:
        return False
    sides = [side for side in comparisons.sides(region) if side.subject == told.level]
    if len(sides) != 1:
        return False
    said = _event_of(sides[0], region, told, claim, known, stands)
    word = stands.reading.passage.text[sides[0].start : sides[0].end]
    if JUDGED.get(word.lower()) is None and said not in ("good", "bad"):
        return False
    expected = _expected(sides[0], region, told, claim, known, stands)
    if expected is None or expected == told.is_above_none:
        return False
    other = "bad" if event.text == "good" else "good"
    ties.ask(
        stands, "ratio-direction", f'says "{word}" of "{told.level}" beside it',
        f"the claim makes it a ratio of the {event.text} event for {_as_asked(told)}",
        f"event_is: {other}, or `level` and `reference` exchanged",
    )  # fmt: skip
    return True


# By counts


def _find_in_figures(
    stands: Stands, ties: Ties, told: _Told, names: Names, claim: Claim, known: Known, *, is_tied: bool
) -> bool:
    """Whether shares of both levels stand beside the ratio, or two means beside the difference; a question where they
    speak against it."""
    shares = shares_beside(stands, claim, ties, known, names, (told.level, told.reference))
    if shares is not None:
        _find_in_counts(stands, ties, told, shares, is_tied=is_tied)
    if told.contrast.measure.text == "mean difference":
        _find_in_means(stands, ties, told, names, is_tied=is_tied)
    return shares is not None


def _find_in_counts(stands: Stands, ties: Ties, told: _Told, shares: Shares, *, is_tied: bool) -> None:
    """A tie where the shares of both levels agree with the ratio, a question where they lie on its other side."""
    contrast = told.contrast
    if told.is_above_none is None or contrast.event_is is None or not shares.is_clear:
        return
    value = stands.row.value / 100 if stands.row.unit == "%" else stands.row.value
    found = reckoned(shares, contrast, value, stands.row.decimals + 2 * (stands.row.unit == "%"))
    if not found:
        of_event = shares.level_has_more == (shares.of == contrast.event_is.text)
        is_decided = type(contrast.adjusted_for) is Words or (shares.is_wide and type(contrast.adjusted_for) is Missing)
        found = "own" if of_event == told.is_above_none else "turned" if is_decided else ""
    if found == "own" and not is_tied:
        ties.tie(stands, "direction", _as_typed(told), "words", *shares.words)
    if found != "turned":
        return
    other = "bad" if contrast.event_is.text == "good" else "good"
    says = f'has {shares.level} for "{told.level}" and {shares.reference} for "{told.reference}"'
    if not shares.words and shares.claim:
        says = f"stands beside the claim {shares.claim}, with {says.removeprefix('has ')}"
    ties.ask(
        stands, "ratio-direction", says,
        f"the claim makes it a ratio of the {contrast.event_is.text} event for {_as_asked(told)}",
        f"event_is: {other}, or level: {in_yaml(told.reference)}, reference: {in_yaml(told.level)}",
    )  # fmt: skip


def _find_in_means(stands: Stands, ties: Ties, told: _Told, names: Names, *, is_tied: bool) -> None:
    """A difference of the two means that the passage prints, one less the other."""
    if not told.level or not told.reference:
        return
    found = reckoned_from_means(stands, names, (told.level, told.reference))
    if found == "own" and not is_tied:
        ties.tie(stands, "direction", _as_typed(told), "position")
    elif found == "turned":
        ties.ask(
            stands, "ratio-direction", f'has it as the mean of "{told.reference}" less that of "{told.level}"',
            f"the claim for {_as_asked(told)}",
            f"level: {in_yaml(told.reference)}, reference: {in_yaml(told.level)}",
        )  # fmt: skip


# Silence


def _is_told_by_reader(contrast: Contrast, claim: Claim) -> bool:
    return bool(contrast.in_words or claim.in_words)


def _has_words_of_comparison(stands: Stands, regions: Sequence[Region]) -> bool:
    text, place = stands.reading.passage.text, _cell(stands)
    if place is not None and any(
        other is not None and other.row != place.row and token.value == 1 and text[slice(*other.cell)] == token.text
        for other, token in zip(stands.reading.cells(), stands.reading.tokens, strict=True)
    ):
        return True  # the row of the reference
    return any(COMPARES.search(text, region.start, region.end) for region in regions) or bool(
        COMPARES.search(stands.reading.passage.bracket)
    )


def _find_silence(stands: Stands, ties: Ties, told: _Told, comparisons: Comparisons, regions: Sequence[Region]) -> None:
    """A question where no word compares either."""
    if _has_words_of_comparison(stands, regions):
        return
    low, high = comparisons.around.clause(stands.token.start)
    words = stands.printed((low, high))
    ties.ask(
        stands, "ratio-direction-unsaid", "does not say which level it is for", f"the claim for {_as_asked(told)}",
        "type into the passage the words of comparison that the report prints; where these words mean it, quote them "
        f"in the contrast:\nin_words: {in_quotes(words)}",
    )  # fmt: skip
