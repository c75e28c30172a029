"""The shares or means of two levels beside their ratio or difference, and on which side these put it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from decimal import Decimal
from functools import partial

from ...numerals import Token
from ...printed.clauses import Span
from ...printed.wordings import Names
from ...reading.contrasts import RATIOS
from ...reading.folded import folded
from ...reading.model import Outcome
from ...reading.report_model import Claim, Contrast, Level
from ...reading.values import Missing, Number, Percentage, Words
from ...records import NamedTuple
from ...synthesis.contrast import TwoByTwo
from ..clear_sides import clear_side, is_clear
from ..declared_names import FactorWording
from ..figures_of import count
from ..follow_ups import follow_up_of, may_be_one_time
from ..proving.field_roles import Quoted
from ..two_ends import are_two_ends
from .counted_events import Counting, counting
from .tie import Known, Stands, Ties


class Shares(NamedTuple):
    """How many of each of two levels had an event."""

    level: str
    reference: str
    """As printed: "58 of 82"."""
    values: tuple[Decimal, Decimal]
    """The two shares, 0 to 1."""
    of: str
    """good or bad: which event they count."""
    words: tuple[Span, ...] = ()
    """Where they stand in the ratio's passage; nowhere where a claim of the report has them."""
    claims: tuple[str, ...] = ()
    """Ids of the other claims of the report that have them, with their lines: "by-size (line 12)"."""
    clear_side: int = 0
    """1 where the level has more events than chance alone usually gives, -1 fewer, 0 where that is open or no count
    tells."""
    is_one_time: bool = True
    """False where they were counted at another time than the ratio."""

    @property
    def level_has_more(self) -> bool:
        """Whether the level's share is the larger."""
        return self.values[0] > self.values[1]

    @property
    def is_clear(self) -> bool:
        """False where the two are so near that a model or a rounding may turn them."""
        return abs(self.values[0] - self.values[1]) >= _CLEAR

    @property
    def is_wide(self) -> bool:
        """Whether the two differ so much that what else is held constant hardly turns them."""
        return abs(self.values[0] - self.values[1]) >= _WIDE


class _Share(NamedTuple):
    shown: str
    value: Decimal
    """0 to 1."""
    words: tuple[Span, ...] = ()
    counts: tuple[int, int] | None = None
    """Events and total, where both are known."""


PREVENTED = "prevented fraction"
_CLEAR, _WIDE = Decimal("0.02"), Decimal("0.05")


def shares_beside(
    stands: Stands, claim: Claim, ties: Ties, known: Known, names: Names, keys: tuple[str, str]
) -> Shares | None:
    """The shares of a ratio's level and reference: of its own claim, of other claims of the report by the same factor,
    outcome and people, or in its passage."""
    outcome = known.outcomes.get(claim.outcome.text)
    if outcome is None or not all(keys):
        return None
    side = "good" if outcome.good else "bad"
    printed = _absolute(claim)
    if printed is not None:
        return printed
    factor = known.factors.get(claim.factor.text) if claim.factor is not None else None
    own = [_of_level(claim, {folded(key)}) or _of_like_level(claim, key, factor) for key in keys]
    if own[0] is not None and own[1] is not None:
        return _shares(own[0], own[1], side)
    counted = counted_elsewhere(claim, ties, known, keys, outcome)
    if counted is not None:
        return counted
    said = partial(_side_said, counting(claim, known), stands)
    for of in (side, "bad" if side == "good" else "good"):
        level, reference = (_in_passage(stands, names, key, of, said, is_own=of == side) for key in keys)
        if level is not None and reference is not None:
            return _shares(level, reference, of)
    return None


def counted_elsewhere(claim: Claim, ties: Ties, known: Known, keys: tuple[str, str], outcome: Outcome) -> Shares | None:
    """What other claims of the report count of the two levels; both in one claim before each in one of its own, and
    those of the ratio's time before those of another."""
    alike = list(_alike(claim, ties, known, outcome))
    if not alike:
        return None
    factor = known.factors.get(claim.factor.text) if claim.factor is not None else None
    called = [_also_called(key, factor) for key in keys]
    for of_time in (True, False):
        rows = [
            [(holder, row) for holder in of_outcome if (row := _of_level(holder, words)) is not None]
            for of_outcome in _by_outcome(alike, claim, ties, is_one_time=of_time)
            for words in called
        ]
        for levels, references in zip(rows[::2], rows[1::2], strict=True):
            pairs = [(one, two) for one in levels for two in references]
            pairs.sort(key=lambda pair: pair[0][0] is not pair[1][0])
            if pairs:
                (holder, level), (other, reference) = pairs[0]
                named = dict.fromkeys(f"{each.id.text} (line {each.position.line})" for each in (holder, other))
                good = known.outcomes[holder.outcome.text].good
                found = _shares(level, reference, "good" if good else "bad", tuple(named))
                return found._replace(is_one_time=of_time)
    return None


