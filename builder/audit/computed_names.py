"""All computed results that have a name that prose may name: $question/factor-or-overall/name."""

from __future__ import annotations

OVERALL = {
    "rate": "the rate of the question's main outcome: pooled where that is earned, else the range of the studies",
    "range": "the lowest and the highest rate of the studies",
    "studies": "how many studies report a rate",
    "units": "how many units these studies examined",
    "failures": "how many of them had the bad ending",
    "unseen-bounds": "the rate if every unit that was due and not seen had failed, and if every one had succeeded",
    "interval": "the interval around the pooled rate",
    "prediction": "where the rate of a further study would lie",
    "tau": "how much studies differ beyond chance, on the log-odds scale",
    "latest": "the rate at the longest time that a study reports",
}
"""Results of a question as a whole."""

FACTOR = {
    "direction": "how many studies found the level better, worse, no clear difference, and how many do not state it",
    "studies": "how many studies compare the levels",
    "better": "how many studies found the level better than its reference",
    "worse": "how many studies found it worse",
    "no-clear-difference": "how many studies found no clear difference",
    "not-stated": "how many studies do not state a direction",
    "pooled": "the pooled ratio, where pooling is earned, else the reason why not",
    "interval": "the interval around the pooled ratio",
    "prediction": "where the ratio of a further study would lie",
    "range": "the lowest and the highest ratio of the studies",
    "tau": "how much studies differ beyond chance, on the log scale",
    "sign-test": "how often so one-sided a count of directions arises by chance",
    "absolute": "the risks that a ratio gives at the baseline named in the question file",
}
"""Results of one factor of a question."""

PLACES = ("overall",)
"""What may stand in the place of a factor."""
