"""Proofs of reports that say the same as the last time, for whoever audits one folder again and again."""

from __future__ import annotations

from collections.abc import Mapping

from ...numerals import Lexicon
from ...reading.model import Outcome
from ...reading.report_model import Report, Source
from .figures import Proved, prove_report


class ProvedBefore:
    """`prove_report`, and what it gave before to the same question: it changes nothing but the time it takes."""

    def __init__(self) -> None:
        self._surroundings: tuple[object, ...] = ()
        self._proved: dict[str, tuple[Report, Source, Proved]] = {}

    def __call__(
        self,
        report: Report,
        source: Source,
        units: Mapping[str, str],
        outcomes: Mapping[str, Outcome],
        lexicon: Lexicon,
        *,
        located: bool = True,
    ) -> Proved:
        """The proofs of one report. located: as the last time."""
        now = (units, outcomes, lexicon, located)
        # All reports of one audit bring the same objects: what they hold is compared once.
        if not all(new is old for new, old in zip(now, self._surroundings, strict=False)) or not self._surroundings:
            if now != self._surroundings:
                self._proved = {}
            self._surroundings = now
        known = self._proved.get(report.key)
        if known is None or known[0] is not report or known[1] != source:
            known = (report, source, prove_report(report, source, units, outcomes, lexicon, located=located))
            self._proved[report.key] = known
        return known[2]
