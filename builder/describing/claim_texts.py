"""What is told of the fields of one claim."""

from __future__ import annotations

from ..reading import claims, contrasts, estimates
from .told import Described, Told

CLAIM_BLOCKS = {
    "claim": Described(
        "A claim: one thing that the report says",
        claims.CLAIM,
        {
            "id": Told("its name in this file; part of the ids of its figures", "overall"),
            "question": Told("the question that it speaks to, or a list of them", "your-question"),
            "outcome": Told("what was counted or measured, by its id in vocabulary.yaml", "your-outcome"),
            "where": Told(
                "the passage that its numbers stand in, by the words in its square brackets", "p. 14, Table 2"
            ),
            "follow_up": Told(
                "when they were seen: a block, or the id of a claim of this file that was seen at the same time; not "
                "applicable beside an estimate alone",
                "{from: treatment, timing: at, at: 12 months, tolerance: 2 months}",
            ),
            "study": Told(
                "the id of the study, or a list, where the file has several and not all are meant",
                "made-up-clinic-2015",
            ),
            "factor": Told(
                "what divides the levels, by its id in vocabulary.yaml; needed with levels or a contrast", "your-factor"
            ),
            "known_at": Told("when a clinician knows the factor; needed with levels or a contrast", "before"),
            "reference": Told(
                "the wording of the level that the others are held against; needed with levels or a contrast",
                "up to 3 mm",
            ),
            "differ_in": Told(
                "how the groups differed at the start, in the paper's words; printed with every comparison",
                "[the larger ones were seen later]",
            ),
            "planned": Told("whether the comparison was planned beforehand", "unclear"),
            "cut": Told(
                "where the bands of a measured factor came from; chosen from the data is said beside it",
                "fixed beforehand",
            ),
            "within": Told(
                "the group that it is about, where it is a part of those studied",
                "[{factor: your-factor, level: over 3 mm}]",
            ),
            "given": Told(
                "which units the rate speaks of, where those are not all who were examined; always printed",
                "those healed at one year",
            ),
            "flow": Told("counts of this claim, in place of those of its study", "{examined: 47}"),
            "quotes": Told(
                "the claim of another report that the figure was taken over from, so that it is counted once",
                "sampler2021repairs/overall",
            ),
            "events": Told("how many had the outcome, good or bad; stands with total", "41"),
            "total": Told("how many the rate is out of, or several candidates with a reason", "52"),
            "rate": Told("per cent of events, whatever the outcome", "79%"),
            "success_rate": Told("the same, for an outcome that is good alone; one of the two", "79%"),
            "interval": Told("the confidence interval of the rate", "66% to 88%"),
            "pooled": Told("for a review: how many studies and units the result rests on", "{studies: 6, of: 402}"),
            "levels": Told(
                "the table of the paper, one row a level",
                "[{level: up to 3 mm, events: 27, total: 31}, {level: over 3 mm, events: 14, total: 21}]",
            ),
            "estimate": Told(
                "a share at a time, as of a survival table",
                "{kind: survival, at: 5 years, value: 71%, interval: 55% to 85%}",
            ),
            "contrast": Told(
                "a ratio or a difference between a level and its reference",
                "{measure: risk ratio, value: 0.77, interval: 0.57 to 1.03, event_is: good, level: over 3 mm, "
                "adjusted_for: none}",
            ),
            "test": Told("a test without more, or a list of them", "{between: [up to 3 mm, over 3 mm], p: .04}"),
            "pairs": Told(
                "two ways to look at the same cases", "{a: film, b: volume, both: 28, only_a: 8, only_b: 1, neither: 3}"
            ),
            "grades": Told(
                "ordered grades, with total",
                "[{words: healed, events: 30}, {words: healing, events: 11}, {words: not healed, events: 11}]",
            ),
            "unit": Told("what means or medians of its levels were measured in", "mm"),
            "note": Told("what a reader of the source page should know", "one table only; the text gives no counts"),
        },
    ),
    "within": Described(
        "within: a part of those studied",
        claims.WITHIN,
        {
            "factor": Told("what makes the part, by its id in vocabulary.yaml", "your-factor"),
            "level": Told("the wording of the paper", "over 3 mm"),
        },
    ),
    "follow-up": Described(
        "follow_up: when they were seen",
        estimates.FOLLOW_UP,
        {
            "from": Told("what it counts from", "treatment"),
            "timing": Told(
                "at a time; by a time (at it or before); last recall (each when last seen); at least. Only at, with "
                "its tolerance, belongs to a window",
                "at",
            ),
            "at": Told("the time, with timing at or by", "12 months"),
            "tolerance": Told("how far around it they were seen, with timing at", "2 months"),
            "minimum": Told("the shortest", "12 months"),
            "maximum": Told("the longest", "5 years"),
            "mean": Told("the mean", "31 months"),
            "median": Told("the median", "31 months"),
            "sd": Told("the standard deviation", "8 months"),
        },
    ),
    "level": Described(
        "A level: one row of the table",
        claims.LEVEL,
        {
            "level": Told("the wording of the paper; a title or synonym in vocabulary.yaml", "over 3 mm"),
            "range": Told("its bounds, where its words do not hold them", "over 3 mm"),
            "events": Told("how many had the outcome", "14"),
            "total": Told("out of how many", "21"),
            "rate": Told("per cent of events, whatever the outcome", "67%"),
            "success_rate": Told("the same, for an outcome that is good alone; one of the two", "67%"),
            "interval": Told("the confidence interval of the rate", "45% to 83%"),
            "estimate": Told("a share at a time", "{kind: survival, at: 5 years, value: 71%}"),
            "grades": Told(
                "ordered grades, with total", "[{words: healed, events: 9}, {words: not healed, events: 12}]"
            ),
            "mean": Told("of a measured outcome; stands with sd and total", "3.1"),
            "sd": Told("the standard deviation", "1.1"),
            "median": Told("of a measured outcome; stands with iqr and total", "28"),
            "iqr": Told("the first and third quartile", "19 to 40"),
            "direction": Told(
                "what it does beside its reference, for the patient; computed where there are numbers", "worse"
            ),
            "stated": Told("with a direction and without numbers", "words only"),
        },
    ),
    "candidates": Described(
        "total, as candidates",
        claims.CANDIDATES,
        {
            "candidates": Told("two numbers or more, where the paper does not say which it is", "[41, 44]"),
            "reason": Told("why; such a rate is shown with it, and is never pooled", "Methods and Discussion differ"),
        },
    ),
    "grade": Described(
        "A grade",
        claims.GRADE,
        {
            "outcome": Told("its id in vocabulary.yaml, where it is a rate of its own", "your-outcome"),
            "words": Told("the wording of the paper, where it is not", "healing"),
            "events": Told("how many", "11"),
            "rate": Told("per cent of total", "21%"),
        },
    ),
    "estimate": Described(
        "estimate: a share at a time",
        estimates.ESTIMATE,
        {
            "kind": Told(
                "survival (share still good), cumulative incidence (share with the event) or yearly rate (share with "
                "the event in a year)",
                "survival",
            ),
            "at": Told("the time; needed but for a yearly rate", "5 years"),
            "value": Told("as printed", "71%"),
            "interval": Told("its confidence interval", "55% to 85%"),
            "starting": Told("the number at the start", "39"),
            "at_risk": Told("the number still at risk at that time", "21"),
            "from": Told("what the time counts from", "healing"),
            "competing": Told("events that end the follow-up otherwise", "[death, treated again]"),
        },
    ),
    "contrast": Described(
        "contrast: a ratio or difference",
        contrasts.CONTRAST,
        {
            "measure": Told("what is printed", "risk ratio"),
            "value": Told("as printed", "0.77"),
            "interval": Told("its confidence interval", "0.57 to 1.03"),
            "p": Told("as printed, with its comparator; it decides nothing", ".08"),
            "level": Told("the level on top", "over 3 mm"),
            "reference": Told("the level below, where it is another than the claim's", "up to 3 mm"),
            "per": Told("for a measured factor without levels: the step that it is for", "1 mm"),
            "event": Told("what happened, in words", "not healed"),
            "event_is": Told("whether that is good or bad for the patient; needed for ratios", "bad"),
            "adjusted_for": Told("none, or a list of factors", "[age, size]"),
            "model": Told("the model that gave it", "Cox"),
            "proportional": Told("whether hazards were found proportional", "not reported"),
            "unit": Told("of a mean difference: what it is measured in", "mm"),
            "absolute": Told("risks that a review prints beside it", "{per: 1000, reference: 130, level: 169}"),
            "margin": Told(
                "what was fixed beforehand as too small a difference to matter",
                "{value: 1.25, by: the protocol, sides: one}",
            ),
            "pooled": Told("for a review: how many studies and units it rests on", "{studies: 6, of: 402}"),
        },
    ),
    "absolute-risks": Described(
        "absolute in a contrast: risks as a review prints them",
        contrasts.ABSOLUTE,
        {
            "per": Told("of how many", "1000"),
            "reference": Told("the risk at the reference level", "130"),
            "level": Told("the risk at the level", "169"),
            "interval": Told("its confidence interval", "110 to 250"),
        },
    ),
    "margin": Described(
        "margin in a contrast",
        contrasts.MARGIN,
        {
            "value": Told("in the scale of the contrast, on the side of harm", "1.25"),
            "by": Told("who or what fixed it", "the protocol"),
            "sides": Told("two where it was fixed for both; else one, towards harm", "one"),
        },
    ),
    "pooled": Described(
        "pooled: what a review put together",
        contrasts.POOLED,
        {
            "studies": Told("how many studies", "6"),
            "of": Told("how many units in all", "402"),
            "model": Told("how they were put together", "random effects"),
            "i2": Told("the share of the variation that lies between the studies", "46%"),
            "sd": Told("the standard deviation of the studies' percentages", "8.2%"),
        },
    ),
    "test": Described(
        "test: a test alone",
        claims.TEST,
        {
            "between": Told("what was compared", "[up to 3 mm, over 3 mm]"),
            "p": Told("as printed, with its comparator; it decides nothing", '"<.05"'),
            "method": Told("its name", "Fisher's exact test"),
        },
    ),
    "pairs": Described(
        "pairs: the same cases looked at in two ways",
        claims.PAIRS,
        {
            "a": Told("the first way", "film"),
            "b": Told("the second way", "volume"),
            "both": Told("how many had the outcome both ways", "28"),
            "only_a": Told("how many the first way alone", "8"),
            "only_b": Told("how many the second way alone", "1"),
            "neither": Told("how many neither way", "3"),
        },
    ),
}
