"""Those still at risk, where one of several numbers leaves the words out: "93% (61 at risk) and 78% (29)"."""

from __future__ import annotations

from itertools import pairwise

from .kinds import Kind, pattern
from .late import late
from .printed import Numeral, Printed

AT_RISK = "at risk"


def give_to_those_alike(printed: Printed) -> None:
    """Numbers beside shares are at risk as the one beside the share before is; so is the first of "61 eyes with and 29
    without were at risk"."""
    for numeral in [each for each in printed.numerals if AT_RISK in each.words]:
        has_more = Kind.PERCENT in printed.kinds[numeral.piece :]
        if has_more and _is_beside_its_share(printed, numeral):
            _give_on(printed, numeral)
        _give_to_those_before(printed, numeral)


def _give_on(printed: Printed, numeral: Numeral) -> None:
    """To the one bare count behind each later share of the sentence."""
    behind = printed.numerals[numeral.index + 1 :]
    end = next((at for at in range(numeral.piece, len(printed.kinds)) if printed.kinds[at] == Kind.STOP), None)
    sentence = [each for each in behind if end is None or each.piece < end]
    shares = [at for at, each in enumerate(sentence) if _is_share(printed, each)]
    for one, other in pairwise([*shares, len(sentence)]):
        counts = [each for each in sentence[one + 1 : other] if _is_bare_count(printed, each)]
        if len(counts) == 1 and not counts[0].words:
            counts[0].words.append(AT_RISK)


def _is_beside_its_share(printed: Printed, numeral: Numeral) -> bool:
    """Whether a share stands before the number, with none but its own spread and its time between."""
    for before in reversed(printed.numerals[: numeral.index]):
        if _is_bare_count(printed, before):
            return False
        if _is_share(printed, before):
            return True
    return False


def _is_share(printed: Printed, numeral: Numeral) -> bool:
    return printed.kind(numeral.piece + 1) == Kind.PERCENT and not numeral.part and numeral.form != "confidence" and (
        printed.kind(numeral.piece - 1) != Kind.ROLE
    )  # fmt: skip


def _is_bare_count(printed: Printed, numeral: Numeral) -> bool:
    is_whole = not (numeral.decimals or numeral.part or numeral.comparator) and numeral.form in ("", "count")
    return is_whole and (numeral.unit == "none" or numeral.unit in printed.lexicon.counts) and (
        printed.kind(numeral.piece + 1) != Kind.PERCENT and printed.kind(numeral.piece - 1) != Kind.LABEL
    )  # fmt: skip


def _give_to_those_before(printed: Printed, numeral: Numeral) -> None:
    """ "With 402 and 97 eyes at risk", "61 sealed eyes and 29 open ones were at risk": both were."""
    at = numeral.index
    while at > 0:
        one, other = printed.numerals[at - 1 : at + 1]
        if one.words or not _is_bare_count(printed, one) or not _joins(printed.kinds[one.piece + 1 : other.piece]):
            return
        one.words.append(AT_RISK)
        at -= 1


_joins = late(pattern("[ADJECTIVE WORD UNIT FILLER]{0,4} ([COMMA] | [COMMA]{0,1} AND) [FILLER]{0,1}")).fullmatch
