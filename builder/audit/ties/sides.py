"""The shares or means of two levels beside their ratio or difference, and on which side these put it."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from ...numerals import Token
from ...reading.contrasts import RATIOS
from ...reading.folded import folded
from ...reading.report_model import Claim, Contrast, Level
from ...reading.values import Missing, Number, Percentage, Words
from ...records import NamedTuple
from ..printed.clauses import Span
from ..printed.wordings import Names
from ..proving.field_roles import Quoted
from .tie import Known, Stands, Ties


class Shares(NamedTuple):
    """How many of each of two levels had an event."""

    level: str
    reference: str
    """As printed: "58 of 82"."""
    level_has_more: bool
    is_clear: bool
    """False where the two are so near that a model or a rounding may turn them."""
    of: str
    """good or bad: which event they count."""
    words: tuple[Span, ...] = ()
    """Where they stand in the ratio's passage; nowhere where another claim of the report has them."""
    claim: str = ""
    values: tuple[Decimal, Decimal] = (Decimal(0), Decimal(0))
    """The two shares, 0 to 1."""
    is_wide: bool = False
    """Whether the two differ so much that what else is held constant hardly turns them."""


class _Share(NamedTuple):
    shown: str
    value: Decimal
    """0 to 1."""
    words: tuple[Span, ...] = ()


_CLEAR, _WIDE = Decimal("0.02"), Decimal("0.05")


def shares_beside(
    stands: Stands, claim: Claim, ties: Ties, known: Known, names: Names, keys: tuple[str, str]
) -> Shares | None:
    """The shares of a ratio's level and reference: of its own claim, in its passage, or of another claim of the
    report by the same factor, outcome and people."""
    outcome = known.outcomes.get(claim.outcome.text)
    if outcome is None or not all(keys):
        return None
    side = "good" if outcome.good else "bad"
    printed = _absolute(claim)
    if printed is not None:
        return printed
    for holder in (claim, *_alike(claim, ties)):
        found = [_of_level(holder, key) for key in keys]
        if found[0] is not None and found[1] is not None:
            return _shares(found[0], found[1], side, "" if holder is claim else holder.id.text)
    found = [_in_passage(stands, names, key, side) for key in keys]
    if found[0] is None or found[1] is None:
        return None
    return _shares(found[0], found[1], side)


def reckoned(shares: Shares, contrast: Contrast, value: Decimal, decimals: int) -> str:
    """Which ratio of two shares is the printed one: "own", "turned" for the other way round, or ""."""
    event = contrast.event_is.text if contrast.event_is is not None else ""
    one, two = (share if shares.of == event else 1 - share for share in shares.values)
    own, turned = (_measured(contrast.measure.text, *pair) for pair in ((one, two), (two, one)))
    return "" if own is None or turned is None else _nearer(own, turned, value, decimals)


def side_of(shares: Shares, contrast: Contrast, row: Quoted) -> str:
    """Which way round two shares have a ratio as typed: "own", "turned", or "" where they leave it open."""
    none = 1 if contrast.measure.text in RATIOS else 0
    if row.value == none or contrast.event_is is None or not shares.is_clear:
        return ""
    is_share = row.unit == "%"
    found = reckoned(shares, contrast, row.value / 100 if is_share else row.value, row.decimals + 2 * is_share)
    if found:
        return found
    of_event = shares.level_has_more == (shares.of == contrast.event_is.text)
    is_decided = type(contrast.adjusted_for) is Words or (shares.is_wide and type(contrast.adjusted_for) is Missing)
    return "own" if of_event == (row.value > none) else "turned" if is_decided else ""


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


def _shares(level: _Share, reference: _Share, side: str, claim: str = "") -> Shares:
    return Shares(
        level.shown, reference.shown, level.value > reference.value, abs(level.value - reference.value) >= _CLEAR, side,
        (*level.words, *reference.words), claim, (level.value, reference.value),
        abs(level.value - reference.value) >= _WIDE,
    )  # fmt: skip


def _alike(claim: Claim, ties: Ties) -> Iterator[Claim]:
    """Other claims of the report that count the same outcome by the same factor in the same people at the same time."""
    report = ties.scope.report
    for other in report.claims if report is not None else ():
        if (
            other is not claim
            and other.levels
            and other.outcome.text == claim.outcome.text
            and getattr(other.factor, "text", "") == getattr(claim.factor, "text", "")
            and {name.text for name in other.study} == {name.text for name in claim.study}
            and [(each.factor.text, each.level.text) for each in other.within]
            == [(each.factor.text, each.level.text) for each in claim.within]
            and getattr(other.given, "text", "") == getattr(claim.given, "text", "")
        ):
            yield other


def _of_level(claim: Claim, key: str) -> _Share | None:
    """The share of a level as typed."""
    for level in claim.levels:
        if folded(level.level.text) == folded(key):
            return _typed(level)
    return None


def _typed(level: Level) -> _Share | None:
    events, total = level.events, level.total
    if type(events) is Number and type(total) is Number and total.value > 0:
        return _Share(f"{events.text} of {total.text}", Decimal(events.value) / Decimal(total.value))
    for rate in (level.rate, level.success_rate):
        if type(rate) is Percentage:
            return _Share(rate.text, rate.value / 100)
    return None


def _in_passage(stands: Stands, names: Names, key: str, side: str) -> _Share | None:
    """The one share that the passage gives to a level and that counts the claim's own outcome."""
    reading = stands.reading
    owners, tokens = reading.owners(names), reading.tokens
    found: list[_Share] = []
    for at, owner in enumerate(owners):
        token = tokens[at]
        if owner is None or owner.key != key or not owner.is_sure or _is_of_other_side(token, side):
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
