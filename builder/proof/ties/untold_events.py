"""Numbers of which the passage says what nobody knows as the claim's outcome, where it names the outcome of others."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from ...compiled_patterns import compiled
from ...numerals import Token
from ...numerals.late import late
from ...printed.clauses import Span
from ...printed.event_mentions import EventMention
from ...printed.predicates import Predicates, beside_a_ratio, is_taken_up, says_something, told_of
from ...reading.report_model import Claim
from ...reading.values import Words
from ...synthesis.rounding import is_share_of
from ..asking import collapsed, in_quotes
from ..proving.printed_passage import Reading, different_words_in, surroundings_in, times_in
from .counted_events import Counted, counted, counting
from .events import Judged, places_of
from .tie import Known, Stands, Ties

RULES: dict[str, str] = {
    "event-not-named": (
        'The passage gives another number to the outcome of the claim, and says something else of this one: "60 of 64 '
        'were in function, 51 of 64 had healed", with 60 typed as healed. Type the number that the passage gives to '
        "the outcome, or correct `outcome`; where the paper means the outcome by these words, quote them in `as`."
    ),
}  # fmt: skip

_EVENTS = frozenset({"events", "rate", "success_rate", "value"})
"""Fields that count an event, means and medians left out."""
_OF_COUNTS, _OF_RATIOS = ("count", "number", "percent"), ("ratio", "number")
"""Kinds of number that may be of the same kind of figure."""
_opens_bracket = compiled(r"\s*[(\[][^()\[\]]*").fullmatch
"""What stands before the share or the interval of a number itself."""
_ends_pair = compiled(r"(?:\s+[a-z]+){0,3}\s*[(\[]").fullmatch
"""What stands between a pair and its share: "53 of 74 eyes (72%)"."""
_find_words = late(r"[a-z]+").findall


def find_untold_events(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """Every number that counts an event, where no word for it stands beside the number and one does beside another."""
    claim = ties.scope.claim
    finding: _Finding | None = None
    if claim is None:
        return
    for stands in standing:
        if stands.row.name not in _EVENTS or stands.row.id in ties.asked or next(_others(stands), None) is None:
            continue
        if stands.reading.told(_predicates).may_tell:
            finding = finding or _Finding(claim, ties, known)
            finding.find(stands)


def _others(stands: Stands) -> Iterator[int]:
    """Places of the numbers that may be another one of the kind: neither its pair, nor its share, nor the pair that it
    is the share of."""
    tokens, token, text = stands.reading.tokens, stands.token, stands.reading.passage.text
    low, high = token.start, token.outer_end
    if token.pair >= 0:
        pair = tokens[token.pair]
        low, high = min(low, pair.start), max(high, pair.outer_end)
    kinds = _OF_RATIOS if token.kind == "ratio" else _OF_COUNTS
    for at, other in enumerate(tokens):
        if other.kind not in kinds or other.part == "total":
            continue
        start = other.start
        if (start < low or (start >= high and not _opens_bracket(text[high:start]))) and not _is_of_one_figure(
            text, tokens, *sorted((at, stands.at))
        ):
            yield at


def _is_of_one_figure(text: str, tokens: Sequence[Token], first: int, last: int) -> bool:
    """Whether the first of two numbers is the pair of which the last is the share: "53 of 74 eyes (72%)"."""
    events, share = tokens[first], tokens[last]
    if share.kind != "percent" or events.part != "events" or last != max(first, events.pair) + 1:
        return False
    total = tokens[events.pair]
    between = text[max(events.outer_end, total.outer_end) : share.start]
    return _ends_pair(between) is not None and is_share_of(share.value, share.decimals, events.value, total.value)


def _predicates(reading: Reading) -> Predicates:
    """What is said of the numbers of a passage; for `Reading.told`."""
    text, words, lexicon = reading.passage.text, reading.told(different_words_in), reading.lexicon
    return Predicates(text, reading.tokens, reading.told(surroundings_in), words, lexicon.unit_by_word)


class _Finding:
    """What the numbers of one claim count, and the words that say so."""

    def __init__(self, claim: Claim, ties: Ties, known: Known) -> None:
        self.ties, self.counting = ties, counting(claim, known)
        given = claim.given.text if type(claim.given) is Words else ""
        self.given = frozenset(_find_words(given.casefold()))
        """The words by which the claim says of whom it speaks."""
        self.blocks = self.counting.blocks(ties.scope.name)

    def find(self, stands: Stands) -> None:
        """Ask about one number."""
        wanted = counted(stands, self.blocks)
        if wanted is None:
            return
        in_table = stands.reading.cells()[stands.at] is not None
        told = None if in_table else self._told(stands)
        if told is None and not in_table:
            return
        events = self.counting.events(stands.reading)
        if not stands.block.endswith("/contrast"):
            events = events.of_counts
        judged = Judged(stands, wanted, events, self.counting.words, self.counting.levels)
        said = judged.said
        if said.own or any(
            judged.against(each) == "" for each in (said.carried if said.is_settled or in_table else ())
        ):
            return
        beside = self._beside(stands, judged)
        if beside is None:
            return
        other, fitting = beside
        if in_table:
            told = self._told_in_table(stands, fitting)
        if told is None or self._is_own(stands, told, judged, wanted):
            return
        text = stands.reading.passage.text
        printed = collapsed(text[slice(*told)])
        self.ties.ask(
            stands, "event-not-named",
            f'says "{printed}" of it, and "{stands.printed(fitting)}" of {other.shown or other.text}',
            f'the claim counts "{wanted.title}"',
            "type the number of that outcome, or correct `outcome`; where the paper means it by these words, quote "
            f"them in the claim:\nas: {in_quotes(printed)}",
        )  # fmt: skip

    def _told(self, stands: Stands) -> Span | None:
        """What is said of a number; where it is only taken up, "of the 88, 70 healed", what was said of it before."""
        reading, at = stands.reading, stands.at
        text, tokens = reading.passage.text, reading.tokens
        places = [at]
        if stands.token.pair < 0:
            places += [each for each in reading.by_value[stands.token.value] if tokens[each].kind == stands.token.kind]
        for place in places:
            said_there = reading.told(_predicates).at(place)
            if said_there is not None:
                return told_of(text, said_there, self._passing(reading), reading.lexicon.unit_by_word)
            if not is_taken_up(text, tokens[place].start):
                return None
        return None

    def _passing(self, reading: Reading) -> Callable[[], list[Span]]:
        """Where a passage names levels and times."""

        def spans() -> list[Span]:
            times = reading.told(times_in).mentions
            names = self.ties.scope.names
            mentions = (*times, *(reading.mentions(names) if names else ()))
            return [*places_of(reading.small, self.counting.levels), *((each.start, each.end) for each in mentions)]

        return spans

    def _beside(self, stands: Stands, judged: Judged) -> tuple[Token, Span] | None:
        """Another number that the words beside it give to the outcome, with these words."""
        for at in _others(stands):
            fitting = next((each for each in self._said_of(stands, judged, at) if judged.against(each) == ""), None)
            if fitting is not None:
                return stands.reading.tokens[at], (fitting.start, fitting.end)
        return None

    def _said_of(self, stands: Stands, judged: Judged, at: int) -> Sequence[EventMention]:
        """The words for events that are another number's own."""
        reading = stands.reading
        token = reading.tokens[at]
        if stands.token.kind != "ratio" or reading.cells()[at] is not None:
            return judged.events.said_of(at).own
        sentence = reading.told(surroundings_in).sentence(token.start)
        beside = beside_a_ratio(reading.passage.text, token, sentence)
        if beside is None:
            return ()
        return [each for each in judged.events.mentions if each.start < beside[1] and beside[0] < each.end]

    def _told_in_table(self, stands: Stands, fitting: Span) -> Span | None:
        """What the head of the number's row says, where heads of rows name the outcome; else that of its column."""
        reading = stands.reading
        cell = reading.cells()[stands.at]
        if cell is None:
            return None
        heads = [line.cells[0] for line in reading.table.lines if line.cells]
        if any(head.start <= fitting[0] < head.end for head in heads):
            over: tuple[Span, ...] = (reading.table.lines[cell.row].cells[0],)
        else:
            over = () if stands.block.endswith("/contrast") else cell.headings
        for cell_of_words in over:
            own = cell_of_words[0], cell_of_words[1]
            told = says_something(reading.passage.text, own, self._passing(reading), reading.lexicon.unit_by_word)
            if told and not own[0] <= fitting[0] < own[1]:
                return own
        return None

    def _is_own(self, stands: Stands, told: Span, judged: Judged, wanted: Counted) -> bool:
        """Whether the words hold those of the outcome or of the level, or those that a reader quoted for it."""
        low, high = told
        names = self.ties.scope.names
        owner = stands.reading.owners(names)[stands.at] if names else None
        if owner is not None and any(start < high and low < end for start, end in owner.words):
            return True
        if any(each.start < high and low < each.end and judged.against(each) == "" for each in judged.events.mentions):
            return True
        printed = collapsed(stands.reading.passage.text[low:high]).casefold()
        if self.given and set(_find_words(printed)) <= self.given:  # "Completers only: 24 of 71"
            return True
        quoted = (" ".join(words.text.split()).casefold() for words in wanted.said_as)
        return any(words in printed or printed in words for words in quoted)
