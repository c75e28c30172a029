"""What was counted: patients typed as what may be several in one, where a heading or the words before it say so."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...printed.counted_before import counted_before
from ...printed.one_each import is_one_each
from ...printed.owner import Owners
from ...printed.time_watched import may_watch, time_watched
from ...printed.units import (
    Counted,
    holders_of,
    in_other_line,
    measure_of,
    measured_in,
    noun_of,
    unit_counted,
    unit_of_all,
    units_of_analysis,
    units_said,
)
from ...reading.report_model import Study
from ...reading.values import Words
from ..asking import collapsed
from ..proving.printed_passage import Reading, read_passage
from .tie import Known, Stands, Ties, studies_of

RULES: dict[str, str] = {
    "other-unit": (
        "The number stands bare, and the heading over it or the words before it say that it counts something else than "
        "the study does: patients, of whom one may have several of what was treated. Type the number of what the study "
        "counts, or put the count under `patients`; where each had only one, say so in `unit` (`per`), or answer."
    ),
    "other-measure": (
        "The passage prints a figure in another unit of time or length than the claim types: 95 seconds are no 95 "
        "minutes. Type `unit` as it is printed, in words where it is neither mm nor minute, or answer the question."
    ),
}


def find_unit_ties(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """Every bare count."""
    _find_measures(standing, ties)
    _find_undeclared(standing, ties)
    _find_in_other_line(standing, ties)
    _find_time_watched(standing, ties)
    lexicon = ties.scope.lexicon
    if not any(reading.told(_units) for reading in ties.readings):
        return
    for stands in standing:
        row, reading = stands.row, stands.reading
        if row.role.kind != "count" or row.unit not in lexicon.units or stands.token.unit != "none":
            continue
        if reading.told(_units) <= {row.unit}:
            continue
        said = _counted(stands) or _counted_before(stands)
        if said is None:
            continue
        other = said.unit
        if other in ties.scope.alike:
            continue
        is_held = other in lexicon.holders(row.unit) or row.unit in lexicon.holders(other)
        if is_held and _is_of_a_level(stands, said.start, ties):
            continue
        if is_held and not _is_one_each(row.unit, other, ties, known):
            words = stands.printed((said.start, said.end))
            ties.ask(
                stands, "other-unit", f'counts {lexicon.name(other)} ("{words}")', f"the claim {lexicon.name(row.unit)}"
            )


def _find_undeclared(standing: Sequence[Stands], ties: Ties) -> None:
    """A whole that counts what no vocabulary declares, where fewer of the study's units had them."""
    lexicon = ties.scope.lexicon
    for stands in standing:
        row, reading = stands.row, stands.reading
        if (
            row.name != "total"
            or row.unit not in lexicon.units
            or (token := stands.token).unit != "none"
            or token.kind not in ("count", "number")
        ):
            continue
        span = noun_of(reading.passage.text, reading.tokens, stands.at, lexicon)
        if span is None:
            continue
        noun, count = reading.passage.text[slice(*span)], token.value
        for passage in ties.source.passages:
            if noun.lower() not in passage.text.lower():
                continue
            held = holders_of(passage.text, read_passage(passage, lexicon).tokens, noun.lower(), count, row.unit)
            if held is not None:
                said = collapsed(passage.text[slice(*held)])
                events = (each for each in standing if each.block == stands.block and each.row.name == "events")
                first = next(events, stands)
                ties.ask(first, "other-unit", f'counts {noun} ("{said}")', f"the claim {lexicon.name(row.unit)}")
                break


def _find_in_other_line(standing: Sequence[Stands], ties: Ties) -> None:
    """A pair's total in a row or column that counts something undeclared, beside one of the study's own unit with
    fewer: "Eyes | 246" over "Patients | 140"."""
    lexicon = ties.scope.lexicon
    for stands in standing:
        row, reading = stands.row, stands.reading
        if row.name != "total" or row.unit not in lexicon.units or stands.token.unit != "none" or row.level:
            continue
        own = lexicon.units[row.unit].words
        found = in_other_line(reading.passage.text, reading.tokens, reading.cells(), stands.at, own)
        if found is not None:
            said = collapsed(reading.passage.text[slice(*found)])
            ties.ask(stands, "other-unit", f'counts {said.lower()} ("{said}")', f"the claim {lexicon.name(row.unit)}")


