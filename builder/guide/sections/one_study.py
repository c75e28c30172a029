"""What one study says of a level beside its reference: which side, in the event's words, and how clear that is."""

from __future__ import annotations

from ...results.findings.findings import Catalogue, Finding
from ...results.findings.levels_covered import levels_covered
from ...results.findings.side import Side
from ...results.numbers.clearness import Clearness, clearness, without_points
from ...results.saying.event_words import short_way_words, way_words
from ...results.saying.margin_words import margin_told, margin_words
from ...results.saying.source_reference import source_link
from ...results.saying.whose_age import of_age
from ...results.saying.wording import adjustment, contrast, cut, differed, main_part, timing
from ...results.values.line import Line, Marked, joined, line, typed

CLEAR = "more than chance alone usually gives"
UNCLEAR = "too few to tell"


def which_way(side: Side, place: str, *, is_brief: bool = False, is_for_patient: bool = False) -> Line:
    """ "fewer healed; too few to tell (41 points fewer to 4 more)": the side and, apart from it, how clear.

    place: as for `clearness`. is_brief: without the limits, but beside "no clear difference". A study with a
    margin tells first what its interval shows of that: it was made to show this, and its side may be of no account.
    is_for_patient: of every hundred, and not in points.
    """
    if side.direction == "not stated":
        return line("which way is not stated")
    found = clearness(side, place)
    held = margin_told(_printed(side), is_for_patient=is_for_patient)
    # Limits from the counts beside those that were held against a margin would be two for one difference.
    is_told = found.limits and not held and (not is_brief or side.direction == "no clear difference")
    ends = _of_every_hundred(found.limits) if is_for_patient else found.limits
    limits = line(" (", ends, ")") if is_told else None
    lead = line(held, "; in this study ") if held else None
    if side.direction == "no clear difference":
        return line(lead, "no clear difference", limits, _no_weight(found))
    way = way_words(side.finding, side.direction)
    if side.finding.kind in ("words", "test"):
        return line(way, ", in words only, which decides nothing")
    if found.is_clear is None:
        return line(lead, way, limits, _no_weight(found))
    clear = f", {CLEAR}" if found.is_clear else f", but {UNCLEAR}" if held else f"; {UNCLEAR}"
    return line(lead, way, clear, limits)


def _printed(side: Side) -> Finding:
    """What a margin was held against: the ratio or difference that the claim prints, where it prints one."""
    return side.ratio if side.ratio is not None else side.finding


def _of_every_hundred(limits: Line) -> Line:
    """ "5 to 55 fewer of every 100" for "5 to 55 points fewer"."""
    return line(without_points(limits), " of every ", Marked("convention", "100")) if limits else ()


def short_way(side: Side, place: str) -> Line:
    """ "fewer; too few to tell", "fewer, clear": the same in the fewest words, where a heading says of what.

    place: as for `clearness`. Why something decides nothing, and the limits, stand where the row is opened.
    """
    if side.direction == "not stated":
        return line("which way is not stated")
    found = clearness(side, place)
    held = margin_words(_printed(side))
    lead = f"{held}; " if held else None
    nothing = "; decides nothing" if found.is_clear is None else ""
    if side.direction == "no clear difference":
        return line(lead, "no clear difference", nothing)
    way = short_way_words(side.finding, side.direction)
    if side.finding.kind in ("words", "test"):
        return line(way, ", in words only")
    if held and found.is_clear is False:
        # Its side is of no account, and stands in the drawing and where the row is opened.
        return line(held)
    return line(lead, way, nothing or (", clear" if found.is_clear else f"; {UNCLEAR}"))


def _no_weight(found: Clearness) -> Line:
    """Why the comparison decides nothing, said where it does not."""
    return line("; this decides nothing: ", typed(found.reason)) if found.reason else ()


def side_line(catalogue: Catalogue, side: Side, other: Side | None = None) -> Line:
    """One study's numbers of both levels, its time, how its groups differed, and where they stand.

    other: of the same study, its crude counts beside its ratio, or its adjusted ratio beside its counts.
    """
    beside = None
    if other is not None:
        lead = "; its adjusted ratio: " if other.is_adjusted else "; its crude counts: "
        beside = line(lead, _numbers(other))
    planned = side.finding.claim.planned
    unplanned = "; not planned beforehand" if planned is not None and planned.text == "no" else None
    who = source_link(side.finding.key, catalogue)
    return line(_numbers(side), beside, differed(side.finding), unplanned, " (", who, ")")


def _numbers(side: Side) -> Line:
    finding = side.finding
    if finding.kind == "contrast":
        return contrast(finding)
    if finding.kind in ("words", "test"):
        return line("in words only" if finding.kind == "words" else "a test without numbers", cut(finding))
    parts = [line(_wording(finding), main_part(finding))]
    if side.reference is not None:
        parts.append(line(_wording(side.reference), main_part(side.reference)))
    if side.ratio is not None and side.ratio.contrast is not None and side.ratio.contrast.margin is not None:
        parts.append(contrast(side.ratio))
    how = adjustment(finding) if finding.kind != "pairs" else ()
    return line(joined(parts), ", ", timing(finding), of_age(finding), line(", ", how) if how else None, cut(finding))


def _wording(finding: Finding) -> Line:
    return line(typed(finding.level.level.text, "definition"), ": ") if finding.level is not None else ()


def level_wording(finding: Finding) -> str:
    """The level of a row or of a ratio as the paper words it; "" where it names none."""
    if finding.level is not None:
        return finding.level.level.text
    named = finding.contrast.level if finding.contrast is not None else None
    return named.text if named is not None else ""


def answers_covered(catalogue: Catalogue, finding: Finding) -> tuple[str, ...]:
    """The answers that the level of a row or of a ratio covers a part of; none where it names no level."""
    typed_range = finding.level.range if finding.level is not None else None
    return levels_covered(catalogue, finding.factor, level_wording(finding), typed_range)
