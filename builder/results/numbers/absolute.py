"""A ratio as absolute risks, where the question file names its baseline and nothing forbids it; else the reason."""

from __future__ import annotations

from ...reading.model import AbsoluteOf, Question
from ...reading.slugs import slug
from ...reading.values import Words
from ...records import NamedTuple
from ...synthesis import Refusal
from ..findings.comparable import counts_from_healing, reason_not_compared
from ..findings.direction import sides_of
from ..findings.findings import Catalogue, Finding
from ..findings.opposite_event import is_opposite
from ..findings.side import Side
from ..saying.source_reference import source_link
from ..saying.wording import estimate, rate, timing
from ..values.figures import Figure
from ..values.line import Line, Marked, line, typed
from .ratio_pooling import level_key, reference_key
from .shown_numbers import share

PUBLISHED = {
    "odds ratio": "Cochrane Handbook, section 15.4.4",
    "risk ratio": "Cochrane Handbook, section 15.4.4",
    "hazard ratio": "Altman and Andersen 1999, BMJ 319:1492-1495",
}
FORMULAS = {
    "odds ratio": "p1 = OR × p0 / (1 - p0 + OR × p0)",
    "risk ratio": "p1 = RR × p0",
    "hazard ratio": "p1 = 1 - (1 - p0) ^ HR, hazards proportional and both risks at one time",
}


def turned_formula(measure: str) -> str:
    """The steps where the ratio counts those without the ending of the baseline."""
    of_the_others = FORMULAS[measure].replace("p1", "q1").replace("p0", "q0")
    return f"q0 = 1 - p0; {of_the_others}; p1 = 1 - q1, the lower limit from the ratio's upper one"


class AbsoluteRisk(NamedTuple):
    """The risk that a ratio implies, or why it is refused."""

    ratio: Finding | None
    baseline: Finding | None
    reason: str
    """"" where the risk is given."""
    figures: dict[str, Figure]
    """baseline, level, interval/low, interval/high: shares with the event of `event`."""
    risks: dict[str, float]
    """The same by the same names, 0 to 1 and never rounded."""
    is_turned: bool = False
    """True where the ratio counts those without the ending of the baseline: it was applied to them."""

    @property
    def event(self) -> tuple[str, bool]:
        """What the shares count, and whether it is good: the ratio's event, or where it was turned the outcome."""
        if self.is_turned and self.baseline is not None:
            return self.baseline.outcome.title.text, self.baseline.outcome.good
        contrast = self.ratio.contrast if self.ratio is not None else None
        said = contrast.event.text if contrast is not None and contrast.event is not None else "the event"
        return said, contrast is not None and contrast.event_is is not None and contrast.event_is.text == "good"


def absolutes(catalogue: Catalogue, question: Question, factor: str) -> tuple[AbsoluteRisk, ...]:
    """Every ratio of this factor for which the question file names a baseline, in its order."""
    out = []
    for item in question.absolute:
        found = [finding for finding in catalogue.of_claim(item.ratio.text) if finding.kind == "contrast"]
        if found and found[0].factor == factor:
            out.append(absolute(catalogue, question, item, found[0]))
    return tuple(out)


def absolute(catalogue: Catalogue, question: Question, item: AbsoluteOf, ratio: Finding) -> AbsoluteRisk:
    """One ratio at its baseline."""
    named = catalogue.of_claim(item.baseline.text)
    rows = [row for row in named if row.base == item.baseline.text and row.kind in ("rate", "estimate", "grade")]
    baseline = rows[0] if rows else None
    side = next((side for side in sides_of(catalogue, question.id, ratio.factor) if side.finding is ratio), None)
    reason = refusal(catalogue, ratio, baseline, side)
    if reason or baseline is None:
        return AbsoluteRisk(ratio, baseline, reason, {}, {})
    return _risk(question, ratio, baseline)


