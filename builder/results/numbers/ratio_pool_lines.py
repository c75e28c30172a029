"""What pages say of pooled ratios: the typical study with all that belongs to it, or why there is none."""

from __future__ import annotations

from ..values.figures import Figure
from ..values.line import Line, Marked, line, typed
from .pooling import not_pooled_line
from .ratio_pooling import RatioPool


def ratio_pool_line(pool: RatioPool, told: set[tuple[str, ...]] | None = None) -> Line:
    """The typical study's ratio with all that belongs to it, or "not pooled: ..." and the range.

    told: as for `not_pooled_line`.
    """
    found = pool.figures
    if not pool.is_shown or "pooled" not in found:
        start = not_pooled_line(pool.reasons, told)
        if "range/low" in found:
            low, high = found["range/low"], found["range/high"]
            return line(start, f"; the {pool.measure}s lie between ", low, " and ", high)
        return start
    further: Line = ()
    if "prediction/low" in found:
        further = line(
            "; a further study would lie between ", found["prediction/low"], " and ", found["prediction/high"], " (",
            Marked("convention", "95%"), " prediction interval)",
            ", on both sides of no difference" if pool.crosses_no_difference else None,
        )  # fmt: skip
        if pool.is_without_variation:
            further = line(further, " (deceptively narrow: no variation between the studies was seen)")
    return line(
        "the typical study: ", typed(pool.measure), " ", found["pooled"], " (", Marked("convention", "95%"), " CI ",
        found["interval/low"], " to ", found["interval/high"], "), ", found["studies"], " studies; ", tau_line(found),
        further,
    )  # fmt: skip


def short_pool_line(pool: RatioPool) -> Line:
    """The typical study's ratio with its interval and how many studies, of a pool that is shown."""
    found = pool.figures
    return line(
        typed(pool.measure), " ", found["pooled"], " (", Marked("convention", "95%"), " CI ", found["interval/low"],
        " to ", found["interval/high"], "), ", found["studies"], " studies",
    )  # fmt: skip


def hint_line(pool: RatioPool) -> Line:
    """How wide a pooled ratio is and where a further study would lie, without the ratio itself."""
    found = pool.figures
    own = line(Marked("convention", "95%"), " CI ", found["interval/low"], " to ", found["interval/high"])
    span = pool.span
    if span is None or span.prediction is None or "prediction/low" not in found:
        return own
    crosses = " (on both sides of no difference)" if pool.crosses_no_difference else None
    level = Marked("convention", "95%")
    return line(
        own, "; a further study, ", level, ", ", found["prediction/low"], " to ", found["prediction/high"], crosses
    )


def tau_line(found: dict[str, Figure]) -> Line:
    """How far the studies differ on the log scale, with limits; said where the method has neither."""
    if "tau" not in found:
        return line("one common effect is assumed, so there is no tau")
    if "tau/low" not in found:
        return line("tau ", found["tau"], ", its limits not computable")
    level = Marked("convention", "95%")
    return line("tau ", found["tau"], " (", level, " limits ", found["tau/low"], " to ", found["tau/high"], ")")
