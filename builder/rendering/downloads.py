"""What can be taken along: claims as CSV and JSON, outcomes and studies, sources as BibTeX, the numbers of workings."""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Callable, Iterable, Iterator
from functools import partial

from ..results.values.guide import CLAIM_WORDS, ClaimRow, Guide, Rows, SourceEntry


def downloads(guide: Guide) -> dict[str, Callable[[], Iterator[str]]]:
    """What writes each file below data/, by its path, without figures.jsonl, which the ledger writes."""
    out: dict[str, Callable[[], Iterator[str]]] = {
        "data/claims.csv": partial(_claims_csv, guide),
        "data/claim-words.csv": partial(_words_csv, guide),
        "data/outcomes.csv": partial(_table, guide.outcomes, guide.is_demonstration),
        "data/studies.csv": partial(_table, guide.studies, guide.is_demonstration),
        "data/claims.json": partial(_claims_json, guide),
        "data/sources.bib": partial(_sources_bib, guide),
        "data/standing.json": partial(_standing, guide),
    }
    out.update((path, partial(_behind_workings, guide, path)) for path in guide.tables)
    return out


def _behind_workings(guide: Guide, path: str) -> Iterator[str]:
    table = guide.tables[path]
    if not guide.is_demonstration or "part" not in table[0]:
        yield from _table(table, guide.is_demonstration)
        return
    # A table that tells of itself in rows is marked by one of them, and not in each of hundreds.
    mark = {"part": "note", "what": _MARK}
    yield from _table((table[0], tuple(mark.get(name, "") for name in table[0]), *table[1:]), False)


def _table(table: Rows, is_demonstration: bool) -> Iterator[str]:
    rows = [tuple(_safe(cell) for cell in row) for row in table]
    if is_demonstration and rows:
        rows = [(*rows[0], "note"), *((*row, "" if index else _MARK) for index, row in enumerate(rows[1:]))]
    yield _csv(rows)


def _sources_bib(guide: Guide) -> Iterator[str]:
    # BibTeX takes a comment entry for what it is: a mark that travels and changes nothing.
    between = f"@comment{{{_MARK}}}\n\n" if guide.is_demonstration else ""
    last: tuple[str, ...] = ()
    for entry in guide.sources:
        if entry.strings and entry.strings != last:
            # Before the entries of each file anew, since another file may have given a name another meaning.
            last = entry.strings
            yield between + "".join(f"{text.strip()}\n" for text in last)
            between = "\n"
        yield between + bibtex_entry(entry)
        between = "\n"


def _standing(guide: Guide) -> Iterator[str]:
    """What a lasting copy of an earlier release asks the newest guide for."""
    answer = {
        "release": guide.release,
        "evidence": guide.evidence_date.isoformat(),
        "checked": guide.status_checked.isoformat() if guide.status_checked else None,
        "withdrawn": dict(guide.withdrawn),
    }
    yield json.dumps(answer, ensure_ascii=False, indent=1) + "\n"


def _csv(rows: Iterable[tuple[str, ...]]) -> str:
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows(rows)
    return out.getvalue()


_MARK = "invented for demonstration"


def _claims_csv(guide: Guide) -> Iterator[str]:
    yield _csv([("report", "claim", "level", "questions", "state", "name", "text", "value", "unit", "note")])
    for row, note in _with_mark(guide):
        yield _csv(_lines_of(row, note))


def _with_mark(guide: Guide) -> Iterator[tuple[ClaimRow, str]]:
    """Rows of claims, the first of each report with the mark of a demonstration: in all it was a quarter of a file."""
    last = ""
    for row in guide.claims:
        yield row, _MARK if guide.is_demonstration and row.key != last else ""
        last = row.key


def _lines_of(row: ClaimRow, note: str) -> Iterator[tuple[str, ...]]:
    """One line a number of the claim, or one that says that it has none; the note stands in the first.

    Report, claim, level and name are the steps of the figure's id, which is not said once more.
    """
    start = _start(row)
    for name, figure in row.figures:
        yield (*start, name, _safe(figure.text), figure.value, figure.unit, note)
        note = ""
    if not row.figures:
        yield (*start, "", "", "", "", note)


