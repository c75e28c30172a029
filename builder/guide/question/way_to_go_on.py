"""One way to go on: what it is compared with, what speaks for it, against it and for neither, what to have ready."""

from __future__ import annotations

from collections.abc import Sequence

from ...reading.model import Advice, Option, Question
from ...results.findings.findings import Catalogue, Finding
from ...results.saying.people import NOT_RATIFIED, NOT_SET, who_ratified
from ...results.saying.titles import levels_of
from ...results.values.document import AdviceList, Block, Details, Entry, Items, Paragraph
from ...results.values.line import line, typed
from ..sections.level_summary import level_summary
from ..sentences.advice import basis_line, entry, is_withdrawn, ratified_line
from ..sentences.prose import NamedResult
from .arguments import HEADINGS, Weighed, Weight, weighed


def way_to_go_on(option: Option, catalogue: Catalogue, question: Question, named: NamedResult) -> Details:
    """One way to go on: its title stands open, what speaks for and against it is one tap away."""
    blocks: list[Block] = []
    if option.is_factor is not None and option.is_level is not None:
        factor, level = option.is_factor.text, option.is_level.text
        is_beside = _are_all_ways(catalogue, question, factor)
        blocks.extend(level_summary(catalogue, question, factor, level, is_alone=True, is_beside_others=is_beside))
    blocks.extend(_argued(option, catalogue, question, named))
    gone = [item for item in (*option.for_, *option.against) if is_withdrawn(item, catalogue)]
    if gone:
        blocks.append(Paragraph(line("Counts no longer"), "lead"))
        blocks.extend(Paragraph(line("An entry: ", basis_line(item.basis, catalogue), "."), "quiet") for item in gone)
    if option.steps:
        steps = tuple(_entry(item, option, catalogue, question, named) for item in option.steps)
        blocks.extend((Paragraph(line("Step by step"), "lead"), AdviceList(steps, "steps", ordered=True)))
    if option.ready:
        ready = Items(tuple(line(typed(word.text, "instruction")) for word in option.ready))
        blocks.extend((Paragraph(line("Have ready"), "lead"), ready))
    people = ratified_line(option.ratified or question.ratified, catalogue)
    listed = [item for block in blocks if isinstance(block, AdviceList) for item in block.entries]
    others = [item.ratified for item in listed if item.ratified]
    if people != (NOT_RATIFIED,):
        others += [item.basis for item in listed if item.basis[:1] == (NOT_SET,)]
    blocks.append(Paragraph(who_ratified(people, others, "all of this way"), "basis"))
    return Details(option.title.text, tuple(blocks), "way", anchor=f"way-{option.id.text}")


def _argued(option: Option, catalogue: Catalogue, question: Question, named: NamedResult) -> list[Block]:
    """What speaks for it and against it; and apart from both what decides neither, by why that is."""
    blocks: list[Block] = []
    level = option.is_level.text if option.is_level is not None else ""
    aside: dict[Weight, list[Entry]] = {}
    for entries, kind, title in (
        (option.for_, "for", "Speaks for it"),
        (option.against, "against", "Speaks against it"),
    ):
        standing = [item for item in entries if not is_withdrawn(item, catalogue)]
        shown: list[Entry] = []
        for item in standing:
            found = weighed(item, catalogue, question.id, level)
            said = _entry(item, option, catalogue, question, named)
            if found.weight == "argues":
                shown.append(said)
            else:
                aside.setdefault(found.weight, []).append(_with_weight(said, found))
        nothing = Paragraph(line("nothing that is clear" if standing else "nothing recorded"), "quiet")
        blocks.extend((Paragraph(line(title), "lead"), AdviceList(tuple(shown), kind) if shown else nothing))
    for weight, heading in HEADINGS.items():
        if weight in aside:
            blocks.extend((Paragraph(line(heading), "lead"), AdviceList(tuple(aside[weight]), "neither")))
    return blocks


def _entry(item: Advice, option: Option, catalogue: Catalogue, question: Question, named: NamedResult) -> Entry:
    """An entry with what it rests on; below the way stands who ratified it, so an entry says so where others did."""
    ratified = option.ratified or question.ratified
    level = option.is_level.text if option.is_level is not None else ""
    said = entry(item, catalogue, named, ratified, level)
    if _is_of_all_ways(item, option, catalogue.of_question(question.id)):
        said = said._replace(basis=line(said.basis, "; all ways together"))
    is_same = said.ratified == ratified_line(ratified, catalogue)
    return said._replace(ratified=()) if is_same else said


def _with_weight(said: Entry, found: Weighed) -> Entry:
    """What its comparison is worth, behind what the study found."""
    return said._replace(basis=line(said.basis, "; ", found.said)) if found.said else said


def _is_of_all_ways(item: Advice, option: Option, findings: Sequence[Finding]) -> bool:
    """True where an entry leans on a number of all who were treated, in a study that went several of the ways.

    What it found then speaks of every way, and for or against none. findings: those of the question.
    """
    if item.basis.claim is None or option.is_factor is None:
        return False
    factor = option.is_factor.text
    key, _, claim = item.basis.claim.text.partition("/")
    own = [row for row in findings if row.key == key and row.kind not in ("contrast", "test")]
    leaned_on = [row for row in own if row.claim.id.text == claim.partition("/")[0]]
    if not leaned_on or any(row.factor == factor or row.claim.within for row in leaned_on):
        return False
    counted = {row.outcome.construct.text for row in leaned_on}
    return any(row.factor == factor and row.outcome.construct.text in counted for row in own)


def _are_all_ways(catalogue: Catalogue, question: Question, factor: str) -> bool:
    """True where every level of a factor is a way to go on, so that the table of ways has the rates of each."""
    ways = {
        option.is_level.text
        for option in question.options
        if option.is_level is not None and option.is_factor is not None and option.is_factor.text == factor
    }
    return ways.issuperset(name for name, _ in levels_of(catalogue, factor))
