"""Studies that drew their line inside one answer: whoever gives it cannot know on which side the case in hand lies."""

from __future__ import annotations

from ...results.findings.direction import Compared
from ...results.findings.findings import Catalogue
from ...results.findings.side import Side
from ...results.numbers.clearness import counts_of_both
from ...results.saying.source_reference import source_link
from ...results.saying.whose_age import of_age
from ...results.saying.wording import cut, main_part, timing
from ...results.values.document import Blocks, Paragraph
from ...results.values.line import Line, joined, line, typed
from .compared_levels import reference_wording
from .one_study import level_wording


def lines_inside(catalogue: Catalogue, results: list[Compared]) -> Blocks:
    """One line, before every other number of the answer: where they drew it, and what each side had.

    Empty where no study with counts of both sides drew its line there.
    """
    told = [_told(catalogue, item, side) for item in results for side in inside(item)]
    if not told:
        return ()
    who = "A study" if len(told) == 1 else "Studies"
    lead = line(f"{who} drew the line inside this answer, so the case may lie on either side: ")
    return (Paragraph(line(lead, joined(told), "."), "lines-inside"),)


def inside(item: Compared) -> list[Side]:
    """Of each study that has a part of this answer on both sides of its line, the counts."""
    both = [
        side
        for side in (*item.reaching, *item.elsewhere)
        if item.level in side.covers and item.level in side.reference_ids
    ]
    found: list[Side] = []
    for side in both:
        counts = [
            other
            for other in (side, *item.every)
            if other.people == side.people and other.covers == side.covers and counts_of_both(other) is not None
        ]
        found.extend(counts[:1])
    return found


def _told(catalogue: Catalogue, item: Compared, side: Side) -> Line:
    """ "healed: under 2 mm 52 of 61 eyes (85%), from 2 mm 19 of 31 eyes (61%), when last seen, ... (Arden 2011)"."""
    reference = side.reference
    beside = line(typed(reference_wording(side), "definition"), " ", main_part(reference)) if reference else ()
    own = line(typed(level_wording(side.finding), "definition"), " ", main_part(side.finding))
    who = source_link(side.finding.key, catalogue)
    when = line(", ", timing(side.finding), of_age(side.finding), cut(side.finding))
    return line(typed(item.outcome.title.text, "definition"), ": ", beside, ", ", own, when, " (", who, ")")
