"""Every block of the reference values that the product computes, against R (reference/README.md says where from)."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from functools import cache, partial
from math import isnan, sqrt
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from passageproof.synthesis import (
    TwoByTwo,
    achievable_percents,
    contrast,
    cumulative,
    egger_test,
    events_for_percent,
    exact_interval,
    jeffreys_interval,
    leave_one_out,
    meta_regression,
    peters_test,
    pooled_effect,
    pooled_proportion,
    pooled_tables,
    sign_test,
    subgroup_difference,
    wilson_interval,
)

FOLDER = Path(__file__).parent / "reference"
MEASURES = {"OR": "odds ratio", "RR": "risk ratio", "RD": "risk difference"}
KNAPP_HARTUNG = {"z": "normal", "knha": "knapp-hartung", "adhoc": "truncated-knapp-hartung"}
SUBGROUP_TESTS = (
    ("none", "common_effect", "Q_between"),
    ("separate", "random_separate_tau2", "Q_between"),
    ("shared", "random_common_tau2", "QM"),
)


class Refused:
    """What a comparison of a refused result is against."""


class Row(NamedTuple):
    """One value of the reference and what we have in its place."""

    where: str
    expected: float | None
    found: Any
    tolerance: float = 1e-6

    def verdict(self) -> str:
        if isinstance(self.found, Refused):
            return "refused"
        if self.expected is None or isinstance(self.expected, str):
            return "agrees" if self.found is None else "skipped"
        if self.found is None or isnan(self.found):
            return "differs"
        gap = abs(self.found - self.expected)
        # near 0 the reference's README asks for an absolute 1e-8
        return "agrees" if gap <= max(self.tolerance * (1e-3 + abs(self.expected)), 1e-8) else "differs"


def rows(
    where: str, result: Any, pairs: dict[str, tuple[Any, Callable[[Any], Any]]], tolerance: float = 1e-6
) -> Iterator[Row]:
    """One row a number; a pair is the reference's value (or list) and how to get ours from the result."""
    for name, (expected, get) in pairs.items():
        found = get(result) if result else Refused()
        if isinstance(expected, list):
            values = [Refused()] * len(expected) if isinstance(found, Refused) else found or [None] * len(expected)
            for side, one, other in zip(("low", "high"), expected, values, strict=True):
                yield Row(f"{where} {name} {side}", one, other, tolerance)
        else:
            yield Row(f"{where} {name}", expected, found, tolerance)


def load(name: str) -> Any:
    return json.loads((FOLDER / f"{name}.json").read_text(encoding="utf-8"))


def proportion_intervals() -> Iterator[Row]:
    data = load("proportion_intervals")
    cases = data["cases"] + [{**case, **case["computed"]} for case in data["published_examples"]]
    methods = {"wilson": wilson_interval, "clopper_pearson": exact_interval, "jeffreys": jeffreys_interval}
    for case in cases:
        for name, method in methods.items():
            found = method(case["k"], case["n"], confidence=case["level"])
            yield from rows(f"{case['k']}/{case['n']} at {case['level']}", found, {name: (case[name], tuple)}, 1e-9)


