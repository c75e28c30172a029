"""The direction of an association: for each study, whether a level did better or worse than its reference."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from typing import Literal, NamedTuple

from builder.guide.comparable import once_each, reason_apart
from builder.guide.figures import Figure
from builder.guide.findings import Catalogue, Finding
from builder.reading.model import Outcome
from builder.reading.values import Words

Direction = Literal["better", "worse", "no clear difference", "not stated"]
DIRECTIONS: tuple[Direction, ...] = ("better", "worse", "no clear difference", "not stated")

# Ratios whose value 1 means no difference; differences and fractions have it at 0.
_RATIOS = ("odds ratio", "risk ratio", "hazard ratio")


class Side(NamedTuple):
    """What one study says of a level against its reference, for one outcome."""

    finding: Finding
    """The level's row, or the ratio."""
    reference: Finding | None
    """The reference level's row of the same table; None beside a ratio, and where it was not reported."""
    direction: Direction
    is_adjusted: bool
    reference_ids: tuple[str, ...]
    """Levels of the vocabulary that the reference's wording stands for; empty where it stands for none."""

    @property
    def units(self) -> int:
        """How many units stand behind it, 0 where not reported."""
        return (self.finding.total or 0) + ((self.reference.total or 0) if self.reference else 0)

    @property
    def figures(self) -> tuple[Figure, ...]:
        """The figures that the direction was derived from."""
        names = ("events", "total", "success_rate", "rate", "estimate/value", "contrast/value")
        rows = (self.finding, self.reference) if self.reference else (self.finding,)
        return tuple(figure for row in rows for name in names if (figure := row.figure(name)) is not None)


class Compared(NamedTuple):
    """A level beside its reference for one outcome: one side a study, crude and adjusted apart."""

    outcome: Outcome
    factor: str
    level: str
    """Id in the vocabulary."""
    crude: tuple[Side, ...]
    adjusted: tuple[Side, ...]
    apart: tuple[tuple[Side, str], ...]
    """Sides that are not counted, with the reason: animals, withdrawn, a review's."""
    mixed: frozenset[str]
    """Studies whose own tables point both ways."""

    @property
    def sides(self) -> tuple[Side, ...]:
        """One side a study: the adjusted one where the study has both."""
        chosen = {side.finding.studies[0].id: side for side in self.crude}
        chosen.update({side.finding.studies[0].id: side for side in self.adjusted})
        return tuple(sorted(chosen.values(), key=lambda side: side.finding.base))

    def count(self, direction: Direction) -> int:
        """How many studies point this way."""
        return sum(side.direction == direction for side in self.sides)

    @property
    def verdict(self) -> Direction | Literal["mixed", "not known"]:
        """What all studies that state one agree on; "mixed" where they do not, "not known" where none states one."""
        stated = {side.direction for side in self.sides} - {"not stated"}
        if not stated:
            return "not known"
        return next(iter(stated)) if len(stated) == 1 else "mixed"


def compared(catalogue: Catalogue, question: str, factor: str, level: str) -> tuple[Compared, ...]:
    """What is known of a level against other levels, one Compared an outcome, outcomes by id."""
    by_outcome: dict[str, list[Side]] = {}
    outcomes: dict[str, Outcome] = {}
    for side in sides_of(catalogue, question, factor):
        if level in side.finding.level_ids and level not in side.reference_ids:
            by_outcome.setdefault(side.finding.outcome.id, []).append(side)
            outcomes[side.finding.outcome.id] = side.finding.outcome
    return tuple(_compared(outcomes[name], factor, level, by_outcome[name]) for name in sorted(by_outcome))


def _compared(outcome: Outcome, factor: str, level: str, sides: list[Side]) -> Compared:
    apart = [(side, reason) for side in sides if (reason := reason_not_counted(side.finding))]
    left_out = {id(side) for side, _ in apart}
    kept = [side for side in sides if id(side) not in left_out]
    crude = _once([side for side in kept if not side.is_adjusted])
    adjusted = _once([side for side in kept if side.is_adjusted])
    seen: dict[str, set[str]] = {}
    for side in kept:
        if side.direction in ("better", "worse"):
            seen.setdefault(side.finding.studies[0].id, set()).add(side.direction)
    mixed = frozenset(study for study, directions in seen.items() if len(directions) > 1)
    return Compared(outcome, factor, level, crude, adjusted, tuple(apart), mixed)


def reason_not_counted(finding: Finding) -> str:
    """Why a direction is not counted; a selected series may still show one."""
    reason = reason_apart(finding)
    return "" if reason.startswith("a selected series") else reason


