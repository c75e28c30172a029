"""Numbers of several studies of one comparison: from the lowest to the highest, and no single one for all of them."""

from __future__ import annotations

from fractions import Fraction

from ...reading.model import Question
from ...reading.slugs import slug
from ...results.findings.comparable import counts_from_healing
from ...results.findings.direction import Compared
from ...results.findings.findings import Catalogue, Finding
from ...results.findings.side import Side
from ...results.numbers.clearness import counts_of_both
from ...results.numbers.ratio_pooling import level_key, reference_key
from ...results.numbers.shown_numbers import count
from ...results.saying.short_words import row_timing
from ...results.saying.source_reference import source_links
from ...results.saying.whose_age import of_age
from ...results.saying.wording import adjustment, cut, differed, length, rate
from ...results.values.line import Line, Marked, joined, line, typed
from .level_rates import level_rates
from .one_study import level_wording, side_line
from .several_studies import opened_workings

# House rule: so many studies that share no time or no reference are told one by one, of more the page has the table.
_TOLD_APART = 3
_NO_RANGE = "they compare at different times or beside different references, so no range stands for them"


def numbers_of(catalogue: Catalogue, question: Question, item: Compared) -> list[Line]:
    """The numbers behind a comparison: of one study its own, of several that compare alike their range."""
    return [_numbers_of_sides(catalogue, question, item)] if item.sides else []


def told_alone(catalogue: Catalogue, item: Compared, side: Side) -> Line:
    """One study's numbers; beside an adjusted ratio its counts too, beside the counts of a trial its adjusted ratio."""
    is_ratio = side.finding.kind == "contrast"
    other = next(
        (
            other
            for other in item.every
            if other.people == side.people and other.covers == side.covers
            and (counts_of_both(other) is not None if is_ratio else side.is_allotted and other.is_adjusted)
        ),
        None,
    )  # fmt: skip
    return side_line(catalogue, side, other)


def _numbers_of_sides(catalogue: Catalogue, question: Question, item: Compared) -> Line:
    if len(item.sides) == 1:
        return told_alone(catalogue, item, item.sides[0])
    groups = _alike(catalogue, [*item.crude, *(side for side in item.sides if side not in item.crude)])
    ranges = [group for group in groups if len(group) > 1]
    told = {study for group in ranges for side in group for study in side.people}
    apart = [side for side in item.sides if told.isdisjoint(side.people)]
    parts = [_range(catalogue, question, item, group) for group in ranges]
    # What states no side by a number has none to tell.
    numbered = [side for side in apart if side.direction != "not stated" and not side.is_in_words]
    if not ranges and len(numbered) > _TOLD_APART:
        links = source_links(catalogue, [side.finding.key for side in apart])
        return line(_NO_RANGE, ": ", links)
    if not ranges:
        return joined([told_alone(catalogue, item, side) for side in (numbered if len(apart) > _TOLD_APART else apart)])
    if apart:
        links = source_links(catalogue, [side.finding.key for side in apart])
        parts.append(line("at another time, beside another reference or without counts: ", links))
    return joined(parts)


def _alike(catalogue: Catalogue, sides: list[Side]) -> list[list[Side]]:
    """Sides with counts of both levels that share level, reference and window; the most studies first."""
    groups: dict[tuple[object, ...], list[Side]] = {}
    for side in sides:
        window = side.finding.window
        levels = (level_key(catalogue, side.finding), reference_key(catalogue, side))
        if window is not None and all(levels) and counts_of_both(side) is not None:
            key = (*levels, window, counts_from_healing(side.finding), side.finding.unit)
            groups.setdefault(key, []).append(side)
    return sorted(groups.values(), key=lambda group: (-len(group), group[0].finding.base))


def _range(catalogue: Catalogue, question: Question, item: Compared, group: list[Side]) -> Line:
    """ "over 3 mm: 14 of 25 (56%) to 12 of 16 (75%), typical 67.0%; up to 3 mm: ...; at 24 months, 5 studies"."""
    place = f"{question.id}/{item.factor}"
    first = group[0].finding
    inputs = tuple(dict.fromkeys(figure for side in group for figure in side.figures))
    workings = opened_workings(catalogue, question, item.factor, inputs)
    wording = level_wording(first)
    name = f"{item.name}-at-{slug(str(first.window))}-{slug(wording)}"
    studies = count(
        catalogue.book, f"{place}/ranged-{name}", len(group), "study", workings, inputs=inputs,
        says=f"{wording}, {item.outcome.title.text}",
    )  # fmt: skip
    own = [side.finding for side in group]
    beside = [side.reference for side in group if side.reference is not None]
    at = first.time("at")
    return line(
        low_to_high(catalogue, question, item.factor, own), "; ", low_to_high(catalogue, question, item.factor, beside),
        line("; at ", length(at)) if at is not None else None,
        ", ", studies, " studies, ", adjustment(first), _caveats(own),
    )  # fmt: skip


def _caveats(rows: list[Finding]) -> Line:
    """How the groups of any of them differed, and that a cut was chosen from the data."""
    said = dict.fromkeys(line(differed(row), cut(row)) for row in rows)
    return tuple(part for item in said for part in item)


def low_to_high(catalogue: Catalogue, question: Question, factor: str, rows: list[Finding]) -> Line:
    """ "over 3 mm: 14 of 25 eyes (56%) to 12 of 16 eyes (75%), the typical study 67.0%"."""
    ordered = sorted(rows, key=lambda row: (Fraction(row.events or 0, row.total or 1), row.base))
    low, high = ordered[0], ordered[-1]
    return line(
        typed(level_wording(low), "definition"),
        ": ",
        from_low(low, high, len(rows)),
        _typical(catalogue, question, factor, rows),
    )


def from_low(low: Finding, high: Finding, number: int) -> Line:
    """ "14 of 25 eyes (56%) to 12 of 16 eyes (75%)"; behind each its own time where they share none.

    number: of studies. Two are each told, since "to" between them reads as a change in time.
    """
    between = " and " if number == 2 else " to "
    if low.window is not None:
        return line(rate(low), of_age(low), between, rate(high), of_age(high))
    return line(
        rate(low), of_age(low), ", ", row_timing(low), f",{between}", rate(high), of_age(high), ", ", row_timing(high)
    )


def _typical(catalogue: Catalogue, question: Question, factor: str, rows: list[Finding]) -> Line:
    """The pooled rate of exactly these studies, where it is shown."""
    bases = {row.base for row in rows}
    for item in level_rates(catalogue, question, factor):
        pool = item.pool
        if pool.is_shown and pool.group is not None and {row.base for row in pool.group.findings} == bases:
            found = pool.figures
            level = Marked("convention", "95%")
            return line(
                ", the typical study ", found["rate"], " (", level, " CI ", found["interval/low"], " to ",
                found["interval/high"], ")",
            )  # fmt: skip
    return ()
