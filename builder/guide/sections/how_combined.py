"""How the studies of a page were put together, in the nine items of SWiM, filled from what was done."""

from __future__ import annotations

from ...records import NamedTuple
from ...results.numbers.pooling import MODEL
from ...results.values.document import Details, Facts, Paragraph
from ...results.values.line import Line, Marked, joined, line, typed

SWIM = "Campbell et al. 2020, BMJ 368:l6890"

# The nine items by the names that the statement gives them (from memory).
ITEMS = (
    "Grouping studies for synthesis",
    "Standardised metric and transformation methods",
    "Synthesis methods",
    "Criteria used to prioritise results",
    "Investigation of heterogeneity",
    "Certainty of evidence",
    "Data presentation methods",
    "Reporting results",
    "Limitations of the synthesis",
)


_BOTH = (
    "where a study has counts and an adjusted ratio, the ratio gives the direction, of a randomised trial only where "
    "it was planned"
)


class SynthesisSteps(NamedTuple):
    """What a page did with its studies."""

    outcomes: tuple[str, ...]
    """Titles of the outcomes compared."""
    levels: tuple[str, ...]
    pooled_rates: tuple[str, ...]
    """What is pooled, in words; empty where nothing is."""
    pooled_ratios: tuple[str, ...]
    reasons: tuple[str, ...]
    """Why the others are not pooled."""
    superseded: int
    not_counted: tuple[str, ...]
    """Reasons for which reports do not count."""
    has_adjusted: bool
    not_randomised: tuple[Line, ...]
    """The reports whose comparisons were not allotted at random."""
    is_randomised: bool
    """True where at least one comparison was."""
    is_judged: bool
    has_conflict: bool


def methods_box(steps: SynthesisSteps) -> Details:
    """The nine items, each with what was done here."""
    rows = tuple((line(title), _said(index, steps)) for index, title in enumerate(ITEMS))
    source = Paragraph(line("Items after ", Marked("reference", SWIM)), "quiet")
    return Details(
        "How these studies were put together", (Facts(rows, "methods-box"), source), "methods", anchor="methods"
    )


def _words(items: tuple[str, ...], none: str) -> Line:
    return joined([line(typed(item, "definition")) for item in items], "; ") if items else line(none)


def _said(index: int, steps: SynthesisSteps) -> Line:
    return (_grouping, _measure, _synthesis, _first, _differ, _sure, _shown, _reported, _limits)[index](steps)


def _grouping(steps: SynthesisSteps) -> Line:
    return line(
        "by outcome (", _words(steps.outcomes, "none"), ") and level (", _words(steps.levels, "none"), "); stricter "
        "and looser definitions, success and survival, animals and people never in one group; levels of a measured "
        "factor by their ranges, never by the word",
    )  # fmt: skip


def _measure(steps: SynthesisSteps) -> Line:
    return line(
        "counts as printed; the direction is the side of the point estimate; odds ratios of the outcome's own event "
        "are computed from counts; a printed ratio keeps its measure and its event, none is turned into another"
    )


def _synthesis(steps: SynthesisSteps) -> Line:
    out = [line("studies counted by direction, one patient counted once")]
    if steps.pooled_rates:
        out.append(line("rates pooled by ", Marked("reference", MODEL), ": ", _words(steps.pooled_rates, "none")))
    if steps.pooled_ratios:
        out.append(line("ratios pooled with random effects: ", _words(steps.pooled_ratios, "none")))
    if not steps.pooled_rates and not steps.pooled_ratios:
        few = steps.reasons if len(steps.reasons) == 1 else ("why stands at each table",)
        out.append(line("nothing is pooled: ", line(typed(few[0], "convention"))))
    return joined(out)


def _first(steps: SynthesisSteps) -> Line:
    kept = (
        "of reports about the same patients the one with an estimate at that time counts, then the one that examined "
    )
    kept += "the larger share of those due, then the larger, then the later"
    said = "; some reports here gave way by this rule" if steps.superseded else "; no report here had to give way"
    adjusted = "; " + _BOTH if steps.has_adjusted else ""
    return line(kept, said, adjusted)


def _differ(steps: SynthesisSteps) -> Line:
    if steps.pooled_rates or steps.pooled_ratios:
        return line(
            "tau and the interval for a further study stand beside each pooled number; no subgroup was searched"
        )
    if steps.has_conflict:
        return line("the studies conflict, which is said; they are too few to look for reasons in the numbers")
    return line("not looked into: too few studies; how they differ is in the tables")


def _sure(steps: SynthesisSteps) -> Line:
    if steps.is_judged:
        return line("judged by faculty, by outcome and time, step by step with reasons (see How sure)")
    return line("not judged yet")


def _shown(steps: SynthesisSteps) -> Line:
    return line("one mark a study, a table beside every drawing that says the same, each number linked to its passage")


def _reported(steps: SynthesisSteps) -> Line:
    return line("every study is shown, those without a stated direction included, with its reference level and time")


def _limits(steps: SynthesisSteps) -> Line:
    out = [
        line("a count of directions says nothing of size"),
        line("passages are typed by people, and not all are re-read by another"),
    ]
    if steps.outcomes and not steps.has_adjusted:
        out.append(_not_alike(steps))
    out.extend(line(typed(reason)) for reason in steps.not_counted)
    return joined(out)


def _not_alike(steps: SynthesisSteps) -> Line:
    """How far the groups compared may differ in more than the factor, where nothing is adjusted."""
    if not steps.is_randomised:
        return line("every comparison here is crude, so the groups may differ in more than this factor")
    if not steps.not_randomised:
        return line(
            "the groups of every comparison here were made at random, so at the start they differ in more than this "
            "factor by chance alone; who was not seen again may have made them differ later"
        )
    return line(
        "crude and not randomised are ", joined(list(steps.not_randomised), ", "),
        ": their groups may differ in more than this factor",
    )  # fmt: skip
