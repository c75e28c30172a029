"""Which levels of the vocabulary a wording of a paper stands for, and of which it covers a part."""

from __future__ import annotations

from ...proof.declared_names import span_of, span_of_wording
from ...reading.fdi_chart import chart_factor_levels
from ...reading.folded import folded
from ...reading.values import Range
from .findings import Catalogue


def ids_of(catalogue: Catalogue, factor: str, wording: str) -> tuple[str, ...]:
    """The levels that a wording stands for; empty where it stands for none."""
    known = catalogue.declared.factors.get(factor)
    if known is not None:
        return tuple(level.id.text for level in known.matches(wording)) if wording else ()
    return (folded(wording),) if folded(wording) in chart_factor_levels(factor) else ()


def levels_covered(catalogue: Catalogue, factor: str, wording: str, typed: Range | None) -> tuple[str, ...]:
    """The levels that a wording covers a part of; a band that it only meets in one point is not among them."""
    known = catalogue.declared.factors.get(factor)
    if known is None or not known.unit or not wording:
        return ids_of(catalogue, factor, wording)
    span = span_of(typed) if typed is not None else span_of_wording(wording)
    if span is None:
        return ids_of(catalogue, factor, wording)
    out = []
    for level in known.matches(wording, typed):
        band = span_of(level.range) if level.range is not None else span_of_wording(level.title.text)
        lows = [end for end in (span.low, band.low if band else None) if end is not None]
        highs = [end for end in (span.high, band.high if band else None) if end is not None]
        if not lows or not highs or max(lows) < min(highs) or span == band:
            out.append(level.id.text)
    return tuple(out)