def _once(sides: list[Side]) -> tuple[Side, ...]:
    """One side a study: what states a direction before what does not, then the report that counts for its patients."""
    by_base = {side.finding.base: side for side in sides}
    stated = [side.finding for side in sides if side.direction != "not stated"]
    silent = [side.finding for side in sides if side.direction == "not stated"]
    taken: dict[str, Side] = {}
    for group in (stated, silent):
        counted, _ = once_each(group)
        for finding in sorted(counted, key=lambda item: (-_window_of(item), item.base)):
            if not any(study.id in taken for study in finding.studies):
                taken.update({study.id: by_base[finding.base] for study in finding.studies})
    unique = {side.finding.base: side for side in taken.values()}
    return tuple(unique[base] for base in sorted(unique))


def _window_of(finding: Finding) -> float:
    return float(finding.window) if finding.window is not None else -1.0


def sides_of(catalogue: Catalogue, question: str, factor: str) -> list[Side]:
    """Every side that claims give to a factor of a question, subgroups left out, in order of place."""
    out: list[Side] = []
    wording = catalogue.known.factors.get(factor)
    rows: dict[str, list[Finding]] = {}
    for finding in catalogue.of_question(question):
        if (
            finding.factor == factor
            and not finding.claim.within
            and finding.kind in ("rate", "estimate", "words", "contrast")
        ):
            rows.setdefault(f"{finding.key}/{finding.claim.id.text}", []).append(finding)
    for findings in rows.values():
        claim = findings[0].claim
        if claim.quotes is not None:
            continue
        reference_text = claim.reference.text if isinstance(claim.reference, Words) else ""
        reference = next((item for item in findings if item.level and item.level.level.text == reference_text), None)
        ids = tuple(level.id.text for level in wording.matches(reference_text)) if wording and reference_text else ()
        for finding in findings:
            if finding is reference:
                continue
            if finding.kind == "contrast":
                side = _of_contrast(finding, ids)
            else:
                side = _of_level(finding, reference, ids)
            if side is not None:
                out.append(side)
    return out


def _of_level(finding: Finding, reference: Finding | None, ids: tuple[str, ...]) -> Side | None:
    level = finding.level
    if level is None:
        return None
    typed = level.direction.text if level.direction else "not stated"
    direction: Direction = typed if typed in DIRECTIONS else "not stated"
    if reference is not None:
        derived = between(share_good(finding), share_good(reference))
        if derived is not None:
            direction = derived
    return Side(finding, reference, direction, False, ids)


def _of_contrast(finding: Finding, ids: tuple[str, ...]) -> Side | None:
    contrast = finding.contrast
    if contrast is None:
        return None
    adjusted = not (isinstance(contrast.adjusted_for, Words) and contrast.adjusted_for.text == "none")
    value = finding.figure("contrast/value")
    return Side(finding, None, of_ratio(finding, value), adjusted, ids)


def of_ratio(finding: Finding, value: Figure | None) -> Direction:
    """The side of a ratio or difference, for the patient; "not stated" where the event is neither good nor bad."""
    contrast = finding.contrast
    if contrast is None or value is None:
        return "not stated"
    good = contrast.event_is.text == "good" if contrast.event_is is not None else None
    number = value.number
    if contrast.measure.text in _RATIOS:
        if round_half_up(number, 1) == Decimal("1.0"):
            return "no clear difference"
        higher = number > 1
    else:
        if number == 0:
            return "no clear difference"
        higher = number > 0
        if good is None:
            good = finding.outcome.good if contrast.event is None else None
    if good is None:
        return "not stated"
    return "better" if higher == good else "worse"


def share_good(finding: Finding) -> Decimal | None:
    """The share that did well, in per cent, from counts or else from the printed rate or estimate."""
    good = finding.good_events
    if good is not None and finding.total:
        return Decimal(100 * good) / Decimal(finding.total)
    estimate = finding.estimate
    figure = finding.figure("success_rate", "rate")
    is_good = finding.outcome.good
    if figure is None and estimate is not None:
        figure = finding.figure("estimate/value")
        is_good = estimate.kind.text == "survival"
    if figure is None:
        return None
    return figure.number if is_good else 100 - figure.number


def between(share: Decimal | None, reference: Decimal | None) -> Direction | None:
    """The side of a rate beside its reference; "no clear difference" only where both print alike at whole per cent."""
    if share is None or reference is None:
        return None
    if round_half_up(share, 0) == round_half_up(reference, 0):
        return "no clear difference"
    return "better" if share > reference else "worse"


def round_half_up(number: Decimal, places: int) -> Decimal:
    """Rounded as people round: a half goes up."""
    return number.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP)
