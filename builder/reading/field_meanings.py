"""What the fields that hold numbers mean, in words of the field: how every message speaks of one."""

from __future__ import annotations

MEANINGS: dict[str, str] = {
    "events": "the number with the outcome",
    "total": "the number that the rate is out of",
    "candidates": "one of the candidates for the number that the rate is out of",
    "rate": "the percentage with the outcome",
    "success_rate": "the percentage of successes",
    "mean": "the mean",
    "sd": "the standard deviation",
    "median": "the median",
    "iqr": "the interquartile range",
    "interval": "the confidence interval",
    "confidence": "the confidence level of the interval",
    "level": "the wording of the level",
    "reference": "the wording of the reference level",
    "range": "the range of the level",
    "within/level": "the wording of the subgroup's level",
    "covers": "the number of the study's units that this report covers",
    "eligible": "the number eligible",
    "treated": "the number treated",
    "due": "the number due for recall",
    "examined": "the number examined",
    "lost": "the number lost to follow-up",
    "discontinued": "the number discontinued",
    "died": "the number who died",
    "extracted": "the number removed",
    "extracted_related": "the number removed for a reason related to the treatment",
    "extracted_other": "the number removed for another reason",
    "recall/rate": "the recall rate",
    "shares/of": "the number that the shares are out of",
    "shares/count": "the number in one part",
    "shares/share": "the percentage in one part",
    "follow_up/at": "the time of the follow-up",
    "follow_up/tolerance": "the tolerance around the time of the follow-up",
    "follow_up/minimum": "the shortest follow-up",
    "follow_up/maximum": "the longest follow-up",
    "follow_up/mean": "the mean follow-up",
    "follow_up/median": "the median follow-up",
    "follow_up/sd": "the standard deviation of the follow-up",
    "estimate/at": "the time that the estimate is for",
    "estimate/value": "the estimate",
    "estimate/interval": "the confidence interval of the estimate",
    "estimate/confidence": "the confidence level of the estimate's interval",
    "estimate/starting": "the number at the start",
    "estimate/at_risk": "the number still at risk",
    "contrast/value": "the ratio or difference",
    "contrast/interval": "the confidence interval of the ratio or difference",
    "contrast/confidence": "the confidence level of the interval",
    "contrast/p": "the P value",
    "contrast/per": "the step that the ratio or difference is for",
    "margin/value": "the margin that was fixed beforehand",
    "absolute/per": "the number of people that the risks are given for",
    "absolute/reference": "the risk at the reference level",
    "absolute/level": "the risk at the level",
    "absolute/interval": "the confidence interval of the risk at the level",
    "test/p": "the P value of the test",
    "pooled/studies": "the number of studies pooled",
    "pooled/of": "the number of units the pooled result rests on",
    "pooled/i2": "the share of the variation that lies between the studies",
    "pooled/sd": "the standard deviation of the pooled percentages",
    "pairs/both": "the number with the outcome both ways",
    "pairs/only_a": "the number with the outcome the first way alone",
    "pairs/only_b": "the number with the outcome the second way alone",
    "pairs/neither": "the number with the outcome neither way",
    "given": "the words for which units the rate speaks of",
    "differ_in": "the words for how the groups differed at the start",
    "note": "the note",
    "reason": "the reason for the candidates",
    "between": "the words for what the test compared",
}
"""By field, or by block and field where a block of the form has one of its own: what it holds, with its article."""

BLOCKS = frozenset(
    {"flow", "patients", "recall", "shares", "follow_up", "estimate", "contrast", "absolute", "pooled", "test", "pairs",
     "margin", "within"}
)  # fmt: skip
"""Blocks of the form whose fields hold numbers. No level's short name can equal one of these."""


def field_meaning(name: str, block: str = "") -> str:
    """A field by what it means, then by its key: "the number examined (`examined`)".

    name: the field as typed. block: the one it stands in, "" directly in a claim or level: "the number of units the
    pooled result rests on (`of` under `pooled`)". Raises KeyError for a field that holds no number.
    """
    own = f"{block}/{name}"
    if own in MEANINGS:
        # A count of the flow is known by its own name; a field that several blocks have is named with its block.
        return f"{MEANINGS[own]} (`{name}` under `{block}`)"
    return f"{MEANINGS[name]} (`{name}`)"


def described_field(name: str, block: str = "") -> str:
    """A field of the form beside the name of its block; one that holds no number is named by its key alone."""
    meaning = MEANINGS.get(f"{block}/{name}") or MEANINGS.get(name)
    return f"{meaning} (`{name}`)" if meaning else f"`{name}`"


def block_of_figure(figure: str) -> str:
    """The block that a figure's id lies in: "pooled" for "marlow2019furcal/overall/pooled/of"; "" for none."""
    steps = figure.split("/")
    # The key, and the claim's or study's id, may be called anything.
    own = steps[3:] if steps[1] == "studies" else steps[2:]
    return next((step for step in reversed(own) if step in BLOCKS), "")
