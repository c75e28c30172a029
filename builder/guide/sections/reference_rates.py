"""Rates of a level that others are compared with: from the lowest to the highest study, none of them for all."""

from __future__ import annotations

from ...reading.model import Question
from ...reading.slugs import slug
from ...results.findings.comparable import count_patients_once, counts_from_healing
from ...results.findings.direction import reason_not_counted, sides_of
from ...results.findings.findings import Catalogue, Finding
from ...results.findings.last_visits import last_visit, last_visits_of_many
from ...results.findings.outcomes import is_occurrence
from ...results.numbers.ratio_pooling import level_key
from ...results.numbers.shown_numbers import count
from ...results.saying.source_reference import source_link
from ...results.saying.titles import levels_of
from ...results.saying.whose_age import of_age
from ...results.saying.wording import cut, differed, length, rate, timing
from ...results.values.line import Line, joined, line, typed
from .of_ways import of_ways
from .one_study import answers_covered, level_wording
from .ranges import low_to_high
from .several_studies import opened_workings


def reference_rates(
    catalogue: Catalogue,
    question: Question,
    factor: str,
    level: str,
    *,
    is_alone: bool = False,
    is_shared: bool = False,
) -> tuple[Line, ...]:
    """One line an outcome; a reference that reaches over this level and another says so.

    is_alone: no other level is told beside it, so that of one study its other levels stand in the line. is_shared:
    only what several studies counted of this level together with another.
    """
    by_outcome, beside = _references(catalogue, question, factor, level)
    told = (
        _of_outcome(
            catalogue, question, factor, level, rows, beside if is_alone else {}, is_alone=is_alone, is_shared=is_shared
        )
        for rows in (list(found.values()) for _, found in sorted(by_outcome.items()))
    )
    return tuple(said for said in told if said)


def _references(
    catalogue: Catalogue, question: Question, factor: str, level: str
) -> tuple[dict[str, dict[str, Finding]], dict[str, list[Finding]]]:
    """By outcome the rows of a level that others were compared with; and by each what its study counted in those."""
    by_outcome: dict[str, dict[str, Finding]] = {}
    beside: dict[str, list[Finding]] = {}
    for side in sides_of(catalogue, question.id, factor):
        row = side.reference
        if row is None or is_occurrence(row.outcome) or row.events is None or not row.total or reason_not_counted(row):
            continue
        if level in side.reference_ids:
            by_outcome.setdefault(row.outcome.id, {})[row.base] = row
            if side.finding.events is not None and side.finding.total:
                beside.setdefault(row.base, []).append(side.finding)
    return by_outcome, beside


def _of_outcome(
    catalogue: Catalogue,
    question: Question,
    factor: str,
    level: str,
    rows: list[Finding],
    beside: dict[str, list[Finding]],
    *,
    is_alone: bool,
    is_shared: bool,
) -> Line:
    """beside: what one study counted in its other levels, by the reference row; alone it is read beside strangers."""
    ordered = _groups(catalogue, factor, rows, is_shared=is_shared)
    if not ordered:
        return ()
    title = typed(rows[0].outcome.title.text, "definition")
    told = [
        said if is_alone else of_ways(catalogue, question, group, said)
        for group in ordered
        for said in (_of_group(catalogue, question, factor, level, group, beside),)
    ]
    return line(title, ": ", joined(told))


def _groups(catalogue: Catalogue, factor: str, rows: list[Finding], *, is_shared: bool) -> list[list[Finding]]:
    """What is of this level alone leads, then what most studies say."""
    counted, _ = count_patients_once(rows)
    keyed = [(level_key(catalogue, row), row) for row in counted]
    many = last_visits_of_many(keyed)
    groups: dict[tuple[object, ...], list[Finding]] = {}
    for level, row in keyed:
        alike: tuple[object, ...] = (row.base,)
        if row.window is not None:
            alike = (row.window, counts_from_healing(row), row.unit)
        elif (*level, *last_visit(row)) in many:
            alike = last_visit(row)
        groups.setdefault((*level, *alike), []).append(row)
    ordered = sorted(
        groups.values(), key=lambda group: (_reaches_over(catalogue, group[0]), -len(group), group[0].base)
    )
    if is_shared:
        return [group for group in ordered if len(group) > 1 and _reaches_over(catalogue, group[0])]
    return ordered


def counted_together(catalogue: Catalogue, question: Question, factor: str, level: str) -> tuple[str, ...]:
    """Titles of the other levels that the shared rates of a level hold too."""
    by_outcome, _ = _references(catalogue, question, factor, level)
    others = {
        other
        for rows in by_outcome.values()
        for group in _groups(catalogue, factor, list(rows.values()), is_shared=True)
        for other in answers_covered(catalogue, group[0])
        if other != level
    }
    return tuple(title for name, title in levels_of(catalogue, factor) if name in others)


def _of_group(
    catalogue: Catalogue,
    question: Question,
    factor: str,
    level: str,
    group: list[Finding],
    beside: dict[str, list[Finding]],
) -> Line:
    first = group[0]
    over = with_others(catalogue, level, first)
    if len(group) == 1:
        wording = typed(level_wording(first), "definition")
        others = beside.get(first.base, [])
        how = line(differed(others[0]), cut(others[0])) if others else None
        same = joined([line(typed(level_wording(row), "definition"), ": ", rate(row)) for row in others])
        return line(
            wording, over, ": ", rate(first), line("; in the same study ", same) if same else None, ", ", timing(first),
            of_age(first), how, " (", source_link(first.key, catalogue), ")",
        )  # fmt: skip
    inputs = tuple(figure for row in group for name in ("events", "total") if (figure := row.figure(name)) is not None)
    workings = opened_workings(catalogue, question, factor, inputs)
    name = f"{level}-{first.outcome.id}-{slug(level_wording(first))}-at-{slug(str(first.window))}"
    studies = count(
        catalogue.book, f"{question.id}/{factor}/referred-{name}", len(group), "study", workings, inputs=inputs,
        says=f"{level_wording(first)}, {first.outcome.title.text}: compared with others",
    )  # fmt: skip
    at = first.time("at")
    when = line("at ", length(at)) if at is not None else "each when last seen" if first.window is None else None
    return line(
        low_to_high(catalogue, question, factor, group), over, line(", ", when) if when else None, ", ", studies,
        " studies",
    )  # fmt: skip


def with_others(catalogue: Catalogue, level: str, row: Finding) -> Line:
    """ " (with up to 1 mm)": the other answers that a paper's level holds too; empty where it holds this one alone."""
    covered = answers_covered(catalogue, row)
    titles = [title for name, title in levels_of(catalogue, row.factor) if name in covered and name != level]
    others = [line(typed(title, "definition")) for title in titles]
    return line(" (with ", joined(others), ")") if others else ()


def _reaches_over(catalogue: Catalogue, row: Finding) -> bool:
    return len(answers_covered(catalogue, row)) > 1
