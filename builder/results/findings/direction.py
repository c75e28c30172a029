"""The direction of an association: for each study, whether a level did better or worse than its reference."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Literal

from ...reading.fdi_chart import chart_factor_levels
from ...reading.folded import folded
from ...reading.model import Outcome
from ...reading.report_model import Claim
from ...reading.values import Missing, Words
from ...records import NamedTuple
from .allotment import is_randomised
from .comparable import reason_not_compared
from .findings import Catalogue, Finding
from .levels_covered import ids_of, levels_covered
from .one_a_study import deciding, one_side_a_study
from .side import PAIRS, Side
from .which_way import (
    DIRECTIONS,
    Direction,
    direction_between,
    direction_of_measured,
    direction_of_ratio,
    is_adjusted,
    share_good,
)


class Compared(NamedTuple):
    """A level beside one reference for one outcome: one side a study, crude and adjusted apart."""

    outcome: Outcome
    factor: str
    level: str
    """Id in the vocabulary."""
    crude: tuple[Side, ...]
    adjusted: tuple[Side, ...]
    not_counted: tuple[tuple[Side, str], ...]
    """Sides that are not counted, with the reason: animals, withdrawn, a review's."""
    mixed: frozenset[str]
    """Studies whose own tables point both ways."""
    beside: tuple[str, ...] = ()
    """Ids of the reference, where the same level and outcome are also compared with another one; mostly empty."""

    sides: tuple[Side, ...] = ()
    """One side a study, of a crude and an adjusted one that which decides."""
    every: tuple[Side, ...] = ()
    """All sides that may count, those included that gave way to another of the same study."""
    reaching: tuple[Side, ...] = ()
    """Sides of levels that lie in this band and in another: shown with each, counted in none; one a study."""
    elsewhere: tuple[Side, ...] = ()
    """Sides whose reference reaches into this level, so that their limit lies elsewhere: shown, counted in none."""

    @property
    def name(self) -> str:
        """What tells this comparison from the others of its factor: part of figure ids and anchors."""
        start = f"{self.level}-{self.outcome.id}"
        return f"{start}-beside-{'-or-'.join(self.beside)}" if self.beside else start

    def count(self, direction: Direction) -> int:
        """How many studies point this way by a number; what stands in words alone is told apart."""
        return sum(side.direction == direction for side in self.sides if not side.is_in_words)

    @property
    def in_words(self) -> tuple[Side, ...]:
        """Sides that stand in words alone, which count nowhere."""
        return tuple(side for side in self.sides if side.is_in_words)

    @property
    def verdict(self) -> Direction | Literal["mixed", "not known"]:
        """What all studies that state one agree on; "mixed" where they do not, "not known" where none states one.

        Words alone are asked only where no study has a number.
        """
        told = [side for side in self.sides if side.direction != "not stated"]
        stated = {side.direction for side in told if not side.is_in_words} or {side.direction for side in told}
        if not stated:
            return "not known"
        return next(iter(stated)) if len(stated) == 1 else "mixed"


def compared(
    catalogue: Catalogue, question: str, factor: str, level: str, sides: list[Side] | None = None
) -> tuple[Compared, ...]:
    """What is known of a level against other levels: one Compared an outcome and reference, outcomes by id.

    References that cover a part of each other are one; of several the one with most studies comes first. sides: those
    of sides_of, where the caller asks for several levels.
    """
    if sides is None:
        return catalogue.once(
            ("compared", question, factor, level),
            lambda: compared(catalogue, question, factor, level, sides_of(catalogue, question, factor)),
        )
    by_outcome: dict[str, list[Side]] = {}
    for side in sides:
        if level in side.covers and (side.reaches_over or level not in side.reference_ids):
            by_outcome.setdefault(side.finding.outcome.id, []).append(side)
    out: list[Compared] = []
    for name in sorted(by_outcome):
        found = [
            _compared(group[0].finding.outcome, factor, level, ids, group)
            for ids, group in _by_reference(catalogue, factor, by_outcome[name])
        ]
        found.sort(key=lambda item: (-len(item.sides), -len(item.reaching), item.beside))
        found[0] = found[0]._replace(elsewhere=_limit_elsewhere(sides, level, name))
        # The first keeps the short name, so that a second reference moves no figure's id.
        out.extend(item._replace(beside=()) if index == 0 else item for index, item in enumerate(found))
    return tuple(out)


def _limit_elsewhere(sides: Iterable[Side], level: str, outcome: str) -> tuple[Side, ...]:
    """Sides that compare a part of this level with the rest of it and all of another: 2 mm, where the band has 1 mm."""
    found = [
        side
        for side in sides
        if side.finding.outcome.id == outcome
        and level in side.covers
        and level in side.reference_ids
        and len(set(side.reference_ids)) > 1
        and not side.reaches_over
        and not reason_not_counted(side.finding)
    ]
    return _reaching(found)


