"""Whether what a study compared argues for or against a way to go on: what is too few to tell argues nothing."""

from __future__ import annotations

import re
from typing import Literal

from ...reading.model import Advice
from ...reading.slugs import slug
from ...records import NamedTuple
from ...results.findings.direction import sides_of_claim
from ...results.findings.findings import Catalogue
from ...results.findings.margins import margin_verdict
from ...results.findings.one_a_study import deciding, one_side_a_study
from ...results.findings.side import Side
from ...results.numbers.clearness import clearness
from ...results.saying.margin_words import has_two_sides
from ...results.values.line import Line, joined, line, typed
from ..sections.one_study import level_wording

Weight = Literal["argues", "not worse", "similar", "too few", "nothing"]

HEADINGS: dict[Weight, str] = {
    "not worse": "Not worse by more than a margin",
    "similar": "Similar, within a margin",
    "too few": "Too few to tell",
    "nothing": "Decides nothing",
}
"""What argues neither for nor against, in the order of the page."""

# A sentence without such a word tells what became of those of a level, and compares them with nobody.
_COMPARES = re.compile(
    r"\b(?:more|less|fewer|than|as \w+ as|(?:bett|high|low|long|short|fast|slow|quick|rar|saf)er|worse|same|alike|"
    r"equal\w*|similar\w*|differ\w*|difference|compared|within the margin)\b",
    re.IGNORECASE,
)


class Weighed(NamedTuple):
    """What an entry's comparison is worth, and what is said of that."""

    weight: Weight
    said: Line = ()
    """How far apart they may be, or why it decides nothing; empty where the basis has said it."""


ARGUES = Weighed("argues")


def weighed(item: Advice, catalogue: Catalogue, question: str, level: str) -> Weighed:
    """Of an entry that leans on a comparison what its interval decides; every other argues.

    level: id of the level that the way is; of a claim that has it, that level's comparison decides.
    """
    basis = item.basis
    if basis.kind.text != "study" or basis.claim is None or not _COMPARES.search(item.words.text):
        return ARGUES
    sides = _sides(catalogue, basis.claim.text, level)
    places = [f"{question}/{side.finding.factor}" for side in sides]
    found = [clearness(side, place) for side, place in zip(sides, places, strict=True)]
    if not sides or any(each.is_clear for each in found):
        return ARGUES
    for side in sides:
        printed = side.ratio if side.ratio is not None else side.finding
        if margin_verdict(printed) == "within":
            return Weighed("similar" if has_two_sides(printed) else "not worse")
    if all(each.is_clear is None for each in found):
        return Weighed("nothing", line("this decides nothing: ", typed(found[0].reason)))
    may_be = [
        line(typed(level_wording(side.finding), "definition"), ", ", each.limits)
        for side, each in zip(sides, found, strict=True)
        if each.limits
    ]
    return Weighed("too few", line("how far apart they may be: ", joined(may_be)) if may_be else ())


def _sides(catalogue: Catalogue, reference: str, level: str) -> list[Side]:
    """One side a level, that which decides, of the first outcome alone; those of the row or the level meant, if any."""
    key, _, rest = reference.partition("/")
    claim, _, row = rest.partition("/")
    sides = [side for side in sides_of_claim(catalogue, f"{key}/{claim}") if side.direction != "not stated"]
    sides = [side for side in sides if side.finding.outcome == sides[0].finding.outcome]
    by_level: dict[tuple[str, ...], list[Side]] = {}
    for side in sides:
        by_level.setdefault(side.covers, []).append(side)
    sides = [
        side
        for alike in by_level.values()
        for side in deciding(
            one_side_a_study(side for side in alike if not side.is_adjusted),
            one_side_a_study(side for side in alike if side.is_adjusted),
        )
    ]
    return (
        [side for side in sides if row and slug(level_wording(side.finding)) == row]
        or [side for side in sides if level in side.covers]
        or sides
    )
