"""Where the limits between the answers of a measured field come from: a limit that one study chose is no rule."""

from __future__ import annotations

from ...results.findings.comparable import people_of
from ...results.findings.direction import reason_not_counted, sides_of
from ...results.findings.findings import Catalogue, Finding
from ...results.numbers.ratio_pooling import measured
from ...results.saying.source_reference import source_link
from ...results.values.line import Line, line, typed
from ..sections.one_study import level_wording


def limits_of_one_study(catalogue: Catalogue, question: str, factor: str) -> tuple[Line, ...]:
    """One line a limit that a single study of people drew; none where several did, or nobody."""
    known = catalogue.declared.factors.get(factor)
    if known is None or not known.unit:
        return ()
    drawn = _limits_drawn(catalogue, question, factor)
    out = []
    bands = [level.range for level in catalogue.evidence.vocabulary.factors[factor].levels if level.range is not None]
    for band in bands:
        rows = drawn.get((band.high, band.unit), []) if band.high is not None else []
        if band.high is None or not rows or len({people_of(row) for row in rows}) > 1:
            continue
        limit = f"{band.high.normalize():f} {band.unit}{'s' if band.high != 1 and len(band.unit) > 2 else ''}"
        cuts = {row.claim.cut.text for row in rows if row.claim.cut is not None}
        how = ", after it had seen its results" if "chosen from the data" in cuts else ""
        out.append(
            line(
                typed(limit, "definition"), f" is where one study drew its line{how} (",
                source_link(rows[0].key, catalogue), "). It is no rule.",
            )
        )  # fmt: skip
    return tuple(out)


def _limits_drawn(catalogue: Catalogue, question: str, factor: str) -> dict[tuple[object, str], list[Finding]]:
    """The rows whose level ends or begins at a limit, by limit and unit."""
    out: dict[tuple[object, str], list[Finding]] = {}
    for side in sides_of(catalogue, question, factor):
        if reason_not_counted(side.finding):
            continue
        row = side.finding
        span = measured(level_wording(row), row.level.range if row.level is not None else None)
        if span is not None:
            for end in dict.fromkeys((span.low, span.high)):
                out.setdefault((end, span.unit), []).append(row)
    return out