def proportions_pooling() -> Iterator[Row]:
    for data in load("proportions_pooling")["datasets"]:
        events, totals, name = data["studies"]["x"], data["studies"]["n"], data["id"]
        summed = data["summed_counts"]
        pairs = {
            "share": (summed["p"], lambda p: p.estimate),
            "clopper_pearson": (summed["clopper_pearson"], lambda p: p.interval),
        }
        yield from rows(f"{name} summed", pooled_proportion(events, totals, method="summed"), pairs)
        fitted = data["glmm_logit"].get("independent")
        result = pooled_proportion(events, totals)
        if fitted is None:  # one study, or all 0 % or 100 %: R has no fit either
            assert not result, name
        else:
            pairs = {
                "estimate": (fitted["estimate"], lambda p: p.estimate),
                "se": (fitted["se"], lambda p: p.standard_error),
                "tau2": (fitted["tau2"], lambda p: p.tau_squared),
                "ci_t_km1": (fitted["ci_t_km1"], lambda p: p.interval),
                "bt_estimate": (fitted["bt_estimate"], lambda p: p.natural().estimate),
                "bt_ci_t_km1": (fitted["bt_ci_t_km1"], lambda p: p.natural().interval),
            }
            if len(events) >= 3:
                pairs["pi_t_km2"] = (fitted["pi_t_km2"], lambda p: p.prediction_interval)
                pairs["bt_pi_t_km2"] = (fitted["bt_pi_t_km2"], lambda p: p.natural().prediction_interval)
            yield from rows(f"{name} GLMM", result, pairs, 1e-5)
        logits = data["logit_only0"]
        errors = [sqrt(v) for v in logits["vi"]]
        yield from pools(f"{name} logit", logits, partial(pooled_effect, logits["yi"], errors))
        yield from common(f"{name} logit", logits, pooled_effect(logits["yi"], errors, model="common", scale="logit"))
        if "REML" in (logits["random"] or {}):
            reml = logits["random"]["REML"]
            pairs = {
                "ci": (reml["adhoc"]["ci"], lambda p: p.interval),
                "bt_ci": (reml["adhoc"]["bt_ci"], lambda p: p.natural().interval),
                "bt_estimate": (reml["bt_estimate"], lambda p: p.natural().estimate),
            }
            yield from rows(f"{name} two-step", pooled_proportion(events, totals, method="two-step"), pairs)


def common(where: str, block: dict[str, Any], result: Any) -> Iterator[Row]:
    """Common-effect mean and heterogeneity of an inverse-variance block."""
    if block.get("common") is None:
        return
    pairs = {
        "common": (block["common"]["estimate"], lambda p: p.estimate),
        "common se": (block["common"]["se"], lambda p: p.standard_error),
        "common ci": (block["common"]["ci"], lambda p: p.interval),
    }
    spread = block.get("heterogeneity")
    if spread:
        pairs |= {
            "Q": (spread["Q"], lambda p: p.q),
            "df": (spread["df"], lambda p: p.q_degrees_of_freedom),
            "p": (spread["p"], lambda p: p.q_p_value),
            "I2_Q": (spread["I2_Q"] / 100, lambda p: p.i_squared),
            "tau2_ci_qprofile": (spread["tau2_ci_qprofile"], lambda p: p.tau_squared_interval),
        }
    yield from rows(where, result, pairs)


def pools(where: str, block: dict[str, Any], pool: Callable[..., Any]) -> Iterator[Row]:
    """REML mean with its three intervals."""
    reml = (block.get("random") or {}).get("REML")
    if reml is None or not reml["converged"]:
        return
    for key, interval in KNAPP_HARTUNG.items():
        pairs = {
            "se": (reml[key]["se"], lambda p: p.standard_error),
            "ci": (reml[key]["ci"], lambda p: p.interval),
        }
        result = pool(interval=interval)
        yield from rows(f"{where} {key}", result, pairs)
    pairs = {"tau2": (reml["tau2"], lambda p: p.tau_squared), "estimate": (reml["estimate"], lambda p: p.estimate)}
    if block["k"] >= 3:
        pairs["pi t_km2"] = (reml["pi"]["t_km2"], lambda p: p.prediction_interval)
    yield from rows(f"{where} REML", pool(interval="truncated-knapp-hartung"), pairs)


def small_study(where: str, block: dict[str, Any] | None, slope: str, result: Any) -> Iterator[Row]:
    if block is None:
        return
    pairs = {
        slope: (block[slope], lambda s: s.slope),
        "se": (block["se"], lambda s: s.standard_error),
        "t": (block["t"], lambda s: s.t),
        "df": (block["df"], lambda s: s.degrees_of_freedom),
        "p": (block["p"], lambda s: s.p_value),
    }
    yield from rows(where, result, pairs)


