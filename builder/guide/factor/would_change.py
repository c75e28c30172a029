"""What would change the answer: which studies are missing, said from what is there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...results.findings.allotment import not_randomised
from ...results.findings.direction import Compared
from ...results.findings.findings import Catalogue, Finding
from ...results.findings.one_a_study import is_planned
from ...results.findings.side import Side
from ...results.saying.source_reference import source_links
from ...results.values.document import Block, Items, Paragraph, Section
from ...results.values.line import Line, line
from ..sections.level_rates import LevelRates


def would_change_section(catalogue: Catalogue, items: Sequence[Compared], rates: Sequence[LevelRates]) -> list[Block]:
    """Sentences that follow from what the page shows, the most telling first."""
    sides = [side for item in items for side in item.sides]
    rows = [*_of_comparisons(catalogue, items, sides), *_of_rates(rates, sides)]
    if not rows:
        rows.append(
            line("A larger study that points the other way; the sensitivity tables show how far one study moves it.")
        )
    said = Paragraph(line("This follows from what is missing above, not from anyone's opinion."), "quiet")
    return [Section("What would change the answer", "would-change", (Items(tuple(rows)), said), "would-change")]


def _of_comparisons(catalogue: Catalogue, items: Sequence[Compared], sides: Sequence[Side]) -> Iterator[Line]:
    if not items:
        yield line("Any study in people that compares these levels and says how many of how many.")
    if any(item.count("better") and item.count("worse") for item in items):
        yield line("A study that set out beforehand to compare the levels, since those here do not agree.")
    counted = [side.finding for side in sides if side.finding.kind not in ("words", "test")]
    if counted and not any(side.is_adjusted for side in sides):
        yield from _adjusted(catalogue, counted)
    if any(side.direction == "not stated" for side in sides):
        yield line("The numbers behind those reports that do not state which way it goes.")
    shown = [*sides, *(side for item in items for side in item.elsewhere)]
    if sides and not any(is_planned(side) for side in shown):
        yield line("A study in which the comparison was planned, since none here says that it was.")
    if items and all(len(item.sides) == 1 and not item.reaching and not item.elsewhere for item in items):
        yield line("A second study: each comparison here rests on one.")


def _of_rates(rates: Sequence[LevelRates], sides: Sequence[Side]) -> Iterator[Line]:
    if rates and not any(row.pool.is_shown for row in rates):
        yield line("Studies that agree on definition, time, unit, people and operators: five of them could be pooled.")
    if sides and not any(side.finding.window is not None for side in sides):
        yield line("Rates at a stated time: none here belongs to one.")


def _adjusted(catalogue: Catalogue, findings: Sequence[Finding]) -> list[Line]:
    """What is wanted where nothing is adjusted: nothing for groups made at random."""
    keys, is_all = not_randomised(catalogue, findings)
    if is_all:
        return [line("A comparison adjusted for what the groups differ in, since every count or ratio here is crude.")]
    if not keys:
        return []
    which = source_links(catalogue, keys)
    return [
        line(
            "A comparison adjusted for what the groups differ in, or another that is randomised: crude and not "
            "randomised are ", which, ".",
        )
    ]  # fmt: skip
