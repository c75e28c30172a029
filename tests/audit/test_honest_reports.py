"""A report whose figures are right raises no question, whatever usual method it used: a thousand, of all shapes."""

from __future__ import annotations

import math
import random
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal

from passageproof.audit.cohorts import cohorts_of, find_one_cohort
from passageproof.audit.whole import find_within_report
from passageproof.reading.evidence import read_evidence
from scipy.stats import beta, norm

REPORTS = 1000
Z = norm.ppf(0.975)


class Printer:
    """Prints figures as one paper does: its own decimals and rule of rounding."""

    def __init__(self, chance: random.Random) -> None:
        self.rule = chance.choice([ROUND_HALF_UP, ROUND_HALF_EVEN])
        self.decimals = chance.choice([0, 0, 1, 1, 2])

    def number(self, value: float | Decimal, decimals: int) -> str:
        """A number with so many decimals."""
        exact = value if isinstance(value, Decimal) else Decimal(repr(float(value)))
        text = str(exact.quantize(Decimal(1).scaleb(-decimals), self.rule))
        return text.removeprefix("-") if float(text) == 0 else text

    def share(self, events: int, total: int) -> str:
        """Events of a total as a percentage."""
        return f"{self.number(Decimal(100 * events) / Decimal(total), self.decimals)}%"

    def percent(self, share: float) -> str:
        """A share as a percentage."""
        return f"{self.number(100 * min(max(share, 0.0), 1.0), self.decimals)}%"

    def p(self, z: float) -> str:
        """Two-sided P of a normal deviate."""
        value = math.erfc(abs(z) / math.sqrt(2))
        return '"<.001"' if value < 0.001 else self.number(value, 3).removeprefix("0")


def proportion_interval(events: int, total: int, chance: random.Random) -> tuple[float, float]:
    """By one of the usual methods, written out anew here: Brown, Cai, DasGupta 2001, Stat Sci 16:101-133."""
    share, misses = events / total, total - events
    method = chance.choice(["Wald", "Wilson", "exact", "Jeffreys", "Agresti-Coull"])
    if method == "exact":
        low = beta.ppf(0.025, events, misses + 1) if events else 0.0
        return low, beta.ppf(0.975, events + 1, misses) if misses else 1.0
    if method == "Jeffreys":
        low = beta.ppf(0.025, events + 0.5, misses + 0.5) if events else 0.0
        return low, beta.ppf(0.975, events + 0.5, misses + 0.5) if misses else 1.0
    if method == "Wald":
        half = Z * math.sqrt(share * (1 - share) / total)
        return share - half, share + half
    centre = (events + Z * Z / 2) / (total + Z * Z)
    if method == "Wilson":
        half = Z / (total + Z * Z) * math.sqrt(total * share * (1 - share) + Z * Z / 4)
    else:
        half = Z * math.sqrt(centre * (1 - centre) / (total + Z * Z))
    return centre - half, centre + half


def survival_table(total: int, chance: random.Random) -> list[tuple[int, float, float, int]]:
    """Year, Kaplan-Meier share, its standard error by Greenwood, number at risk, at years 1 to 6 while somebody is."""
    lives = sorted((chance.expovariate(0.08), chance.uniform(0.5, 9)) for _ in range(total))
    rows, share, variance = [], 1.0, 0.0
    times = sorted((min(event, censored), event <= censored) for event, censored in lives)
    at_risk = total
    year = 1
    for time, is_event in times:
        while time > year and year <= 6:
            rows.append((year, share, share * math.sqrt(variance), at_risk))
            year += 1
        if is_event and at_risk > 1:
            variance += 1 / (at_risk * (at_risk - 1))
            share *= 1 - 1 / at_risk
        at_risk -= 1
    return [row for row in rows if 0.02 < row[1] < 0.98 and row[3] > 3]


def survival_interval(share: float, error: float, chance: random.Random) -> tuple[float, float]:
    """Greenwood's error on one of the scales that programs use: raw, log, log(-log), logit, arcsine."""
    scale = chance.choice(["raw", "log", "log-log", "logit", "arcsine"])
    if scale == "raw":
        return share - Z * error, share + Z * error
    if scale == "log":
        factor = math.exp(Z * error / share)
        return share / factor, share * factor
    if scale == "log-log":
        theta = Z * error / (share * math.log(share))
        return share ** math.exp(-theta), share ** math.exp(theta)
    if scale == "logit":
        logit, half = math.log(share / (1 - share)), Z * error / (share * (1 - share))
        return tuple(1 / (1 + math.exp(-each)) for each in (logit - half, logit + half))  # type: ignore[return-value]
    angle, half = math.asin(math.sqrt(share)), Z * error / (2 * math.sqrt(share * (1 - share)))
    return math.sin(max(angle - half, 0)) ** 2, math.sin(min(angle + half, math.pi / 2)) ** 2


