"""One reference of an export: an entry to be, with whatever has no field of its own under the tag it came with."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence

from ...reading.exported import is_with_initials
from ...records import NamedTuple


class Reference(NamedTuple):
    """What one record of an export says."""

    line: int
    """Where it begins in its file, from 1."""
    type: str
    """Of the entry: article, book, ..."""
    fields: dict[str, str]
    """Texts in TeX by the names of biblatex, in the order in which they are written."""
    left_out: tuple[str, ...] = ()
    """Tags that tell of the record in its database and nothing of the paper, in the order of the file."""
    notices: tuple[str, ...] = ()
    """What whoever takes it in should know, each a sentence without a full stop."""
    raw: str = ""
    """The entry itself, where the export was BibTeX and stays as it is."""
    key: str = ""
    """Its key there."""


class CannotRead(Exception):
    """An export, or one record of it, that is none; `line` and `column` count from 1."""

    def __init__(self, message: str, line: int = 1, column: int = 1) -> None:
        super().__init__(message)
        self.line = line
        self.column = column


_SIGNS = {
    "\\": r"\textbackslash{}", "$": r"\$", "%": r"\%", "&": r"\&", "#": r"\#", "_": r"\_", "~": r"\textasciitilde{}",
    "^": r"\textasciicircum{}",
}  # fmt: skip
_find_signs = re.compile(r"[\\$%&#_~^]").sub
_find_runs = re.compile(r"(?<=-)-|(?<=')'|(?<=`)`").sub
# Soft hyphens and characters of no width come along from web pages; a control character is none of any text.
_find_unseen = re.compile("[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]").sub
_find_controls = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff]").sub


def as_tex(text: str) -> str:
    """The text as a field between braces says it: `readable_text` gives it back, blanks collapsed, quotes as printed.

    Braces that stand in pairs only keep capitals, as managers write them, and stay; others go.
    """
    text = _find_unseen("", _find_controls(" ", text))
    text = _find_signs(lambda found: _SIGNS[found[0]], text)
    return _find_runs(lambda found: "{}" + found[0], _balanced(" ".join(text.split())))


def as_address(text: str) -> str:
    """An address of the web or a DOI: its signs are its own, and no TeX."""
    text = _find_unseen("", _find_controls("", text))
    return "".join(text.split()).replace("{", "%7B").replace("}", "%7D")


def _balanced(text: str) -> str:
    """Without the braces that have no partner. A brace behind a backslash was a sign of the text, and is none now."""
    opened: list[int] = []
    alone: set[int] = set()
    at = 0
    while at < len(text):
        sign = text[at]
        if text.startswith(("\\textbackslash{}", "\\textasciitilde{}", "\\textasciicircum{}"), at):
            at = text.index("}", at)
        elif sign == "{":
            opened.append(at)
        elif sign == "}":
            if opened:
                opened.pop()
            else:
                alone.add(at)
        at += 1
    alone.update(opened)
    return "".join(sign for at, sign in enumerate(text) if at not in alone) if alone else text


def as_people(names: Sequence[str]) -> str:
    """The names of an author or editor field, joined as BibTeX joins them."""
    return " and ".join(filter(None, (as_person(each) for name in names for each in _in_one_line(name))))


def _in_one_line(name: str) -> Sequence[str]:
    """ "Sampler E, Okoro T, Marrow IT" is three people, who come in one line of some exports."""
    parts = [part.strip() for part in name.split(",")]
    return parts if len(parts) > 2 and all(map(is_with_initials, parts)) else (name,)


def as_person(name: str) -> str:
    """One name: "Marlow, Ines, Jr" is "Marlow, Jr, Ines", "Marlow IT" is "Marlow, IT"; a body stands in braces."""
    name = " ".join(name.split()).rstrip(",;")
    parts = [part.strip() for part in name.split(",")]
    if len(parts) == 3 and _is_suffix(parts[2]):
        return as_tex(f"{parts[0]}, {parts[2]}, {parts[1]}")
    if len(parts) == 2 or (len(parts) == 3 and _is_suffix(parts[1])):
        return _guarded(as_tex(name))
    if len(parts) == 1 and is_with_initials(name):
        family, _, given = name.rpartition(" ")
        return as_tex(f"{family}, {given}")
    return as_body(name) if " " in name or "," in name else as_tex(name)


def as_body(name: str) -> str:
    """The name of a body, which is never taken apart."""
    text = as_tex(name)
    return f"{{{text}}}" if text else ""


_is_suffix = re.compile(r"(?:Jr|Sr|[IVX]{1,4}|[2-9](?:nd|rd|th))\.?", re.IGNORECASE).fullmatch


def _guarded(name: str) -> str:
    return re.sub(r"(?i)\s(and)\s", r" {\1} ", name)


def as_pages(first: str, last: str = "") -> str:
    """ "131-8", or its two ends apart: "131--8"."""
    pages = re.sub(r"\s*[-\u2010-\u2015\u2212]+\s*", "--", as_tex(first.strip()).replace("{}", ""))
    last = as_tex(last.strip())
    return f"{pages}--{last}" if last and pages and "--" not in pages and last != pages else pages or last


_UNPARTED = str.maketrans(
    {"ß": "ss", "ø": "o", "Ø": "O", "ł": "l", "Ł": "L", "đ": "d", "Đ": "D", "æ": "ae", "Æ": "Ae", "œ": "oe", "Œ": "Oe"}
)


def letters_of(text: str) -> str:
    """Letters and digits alone, in small ASCII where they have a form there: what two typings of a title share."""
    parted = unicodedata.normalize("NFKD", text.translate(_UNPARTED))
    return "".join(letter for letter in parted.casefold() if letter.isalnum())
