"""What a printed time counts from, and what the claim says that it does."""

from __future__ import annotations

from collections.abc import Sequence

from ...printed.counted_from import counted_from, kind_of
from ...reading.report_model import Claim, FollowUp
from ...reading.values import Words
from ..asking import in_yaml
from .tie import Known, Stands, Ties

RULES: dict[str, str] = {
    "time-from-another-start": (
        "The passage counts a time from something else than the claim does: five years after healing had been recorded "
        "are more than five years after treatment, and two years after an injury are less than two after its "
        "treatment. Type as `from` what the passage counts from; where the passage means the same by other words, "
        "answer the question."
    ),
}


def find_starts(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """Every length of a claim's follow-up and estimates."""
    claim = ties.scope.claim
    if claim is None:
        return
    for stands in standing:
        if stands.row.role.kind != "length" or stands.row.id in ties.asked:
            continue
        start = _start_of(stands, claim)
        found = counted_from(stands.reading.passage.text, stands.token) if start is not None else None
        if start is not None and found is not None and kind_of(start.text) != found.what:
            ties.ask(
                stands, "time-from-another-start", f'counts it from something else: "{stands.printed(found.words)}"',
                f"the claim from {start.text}", f"from: {in_yaml(found.what)}",
            )  # fmt: skip


def _start_of(stands: Stands, claim: Claim) -> Words | None:
    """The `from` of the block that a length is typed in."""
    block = stands.block.rpartition("/")[2]
    start = None
    if block == "follow_up" and type(claim.follow_up) is FollowUp:
        start = claim.follow_up.start
    elif block == "estimate":
        levels = {level.level.text: level.estimate for level in claim.levels}
        estimate = levels.get(stands.row.level) if stands.row.level else claim.estimate
        start = estimate.start if estimate is not None else None
    return start if type(start) is Words else None
