"""Of whom a figure is, as the words behind it say it, where the claim gives it to those of another figure beside it."""

from __future__ import annotations

from collections.abc import Sequence

from ...reading.report_model import Claim
from ...reading.values import Words
from ..asking import in_yaml
from ..printed.told_behind import Behind, content_of, told_behind
from ..proving.printed_passage import Reading
from .pinned import is_pinned_away
from .tie import Known, Stands, Ties

RULES: dict[str, str] = {
    "figure-of-another-part": (
        "The words that follow a figure say of whom it is, and the claim's `given` or `within` gives it to those of "
        'another figure of the sentence: 3.9 of "3.9 in women and 1.2 in men" to men. Type the figure that '
        "the claim's own words follow, or correct `given` or `within`."
    ),
}
_FIGURES = frozenset({"events", "rate", "success_rate", "value"})


def find_other_parts(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """Every figure of a claim about some."""
    claim = ties.scope.claim
    if claim is None or claim.quotes is not None or not (claim.within or type(claim.given) is Words):
        return
    wanted: dict[frozenset[str], str] | None = None
    units = frozenset(part for word in known.lexicon.unit_by_word for part in word.split())
    for stands in standing:
        if stands.row.name not in _FIGURES or stands.row.id in ties.asked:
            continue
        behind = stands.reading.told(_told_behind)
        said = behind.get(stands.at)
        if said is None:
            continue
        wanted = wanted if wanted is not None else _wanted(claim, known, units)
        own = next((each for each in wanted if each in said.others), None)
        if own is None or said.content in wanted or _stands_there_too(stands, own, behind):
            continue
        if is_pinned_away(stands, said.words):
            continue
        ties.ask(
            stands, "figure-of-another-part", f'gives it to "{stands.printed(said.words)}"',
            f'the claim to "{wanted[own]}"', f"where the passage is right, type the figure of {in_yaml(wanted[own])}",
        )  # fmt: skip


def _told_behind(reading: Reading) -> dict[int, Behind]:
    lexicon = reading.lexicon
    units = frozenset(part for word in lexicon.unit_by_word for part in word.split())
    return told_behind(reading.passage.text, reading.tokens, units)


def _wanted(claim: Claim, known: Known, units: frozenset[str]) -> dict[frozenset[str], str]:
    """What the claim says of whom it is, in each of its wordings."""
    said: list[str] = [claim.given.text] if type(claim.given) is Words else []
    for within in claim.within:
        said.append(within.level.text)
        factor = known.factors.get(within.factor.text)
        for level in factor.matches(within.level.text) if factor is not None else ():
            said += [level.title.text, *(word.text for word in level.synonyms)]
    return {content: words for words in reversed(said) if (content := content_of(words, units))}


def _stands_there_too(stands: Stands, own: frozenset[str], behind: dict[int, Behind]) -> bool:
    """Whether the same figure stands before the claim's own words too."""
    tokens, value = stands.reading.tokens, stands.token.value
    return any(said.content == own and tokens[at].value == value for at, said in behind.items())