def refusal(catalogue: Catalogue, ratio: Finding, baseline: Finding | None, side: Side | None) -> str:
    """Why a ratio does not become absolute, "" where it may. Each is a house rule after the design of the guide."""
    contrast = ratio.contrast
    if contrast is None or contrast.measure.text not in FORMULAS:
        return "it is not a ratio of risks, odds or hazards"
    if ratio.figure("contrast/value") is None:
        return "the ratio was not reported"
    if baseline is None:
        return "the baseline has no rate of its own"
    reasons = [reason_not_compared(ratio), reason_not_compared(baseline)]
    if baseline.level is None or baseline.factor != ratio.factor:
        reasons.append("the baseline is of the whole cohort, not of the reference level")
    elif side is None or level_key(catalogue, baseline) != reference_key(catalogue, side):
        reasons.append("the baseline is not of the reference level")
    reasons.append(_other_event(ratio, baseline))
    if contrast.proportional is not None and contrast.proportional.text == "no":
        reasons.append("the report says that hazards were not proportional")
    if ratio.outcome.id != baseline.outcome.id:
        reasons.append("ratio and baseline count different outcomes")
    reasons.extend((_other_window(ratio, baseline), _other_coding(catalogue, ratio, baseline)))
    return "; ".join(dict.fromkeys(reason for reason in reasons if reason))


def _other_event(ratio: Finding, baseline: Finding) -> str:
    if ratio.outcome.reverses is not None or counts_from_healing(baseline) or counts_from_healing(ratio):
        return f"it is conditional on another event, since it counts only {ratio.counted.many} that had healed"
    if ratio.claim.given is not None or baseline.claim.given is not None:
        return "it is conditional on another event"
    return ""


def _other_window(ratio: Finding, baseline: Finding) -> str:
    if baseline.window is None:
        return "the baseline is not for one stated time"
    contrast = ratio.contrast
    if contrast is not None and contrast.measure.text == "hazard ratio":
        return ""
    if ratio.window != baseline.window:
        return "ratio and baseline are for different times"
    return ""


def _other_coding(catalogue: Catalogue, ratio: Finding, baseline: Finding) -> str:
    contrast = ratio.contrast
    if contrast is None or contrast.event_is is None:
        return "whether the event is good or bad is not reported"
    if not _counts_otherwise(ratio, baseline):
        return ""
    reason = "ratio and baseline count the event the other way round"
    if _is_survival(baseline) or ratio.outcome.id != baseline.outcome.id:
        return reason
    if is_opposite(contrast.event, baseline.outcome, catalogue.evidence.vocabulary.outcomes.values()):
        return ""
    said = f'"{contrast.event.text}"' if contrast.event is not None else "its event"
    return f'{reason}, and nothing says that {said} is the opposite of "{baseline.outcome.title.text}"'


def _counts_otherwise(ratio: Finding, baseline: Finding) -> bool:
    """True where the ratio's event is not the ending whose share the baseline gives."""
    contrast = ratio.contrast
    is_good = contrast is not None and contrast.event_is is not None and contrast.event_is.text == "good"
    # A survival at a time is one minus the risk of its own bad event; any other share must count the ratio's event.
    return is_good if _is_survival(baseline) else is_good != baseline.outcome.good


def _is_survival(baseline: Finding) -> bool:
    return baseline.kind == "estimate" and baseline.estimate is not None and baseline.estimate.kind.text == "survival"


