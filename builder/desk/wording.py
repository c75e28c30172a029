"""What the check says in the words of the desk: fields by their labels, and neither files nor lines nor their notation.

The command tells whoever edits files. At the desk there are fields and passages; where a message ends in something to
type, the desk can type it.
"""

from __future__ import annotations

import re
from collections.abc import Collection
from typing import Any

from ..compiled_patterns import compiled
from ..problems import Problem
from ..records import NamedTuple

_Table = tuple[tuple[re.Pattern[str], str], ...]


def _table(*pairs: tuple[str, str]) -> _Table:
    """Patterns, each with the words in its place."""
    return tuple((compiled(pattern), words) for pattern, words in pairs)


_FILE = r"(?:evidence/)?(?:[\w-]+/)*[\w.-]+\.(?:yaml|bib)(?::\d+)*"
_find_code = compiled(r"`([a-z_]+)(: [^`]*)?`").sub
_SAID = _table(
    (rf" \({_FILE}\)", ""),
    (rf" \({_FILE}, line \d+\)", ""),
    (r" \((?:also )?in line \d+\)| \(line \d+\)", ""),
    (rf" (?:and, )?at {_FILE},?", " and"),
    (r"\b(?:evidence/)?claims/[\w.-]+\.yaml has no claim", "this paper has no claim"),
    (r"\b(?:evidence/)?(?:compendium|vocabulary|urgent)\.yaml has no", "this guide has no"),
    (r"\b(?:evidence/)?questions/ has no file for", "this guide has no question"),
    (r"\bno entry in evidence/sources/ has the key", "this guide has no entry with the key"),
    (r"\bthis file\b", "this paper"),
    (r"are letters for YAML, so they belong to the text", "are read as part of the text"),
    (rf" (?:in|of) {_FILE}", ""),
    (rf"{_FILE}", "this guide"),
)
_KEEPER = "ask whoever keeps this guide to add it"
_OWN_FIELDS = "choose “with its own fields” and fill them in"
_MEND = _table(
    (r"(?:or )?define it under `\w+` of \S+", f"or {_KEEPER}"),
    (r"or add the initials under `\w+` of \S+|or write its file", f"or {_KEEPER}"),
    (r"or (?:add the wording as a synonym in|write it into) \S+", f"or {_KEEPER}"),
    (r"or list it under `studies`", "or add it under “Studies”"),
    (r"correct the day, or move the evidence date in \S+", "correct the day"),
    (r"correct the page here, or `pages` at \S+", "correct the page here, or the pages in the entry"),
    (r", or the passage in [\w.-]+, line \d+", ", or the passage"),
    (r"^\{.*\}$|^(?:or )?type (?:a|the) block: \{.*\}$", _OWN_FIELDS),
    (r"^or type a block: .*$", f"or {_OWN_FIELDS}"),
    (r", or \{[^}]*\}", f", or {_OWN_FIELDS}"),
    (r"delete (?:the|this) line", "leave the field out"),
    (r"^call this file \S+$", "type the key of the entry"),
    (r"with (?:an )?empty list of claims, .*", "say why no claim is drawn from it"),
    (rf"(?: in)? {_FILE}", " of this guide"),
    (r"^id$", "a short name of small letters, digits and hyphens"),
)
_ANSWER = compiled(r"(?:^|\n)(?:[^\n]*answer[^\n]*:\n)?acknowledged:\n[\s\S]*$").sub
_is_answering = compiled(
    r"(?:look at the paper again; )?once it is explained, answer|if it is text of the report"
).match
_find_pairs = compiled(r"(?:^|, (?:or )?)(?:- )?([a-z][a-z_]*): (\"[^\"]*\"|\[[^\]]*\]|[^,\n]+)").findall
_is_pairs = compiled(r"(?:- )?[a-z][a-z_]*: \S.*").fullmatch
_find_meant = compiled(r"(?:^|; |: )did you mean ([^?\n]+)\?$|^write it ([^;:\n]+)$").search
_find_named = compiled(r"^type ([^;:\n]+?)(?:; or .*)$").search
INCOMPLETE = "study-incomplete"
_NO_WORD_OF_THE_FIELD = frozenset(("unknown-field", "date-after-evidence", INCOMPLETE, "checked-by-reader"))
"""Rules whose hint names something else than what to type into the field."""
_is_value = compiled(r"(?!(?:an? |the |id\b|key/|WHY|YOUR)|.*(?: or |…|\.\.\.|: ))[^{}]+").fullmatch