def sequence(where: str, block: dict[str, Any] | None, results: list[Any]) -> Iterator[Row]:
    if block is None:
        return
    assert len(results) == len(block["estimate"]), where
    for index, result in enumerate(results):
        pairs = {
            "estimate": (block["estimate"][index], lambda p: p.estimate),
            "se": (block["se"][index], lambda p: p.standard_error),
            "low": (block["ci_lo"][index], lambda p: p.interval.low),
            "high": (block["ci_hi"][index], lambda p: p.interval.high),
            "tau2": (block["tau2"][index], lambda p: p.tau_squared),
        }
        yield from rows(f"{where} {index}", result, pairs)


def two_arm_pooling() -> Iterator[Row]:
    for data in load("two_arm_pooling")["datasets"]:
        counts = (data["studies"][key] for key in ("a", "n1", "c", "n2"))
        tables = [TwoByTwo(*table) for table in zip(*counts, strict=True)]
        for short, measure in MEASURES.items():
            block, where = data[short], f"{data['id']} {short}"
            plain = "_nocorrection" if "yi_nocorrection" in block else ""
            for index, table in enumerate(tables):
                pairs = {
                    "yi": (block[f"yi{plain}"][index], lambda c: c.estimate),
                    "vi": (block[f"vi{plain}"][index], lambda c: c.standard_error**2),
                }
                yield from rows(f"{where} {index}", contrast(table, measure), pairs)
            for key, method in (("mantel_haenszel_default", "mantel-haenszel"), ("peto", "peto")):
                if block.get(key):
                    pairs = {
                        "estimate": (block[key]["estimate"], lambda p: p.estimate),
                        "se": (block[key]["se"], lambda p: p.standard_error),
                    }
                    yield from rows(f"{where} {method}", pooled_tables(tables, measure, method), pairs)
            pooling = block.get("iv_nocorrection", block["iv"]) if short == "RD" else block["iv"]
            result = pooled_tables(tables, measure, "inverse-variance", model="common")
            yield from common(where, pooling, result)
            if result and pooling["common"]:
                yield Row(f"{where} k", pooling["k"], result.studies)
                yield Row(f"{where} left out", len(tables) - pooling["k"], len(result.left_out))
            pool = partial(pooled_tables, tables, measure, "inverse-variance")
            yield from pools(where, pooling, pool)
            if short == "RD":
                continue
            kept = [row - 1 for row in pooling["rows"]]
            effects = [block["yi"][row] for row in kept]
            errors = [sqrt(block["vi"][row]) for row in kept]
            yield from small_study(f"{where} egger", block.get("egger"), "bias", egger_test(effects, errors))
            if block.get("leave_one_out"):
                yield from sequence(f"{where} without", block["leave_one_out"], leave_one_out(effects, errors))
        yield from small_study(f"{data['id']} peters", data["OR"].get("peters"), "slope", peters_test(tables))


def generic_effects() -> Iterator[Row]:
    for data in load("generic_effects")["datasets"]:
        effects, errors, name = data["studies"]["yi"], [sqrt(v) for v in data["studies"]["vi"]], data["id"]
        yield from common(name, data["iv"], pooled_effect(effects, errors, model="common"))
        yield from pools(name, data["iv"], partial(pooled_effect, effects, errors))
        yield from small_study(f"{name} egger", data.get("egger"), "bias", egger_test(effects, errors))
        if data.get("leave_one_out"):
            yield from sequence(f"{name} without", data["leave_one_out"], leave_one_out(effects, errors))
        if data.get("cumulative"):
            order = [row - 1 for row in data["cumulative"]["order_row"]]
            yield from sequence(f"{name} up to", data["cumulative"], cumulative(effects, errors, order))
        regression = data.get("meta_regression")
        for key in ("z", "knha") if regression else ():
            block = regression[key]
            pairs = {
                "tau2": (regression["tau2"], lambda r: r.tau_squared),
                "intercept": (block["intercept"], lambda r: r.intercept),
                "slope": (block["slope"], lambda r: r.slope),
                "se_intercept": (block["se_intercept"], lambda r: r.intercept_standard_error),
                "se_slope": (block["se_slope"], lambda r: r.slope_standard_error),
                "ci_slope": (block["ci_slope"], lambda r: r.slope_interval),
                "p_slope": (block["p_slope"], lambda r: r.slope_p_value),
            }
            result = meta_regression(effects, errors, regression["x"], interval=KNAPP_HARTUNG[key])
            yield from rows(f"{name} regression {key}", result, pairs)
        groups = data.get("subgroups")
        for tau, key, q in SUBGROUP_TESTS if groups else ():
            block = groups[key]
            pairs = {
                q: (block[q], lambda d: d.q),
                "df": (block["df"], lambda d: d.degrees_of_freedom),
                "p": (block["p"], lambda d: d.p_value),
            }
            yield from rows(f"{name} {key}", subgroup_difference(effects, errors, groups["group"], tau=tau), pairs)


