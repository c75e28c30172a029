"""A claim about those who were treated, with a number that its passage gives to their controls."""

from __future__ import annotations

from collections.abc import Sequence

from ...printed.clauses import Span
from ...printed.controls_beside import controls_beside
from ...reading.values import Words
from ..asking import in_yaml
from ..proving.printed_passage import Reading
from .tie import Known, Stands, Ties

RULES: dict[str, str] = {
    "figure-of-controls": (
        "The passage gives the number to controls, beside those who were treated, and the claim tells neither by a "
        "level nor in `given` that it speaks of controls. Type the number of those treated, make both levels of a "
        "factor, or say in `given` of whom the number is."
    ),
}
_RESULTS = frozenset({"events", "rate", "success_rate"})


def find_controls(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """Every result of a claim without a factor."""
    claim = ties.scope.claim
    is_of_all = claim is not None and claim.factor is None and not claim.within and claim.quotes is None
    if claim is None or not is_of_all or type(claim.given) is Words:
        return
    for stands in standing:
        if stands.row.name not in _RESULTS or "/follow_up/" in stands.row.id:
            continue
        words = stands.reading.told(_controls).get(stands.at)
        if words is not None:
            said = stands.printed(words)
            ties.ask(
                stands, "figure-of-controls", f'gives it to controls: "{said}"', "the claim to those who were treated",
                f"where the controls are meant, add to the claim:\ngiven: {in_yaml(said)}",
            )  # fmt: skip


def _controls(reading: Reading) -> dict[int, Span]:
    return controls_beside(reading.passage.text, reading.tokens, reading.table, reading.lexicon.beside_numbers)
