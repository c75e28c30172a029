"""The ways to go on side by side, a row each: what it asks, what came of it, how sure that is, how many visits."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from ...reading.model import Certainty, Option, Question
from ...reading.slugs import slug
from ...records import NamedTuple
from ...results.findings.comparable import counts_from_healing, people_of
from ...results.findings.findings import Catalogue, Finding
from ...results.numbers.pooling import RatePool
from ...results.numbers.shown_numbers import count
from ...results.saying.certainty import NOT_JUDGED, ledger
from ...results.saying.people import OTHERWISE, capital
from ...results.saying.reversals import reversals
from ...results.saying.short_words import short_timing
from ...results.saying.source_reference import source_link
from ...results.saying.speech import counted_as
from ...results.saying.whose_age import of_age
from ...results.saying.whose_cause import of_cause
from ...results.saying.wording import cut, differed, estimate, rate
from ...results.values.document import Blocks, Details, Entry, Paragraph, Table
from ...results.values.figures import Figure
from ...results.values.line import Line, Link, Span, joined, line, typed
from ..sections.level_rates import level_findings, level_rates
from ..sections.study_rows import standing_marks
from ..sentences.advice import entry
from ..sentences.prose import NamedResult
from .over_time import rates_by_outcome
from .ways_found import Told, healed_in, kept_in, times_shown, told_of, wrong_in

ANCHOR = "ways-beside"
NOT_KNOWN = "not known"
# What most entries rest on is said once below the table.
_USUAL: Line = ("common practice, no source",)


class _Said(NamedTuple):
    """What people wrote of one way."""

    asks: tuple[Entry, ...]
    visits: tuple[Entry, ...]


def ways_side_by_side(catalogue: Catalogue, question: Question, named: NamedResult) -> Details | None:
    """One table, a row each way, one tap away; None below two ways."""
    if len(question.options) < 2:
        return None
    told = {option.id.text: told_of(catalogue, question, option) for option in question.options}
    said = [_said(catalogue, option, question, named) for option in question.options]
    rows = []
    for option, way in zip(question.options, said, strict=True):
        found = told[option.id.text]
        healed, kept, wrong = healed_in(found), kept_in(found), wrong_in(found)
        of_healed = _people(healed)
        numbers = [_numbers(catalogue, question, option, healed, frozenset())]
        numbers.extend(_numbers(catalogue, question, option, part, of_healed) for part in (kept, wrong))
        numbers[0] = line(numbers[0], _lost_again(catalogue, question, healed))
        cells = (
            _advice(way.asks), *numbers, _how_sure(question, option, (*healed, *kept, *wrong)),
            _advice(way.visits),
        )  # fmt: skip
        rows.append((line(typed(option.title.text)), *(cell or line(NOT_KNOWN) for cell in cells)))
    header = ("Way", "What it asks", "Healed", "Kept", "What can go wrong", "How sure", "Visits")
    caption = line("Counts are crude. Other studies are other patients: who was treated may differ")
    beside = Table(
        caption, tuple(line(name) for name in header), tuple(rows), "The ways side by side", "ways", joins=True
    )
    behind = _who(question, said)
    below = Paragraph(line("Basis: ", _USUAL, f", {OTHERWISE}.", *behind), "basis")
    blocks: Blocks = (beside, below) if behind else (beside,)
    return Details("Side by side, with numbers", blocks, "beside", anchor=ANCHOR)


def _said(catalogue: Catalogue, option: Option, question: Question, named: NamedResult) -> _Said:
    ratified = option.ratified or question.ratified
    asks, visits = (
        tuple(entry(item, catalogue, named, ratified) for item in part) for part in (option.asks, option.visits)
    )
    return _Said(asks, visits)


def _people(found: Sequence[Told]) -> frozenset[str]:
    """The studies of all that is shown of these outcomes."""
    return frozenset(
        study for item in found for group in times_shown(item.groups) for row in group for study in people_of(row)
    )


def _numbers(
    catalogue: Catalogue, question: Question, option: Option, found: Sequence[Told], before: frozenset[str]
) -> Line:
    """A line an outcome and time; what is of other patients says so.

    Other than those told of under Healed, `before`; where nothing is told there, other than in the lines above it.
    """
    out: list[Line] = []
    of_healed, above = before, before
    told_before = set(before)
    for item in found:
        shown = times_shown(item.groups)
        for index, group in enumerate(shown):
            people = frozenset(study for row in group for study in people_of(row))
            lead = "other patients: " if before and before.isdisjoint(people) else None
            if lead is None and of_healed and above.isdisjoint(people):
                lead = "those under Healed: "
            title = line(counted_as(item.outcome), ": ") if index == 0 else None
            # Of people told of before, what had brought them to it was said there.
            cause_in = None if people <= told_before else question
            told_before |= people
            out.append(line(title, lead, _group(catalogue, question, option, group, cause_in)))
            before, above = of_healed or before | people, people
        if len(shown) < len(item.groups):
            place = option.is_factor.text if option.is_factor is not None and not option.overall else "over-time"
            out.append(line(Link(f"{question.id}/{place}/", ("further times and studies",))))
    return tuple(Span("each", said) for said in out)


def _group(
    catalogue: Catalogue, question: Question, option: Option, group: tuple[Finding, ...], cause_in: Question | None
) -> Line:
    """cause_in: the question that asks what had brought people to it, where that is still to be said of these."""

    def whose(row: Finding) -> Line:
        return line(of_age(row), of_cause(catalogue, cause_in.id, row) if cause_in is not None else None)

    first = group[0]
    if len(group) == 1:
        said = estimate(first) if first.kind == "estimate" else rate(first)
        beside = _beside(catalogue, question, option, first)
        where = source_link(first.key, catalogue)
        return line(said, beside, ", ", _when(first), whose(first), _given(first), _marks(first), " · ", where)
    ordered = sorted(group, key=lambda row: (Fraction(row.events or 0, row.total or 1), row.base))
    number = _studies(catalogue, question, option, group)
    when = _when(first) if first.window is not None else line("last seen at different times")
    marks: list[Line] = []
    for row in group:
        if (said := _marks(row)) not in marks:
            marks.append(said)
    # Two studies are each told: "to" between them reads as a change in time.
    between = " and " if len(group) == 2 else " to "
    return line(
        _typical(catalogue, question, option, group), rate(ordered[0]), whose(ordered[0]), between,
        rate(ordered[-1]), whose(ordered[-1]),
        ", ", when, _given(first), ", ", number, " studies", *marks,
    )  # fmt: skip


def _beside(catalogue: Catalogue, question: Question, option: Option, finding: Finding) -> Line:
    """ ", specialists, against 30 of 42 (71%), residents": the other level of its comparison, where no way has it."""
    if finding.level is None or option.is_factor is None:
        return ()
    taken = {other.is_level.text for other in question.options if other.is_level is not None}
    rows = [
        row
        for row in level_findings(catalogue, question.id, option.is_factor.text)
        if row.key == finding.key and row.claim is finding.claim and row.base != finding.base and row.level is not None
    ]
    if len(rows) != 1 or taken.intersection(rows[0].level_ids) or rows[0].events is None or rows[0].total is None:
        return ()
    own, other = (typed(row.level.level.text if row.level else "", "definition") for row in (finding, rows[0]))
    return line(", ", own, ", against ", rate(rows[0]), ", ", other)


def _when(finding: Finding) -> Line:
    return line(short_timing(finding), " after healing" if counts_from_healing(finding) else None)


def _given(finding: Finding) -> Line:
    return line(", of ", typed(finding.claim.given.text)) if finding.claim.given is not None else ()


def _marks(finding: Finding) -> Line:
    """What is to be known before two rows of one study are read beside each other."""
    standing = tuple(f", {mark}" for mark in standing_marks(finding))
    return line(differed(finding), cut(finding), standing) if finding.level is not None else line(standing)


def _studies(catalogue: Catalogue, question: Question, option: Option, group: Sequence[Finding]) -> Figure:
    book, first = catalogue.book, group[0]
    inputs = tuple(found for row in group for name in ("events", "total") if (found := row.figure(name)) is not None)
    workings = book.explain(
        f"{question.id}-ways", "Studies of one way", "studies counted, each once", inputs=inputs, is_each_told=True
    )
    name = f"way-{option.id.text}-{first.outcome.id}-at-{slug(str(first.window))}-{len(group)}"
    says = f"{option.title.text}, {first.outcome.title.text}: studies"
    return count(book, f"{question.id}/overall/{name}", len(group), "study", workings, says=says, inputs=inputs)


def _typical(catalogue: Catalogue, question: Question, option: Option, group: Sequence[Finding]) -> Line:
    """ "the typical study 82.1%; from ": the pooled rate of exactly these studies, where it is shown."""
    bases = {row.base for row in group}
    pools: list[RatePool] = [pool for row in rates_by_outcome(catalogue, question) for pool in row.pools]
    if option.is_factor is not None:
        pools.extend(item.pool for item in level_rates(catalogue, question, option.is_factor.text))
    for pool in pools:
        if pool.is_shown and pool.group is not None and {row.base for row in pool.group.findings} == bases:
            return line("the typical study ", pool.figures["rate"], "; from ")
    return ()


def _lost_again(catalogue: Catalogue, question: Question, healed: Sequence[Told]) -> Line:
    """Where a rate stands, what took it back is one tap away on the same page."""
    rows = [row for item in healed for group in item.groups for row in group]
    if not reversals(catalogue, question.id, rows):
        return ()
    return (Span("each", (Link("#lost-again", ("early is not lasting",)),)),)


def _how_sure(question: Question, option: Option, found: Sequence[Told]) -> Line:
    """What people judged of the rates and of the comparison with other ways; of what is left that nobody judged it."""
    factor = option.is_factor.text if option.is_factor is not None else ""
    level = option.is_level.text if option.is_level is not None else ""
    said: list[Line] = []
    is_left = False
    for item in found:
        rows = [row for group in times_shown(item.groups) for row in group]
        title = typed(item.outcome.title.text, "definition")
        # The ledger of a rate is of all who were examined, and not of one arm of a trial.
        rate_of = _judged(question, item.outcome.id, [row for row in rows if row.level is None])
        beside = _judged(question, item.outcome.id, rows, factor, level) if factor else None
        said.extend(line(title, f": {judged.final.text}") for judged in (rate_of,) if judged is not None)
        said.extend(line(title, f", compared: {judged.final.text}") for judged in (beside,) if judged is not None)
        is_left = is_left or (rate_of is None and beside is None)
    if is_left:
        said.append(line("the others: " if said else None, NOT_JUDGED))
    return tuple(Span("each", words) for words in said)


def _judged(
    question: Question, outcome: str, rows: Sequence[Finding], factor: str = "", level: str = ""
) -> Certainty | None:
    """The ledger of exactly what these rows count; one that was judged for a time speaks of no other."""
    for row in rows:
        found = ledger(question, outcome, factor, level, row.window)
        if found is not None and (found.at is None or found.at.months == row.window):
            return found
    return None


def _advice(entries: Sequence[Entry]) -> Line:
    """Entries as lines, each with what it alone rests on."""
    out = []
    for item in entries:
        basis = line(" (", item.basis, ")") if item.basis != _USUAL else None
        caution = line(" Careful: ", item.caution) if item.caution else None
        out.append(Span("each", line(item.words, basis, caution), item.of))
    return tuple(out)


def _who(question: Question, said: Sequence[_Said]) -> list[Line]:
    """Who stands behind the entries of which ways, and behind which nobody does; what holds of most comes first."""
    ways: dict[Line, list[Line]] = {}
    for option, way in zip(question.options, said, strict=True):
        own = dict.fromkeys(item.ratified for item in (*way.asks, *way.visits))
        part = " (in part)" if len(own) > 1 else None
        # What is not set is said at its entry.
        for who in filter(None, own):
            ways.setdefault(who, []).append(line(typed(option.title.text), part))
    return [
        line(" ", capital(who), ": ", joined(names), ".")
        for who, names in sorted(ways.items(), key=lambda item: -len(item[1]))
    ]
