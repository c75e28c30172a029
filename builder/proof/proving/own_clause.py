"""Bounds of levels and times: printed again and again, each field takes the one in the clause of its own figures."""

from __future__ import annotations

from bisect import bisect
from functools import partial

from ...numerals import Token
from ...printed.clauses import clauses, segments
from ...printed.times import MONTHS_IN
from .field_roles import Quoted
from .printed_passage import Reading, times_in
from .sharing import Choice, Fields


def choose_bounds(fields: Fields, bounds: list[int]) -> None:
    """The wording of a level may stand in its row and again beside a ratio: each field takes the one in its own clause.

    Where that clause prints another bound of the same side, the wording does not fit its numbers and nothing is proved.
    """
    late = []
    for at in bounds:
        reading = fields.readings[at]
        if reading is None or not fields.options[at]:
            fields.fail_as_absent(at)
            continue
        found = fields.free(at)
        if not found:
            fields.fail_as_taken(at)
        elif len(found) == 1 and len(_same_side(reading, reading.tokens[found[0]])) == 1:
            fields.prove(at, found[0])
        elif not _choose_in_own_clause(at, found, fields, reading):
            late.append((at, found))
    for at, found in late:
        _choose_as_level(at, found, fields, bounds)


def _choose_in_own_clause(at: int, found: list[int], fields: Fields, reading: Reading) -> bool:
    """Decide by the clause of the field's own block; False where that leaves several."""
    tokens = reading.tokens
    ends = clauses(reading.passage.text)
    own = {bisect(ends, tokens[index].start) for index in _proofs_of_block(at, fields, reading)}
    near = [index for index in found if bisect(ends, tokens[index].start) in own]
    typed = {row.value for row in fields.rows if row.role.kind == "bound"}
    is_another_there = not near and any(
        tokens[index].comparator and tokens[index].value not in typed and bisect(ends, tokens[index].start) in own
        for index in _same_side(reading, tokens[found[0]])
    )
    if is_another_there:
        fields.fail_as_absent(at)
    elif len(near) == 1 or len(found) == 1:
        fields.prove(at, near[0] if len(near) == 1 else found[0])
    else:
        return False
    return True


def _proofs_of_block(at: int, fields: Fields, reading: Reading) -> list[int]:
    """Numbers of the passage that prove what stands in one block with a bound."""
    own = fields.rows[at]
    block = own.id[: own.id.rindex(f"/{own.name}") + 1]
    return [
        index
        for row, index in fields.proved_in(reading)
        if row.role.kind != "bound" and row.id.startswith(block) and row.id.count("/", len(block)) <= 1
    ]


def _choose_as_level(at: int, found: list[int], fields: Fields, bounds: list[int]) -> None:
    """A wording said more than once is found wherever it stands; the claim's `reference` is one of its levels, said
    once more; any other bound stays ambiguous."""
    worded = _in_its_words(fields.rows[at], found, fields.readings[at])
    if worded:
        fields.prove(at, worded[0])
        return
    if fields.rows[at].role.own != "reference":
        fields.fail_as_ambiguous(at, found)
        return
    same = {
        choice.at
        for other in bounds
        if (choice := fields.chosen[other]) is not None and choice.at in found
        and fields.readings[other] is fields.readings[at] and fields.rows[other].typed == fields.rows[at].typed
    }  # fmt: skip
    if same:
        fields.chosen[at] = Choice(min(same))
    else:
        fields.fail_as_ambiguous(at, found)


def _in_its_words(row: Quoted, found: list[int], reading: Reading | None) -> list[int]:
    """Those that stand in the words of the level as typed: the "one" of "one visit"."""
    if reading is None:
        return []
    wording, text = row.typed.lower(), reading.passage.text.lower()
    return [
        index
        for index in found
        if text.find(
            wording,
            max(reading.tokens[index].start - len(wording), 0),
            reading.tokens[index].end + len(wording),
        ) >= 0
    ]  # fmt: skip


def _same_side(reading: Reading, like: Token) -> set[int]:
    """Places of the numbers that bound the same side in the same unit."""
    return {
        index
        for index, token in enumerate(reading.tokens)
        if token.unit == like.unit and token.comparator == like.comparator and token.part == like.part
        and (token.comparator or token.kind == like.kind)
    }  # fmt: skip


# Times

_SPREAD = frozenset({"mean", "median", "sd", "range", "iqr", "minimum", "maximum", "tolerance"})
"""Times with these words say how long all were followed, not when the figure was taken."""
_FIGURES = frozenset({"value", "events", "total", "rate", "success_rate", "low", "high"})


