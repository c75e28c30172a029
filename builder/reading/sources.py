"""sources/*.bib: every publication with its passages, once, whatever file it stands in."""

from __future__ import annotations

import re

from ..compiled_patterns import compiled
from ..problems import Position, Problem, error
from .abbreviations import short
from .addresses import refuse_links
from .bibtex import ANNOTATIONS, ENTRY_TYPES, BibFile, RawEntry
from .latex import unknown_commands
from .limits import LOCATOR, NAME, NUMBERS, PASSAGE
from .name_lists import undivided_names
from .names import RESERVED_ADDRESSES
from .passages import doubtful_brackets, locate, page_ranges, pages_named
from .places import Places
from .report_model import Field, Passage, Source

# Links from one entry to another, and what belongs to an entry alone, are not inherited (biblatex manual, appendix B).
_NOT_INHERITED = frozenset(
    ("crossref", "xdata", "xref", "ids", "entryset", "keywords", "label", "options", *ANNOTATIONS)
)
_WHOLE_TYPES = "book collection proceedings reference mvbook mvcollection mvproceedings mvreference"
_WHOLES = frozenset(_WHOLE_TYPES.split())
_PART_TYPES = "inbook bookinbook suppbook incollection suppcollection inproceedings conference inreference"
_PARTS = frozenset(_PART_TYPES.split())
_FROM_WHOLE = {"title": "booktitle", "subtitle": "booksubtitle", "titleaddon": "booktitleaddon"}
_SHOWN_NAMES = """
    author editor title subtitle journal journaltitle booktitle publisher series address location institution
    organization school edition howpublished note
"""
_SHOWN = (*_SHOWN_NAMES.split(), *ANNOTATIONS)
"""Fields that a page prints, so that a command nobody knows would be seen by a reader."""


_LONGEST_CHAIN = 20
_LINK = "correct the key, or delete the field and type what it would give"
_OTHER_KEY = "give it a key of letters, digits, - and _, in its claim file too"
_Ranges = list[tuple[int, int]]


