"""A figure of some, where its passage has one of more for the same outcome, level and time."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from ...numerals import Token
from ...numerals.late import in_small, late
from ...reading.report_model import Claim
from ..asking import collapsed
from ..proving.printed_passage import Reading, surroundings_in, times_in
from .counted_events import counted, counting
from .events import Judged
from .groups import claimed, is_of_everybody
from .tie import Known, Stands, Ties
from .units import of_analysis

RULES: dict[str, str] = {
    "figure-of-fewer": (
        "The passage has two figures for the outcome of the claim, under the same level and at no other time, and the "
        'claim has the one of fewer: "healed were 70 of 92; of the smokers, who fared worse, 16 of 25". A claim '
        "without `within` and `given` speaks of all. Type the figure of all, or say in `within` or `given` whose it is."
    ),
}


def find_of_fewer(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """Every count of a claim about all that its study holds."""
    claim = ties.scope.claim
    if claim is None or claim.within or claim.quotes is not None or not is_of_everybody(claim, known.lexicon):
        return
    finding: _Finding | None = None
    for stands in standing:
        if stands.row.name != "events" or stands.token.pair < 0 or stands.row.id in ties.asked:
            continue
        if _is_of_another_pair(stands, ties):
            continue
        of_more = list(_of_more(stands, has_levels=claim.factor is not None or bool(claim.levels)))
        if of_more:
            finding = finding or _Finding(claim, ties, known)
            finding.find(stands, of_more)


def _is_of_another_pair(stands: Stands, ties: Ties) -> bool:
    """Whether the total typed is another than the one printed, which is asked about as a pair."""
    printed, block = stands.reading.tokens[stands.token.pair].value, stands.row.id.rpartition("/")[0]
    return any(
        row.name == "total" and row.id.rpartition("/")[0] == block and row.value != printed for row in ties.scope.quoted
    )


def _of_more(stands: Stands, *, has_levels: bool) -> Iterator[tuple[int, int]]:
    """Places of the counts that are of more than this one, each with that of its whole.

    has_levels: false where the whole may stand apart too: "of 130 eyes 104 had healed".
    """
    tokens = stands.reading.tokens
    own_total = tokens[stands.token.pair]
    for at, token in enumerate(tokens):
        if at in (stands.at, stands.token.pair) or not may_count(token):
            continue
        whole = (
            token.pair
            if token.part == "events"
            else -1
            if token.part or has_levels
            else whole_before(stands.reading, at)
        )
        is_apart = whole != stands.token.pair and token.value != own_total.value
        if whole >= 0 and is_apart and _may_hold((token, tokens[whole]), (stands.token, own_total)):
            yield at, whole


def _may_hold(more: tuple[Token, Token], fewer: tuple[Token, Token]) -> bool:
    """Whether a count may be of all of whom another is of some: of more, with no fewer on either side of it. Of two
    lists told one behind the other, "3, 5 and 8 of 60, 57 and 62", none holds the next."""
    (events, total), (own, own_total) = more, fewer
    is_list = events.start < own.start < total.start < own_total.start
    is_list |= own.start < events.start < own_total.start < total.start
    rest, own_rest = total.value - events.value, own_total.value - own.value
    return total.value > own_total.value and events.value >= own.value and rest >= own_rest and not is_list


class _Finding:
    """What the numbers of one claim count, and of which levels."""

    def __init__(self, claim: Claim, ties: Ties, known: Known) -> None:
        self.claim, self.ties, self.counting = claim, ties, counting(claim, known)
        self.blocks = self.counting.blocks(ties.scope.name)
        self.has_levels = claim.factor is not None or bool(claim.levels)

    def find(self, stands: Stands, of_more: Sequence[tuple[int, int]]) -> None:
        """Ask about one number."""
        reading = stands.reading
        wanted = counted(stands, self.blocks)
        if wanted is None or reading.table.has_cells:
            return
        events = self.counting.events(reading).of_counts
        judged = Judged(stands, wanted, events, self.counting.words, self.counting.levels)
        if not self._fits(judged, stands, stands.at) or tells_whose(reading, stands.at):
            return
        for at, whole in of_more:
            is_same = self._fits(judged, stands, at) and not tells_whose(reading, at)
            if is_same and self._is_alike(stands, at, whole, judged):
                printed = printed_pair(reading, at, whole)
                self.ties.ask(
                    stands, "figure-of-fewer", f'has "{printed}" for the same, of more, and gives no other time',
                    claimed(self.claim), "type the figure of all, or add to the claim whose it is:\ngiven: WHOSE",
                )  # fmt: skip
                return

    def _fits(self, judged: Judged, stands: Stands, at: int) -> bool:
        """Whether the words beside a count, which stands alone in its clause, speak of the outcome alone; of a level
        those do too that it goes on from."""
        reading, said = stands.reading, judged.events.said_of(at)
        is_loose = not self.has_levels
        is_pair = bool(reading.tokens[at].part)
        near = said.own or (said.carried if stands.row.level or (is_loose and is_pair) else ())
        low, high = reading.told(surroundings_in).clause(reading.tokens[at].start)
        counts = sum(low <= each.start < high and each.part == "events" for each in reading.tokens)
        is_alone = counts == 1 or bool(stands.row.level) or is_loose
        is_own = is_loose and at == stands.at
        return (bool(near) or is_own) and is_alone and all(judged.against(each) == "" for each in near)

    def _is_alike(self, stands: Stands, at: int, whole: int, judged: Judged) -> bool:
        """Whether a count of more is of the same unit, level and time."""
        reading = stands.reading
        tokens, names = reading.tokens, self.ties.scope.names
        other = tokens[whole]
        if not self._counts_alike(stands, at, other, judged):
            return False
        if stands.row.level:
            owners = reading.owners(names)
            both = owners[stands.at], owners[at]
            if any(owner is None or not owner.is_sure or owner.key != stands.row.level for owner in both):
                return False
            totals = sum(each.row.value for each in self.ties.standing if each.row.name == "total")
            if other.value >= totals:
                return False
        return is_of_one_time(reading, stands.at, at)

    def _counts_alike(self, stands: Stands, at: int, other: Token, judged: Judged) -> bool:
        """Whether no word says that two counts are of different units."""
        reading, own = stands.reading, stands.reading.tokens[stands.token.pair]
        if own.unit != other.unit and "none" not in (own.unit, other.unit):
            return False
        units = [units_beside(judged, reading, each) for each in (stands.at, at)]
        if units[0] != units[1] and (self.has_levels or (units[0] and units[1] and units[0].isdisjoint(units[1]))):
            return False
        analysed = [reading.told(of_analysis)[each] for each in (stands.at, at)]
        if len({each.key for each in analysed if each is not None}) > 1:
            return False
        return self.has_levels or not _heads(stands, at)


def _heads(stands: Stands, at: int) -> bool:
    """Whether each of two counts stands under a word of its own: "By grafts: 38 of 246. By patients: 31 of 140"."""
    around, text = stands.reading.told(surroundings_in), stands.reading.passage.text
    found = [_match_head(text, around.clause(stands.reading.tokens[each].start)[0]) for each in (stands.at, at)]
    return all(found) and len({each["head"].lower() for each in found if each is not None}) > 1


def printed_pair(reading: Reading, at: int, whole: int) -> str:
    """A count and its whole as printed, in the order of the passage: "96 of 120"."""
    first, last = sorted((reading.tokens[at], reading.tokens[whole]), key=lambda each: each.start)
    return collapsed(reading.passage.text[first.outer_start : last.outer_end])


def units_beside(judged: Judged, reading: Reading, at: int) -> set[str]:
    """What is counted by the words of a number's part of its sentence."""
    low, high = judged.events.layout.part(reading.tokens[at].start)
    unit_by_word = reading.lexicon.unit_by_word
    inside = (word.text.partition("-")[0] for word in judged.events.words if low <= word.start < high)
    return {unit_by_word[word] for word in inside if word in unit_by_word}


