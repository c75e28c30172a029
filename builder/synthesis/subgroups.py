"""Do groups of studies differ from each other?"""

from __future__ import annotations

from collections.abc import Hashable, Sequence

from ..records import NamedTuple
from .distributions import chi_square_tail
from .heterogeneity import as_arrays, common_effect_q, reml_tau_squared, weighted_fit
from .ranges import same_length
from .results import Refusal

TAUS = ("separate", "shared", "none")


class Difference(NamedTuple):
    """A chi-square test of equal effects in all groups."""

    q: float
    degrees_of_freedom: int
    p_value: float


def subgroup_difference(
    effects: Sequence[float], standard_errors: Sequence[float], groups: Sequence[Hashable], tau: str = "separate"
) -> Difference | Refusal:
    """Test between groups of studies.

    groups: one label a study. tau: "separate" (each group with its own tau squared by restricted maximum likelihood, 0
    for a group of one), "shared" (one for all; chi-square form) or "none" (common effect within groups): three
    different questions. Refused with one group, or with a shared tau squared if no group has two studies. Raises
    ValueError for unequal lengths, another tau or values out of range.

    Borenstein et al. 2009, Introduction to Meta-Analysis, chapter 19 (from memory).
    """
    import numpy as np

    if tau not in TAUS:
        raise ValueError(f"tau must be one of {', '.join(TAUS)}, not {tau!r}")
    values, variances = as_arrays(effects, standard_errors)
    same_length("effects", effects, "groups", groups)
    labels = list(dict.fromkeys(groups))
    if len(labels) < 2:
        return Refusal("All studies are in one group: there is nothing to compare.")
    members = [np.array([label == group for group in groups]) for label in labels]
    degrees = len(labels) - 1
    if tau == "none":
        within = sum(common_effect_q(values[member], variances[member]) for member in members)
        # Both sums are of one size, so a difference below 0 is the last digit's
        q = max(0.0, common_effect_q(values, variances) - within)
        return Difference(q, degrees, chi_square_tail(q, degrees))
    if tau == "shared":
        if len(labels) == len(values):
            return Refusal("Every group is a single study: a shared variance between studies cannot be seen.")
        design = np.column_stack(members).astype(float)
        shared = reml_tau_squared(values, variances, design)
        variances = variances + shared
    means, errors = [], []
    for member in members:
        own, own_variances = values[member], variances[member]
        ones = np.ones((len(own), 1))
        if tau == "separate" and len(own) > 1:
            own_variances = own_variances + reml_tau_squared(own, own_variances, ones)
        fit = weighted_fit(own, own_variances, ones)
        means.append(fit.coefficients[0])
        errors.append(fit.covariance[0, 0])
    q = common_effect_q(np.array(means), np.array(errors))
    return Difference(q, degrees, chi_square_tail(q, degrees))