class Sources:
    """Collects the entries of all files; then `finish` resolves what one takes from another."""

    def __init__(self, problems: list[Problem]) -> None:
        self.problems = problems
        self.lost: set[str] = set()
        self._entries: dict[str, RawEntry] = {}
        self._typed: dict[str, RawEntry] = {}
        self._whole: dict[str, dict[str, Field]] = {}

    def add(self, found: BibFile) -> None:
        """Takes the entries of one file."""
        self.lost |= found.lost
        for entry in found.entries:
            key = entry.key
            fault = _key_fault(key)
            if fault:
                rule, message = fault
                plain = re.sub(r"[^\w-]+", "-", "".join(key.split())).strip("-")
                hint = f"call it {plain}" if rule == "not-a-key" and plain.isascii() and plain else _OTHER_KEY
                self.problems.append(error(entry.position, rule, message, hint))
                self.lost |= {key, plain}  # a claim file may name it as it should be called
                continue
            other = self._typed.get(key.casefold())
            if other is not None:
                there = f"{other.position.file}:{other.position.line}"
                same = (
                    "the same key"
                    if other.key == key
                    else f'the key "{other.key}", which differs only in capital letters,'
                )
                message = f'the key "{key}" is used twice: {same} is at {there}'
                hint = "give one of them another key, in its claim file too, or delete one"
                self.problems.append(error(entry.position, "duplicate-key", message, hint))
                if other.key != key:
                    self.lost.add(key)
                continue
            self._typed[key.casefold()] = entry
            self._entries[key] = entry

    def finish(self) -> dict[str, Source]:
        """Every source by its key, in the order of file and entry."""
        result = {}
        for key, entry in self._entries.items():
            if entry.type in ("xdata", "set"):
                continue
            fields = self._inherited(entry, (key,))
            # An unknown type has its own problem, and is often no entry at all but a line of an abstract.
            if entry.type in ENTRY_TYPES and (not fields.get("title") or not fields["title"].text):
                message = f"the entry {key} needs a `title`"
                self.problems.append(error(entry.position, "missing-title", message, "title = {…},"))
            passages = self._passages(entry)
            if passages is None:
                self.lost.add(key)
                continue
            self._check_commands(entry)
            self._check_names(entry)
            refuse_links(entry.fields, self.problems)
            result[key] = Source(key, entry.type, entry.position, fields, passages, entry.raw, entry.strings)
        return result

    def _inherited(self, entry: RawEntry, chain: tuple[str, ...]) -> dict[str, Field]:
        """The fields of an entry with those it takes from others. chain: the keys that led here, its own last."""
        if "crossref" not in entry.fields and "xdata" not in entry.fields:
            return entry.fields
        if entry.key in self._whole:
            return self._whole[entry.key]
        fields = dict(entry.fields)
        for name in ("xdata", "crossref"):
            link = entry.fields.get(name)
            if link is None:
                continue
            for key in dict.fromkeys(part.strip() for part in link.text.split(",")):
                parent = self._entries.get(key)
                if parent is None:
                    if key and key not in self.lost:
                        self._say(link.position, "unknown-crossref", f'no entry has the key "{key}"', _LINK)
                elif key in chain:
                    self._say(
                        link.position,
                        "unknown-crossref",
                        f"`{name}` leads back to {key}, which takes its fields from here",
                        _LINK,
                    )
                elif len(chain) > _LONGEST_CHAIN:
                    tells = f"`{name}` leads through more than {_LONGEST_CHAIN} entries"
                    self._say(link.position, "unknown-crossref", tells, _LINK)
                else:
                    self._take(fields, entry, parent, (*chain, key))
        self._whole[entry.key] = fields
        return fields

    def _take(self, fields: dict[str, Field], child: RawEntry, parent: RawEntry, chain: tuple[str, ...]) -> None:
        is_part_of = child.type in _PARTS and parent.type in _WHOLES
        for name, field in self._inherited(parent, chain).items():
            if name in _NOT_INHERITED:
                continue
            taken = _FROM_WHOLE.get(name, name) if is_part_of else name
            fields.setdefault(taken, field if taken == name else field._replace(name=taken))

    def _passages(self, entry: RawEntry) -> tuple[Passage, ...] | None:
        """The passages in order; None once it is said that one passes a limit, so that nothing is known of them."""
        passages: list[Passage] = []
        lines: dict[str, int] = {}
        slugs: dict[str, str] = {}
        pages = entry.fields.get("pages")
        ranges = page_ranges(pages.text) if pages else None
        is_beyond = False
        for name in ANNOTATIONS:
            field = entry.fields.get(name)
            if field is None:
                continue
            text = field.text
            places = Places(field.position.file, text, field.position)
            for found in locate(text):
                place = places.place(found.start)
                bracket = found.bracket
                if beyond := _beyond(bracket, text[found.text_start : found.text_end]):
                    is_beyond = True
                    self._say(place, "beyond-limit", *beyond)
                    continue
                if bracket in lines:
                    self._say(
                        place,
                        "bracket-twice",
                        f"[{bracket}] is used twice in {entry.key} (also in line {lines[bracket]})",
                        f"join the two passages, or add a word to this one: [{bracket}, Table 2]",
                    )
                    continue
                lines[bracket] = place.line
                if found.slug in slugs:
                    message = (
                        f'[{bracket}] and [{slugs[found.slug]}] have the same short name "{found.slug}" in {entry.key}'
                    )
                    self._say(place, "same-short-name", message, "add a word to one of the two")
                slugs.setdefault(found.slug, bracket)
                if found.text_start == found.text_end:
                    hint = f"type what the report says there, or delete [{bracket}]"
                    self._say(place, "empty-passage", f"no words follow [{bracket}]", hint)
                if ranges and pages and (named := pages_named(bracket)):
                    ranges = self._pages(entry, pages, ranges, bracket, named, place)
                passage_text = text[found.text_start : found.text_end]
                passages.append(Passage(entry.key, bracket, found.slug, passage_text, places.place(found.text_start)))
            for offset, bracket in doubtful_brackets(text):
                self._ask(entry.key, places.place(offset), bracket)
        return None if is_beyond else tuple(passages)

    def _pages(
        self, entry: RawEntry, pages: Field, ranges: _Ranges, bracket: str, named: list[int], place: Position
    ) -> _Ranges | None:
        """Says where a locator names a page outside those of its entry; None once these are told to be reversed."""
        if any(last < first for first, last in ranges):
            message = f"{entry.key} has the pages {pages.text}, of which the last comes before the first"
            turned = re.sub(r"([0-9]+)(\s*[-–—]+\s*)([0-9]+)", r"\3\2\1", pages.text)
            self._say(pages.position, "pages-reversed", message, f"pages = {{{turned}}}")
            return None
        outside = [page for page in named if not any(first <= page <= last for first, last in ranges)]
        if outside:
            message = f"[{bracket}] names page {outside[0]}, but {entry.key} has the pages {pages.text}"
            hint = f"correct the page here, or `pages` at {pages.position.file}:{pages.position.line}"
            self._say(place, "locator-outside-pages", message, hint)
        return ranges

    def _say(self, place: Position, rule: str, message: str, hint: str) -> None:
        self.problems.append(error(place, rule, message, hint))

    def _ask(self, key: str, place: Position, bracket: str) -> None:
        message = f"[{bracket}] is not read as a locator: was a passage meant to begin here?"
        number = re.search(r"[0-9]+", bracket)
        meant = f", such as [p. {number[0]}]" if number else ""
        hint = (
            f"a locator begins with p., Table, Figure, Abstract or the like{meant}\n"
            "if it is text of the report, answer:\n"
            f'acknowledged:\n  - {{rule: doubtful-bracket, printed: "[{bracket}]", by: YOUR INITIALS, reason: "WHY"}}'
        )
        self.problems.append(Problem(place, "doubtful-bracket", "ask", message, hint, f"[{bracket}]", key))

    def _check_names(self, entry: RawEntry) -> None:
        for name in ("author", "editor"):
            field = entry.fields.get(name)
            if field is not None and (fault := undivided_names(field.text)) is not None:
                self._say(field.position, "names-not-divided", *fault)

    def _check_commands(self, entry: RawEntry) -> None:
        for name in _SHOWN:
            field = entry.fields.get(name)
            if field is None or "\\" not in field.text:
                continue
            places = Places(field.position.file, field.text, field.position)
            for offset, command in unknown_commands(field.text):
                command = short(command)
                message = (
                    f"the LaTeX command {command} is not known here, so `{name}` cannot be shown: "
                    "write the character itself"
                )
                hint = f"type what {command} stands for, as it is printed"
                self._say(places.place(offset), "unknown-latex-command", message, hint)


