"""A figure of some in so many words, where its passage has one of more for the same outcome, level and time."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from ...numerals.late import late
from ...printed.clauses import Span
from ...printed.some_of_all import MAY_TELL, restricting
from ...reading.report_model import Claim
from ..proving.printed_passage import different_words_in, surroundings_in
from .counted_events import counted, counting
from .events import Judged
from .groupings import SHORT, own_words
from .groups import claimed, is_of_everybody
from .of_fewer import is_of_one_time, may_count, printed_pair, tells_whose, units_beside, whole_before
from .pinned import is_pinned_away
from .tie import Known, Stands, Ties

RULES: dict[str, str] = {
    "figure-of-some": (
        "The words beside the figure say that it is of some, and the passage has one of more for the same outcome, "
        'level and time: "96 of 120 healed; where a tear had been seen, 31 of 45". Type the figure of all, or say in '
        "`within` or `given` whose it is."
    ),
}


def find_some_of_all(claim: Claim, pairs: Sequence[tuple[Stands, Stands]], ties: Ties, known: Known) -> None:
    """Every count of a claim about all that its study holds, or about all of a level."""
    if claim.within:
        return
    finding: _Finding | None = None
    for stands, total in pairs:
        if stands.row.id in ties.asked or stands.reading.table.has_cells:
            continue
        words = _restricting(stands, total)
        if words is None or not is_of_everybody(claim, known.lexicon):
            continue
        finding = finding or _Finding(claim, ties, known)
        finding.find(stands, total, words)


def _restricting(stands: Stands, total: Stands) -> Span | None:
    """The words by which a pair is of some, where the passage has another of more before it."""
    reading = stands.reading
    if next(_of_more(stands, total), None) is None or MAY_TELL.isdisjoint(reading.told(different_words_in)):
        return None
    spans = sorted((each.token.outer_start, max(each.token.end, each.token.outer_end)) for each in (stands, total))
    sentence = reading.told(surroundings_in).sentence(spans[0][0])
    return restricting(reading.passage.text, spans[0], spans[1], sentence)


def _of_more(stands: Stands, total: Stands) -> Iterator[tuple[int, int]]:
    """Places of counts of more than this one before it, each with that of its whole."""
    reading, least = stands.reading, total.token.value
    for at, token in enumerate(reading.tokens):
        if token.start > stands.token.start:
            return
        if at in (stands.at, total.at) or not may_count(token) or token.value < stands.token.value:
            continue
        whole = token.pair if token.part == "events" else whole_before(reading, at) if not token.part else -1
        if whole >= 0 and reading.tokens[whole].value > least:
            yield at, whole


class _Finding:
    """What the numbers of one claim count, and of which levels."""

    def __init__(self, claim: Claim, ties: Ties, known: Known) -> None:
        self.claim, self.ties, self.counting = claim, ties, counting(claim, known)
        self.blocks = self.counting.blocks(ties.scope.name)
        self.own = own_words(claim, ties, known)

    def find(self, stands: Stands, total: Stands, words: Span) -> None:
        """Ask about one number."""
        reading = stands.reading
        if tells_whose(reading, stands.at) or is_pinned_away(stands, words):
            return
        wanted = counted(stands, self.blocks)
        if wanted is None or self._says(stands, words):
            return
        events = self.counting.events(reading).of_counts
        judged = Judged(stands, wanted, events, self.counting.words, self.counting.levels)
        said = judged.said
        if not all(
            judged.against(each) == "" or words[0] <= each.start < words[1] for each in said.own or said.carried
        ):
            return
        for at, whole in _of_more(stands, total):
            own = events.said_of(at).own or events.said_of(at).carried
            is_same = bool(own) and all(judged.against(each) == "" for each in own)
            if is_same and not tells_whose(reading, at) and self._is_alike(stands, total, (at, whole), judged):
                printed = printed_pair(reading, at, whole)
                self.ties.ask(
                    stands, "figure-of-some", f'has it of some ("{stands.printed(words)}"), and "{printed}" of more',
                    claimed(self.claim), "type the figure of all, or add to the claim whose it is:\ngiven: WHOSE",
                )  # fmt: skip
                return

    def _says(self, stands: Stands, words: Span) -> bool:
        """Whether the claim, or its study's population, names these too."""
        said = [word for word in _find_words(stands.printed(words)) if len(word) > SHORT]
        mentions = stands.reading.mentions(self.ties.scope.names) if stands.row.level else ()
        is_level = any(each.key == stands.row.level and words[0] <= each.start < words[1] for each in mentions)
        return is_level or (bool(said) and self.own.says(*said))

    def _is_alike(self, stands: Stands, total: Stands, more: tuple[int, int], judged: Judged) -> bool:
        """Whether a count of more, given with its whole, is of the same unit, level and time."""
        reading, at = stands.reading, more[0]
        other = reading.tokens[more[1]]
        if total.token.unit != other.unit and "none" not in (total.token.unit, other.unit):
            return False
        units = [units_beside(judged, reading, each) for each in (stands.at, at)]
        if units[0] and units[1] and units[0].isdisjoint(units[1]):
            return False
        if stands.row.level:
            owners = reading.owners(self.ties.scope.names)
            own, beside = owners[stands.at], owners[at]
            if beside is None or beside.key != stands.row.level or not beside.is_sure:
                return False
            if own is not None and own.key not in ("", stands.row.level):
                return False
        return is_of_one_time(reading, stands.at, at)


_find_words = late(r"[A-Za-z]+(?:-[a-z]+)*", re.ASCII).findall