def choose_times(fields: Fields, times: list[int]) -> None:
    """ "97% at 1 year, 89% at 5 years": the time of a figure is the one printed beside it, where one is.

    Where the words of the figure hold another time, none from elsewhere will do.
    """
    for at in times:
        reading = fields.readings[at]
        if reading is not None and not fields.options[at]:
            fields.options[at] = _told_as_a_time(fields.rows[at], reading)
        if reading is None or not fields.options[at]:
            fields.fail_as_absent(at)
            continue
        free = fields.free(at)
        found = _beside_its_figures(at, free, fields, reading)
        if not free:
            fields.fail_as_taken(at)
        elif not found:
            fields.fail_as_absent(at)
        else:  # whichever of equal times is meant, it says the same
            fields.prove(at, min(found, key=partial(_distance, _proofs_of_figures(at, fields, reading), reading)))


def _distance(figures: list[int], reading: Reading, index: int) -> int:
    """Characters between a number and the nearest of some others."""
    tokens = reading.tokens
    return min((abs(tokens[index].start - tokens[other].start) for other in figures), default=0)


def _told_as_a_time(row: Quoted, reading: Reading) -> list[int]:
    """The 12 below a heading "Months", or of "mean (SD) after 12 months"."""
    times = reading.told(times_in)
    months = row.value * MONTHS_IN[row.unit]
    starts = {mention.start for mention in times.mentions if times.by_key[mention.key].months == months}
    return [index for index, token in enumerate(reading.tokens) if token.start in starts]


def _beside_its_figures(at: int, found: list[int], fields: Fields, reading: Reading) -> list[int]:
    """Those of the times found that stand in the words of the field's figures; all where no time stands there."""
    tokens = reading.tokens
    typed = {row.value for row in fields.rows if row.role.kind in ("length", "bound")}
    rivals = [index for index, token in enumerate(tokens) if _is_time(token) and token.value not in typed]
    if len(found) < 2 and not rivals:
        return found
    figures = _proofs_of_figures(at, fields, reading)
    told = _told_of(figures, found, reading)
    if told:
        return told[:1]
    ends = segments(reading.passage.text)
    own = {bisect(ends, tokens[index].start) for index in figures}
    near = [index for index in found if bisect(ends, tokens[index].start) in own]
    if near:
        return _outside_brackets_first(near, figures, rivals, reading)
    return [] if any(bisect(ends, tokens[index].start) in own for index in rivals) else found


def _outside_brackets_first(near: list[int], figures: list[int], rivals: list[int], reading: Reading) -> list[int]:
    """ "93.6% at 7 years (58 at risk at 7 years)": the first is the time of the figure, whatever the brackets say."""
    tokens, text = reading.tokens, reading.passage.text
    behind = [index for index in sorted([*near, *rivals]) if index > max(figures)]
    if not behind:
        return near
    first = behind[0]

    def is_in_brackets_behind(index: int) -> bool:
        between = text[tokens[first].end : tokens[index].start]
        return "(" in between and ")" not in between and ";" not in between

    others = [index for index in near if index != first]
    if not others or not all(map(is_in_brackets_behind, others)):
        return near
    return [first] if first in near else []


def _told_of(figures: list[int], found: list[int], reading: Reading) -> list[int]:
    """Those of the times found that the passage gives to the figures, in a list or a heading too."""
    times = reading.told(times_in)
    text, tokens = reading.passage.text, reading.tokens
    said = {start for index in figures if (told := times.of(index)) for start, _ in told[1].words}
    said.update(mention.start for index in figures for mention in times.leading(text, tokens[index].start))
    return [index for index in found if tokens[index].start in said]


def _is_time(token: Token) -> bool:
    """Whether a number may say when a figure was taken."""
    return token.kind == "length" and _SPREAD.isdisjoint(token.roles) and token.part != "low"


def _proofs_of_figures(at: int, fields: Fields, reading: Reading) -> list[int]:
    """What proves the figure that this time is about: an estimate's value, or the counts and rates of the claim."""
    block = fields.rows[at].id.rpartition("/")[0]
    names = frozenset({"value"})
    if block.endswith("/follow_up"):
        block = block.removesuffix("/follow_up")
        names = _FIGURES
    return [
        index
        for row, index in fields.proved_in(reading)
        if row.name in names and row.role.shares != "bound" and row.id.startswith(f"{block}/")
    ]