_find_numbers = compiled(r"[0-9]+").finditer


def _beyond(bracket: str, passage: str) -> tuple[str, str] | None:
    """What is said of a passage that passes a limit, or whose locator does."""
    mend = f"type what the claims need, or divide it: [{bracket}, first half], [{bracket}, second half]"
    length = len(passage)
    if len(bracket) > LOCATOR:
        tells = f"the locator [{short(bracket)}] has {len(bracket):,} characters: it may have {LOCATOR}"
        return tells, "name the place in the report in a few words"
    if length > PASSAGE:
        tells = f"[{bracket}] has {length:,} characters: a passage may have {PASSAGE:,}"
        return tells, mend
    numbers = sum(1 for _ in _find_numbers(passage)) if length > 2 * NUMBERS else 0
    if numbers > NUMBERS:
        return f"[{bracket}] holds {numbers:,} numbers: a passage may hold {NUMBERS}", mend
    return None


_BAD_IN_KEY = frozenset("/\\\"'{}()#%~?&<>|*`")


def _key_fault(key: str) -> tuple[str, str] | None:
    """Why this cannot be the key of an entry: rule and message."""
    if not key:
        return "not-a-key", "this entry has no key"
    if len(key) > NAME:
        return "beyond-limit", f'the key "{short(key)}" has {len(key):,} characters: it may have {NAME}'
    if any(character.isspace() for character in key):
        return "not-a-key", f'the key "{" ".join(key.split())}" contains a blank'
    if key[0] == "." or not key.isprintable() or not _BAD_IN_KEY.isdisjoint(key):
        return "not-a-key", f'"{key}" cannot be a key: use letters, digits, "_" and "-" only'
    if key in RESERVED_ADDRESSES:
        return "reserved-name", f'"{key}" is reserved: choose another key'
    return None
