"""Words that were quoted for a number (`in_words`) or for what was counted (`as`) stand in the passage as typed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from ..problems import Problem, error
from ..proof.proving.quoted_words import has_words, places_of
from ..reading.folded import folded
from ..reading.model import Outcome
from ..reading.report_model import Candidates, Claim, Contrast, Flow, FollowUp, Level, Pairs, Report, Source, Study
from ..reading.values import Words

_BASIS = "Basis: the format of this guide; common practice, no source."

RULES = {
    "in-words-not-in-passage": (
        "`in_words` quotes the very words of the passage that hold a block's numbers, so that a reader sees beside "
        "the number what was read. Words that do not stand in the passage show nothing. Copy them from `annotation` "
        f"as they stand there, quotes and dashes included; two stretches are two items of a list. {_BASIS}"
    ),
    "in-words-more-than-once": (
        "The words in `in_words` stand in the passage more than once, so they do not say which place is meant. Quote "
        f"more of the words around them. {_BASIS}"
    ),
    "in-words-out-of-order": (
        "The items of `in_words` are listed in the order in which the passage prints them, a heading before its row, "
        "and none overlaps another: read in another order the same words can say something else. Put them in printed "
        f"order. {_BASIS}"
    ),
    "as-not-in-passage": (
        "`as` holds the paper's own words for what was counted, so they must stand in the passage that `where` names. "
        f"Copy them from there. {_BASIS}"
    ),
    "as-of-opposite-outcome": (
        "The words in `as` are the title or a synonym of an outcome that goes the other way: failures would be shown "
        "as successes, or successes as failures. Type the words whole, with their negation (no sign of failure), or "
        f"correct `outcome`. {_BASIS}"
    ),
}

Quotation = tuple[tuple[Words, ...], Words | None]
"""Pieces of one block, and the `where` of their passage."""


def find_in_report(report: Report, source: Source, outcomes: Mapping[str, Outcome]) -> Iterator[Problem]:
    """Every `in_words` and `as` of one report. outcomes: of the vocabulary, by id."""
    for study in report.studies:
        yield from _find_pieces(quotations_of_study(study), source)
    for claim in report.claims:
        yield from _find_pieces(quotations_of_claim(claim), source)
        yield from _find_counted_as(claim, source, outcomes)


def quotations_of_study(study: Study) -> Iterator[Quotation]:
    """The `in_words` of each block of a study, most of them empty."""
    where = study.where
    yield study.in_words, where
    for flow in (study.flow, study.patients):
        if flow is not None:
            yield from _of_flow(flow, where)
    for shares in study.shares:
        place = shares.where or where
        yield shares.in_words, place
        for part in shares.parts:
            yield part.in_words, place


def _of_flow(flow: Flow, outer: Words | None) -> Iterator[Quotation]:
    where = flow.where or outer
    yield flow.in_words, where
    if flow.recall is not None:
        yield flow.recall.in_words, flow.recall.where or where


def quotations_of_claim(claim: Claim) -> Iterator[Quotation]:
    """The `in_words` of a claim and of each block in it, most of them empty."""
    where = claim.where
    yield claim.in_words, where
    if type(claim.follow_up) is FollowUp:
        yield claim.follow_up.in_words, claim.follow_up.where or where
    if claim.flow is not None:
        yield from _of_flow(claim.flow, where)
    yield from _of_rate(claim, where)
    for level in claim.levels:
        place = level.where or where
        yield level.in_words, place
        yield from _of_rate(level, place)
    if claim.contrast is not None:
        yield from _of_contrast(claim.contrast, where)
    if claim.pooled is not None:
        yield claim.pooled.in_words, claim.pooled.where or where
    if type(claim.pairs) is Pairs:
        yield claim.pairs.in_words, claim.pairs.where or where
    for test in claim.tests:
        yield test.in_words, test.where or where
    for within in claim.within:
        yield within.in_words, where


def _of_rate(holder: Claim | Level, where: Words) -> Iterator[Quotation]:
    if type(holder.total) is Candidates:
        yield holder.total.in_words, where
    if holder.estimate is not None:
        yield holder.estimate.in_words, holder.estimate.where or where
    for grade in holder.grades:
        yield grade.in_words, where


def _of_contrast(contrast: Contrast, outer: Words) -> Iterator[Quotation]:
    where = contrast.where or outer
    yield contrast.in_words, where
    for block in (contrast.absolute, contrast.margin, contrast.pooled):
        if block is not None:
            yield block.in_words, block.where or where


# Each piece once, in printed order


def _find_pieces(blocks: Iterator[Quotation], source: Source) -> Iterator[Problem]:
    for pieces, where in blocks:
        if pieces and where is not None:
            yield from _find_in_passage(pieces, where, source)


def _find_in_passage(pieces: Sequence[Words], where: Words, source: Source) -> Iterator[Problem]:
    passage = source.passage(where.text)
    if passage is None:  # told by the proof
        return
    before: Words | None = None
    end = 0
    for piece in pieces:
        places = places_of(passage.text, piece.text)
        if not places:
            yield error(
                piece.position,
                "in-words-not-in-passage",
                f'"{piece.text}" in `in_words` is not in {_from(where, source)}'
                f"{_elsewhere(piece.text, source) or _nearest(piece.text, passage.text)}",
                "copy the words as they stand there; two stretches of the passage are two items of a list",
            )
        elif len(places) > 1:
            yield error(
                piece.position,
                "in-words-more-than-once",
                f'"{piece.text}" in `in_words` stands {len(places)} times in {_from(where, source)}',
                "quote more of the words around it, until it stands there once",
            )
        elif before is not None and places[0][0] < end:
            yield error(
                piece.position,
                "in-words-out-of-order",
                f'"{piece.text}" in `in_words` is listed after "{before.text}" but stands before or inside it in '
                f"{_from(where, source)}",
                "list the pieces in printed order, none overlapping another",
            )
        else:
            before, end = piece, places[0][1]


def _from(where: Words, source: Source) -> str:
    passage = source.passage(where.text)
    assert passage is not None  # asked for only where it is there
    return f"the passage typed from {passage.bracket} ({passage.position.file}:{passage.position.line})"


def _elsewhere(piece: str, source: Source) -> str:
    """ ", but in the one from p. 3" where another passage of the entry has the words."""
    other = next((passage for passage in source.passages if places_of(passage.text, piece)), None)
    return f", but in the one from {other.bracket}" if other is not None else ""


_LEAST_ALIKE = 0.6


def _nearest(piece: str, text: str) -> str:
    """', which has "39 of 47 healed"': the stretch of as many words that is most like the piece, if one is."""
    from difflib import SequenceMatcher  # only words that do not stand there pay for it

    words, wanted = text.split(), " ".join(piece.split())
    count = len(wanted.split())
    matcher = SequenceMatcher(b=wanted, autojunk=False)
    best, stretch = _LEAST_ALIKE, ""
    for start in range(max(1, len(words) - count + 1)):
        candidate = " ".join(words[start : start + count])
        matcher.set_seq1(candidate)
        if matcher.real_quick_ratio() > best and matcher.quick_ratio() > best and matcher.ratio() > best:
            best, stretch = matcher.ratio(), candidate
    return f', which has "{stretch}"' if stretch else ""


# What was counted


def _find_counted_as(claim: Claim, source: Source, outcomes: Mapping[str, Outcome]) -> Iterator[Problem]:
    outcome = outcomes.get(claim.outcome.text)
    good = outcome.good if outcome is not None else None
    blocks = [block for block in (*claim.levels, claim.estimate, claim.contrast, claim.pooled) if block is not None]
    if claim.counted_as:
        places = [claim.where, *(block.where for block in blocks if block.where is not None)]
        yield from _find_words(claim.counted_as, places, good, source, outcomes)
    for level in claim.levels:
        if level.counted_as:
            yield from _find_words(level.counted_as, [level.where or claim.where], good, source, outcomes)
    contrast = claim.contrast
    if contrast is not None and contrast.counted_as:
        side = contrast.event_is.text == "good" if contrast.event_is is not None else good
        yield from _find_words(contrast.counted_as, [contrast.where or claim.where], side, source, outcomes)


def _find_words(
    typed: Sequence[Words],
    places: Sequence[Words],
    good: bool | None,
    source: Source,
    outcomes: Mapping[str, Outcome],
) -> Iterator[Problem]:
    passages = [passage for where in places if (passage := source.passage(where.text)) is not None]
    for words in typed:
        if passages and not any(has_words(passage.text, words.text) for passage in passages):
            yield error(
                words.position,
                "as-not-in-passage",
                f'"{words.text}" in `as` is not in {_from(Words(passages[0].bracket, words.position), source)}'
                f"{_nearest(words.text, passages[0].text)}",
                "copy the words for what was counted as they stand there",
            )
        opposite = _opposite(words.text, good, outcomes)
        if opposite is not None:
            file, line, _ = opposite.position
            ways = ("good", "bad") if good else ("bad", "good")
            yield error(
                words.position,
                "as-of-opposite-outcome",
                f'"{words.text}" in `as` names the outcome "{opposite.title.text}" ({file}:{line}), which is '
                f"{ways[1]}, but what is counted here is {ways[0]}",
                "type the words whole, with their negation, or correct the outcome",
            )


def _opposite(words: str, good: bool | None, outcomes: Mapping[str, Outcome]) -> Outcome | None:
    """The outcome of the other side that goes by these words, where none of this side does."""
    wanted = folded(words)
    named = [
        outcome
        for outcome in outcomes.values()
        if any(folded(word.text) == wanted for word in (outcome.title, *outcome.synonyms))
    ]
    if good is None or any(outcome.good == good for outcome in named):
        return None
    return named[0] if named else None