def honest_report(number: int) -> str:
    """One claim file with claims of several shapes, all figures computed from invented teeth."""
    chance = random.Random(number)
    put = Printer(chance)
    total = chance.randint(8, 260)
    first, second = split(total, 2, chance)
    events_first, events_second = chance.randint(1, first), chance.randint(0, second)
    events = events_first + events_second
    lost, died = chance.randint(0, 40), chance.randint(0, 6)
    discontinued = chance.randint(0, lost)
    beside = chance.random() < 0.5
    treated = total + lost + died + (discontinued if beside else 0)
    low, high = proportion_interval(events, total, chance)
    shares = split(total, 3, chance)
    grades = split(total, 4, chance)
    pairs = split(total, 4, chance)
    key = f"k{number}"
    lines = [
        f"source: {key}\nread: {{by: IM, on: 2026-02-03, depth: full text}}\nstudies:\n"
        f"  - {{id: s{number}, species: human, design: cohort, selection: consecutive, population: {{dentition: "
        f"permanent}}, "
        f"setting: {{centre: clinic {number}, recruited: 2010 to 2014}}, unit: tooth, where: p. 1,\n"
        f"     flow: {{treated: {treated}, examined: {total}, lost: {lost}, died: {died}, discontinued: "
        f"{discontinued}, "
        f"recall: {{rate: {put.share(total, treated)}, of: [treated]}}}},\n"
        f"     shares: [{{of: {total}, what: arch, parts: ["
        + ", ".join(f"{{level: part {'abc'[i]}, count: {n}, share: "
                    f"{put.share(n, total)}}}" for i, n in enumerate(shares))
        + "]}]}\nclaims:\n",
        claim("overall", f"events: {events}, total: {total}, success_rate: {put.share(events, total)}, "
              f"interval: {put.percent(low)} to {put.percent(high)}, follow_up: {follow_up(chance)}"),
        claim("failed", f"events: {total - events}, total: {total}, rate: {put.share(total - events, total)}, "
                        f"follow_up: overall",
              "diseased"),
        claim("levels", levels(first, events_first, second, events_second, put, chance)),
        claim("adjusted", f"factor: roots, known_at: before, reference: one, follow_up: not reported, contrast: "
                          f"{{level: "
              f"more than one, reference: one, adjusted_for: [age], {ratio(chance, put)}}}"),
        claim("difference", "factor: roots, known_at: before, reference: one, follow_up: not reported, contrast: "
              f"{{level: more than one, adjusted_for: none, measure: mean difference, unit: mm, "
              f"{difference(chance, put)}}}"),
        claim("graded", f"total: {total}, follow_up: overall, grades: ["
              + ", ".join(f"{{words: grade {'abcd'[i]}, events: {n}, rate: "
                          f"{put.share(n, total)}}}" for i, n in enumerate(grades))
              + "]"),
        claim("pooled", f"follow_up: not reported, {pooled(chance, put)}", "kept"),
        claim("unsure", f"events: {events}, total: {{candidates: [{total}, {total + 3}], reason: two places differ}}, "
              f"rate: {put.share(events, total)}, follow_up: not reported"),
        claim("pairs", f"pairs: {{a: film, b: volume, both: {pairs[0]}, only_a: {pairs[1]}, only_b: {pairs[2]}, "
                       f"neither: {pairs[3]}}}, follow_up: not "
                       "reported"),
        claim("words", "factor: roots, known_at: after, reference: one, follow_up: not reported, "
              "levels: [{level: more than one, direction: worse, stated: words only}]"),
        claim("test", 'test: {between: [one, more than one], p: ">.05", method: log-rank}, follow_up: not reported'),
    ]  # fmt: skip
    for year, share, error, at_risk in survival_table(total, chance):
        low, high = survival_interval(share, error, chance)
        for kind, value, ends in (
            ("survival", share, (low, high)),
            ("cumulative incidence", 1 - share, (1 - high, 1 - low)),
        ):
            lines.append(
                claim(f"{kind.split()[0]}-{year}", f"estimate: {{kind: {kind}, at: {year} years, value: "
                                                   f"{put.percent(value)}, "
                      f"interval: {put.percent(ends[0])} to {put.percent(ends[1])}, starting: {total}, at_risk: "
                      f"{at_risk}, "
                      "from: treatment}, follow_up: not applicable", "kept")
            )  # fmt: skip
    head, overall, *others = lines
    return head + overall + "".join(chance.sample(others, 6))


def split(total: int, parts: int, chance: random.Random) -> list[int]:
    """A total in so many parts of at least 1."""
    cuts = sorted(chance.sample(range(1, total), parts - 1))
    return [high - low for low, high in zip([0, *cuts], [*cuts, total], strict=True)]


def claim(name: str, fields: str, outcome: str = "healed") -> str:
    return f"  - {{id: {name}, question: hole, outcome: {outcome}, where: p. 2, {fields}}}\n"