def _find_time_watched(standing: Sequence[Stands], ties: Ties) -> None:
    """Years under observation as what was observed: "604 eye-years", a column "Patient-months"."""
    lexicon = ties.scope.lexicon
    if not any(reading.told(_may_watch) for reading in ties.readings):
        return
    for stands in standing:
        row, reading = stands.row, stands.reading
        if row.role.kind != "count" or row.unit not in lexicon.units or not reading.told(_may_watch):
            continue
        found = time_watched(reading.passage.text, stands.token, reading.cells()[stands.at], lexicon)
        if found is not None:
            said = stands.printed(found)
            ties.ask(
                stands, "other-unit", f'counts time under observation ("{said}")', f"the claim {lexicon.name(row.unit)}"
            )


def _may_watch(reading: Reading) -> bool:
    return may_watch(reading.small)


def _counted(stands: Stands) -> Counted | None:
    """What else than the study's unit the passage says that a number counts, and where."""
    row, reading = stands.row, stands.reading
    text, lexicon = reading.passage.text, reading.lexicon
    owner = reading.told(of_analysis)[stands.at]
    if owner is not None and owner.is_sure and owner.words:
        return Counted(owner.key, *owner.words[0]) if owner.key != row.unit else None
    laid = reading.told(_unit_of_all)
    if laid is not None and laid.end <= stands.token.start and row.unit not in units_said(text[laid.end :], lexicon):
        return laid if laid.unit != row.unit else None
    found = unit_counted(text, reading.tokens, stands.at, reading.cells()[stands.at], lexicon)
    if found is None or found[0].unit == row.unit or row.unit in units_said(found[1], lexicon):
        return None
    return found[0]


def _counted_before(stands: Stands) -> Counted | None:
    """ "The 77 patients had 163 eyes ... in 24 of the 163": what the whole counted where it was named first."""
    row, reading = stands.row, stands.reading
    if stands.token.part != "total" or row.level:
        return None
    found = counted_before(reading.passage.text, reading.tokens, stands.at, row.unit, reading.lexicon)
    return Counted(found[0], *found[1]) if found is not None else None


def _unit_of_all(reading: Reading) -> Counted | None:
    return unit_of_all(reading.passage.text, reading.lexicon)


def of_analysis(reading: Reading) -> Owners:
    """The unit of analysis of each number; for `Reading.told`."""
    return units_of_analysis(reading.passage.text, reading.tokens, reading.table, reading.lexicon)


def _is_of_a_level(stands: Stands, at: int, ties: Ties) -> bool:
    """ "Lesions absent: 55 of 58" tells one level from another and counts no lesions."""
    names = ties.scope.names
    return bool(names) and any(mention.holds(at) for mention in stands.reading.mentions(names))


def _find_measures(standing: Sequence[Stands], ties: Ties) -> None:
    """Every mean, and every difference of means, whose claim says what it was measured in."""
    claim = ties.scope.claim
    if claim is None:
        return
    contrast = claim.contrast.unit if claim.contrast is not None else None
    if claim.unit is None and contrast is None:
        return
    for stands in standing:
        is_difference = stands.row.name == "value" and stands.block.endswith("/contrast")
        typed = contrast if is_difference else claim.unit if stands.row.role.kind == "measured" else None
        own = measure_of(typed.text) if type(typed) is Words else ""
        if not own:
            continue
        text = stands.reading.passage.text
        said = measured_in(text, stands.token, stands.reading.cells()[stands.at])
        if said is not None and said[0] != own:
            words = text[slice(*said[1])]
            ties.ask(stands, "other-measure", f"prints it in {words}", f"the claim in {own}", f"unit: {words}")


def _units(reading: Reading) -> set[str]:
    return units_said(reading.passage.text, reading.lexicon)


def _studies(ties: Ties, known: Known) -> Iterator[Study]:
    if ties.scope.study is not None:
        yield ties.scope.study
    if ties.scope.claim is not None:
        yield from studies_of(ties.scope.claim, ties, known)


def _is_one_each(unit: str, other: str, ties: Ties, known: Known) -> bool:
    """Whether each unit stands for one of another: the study, or a passage of the report, says so."""
    if any(study.unit is not None and study.unit.per is not None for study in _studies(ties, known)):
        return True
    lexicon = ties.scope.lexicon
    held, holder = (unit, other) if other in lexicon.holders(unit) else (other, unit)
    return any(is_one_each(passage.text, held, holder, lexicon) for passage in ties.source.passages)
