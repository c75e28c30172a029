"""Equal numbers that could each prove a field, and what of the passage still says which of them is meant."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from itertools import pairwise

from ...compiled_patterns import compiled
from ...numerals.late import late
from ...printed.wordings import Names
from ...synthesis.rounding import is_share_of
from .field_roles import Quoted
from .matching import STEPS
from .printed_passage import Reading
from .sharing import Fields


def settle_one(left: list[int], fields: Fields, names: Names) -> int | None:
    """Prove one of the fields that wait, and give it; None where nothing says of any of them which number is meant.

    names: what the passages may call the levels.
    """
    ways: tuple[Callable[[list[int], Fields], int | None], ...] = (
        _settle_equal, _settle_said_again, _settle_outside_pairs, _settle_outside_wholes,
        _settle_confidence, _settle_mirrored, _settle_beside_its_block,
    )  # fmt: skip
    for settle in ways:
        settled = settle(left, fields)
        if settled is not None:
            return settled
    settled = _settle_whatever_is_meant(left, fields, names)
    return settled if settled is not None else _settle_said_twice(left, fields)


def _settle_equal(left: list[int], fields: Fields) -> int | None:
    """Prove one field, where as many fields want some equal numbers as there are of them; None where none is so.

    "51, 55 and 51" for three arms: whichever 51 is whose, both are proved, and a wrong digit leaves one field without.
    """
    wanting: dict[tuple[int, tuple[int, ...]], list[int]] = {}
    for at in left:
        wanting.setdefault((id(fields.readings[at]), tuple(fields.free(at))), []).append(at)
    for (_, free), equal in wanting.items():
        if len(equal) >= len(free):
            fields.prove(equal[0], free[0])
            return equal[0]
    return None


def _settle_outside_pairs(left: list[int], fields: Fields) -> int | None:
    """Prove one step of a flow by the one number that stands alone, the first of "56 came back; 49 of 56 healed"; the
    events of two totals by those of the one printed pair, "44 of 52 ... healed 44, examined 54"."""
    for at in left:
        row, tokens = fields.rows[at], fields.tokens(at)
        if row.role.own in STEPS:
            fitting = [index for index in fields.free(at) if not tokens[index].part]
        elif row.name == "events" and _has_candidates(row, fields.rows):
            fitting = [index for index in fields.free(at) if tokens[index].part == "events"]
        else:
            continue
        if len(fitting) == 1:
            fields.prove(at, fitting[0])
            return at
    return None


def _has_candidates(events: Quoted, rows: Sequence[Quoted]) -> bool:
    """Whether the report prints two totals for one count: it prints the count twice too."""
    return any(row.id.startswith(f"{events.id.removesuffix('events')}total/") for row in rows)


def _settle_said_again(left: list[int], fields: Fields) -> int | None:
    """Prove a percentage that one sentence prints again beside its counts, by the one nearest to these; None where none
    is so: "82.9% healed (58 of 70; 82.9%)"."""
    for at in left:
        row, reading = fields.rows[at], fields.readings[at]
        if row.role.kind != "percent" or row.level or reading is None:
            continue
        events = _events_beside(at, fields)
        free = fields.free(at)
        if events is None or len(free) != 2:
            continue
        tokens = reading.tokens
        first, last = (tokens[index] for index in free)
        total = tokens[tokens[events].pair].value
        is_its = is_share_of(row.value, row.decimals, tokens[events].value, total)
        if is_its and not _find_sentence_end(reading.passage.text, first.end, last.start):
            fields.prove(at, min(free, key=lambda index: abs(tokens[index].start - tokens[events].start)))
            return at
    return None


_find_sentence_end = late(r"[.!?;](?=\s+[A-Z])|\n").search


def _events_beside(at: int, fields: Fields) -> int | None:
    """The number that proves the events of the block of a field, where it stands with its total."""
    block = fields.rows[at].id.rpartition("/")[0]
    reading = fields.readings[at]
    for row, choice, place in zip(fields.rows, fields.chosen, fields.readings, strict=True):
        is_there = choice is not None and choice.at >= 0 and place is reading
        if is_there and row.name == "events" and row.id == f"{block}/events":
            assert choice is not None
            assert reading is not None
            return choice.at if reading.tokens[choice.at].pair >= 0 else None
    return None


def _settle_outside_wholes(left: list[int], fields: Fields) -> int | None:
    """Prove a count by the one that is not taken up as a whole: the first of "41 had pain. Of the 41, 19 ..."."""
    for at in left:
        row, reading = fields.rows[at], fields.readings[at]
        if row.role.kind != "count" or row.role.shares or reading is None:
            continue
        text, free = reading.passage.text, fields.free(at)
        starts = {index: reading.tokens[index].outer_start for index in free}
        fitting = [index for index in free if not _ends_as_whole(text[max(starts[index] - 24, 0) : starts[index]])]
        if len(fitting) == 1 < len(free):
            fields.prove(at, fitting[0])
            return at
    return None


_ends_as_whole = late(
    r"\b(?:of|among|amongst|out of|in)\s+(?:the|these|those|all|our)\s+(?:(?:other|remaining|latter|former)\s+)?$",
    re.IGNORECASE,
).search


def _settle_confidence(left: list[int], fields: Fields) -> int | None:
    """Prove the level of an interval by the nearest before its lower end: a passage may print one level of several
    intervals, or announce it beforehand."""
    for at in left:
        row = fields.rows[at]
        reading = fields.readings[at]
        if row.role.kind != "confidence" or reading is None:
            continue
        block = row.id.rpartition("/")[0]
        low = next((place for other, place in fields.proved_in(reading) if other.id == f"{block}/interval/low"), -1)
        free = fields.free(at)
        before = [index for index in free if index < low]
        fields.prove(at, before[-1] if before else free[0])
        return at
    return None


def _settle_mirrored(left: list[int], fields: Fields) -> int | None:
    """Prove a P value that a table of pairs prints in both its halves, by the first: the row of one is the column of
    the other."""
    for at in left:
        row, reading = fields.rows[at], fields.readings[at]
        if row.role.kind != "p" or reading is None or not reading.table.has_cells:
            continue
        free = fields.free(at)
        pairs = {_row_and_column(reading, index) for index in free}
        if len(free) == 2 and len(pairs) == 1 and None not in pairs:
            fields.prove(at, free[0])
            return at
    return None


def _row_and_column(reading: Reading, index: int) -> frozenset[str] | None:
    """The words at the head of its row and over its column."""
    place, text = reading.table.places[index], reading.passage.text.lower()
    if place is None or not place.others or not place.headings:
        return None
    heads = (min(place.others), place.headings[0])
    return frozenset(text[start:end] for start, end in heads)


def _settle_whatever_is_meant(left: list[int], fields: Fields, names: Names) -> int | None:
    """Prove a total or a time by the number nearest to its block's own: whichever of the equal
    ones is meant, it says the same. One in the words of another level is none of them."""
    for at in left:
        row, reading = fields.rows[at], fields.readings[at]
        if reading is None or row.role.shares not in ("units", "at"):
            continue
        if at and fields.rows[at - 1].leads and at - 1 in left:  # nobody knows whose total it would be
            continue
        free = fields.free(at)
        if row.level and names:
            owners = reading.owners(names)
            free = [index for index in free if (owner := owners[index]) is None or owner.key in ("", row.level)]
        if free:
            fields.prove(at, _nearest(free, _proved_in_block(at, fields), reading))
            return at
    return None


def _nearest(free: list[int], places: list[int], reading: Reading) -> int:
    starts = {index: reading.tokens[index].start for index in free}
    return min(free, key=lambda index: min((abs(starts[index] - place) for place in places), default=0))


def _proved_in_block(at: int, fields: Fields) -> list[int]:
    """Where the numbers stand that prove the figures typed with a field."""
    block = fields.rows[at].id.rpartition("/")[0]
    reading = fields.readings[at]
    return [
        reading.tokens[choice.at].start
        for row, choice, place in zip(fields.rows, fields.chosen, fields.readings, strict=True)
        if reading is not None and place is reading and choice is not None and choice.at >= 0
        and row.role.shares not in ("units", "at", "bound") and row.id.startswith(f"{block}/")
    ]  # fmt: skip


def _settle_beside_its_block(left: list[int], fields: Fields) -> int | None:
    """Prove one field by the number that stands in one sentence or row with what proves the rest of its block, the
    nearest of them; None where none is so."""
    for at in left:
        ranked = _by_distance(at, fields)
        if ranked and ranked[0][0] == 0:
            fields.prove(at, ranked[0][2])
            return at
    return None


def _by_distance(at: int, fields: Fields) -> list[tuple[int, int, int]]:
    """The numbers that could prove a field, the nearest to the proofs of its block first: how many ends of sentences
    and rows lie between, how many letters, and its place. Empty where nothing of the block is proved."""
    reading = fields.readings[at]
    block = fields.rows[at].id.rpartition("/")[0]
    if reading is None:
        return []
    tokens = reading.tokens
    beside = [tokens[index].start for row, index in fields.proved_in(reading) if row.id.startswith(f"{block}/")]
    ranked = []
    for index in fields.free(at) if beside else ():
        gaps = (sorted((tokens[index].start, other)) for other in beside)
        ranked.append((*min((count_ends(reading, *gap), gap[1] - gap[0]) for gap in gaps), index))
    return sorted(ranked)


def count_ends(reading: Reading, low: int, high: int) -> int:
    """How many sentences, and rows of a table, end in a slice of a passage."""
    text = reading.passage.text
    return len(_find_ends(text, low, high)) + (text.count("\n", low, high) if reading.table.lines else 0)


_find_ends = compiled(r"[.!?;](?=\s+[A-Z])").findall


def _settle_said_twice(left: list[int], fields: Fields) -> int | None:
    """Prove one field by a number that two sentences print and say the same of."""
    for at in left:
        free = fields.free(at)
        if free and _is_said_again(at, free, fields):
            ranked = _by_distance(at, fields)
            fields.prove(at, ranked[0][2] if ranked else free[0])
            return at
    return None


def _is_said_again(at: int, free: list[int], fields: Fields) -> bool:
    """Whether several numbers are the same pair, or the same words say the same of them, in another sentence."""
    tokens, reading = fields.tokens(at), fields.readings[at]
    if reading is None:
        return False
    said = {(tokens[index].roles, tokens[index].unit, tokens[index].part) for index in free}
    mates = {tokens[tokens[index].pair].value if tokens[index].pair >= 0 else None for index in free}
    is_same = len(mates) == 1 and (None not in mates or (len(said) == 1 and bool(tokens[free[0]].roles)))
    places = sorted(tokens[index].start for index in free)
    return is_same and all(
        count_ends(reading, *pair) or (None not in mates and _is_restated(reading, *pair)) for pair in pairwise(places)
    )


def _is_restated(reading: Reading, low: int, high: int) -> bool:
    """ "Not one of the 26 was lost (0 of 26)": the same pair in words and in digits, and no other number between."""
    text = reading.passage.text
    between = [each for each in reading.tokens if low < each.start < high and each.kind != "percent"]
    return len(between) <= 1 and _ends_in_sign(text, max(low, high - 4), high) is not None


_ends_in_sign = late(r"[(\[,;:–—-]\s*$").search
