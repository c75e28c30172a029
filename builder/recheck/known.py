"""What the guide can be asked: its numbers by value and by pair, its reports by name, its outcomes by title."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable
from decimal import Decimal
from functools import cached_property

from ..ledger import ledger_rows
from ..records import NamedTuple
from ..results.values.guide import Guide

Pair = tuple[Decimal, Decimal]


class Known(NamedTuple):
    """One number of the guide."""

    id: str
    text: str
    value: Decimal
    unit: str
    source: str
    """Key of the report it was quoted from; "" for a computed one."""
    page: str
    """The page to look it up on, from the root of the site."""
    of: frozenset[str]
    """Keys of the reports that it is from, or was computed from."""

    @property
    def base(self) -> str:
        """What it belongs to: its id without the field."""
        for field in ("/events", "/total", "/rate", "/success_rate"):
            if self.id.endswith(field):
                return self.id.removesuffix(field)
        return re.sub(r"/(?:interval|estimate|contrast|follow_up)/.*$", "", self.id)


class Record:
    """The numbers of one guide, as whoever reads a text beside them asks for them."""

    def __init__(self, guide: Guide) -> None:
        self.rows: dict[str, Known] = {}
        self.by_value: dict[Decimal, list[Known]] = defaultdict(list)
        self.release = guide.release
        for row in ledger_rows(guide):
            known = _known(row)
            self.rows[known.id] = known
            self.by_value[known.value].append(known)
        self._guide = guide

    @cached_property
    def pairs(self) -> dict[Pair, list[tuple[Known, Known]]]:
        """Counts with their whole: "39 of 47"."""
        out: dict[Pair, list[tuple[Known, Known]]] = defaultdict(list)
        for name, events in self.rows.items():
            total = self.rows.get(f"{events.base}/total") if name.endswith("/events") else None
            if total is not None:
                out[events.value, total.value].append((events, total))
        return out

    @cached_property
    def names(self) -> dict[str, tuple[str, str]]:
        """By key of a report: the family name of its first author, or its body, and its year; in small letters."""
        out = {}
        for entry in self._guide.sources:
            reference = entry.reference
            first = reference.authors[0] if reference.authors else None
            name = (first.body or " ".join(filter(None, (first.particle, first.family)))) if first else ""
            out[entry.key] = (name.casefold(), str(reference.date[0]) if reference.date else "")
        return out

    @cached_property
    def numbered(self) -> re.Pattern[str]:
        """A unit that is called by a number, as in a chart: "eye 2"."""
        words = "|".join(re.escape(unit.one) for unit in self._guide.units.values())
        return re.compile(rf"\b(?:{words})\s+\d+\b", re.IGNORECASE)

    @cached_property
    def outcomes(self) -> dict[str, str]:
        """Title of each outcome by its id, in small letters."""
        header, *rows = self._guide.outcomes or ((),)
        place = header.index("title") if "title" in header else 0
        return {row[0]: row[place].casefold() for row in rows}

    @cached_property
    def outcome_of(self) -> dict[str, str]:
        """Id of the outcome that each claim counts, by "key/claim"."""
        out: dict[str, str] = {}
        for row in self._guide.claims:
            outcome = dict(row.words).get("outcome")
            if outcome:
                out[f"{row.key}/{row.claim}"] = outcome
        return out

    def named_in(self, text: str) -> frozenset[str]:
        """Keys of the reports that a line names by first author, and by the year where the line has one behind it."""
        small = text.casefold()
        found: set[str] = set()
        for key, (name, year) in self.names.items():
            for match in re.finditer(rf"(?<!\w){re.escape(name)}(?!\w)", small) if name else ():
                behind = re.match(r"[^\d\n]{0,24}?\b((?:19|20)\d\d)\b", small[match.end() :])
                if behind is None or behind.group(1) == year:
                    found.add(key)
        return frozenset(found)

    def outcomes_in(self, text: str) -> frozenset[str]:
        """Ids of the outcomes whose titles a line has; of titles within one another the longest alone."""
        small = text.casefold()
        spans = [
            (match.start(), match.end(), name)
            for name, title in self.outcomes.items()
            for match in re.finditer(rf"(?<!\w){re.escape(title)}(?!\w)", small)
        ]
        return frozenset(
            name for start, end, name in spans
            if not any(low <= start and end <= high and high - low > end - start for low, high, _ in spans)
        )  # fmt: skip

    def nouns(self, keys: Iterable[str]) -> str:
        """Reports by first author and year, as a message names them."""
        said = (" ".join(filter(None, (self.names.get(key, (key, ""))))) for key in sorted(keys))
        return ", ".join(name.title() for name in said)


def _known(row: dict[str, object]) -> Known:
    proof, shown = row["proof"], row["shown_on"]
    pages = [path for path in shown if path.endswith(".html")] if isinstance(shown, list) else []
    source = str(proof["source"]) if isinstance(proof, dict) else ""
    own = f"sources/{source}/index.html"
    page = own if source and own in pages else next(iter(pages), "")
    derived = row["derived_from"]
    inputs = {name.partition("/")[0] for name in derived} if isinstance(derived, list) else set()
    return Known(
        str(row["id"]), str(row["text"]), Decimal(str(row["value"])), str(row["unit"]), source,
        page.removesuffix("index.html"), frozenset((source,)) if source else frozenset(inputs),
    )  # fmt: skip
