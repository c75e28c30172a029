"""The same claims under many styles of print: what a journal prints, and what an honest reader types from it.

Every style is a function of one invented trial. The forms are common practice of journals, no source; AMA Manual of
Style 11, chapters 17 and 18 ("95% CI, 1.2-7.1"; "P = .02"), and the raised point of some British journals from memory.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Iterator
from decimal import ROUND_HALF_UP, Decimal
from typing import NamedTuple

from passageproof.numerals.words import SMALL, TENS

VOCABULARY = """\
factors:
  material:
    title: Material
    role: treatment
    levels: [{id: mta, title: MTA, synonyms: [mineral trioxide aggregate]}, {id: ca, title: calcium hydroxide}]
  size:
    title: Size
    role: prognostic
    unit: mm
    levels: [{id: small, title: up to 3 mm, range: up to 3 mm}, {id: large, title: over 3 mm, range: over 3 mm}]
  visits:
    title: Visits
    role: treatment
    levels: [{id: one, title: one visit, synonyms: [single visit]}, {id: two, title: two visits}]
  sex: {title: Sex, role: prognostic, levels: [{id: f, title: women, synonyms: [female]}, {id: m, title: men}]}
outcomes:
  healed: {title: healed, construct: success, strictness: strict, basis: film, threshold: normal, good: yes,
           synonyms: [healing, success, successful]}
  failed: {title: failed, construct: success, strictness: strict, basis: film, threshold: new, good: no,
           synonyms: [failure, failures, not healed]}
  kept: {title: kept, construct: survival, strictness: not applicable, basis: seen, threshold: in place, good: yes,
         synonyms: [survival, survived]}
  pain: {title: pain, construct: patient-reported, strictness: not applicable, basis: asked, threshold: any, good: no}
"""
STUDY = """\
id: s
species: human
design: cohort
selection: consecutive
population: {dentition: permanent}
setting: {operators: residents}
unit: tooth
"""


class Trial(NamedTuple):
    """Invented counts of two levels at three times."""

    factor: str
    a: str
    b: str
    healed: tuple[int, int]
    total: tuple[int, int]
    times: tuple[int, int, int]
    """Months."""
    over_time: tuple[int, int, int]
    """Healed of the first level's total at each of them."""

    def share(self, arm: int, decimals: int = 0) -> str:
        """Per cent healed of one arm, rounded half up."""
        exact = Decimal(100 * self.healed[arm]) / self.total[arm]
        return str(exact.quantize(Decimal(1).scaleb(-decimals), ROUND_HALF_UP))

    @property
    def odds_ratio(self) -> tuple[str, str, str]:
        """Of healing, first against second level, with the limits of Woolf's interval (Woolf 1955)."""
        a, c = self.healed
        b, d = self.total[0] - a, self.total[1] - c
        log, error = math.log(a * d / (b * c)), math.sqrt(1 / a + 1 / b + 1 / c + 1 / d)
        return tuple(f"{math.exp(log + z * error):.2f}" for z in (0, -1.959964, 1.959964))  # type: ignore[return-value]


_LEVELS = (
    ("material", "MTA", "calcium hydroxide"),
    ("size", "up to 3 mm", "over 3 mm"),
    ("visits", "one visit", "two visits"),
)


