"""Of whom a figure is, as the words beside it say it, where the claim gives it to those of another figure."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from ...compiled_patterns import compiled
from ...printed.clauses import Span
from ...printed.told_beside import Beside, content_of
from ...printed.wordings import Name, Names, Plain, mentions_of
from ...reading.report_model import Claim
from ...reading.values import Words
from ..asking import in_yaml
from ..proving.printed_passage import beside_in
from .groupings import Groupings, groupings_of_all
from .levels import apart_from_outcome
from .pinned import is_pinned_away
from .tie import Known, Stands, Ties

RULES: dict[str, str] = {
    "figure-of-another-part": (
        "The words beside a figure, its row or its heading say of whom it is, and the claim's `given` or `within` "
        'gives it to others: 3.9 of "3.9 in women and 1.2 in men" to men. Type the figure of those whom the claim '
        "names, or correct `given` or `within`."
    ),
}
_FIGURES = frozenset({"events", "rate", "success_rate", "value"})


def find_other_parts(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """Every figure of a claim about some."""
    claim = ties.scope.claim
    if claim is None or claim.quotes is not None or not (claim.within or type(claim.given) is Words):
        return
    finding: _Finding | None = None
    for stands in standing:
        if stands.row.name in _FIGURES and stands.row.id not in ties.asked:
            finding = finding or _Finding(claim, ties, known)
            finding.find(stands)


class _Finding:
    """What one claim says of whom it is, in each of its wordings."""

    def __init__(self, claim: Claim, ties: Ties, known: Known) -> None:
        self.ties = ties
        self.wanted = _wanted(claim, known)
        self.among = list(_given(claim, known))

    def find(self, stands: Stands) -> None:
        """Ask about one figure."""
        beside = stands.reading.told(beside_in)
        said = beside.get(stands.at)
        if said is not None and said.content in self.wanted:
            return
        own = next((each for each in self.wanted if each in said.others), None) if said is not None else None
        if said is not None and own is not None:
            if not _stands_there_too(stands, own, beside):
                _ask(stands, self.ties, said.words, self.wanted[own])
            return
        for names, key in self.among:
            _find_owner(stands, names, key, self.ties)


def _ask(stands: Stands, ties: Ties, words: Span, whom: str) -> None:
    if not is_pinned_away(stands, words):
        ties.ask(
            stands, "figure-of-another-part", f'gives it to "{stands.printed(words)}"', f'the claim to "{whom}"',
            f"where the passage is right, type the figure of {in_yaml(whom)}",
        )  # fmt: skip


def _wanted(claim: Claim, known: Known) -> dict[frozenset[str], str]:
    units = known.lexicon.unit_words
    said: list[str] = [claim.given.text] if type(claim.given) is Words else []
    for within in claim.within:
        said.append(within.level.text)
        factor = known.factors.get(within.factor.text)
        for level in factor.matches(within.level.text) if factor is not None else ():
            said += [level.title.text, *(word.text for word in level.synonyms)]
    return {content: words for words in reversed(said) if (content := content_of(words, units))}


def _stands_there_too(stands: Stands, own: frozenset[str], beside: dict[int, Beside]) -> bool:
    """Whether the same figure stands beside the claim's own words too."""
    tokens, value = stands.reading.tokens, stands.token.value
    return any(said.content == own and tokens[at].value == value for at, said in beside.items())


# By the parts that the vocabulary knows, and by "with" and "without"


def _given(claim: Claim, known: Known) -> Iterator[tuple[Names, str]]:
    """Each way of parting those studied of which `given` names one part, with the names of its parts and the one."""
    if type(claim.given) is not Words:
        return
    text = claim.given.text
    own = claim.factor.text if claim.factor is not None else ""
    every: Groupings = groupings_of_all(known)
    for grouping in every.named_in(text):
        if grouping.factor and grouping.factor == own:
            continue
        names = apart_from_outcome(grouping.names, claim, known)
        keys = {mention.key for mention in mentions_of(text, Plain(text), (), names)}
        if len(keys) == 1 and "" not in keys:
            yield names, keys.pop()
    found = _find_having(text)
    if found is not None:
        what = _without_article.sub("", found["what"].strip())
        having, lacking = f"with {what}", f"without {what}"
        names = (Name(having, (having, what)), Name(lacking, (lacking, f"no {what}")))
        yield names, names[found["lead"].lower() in _LACKING].key


_find_having = compiled(
    r"^[\w\s]*?\b(?P<lead>with|without|no)\s+"
    r"(?P<what>[a-z]+(?:[ -](?!(?:at|in|and|or|of|who|before|after|with)\b)[a-z]+){0,3})\s*$",
    re.IGNORECASE,
).match
_without_article = compiled(r"^(?:an?|the|any)\s+", re.IGNORECASE)
_LACKING = frozenset({"without", "no"})


def _find_owner(stands: Stands, names: Names, key: str, ties: Ties) -> None:
    """Ask where the passage gives a figure to another part than `given` names."""
    reading = stands.reading
    owner = reading.owners(names)[stands.at]
    if owner is None or not owner.is_sure or owner.key in ("", key) or not owner.words:
        return
    _ask(stands, ties, owner.words[0], key)