def _by_outcome(alike: Sequence[Claim], claim: Claim, ties: Ties, *, is_one_time: bool) -> Iterator[list[Claim]]:
    """The claims of the ratio's own outcome, then those of its opposite."""
    report = ties.scope.report
    if report is None:
        return
    own = follow_up_of(claim, report)
    timed = [each for each in alike if may_be_one_time(own, follow_up_of(each, report)) is is_one_time]
    yield [each for each in timed if each.outcome.text == claim.outcome.text]
    yield [each for each in timed if each.outcome.text != claim.outcome.text]


def _also_called(key: str, factor: FactorWording | None) -> set[str]:
    """Every wording, folded, by which the vocabulary has the level that a claim calls so."""
    plain = folded(key)
    for called in factor.called.values() if factor is not None else ():
        if plain in called.folded:
            return {plain, *called.folded}
    return {plain}


def reckoned(shares: Shares, contrast: Contrast, value: Decimal, decimals: int) -> str:
    """Which ratio of two shares is the printed one: "own", "turned" for the other way round, "opposite" for that of the
    other event, or ""."""
    event = contrast.event_is.text if contrast.event_is is not None else ""
    one, two = (share if shares.of == event else 1 - share for share in shares.values)
    measure = contrast.measure.text
    own, turned = (_measured(measure, *pair) for pair in ((one, two), (two, one)))
    if own is None or turned is None:
        return ""
    found = _nearer(own, turned, value, decimals)
    opposite = _measured(measure, 1 - one, 1 - two)
    if found or opposite is None:
        return found
    return "opposite" if _nearer(own, opposite, value, decimals) == "turned" else ""


def side_of(shares: Shares, contrast: Contrast, row: Quoted) -> str:
    """Which way round two shares have a ratio as typed: "own"; "turned" or "opposite" where it is that of the levels
    exchanged or of the other event; "" where they leave it open."""
    none = 1 if contrast.measure.text in RATIOS else 0
    if row.value == none or contrast.event_is is None or not shares.is_clear:
        return ""
    is_share = row.unit == "%"
    found = reckoned(shares, contrast, row.value / 100 if is_share else row.value, row.decimals + 2 * is_share)
    if found or not shares.is_one_time:
        return found
    of_event = shares.level_has_more == (shares.of == contrast.event_is.text)
    # A prevented fraction counts the events that did not come.
    is_above = (row.value > none) != (contrast.measure.text == PREVENTED)
    if of_event == is_above:
        return "own"
    is_decided = type(contrast.adjusted_for) is Words or (shares.is_wide and type(contrast.adjusted_for) is Missing)
    return "turned" if is_decided or (shares.clear_side and is_clear(contrast)) else ""


def reckoned_from_means(stands: Stands, names: Names, keys: tuple[str, str]) -> str:
    """The same of a difference and the first measured number that the passage gives to each of its two levels."""
    reading = stands.reading
    owners = reading.owners(names)
    means: list[Decimal] = []
    for key in keys:
        of_level = [
            token
            for at, token in enumerate(reading.tokens)
            if at != stands.at and (owner := owners[at]) is not None and owner.key == key and _is_mean(token)
        ]
        if not of_level:
            return ""
        means.append(of_level[0].value)
    difference = means[0] - means[1]
    return _nearer(difference, -difference, stands.row.value, stands.row.decimals)


def _is_mean(token: Token) -> bool:
    return not token.part and (token.kind in ("size", "minutes") or (token.kind == "number" and token.decimals > 0))


def _measured(measure: str, one: Decimal, two: Decimal) -> Decimal | None:
    if measure == "risk difference":
        return one - two
    if measure == PREVENTED:
        return 1 - one / two if two else None
    if not 0 < one < 1 or not 0 < two < 1:
        return None
    if measure == "risk ratio":
        return one / two
    return one / (1 - one) / (two / (1 - two)) if measure == "odds ratio" else None


_NEAR = Decimal("0.04")


def _nearer(own: Decimal, turned: Decimal, value: Decimal, decimals: int) -> str:
    """Which of two results a printed one is, to four per cent and its own last place."""
    off = Decimal(1).scaleb(-decimals)
    fits = [abs(each - value) <= max(off, _NEAR * abs(value)) for each in (own, turned)]
    return "own" if fits[0] and not fits[1] else "turned" if fits[1] and not fits[0] else ""


