"""What each field of the form asks of the number that proves it, and a number as typed."""

from __future__ import annotations

from decimal import Decimal

from ...numerals import Lexicon
from ...printed.wordings import Names
from ...problems import Position
from ...reading.report_model import Claim, Report, Study
from ...reading.values import Words
from ...records import NamedTuple


class Role(NamedTuple):
    """What a field of the form asks of the number that proves it."""

    kind: str
    """count, percent, interval, length, ratio, measured, spread, p, confidence, bound or number."""
    own: str
    """The role that a word in the passage may show for this field; where one number there has it, no other proves the
    field."""
    accepts: frozenset[str]
    """Roles, by `Token.roles`, that do not speak against the field."""
    shares: str
    """Fields of one claim with equal `shares` may be proved by one number; "" never, "part" only where it is printed
    once for each."""
    refuses: frozenset[str] = frozenset()
    """Roles that speak against the field whatever else is said."""


class Quoted(NamedTuple):
    """One number of a claim or study as typed."""

    id: str
    position: Position
    name: str
    """Of the field in the form: "total"."""
    typed: str
    """The whole value as typed: "12 months", "62% to 80%"."""
    value: Decimal
    decimals: int
    unit: str
    """Of the public interface; "" for a count whose unit no study of this report tells."""
    role: Role
    where: Words
    comparator: str = ""
    leads: bool = False
    """True for the first of two that are printed as a pair: events and total, the two ends of an interval or follow-
    up."""
    level: str = ""
    """The wording of the level it stands under."""
    part: str = ""
    """low or high, of an interval, a follow-up or a level with two bounds."""
    side: str = ""
    """good or bad: which way the outcome that is counted goes; a word for the other side refuses the number."""
    within_words: tuple[Words, ...] = ()
    """The words of the passage (`in_words`) that hold it; () where the whole passage does."""
    strays: bool = False
    """True where a number outside these words proves it too, if none inside does: they were quoted for another block,
    or it is a number in the wording of a level."""


class InPassing(NamedTuple):
    """Words of a claim whose numbers must stand in the passage and prove nothing."""

    name: str
    words: Words
    where: Words


class Scope(NamedTuple):
    """The numbers of one claim, or of one study's facts: within it one printed number proves one field."""

    name: str
    """key/claim or key/studies/id."""
    quoted: list[Quoted]
    in_passing: list[InPassing]
    wordings: tuple[str, ...]
    """The levels' wordings, as the passage may have them."""
    lexicon: Lexicon
    """The words of the trade."""
    named: frozenset[str] = frozenset()
    """Roles that the claim's own words are about: beside a number they say nothing against it."""
    claim: Claim | None = None
    """None where the numbers are a study's facts."""
    study: Study | None = None
    """None where they are a claim's."""
    report: Report | None = None
    names: Names = ()
    """What the passages may call the levels."""
    alike: frozenset[str] = frozenset()
    """Units of which each that was counted had, or was in, one: "patient", where each had one eye treated."""


_FLOW = frozenset({"eligible", "treated", "due", "examined"})
_EVENTS = frozenset(
    {"good", "bad", "lost", "dropped out", "extracted", "died", "discontinued", "only", "both", "neither"}
)
_TOTALS = _FLOW | {"n", "starting", "good", "bad", "at risk"}
_WHO = _FLOW | {"who"}
"""Roles of people beside a ratio or P value: it counts nobody, and "2.64 for smokers" is of a level."""
_LOSSES = ("lost", "discontinued", "died", "extracted")

_IQR = frozenset({"iqr"})
_ADJUSTED, _CRUDE = frozenset({"adjusted"}), frozenset({"crude"})

