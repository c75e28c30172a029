"""Statistics of proportions, contrasts and their synthesis: pure functions of numbers, in the field's names.

Every name is loaded at first use, and numpy only inside the functions that pool: the check needs neither.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

# Eager, since the module is named as its function: a lazy name would give the module to whoever asks second.
from .contrast import Contrast, TwoByTwo, contrast, newcombe_interval
from .results import Interval, Refusal

if TYPE_CHECKING:
    from .absolute import absolute_from_ratio
    from .agreement import Agreement, cohen_kappa
    from .clustering import design_effect, effective_total
    from .consistency import (
        interval_fits_counts,
        off_centre,
        p_agrees_with_interval,
        p_from_ratio_interval,
        ratio_from_table_agrees,
        sd_exceeds_range,
        usual_intervals,
    )
    from .direction import sign_test
    from .effects import pooled_effect
    from .intervals import (
        agresti_coull_interval,
        exact_interval,
        jeffreys_interval,
        wald_interval,
        wilson_continuity_interval,
        wilson_interval,
    )
    from .loss import loss_bounds
    from .means import MeanDifference, Measured, mean_difference
    from .number_needed import NumberNeeded, number_needed_to_treat
    from .pooled import Natural, Pooled
    from .proportions import pooled_proportion
    from .regression import Regression, meta_regression
    from .rounding import (
        PercentMatches,
        Printed,
        achievable_percents,
        events_for_percent,
        percent_near_misses,
        printed_number,
        totals_for_mean,
    )
    from .sequences import cumulative, leave_one_out
    from .small_studies import SmallStudy, egger_test, peters_test
    from .subgroups import Difference, subgroup_difference
    from .survival import product_limit
    from .tables import pooled_tables

_MODULES = {
    "absolute": ("absolute_from_ratio",),
    "agreement": ("Agreement", "cohen_kappa"),
    "clustering": ("design_effect", "effective_total"),
    "consistency": (
        "interval_fits_counts",
        "off_centre",
        "p_agrees_with_interval",
        "p_from_ratio_interval",
        "ratio_from_table_agrees",
        "sd_exceeds_range",
        "usual_intervals",
    ),
    "direction": ("sign_test",),
    "effects": ("pooled_effect",),
    "intervals": (
        "agresti_coull_interval",
        "exact_interval",
        "jeffreys_interval",
        "wald_interval",
        "wilson_continuity_interval",
        "wilson_interval",
    ),
    "loss": ("loss_bounds",),
    "means": ("MeanDifference", "Measured", "mean_difference"),
    "number_needed": ("NumberNeeded", "number_needed_to_treat"),
    "pooled": ("Natural", "Pooled"),
    "proportions": ("pooled_proportion",),
    "regression": ("Regression", "meta_regression"),
    "rounding": (
        "PercentMatches",
        "Printed",
        "achievable_percents",
        "events_for_percent",
        "percent_near_misses",
        "printed_number",
        "totals_for_mean",
    ),
    "sequences": ("cumulative", "leave_one_out"),
    "small_studies": ("SmallStudy", "egger_test", "peters_test"),
    "subgroups": ("Difference", "subgroup_difference"),
    "survival": ("product_limit",),
    "tables": ("pooled_tables",),
}
_HOME = {name: module for module, names in _MODULES.items() for name in names}

__all__ = [
    "Agreement",
    "Contrast",
    "Difference",
    "Interval",
    "MeanDifference",
    "Measured",
    "Natural",
    "NumberNeeded",
    "PercentMatches",
    "Pooled",
    "Printed",
    "Refusal",
    "Regression",
    "SmallStudy",
    "TwoByTwo",
    "absolute_from_ratio",
    "achievable_percents",
    "agresti_coull_interval",
    "cohen_kappa",
    "contrast",
    "cumulative",
    "design_effect",
    "effective_total",
    "egger_test",
    "events_for_percent",
    "exact_interval",
    "interval_fits_counts",
    "jeffreys_interval",
    "leave_one_out",
    "loss_bounds",
    "mean_difference",
    "meta_regression",
    "newcombe_interval",
    "number_needed_to_treat",
    "off_centre",
    "p_agrees_with_interval",
    "p_from_ratio_interval",
    "percent_near_misses",
    "peters_test",
    "pooled_effect",
    "pooled_proportion",
    "pooled_tables",
    "printed_number",
    "product_limit",
    "ratio_from_table_agrees",
    "sd_exceeds_range",
    "sign_test",
    "subgroup_difference",
    "totals_for_mean",
    "usual_intervals",
    "wald_interval",
    "wilson_continuity_interval",
    "wilson_interval",
]


def __getattr__(name: str) -> object:
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    value: object = getattr(import_module(f"{__name__}.{_HOME[name]}"), name)
    globals()[name] = value
    return value
