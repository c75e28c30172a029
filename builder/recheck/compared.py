"""Each number of a text beside the guide: there and of the same thing, there by other words, changed, or not there."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Literal

from ..numerals import Token, read_numerals
from ..records import NamedTuple
from .documents import Document, WrittenLine
from .known import Known, Record

Verdict = Literal["in this guide", "not tied", "words differ", "changed since", "not in this guide"]

TO_MEND: frozenset[Verdict] = frozenset(("words differ", "changed since", "not in this guide"))
"""What somebody has to look at before the text is shown."""


class Checked(NamedTuple):
    """One number of a text, or numbers that are one thing: "39 of 47 (83%)"."""

    place: str
    text: str
    """As printed there."""
    line: str
    verdict: Verdict
    says: str
    """What is known of it, in plain words."""
    ids: tuple[str, ...] = ()
    page: str = ""
    """Where in the guide it is looked up; "" where it stands nowhere."""


class _Said(NamedTuple):
    """Numbers of a line that are one thing."""

    tokens: tuple[Token, ...]
    pair: tuple[Decimal, Decimal] | None

    @property
    def start(self) -> int:
        return self.tokens[0].outer_start

    @property
    def end(self) -> int:
        return self.tokens[-1].outer_end


def checked_numbers(document: Document, record: Record) -> Iterator[Checked]:
    """Every number of a text that may be a result, in the order of the text."""
    for line in document.lines:
        if not _is_reference(line.text):
            yield from _of_line(line, document, record)


def _is_reference(text: str) -> bool:
    """A whole bibliographic reference: behind its number, with a DOI or a volume and pages."""
    has_place = re.search(r"\bdoi\b|10\.\d{4,9}/|\b(?:19|20)\d\d[^.]{0,12};\s?\d+", text, re.IGNORECASE)
    return has_place is not None and re.match(r"\s*\[?\d{1,3}[\].]?\s|\s*[^\W\d]+ [A-Z]{1,3}[,.;]", text) is not None


# Numbers that are no result: dates, years, addresses, references in brackets, numbers of slides, tables and lists,
# what a release or a level of confidence is.
_NO_RESULT = re.compile(
    r"\b\d{4}-\d\d-\d\d\b|\b10\.\d{4,9}/\S+|https?://\S+|\[\d{1,3}(?:\s?[,–-]\s?\d{1,3})*\]"
    r"|^\s*\d{1,2}[.)](?=\s)|\b(?:release|version|slide|page|table|figure|fig\.|pp?\.|step|no\.)\s+\d[\d.–-]*"
    r"|\b\d{1,2}(?:st|nd|rd|th)\b|\b\d{2,3}\s?%(?=\s*(?:CI\b|confidence))|\b\d{2,3}\s?%(?=\s*prediction)"
    r"|\b\d{1,2}[:.]\d\d\s?(?:am|pm|h)\b",
    re.IGNORECASE,
)


def _of_line(line: WrittenLine, document: Document, record: Record) -> Iterator[Checked]:
    left_out = [match.span() for found in (_NO_RESULT, record.numbered) for match in found.finditer(line.text)]
    named = record.named_in(line.text)
    tokens = read_numerals(line.text)
    groups = [said for said in _groups(tokens, line.text) if not _is_no_result(said, left_out, line.text, record)]
    # What the line's counts belong to: its other numbers are looked for there first.
    bases = frozenset(
        events.base
        for said in groups
        if said.pair is not None
        for events, _ in record.pairs.get(said.pair, ())
        if not named or events.source in named
    )
    for said in groups:
        verdict, says, found = _judged(said, line.text, named, bases, document, record)
        yield Checked(
            line.place, _printed(said, line.text), line.text, verdict, says,
            tuple(row.id for row in found), found[0].page if found else "",
        )  # fmt: skip


def _printed(said: _Said, text: str) -> str:
    """As it stands there, with the bracket that opened in it."""
    found = text[said.start : said.end]
    return f"{found})" if found.count("(") > found.count(")") and text[said.end :].startswith(")") else found


def _is_no_result(said: _Said, left_out: Sequence[tuple[int, int]], text: str, record: Record) -> bool:
    first = said.tokens[0]
    if any(start < said.end and said.start < end for start, end in left_out) or first.kind in (
        "calendar",
        "confidence",
    ):
        return True
    is_year = len(said.tokens) == 1 and re.fullmatch(r"(?:19|20)\d\d", first.text) is not None
    if is_year and (first.unit == "none" or record.named_in(text)):
        return True
    # "One study", "two visits": words, and nothing that somebody looks up.
    return said.pair is None and not any(char.isdigit() for token in said.tokens for char in token.text)


def _groups(tokens: Sequence[Token], text: str) -> Iterator[_Said]:
    """Counts with their whole, and the share that follows them in brackets, as one; each other number by itself."""
    index = 0
    while index < len(tokens):
        token = tokens[index]
        is_pair = token.part == "events" and token.pair == index + 1
        if is_pair or _is_turned(tokens, index, text):
            whole = tokens[index + 1]
            members = [token, whole]
            share = tokens[index + 2] if index + 2 < len(tokens) else None
            if share is not None and share.unit == "%" and share.start - whole.end < 24 and share.kind == "percent":
                members.append(share)
            yield _Said(tuple(members), (token.value, whole.value))
            index += len(members)
            continue
        yield _Said((token,), None)
        index += 1


def _is_turned(tokens: Sequence[Token], index: int, text: str) -> bool:
    """True of "47 of 39", which no reader of print takes for a share."""
    if index + 1 >= len(tokens):
        return False
    first, second = tokens[index], tokens[index + 1]
    is_one = re.fullmatch(r"\s*(?:(?:out )?of(?: the)?|/)\s*", text[first.outer_end : second.outer_start]) is not None
    return is_one and first.value > second.value and "%" not in (first.unit, second.unit)


def _judged(
    said: _Said, text: str, named: frozenset[str], bases: frozenset[str], document: Document, record: Record
) -> tuple[Verdict, str, list[Known]]:
    if said.pair is not None:
        return _judged_pair(said, text, named, document, record)
    return _judged_alone(said.tokens[0], text, named, bases, document, record)


def _judged_pair(
    said: _Said, text: str, named: frozenset[str], document: Document, record: Record
) -> tuple[Verdict, str, list[Known]]:
    assert said.pair is not None
    events, total = said.pair
    every = record.pairs.get(said.pair, [])
    mine = [pair for pair in every if not named or pair[0].source in named]
    if not every:
        return _missing_pair(events, total, named, document, record)
    if not mine:
        whose = record.nouns({pair[0].source for pair in every})
        return "words differ", f"these counts are of {whose}, whom this line does not name", list(every[0])
    fits = [pair for pair in mine if _outcome_fits(pair[0], text, record)]
    if not fits:
        return "words differ", _other_outcome(mine[0][0], text, record), list(mine[0])
    shares = [token for token in said.tokens if token.unit == "%"]
    for share in shares:
        # The printed share of these counts, or one that follows from them at the precision it is given.
        exact = 100 * events / total if total else Decimal(0)
        printed = [row for pair in fits if (row := _share_of(pair[0], record)) is not None]
        step = Decimal(1).scaleb(-share.decimals)
        if abs(exact - share.value) > step / 2 and share.value not in [row.value for row in printed]:
            said_share = f"; the report prints {printed[0].text}" if printed else ""
            return "words differ", f"{share.text}% is not the share of these counts{said_share}", list(fits[0])
    whose = record.nouns({pair[0].source for pair in fits})
    return "in this guide", f"counted by {whose}", list(fits[0])


def _share_of(events: Known, record: Record) -> Known | None:
    return record.rows.get(f"{events.base}/rate") or record.rows.get(f"{events.base}/success_rate")


def _missing_pair(
    events: Decimal, total: Decimal, named: frozenset[str], document: Document, record: Record
) -> tuple[Verdict, str, list[Known]]:
    turned = record.pairs.get((total, events))
    if turned:
        return "words differ", f"turned round: the guide has {total} of {events}", list(turned[0])
    old = _given_pairs(document, record).get((events, total))
    if old is not None:
        now = [record.rows.get(f"{old}/{field}") for field in ("events", "total")]
        known = [row for row in now if row is not None]
        if len(known) == 2:
            return "changed since", f"now {known[0].text} of {known[1].text}", known
        return "changed since", "it stands in the guide no longer", []
    near = [pair for pair in _pairs_with(events, total, record) if not named or pair[0].source in named]
    if near and named:
        first, second = near[0]
        return "not in this guide", f"{record.nouns({first.source})} has {first.text} of {second.text}", []
    return "not in this guide", "no report here has these counts", []


def _pairs_with(events: Decimal, total: Decimal, record: Record) -> list[tuple[Known, Known]]:
    return [
        found for (first, second), rows in record.pairs.items() for found in rows
        if (first == events) != (second == total)
    ]  # fmt: skip


def _given_pairs(document: Document, record: Record) -> dict[tuple[Decimal, Decimal], str]:
    """Counts as the document was given them, by what they belong to, where the guide has others now."""
    out: dict[tuple[Decimal, Decimal], str] = {}
    for name, text in document.given.items():
        base = name.removesuffix("/events")
        total = document.given.get(f"{base}/total")
        if base != name and total is not None:
            numbers = [_number(text), _number(total)]
            if numbers[0] is not None and numbers[1] is not None:
                out[numbers[0], numbers[1]] = base
    return out


def _number(text: str) -> Decimal | None:
    tokens = read_numerals(text)
    return tokens[0].value if tokens else None


def _judged_alone(
    token: Token, text: str, named: frozenset[str], bases: frozenset[str], document: Document, record: Record
) -> tuple[Verdict, str, list[Known]]:
    rows = [row for row in record.by_value.get(token.value, ()) if _unit_fits(token, row)]
    tied = _tied(rows, token, named, bases, document)
    if tied:
        return _judged_tied(tied, token, text, bases, record)
    old = [name for name, before in document.given.items() if _is_old(name, before, token, record)]
    if old:
        now = record.rows.get(old[0])
        return "changed since", f"now {now.text}" if now else "it stands in the guide no longer", [now] if now else []
    others = record.nouns({row.source for row in rows if row.source})
    if named and others and token.unit in ("%", "none"):
        return "words differ", f"not of {record.nouns(named)}; of {others}", rows[:1]
    if rows and not named:
        says = "a number like it stands in the guide; nothing in this line says that it is the same"
        return "not tied", says, rows[:1]
    whose = f" of {record.nouns(named)}" if named else ""
    return "not in this guide", f"no number{whose} here is this one", []


def _tied(
    rows: Sequence[Known], token: Token, named: frozenset[str], bases: frozenset[str], document: Document
) -> list[Known]:
    """Of numbers like it those that the line speaks of: beside its counts, of its reports, or given to the document."""
    of_counts = {base.partition("/")[0] for base in bases}
    ways = (
        (row for row in rows if row.base in bases),
        (row for row in rows if row.of & named),
        (row for row in rows if row.of & of_counts),
        (row for row in rows if row.id in document.given and not (named and row.source)),
        # A number of several digits behind its point, computed here, is hardly met by chance.
        (row for row in rows if not row.source and not named and token.decimals and token.value > 1),
    )
    return next((found for way in ways if (found := list(way))), [])


def _judged_tied(
    tied: Sequence[Known], token: Token, text: str, bases: frozenset[str], record: Record
) -> tuple[Verdict, str, list[Known]]:
    first = tied[0]
    if token.unit == "%" and not _outcome_fits(first, text, record):
        return "words differ", _other_outcome(first, text, record), [first]
    whose = record.nouns({row.source for row in tied if row.source})
    is_alone = token.unit == "%" and first.base not in bases and first.source
    counts = _counts_of(first, record) if is_alone else ""
    beside = f"; say of how many: {counts}" if counts else ""
    return "in this guide", (f"of {whose}" if whose else "computed here") + beside, [first]


def _is_old(name: str, before: str, token: Token, record: Record) -> bool:
    now = record.rows.get(name)
    return _number(before) == token.value and (now is None or now.value != token.value)


def _counts_of(row: Known, record: Record) -> str:
    events, total = record.rows.get(f"{row.base}/events"), record.rows.get(f"{row.base}/total")
    return f"{events.text} of {total.text}" if events is not None and total is not None else ""


def _unit_fits(token: Token, row: Known) -> bool:
    """Per cent with per cent, lengths with lengths; a bare number with whatever is counted."""
    if token.unit == "%" or row.unit == "%":
        return token.unit == row.unit or (row.unit == "%" and token.kind == "interval")
    if token.unit in ("day", "week", "month", "year", "mm", "minute"):
        return token.unit == row.unit
    return True


def _outcome_fits(row: Known, text: str, record: Record) -> bool:
    """False where the line has the title of another outcome and not that of what was counted."""
    told = record.outcomes_in(text)
    own = record.outcome_of.get("/".join(row.id.split("/")[:2]))
    if not told or own is None or own in told or not row.source:
        return True
    # "Healed" of what is called "healed at the site" is short, and not wrong.
    return any(record.outcomes[name] in record.outcomes[own] for name in told)


def _other_outcome(row: Known, text: str, record: Record) -> str:
    own = record.outcomes.get(record.outcome_of.get("/".join(row.id.split("/")[:2]), ""), "another outcome")
    told = ", ".join(sorted(record.outcomes[name] for name in record.outcomes_in(text)))
    return f'in the guide it is of "{own}", and this line says "{told}"'