def is_of_one_time(reading: Reading, at: int, other: int) -> bool:
    """Whether no word says that two counts are of different times."""
    times = reading.told(times_in)
    known, beside = times.of(at), times.of(other)
    if known is not None and beside is not None:
        return known[0] == beside[0]
    own, others = (_times_beside(reading, reading.tokens[each]) for each in (at, other))
    return max(len(own), len(others)) <= 1 and own <= others


def _times_beside(reading: Reading, token: Token) -> frozenset[str]:
    """The times that the clause of a number names, or its sentence where the clause names none."""
    around = reading.told(surroundings_in)
    for span in (around.clause(token.start), around.sentence(token.start)):
        found = frozenset(each.key for each in reading.told(times_in).mentions if span[0] <= each.start < span[1])
        if found:
            return found
    return frozenset()


def tells_whose(reading: Reading, at: int) -> bool:
    """Whether the clause of a number speaks of this report, or of another one."""
    low, high = reading.told(surroundings_in).clause(reading.tokens[at].start)
    return _find_whose(reading.passage.text, low, high) is not None


_find_whose = in_small(
    r"\b(?:our|ours|own|we|us|present|here|sensitivity|worst|imput\w*|"
    r"this(?= (?:time|country|region|centre|center|hospital|work|report|paper|material))|"
    r"other|others|another|earlier|previous|al|authors?|co-workers|stud(?:y|ies)|"
    r"trials?|series|cohorts?|surveys?|hospitals?|controls?|register|registry|animals?|dogs?|rats?|minipigs?|pigs?|sheep|rabbits?|monkeys?|beagles?|(?:19|20)\d\d)\b"
).search  # fmt: skip


def may_count(token: Token) -> bool:
    """Whether a number may count."""
    return token.kind in ("count", "number") and not token.decimals


def whole_before(reading: Reading, at: int) -> int:
    """The place of the 120 of "Of 120 eyes, seen at 2 years, 96 had healed"; -1 where none leads to the number."""
    text, token = reading.passage.text, reading.tokens[at]
    for place in range(at - 1, max(at - _STEPS, -1), -1):
        whole = reading.tokens[place]
        if _find_stop(text, whole.end, token.start) is not None:
            return -1
        if may_count(whole) and whole.unit not in ("year", "month", "week", "day") and whole.value > token.value:
            begin = max(whole.outer_start - _BEFORE, 0)
            leads = _ends_in_of(text, begin, whole.outer_start) or _is_done_to(text, whole.end, token.start)
            return place if not whole.part and leads is not None else -1
    return -1


_STEPS = 4
"""Numbers before one that are looked at."""
_match_head = late(r"\s*(?:by\s+|per\s+)?(?P<head>[a-z]+):", re.IGNORECASE).match
_find_stop = late(r"[;\n]|\.(?=\s)|\bof\s+$", re.IGNORECASE).search
_ends_in_of = late(
    r"(?:^|[.;:(]\s*)(?:(?:out )?(?:of|among|in)\s+)?(?:the|all|a total of|our)?\s*$", re.IGNORECASE
).search
_is_done_to = late(
    r"\s*(?:[a-z-]+\s+){1,4}?(?:were|had been)\s+[a-z]+ed\b[^.;\d]{0,30}(?:,|\band\b|\bof (?:which|whom|these)\b)"
    r"\s*(?:of (?:which|whom|these)\s+)?",
    re.IGNORECASE,
).fullmatch
""" "150 eyes were treated and 120 healed"."""
_BEFORE = 24