def _by_reference(catalogue: Catalogue, factor: str, sides: list[Side]) -> list[tuple[tuple[str, ...], list[Side]]]:
    """Sides whose references have a level in common; with two levels in all there is but one to compare with."""
    known = catalogue.evidence.vocabulary.factors.get(factor)
    levels = known.levels if known is not None else chart_factor_levels(factor)
    if 0 < len(levels) <= 2:
        return [((), sides)]
    groups: list[tuple[set[str], list[Side]]] = []
    for side in sides:
        ids = set(side.reference_ids)
        # Nothing reported equals nothing, so such sides stand together and with no other.
        meeting = [group for group in groups if group[0] & ids or not (group[0] or ids)]
        merged = (
            ids.union(*(group[0] for group in meeting)),
            [item for group in meeting for item in group[1]] + [side],
        )
        groups = [group for group in groups if group not in meeting] + [merged]
    return [(tuple(sorted(ids)) or ("not-reported",), found) for ids, found in groups]


def _compared(outcome: Outcome, factor: str, level: str, beside: tuple[str, ...], sides: list[Side]) -> Compared:
    not_counted = [(side, reason) for side in sides if (reason := reason_not_counted(side.finding))]
    left_out = {id(side) for side, _ in not_counted}
    every = [side for side in sides if id(side) not in left_out]
    kept = [side for side in every if not side.reaches_over]
    crude = one_side_a_study([side for side in kept if not side.is_adjusted])
    adjusted = one_side_a_study([side for side in kept if side.is_adjusted])
    seen: dict[str, set[str]] = {}
    for side in kept:
        if side.direction in ("better", "worse"):
            for study in side.finding.studies:
                seen.setdefault(study.id, set()).add(side.direction)
    mixed = frozenset(study for study, directions in seen.items() if len(directions) > 1)
    return Compared(
        outcome,
        factor,
        level,
        crude,
        adjusted,
        tuple(not_counted),
        mixed,
        beside,
        deciding(crude, adjusted),
        tuple(every),
        _reaching([side for side in every if side.reaches_over]),
    )


def _reaching(sides: list[Side]) -> tuple[Side, ...]:
    return deciding(
        one_side_a_study([side for side in sides if not side.is_adjusted]),
        one_side_a_study([side for side in sides if side.is_adjusted]),
    )


def reason_not_counted(finding: Finding) -> str:
    """Why a direction is not counted; a selected series may still show one."""
    reason = reason_not_compared(finding)
    return "" if reason.startswith("a selected series") else reason


def sides_of(catalogue: Catalogue, question: str, factor: str) -> list[Side]:
    """Every side that claims give to a factor of a question, subgroups left out, in order of place."""
    return catalogue.once(("sides", question, factor), lambda: _sides_of(catalogue, question, factor))


def _sides_of(catalogue: Catalogue, question: str, factor: str) -> list[Side]:
    tables: dict[tuple[str, str], list[Finding]] = {}
    for finding in catalogue.of_question(question):
        if finding.factor == factor and not finding.claim.within:
            claim = f"{finding.key}/{finding.claim.id.text}"
            tables.setdefault((claim, finding.outcome.id), []).append(finding)
    out: list[Side] = []
    for findings in tables.values():
        out.extend(_with_covers(catalogue, factor, side) for side in _of_table(catalogue, factor, findings))
    return sorted(out, key=lambda side: (side.finding.base, side.finding.kind, side.finding.level_ids))


def sides_of_claim(catalogue: Catalogue, claim: str) -> list[Side]:
    """Every side that one claim gives to its factor, those of a part of the patients included. claim: "key/claim"."""
    tables: dict[str, list[Finding]] = {}
    for finding in catalogue.of_claim(claim):
        if finding.factor:
            tables.setdefault(finding.outcome.id, []).append(finding)
    return [
        _with_covers(catalogue, findings[0].factor, side)
        for findings in tables.values()
        for side in _of_table(catalogue, findings[0].factor, findings)
    ]


def _with_covers(catalogue: Catalogue, factor: str, side: Side) -> Side:
    finding = side.finding
    level, contrast = finding.level, finding.contrast
    named = level.level if level is not None else contrast.level if contrast is not None else None
    typed = level.range if level is not None else None
    found = levels_covered(catalogue, factor, named.text, typed) if named is not None else ()
    return side._replace(covers=found or finding.level_ids, is_allotted=is_randomised(catalogue, finding))


def _of_table(catalogue: Catalogue, factor: str, findings: list[Finding]) -> list[Side]:
    """The sides of one claim's rows for one outcome."""
    claim = findings[0].claim
    contrasts = [finding for finding in findings if finding.kind == "contrast"]
    rows = level_rows(findings)
    wording = _reference_wording(claim)
    reference = next((row for row in rows if _wording(row) == folded(wording)), None) if wording else None
    typed = reference.level.range if reference is not None and reference.level is not None else None
    ids = levels_covered(catalogue, factor, wording, typed)
    printed = {finding.level_ids: finding for finding in contrasts if not is_adjusted(finding)}
    out = [
        side._replace(ratio=printed.get(row.level_ids) if row.level_ids else None)
        for row in _rows_to_tell(rows, contrasts)
        if row is not reference and (side := _of_level(row, reference, ids)) is not None
    ]
    out.extend(side for finding in contrasts if (side := _of_contrast(finding, ids)) is not None)
    return out if out or rows else _without_rows(catalogue, factor, findings, ids)