_HELP = _table(
    (r",? by (?:its id in vocabulary\.yaml|the words in its square brackets)", ""),
    (r"may be empty only beside nothing_claimed", "may be empty only where “Nothing claimed” says why"),
    (r"; its message prints the block to paste", "; the question has a button for it"),
    (r"initials of a person listed in compendium\.yaml", "a person of this guide"),
    (r"a title or synonym in vocabulary\.yaml", "a title or synonym of this guide"),
    (r"its name in this file; part of the ids of its figures", "a short name of small letters and hyphens"),
    (r"its id in vocabulary\.yaml", "one of this guide"),
    (r"a block, or the id of a claim of this file that was seen", "its own fields, or another claim that was seen"),
    (r"a block inside may have its own", "what stands inside may have its own"),
    (r"the numbers of this block", "these numbers"),
    (r"that of the block around it", "that of what is around it"),
    (r"or a block that also says", "or its own fields, which also say"),
    (r"(?:the id of the|ids of the) (stud(?:y|ies))", r"the \1"),
    (r"where the file has several", "where there are several"),
    (r"it is answered in the file whose key sorts later", "it is answered in one of the two"),
    (r"the others the id alone", "the others its id alone"),
    (r"of its BibTeX entry, which is also the name of the file", "of its entry"),
)


def helped(schema: Any) -> Any:
    """A schema with what it says of each field in the words of the desk."""
    if isinstance(schema, dict):
        return {
            name: _worded(said, _HELP) if name == "description" and isinstance(said, str) else helped(said)
            for name, said in schema.items()
        }
    return [helped(each) for each in schema] if isinstance(schema, list) else schema


class Told(NamedTuple):
    """A problem as the desk tells it."""

    said: str
    """What was found, a sentence without a full stop."""
    mend: tuple[str, ...]
    """What to do, a line each."""
    put: tuple[tuple[str, str], ...] = ()
    """Fields of the same block with what can be typed into them: ("where", "p. 46, Table 2")."""
    meant: str = ""
    """What can be typed in place of what stands there."""


def label(name: str) -> str:
    """A field as the desk calls it: "known_at" is "Known at"."""
    words = name.replace("_", " ")
    return words[:1].upper() + words[1:]


def told(problem: Problem, fields: Collection[str]) -> Told:
    """fields: names that a field of the claim file may have."""
    said = _worded(problem.message, _SAID)
    lines = [line.strip() for line in _ANSWER("", problem.hint).split("\n") if not _is_answering(line)]
    mend: list[str] = []
    put: list[tuple[str, str]] = []
    meant = ""
    for line in filter(None, lines):
        pairs = _pairs(line, fields if problem.rule != INCOMPLETE else None)
        if pairs:
            between = "; or " if ", or " in line else "; "
            mend.append(between.join(f"{label(name)}: {_worded(value, _MEND)}" for name, value in pairs))
            # What stands for something, "id of an outcome", is no value.
            put += [pair for pair in pairs if _is_value(pair[1])]
            continue
        found = _find_meant(line) or (_find_named(line) if problem.rule.endswith("-unknown") else None)
        if found is not None and problem.rule not in _NO_WORD_OF_THE_FIELD:
            meant = _plain(next(filter(None, found.groups())))
        mend.append(_worded(line, _MEND))
    if problem.severity == "ask" and not mend:
        mend.append("look at the paper again; if it is so, say why")
    return Told(said, tuple(dict.fromkeys(mend)), tuple(dict.fromkeys(put)), meant)


def _pairs(line: str, fields: Collection[str] | None) -> list[tuple[str, str]]:
    """Fields with what to type into them, where a line is nothing else. fields: None for any name."""
    if not _is_pairs(line):
        return []
    found = [(name, _plain(value)) for name, value in _find_pairs(line) if fields is None or name in fields]
    name, _, rest = line.removeprefix("- ").partition(": ")
    # "before, during or after" are all of one field.
    alone = (len(found) == 1 or "{" in line) and bool(found) and found[0][0] == name
    return [(name, _plain(rest))] if alone else found


def _plain(value: str) -> str:
    value = value.strip()
    return value[1:-1] if value[:1] == value[-1:] == '"' and len(value) > 1 else value


def _worded(text: str, pairs: _Table) -> str:
    for pattern, words in pairs:
        text = pattern.sub(words, text)
    return _find_code(lambda found: f"“{label(found[1])}{found[2] or ''}”", text).strip()
