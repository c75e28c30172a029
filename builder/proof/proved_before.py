"""Proofs of reports that say the same as the last time, for whoever audits one folder again and again."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ..numerals import Lexicon
from ..reading.model import Outcome
from ..reading.report_model import Report, Source, Study
from ..records import NamedTuple
from ..two_processes import in_two
from .declared_names import DeclaredNames
from .report_proof import Proved, prove_reports

TOGETHER = 16
"""So many reports are best proved by one call of `prove_reports`."""
_MANY = 100
"""From so many reports on, a second process saves more than sending its proofs costs."""


class _Known(NamedTuple):
    """What was proved of one report, and what its proof rests on besides."""

    report: Report
    source: Source
    told: tuple[object, ...]
    """Of its studies, by any report."""
    proved: Proved


class ProvedBefore:
    """`prove_reports`, and what it gave before to the same question: it changes nothing but the time it takes."""

    def __init__(self) -> None:
        self._asked_with: tuple[object, ...] = ()
        self._surroundings: tuple[object, ...] = ()
        self._units: Mapping[str, str] = {}
        self._described: dict[str, tuple[object, ...]] = {}
        self._proved: dict[str, _Known] = {}

    def __call__(
        self,
        reports: Sequence[tuple[Report, Source]],
        units: Mapping[str, str],
        outcomes: Mapping[str, Outcome],
        lexicon: Lexicon,
        *,
        located: bool = True,
        declared: DeclaredNames | None = None,
    ) -> list[Proved]:
        """The proofs of some reports. located: as the last time."""
        self._ask_with(units, outcomes, lexicon, located, declared)
        new = self._unknown(reports)
        self._keep(new, prove_reports(new, units, outcomes, lexicon, located=located, declared=declared))
        return [self._proved[report.key].proved for report, _ in reports]

    def ahead(
        self,
        reports: Sequence[tuple[Report, Source]],
        units: Mapping[str, str],
        outcomes: Mapping[str, Outcome],
        lexicon: Lexicon,
        declared: DeclaredNames,
    ) -> None:
        """Proves what an audit will ask for, with its places, on two cores where there are enough reports."""
        self._ask_with(units, outcomes, lexicon, True, declared)
        new = self._unknown(reports)

        def of(some: Sequence[tuple[Report, Source]]) -> list[Proved]:
            together = (some[start : start + TOGETHER] for start in range(0, len(some), TOGETHER))
            return [
                found
                for each in together
                for found in prove_reports(each, units, outcomes, lexicon, located=True, declared=declared)
            ]

        middle = len(new) // 2
        first, second = in_two(lambda: of(new[:middle]), lambda: of(new[middle:]), is_worth_it=len(new) >= _MANY)
        self._keep(new, [*first, *second])

    def _ask_with(
        self,
        units: Mapping[str, str],
        outcomes: Mapping[str, Outcome],
        lexicon: Lexicon,
        located: bool,
        declared: DeclaredNames | None,
    ) -> None:
        """Forgets what was proved where anything that every report is read with has changed."""
        asked_with = (units, outcomes, lexicon, located, declared)
        # All reports of one audit bring the same objects: what they hold is compared once.
        if all(new is old for new, old in zip(asked_with, self._asked_with, strict=False)) and self._asked_with:
            return
        now = (outcomes, lexicon, located, declared and _factors_of(declared))
        if now != self._surroundings:
            self._proved = {}
        self._surroundings, self._asked_with = now, asked_with
        self._described = {}
        if declared is not None:
            self._described = {name: _words_of(each.study) for name, each in declared.described.items()}
        self._units = units

    def _unknown(self, reports: Sequence[tuple[Report, Source]]) -> list[tuple[Report, Source]]:
        return [(report, source) for report, source in reports if not self._is_known(report, source)]

    def _keep(self, reports: Sequence[tuple[Report, Source]], proved: Sequence[Proved]) -> None:
        for (report, source), found in zip(reports, proved, strict=True):
            self._proved[report.key] = _Known(report, source, self._told_of_studies(report), found)

    def _is_known(self, report: Report, source: Source) -> bool:
        known = self._proved.get(report.key)
        return (
            known is not None
            and known.report is report
            and known.source == source
            and known.told == self._told_of_studies(report)
        )

    def _told_of_studies(self, report: Report) -> tuple[object, ...]:
        """What any report tells of this one's studies: what each counts, and its words."""
        names = sorted(report.all_studies())
        return tuple((name, self._units.get(name), self._described.get(name)) for name in names)


def _factors_of(declared: DeclaredNames) -> dict[str, object]:
    """What a proof looks up of the vocabulary's factors."""
    return {name: wording.factor for name, wording in declared.factors.items()}


def _words_of(study: Study) -> tuple[object, ...]:
    """What a study says of itself, wherever it stands in its file."""
    setting = study.setting if isinstance(study.setting, dict) else {}
    facts = [(name, words.text) for block in (study.population, setting) for name, words in block.items()]
    stands_for = study.unit.per.text if study.unit is not None and study.unit.per is not None else ""
    return study.species and study.species.text, study.design and study.design.text, facts, stands_for