def _without_rows(catalogue: Catalogue, factor: str, findings: list[Finding], ids: tuple[str, ...]) -> list[Side]:
    """The sides of a claim with neither levels nor a ratio: its pairs, else its tests."""
    pairs = [_of_pairs(catalogue, factor, finding) for finding in findings if finding.kind == "pairs"]
    tests = [_of_test(catalogue, factor, finding, ids) for finding in findings if finding.kind == "test"]
    return [side for side in (pairs if any(pairs) else tests) if side is not None]


def _rows_to_tell(rows: list[Finding], contrasts: list[Finding]) -> list[Finding]:
    """Without means whose difference is printed: it has its interval, and is told in place of them."""
    told = {finding.level_ids for finding in contrasts if finding.level_ids and finding.figure("contrast/value")}
    return [row for row in rows if row.kind != "measured" or row.level_ids not in told]


def _reference_wording(claim: Claim) -> str:
    """What the claim, or else its ratio, calls the reference; "" where neither says."""
    named = claim.reference
    if named is None and claim.contrast is not None:
        named = claim.contrast.reference
    return named.text if isinstance(named, Words) else ""


def level_rows(findings: Iterable[Finding]) -> list[Finding]:
    """Rows of levels; where a level has grades, the grade that counts stands in place of the bare total."""
    rows = [finding for finding in findings if finding.level is not None]
    graded = {(row.claim.id.text, _wording(row), row.outcome.id) for row in rows if row.kind == "grade"}
    return [
        row
        for row in rows
        if row.kind == "grade"
        or row.figure("events", "success_rate", "rate", "estimate/value") is not None
        or (row.claim.id.text, _wording(row), row.outcome.id) not in graded
    ]


def _wording(row: Finding) -> str:
    return folded(row.level.level.text) if row.level is not None else ""


def _of_level(finding: Finding, reference: Finding | None, ids: tuple[str, ...]) -> Side | None:
    level = finding.level
    if level is None:
        return None
    typed = level.direction.text if level.direction else "not stated"
    direction: Direction = typed if typed in DIRECTIONS else "not stated"
    if reference is not None:
        derived = direction_of_measured(finding, reference)
        derived = derived or direction_between(share_good(finding), share_good(reference))
        if derived is not None:
            direction = derived
    return Side(finding, reference, direction, False, ids)


def side_of_row(finding: Finding, reference: Finding | None) -> Side | None:
    """What a row of a table says beside that of its reference, or a ratio by itself; None for other findings.

    reference: None beside a ratio, and where the table has no row of the reference level.
    """
    return _of_contrast(finding, ()) if finding.kind == "contrast" else _of_level(finding, reference, ())


def _of_contrast(finding: Finding, ids: tuple[str, ...]) -> Side | None:
    contrast = finding.contrast
    if contrast is None:
        return None
    return Side(finding, None, direction_of_ratio(finding, finding.figure("contrast/value")), is_adjusted(finding), ids)


def _of_pairs(catalogue: Catalogue, factor: str, finding: Finding) -> Side | None:
    """The same units with both levels: the side of those in whom only one of the two did well."""
    pairs = finding.claim.pairs
    found = [finding.figure(name) for name in PAIRS]
    if pairs is None or isinstance(pairs, Missing):
        return None
    numbers = [int(figure.number) for figure in found if figure is not None]
    levels, ids = ids_of(catalogue, factor, pairs.a.text), ids_of(catalogue, factor, pairs.b.text)
    if len(numbers) != len(PAIRS) or not sum(numbers) or not levels or not ids:
        return None
    shares = [Decimal(100 * (numbers[0] + only)) / sum(numbers) for only in numbers[1:3]]
    if not finding.outcome.good:
        shares = [100 - share for share in shares]
    direction = direction_between(shares[0], shares[1]) or "not stated"
    return Side(finding._replace(level_ids=levels), None, direction, False, ids)


def _of_test(catalogue: Catalogue, factor: str, finding: Finding, ids: tuple[str, ...]) -> Side | None:
    """A test alone says that somebody looked and not which way: not stated, for each level that it speaks of."""
    between_words = [
        word.text for test in finding.claim.tests if not isinstance(test.between, Missing) for word in test.between
    ]
    named = tuple(dict.fromkeys(item for word in between_words for item in ids_of(catalogue, factor, word)))
    known = catalogue.evidence.vocabulary.factors.get(factor)
    every = tuple(level.id.text for level in known.levels) if known else chart_factor_levels(factor)
    levels = tuple(item for item in named or every if item not in ids)
    return Side(finding._replace(level_ids=levels), None, "not stated", False, ids) if levels else None
