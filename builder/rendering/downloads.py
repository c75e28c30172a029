"""What can be taken along: claims as CSV and JSON, sources as BibTeX, the numbers behind each computed figure."""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Iterator

from ..guide.values.document import Blocks, Section, WorkingsSection
from ..guide.values.figures import Working
from ..guide.values.guide import Guide, SourceEntry


def downloads(guide: Guide) -> dict[str, str]:
    """Files below data/ by path, without figures.jsonl, which the ledger writes."""
    out = {
        "data/claims.csv": _claims_csv(guide),
        "data/claims.json": _claims_json(guide),
        "data/sources.bib": _sources_bib(guide),
        "data/standing.json": _standing(guide),
    }
    for working in _workings(guide):
        # The same table stands behind many workings of one page.
        if working.download and working.download not in out:
            rows = [tuple(_safe(cell) for cell in row) for row in working.table]
            if guide.is_demonstration and rows:
                rows = [(*rows[0], "note"), *((*row, _MARK) for row in rows[1:])]
            out[working.download] = _csv(tuple(rows))
    return out


def _workings(guide: Guide) -> Iterator[Working]:
    for page in guide.pages:
        yield from _below(page.blocks)
    for written in guide.written:
        yield from written.workings


def _below(blocks: Blocks) -> Iterator[Working]:
    for block in blocks:
        if isinstance(block, WorkingsSection):
            yield from block.workings
        elif isinstance(block, Section):
            yield from _below(block.blocks)


def _sources_bib(guide: Guide) -> str:
    # BibTeX takes a comment entry for what it is: a mark that travels and changes nothing.
    mark = f"@comment{{{_MARK}}}\n\n" if guide.is_demonstration else ""
    return mark + "\n".join(bibtex_entry(entry) for entry in guide.sources)


def _standing(guide: Guide) -> str:
    """What a lasting copy of an earlier release asks the newest guide for."""
    answer = {
        "release": guide.release,
        "evidence": guide.evidence_date.isoformat(),
        "checked": guide.status_checked.isoformat() if guide.status_checked else None,
        "withdrawn": dict(guide.withdrawn),
    }
    return json.dumps(answer, ensure_ascii=False, indent=1) + "\n"


def _csv(rows: tuple[tuple[str, ...], ...]) -> str:
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows(rows)
    return out.getvalue()


_MARK = "invented for demonstration"


def _claims_csv(guide: Guide) -> str:
    header = ("report", "claim", "level", "questions", "state", "name", "text", "value", "unit", "figure", "note")
    note = _MARK if guide.is_demonstration else ""
    rows: list[tuple[str, ...]] = [header]
    for row in guide.claims:
        start = (row.key, row.claim, row.level, " ".join(row.questions), row.state)
        rows.extend((*start, name, _safe(text), "", "", "", note) for name, text in row.words)
        rows.extend(
            (*start, name, _safe(figure.text), figure.value, figure.unit, figure.id, note)
            for name, figure in row.figures
        )
        if not row.words and not row.figures:
            rows.append((*start, "", "", "", "", "", note))
    return _csv(tuple(rows))


def _safe(text: str) -> str:
    """A text that no spreadsheet takes for a formula (CWE-1236): a quote before a leading =, +, - or @ of words."""
    if text.startswith(("=", "+", "@", "\t", "\r")) or (text[:1] == "-" and not re.fullmatch(r"-[\d.,]+", text)):
        return "'" + text
    return text


def _claims_json(guide: Guide) -> str:
    rows = []
    for row in guide.claims:
        rows.append(
            {
                "report": row.key,
                "claim": row.claim,
                "level": row.level,
                "questions": list(row.questions),
                "state": row.state,
                "words": dict(row.words),
                "figures": {
                    name: {"id": figure.id, "text": figure.text, "value": figure.value, "unit": figure.unit}
                    for name, figure in row.figures
                },
            }
        )
    head = {
        "title": guide.title,
        "release": guide.release,
        "evidence": guide.evidence_date.isoformat(),
        "licence": guide.licence_data,
        "note": _MARK if guide.is_demonstration else "",
        "claims": rows,
    }
    return json.dumps(head, ensure_ascii=False, indent=1) + "\n"


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
