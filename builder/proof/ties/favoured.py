"""Which of two had less of what was measured, by words behind a difference: "9 mm, lower with A", "favouring A"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...numerals.late import in_small
from ...printed.wordings import Names
from ...reading.contrasts import RATIOS
from ...reading.report_model import Contrast
from ...reading.values import Words
from ..proving.level_names import key_of
from .tie import Known, Stands, Ties, ratio_of

_match_favoured = in_small(
    r"(?:[^.;]|\.\d){0,60}?\b(?:(?P<less>lower|less|fewer|smaller|shorter)|(?P<more>higher|greater|larger|longer|more)|"
    r"(?P<better>in favou?r of|favou?ring))\s+(?:(?:with|under|in|for|after|by|among|on)\s+)?(?:the\s+)?(?=[a-z])"
).match


def find_favoured(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """The difference of a claim."""
    claim = ties.scope.claim
    contrast = claim.contrast if claim is not None else None
    stands = ratio_of(standing) if contrast is not None and contrast.measure.text not in RATIOS else None
    if claim is None or contrast is None or stands is None or stands.row.id in ties.asked or not stands.row.value:
        return
    found = _match_favoured(stands.reading.passage.text, stands.token.end)
    outcome = known.outcomes.get(claim.outcome.text)
    if found is not None and outcome is not None:
        _ask_if_other(stands, ties, found, _sides(contrast, ties.scope.names), is_good=outcome.good)


def _ask_if_other(stands: Stands, ties: Ties, found: re.Match[str], sides: tuple[str, ...], *, is_good: bool) -> None:
    """Ask where the words give less to the other side than the sign of the claim does."""
    mention = next((each for each in stands.reading.mentions(ties.scope.names) if each.start == found.end()), None)
    if mention is None or mention.key not in sides:
        return
    has_less = bool(found["less"]) or (bool(found["better"]) and not is_good)
    if (has_less == (mention.key == sides[0])) != (stands.row.value < 0):
        said = stands.printed((found.start(found.lastgroup or 0), mention.end))
        ties.ask(
            stands, "ratio-direction", f'says "{said}" of it', f"the claim has {stands.row.typed} for "
            f'"{sides[0]}" against "{sides[1]}"', "give the value the other sign",
        )  # fmt: skip


def _sides(contrast: Contrast, names: Names) -> tuple[str, ...]:
    """Keys of the level and its reference; empty where the claim does not tell both."""
    if contrast.level is None or type(contrast.reference) is not Words:
        return ()
    sides = key_of(contrast.level.text, names), key_of(contrast.reference.text, names)
    return sides if sides[0] != sides[1] else ()
