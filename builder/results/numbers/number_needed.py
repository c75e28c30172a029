"""How many to treat for one more or one fewer, where one treatment was compared with another; never for a finding."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ...reading.slugs import slug
from ...synthesis import Interval, Refusal, newcombe_interval
from ..findings.allotment import is_randomised, not_randomised
from ..findings.authors import first_author
from ..findings.comparable import reason_not_compared
from ..findings.direction import Compared, side_of_row
from ..findings.findings import Catalogue, Finding
from ..findings.side import Side
from ..saying.source_reference import source_link
from ..saying.wording import against, cut, differed, timing, unit_word
from ..values.document import Block, Paragraph, Section, Table
from ..values.figures import Figure
from ..values.line import Line, Marked, line, typed
from .absolute import FORMULAS, AbsoluteRisk, turned_formula
from .clearness import NEWCOMBE, clearness, counts_of_both
from .shown_numbers import count, share

PUBLISHED = f"Cochrane Handbook 5.1, section 12.5.4; Altman 1998, BMJ 317:1309-1312; {NEWCOMBE}"
_FORMULA = "1 / |p1 - p0|, rounded up, from risks of full precision; limits from the two limits of the difference"
_SCORE = "the 95% limits of the difference that stand beside each study: hybrid score interval of crude counts"
_AT_BASELINE = "p1 from the ratio and its limits at the named baseline, which is taken as certain"
_HEADER = ("Report", "Level against reference", "Risk difference, points", "Number needed to treat", "When", "Design")


def number_needed_section(
    catalogue: Catalogue, question: str, factor: str, items: Iterable[Compared], risks: Sequence[AbsoluteRisk]
) -> list[Block]:
    """One row a study with counts of both levels, one a ratio with its baseline; nothing for a prognostic factor."""
    known = catalogue.evidence.vocabulary.factors.get(factor)
    if known is None or known.role is None or known.role.text != "treatment":
        return []
    place = f"{question}/{factor}"
    counted = [side for item in items for side in item.crude if _has_counts(side)]
    sides = [side for side in counted if _may_have_one(catalogue, side, place)]
    known_risks = [item for item in risks if not item.reason and "level" in item.risks]
    ratios = [
        item
        for item in known_risks
        if item.ratio is not None and _may_have_one(catalogue, side_of_row(item.ratio, None), place)
    ]
    are_left_out = len(sides) < len(counted) or len(ratios) < len(known_risks)
    rows = [
        *(_of_side(catalogue, place, side) for side in sides),
        *(_of_ratio(catalogue, place, item) for item in ratios),
    ]
    if not rows:
        return []
    keys, _ = not_randomised(
        catalogue, [*(side.finding for side in sides), *(item.ratio for item in ratios if item.ratio is not None)]
    )
    says = Paragraph(
        line(
            "For faculty, not for patients. It belongs to the people, the time and the comparison of its row.",
            " Where the treatments were not allotted at random, the groups may differ in more than the treatment."
            if keys
            else None,
            " Left out: groups that chance did not make, where the study is too few to tell." if are_left_out else None,
        ),
        "caution",
    )
    table = Table(
        line("From crude counts, or from a ratio at its named baseline"), tuple(line(cell) for cell in _HEADER),
        tuple(rows), "Numbers needed to treat", "number-needed",
    )  # fmt: skip
    return [Section("Numbers needed to treat", "number-needed", (says, table), "number-needed")]


def _may_have_one(catalogue: Catalogue, side: Side | None, place: str) -> bool:
    """True where chance made the groups, or one study's difference is clear; never of what is known only afterwards."""
    if side is None:
        return False
    finding = side.finding
    if finding.claim.known_at is not None and finding.claim.known_at.text == "after":
        return False
    return is_randomised(catalogue, finding) or clearness(side, place).is_clear is True


def _has_counts(side: Side) -> bool:
    rows = (side.finding, side.reference)
    is_of_all = all(row is not None and row.claim.given is None for row in rows)
    return is_of_all and counts_of_both(side) is not None and not reason_not_compared(side.finding)


def _of_side(catalogue: Catalogue, place: str, side: Side) -> tuple[Line, ...]:
    own, other, table = side.finding, side.reference, counts_of_both(side)
    assert other is not None
    assert table is not None
    difference = table.events / table.total - table.reference_events / table.reference_total
    inputs = tuple(
        figure for row in (own, other) for name in ("events", "total") if (figure := row.figure(name)) is not None
    )
    name = slug(own.base.replace("/", " "))
    units = min(own.total or 0, other.total or 0)
    event = own.outcome.title.text, own.outcome.good
    return _row(catalogue, place, own, name, difference, newcombe_interval(table), units, inputs, event, _SCORE)