def effect_direction() -> Iterator[Row]:
    for case in load("effect_direction")["cases"]:
        favouring, stated = case["favour"], case["n"]
        where = f"{favouring} of {stated}"
        yield Row(f"{where} p", case["p_two_sided"], sign_test(favouring, stated), 1e-9)
        yield from rows(where, wilson_interval(favouring, stated), {"wilson": (case["wilson"], tuple)}, 1e-9)
        yield from rows(where, exact_interval(favouring, stated), {"exact": (case["clopper_pearson"], tuple)}, 1e-9)


def grim() -> Iterator[Row]:
    data = load("grim")
    for rounding in ("half-up", "half-even"):
        key = rounding.replace("-", "_")
        for case in data["cases"]:
            found = events_for_percent(case["percent"], case["n"], rounding)
            yield Row(f"{case['percent']} of {case['n']} {key}", 1.0, float(found == case[key]["events"]))
        for case in data["achievable_sets"]:
            found = achievable_percents(case["n"], case["decimals"], rounding)
            yield Row(f"all of {case['n']} {key}", 1.0, float(found == case[f"{key}_scaled"]))


BLOCKS: dict[str, Callable[[], Iterator[Row]]] = {
    "proportion_intervals": proportion_intervals,
    "proportions_pooling": proportions_pooling,
    "two_arm_pooling": two_arm_pooling,
    "generic_effects": generic_effects,
    "effect_direction": effect_direction,
    "grim": grim,
}


@cache
def compared(block: str) -> dict[str, list[Row]]:
    verdicts: dict[str, list[Row]] = {"agrees": [], "differs": [], "refused": [], "skipped": []}
    for row in BLOCKS[block]():
        verdicts[row.verdict()].append(row)
    return verdicts


@pytest.mark.parametrize("block", BLOCKS)
def test_every_value_of_the_block_agrees_with_r(block: str) -> None:
    assert compared(block)["differs"] == []


@pytest.mark.parametrize("block", BLOCKS)
def test_fewer_than_three_values_in_a_hundred_are_refused(block: str) -> None:
    verdicts = compared(block)
    assert len(verdicts["refused"]) < 0.03 * sum(map(len, verdicts.values()))


@pytest.mark.parametrize("block", BLOCKS)
def test_readme_records_how_many_values_were_compared(block: str) -> None:
    verdicts = compared(block)
    recorded = re.search(
        rf"^\| `{block}\.json` \|.*\| (\d+) \| (\d+) \| (\d+) \|$", (FOLDER / "README.md").read_text("utf-8"), re.M
    )
    assert recorded is not None
    now = tuple(len(verdicts[verdict]) for verdict in ("agrees", "refused", "skipped"))
    assert tuple(map(int, recorded.groups())) == now


def test_only_endless_variation_and_perfect_agreement_are_refused() -> None:
    refused = {row.where for block in BLOCKS for row in compared(block)["refused"]}
    endless = {where for where in refused if where.startswith("c_both_extremes GLMM ")}
    without_width = {where for where in refused if where.startswith(("c_identical", "c_no_heterogeneity"))}
    assert refused == endless | without_width
    assert all(" knha " in where for where in without_width)