def _start(row: ClaimRow) -> tuple[str, ...]:
    return (row.key, row.claim, row.level, " ".join(row.questions), row.state)


def _words_csv(guide: Guide) -> Iterator[str]:
    """One line a claim or level with its words; `note` is the mark in every table, so that a claim's own is renamed."""
    names = (
        f"claim {name}" if name == "note" else "level as printed" if name == "level" else name for name in CLAIM_WORDS
    )
    yield _csv([("report", "claim", "level", "questions", "state", *names, "note")])
    for row, note in _with_mark(guide):
        words = dict(row.words)
        yield _csv([(*_start(row), *(_safe(words.get(name, "")) for name in CLAIM_WORDS), note)])


def _safe(text: str) -> str:
    """A text that no spreadsheet takes for a formula (CWE-1236): a quote before a leading =, +, - or @ of words."""
    if text.startswith(("=", "+", "@", "\t", "\r")) or (text[:1] == "-" and not re.fullmatch(r"-[\d.,]+", text)):
        return "'" + text
    return text


def _claims_json(guide: Guide) -> Iterator[str]:
    """One claim or level a line: what a program reads whole and a person searches needs no indents."""
    head = {
        "title": guide.title,
        "release": guide.release,
        "evidence": guide.evidence_date.isoformat(),
        "licence": guide.licence_data,
        "note": _MARK if guide.is_demonstration else "",
        "outcomes": _by_id(guide.outcomes),
        "studies": _by_id(guide.studies),
    }
    yield _json(head).removesuffix("}") + ',"claims":['
    between = "\n"
    for row in guide.claims:
        yield between + _json(_nested(row))
        between = ",\n"
    yield "\n]}\n"


def _by_id(table: Rows) -> dict[str, dict[str, str]]:
    return {row[0]: dict(zip(table[0][1:], row[1:], strict=True)) for row in table[1:]}


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))


def _nested(row: ClaimRow) -> dict[str, object]:
    figures = {
        name: [figure.value, figure.unit, *([figure.text] if figure.text != figure.value else ())]
        for name, figure in row.figures
    }
    return {
        "report": row.key,
        "claim": row.claim,
        "level": row.level,
        "questions": list(row.questions),
        "state": row.state,
        "words": dict(row.words),
        "figures": figures,
    }


# What stands in an entry but is not ours to publish: paths of somebody's disk, and the publisher's abstract.
_NOT_PUBLISHED = ("file", "abstract")


def bibtex_entry(entry: SourceEntry) -> str:
    """The entry as typed, without what must not be republished; of a retracted report the passages stay out too."""
    text = entry.raw
    for name in (*_NOT_PUBLISHED, *(("annotation", "annote") if entry.is_retracted else ())):
        text = _without_field(text, name)
    return text.rstrip() + "\n"


def _without_field(raw: str, name: str) -> str:
    """The entry without one field, the rest untouched; braces and quotes are counted, not guessed."""
    match = re.search(rf"(?<![\w-]){name}\s*=\s*", raw, re.IGNORECASE)
    if match is None:
        return raw
    end = _value_end(raw, match.end())
    while end < len(raw) and raw[end] in " \t":
        end += 1
    if end < len(raw) and raw[end] == ",":
        end += 1
    start = match.start()
    rest = raw[end:]
    if rest.startswith("\n"):
        start = len(raw[:start].rstrip(" \t"))
        rest = rest[1:]
    return raw[:start] + rest


def _value_end(raw: str, start: int) -> int:
    depth = 0
    in_quotes = False
    for index in range(start, len(raw)):
        char = raw[index]
        if char == "\\":
            continue
        if raw[index - 1] == "\\" and char in '{}"':
            continue
        if char == '"' and depth == 0:
            in_quotes = not in_quotes
        elif char == "{":
            depth += 1
        elif char == "}":
            if depth == 0:
                return index
            depth -= 1
        elif char == "," and depth == 0 and not in_quotes:
            return index
    return len(raw)