def _of_ratio(catalogue: Catalogue, place: str, item: AbsoluteRisk) -> tuple[Line, ...]:
    own, risks = item.ratio, item.risks
    assert own is not None
    assert own.contrast is not None
    ends = [risks[name] - risks["baseline"] for name in ("interval/low", "interval/high") if name in risks]
    limits = Interval(min(ends), max(ends)) if len(ends) == 2 else None
    inputs = tuple(figure for name in ("baseline", "level") if (figure := item.figures.get(name)) is not None)
    name = f"{slug(own.base.replace('/', ' '))}-at-baseline"
    measure = own.contrast.measure.text
    said = f"{turned_formula(measure) if item.is_turned else FORMULAS[measure]}; {_AT_BASELINE}"
    units = item.baseline.total or 0 if item.baseline is not None else 0
    return _row(
        catalogue, place, own, name, risks["level"] - risks["baseline"], limits, units, inputs, item.event, said
    )


def _row(
    catalogue: Catalogue,
    place: str,
    own: Finding,
    name: str,
    difference: float,
    limits: Interval | None,
    units: int,
    inputs: tuple[Figure, ...],
    event: tuple[str, bool],
    convention: str,
) -> tuple[Line, ...]:
    """One row: the difference with its limits, and what they come to in whole numbers, rounded up.

    event: what the risks count, and whether it is good.
    """
    book = catalogue.book
    kind = "baseline" if convention.endswith(_AT_BASELINE) else "counts"
    workings = book.explain(
        f"{place.replace('/', '-')}-number-needed-{kind}", "Numbers needed to treat", _FORMULA, published=PUBLISHED,
        convention=convention, inputs=inputs,
    )  # fmt: skip
    who = f"{first_author(own.source)} {own.claim.id.text}" + (f", {own.level.level.text}" if own.level else "")
    stem = f"{place}/{name}"

    def point(end: str, value: float, says: str) -> Figure:
        return share(
            book, f"{stem}-difference{end}", value, units, workings, unit="risk difference", says=f"{who}, {says}",
            inputs=inputs,
        )  # fmt: skip

    said = line(point("", difference, "difference"))
    if limits is not None:
        low, high = point("-low", limits.low, "lower limit"), point("-high", limits.high, "upper limit")
        said = line(said, " (", Marked("convention", "95%"), " CI ", low, " to ", high, ")")

    def needed(end: str, value: float) -> tuple[Figure, str] | None:
        from ...synthesis import number_needed_to_treat

        found = number_needed_to_treat(value, "good" if event[1] else "bad")
        if isinstance(found, Refusal):
            return None
        figure = count(
            book, f"{stem}-needed{end}", found.number, own.unit or "none", workings,
            says=f"{who}, needed{end}", inputs=inputs,
        )  # fmt: skip
        return figure, found.direction

    best = needed("", difference)
    if best is None:
        return _cells(catalogue, own, said, line("none: the risks are equal, so no number of them makes a difference"))
    ends = [needed(f"-{end}", value) for end, value in zip(("low", "high"), limits or (), strict=False)]
    return _cells(catalogue, own, said, line(_needed_line(own, best, *event), _limits_line(best, ends)))


def _needed_line(own: Finding, best: tuple[Figure, str], event: str, is_good: bool) -> Line:
    """ "8 eyes treated for one more: healed"."""
    figure, direction = best
    more = "more" if (direction == "benefit") == is_good else "fewer"
    return line(
        figure, f" {unit_word(own.counted, figure)} treated for one {more}: ", typed(event, "definition"),
        " (harm)" if direction == "harm" else None,
    )  # fmt: skip


def _limits_line(best: tuple[Figure, str], ends: Sequence[tuple[Figure, str] | None]) -> Line:
    """Both limits; where the difference may go either way they run through infinity (Altman 1998)."""
    found = [end for end in ends if end is not None]
    if not ends:
        return line("; limits not computable: the report prints none for its ratio")
    level = Marked("convention", "95%")
    if len(found) < len(ends):
        return line("; ", level, " limits: ", joined_limits(found), "to infinitely many")
    same = [end for end in found if end[1] == best[1]]
    if len(same) == len(found):
        low, high = sorted((figure for figure, _ in found), key=lambda figure: figure.number)
        return line("; ", level, " CI ", low, " to ", high)
    other = next(figure for figure, direction in found if direction != best[1])
    against_it = "harm" if best[1] == "benefit" else "benefit"
    return line(
        "; ", level, f" CI from {best[1]} in one of ", same[0][0], " through infinitely many to ", against_it,
        " in one of ", other,
    )  # fmt: skip


def joined_limits(found: Sequence[tuple[Figure, str]]) -> Line:
    """The one limit that is a number, with its side."""
    return line(*(part for figure, direction in found for part in (figure, f" ({direction}) ")))


def _cells(catalogue: Catalogue, own: Finding, difference: Line, needed: Line) -> tuple[Line, ...]:
    facts = own.studies[0].study if own.studies else None
    design = typed(facts.design.text) if facts is not None and facts.design is not None else "not reported"
    compared = line(against(own), " (", typed(own.outcome.title.text, "definition"), ")")
    when = line(timing(own), differed(own), cut(own))
    return line(source_link(own.key, catalogue)), compared, difference, needed, when, line(design)
