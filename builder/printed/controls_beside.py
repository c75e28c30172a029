"""Numbers of controls beside those of the treated: "41 of 50 healed, of the concurrent controls 26 of 32"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..numerals import Token
from ..numerals.late import late
from .belonging import owners_among
from .clauses import Span
from .tables import Table
from .wordings import Mention

_UNTOUCHED = r"(?:uninjured|untreated|untouched|unaffected|unoperated|intact|sound|healthy|vital|normal|non-?treated)"
_CONTROLS = late(
    r"\b(?:(?:contemporary|contemporaneous|concurrent|parallel|simultaneous|untreated|healthy|matched|placebo|internal)"
    r"[\s~]+(?:[a-z-]+[\s~]+)?(?:controls?(?![\s~]+(?:visits?|of|for))|comparators?|(?:control|comparison)[\s~]+"
    r"(?:group|arm|cohort|patients|cases|sites?|sides?))|"
    rf"{_UNTOUCHED}[\s~]+(?:[a-z-]+[\s~]+){{0,2}}?(?:neighbou?rs?|fellows?|antagonists?|homologues?|counterparts?|"
    r"siblings?|partners?)|(?:neighbou?ring|adjacent|contralateral|untouched|untreated|uninjured|unoperated|control)"
    r"[\s~]+(?P<noun>[a-z]+)|"
    r"(?<=those )not treated|(?<=the )(?:uninjured|untreated|unoperated)(?=\s+\d))\b",
    re.IGNORECASE,
    holds=(
        "control",
        "compar",
        "un",
        "neighb",
        "adjacent",
        "contralateral",
        "fellow",
        "antagonist",
        "homologue",
        "treated",
        "intact",
        "sound",
        "healthy",
        "sibling",
        "counterpart",
        "partner",
    ),
)
_TREATED = late(
    r"\b(?:new|test|tested|experimental|study|intervention|active|treatment|treated)[\s~]+(?:[a-z-]+[\s~]+)?"
    r"(?:method|technique|group|arm|material|device|procedure|patients|cases|sites?|sides?)\b",
    re.IGNORECASE,
)


def controls_beside(text: str, tokens: Sequence[Token], table: Table, counted: frozenset[str]) -> dict[int, Span]:
    """By the place of each number that is of controls, where another is of those treated: the words for the controls.

    counted: what is counted, and what is said of it: "eyes", "healed".
    """
    controls = [
        Mention(*found.span(), "controls")
        for found in _CONTROLS.finditer(text)
        if not found["noun"] or found["noun"].lower() in counted
    ]
    if not controls or table.has_cells:
        return {}
    if (straight := _straight_before(text, tokens, controls)) and any(
        token.part == "events" and at not in straight for at, token in enumerate(tokens)
    ):
        return straight
    treated = [Mention(*found.span(), "treated") for found in _TREATED.finditer(text)]
    treated = [each for each in treated if not any(one.start < each.end and each.start < one.end for one in controls)]
    owners = owners_among(text, tokens, sorted((*controls, *treated)), table, counted, is_complete=bool(treated))
    of = {at: owner for at, owner in enumerate(owners) if owner is not None and owner.is_sure}
    is_beside = any(
        token.part == "events" and (at not in of or of[at].key == "treated") for at, token in enumerate(tokens)
    )
    return {at: owner.words[0] for at, owner in of.items() if owner.key == "controls" and is_beside}


def _straight_before(text: str, tokens: Sequence[Token], controls: Sequence[Mention]) -> dict[int, Span]:
    """ "26 of 32 concurrent controls"."""
    return {
        index: (each.start, each.end)
        for each in controls
        for at, token in enumerate(tokens)
        if token.part == "total" and not text[token.end : each.start].strip() and token.end <= each.start
        for index in (at, token.pair)
    }
