"""A count that its passage makes up of two events: "44 of 58 (36 healed, 8 healing)", typed as one of them."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from ...numerals import Token
from ...printed.clauses import Span
from ...printed.event_mentions import EventMention
from ...printed.footnotes import note_of
from ...reading.report_model import Claim
from .counted_events import counted, counting
from .events import Judged
from .tie import Known, Stands, Ties

RULES: dict[str, str] = {
    "count-of-several-events": (
        "The passage makes the count up of several events, and only one of them is the claim's outcome: "
        '"favourable: 44 (healed 36, healing 8)" typed as 44 healed. Type the count of the outcome alone, or an '
        "outcome that means all of them."
    ),
}
_REACH = 160
"""Characters behind a count in which its parts stand."""
_MOST = 3


def find_made_up(claim: Claim, pairs: Sequence[tuple[Stands, Stands]], ties: Ties, known: Known) -> None:
    """Every count of events behind which others stand that add up to it."""
    finding: _Finding | None = None
    for stands, _ in pairs:
        if stands.token.value < _LEAST or stands.reading.cells()[stands.at] is not None:
            continue
        parts = _parts(stands)
        if parts and stands.row.id not in ties.asked:
            finding = finding or _Finding(claim, ties, known)
            finding.find(stands, parts)


_LEAST = 2


def _parts(stands: Stands) -> Sequence[int]:
    """Places of the counts straight behind a number, or in its footnote, that add up to it."""
    reading, token = stands.reading, stands.token
    tokens, text = reading.tokens, reading.passage.text
    last = max(stands.at, token.pair)
    end = max(tokens[last].end, tokens[last].outer_end)
    found = _adding_up(range(last + 1, len(tokens)), end + _REACH, tokens, token.value)
    note = _note(text, token, end) if not found else None
    if note is None:
        return found
    inside = [at for at, each in enumerate(tokens) if each.start >= note[0]]
    return _adding_up(inside, note[1], tokens, token.value)


def _note(text: str, token: Token, end: int) -> Span | None:
    """The footnote of a number, or of the word before it: "Favourable†: 44". end: of the number or its pair."""
    note = note_of(text, end)
    before = text[max(token.outer_start - 6, 0) : token.outer_start].rstrip(" :=,(")
    if note is None and before[-1:] in _MARKS:
        note = note_of(text, text.rindex(before[-1], 0, token.outer_start))
    return note


_MARKS = tuple("*†‡§¶#ᵃᵇᶜᵈ")


def _adding_up(places: Sequence[int], stop: int, tokens: Sequence[Token], whole: Decimal) -> Sequence[int]:
    """The first two or three counts before a place of the text, where they add up."""
    found: list[int] = []
    summed = Decimal(0)
    for at in places:
        each = tokens[at]
        if each.start >= stop or len(found) == _MOST:
            break
        if each.kind not in ("count", "number") or each.part or each.decimals or not 0 < each.value < whole:
            continue
        found.append(at)
        summed += each.value
        if summed >= whole:
            break
    return found if summed == whole and len(found) > 1 else ()


def _is_loose(mention: EventMention, judged: Judged) -> bool:
    """Whether words tell of less than a strict outcome: "healing", "reduced in size"."""
    said = judged.text[mention.start : mention.end].lower()
    return judged.wanted.strictness == "strict" and (mention.meaning.kind == "improving" or said == "healing")


class _Finding:
    """What the numbers of one claim count."""

    def __init__(self, claim: Claim, ties: Ties, known: Known) -> None:
        self.ties, self.counting = ties, counting(claim, known)
        self.blocks = self.counting.blocks(ties.scope.name)

    def find(self, stands: Stands, parts: Sequence[int]) -> None:
        """Ask where one part is the outcome in so many words, and another is something else."""
        wanted = counted(stands, self.blocks)
        if wanted is None or not wanted.outcome:
            return
        events = self.counting.events(stands.reading).of_counts
        judged = Judged(stands, wanted, events, self.counting.words, self.counting.levels)
        own = other = None
        for at in parts:
            said = events.said_of(at).own
            if said and all(judged.against(each) == "" and not _is_loose(each, judged) for each in said):
                own = own or said[0]
            elif said and any(judged.against(each) == "event-other" or _is_loose(each, judged) for each in said):
                other = other or said[0]
        if own is not None and other is not None:
            words = stands.printed((own.start, own.end), (other.start, other.end))
            self.ties.ask(
                stands, "count-of-several-events", f'makes it up of several: "{words}"',
                f'the claim counts "{wanted.title}"', "type the count of that outcome alone, or correct `outcome`",
            )  # fmt: skip
