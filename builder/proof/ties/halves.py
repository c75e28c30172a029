"""A number that is no part of what stands behind its stroke, but the other half: "healed (yes/no): 6/26"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...numerals.late import late
from .tie import Known, Stands, Ties

RULES: dict[str, str] = {
    "halves-of-a-whole": (
        "The passage prints two halves of one whole, those with the outcome and those without, and the claim takes the "
        'second for the whole: "healed (yes/no): 6/26" is 6 of 32. Type the whole as the report prints it elsewhere, '
        "or `total: not reported`; where the passage does print a number out of its whole, answer the question."
    ),
}
_YES = r"(?:yes|present|\+|positive|healed|success(?:es)?|survived|good|favou?rable|with|improved|closed)"
_NO = r"(?:no|absent|[-−–]|negative|not healed|unhealed|failed|failures?|lost|died|poor|without|unchanged|open)"
_JOIN = r"(?:\s*\(n\))?\s*(?:/|:|\bor\b|\bv(?:ersu)?s?\b)\s*"
_ends_in_halves = late(
    rf"(?:(?<![a-z])(?P<said>{_YES}{_JOIN}{_NO}|{_NO}{_JOIN}{_YES}|y{_JOIN}n|n{_JOIN}y)(?![a-z])(?:\s*\(n\))?[\s:=,)]*(?:\s*[a-z]+[\s:=,]*)?"
    r"|(?P<ratio>ratio of [a-z]+ to (?:[a-z]+ )?[a-z]+)(?: was| of)?[\s:=,]*)$",
    re.IGNORECASE,
).search
_is_judged = late(r"\b(?:as|judged|scored|assessed|rated|recorded|graded|into)\s*$", re.IGNORECASE).search
""" "Healing (judged as present/absent): 6/26": how it was judged."""
_parts = late(r"\s*[/:]\s*").fullmatch
_NEAR = 60
"""Characters before a number in which such words stand."""


def find_halves(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """Every count that stands before a stroke."""
    for stands in standing:
        if stands.row.name != "events" or (token := stands.token).part != "events" or token.pair < 0:
            continue
        text, other = stands.reading.passage.text, stands.reading.tokens[token.pair]
        if _parts(text[token.end : other.start]) is None:
            continue
        low = max(token.start - _NEAR, 0)
        found = _ends_in_halves(text[low : token.start])
        if found is None or _is_judged(text[max(low + found.start() - 20, 0) : low + found.start()]):
            continue
        said = stands.printed((low + found.start(found.lastgroup or 0), low + found.end(found.lastgroup or 0)))
        ties.ask(
            stands, "halves-of-a-whole", f'has it as one of two halves: "{said}"',
            f"the claim as part of the {other.text}", "total: not reported",
        )  # fmt: skip