def follow_up(chance: random.Random) -> str:
    months = sorted(chance.randint(6, 120) + chance.random() for _ in range(15))
    mean = sum(months) / len(months)
    spread = math.sqrt(sum((each - mean) ** 2 for each in months) / (len(months) - 1))
    return (
        f"{{from: treatment, timing: last recall, minimum: {round(months[0])} months, median: {round(months[7])} "
        f"months, "
        f"mean: {mean:.1f} months, sd: {spread:.1f} months, maximum: {round(months[-1])} months}}"
    )


def levels(n: int, a: int, m: int, b: int, put: Printer, chance: random.Random) -> str:
    """A table of two levels with the ratio that follows from it, by Woolf, Katz or Wald, for either ending."""
    rows = (
        f"levels: [{{level: one, events: {a}, total: {n}, rate: {put.share(a, n)}}}, "
        f"{{level: more than one, events: {b}, total: {m}, rate: {put.share(b, m)}}}]"
    )
    text = f"factor: roots, known_at: before, reference: one, follow_up: overall, {rows}"
    good = chance.random() < 0.5
    events, total, other_events, other_total = (b, m, a, n) if good else (m - b, m, n - a, n)
    if 0 in (events, total - events, other_events, other_total - other_events):
        return text
    measure = chance.choice(["odds ratio", "risk ratio", "risk difference"])
    share, other = events / total, other_events / other_total
    if measure == "risk difference":
        value, error = share - other, math.sqrt(share * (1 - share) / total + other * (1 - other) / other_total)
        ends = (value - Z * error, value + Z * error)
        shown = [put.number(each, 3) for each in (value, *ends)]
    else:
        value = share / other
        error = math.sqrt(1 / events - 1 / total + 1 / other_events - 1 / other_total)
        if measure == "odds ratio":
            value = share / (1 - share) * (1 - other) / other
            error = math.sqrt(1 / events + 1 / (total - events) + 1 / other_events + 1 / (other_total - other_events))
        ends = (value * math.exp(-Z * error), value * math.exp(Z * error))
        shown = [put.number(each, 2) for each in (value, *ends)]
        value = math.log(value)
    return (
        f"{text}, contrast: {{measure: {measure}, level: more than one, reference: one, value: {shown[0]}, "
        f"interval: {shown[1]} to {shown[2]}, p: {put.p(value / error)}, event: ending, "
        f"event_is: {'good' if good else 'bad'}, adjusted_for: none}}"
    )


def ratio(chance: random.Random, put: Printer) -> str:
    effect, error = chance.gauss(0, 0.8), chance.uniform(0.1, 0.7)
    value, low, high = (math.exp(effect + each * Z * error) for each in (0, -1, 1))
    measure = chance.choice(["odds ratio", "risk ratio", "hazard ratio"])
    shown = [put.number(each, 2) for each in (value, low, high)]
    return (
        f"measure: {measure}, value: {shown[0]}, interval: {shown[1]} to {shown[2]}, p: {put.p(effect / error)}, "
        f"event: ending, event_is: bad"
    )


def difference(chance: random.Random, put: Printer) -> str:
    value, error = chance.gauss(0, 1), chance.uniform(0.1, 0.9)
    shown = [put.number(each, 2) for each in (value, value - Z * error, value + Z * error)]
    return f"value: {shown[0]}, interval: {shown[1]} to {shown[2]}, p: {put.p(value / error)}"


def pooled(chance: random.Random, put: Printer) -> str:
    share = chance.uniform(0.3, 0.97)
    low, high = survival_interval(share, chance.uniform(0.01, min(share, 1 - share) / 2.5), chance)
    return (
        f"rate: {put.percent(share)}, interval: {put.percent(low)} to {put.percent(high)}, "
        "pooled: {studies: 11, of: 813, model: random effects, i2: 54%}"
    )


def test_honest_reports_raise_no_question(compendium):
    reports = {f"claims/k{number}.yaml": honest_report(number) for number in range(REPORTS)}
    evidence = read_evidence(compendium(reports))
    assert not evidence.problems, evidence.problems[:3]
    assert len(evidence.reports) == REPORTS
    asked = [
        problem
        for report in evidence.reports.values()
        for problem in find_within_report(report, evidence.vocabulary.outcomes, evidence.vocabulary.units)
    ]
    assert not asked, (
        "\n".join(f"{each.position}: {each.message} [{each.rule}]" for each in asked[:20]) + f"\n{len(asked)}"
    )
    assert list(find_one_cohort(cohorts_of(evidence.reports.values(), {}))) == []


def test_each_shape_is_among_the_honest_reports(evidence_of):
    evidence = evidence_of({f"claims/k{number}.yaml": honest_report(number) for number in range(40)})
    claims = [claim for report in evidence.reports.values() for claim in report.claims]
    shapes = ("events", "levels", "estimate", "contrast", "tests", "pairs", "grades", "pooled")
    assert all(any(getattr(claim, shape) for claim in claims) for shape in shapes)
    assert any(claim.contrast and claim.levels for claim in claims)