def trial(chance: random.Random) -> Trial:
    """One trial whose numbers are all different, so that none could stand for another."""
    while True:
        total = chance.randint(40, 70), chance.randint(71, 99)
        healed = chance.randint(total[0] // 2, total[0] - 6), chance.randint(total[1] // 3, total[1] - 20)
        over_time = sorted(chance.sample(range(12, total[0] - 4), 3))
        times = chance.choice([(6, 12, 24), (12, 24, 60), (3, 6, 12)])
        numbers = [*total, *healed, *over_time, *times, total[0] - healed[0], total[1] - healed[1]]
        found = Trial(*chance.choice(_LEVELS), healed, total, times, (over_time[0], over_time[1], over_time[2]))
        shares = {found.share(0), found.share(1)}
        is_clear = healed[0] * total[1] > healed[1] * total[0]
        if len(set(numbers)) == len(numbers) and len(shares) == 2 and not shares & set(map(str, numbers)) and is_clear:
            return found


Style = Callable[[Trial], tuple[str, str]]
"""A trial to the passage and the claims typed from it."""


def _levels(
    t: Trial, *, rate: str = "", extra: str = "", outcome: str = "healed", follow_up: str = "not reported"
) -> str:
    """rate: decimals of the printed percentages, "" for none."""
    rows = []
    for arm, level in enumerate((t.a, t.b)):
        events = t.healed[arm] if outcome == "healed" else t.total[arm] - t.healed[arm]
        share = f", success_rate: {t.share(arm, int(rate))}%" if rate else ""
        rows.append(f"    - {{level: {level}, events: {events}, total: {t.total[arm]}{share}}}")
    return (
        f"- id: by-{t.factor}\n  factor: {t.factor}\n  known_at: before\n  outcome: {outcome}\n  reference: {t.b}\n"
        "  levels:\n" + "\n".join(rows) + f"\n{extra}  where: Results\n  follow_up: {follow_up}\n"
    )


def _ratio(t: Trial, adjusted_for: str = "none", **given: str) -> str:
    value, low, high = t.odds_ratio
    contrast = (
        f"  contrast: {{measure: odds ratio, event_is: good, level: {t.a}, reference: {t.b}, value: {value}, "
        f"interval: {low} to {high}, adjusted_for: {adjusted_for}}}\n"
    )
    if given.get("levels") == "no":
        return (
            f"- id: by-{t.factor}\n  factor: {t.factor}\n  known_at: before\n  outcome: healed\n  reference: {t.b}\n"
            f"{contrast}  where: Results\n  follow_up: not reported\n"
        )
    return _levels(t, extra=contrast)


def _rate(t: Trial, events: int, total: int, share: str = "", outcome: str = "healed", follow_up: str = "not reported",
          extra: str = "") -> str:  # fmt: skip
    name = "success_rate" if outcome in ("healed", "kept") else "rate"
    printed = f"  {name}: {share}%\n" if share else ""
    return (
        f"- id: rate\n  outcome: {outcome}\n  events: {events}\n  total: {total}\n{printed}{extra}"
        f"  where: Results\n  follow_up: {follow_up}\n"
    )


def _at(months: int) -> str:
    return f"{{from: treatment, timing: at, at: {months} months, tolerance: not reported}}"


def _survival(t: Trial, number: int, years: int, extra: str = "") -> str:
    return (
        f"- id: kept\n  outcome: kept\n  estimate: {{kind: survival, at: {years} years, value: {number}%, "
        f"from: treatment{extra}}}\n  where: Results\n  follow_up: not applicable\n"
    )


def _word(number: int) -> str:
    if number < 20:
        return SMALL[number]
    ten, one = divmod(number, 10)
    return TENS[ten - 2] + (f"-{SMALL[one]}" if one else "")


def _arms(t: Trial, form: str) -> str:
    """A sentence with {a}, {b} for the levels; {x}, {n}, {p} of the first and {y}, {m}, {q} of the second."""
    return form.format(
        a=t.a, b=t.b, x=t.healed[0], n=t.total[0], p=t.share(0), y=t.healed[1], m=t.total[1], q=t.share(1),
        p1=t.share(0, 1), q1=t.share(1, 1), fx=t.total[0] - t.healed[0], fy=t.total[1] - t.healed[1],
        wx=_word(t.healed[0]).capitalize(), wy=_word(t.healed[1]), r=t.odds_ratio[0], lo=t.odds_ratio[1],
        hi=t.odds_ratio[2], t1=t.times[0], t2=t.times[1], t3=t.times[2],
        o1=t.over_time[0], o2=t.over_time[1], o3=t.over_time[2],
    )  # fmt: skip


COUNTS = {
    "semicolons": "Healed: {a}, {x} of {n} teeth; {b}, {y} of {m} teeth.",
    "colons": "Healing by group. {a}: {x}/{n}. {b}: {y}/{m}.",
    "respectively, levels first": "For {a} and {b}, {x} of {n} and {y} of {m} teeth were healed, respectively.",
    "respectively, levels last": "Healing was seen in {x} of {n} and {y} of {m} teeth with {a} and {b}, respectively.",
    "of so many, so many": "Of {n} teeth with {a}, {x} healed, and of {m} teeth with {b}, {y} healed.",
    "number words": "{wx} of {n} teeth with {a} and {wy} of {m} with {b} were healed.",
    "more than": "More teeth healed with {a} ({x} of {n}) than with {b} ({y} of {m}).",
    "versus": "Healing occurred in {x} of {n} teeth with {a} vs {y} of {m} with {b}.",
    "compared with": "With {a} {x} of {n} teeth were healed, compared with {y} of {m} with {b}.",
    "whereas": "{x} of {n} teeth with {a} were healed, whereas {y} of {m} with {b} were.",
    "rows with bars": "Group | healed | total\n {a} | {x} | {n}\n {b} | {y} | {m}",
    "columns with bars": "Outcome | {a} | {b}\n healed | {x} of {n} | {y} of {m}",
    "rows with blanks": "Group   healed/total\n {a}   {x}/{n}\n {b}   {y}/{m}",
    "n in the heading": "Outcome | {a} (n = {n}) | {b} (n = {m})\n healed | {x} | {y}",
    "brackets behind": "Healed: {x}/{n} ({a}) and {y}/{m} ({b}).",
    "n before": "{a} (n = {n}): {x} healed. {b} (n = {m}): {y} healed.",
}
SHARES = {
    "share behind the count": ("0", "Healed: {a} {x} of {n} ({p}%); {b} {y} of {m} ({q}%)."),
    "share first": ("0", "The success rate was {p}% ({x}/{n}) for {a} and {q}% ({y}/{m}) for {b}."),
    "share between": ("0", "Healed: {a}, {x} ({p}%) of {n}; {b}, {y} ({q}%) of {m}."),
    "raised point": ("1", "{a}: {x} ({p1}%) of {n} healed; {b}: {y} ({q1}%) of {m} healed."),
    "decimal comma": ("1", "Healed: {a} {x}/{n} ({p1} %); {b} {y}/{m} ({q1} %)."),
    "percent in the heading": ("1", "Group | n | healed | %\n {a} | {n} | {x} | {p1}\n {b} | {m} | {y} | {q1}"),
    "n and percent in one cell": ("0", "Group | n | healed, n (%)\n {a} | {n} | {x} ({p})\n {b} | {m} | {y} ({q})"),
    "shares respectively": ("0", "Success was {p}% ({x}/{n}) and {q}% ({y}/{m}) with {a} and {b}, respectively."),
    "n equals": ("0", "With {a} {p}% (n = {x}) of {n} teeth healed, with {b} {q}% (n = {y}) of {m}."),
}
RATIOS = {
    "against": "{a} {x}/{n} healed, {b} {y}/{m}; {a} against {b}: OR {r} (95% CI {lo} to {hi}).",
    "american": "{a} {x}/{n}, {b} {y}/{m}. Healing was more likely with {a} than with {b} "
    "(OR, {r}; 95% CI, {lo}-{hi}).",
    "square brackets": "{a} {x}/{n} healed, {b} {y}/{m} healed; odds ratio {r} "
    "[95% confidence interval {lo} to {hi}], {a} versus {b}.",
}
ALONE = {
    "ratio, compared with": "Compared with {b}, {a} was associated with healing (OR {r}; 95% CI {lo} to {hi}).",
    "ratio, reference": "Odds ratio of healing for {a} {r} (95% CI {lo} to {hi}); reference: {b}.",
    "ratio, rows": "Factor | OR of healing (95% CI)\n {b} (reference) | 1\n {a} | {r} ({lo} to {hi})",
    "ratio, higher odds": "The odds of healing were higher with {a} than with {b} (OR {r}, 95% CI {lo} to {hi}).",
}


def _styles() -> dict[str, Style]:
    styles: dict[str, Style] = {}
    for name, form in COUNTS.items():
        styles[name] = lambda t, form=form: (_arms(t, form), _levels(t))
    for name, (decimals, form) in SHARES.items():
        styles[name] = lambda t, form=form, decimals=decimals: (_arms(t, form), _levels(t, rate=decimals))
    for name, form in RATIOS.items():
        styles[name] = lambda t, form=form: (_arms(t, form), _ratio(t))
    for name, form in ALONE.items():
        styles[name] = lambda t, form=form: (_arms(t, form), _ratio(t, levels="no"))
        adjusted = form.replace("OR ", "adjusted OR ", 1).replace("Odds ratio", "Adjusted odds ratio")
        styles[f"{name}, adjusted"] = lambda t, form=adjusted: (
            _arms(t, f"{form} Adjusted for age and sex."), _ratio(t, "[age, sex]", levels="no"),
        )  # fmt: skip
    point = styles["raised point"]
    styles["raised point"] = lambda t: (_with_sign(point(t)[0], "·"), point(t)[1])
    comma = styles["decimal comma"]
    styles["decimal comma"] = lambda t: (_with_sign(comma(t)[0], ","), comma(t)[1])
    styles |= {
        "times in a list": lambda t: (
            _arms(t, "At {t1}, {t2} and {t3} months, {o1}, {o2} and {o3} of {n} teeth were healed."),
            _rate(t, t.over_time[1], t.total[0], follow_up=_at(t.times[1])),
        ),
        "times one by one": lambda t: (
            _arms(t, "Healed: {o1} of {n} at {t1} months, {o2} of {n} at {t2} months, {o3} of {n} at {t3} months."),
            _rate(t, t.over_time[2], t.total[0], follow_up=_at(t.times[2])),
        ),
        "times as columns": lambda t: (
            _arms(t, "Months | {t1} | {t2} | {t3}\n healed of {n} | {o1} | {o2} | {o3}"),
            _rate(t, t.over_time[0], t.total[0], follow_up=_at(t.times[0])),
        ),
        "survival one by one": lambda t: (
            f"Tooth survival was 97% at 1 year, {t.share(0)}% at 5 years and 41% at 12 years.",
            _survival(t, int(t.share(0)), 5),
        ),
        "survival respectively": lambda t: (
            f"Survival at 2, 5 and 12 years was 97%, {t.share(0)}% and 41%, respectively.",
            _survival(t, int(t.share(0)), 5),
        ),
        "survival table": lambda t: (
            f"Year | at risk | survival, %\n 2 | 131 | 97\n 5 | 104 | {t.share(0)}\n 12 | 33 | 41",
            _survival(t, int(t.share(0)), 5, ", at_risk: 104"),
        ),
        "failures": lambda t: (
            _arms(t, "With {a} {fx} of {n} teeth failed and with {b} {fy} of {m}."), _levels(t, outcome="failed"),
        ),
        "not healed": lambda t: (
            _arms(t, "Of {n} teeth {fx} had not healed."),
            _rate(t, t.total[0] - t.healed[0], t.total[0], outcome="failed"),
        ),
        "all of them": lambda t: (f"All {t.total[0]} teeth (100%) healed.", _rate(t, t.total[0], t.total[0], "100")),
        "women and men": lambda t: (
            _arms(t, "In women, {x} of {n} teeth healed; in men, {y} of {m} healed."),
            _rate(t, t.healed[0], t.total[0], extra="  within: [{factor: sex, level: women}]\n"),
        ),
        "patients with so many teeth": lambda t: (
            _arms(t, "{n} teeth in 31 patients were examined; {x} of {n} teeth ({p}%) were healed after {t2} months."),
            _rate(t, t.healed[0], t.total[0], t.share(0), follow_up=_at(t.times[1])),
        ),
    }  # fmt: skip
    return styles


def _with_sign(text: str, sign: str) -> str:
    """The decimal points of percentages as another sign."""
    out = list(text)
    for at, character in enumerate(text):
        if character == "." and text[at - 1].isdigit() and text[at + 1 : at + 2].isdigit():
            out[at] = sign
    return "".join(out)


STYLES = _styles()


def cases(seed: int, each: int) -> Iterator[dict[str, str]]:
    """Every style of print with so many trials, as cases of print."""
    chance = random.Random(seed)
    for name, style in STYLES.items():
        for number in range(1, each + 1):
            passage, claims = style(trial(chance))
            yield {
                "case": f"{name} {number}", "style": name, "vocabulary": VOCABULARY, "study": STUDY,
                "passages": f"[Results] {passage}", "claims": claims,
            }  # fmt: skip
