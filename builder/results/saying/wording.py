"""How a finding is said: n of N, when, counted how, as lines in which every number is a figure."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...numerals import Unit as CountedUnit
from ...numerals.lexicon import SHOWN_FIELDS
from ...reading.model import Outcome, Pairs
from ...reading.values import Missing, Words
from ..findings.findings import Catalogue, Finding
from ..findings.spoken_outcomes import strictness_words
from ..values.figures import Figure
from ..values.line import Line, Marked, Part, joined, line, typed
from .margin_words import has_two_sides, margin_words
from .measured import contrast_unit, measured


def unit_word(unit: CountedUnit, figure: Figure | None = None) -> str:
    """The unit as a word behind a count: that for one behind 1, else that for many."""
    return unit.word(figure.value if figure is not None else None)


def field_words(catalogue: Catalogue, field: str, unit: CountedUnit) -> str:
    """A field of the form as readers know it: where format 1 names it for one trade, in the words of what is counted.

    A unit without words of its own, as people are, is told in those of what this guide mostly counts.
    """
    return unit.says(field, catalogue.main_unit()) if field in SHOWN_FIELDS else field.replace("_", " ")


def percent(figure: Figure) -> Line:
    """A percentage with its sign, whether the print had it at this number or at its neighbour."""
    has_sign = figure.text.rstrip().endswith(("%", "cent"))
    return (figure,) if has_sign or figure.unit != "%" or figure.is_proportion else (figure, "%")


def length(figure: Figure) -> Line:
    """A length of time with its unit: "31 months"."""
    if _names_its_unit(figure):
        return (figure,)
    return (figure, f" {figure.unit}" if figure.value == "1" else f" {figure.unit}s")


def _names_its_unit(figure: Figure) -> bool:
    """True for "3 years 5 months"; "at least 12" has letters and still wants its unit."""
    return re.search(r"day|week|month|year|annual|decade|minute|hour|fortnight|\d[ -]?hr?s?\b", figure.text) is not None


def n_of_n(finding: Finding) -> Line:
    """ "39 of 47 eyes", "16 of 16 eyes", or what is missing, said aloud."""
    events, total = finding.figure("events"), finding.figure("total")
    unit = unit_word(finding.counted, total)
    if events and total:
        return (events, " of ", total, f" {unit}")
    if total:
        return line("of ", total, f" {unit}, how many not reported")
    if events:
        first, second = finding.figure("total/1"), finding.figure("total/2")
        if first and second:
            return line(events, " of ", first, " or ", second, f" {unit} (the report prints both)")
        return line(events, f" {unit}, of how many not reported")
    return line("counts not reported")


def rate(finding: Finding) -> Line:
    """ "39 of 47 eyes (83%)": the counts first, the percentage only beside them and only where it was printed.

    What was measured and not counted is told by its mean or median.
    """
    if finding.kind == "measured":
        return measured(finding, unit_word(finding.counted, finding.figure("total")))
    share = finding.figure("success_rate", "rate")
    if share is None or finding.figure("total", "total/1") is None:
        # No naked percentage: where the report gives no total, its rate stays in the passage.
        return n_of_n(finding)
    if finding.events is not None and finding.events in (0, finding.total):
        return n_of_n(finding)
    return line(n_of_n(finding), " (", percent(share), ")")


def interval(finding: Finding, name: str = "interval") -> Line:
    """ "95% CI 62% to 80%" as printed by the report; empty where it prints none."""
    low, high = finding.figure(f"{name}/low"), finding.figure(f"{name}/high")
    if low is None or high is None:
        return ()
    return line(interval_level(finding, name), percent(low), " to ", percent(high))


def interval_level(finding: Finding, name: str = "interval") -> Line:
    """ "95% CI " as the report prints it, 95% where nothing else is typed beside the interval."""
    confidence = finding.confidence(name)
    if isinstance(confidence, Missing):
        return line("CI at a level not reported, ")
    return line(percent(confidence) if confidence else Marked("convention", "95%"), " CI ")


def timing(finding: Finding, *, is_middle_told: bool = False) -> Line:
    """When it was counted: "when last seen, 12 to 60 months (median 31 months) after repair".

    is_middle_told: the median or mean stands beside it already, and is left out where there is more to tell.
    """
    if finding.kind == "estimate" or (finding.estimate is not None and finding.follow_up is None):
        return _estimate_timing(finding)
    follow_up = finding.follow_up
    if follow_up is None:
        typed_as = finding.claim.follow_up
        is_never = isinstance(typed_as, Missing) and typed_as.text == "not applicable"
        return line("at no particular time" if is_never else "follow-up not reported")
    kind = follow_up.timing.text if isinstance(follow_up.timing, Words) else "not reported"
    start = (
        f" after {follow_up.start.text}" if isinstance(follow_up.start, Words) else ", counted from what not reported"
    )
    start_line: Line = (typed(start),)
    at = finding.time("at")
    seen = spread(finding, is_middle_told=is_middle_told)
    if kind in ("at", "by") and at:
        return line(
            f"{kind} ", length(at), start_line, exactly(finding, kind), line("; followed ", seen) if seen else None
        )
    words = {"last recall": "when last seen", "at least": "followed"}.get(kind, "time not reported")
    if not seen:
        return line(words, start_line, ", how long not reported")
    if kind == "at least":
        return line(words, " ", seen if finding.time("minimum") else line("at least ", seen), start_line)
    return line(words, ", " if kind == "last recall" else " ", seen, start_line)


def exactly(finding: Finding, kind: str) -> Line:
    """ ", give or take 6 months": how exactly a time was kept.

    kind: at or by; only what was seen at a time can be off it.
    """
    tolerance = finding.time("tolerance")
    if tolerance:
        return line(", give or take ", length(tolerance))
    return line(", how exactly is not reported" if kind == "at" else None)


def spread(finding: Finding, *, is_middle_told: bool = False) -> Line:
    """ "12 to 72 months (median 34 months)": shortest to longest follow-up; empty where none is reported.

    is_middle_told: as for `timing`.
    """
    low, high = finding.time("minimum"), finding.time("maximum")
    middle = finding.time("median")
    name = "median"
    if middle is None:
        middle, name = finding.time("mean"), "mean"
    out: Line = ()
    if low and high:
        same = low.unit == high.unit and not _names_its_unit(low)
        out = line(low if same else length(low), " to ", length(high))
    elif low:
        out = line("" if low.text.startswith("at least") else "at least ", length(low))
    elif high:
        out = line("up to ", length(high))
    if middle and not (out and is_middle_told):
        out = line(out, " (", name, " ", length(middle), ")") if out else line(f"{name} ", length(middle))
    return out


def _estimate_timing(finding: Finding) -> Line:
    estimate = finding.estimate
    at = finding.figure("estimate/at")
    if estimate is None or at is None:
        return line("in a year" if estimate and estimate.kind.text == "yearly rate" else "time not reported")
    start = f" after {estimate.start.text}" if isinstance(estimate.start, Words) else ", counted from what not reported"
    return line("at ", length(at), typed(start))


def estimate(finding: Finding) -> Line:
    """ "71% still so (95% CI 55% to 85%), 39 at the start, 21 still at risk" as reported at a time."""
    at_risk = finding.figure("estimate/at_risk")
    return estimate_and(
        finding,
        line(at_risk, " still at risk", few_followed(finding)) if at_risk else line("number at risk not reported"),
    )


def estimate_and(finding: Finding, followed: Line) -> Line:
    """An estimate with its interval and the number at the start, and in the words handed in how many were followed."""
    value = finding.figure("estimate/value")
    if value is None:
        return line("the estimate was not reported")
    ends, starting = interval(finding, "estimate/interval"), finding.figure("estimate/starting")
    return line(
        percent(value),
        still_so(finding),
        line(" (", ends, ")") if ends else " (interval not reported)",
        line(", ", starting, f" {unit_word(finding.counted, starting)} at the start")
        if starting
        else ", number at the start not reported",
        line(", ", followed),
    )


# House rule: below so many still followed an estimate says so beside its number.
FEW_FOLLOWED = 10


def few_followed(finding: Finding) -> str:
    """ " (fewer than ten still followed)" beside an estimate that so few stand behind; else ""."""
    at_risk = finding.figure("estimate/at_risk")
    if at_risk is None or at_risk.number >= FEW_FOLLOWED:
        return ""
    return " (nobody still followed)" if at_risk.number == 0 else " (fewer than ten still followed)"


def still_so(finding: Finding) -> str:
    """What a survival counts: those still well. Beside words of loss its bare share would read as the share lost."""
    if finding.estimate is None or finding.estimate.kind.text != "survival":
        return ""
    return " still so" if finding.outcome.good else " still without it"


def contrast(finding: Finding) -> Line:
    """ "hazard ratio 2.9 (95% CI 1.2 to 7.1) for reversal, over 3 mm against up to 3 mm, adjusted for age, sex"."""
    item = finding.contrast
    if item is None:
        return ()
    return line(
        contrast_numbers(finding),
        ", ",
        against(finding),
        ", ",
        adjustment(finding),
        _margin(finding),
        cut(finding),
    )


def contrast_numbers(finding: Finding) -> Line:
    """ "hazard ratio 2.9 (95% CI 1.2 to 7.1) for reversal (a bad event)": without what was compared and how."""
    item = finding.contrast
    if item is None:
        return ()
    event = f" for {item.event.text}" if item.event else ""
    if item.event_is is not None and event:
        event += f" (a {item.event_is.text} event)"
    return line(contrast_alone(finding), typed(event) if event else None)


def contrast_alone(finding: Finding) -> Line:
    """ "hazard ratio 2.9 (95% CI 1.2 to 7.1)": the number with its interval, where the rest stands beside it."""
    item, value = finding.contrast, finding.figure("contrast/value")
    ends = interval(finding, "contrast/interval")
    return line(
        typed(item.measure.text) if item is not None else None,
        " ",
        value if value is not None else "not reported",
        contrast_unit(finding, value),
        line(" (", ends, ")") if ends else " (interval not reported)",
    )


def _margin(finding: Finding) -> Line:
    """ "; margin 1.25, fixed beforehand (the protocol), one-sided: not worse by more than that"; empty without one."""
    margin = finding.contrast.margin if finding.contrast is not None else None
    if margin is None:
        return ()
    value = finding.figure("contrast/margin/value")
    said = margin_words(finding).replace("the margin", "that") or "its interval says nothing of it"
    return line(
        "; margin ", value if value is not None else margin.value.text or "not reported",
        contrast_unit(finding, value), ", fixed beforehand",
        line(" (", typed(margin.by.text), ")") if margin.by is not None else None,
        ", two-sided: " if has_two_sides(finding) else ", one-sided: ", said,
    )  # fmt: skip


def cut(finding: Finding) -> Line:
    """That the bands of a measured factor were chosen from the data, printed with every comparison; else empty."""
    said = finding.claim.cut
    return line("; cut chosen from the data") if said is not None and said.text == "chosen from the data" else ()


def differed(finding: Finding) -> Line:
    """How the groups differed at the start, as typed, printed with every comparison; else empty."""
    words = "; ".join(word.text for word in finding.claim.differ_in)
    return line("; at the start the groups differed: ", typed(words)) if words else ()


def compared_how(findings: Sequence[Finding]) -> Line:
    """What must stand beside the numbers of a claim that compares levels: how they differed, where a cut came from."""
    first = next((finding for finding in findings if finding.factor), None)
    if first is None:
        return ()
    # A ratio tells of its cut itself.
    return line(differed(first), None if first.kind == "contrast" else cut(first))


def against(finding: Finding) -> Line:
    """ "over 3 mm against up to 3 mm": the level and what it was compared with, as the paper words them."""
    item = finding.claim.contrast
    level = finding.level.level.text if finding.level else (item.level.text if item and item.level else "")
    reference = item.reference if item and item.reference is not None else finding.claim.reference
    if item is not None and item.per is not None and not level:
        return line("for each ", typed(item.per.text, "definition"))
    wording = reference.text if isinstance(reference, Words) else "a reference not reported"
    return line(typed(level or "the level", "definition"), " against ", typed(wording, "definition"))


def adjustment(finding: Finding) -> Line:
    """ "crude", or what it was adjusted for; of what stands in words, or as a test alone, nobody knows."""
    item = finding.claim.contrast
    if item is None and finding.kind in ("words", "test"):
        return line("adjusted or not: not reported")
    if item is None or (isinstance(item.adjusted_for, Words) and item.adjusted_for.text == "none"):
        return line("crude")
    if isinstance(item.adjusted_for, Missing):
        return line("adjustment not reported")
    names = item.adjusted_for if not isinstance(item.adjusted_for, Words) else (item.adjusted_for,)
    return line("adjusted for ", typed(", ".join(finding.titles.get(word.text, word.text) for word in names)))


def definition(outcome: Outcome) -> Line:
    """The outcome on its four axes, as the vocabulary defines it."""
    parts: list[Part] = [typed(outcome.title.text, "definition")]
    strictness = strictness_words(outcome)
    if strictness:
        parts.append(f", {strictness}")
    parts.append(": ")
    parts.append(typed(outcome.threshold.text, "definition"))
    parts.append(", by ")
    parts.append(typed(outcome.basis.text, "definition"))
    return line(*parts)


def main_part(finding: Finding) -> Line:
    """The numbers of a finding without time and definition."""
    if finding.kind == "estimate":
        return estimate(finding)
    if finding.kind == "contrast":
        return contrast(finding)
    if finding.kind == "words" and finding.level is not None:
        said = finding.level.direction.text if finding.level.direction else "not stated"
        return line(f"{said}, in words only")
    if finding.kind == "pooled":
        return pooled(finding)
    if finding.kind == "pairs":
        return pairs(finding)
    return rate(finding)


def pairs(finding: Finding) -> Line:
    """The same units judged twice: "by film and volume 28, by film only 8, by volume only 1, by neither 3"."""
    item = finding.claim.pairs
    if not isinstance(item, Pairs):
        return line("judged twice, but how the two agreed was not reported")
    rows = (
        (f"by {item.a.text} and {item.b.text}", "both"),
        (f"by {item.a.text} only", "only_a"),
        (f"by {item.b.text} only", "only_b"),
        ("by neither", "neither"),
    )
    return joined(
        [
            line(typed(said, "definition"), " ", finding.figure(f"pairs/{name}") or "not reported")
            for said, name in rows
        ],
        ", ",
    )


def pooled(finding: Finding) -> Line:
    """A review's own pooled result, never recomputed: "80.9%, pooled by the review over 5 studies"."""
    value = finding.figure("success_rate", "rate", "estimate/value", "contrast/value")
    studies, units = finding.figure("pooled/studies"), finding.figure("pooled/of")
    ends = interval(finding) or interval(finding, "estimate/interval") or interval(finding, "contrast/interval")
    return line(
        line(percent(value), still_so(finding)) if value else "not reported",
        line(" (", ends, ")") if ends else None,
        ", pooled by the review",
        line(" over ", studies, " studies") if studies else None,
        line(" and ", units, " " + unit_word(finding.units.get(units.unit, finding.counted), units)) if units else None,
        with_withdrawn(finding),
    )


def with_withdrawn(finding: Finding) -> str:
    """What stands behind every number of a pool that may hold what was taken back; "" for all others."""
    gone = finding.withdrawn_inside
    if not gone:
        return ""
    return "; the review includes a withdrawn report and does not say what it finds without it, so this decides nothing"


def depth_mark(depth: str) -> str:
    """What a figure carries where its report was not read whole: ", read as an abstract only"; else ""."""
    return {
        "abstract": ", read as an abstract only",
        "part": ", read in part",
        "secondary": ", read in another report",
    }.get(depth, "")