def _risk(question: Question, ratio: Finding, baseline: Finding) -> AbsoluteRisk:
    from ...synthesis import absolute_from_ratio

    contrast, value = ratio.contrast, ratio.figure("contrast/value")
    risk, units, sources = _baseline_risk(baseline)
    if contrast is None or value is None or risk is None:
        return AbsoluteRisk(ratio, baseline, "the baseline has no rate of its own", {}, {})
    measure = contrast.measure.text
    low, high = ratio.limits("contrast/interval") or (None, None)
    inputs = [figure for figure in (value, low, high, *sources) if figure is not None]
    place, stem = f"{question.id}/{ratio.factor}", slug(ratio.base.replace("/", " "))
    book = ratio.book
    is_turned = _counts_otherwise(ratio, baseline)
    workings = book.explain(
        f"{place.replace('/', '-')}-{stem}-absolute", "Absolute risk from a ratio",
        turned_formula(measure) if is_turned else FORMULAS[measure],
        published=PUBLISHED[measure],
        convention="at the baseline that the question file names; the interval leaves out that the baseline is itself "
        "uncertain",
        inputs=inputs,
    )  # fmt: skip
    figures: dict[str, Figure] = {}
    risks: dict[str, float] = {}

    def told(name: str, found: float, says: str, inputs: tuple[Figure, ...] | None = None) -> None:
        """A share as the reader meets it; where the ratio was turned, the step before it stands in the workings."""
        stems = f"{place}/absolute-{stem}"
        if is_turned:
            opposite = f"opposite ending, {says}"
            share(book, f"{stems}/opposite/{name}", found, units, workings, says=opposite, inputs=inputs)
        risks[name] = 1 - found if is_turned else found
        figures[name] = share(book, f"{stems}/{name}", risks[name], units, workings, says=says, inputs=inputs)

    if is_turned:
        risk, low, high = 1 - risk, high, low
    told("baseline", risk, "reference level", sources)
    for name, figure in (("level", value), ("interval/low", low), ("interval/high", high)):
        if figure is None or figure.number <= 0:
            continue
        found = absolute_from_ratio(measure, float(figure.number), risk)
        if isinstance(found, Refusal):
            return AbsoluteRisk(ratio, baseline, found.reason.rstrip("."), {}, {})
        told(name, found, {"level": "the level", "interval/low": "lower limit", "interval/high": "upper limit"}[name])
    return AbsoluteRisk(ratio, baseline, "", figures, risks, is_turned)


def _baseline_risk(baseline: Finding) -> tuple[float | None, int, tuple[Figure, ...]]:
    """The share with the ratio's event, how many units it rests on, and the figures it came from."""
    if baseline.kind == "estimate":
        value, starting = baseline.figure("estimate/value"), baseline.figure("estimate/starting")
        if value is None:
            return None, 0, ()
        risk = float(value.number) / 100
        units = int(starting.number) if starting is not None else 0
        return (1 - risk if _is_survival(baseline) else risk), units, (value,)
    events, total = baseline.figure("events"), baseline.figure("total")
    if events is None or total is None or not total.number:
        return None, 0, ()
    return float(events.number / total.number), int(total.number), (events, total)


def absolute_line(catalogue: Catalogue, item: AbsoluteRisk) -> Line:
    """Both risks at one time with where they come from, or "refused: ..."."""
    ratio, baseline = item.ratio, item.baseline
    if ratio is None or ratio.contrast is None:
        return ()
    contrast = ratio.contrast
    level = contrast.level.text if contrast.level else "the level"
    start = line(
        typed(contrast.measure.text), " of ", source_link(ratio.key, catalogue), ", ", typed(level, "definition")
    )
    if item.reason or baseline is None:
        return line(start, ": refused, since ", typed(item.reason))
    found = item.figures
    named = baseline.level.level.text if baseline.level is not None else ""
    event, _ = item.event
    ends: Line = ()
    if "interval/low" in found and "interval/high" in found:
        ends = line(
            " (", Marked("convention", "95%"), " CI ", found["interval/low"], " to ", found["interval/high"], ")"
        )
    counted = estimate(baseline) if baseline.kind == "estimate" else rate(baseline)
    assumed: Line = ()
    if contrast.measure.text == "hazard ratio" and not _says_proportional(ratio):
        assumed = line(". Proportional hazards are assumed; whether they were, the report does not say")
    return line(
        start, ": ", typed(event), " in ", found["level"], ends, " against ", found["baseline"],
        " of the reference. That reference is ", typed(named, "definition"), ": ", counted, ", ", timing(baseline),
        ", ", source_link(baseline.key, catalogue), _turned(item), assumed,
        ". The interval leaves out that the baseline is itself uncertain",
    )  # fmt: skip


def _turned(item: AbsoluteRisk) -> Line:
    """What was done where the ratio counts the opposite ending."""
    contrast = item.ratio.contrast if item.ratio is not None else None
    if not item.is_turned or contrast is None or contrast.event is None:
        return ()
    return line(
        ". The ratio counts ", typed(contrast.event.text, "definition"), ", the opposite ending: it was applied to all "
        "others of the reference, and what it gives was taken from the whole",
    )  # fmt: skip


def _says_proportional(ratio: Finding) -> bool:
    said = ratio.contrast.proportional if ratio.contrast is not None else None
    return isinstance(said, Words) and said.text == "yes"