ROLES: dict[str, Role] = {
    "events": Role("count", "", _EVENTS | {"n"}, ""),
    "total": Role("count", "", _TOTALS | _EVENTS, "units"),
    "candidate": Role("count", "", _TOTALS | _EVENTS, ""),
    "rate": Role("percent", "", _EVENTS | _FLOW, ""),
    "interval": Role("interval", "", _EVENTS | _WHO | {"low", "high", "adjusted", "crude"}, ""),
    "confidence": Role("confidence", "", frozenset(), "confidence"),
    "covers": Role("count", "", _TOTALS, "units"),
    **{step: Role("count", step, frozenset({step, "n", "good", "bad"}), "units") for step in _FLOW},
    "due": Role("count", "due", frozenset({"due", "n", "good", "bad", "eligible"}), "units"),  # "eligible for recall"
    **{loss: Role("count", loss, frozenset({loss, "n", "bad"}), "") for loss in _LOSSES},
    **{
        loss: Role("count", loss, frozenset({loss, "dropped out", "n", "bad"}), "") for loss in ("lost", "discontinued")
    },
    "extracted_related": Role("count", "extracted", frozenset({"extracted", "n", "bad"}), ""),
    "extracted_other": Role("count", "extracted", frozenset({"extracted", "n", "bad"}), ""),
    "recall": Role("percent", "", _FLOW | {"lost"}, ""),
    "of": Role("count", "", _TOTALS | _EVENTS | {"who"}, "units"),
    "count": Role("count", "", _EVENTS | _FLOW | {"n", "who"}, "part"),
    "share": Role("percent", "", _EVENTS | _FLOW | {"who"}, ""),
    "at": Role("length", "", _EVENTS | _FLOW | {"at risk"}, "at"),
    "tolerance": Role("length", "tolerance", frozenset({"tolerance", "sd", *_FLOW, *_EVENTS}), ""),
    "minimum": Role("length", "minimum", frozenset({"minimum", "range", *_FLOW, *_EVENTS}), "", _IQR),
    "maximum": Role("length", "maximum", frozenset({"maximum", "range", *_FLOW, *_EVENTS}), "", _IQR),
    "mean": Role("length", "mean", frozenset({"mean", *_FLOW, *_EVENTS}), ""),
    "median": Role("length", "median", frozenset({"median", *_FLOW, *_EVENTS}), ""),
    "sd": Role("length", "sd", frozenset({"sd", "mean"}), ""),
    "starting": Role("count", "", _TOTALS, "units"),
    "at_risk": Role("count", "at risk", frozenset({"at risk"}), ""),
    "value": Role("ratio", "", _EVENTS | _WHO | {"adjusted", "crude", "low", "high"}, ""),
    "value, crude": Role("ratio", "", _EVENTS | _WHO | _CRUDE | {"low", "high"}, "", _ADJUSTED),
    "value, adjusted": Role("ratio", "", _EVENTS | _WHO | _ADJUSTED | {"low", "high"}, "", _CRUDE),
    "value, per cent": Role("percent", "", _EVENTS | _WHO | _ADJUSTED | _CRUDE | {"low", "high"}, ""),
    "margin": Role("ratio", "", _EVENTS | {"adjusted", "crude", "low", "high"}, ""),
    "margin, per cent": Role("percent", "", _EVENTS | _WHO | _ADJUSTED | _CRUDE | {"low", "high"}, ""),
    "level mean": Role("measured", "mean", frozenset({"mean", *_FLOW, *_EVENTS}), ""),
    "level sd": Role("measured", "sd", frozenset({"sd"}), "", frozenset({"mean", "median"})),
    "level median": Role("measured", "median", frozenset({"median", *_FLOW, *_EVENTS}), ""),
    "level iqr": Role("spread", "iqr", frozenset({"iqr", "low", "high"}), ""),
    "p": Role("p", "", _EVENTS | _WHO | {"adjusted", "crude", "n"}, ""),
    "studies": Role("count", "", _TOTALS, ""),
    "i2": Role("percent", "i2", frozenset({"i2"}), ""),
    "pooled_sd": Role("percent", "sd", frozenset({"sd"}), ""),
    "both": Role("count", "both", frozenset({"both", "good", "bad"}), ""),
    "only": Role("count", "only", frozenset({"only", "good", "bad"}), ""),
    "neither": Role("count", "neither", frozenset({"neither", "good", "bad"}), ""),
    "per": Role("number", "per", frozenset({"per"}), ""),
    "absolute": Role("number", "", _EVENTS | _TOTALS, ""),
    "bound": Role("bound", "", frozenset(), "bound"),
    "reference": Role("bound", "reference", frozenset(), "bound"),
}