def _absolute(claim: Claim) -> Shares | None:
    """The two risks that a review prints beside a ratio."""
    contrast = claim.contrast
    absolute = contrast.absolute if contrast is not None else None
    if contrast is None or absolute is None or contrast.event_is is None or type(absolute.per) is not Number:
        return None
    if type(absolute.level) is not Number or type(absolute.reference) is not Number:
        return None
    per = absolute.per
    level, reference = (
        _Share(f"{each.text} per {per.text}", each.value / per.value) for each in (absolute.level, absolute.reference)
    )
    return _shares(level, reference, contrast.event_is.text)


def _shares(level: _Share, reference: _Share, side: str, claims: tuple[str, ...] = ()) -> Shares:
    clear = 0
    if level.counts is not None and reference.counts is not None:
        clear = clear_side(TwoByTwo(*level.counts, *reference.counts))
    return Shares(
        level.shown, reference.shown, (level.value, reference.value), side,
        words=(*level.words, *reference.words), claims=claims, clear_side=clear,
    )  # fmt: skip


def _alike(claim: Claim, ties: Ties, known: Known, outcome: Outcome) -> Iterator[Claim]:
    """Other claims of the report that count the same outcome or its opposite in the same people by the same factor."""
    report = ties.scope.report
    for other in report.claims if report is not None else ():
        if (
            other is not claim
            and other.levels
            and getattr(other.factor, "text", "") == getattr(claim.factor, "text", "")
            and _is_alike(known.outcomes.get(other.outcome.text), outcome)
            and {name.text for name in other.study} == {name.text for name in claim.study}
            and [(each.factor.text, each.level.text) for each in other.within]
            == [(each.factor.text, each.level.text) for each in claim.within]
            and getattr(other.given, "text", "") == getattr(claim.given, "text", "")
        ):
            yield other


def _is_alike(one: Outcome | None, other: Outcome) -> bool:
    return one is not None and (one.id == other.id or (one.good != other.good and are_two_ends(one, other)))


def _of_level(claim: Claim, words: set[str]) -> _Share | None:
    """The share of a level as typed. words: what it may be called, folded."""
    for level in claim.levels:
        if folded(level.level.text) in words:
            return _typed(level)
    return None


def _of_like_level(claim: Claim, key: str, factor: FactorWording | None) -> _Share | None:
    """That of the one level that the vocabulary knows as the same: "A group" for "A"."""
    meant = factor.matches(key) if factor is not None else ()
    if factor is None or not meant:
        return None
    alike = [level for level in claim.levels if factor.matches(level.level.text) == meant]
    return _typed(alike[0]) if len(alike) == 1 else None


def _typed(level: Level) -> _Share | None:
    events, total = level.events, level.total
    if type(events) is Number and type(total) is Number and 0 < total.value >= events.value:
        shown, share = f"{events.text} of {total.text}", Decimal(events.value) / Decimal(total.value)
        some, of = count(events), count(total)
        return _Share(shown, share, counts=(some, of) if some is not None and of is not None and some <= of else None)
    for rate in (level.rate, level.success_rate):
        if type(rate) is Percentage:
            return _Share(rate.text, rate.value / 100)
    return None


def _side_said(of_claim: Counting, stands: Stands, at: int) -> str:
    """Which way the words around a number of the ratio's passage go: good or bad, or "" where they do not say."""
    block = of_claim.blocks(stands.block.partition("/contrast")[0])
    wanted = next(iter(block.values()), None)
    said = of_claim.events(stands.reading).of_counts.said_of(at)
    near = [mention for mention in said.own or said.carried if wanted is not None and wanted.may_be(mention.meaning)]
    sides = {mention.side for mention in near}
    return sides.pop() if len(sides) == 1 else ""


def _in_passage(
    stands: Stands, names: Names, key: str, side: str, said: Callable[[int], str], *, is_own: bool
) -> _Share | None:
    """The one share that the passage gives to a level and that counts the claim's own outcome, or its opposite.

    is_own: whether side is that of the claim's outcome, which is meant where the passage does not say.
    """
    reading = stands.reading
    owners, tokens = reading.owners(names), reading.tokens
    found: list[_Share] = []
    for at, owner in enumerate(owners):
        token = tokens[at]
        if owner is None or owner.key != key or not owner.is_sure or _is_of_other_side(token, side):
            continue
        if token.part == "total" or said(at) not in (side, "" if is_own else side):
            continue
        if token.part == "events":
            total = tokens[token.pair]
            if total.value:
                low, high = min(token.start, total.start), max(token.end, total.end)
                shown = stands.printed((low, high))
                found.append(_Share(shown, token.value / total.value, ((low, high),)))
        elif token.kind == "percent" and not token.part and not found:
            found.append(_Share(token.shown, token.value / 100, ((token.start, token.end),)))
    return found[0] if found else None


def _is_of_other_side(token: Token, side: str) -> bool:
    other = "bad" if side == "good" else "good"
    return other in token.roles and side not in token.roles
